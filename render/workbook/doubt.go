package workbook

import (
	"math"
	"strings"

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

// bandCell is low end, median or high end of a band, counted from 0, cut to the digits that
// are stable; what an open end stands for is written out.
func bandCell(q quantity.Quantity, b doubt.Band, end int) cell {
	switch v := render.Worth(q, b, end); {
	case math.IsNaN(v):
		return cell{nil, look{}}
	case math.IsInf(v, 0) || b.Undecided[end]:
		return cell{render.End(q, b, end), look{right: true}}
	default:
		if step := render.Width(q, b.Steps[end]); step > 0 {
			return cell{v, look{format: decimals(step)}}
		}
		return number(q, q.Shown.SI(v))
	}
}

// decimals is the number format that has no digit behind a step; that of whole numbers if
// there is none.
func decimals(step float64) string {
	n := 0
	if step > 0 {
		n = max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	}
	if n == 0 {
		return "0"
	}
	return "0." + strings.Repeat("0", n)
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
		value, low, high := render.WorthIndex(s.Left)
		half := render.WorthHalf(q, s.Half)
		row := p.add(cell{text(s.Action), lookText}, cell{half, look{format: decimals(half / 10)}},
			cell{value, share}, cell{low, share}, cell{high, share})
		p.grow(row, 1, p.widths[0])
	}
}

// leastShare is the finest step to which a share of a variance is shown: what is smaller
// matters to nobody.
const leastShare = 0.001

// sources writes which sources the variance is from, or why that cannot be said, and what was
// drawn.
func (p *page) sources(rep *render.Report) {
	for i, s := range rep.Shares() {
		p.section("Where the doubt of the " + s.Quantity.Label + " is from: shares of its variance")
		if s.Refused != "" {
			p.paragraph("cannot be said: "+s.Refused, lookStrong)
			continue
		}
		if s.Counted != "" {
			p.paragraph(strings.TrimPrefix(s.Counted, "; ")+".", lookQuiet)
		}
		if i == 0 {
			p.paragraph("First-order: what goes on average if the source alone were known. Total: what stays if all but it were known. Each with its 95 % interval; a share below zero says no more than that it is small.", lookQuiet)
		}
		p.add(cell{"source", lookHead}, cell{"first-order", lookHeadR}, cell{"from", lookHeadR}, cell{"to", lookHeadR},
			cell{"total", lookHeadR}, cell{"from", lookHeadR}, cell{"to", lookHeadR})
		for _, r := range s.Rows {
			row := []cell{{text(r.Label), lookText}}
			for _, x := range []doubt.Index{r.First, r.Total} {
				value, low, high := render.WorthIndex(x)
				share := look{format: decimals(max(x.Step(), leastShare)), right: true}
				row = append(row, cell{value, share}, cell{low, share}, cell{high, share})
			}
			p.grow(p.add(row...), 1, p.widths[0])
		}
	}
	p.section("What was drawn")
	p.span(p.add(cell{"source", lookHead}, cell{"limit, and where it is from", lookHead}), 2, len(p.widths))
	for _, s := range rep.Doubt.Sources {
		row := p.add(cell{text(rep.SourceLabel(&s)), lookText}, cell{text(s.Limit + ": " + s.Why), lookText})
		p.span(row, 2, len(p.widths))
		p.grow(row, 1, p.widths[0])
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

// bandColumns are those of the two ends of a 95 % interval.
func bandColumns(label string, q quantity.Quantity) []column {
	return []column{bandColumn(label + ", 95 % from" + unit(q)), bandColumn(label + ", 95 % to" + unit(q))}
}

// bandColumn is a column of ends of bands: each has its own digits.
func bandColumn(head string) column {
	return column{head: head, look: look{right: true, indent: true}, width: 16}
}

// sureColumn is a column of the table of designs that says how sure an answer is.
type sureColumn struct {
	column
	of func(*doubt.Result) any
}

// sureColumns lists those that stand behind the others; none if nothing was assessed.
func sureColumns(rep *render.Report) []sureColumn {
	if rep.Doubt == nil {
		return nil
	}
	var list []sureColumn
	band := func(head string, q quantity.Quantity, of func(*doubt.Result) doubt.Band) {
		for _, end := range []int{1, 0, 2} {
			tail := [...]string{", 95 % from", ", median", ", 95 % to"}[end]
			list = append(list, sureColumn{bandColumn(head + tail + unit(q)), func(r *doubt.Result) any { return bandCell(q, of(r), end).value }})
		}
	}
	metric, difference := rep.Metric().Quantity, quantity.Must("difference")
	band(text(rep.Challenger().Name)+" at the study's speed", metric, func(r *doubt.Result) doubt.Band { return r.Challenger })
	band(text(rep.Reference().Name), metric, func(r *doubt.Result) doubt.Band { return r.Reference })
	band("challenger minus reference at the study's speed", difference, func(r *doubt.Result) doubt.Band { return r.Difference })
	for _, s := range []struct {
		head string
		of   func(*doubt.Result) float64
	}{
		{"probability that the challenger wins", func(r *doubt.Result) float64 { return r.Win }},
		{"ties", func(r *doubt.Result) float64 { return r.Tie }},
		{"loses", func(r *doubt.Result) float64 { return r.Lose }},
		{"has a break-even", func(r *doubt.Result) float64 { return r.Exists }},
	} {
		list = append(list, sureColumn{column{head: s.head, look: look{format: "0 %", right: true, indent: true}, width: 16}, func(r *doubt.Result) any { return chance(r, s.of(r)) }})
	}
	count := func(head string, of func(*doubt.Result) int) {
		list = append(list, sureColumn{countColumn(head), func(r *doubt.Result) any { return of(r) }})
	}
	count("draws", func(r *doubt.Result) int { return r.Draws })
	count("draws without a value", (*doubt.Result).WithoutValue)
	list = append(list, sureColumn{textColumn("draws settled", 12), func(r *doubt.Result) any {
		if r.Capped {
			return "at the cap"
		}
		return "yes"
	}})
	return list
}

// chance is a share of the draws for a cell: in words next to nothing and to all, where whole
// percent would claim a certainty.
func chance(r *doubt.Result, share float64) any {
	if share > 0 && share < 0.005 || share < 1 && share > 0.995 {
		return render.Chance(r, share)
	}
	return render.WorthShare(r, share)
}
