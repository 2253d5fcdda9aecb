package workbook

import (
	"math"

	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/doubt"
)

// sheetDoubt says how sure the answers are.
const sheetDoubt = "Doubt"

// sure writes the sheet that says how sure the answers are: the study's own design in
// full, then what was drawn, what each source is worth, and where it is from.
func (b *book) sure(rep *render.Report) error {
	p := &page{name: sheetDoubt, widths: []float64{50, 14, 14, 14, 14, 14, 14, 40}}
	if err := b.setWidths(p.name, p.widths); err != nil {
		return err
	}
	if err := b.layout(p.name, "landscape"); err != nil {
		return err
	}
	p.paragraph("How sure the answers are: drawn from what is not known of both setups (JCGM 101:2008). An error that both share is drawn once for both, and most of it cancels in the difference.", lookQuiet)
	p.section("The design nearest to the study's challenger")
	s, ok := rep.Sureness(rep.Doubt.Base)
	if !ok {
		p.paragraph("was not drawn: the study leaves it out.", lookStrong)
		return b.write(p)
	}
	p.bands(s)
	if own := rep.Doubt.Own; own != nil {
		p.section("What to measure first, if it were then known exactly")
		p.ranking(&own.Ranking)
	}
	p.sources(rep)
	return b.write(p)
}

// bands writes the results with their intervals.
func (p *page) bands(s render.Sureness) {
	p.paragraph(render.Sentence(s.Head), lookQuiet)
	if s.Lines != nil {
		p.add(cell{"", lookHead}, cell{"median", lookHeadR}, cell{"95 % from", lookHeadR}, cell{"to", lookHeadR})
	}
	for _, l := range s.Lines {
		row := []cell{{text(l.Label + unit(l.Quantity)), lookText}}
		for _, end := range []int{1, 0, 2} {
			row = append(row, bandCell(l.Quantity, l.Band, end))
		}
		p.add(row...)
	}
	for _, t := range s.Texts {
		p.paragraph(t, lookText)
	}
}

// bandCell is low end, median or high end of a band, counted from 0; what an open end
// stands for is written out.
func bandCell(q quantity.Quantity, b doubt.Band, end int) cell {
	v, ok := worth(b, end)
	switch {
	case math.IsNaN(v):
		return cell{nil, look{}}
	case !ok || b.Undecided[end]:
		return cell{render.End(q, b, end), look{right: true}}
	}
	return number(q, v)
}

// worth returns an end of a band rounded to what it is worth printing, and false if it is
// not finite.
func worth(b doubt.Band, end int) (float64, bool) {
	v, step := []float64{b.Low, b.Median, b.High}[end], b.Steps[end]
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return v, false
	}
	if step > 0 && !math.IsInf(step, 0) {
		v = math.Round(v/step) * step
	}
	return v, true
}

// ranking writes what to measure first, the most useful first.
func (p *page) ranking(r *doubt.Ranking) {
	if r.Refused != "" {
		p.paragraph("cannot be said: "+render.Sentence(r.Refused), lookStrong)
		return
	}
	q := quantity.Must(r.Of)
	title := "half of the 95 % interval of the " + q.Label + unit(q)
	if r.Why != "" {
		title += " (" + r.Why + ")"
	}
	p.paragraph(title+": now "+render.WithUnit(q, render.Half(q, r.Half))+".", lookText)
	p.add(cell{"", lookHead}, cell{"then about", lookHeadR}, cell{"share left", lookHeadR}, cell{"from", lookHeadR}, cell{"to", lookHeadR})
	share := look{format: "0 %", right: true}
	for _, s := range r.Steps {
		row := p.add(cell{text(s.Action), lookText}, number(q, s.Half),
			cell{s.Left.Value, share}, cell{s.Left.Low, share}, cell{s.Left.High, share})
		p.grow(row, 1, p.widths[0])
	}
}

