package workbook

import (
	"fmt"
	"iter"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
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
	for _, key := range []string{"breakeven_speed", "breakeven_upper_speed"} {
		q, end := quantity.Must(key), ""
		if key == "breakeven_upper_speed" {
			end = "upper end "
		}
		t.columns = append(t.columns, numberColumn(q.Title(), q),
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
	at("at break-even", metric)
	at("at best speed", metric)
	at("of the reference", metric)
	t.columns = append(t.columns, numberColumn("best speed: challenger minus reference"+unit(difference), difference))
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
		if r, ok := rep.Doubt.Of(a.Design); ok {
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
		for _, c := range []*breakeven.Crossing{lower, upper} {
			if c == nil {
				at += 5
				continue
			}
			put(shown(speed, c.Speed))
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
		putIf(equal != nil, metric.Quantity, get(metric, equal))
		put(shown(metric.Quantity, metric.Get(&a.Best.State)))
		put(shown(metric.Quantity, metric.Get(&a.Reference)))
		put(shown(difference, a.Best.Difference))
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
