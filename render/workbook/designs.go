package workbook

import (
	"fmt"
	"iter"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
)

// designs writes the sheet with one row a design, of the first of them if they are
// more than most.
func (b *book) designs(rep *render.Report, most int) error {
	axes := rep.DesignAxes()
	t := table{
		name: sheetDesigns, frozen: 2 + len(axes), rows: min(rep.CountAnswers(), most),
		title:   fmt.Sprintf("How each design of %s compares with %s, %s.", text(rep.Challenger().Name), text(rep.Reference().Name), render.Counted(rep.CountAnswers(), "design")),
		columns: []column{countColumn("design")},
	}
	if t.rows < rep.CountAnswers() {
		t.title += fmt.Sprintf(" These are the first %d: breakeven.csv has all.", t.rows)
	}
	for _, i := range axes {
		t.columns = append(t.columns, givenColumn(rep.Study.Axes[i].Input.Quantity))
	}
	metric, difference := rep.Metric(), quantity.Must("difference")
	compared := rep.Compared()
	t.columns = append(t.columns, textColumn("status", 10))
	speed, slope := quantity.Must("fan_speed"), quantity.Must("slope")
	margin := fmt.Sprintf("%g K", breakeven.Margin(rep.Study))
	drawn := rep.Doubt != nil
	ends := func(label string, q quantity.Quantity) { // those of the 95 % interval
		if drawn {
			t.columns = append(t.columns, bandColumns(label, q)...)
		}
	}
	for _, key := range []string{"breakeven_speed", "breakeven_upper_speed"} {
		q, end := quantity.Must(key), ""
		if key == "breakeven_upper_speed" {
			end = "upper end "
		}
		t.columns = append(t.columns, numberColumn(q.Title(), q))
		ends(q.Label, q)
		t.columns = append(t.columns,
			numberColumn(end+"within "+margin+": from"+unit(speed), speed), numberColumn(end+"within "+margin+": to"+unit(speed), speed),
			numberColumn(end+"slope"+unit(slope), slope), textColumn(end+"determined", 14))
	}
	t.columns = append(t.columns, numberColumn("tie from"+unit(speed), speed), numberColumn("tie to"+unit(speed), speed))
	for _, key := range []string{"sensible_speed", "best_speed"} {
		q := quantity.Must(key)
		t.columns = append(t.columns, numberColumn(q.Title(), q))
	}
	at := func(where string, o model.Output) {
		t.columns = append(t.columns, numberColumn(o.Label+" "+where+unit(o.Quantity), o.Quantity))
	}
	for _, where := range []string{"at break-even", "at best speed", "of the reference"} {
		at(where, metric)
		ends(metric.Label+" "+where, metric.Quantity)
	}
	const best = "best speed: challenger minus reference"
	t.columns = append(t.columns, numberColumn(best+unit(difference), difference))
	ends(best, difference)
	for _, o := range compared[1:] {
		at("at break-even", o)
	}
	t.columns = append(t.columns, textColumn("limiting term", 16), numberColumn("its excess over the reference"+unit(difference), difference),
		textColumn("warnings at break-even", 30))
	sure := sureColumns(rep)
	for _, c := range sure {
		t.columns = append(t.columns, c.column)
	}
	t.columns = append(t.columns, textColumn("reason", 70))

	next, stop := iter.Pull(rep.EachAnswer)
	defer stop()
	t.row = func(_ int, into []any) {
		a, ok := next()
		if !ok {
			return
		}
		into[0] = a.Design
		at := 1
		put := func(v any) {
			into[at] = v
			at++
		}
		for _, axis := range axes {
			put(shown(rep.Study.Axes[axis].Input.Quantity, rep.DesignValue(a.Design, axis)))
		}
		put(a.Status.String())
		into[len(into)-1] = text(a.Reason)
		r, assessed := rep.Doubt.Of(a.Design)
		if assessed {
			for j, c := range sure {
				into[len(into)-1-len(sure)+j] = c.of(r)
			}
		}
		if !render.Answered(a) {
			return
		}
		lower, upper := render.Ends(a)
		var equal *model.State
		if lower != nil {
			equal = &lower.State
		}
		putIf := func(has bool, q quantity.Quantity, si float64) {
			if has {
				put(shown(q, si))
			} else {
				put(nil)
			}
		}
		putEnds := func(q quantity.Quantity, b doubt.Band, has bool) {
			if !drawn {
				return
			}
			for _, end := range []int{0, 2} {
				if has {
					put(bandCell(q, b, end).value)
				} else {
					put(nil)
				}
			}
		}
		for _, end := range []struct {
			c  *breakeven.Crossing
			q  quantity.Quantity
			of func(*doubt.Result) doubt.Band
		}{
			{lower, quantity.Must("breakeven_speed"), func(r *doubt.Result) doubt.Band { return r.Breakeven }},
			{upper, quantity.Must("breakeven_upper_speed"), func(r *doubt.Result) doubt.Band { return r.Upper }},
		} {
			c := end.c
			putIf(c != nil, speed, speedOf(c))
			band := doubt.Band{}
			if assessed {
				band = end.of(r)
			}
			putEnds(end.q, band, assessed)
			if c == nil {
				at += 4
				continue
			}
			put(shown(speed, c.Tie.Low))
			put(shown(speed, c.Tie.High))
			put(shown(slope, c.Slope))
			put(render.Determined(c))
		}
		tie := a.Status == breakeven.Tie
		putIf(tie, speed, a.Tie.Low)
		putIf(tie, speed, a.Tie.High)
		put(shown(speed, a.Sensible.Speed))
		put(shown(speed, a.Best.Speed))
		atBest := render.PlaceDoubt{}
		for _, p := range []struct {
			speed float64
			state *model.State
		}{{speedOf(lower), equal}, {a.Best.Speed, &a.Best.State}, {0, &a.Reference}} {
			putIf(p.state != nil, metric.Quantity, get(metric, p.state))
			d, ok := render.PlaceDoubt{}, false
			if p.state != nil {
				d, ok = rep.DoubtAt(a, &render.Place{Speed: p.speed, State: p.state})
			}
			putEnds(metric.Quantity, d.Band, ok)
			if p.state == &a.Best.State {
				atBest = d
			}
		}
		put(shown(difference, a.Best.Difference))
		putEnds(difference, atBest.Difference, atBest.Draws > 0)
		for _, o := range compared[1:] {
			putIf(equal != nil, o.Quantity, get(o, equal))
		}
		put(render.LimitLabel(a))
		putIf(a.Limit.Term != "", difference, a.Limit.Excess)
		if equal != nil {
			put(equal.Warnings.Keys())
		}
	}
	return b.writeTable(&t)
}

// speedOf returns the speed of a crossing that may be nil.
func speedOf(c *breakeven.Crossing) float64 {
	if c == nil {
		return 0
	}
	return c.Speed
}

// get returns an output of a state that may be nil.
func get(o model.Output, s *model.State) float64 {
	if s == nil {
		return 0
	}
	return o.Get(s)
}

// unit returns the shown unit of a quantity as it follows a label.
func unit(q quantity.Quantity) string {
	if q.Shown.Symbol == "" {
		return ""
	}
	return ", " + q.Shown.Symbol
}