// sources writes what was drawn, with its indices.
func (p *page) sources(rep *render.Report) {
	p.section("What is in doubt, and its share of the variance")
	var of []doubt.Sensitivity
	if own := rep.Doubt.Own; own != nil {
		of = own.Indices
	}
	for _, s := range of {
		if s.Refused != "" {
			q := quantity.Must(s.Of)
			p.paragraph("No shares of the variance of the "+q.Label+": "+render.Sentence(s.Refused), lookStrong)
		}
	}
	p.paragraph("First: what goes on average if the source alone were known. Total: what stays if all but it were known. Both of the difference, with their 95 % intervals; a share below zero says no more than that it is small.", lookQuiet)
	p.add(cell{"source", lookHead}, cell{"first", lookHeadR}, cell{"from", lookHeadR}, cell{"to", lookHeadR},
		cell{"total", lookHeadR}, cell{"from", lookHeadR}, cell{"to", lookHeadR}, cell{"limit, and where it is from", lookHead})
	share := look{format: "0.000", right: true}
	for j, s := range rep.Doubt.Sources {
		label := s.Label
		switch s.Of {
		case doubt.Both:
			label += " (common)"
		case doubt.Challenger:
			label += " of " + rep.Challenger().Name
		case doubt.Reference:
			label += " of " + rep.Reference().Name
		}
		row := []cell{{text(label), lookText}}
		for range 6 {
			row = append(row, cell{nil, share})
		}
		if len(of) > 0 && of[0].Indices.First != nil {
			first, total := of[0].Indices.First[j], of[0].Indices.Total[j]
			for i, v := range []float64{first.Value, first.Low, first.High, total.Value, total.Low, total.High} {
				row[1+i].value = v
			}
		}
		n := p.add(append(row, cell{text(s.Limit + ": " + s.Why), lookText})...)
		p.grow(n, 1, p.widths[0])
		p.grow(n, 8, p.widths[7])
	}
}

// sureness says on the summary how sure the base design's answer is.
func (p *page) sureness(rep *render.Report, d *render.Digest) {
	if d.Base == nil {
		return
	}
	s, ok := rep.Sureness(d.Base.Design)
	if !ok {
		return
	}
	p.section("How sure that is")
	p.bands(s)
	for i, t := range s.First {
		if i == 0 {
			t = "Measure first: " + t
		}
		p.paragraph(t, lookText)
	}
}

// sureColumn is a column of the table of designs that says how sure an answer is.
type sureColumn struct {
	column
	of func(*doubt.Result) any
}

// sureColumns lists them; none if nothing was assessed.
func sureColumns(rep *render.Report) []sureColumn {
	if rep.Doubt == nil {
		return nil
	}
	var list []sureColumn
	end := func(head string, q quantity.Quantity, of func(*doubt.Result) doubt.Band, end int) {
		list = append(list, sureColumn{numberColumn(head+unit(q), q), func(r *doubt.Result) any {
			return bandCell(q, of(r), end).value
		}})
	}
	speed, upper, difference := quantity.Must("breakeven_speed"), quantity.Must("breakeven_upper_speed"), quantity.Must("difference")
	breakeven := func(r *doubt.Result) doubt.Band { return r.Breakeven }
	end("break-even speed, 95 % from", speed, breakeven, 0)
	end("break-even speed, 95 % to", speed, breakeven, 2)
	highest := func(r *doubt.Result) doubt.Band { return r.Upper }
	end(upper.Label+", 95 % from", upper, highest, 0)
	end(upper.Label+", 95 % to", upper, highest, 2)
	between := func(r *doubt.Result) doubt.Band { return r.Difference }
	end("challenger minus reference at the study's speed, median", difference, between, 1)
	end("the same, 95 % from", difference, between, 0)
	end("the same, 95 % to", difference, between, 2)
	for _, s := range []struct {
		head string
		of   func(*doubt.Result) float64
	}{
		{"probability that the challenger wins", func(r *doubt.Result) float64 { return r.Win }},
		{"ties", func(r *doubt.Result) float64 { return r.Tie }},
		{"loses", func(r *doubt.Result) float64 { return r.Lose }},
		{"has a break-even", func(r *doubt.Result) float64 { return r.Exists }},
	} {
		list = append(list, sureColumn{column{head: s.head, look: look{format: "0 %", right: true, indent: true}, width: 16}, func(r *doubt.Result) any { return s.of(r) }})
	}
	count := func(head string, of func(*doubt.Result) int) {
		list = append(list, sureColumn{countColumn(head), func(r *doubt.Result) any { return of(r) }})
	}
	count("draws", func(r *doubt.Result) int { return r.Draws })
	count("draws without a value", (*doubt.Result).WithoutValue)
	return list
}
