package workbook

import (
	"fmt"

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
		name: sheetDesigns, frozen: 2 + len(axes), rows: min(len(rep.Answers), most),
		title:   fmt.Sprintf("How each design of %s compares with %s, %s.", text(rep.Challenger().Name), text(rep.Reference().Name), render.Counted(len(rep.Answers), "design")),
		columns: []column{countColumn("design")},
	}
	if t.rows < len(rep.Answers) {
		t.title += fmt.Sprintf(" These are the first %d: breakeven.csv has all.", t.rows)
	}
	for _, i := range axes {
		t.columns = append(t.columns, givenColumn(rep.Study.Axes[i].Input.Quantity))
	}
	metric, difference := rep.Metric(), quantity.Must("difference")
	compared := rep.Compared()
	t.columns = append(t.columns, textColumn("status", 10))
	for _, key := range []string{"breakeven_speed", "breakeven_upper_speed", "best_speed"} {
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

	t.row = func(i int, into []any) {
		a := &rep.Answers[i]
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
		speed := quantity.Must("fan_speed")
		putIf := func(has bool, q quantity.Quantity, si float64) {
			if has {
				put(shown(q, si))
			} else {
				put(nil)
			}
		}
		putIf(lower != nil, speed, speedOf(lower))
		putIf(upper != nil, speed, speedOf(upper))
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

// speedOf returns the speed of a crossing that may be nil, rev/s.
func speedOf(c *breakeven.Crossing) float64 {
	if c == nil {
		return 0
	}
	return c.Speed
}

// unit returns the shown unit of a quantity as it follows a label.
func unit(q quantity.Quantity) string {
	if q.Shown.Symbol == "" {
		return ""
	}
	return ", " + q.Shown.Symbol
}
