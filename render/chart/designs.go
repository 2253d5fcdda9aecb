package chart

import (
	"cmp"
	"math"
	"slices"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
)

// curve is one design of the challenger over its fan speed.
type curve struct {
	look
	name   string // value of the axis that tells the lines apart; the setup's name if there is none
	base   bool   // the design nearest to the study's challenger
	answer *breakeven.Answer
	points []point // by rising speed
	sure   string  // how sure its break-even is; empty if that was not drawn
	shift  float64 // of its markers, 0 to below 1, so that those of different lines do not coincide
}

// point is a design at one speed.
type point struct {
	speed     float64 // in the unit shown
	value     float64 // the metric, in the unit shown
	reference float64 // the reference's, in the unit shown
	state     *model.State
	outside   bool // of the range of the correlations
	missing   bool // has no value
	leftOut   bool // by the study; missing, too
	unreached bool // by the fans' drive; missing, too
	between   bool // not a point of the plan: a break-even or the best speed
}

// beyond are the warnings of a value outside the range of the correlations.
const beyond = model.AirReynoldsLow | model.AirReynoldsHigh | model.CoreOutsideRange

// family is the designs that are drawn as lines.
type family struct {
	axis   int // the axis that tells them apart; -1: there is only the base design
	curves []curve
	more   int // designs of the axis that are not drawn
}

// drawn returns the axis of the family for facts.
func (f *family) drawn() []int {
	if f.axis < 0 {
		return nil
	}
	return []int{f.axis}
}

// familyOf picks the designs to draw: one for each fin density, or for each value
// of the first other axis, all else held. Of more than there are looks those
// spread evenly are drawn, and the base design in any case.
func familyOf(rep *render.Report) family {
	f := family{axis: -1}
	for _, i := range rep.FreeAxes() {
		if f.axis < 0 || rep.Study.Axes[i].Input.Key == "fin_density" {
			f.axis = i
		}
	}
	designs := rep.HeldDesigns(f.drawn()...)
	if f.axis >= 0 {
		slices.SortStableFunc(designs, func(a, b int) int {
			return cmp.Compare(rep.DesignValue(a, f.axis), rep.DesignValue(b, f.axis))
		})
	}
	base := -1
	if b := rep.HeldDesigns(); len(b) > 0 {
		base = slices.Index(designs, b[0])
	}
	for _, i := range spread(len(designs), len(looks), base) {
		if a, ok := rep.AnswerOf(designs[i]); ok {
			f.curves = append(f.curves, curveOf(rep, a, f.axis, i == base, looks[len(f.curves)]))
		}
	}
	for i := range f.curves {
		f.curves[i].shift = float64(i) / float64(len(f.curves))
	}
	f.more = len(designs) - len(f.curves)
	return f
}

// spread returns which of n things to take if only most may be: places spread
// evenly from the first to the last, the nearest of them moved to keep.
func spread(n, most, keep int) []int {
	most = min(n, most)
	places := make([]int, most)
	nearest := 0
	for i := range places {
		if most > 1 {
			places[i] = i * (n - 1) / (most - 1)
		}
		if abs(places[i]-keep) < abs(places[nearest]-keep) {
			nearest = i
		}
	}
	if keep >= 0 && most > 0 {
		places[nearest] = keep
	}
	return places
}

func abs(i int) int {
	if i < 0 {
		return -i
	}
	return i
}

// curveOf collects the points of a design: those of the plan and, so that the line
// goes where its marks are, the break-evens and the best speed.
func curveOf(rep *render.Report, a *breakeven.Answer, axis int, base bool, l look) curve {
	c := curve{look: l, name: challenger(rep), base: base, answer: a}
	if axis >= 0 {
		c.name = atStep(rep, axis, rep.DesignStep(a.Design, axis))
	}
	c.sure = sureLine(rep, a)
	plan, metric := rep.Results.Plan, rep.Metric()
	level := math.NaN()
	for _, k := range rep.Line(a.Design) {
		p := point{speed: shownSpeed(rep.Speed(k)), missing: true}
		row, ok := rep.Results.Row(k)
		p.leftOut = !ok
		if ok && row.Failure == "" && row.State.Warnings&model.OutOfReach != 0 {
			p.unreached = true // drawn, it would look like something to build
		} else if ok && row.Failure == "" {
			level = metric.Shown.Shown(row.Reference)
			p = pointOf(metric, rep.Speed(k), &row.State, level)
		}
		c.points = append(c.points, p)
	}
	add := func(speed float64, s *model.State) {
		p := pointOf(metric, speed, s, level)
		p.between = true
		if !p.missing {
			c.points = append(c.points, p)
		}
	}
	if _, ok := plan.SpeedAxis(); ok {
		for _, x := range c.crossings(metric) {
			add(x.Speed, &x.State)
		}
		if b, ok := c.best(metric); ok {
			add(b.Speed, &b.State)
		}
	}
	c.points = slices.DeleteFunc(c.points, func(p point) bool { return !finite(p.speed) })
	slices.SortStableFunc(c.points, func(a, b point) int { return cmp.Compare(a.speed, b.speed) })
	return c
}

