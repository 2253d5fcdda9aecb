package workbook

import (
	"fmt"
	"iter"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/doubt"
)

// points writes the sheet of all points, of the first of them if they are more
// than most.
func (b *book) points(rep *render.Report, most int) error {
	all := rep.Results.Len()
	t := table{
		name: sheetPoints, frozen: 1 + len(rep.Study.Axes), rows: min(all, most),
		title:   fmt.Sprintf("Every point that was evaluated, %s. A point without a value has blank cells and its reason at the end.", render.Counted(all, "row")),
		columns: []column{countColumn("point")},
	}
	if t.rows < all {
		t.title = fmt.Sprintf("The first %s of %s points that were evaluated: the folder points has all. A point without a value has blank cells and its reason at the end.", render.Whole(t.rows), render.Whole(all))
	}
	for _, a := range rep.Study.Axes {
		t.columns = append(t.columns, givenColumn(a.Input.Quantity))
	}
	t.columns = append(t.columns, textColumn("status", 9))
	for _, o := range model.Outputs {
		t.columns = append(t.columns, outputColumn(o))
	}
	level, difference := quantity.Must("reference_over_air"), quantity.Must("difference")
	t.columns = append(t.columns, numberColumn(level.Title(), level), numberColumn(difference.Title(), difference))
	bands := rep.PointBands()
	for _, band := range bands {
		t.columns = append(t.columns, bandColumns(band.Quantity.Label, band.Quantity)...)
	}
	if bands != nil {
		t.title += fmt.Sprintf(" 95 %%: the interval, where it was drawn: of the reference in every design that was, of the challenger and the difference at the speeds of the study's own design (%d at most), and elsewhere at the speed at which the two are compared. All other numbers are single evaluations of the numbers as given.", doubt.CurveSpeeds)
	}
	t.columns = append(t.columns, textColumn("warnings", 34), textColumn("reason", 60))

	metric := rep.Results.Plan.Metric()
	next, stop := iter.Pull(rep.Results.Each)
	defer stop()
	t.row = func(_ int, into []any) {
		row, ok := next()
		if !ok {
			return
		}
		into[0] = row.Point
		at := 1
		put := func(v any) {
			into[at] = v
			at++
		}
		for axis, a := range rep.Study.Axes {
			put(shown(a.Input.Quantity, a.Values[rep.Results.Plan.Step(row.Point, axis)]))
		}
		if row.Failure != "" {
			put("failed")
			into[len(into)-1] = text(row.Failure)
			return
		}
		put("ok")
		for _, o := range model.Outputs {
			put(shown(o.Quantity, o.Get(&row.State)))
		}
		put(shown(level, row.Reference))
		put(shown(difference, metric(&row.State)-row.Reference))
		for _, band := range bands {
			b, ok := band.Of(row.Point)
			for _, end := range []int{0, 2} {
				if ok {
					put(bandCell(band.Quantity, b, end).value)
				} else {
					put(nil)
				}
			}
		}
		put(row.State.Warnings.Keys())
	}
	return b.writeTable(&t)
}
