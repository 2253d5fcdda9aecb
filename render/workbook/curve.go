package workbook

import (
	"cmp"
	"math"
	"slices"

	"github.com/xuri/excelize/v2"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
)

// curve is the base design over fan speed, and what is marked on it.
type curve struct {
	rep   *render.Report
	base  *breakeven.Answer // nil if there is none
	rows  []*sweep.Row      // rising in speed
	level float64           // of the reference, SI
	marks []mark
	drawn bool // whether there is anything to draw

	// The 95 % intervals of each row: of challenger, reference and their difference, from and
	// to; nil without any.
	intervals [][]cell

	axisX, axisY axis // in the units shown
	above        int  // points that lie above the top of the chart
}

// mark is a remarkable point of the curve.
type mark struct {
	name  string
	speed float64 // rev/s
	value float64 // of the metric, SI
	shape string  // of its marker (ECMA-376 part 1, 21.2.3.27)
	side  string  // where its label stands (ECMA-376 part 1, 21.2.3.10)
	shift float64 // how far to the right of there, as a share of the chart's width

	place render.Place // for how sure it is
}

// axis is the range and the step of an axis of the chart.
type axis struct{ low, high, step float64 }

// newCurve picks the base design's rows. It is empty if there is no base design.
func newCurve(rep *render.Report) *curve {
	c := &curve{rep: rep}
	base := rep.Digest().Base
	if base == nil {
		return c
	}
	c.base = base
	for _, k := range rep.Line(base.Design) {
		if row, ok := rep.Results.Row(k); ok {
			c.rows = append(c.rows, row)
		}
	}
	slices.SortStableFunc(c.rows, func(a, b *sweep.Row) int {
		return cmp.Compare(rep.Speed(a.Point), rep.Speed(b.Point))
	})
	c.intervals = c.drawnIntervals()
	if !render.Answered(base) {
		return c
	}
	metric := rep.Results.Plan.Metric()
	c.level = metric(&base.Reference)
	lower, upper := render.Ends(base)
	if lower != nil {
		c.mark("break-even at "+render.PlusMinus(lower)+" rpm", render.Place{Speed: lower.Speed, State: &lower.State, Crossing: lower}, "diamond", "t", 0.07)
	}
	if upper != nil {
		c.mark("upper end at "+render.PlusMinus(upper)+" rpm", render.Place{Speed: upper.Speed, State: &upper.State, Crossing: upper}, "square", "t", -0.07)
	}
	c.mark("best at "+render.Computed("fan_speed", base.Best.Speed), render.Place{Speed: base.Best.Speed, State: &base.Best.State}, "triangle", "b", 0)
	c.scale()
	return c
}

// drawnIntervals returns the intervals of the rows.
func (c *curve) drawnIntervals() [][]cell {
	if c.rep.Doubt == nil || c.rep.Doubt.Own == nil {
		return nil
	}
	own := c.rep.Doubt.Own
	metric, difference := c.rep.Metric().Quantity, quantity.Must("difference")
	list := make([][]cell, len(c.rows))
	for i, r := range c.rows {
		list[i] = make([]cell, 6)
		if at, ok := own.At(c.rep.Speed(r.Point)); ok {
			for j, b := range []doubt.Band{at.Challenger, own.Result.Reference, at.Difference} {
				q := []quantity.Quantity{metric, metric, difference}[j]
				list[i][2*j], list[i][2*j+1] = bandCell(q, b, 0), bandCell(q, b, 2)
			}
		}
	}
	return list
}

// interval returns one end of the intervals of all rows: 0 and 1 of the challenger, 2 and 3
// of the reference, from and to.
func (c *curve) interval(end int) (values []any, known bool) {
	for _, cells := range c.intervals {
		v, ok := cells[end].value.(float64)
		if known = known || ok; ok {
			values = append(values, v)
		} else {
			values = append(values, nil)
		}
	}
	return values, known
}

// mark adds a mark by its label. The label is shifted away from the curve,
// which falls towards a break-even and rises from the upper end of a band.
func (c *curve) mark(name string, at render.Place, shape, side string, shift float64) {
	c.marks = append(c.marks, mark{name, at.Speed, c.rep.Results.Plan.Metric()(at.State), shape, side, shift, at})
}

// scale chooses the axes. Near the low end of the speeds the curve may rise to
// many times what matters; the axis ends at twice the reference then.
func (c *curve) scale() {
	metric, speed := c.rep.Metric(), quantity.Must("fan_speed")
	level := metric.Shown.Shown(c.level)
	fastest, lowest, highest := 0.0, level, level
	see := func(rev, si float64) {
		v := metric.Shown.Shown(si)
		fastest = max(fastest, speed.Shown.Shown(rev))
		lowest, highest = min(lowest, v), max(highest, v)
	}
	for _, m := range c.marks {
		see(m.speed, m.value)
	}
	for end := range 4 {
		values, _ := c.interval(end)
		for _, v := range values {
			if v, ok := v.(float64); ok {
				lowest = min(lowest, v)
				if end >= 2 {
					highest = max(highest, v)
				}
			}
		}
	}
	marked := highest
	for _, row := range c.rows {
		if row.Failure == "" {
			see(c.rep.Speed(row.Point), metric.Get(&row.State))
		}
	}
	highest = min(highest, max(2*level, 1.2*marked))
	if math.IsNaN(lowest+highest+fastest) || math.IsInf(lowest+highest+fastest, 0) {
		return
	}
	c.drawn = true
	c.axisX = axisFor(0, 1.06*fastest) // room for the label of a mark at the end
	for i, m := range c.marks {
		if speed.Shown.Shown(m.speed) < 0.15*c.axisX.high {
			c.marks[i].side, c.marks[i].shift = "r", 0
		}
	}
	c.axisY = axisFor(lowest-0.15*(highest-lowest), highest)
	for _, row := range c.rows {
		if row.Failure == "" && metric.Shown.Shown(metric.Get(&row.State)) > c.axisY.high {
			c.above++
		}
	}
}