// pointOf returns a state at a fan speed, rev/s, against the reference's value in
// the unit shown.
func pointOf(metric model.Output, speed float64, s *model.State, reference float64) point {
	p := point{
		speed: shownSpeed(speed), value: metric.Shown.Shown(metric.Get(s)), reference: reference,
		state: s, outside: s.Warnings&beyond != 0,
	}
	p.missing = !finite(p.speed, p.value, p.reference)
	return p
}

// shownSpeed returns a fan speed, rev/s, in the unit shown.
func shownSpeed(speed float64) float64 { return quantity.Must("fan_speed").Shown.Shown(speed) }

// finite reports whether all numbers are finite.
func finite(numbers ...float64) bool {
	for _, v := range numbers {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// baseLast returns the curves in the order in which their marks are drawn: that of
// the base design last, where nothing hides it.
func (f *family) baseLast() []*curve {
	var list []*curve
	for i := range f.curves {
		list = append(list, &f.curves[i])
	}
	slices.SortStableFunc(list, func(a, b *curve) int {
		switch {
		case a.base == b.base:
			return 0
		case a.base:
			return 1
		}
		return -1
	})
	return list
}

// hasValue reports whether any point of the family has a value.
func (f *family) hasValue() bool {
	return slices.ContainsFunc(f.curves, func(c curve) bool {
		return slices.ContainsFunc(c.points, func(p point) bool { return !p.missing })
	})
}

// crossings returns the break-evens of a curve that can be drawn.
func (c *curve) crossings(metric model.Output) []breakeven.Crossing {
	if !render.Answered(c.answer) {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(c.answer.Crossings), func(x breakeven.Crossing) bool {
		return !finite(x.Speed, metric.Get(&x.State), x.State.Sound)
	})
}

// best returns the best speed of a curve, and false if it cannot be drawn.
func (c *curve) best(metric model.Output) (breakeven.Point, bool) {
	b := c.answer.Best
	return b, render.Answered(c.answer) && b.Speed > 0 && finite(b.Speed, metric.Get(&b.State), b.State.Sound)
}

// nearest returns a fan speed, rev/s, in the unit shown; of one beyond the points of the
// curve, that of the nearest.
func (c *curve) nearest(speed float64) float64 {
	return min(max(shownSpeed(speed), c.points[0].speed), c.points[len(c.points)-1].speed)
}

// levels returns the reference's values that the curves were compared with, each
// once, in the unit shown. They differ only where a condition of the room, the heat
// or the coolant tells the curves apart.
func (f *family) levels() []float64 {
	var list []float64
	for _, c := range f.curves {
		if v, ok := c.level(); ok && !slices.Contains(list, v) {
			list = append(list, v)
		}
	}
	return list
}

// level returns the reference's value for a curve, and false if it has none.
func (c *curve) level() (float64, bool) {
	for _, p := range c.points {
		if !p.missing {
			return p.reference, true
		}
	}
	return 0, false
}

// verdict says the answer of a curve in a few words, speeds in rpm.
func verdict(a *breakeven.Answer) string {
	lower, upper := render.Ends(a)
	switch {
	case a.Status == breakeven.Excluded:
		return "left out by the study"
	case a.Status == breakeven.Unknown:
		return "no value"
	case a.Status == breakeven.Always:
		return "cooler at every speed"
	case a.Status == breakeven.None:
		return "never; " + number("difference", a.Best.Difference) + " short at best"
	case a.Status == breakeven.Tie:
		return "a tie from " + a.Tie.String()
	case lower != nil && upper != nil:
		return render.PlusMinus(lower) + " to " + render.PlusMinus(upper)
	case upper != nil:
		return "up to " + render.PlusMinus(upper)
	}
	return "from " + render.PlusMinus(lower)
}