// axisFor returns an axis that holds low and high, in five to fourteen steps of 1,
// 2 or 5 times a power of ten.
func axisFor(low, high float64) axis {
	span := high - low
	if span <= 0 {
		span = max(math.Abs(high), 1)
		low, high = high-span/2, high+span/2
	}
	step := math.Pow(10, math.Floor(math.Log10(span/5)))
	for _, times := range []float64{5, 2} {
		if span/(times*step) >= 5 {
			step *= times
			break
		}
	}
	return axis{math.Floor(low/step) * step, math.Ceil(high/step) * step, step}
}

// heads of the columns that the chart names its lines by.
func (c *curve) heads() (challenger, reference string) {
	label := c.rep.Metric().Title()
	r := c.rep.Reference()
	return text(c.rep.Challenger().Name) + ": " + label,
		text(r.Name) + " at " + render.WithUnit(quantity.Must("fan_speed"), render.Number(quantity.Must("fan_speed"), r.Rig.Speed)) + ": " + label
}

// curve writes the sheet of the base design over fan speed.
func (b *book) curve(c *curve) error {
	p := &page{name: sheetCurve, widths: []float64{12, 17, 17, 15, 14, 15, 13, 10, 4, 26, 12, 15, 12, 12, 12, 12, 4, 12, 12, 12, 12, 12, 12, 10, 12}}
	p.add(cell{"The base design over fan speed, and its reference: what the chart on the summary is drawn from.", look{quiet: true}})
	challenger, reference := c.heads()
	metric, speed, difference := c.rep.Metric(), quantity.Must("fan_speed"), quantity.Must("difference")
	head := lookHeadR
	cells := []cell{{speed.Title(), head}, {challenger, head}, {reference, head}, {difference.Title(), head}}
	var outputs []model.Output
	for _, key := range []string{"airflow", "fan_power", "sound"} {
		o, _ := model.OutputOf(key)
		outputs = append(outputs, o)
		cells = append(cells, cell{o.Title(), head})
	}
	cells = append(cells, cell{"status", look{bold: true, filled: true, wrapped: true, indent: true}}, cell{}, cell{"mark", lookHead}, cell{speed.Title(), head}, cell{metric.Title(), head})
	sure := c.rep.Doubt != nil && c.rep.Doubt.Own != nil
	if sure {
		cells = append(cells, cell{speed.Label + ", 95 % from" + unit(speed), head}, cell{"to" + unit(speed), head},
			cell{metric.Label + ", 95 % from" + unit(metric.Quantity), head}, cell{"to" + unit(metric.Quantity), head}, cell{}, cell{text(c.rep.Challenger().Name) + ", 95 % from" + unit(metric.Quantity), head}, cell{"to" + unit(metric.Quantity), head},
			cell{text(c.rep.Reference().Name) + ", 95 % from" + unit(metric.Quantity), head}, cell{"to" + unit(metric.Quantity), head},
			cell{difference.Label + ", 95 % from" + unit(difference), head}, cell{"to" + unit(difference), head},
			cell{"draws", head}, cell{"draws without a value", head})
	}
	row := p.add(cells...)
	for i, cell := range cells {
		if cell.value != nil {
			p.grow(row, i+1, p.widths[i])
		}
	}
	for i := range max(len(c.rows), len(c.marks)) {
		cells := make([]cell, len(p.widths))
		if i < len(c.rows) {
			r := c.rows[i]
			cells[0] = number(speed, c.rep.Speed(r.Point))
			cells[7] = cell{"failed", look{indent: true}}
			if r.Failure == "" {
				v := metric.Get(&r.State)
				cells[1], cells[2], cells[3] = number(metric.Quantity, v), number(metric.Quantity, r.Reference), number(difference, v-r.Reference)
				for j, o := range outputs {
					cells[4+j] = number(o.Quantity, o.Get(&r.State))
				}
				cells[7].value = "ok"
			}
			if sure {
				own := c.rep.Doubt.Own
				if at, ok := own.At(c.rep.Speed(r.Point)); ok {
					copy(cells[17:], c.intervals[i])
					count := look{format: "0"}
					cells[23], cells[24] = cell{at.Draws, count}, cell{at.NoValue, count}
				}
			}
		}
		if i < len(c.marks) {
			m := c.marks[i]
			cells[9], cells[10], cells[11] = cell{m.name, look{}}, number(speed, m.speed), number(metric.Quantity, m.value)
			if b, q, ok := c.rep.SpeedDoubt(c.base, &m.place); ok {
				cells[12], cells[13] = bandCell(q, b, 0), bandCell(q, b, 2)
			}
			if d, ok := c.rep.DoubtAt(c.base, &m.place); ok {
				cells[14], cells[15] = bandCell(metric.Quantity, d.Band, 0), bandCell(metric.Quantity, d.Band, 2)
			}
		}
		p.add(cells...)
	}
	if err := b.setWidths(p.name, p.widths); err != nil {
		return err
	}
	if err := b.layout(p.name, "landscape"); err != nil {
		return err
	}
	if err := b.file.SetPanes(p.name, &excelize.Panes{
		Freeze: true, YSplit: headRow, TopLeftCell: "A3", ActivePane: "bottomLeft",
	}); err != nil {
		return err
	}
	return b.write(p)
}

// number is a cell with a computed number.
func number(q quantity.Quantity, si float64) cell {
	return cell{shown(q, si), look{format: formatOf(q)}}
}
