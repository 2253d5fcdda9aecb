package chart

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/doubt"
)

// Sizes of the lanes below a panel.
const (
	laneHeight = 11
	laneHead   = 14 // above the first, for what they are
	laneFoot   = 3  // below the last
)

// lane is the doubt of the break-evens of one line, drawn as bars below the panel along
// the same axis: there all lines have room for theirs, which would hide each other at the
// reference's level.
type lane struct {
	curve *curve
	marks []laneMark // its break-evens
	bars  []laneBar
	words string // instead of bars that would be empty
}

// laneMark is a break-even of the nominal setups.
type laneMark struct {
	speed float64 // rev/s
	ends  bool    // whether the challenger is warmer above it
}

// laneBar is a 95 % interval of a break-even speed, rev/s; an end that lies beyond the
// searched speeds is infinite. An end is open if it does, or if the draws leave that open.
type laneBar struct {
	low, high         float64
	lowOpen, highOpen bool
	ends              bool // of speeds above which the challenger is warmer
}

// barOf returns the bar of an interval.
func barOf(b doubt.Band, ends bool) laneBar {
	return laneBar{b.Low, b.High, math.IsInf(b.Low, 0) || b.Undecided[0], math.IsInf(b.High, 0) || b.Undecided[2], ends}
}

// lanesOf returns a lane for each line whose design was drawn; none where lines have no
// speeds to lie along.
func lanesOf(rep *render.Report, f *family) []lane {
	if _, ok := rep.Results.Plan.SpeedAxis(); !ok {
		return nil
	}
	var list []lane
	for i := range f.curves {
		c := &f.curves[i]
		r, ok := rep.Doubt.Of(c.answer.Design)
		if !ok || r.Draws == 0 {
			continue
		}
		v := lane{curve: c}
		for _, x := range c.crossings(rep.Metric()) {
			v.marks = append(v.marks, laneMark{x.Speed, x.Slope > 0})
		}
		add := func(b doubt.Band, key string, ends bool) {
			switch {
			case math.IsNaN(b.Low):
			case b.Low == b.High && math.IsInf(b.Low, 0):
				v.words = render.Interval(quantity.Must(key), b)
			default:
				v.bars = append(v.bars, barOf(b, ends))
			}
		}
		add(r.Breakeven, "breakeven_speed", false)
		if r.HasUpper && r.Again > 0 {
			add(r.Upper, "breakeven_upper_speed", true)
		}
		if v.bars != nil {
			v.words = ""
		}
		list = append(list, v)
	}
	return list
}

// laneRoom makes room for lanes between a panel and its axis.
func laneRoom(p *plot.Plot, lanes []lane) {
	if len(lanes) > 0 {
		p.X.Padding = laneHead + laneHeight*vg.Length(len(lanes)) + laneFoot
	}
}

// drawLanes draws lanes below a panel. along returns where a speed of a curve, rev/s, lies
// on the axis; of one beyond its points, where the nearest does.
func drawLanes(c *draw.Canvas, p *plot.Plot, head string, lanes []lane, x func(float64) vg.Length, along func(*curve, float64) float64) {
	if len(lanes) == 0 {
		return
	}
	bottom := c.Min.Y - p.X.Padding
	for _, t := range p.X.Tick.Marker.Ticks(p.X.Min, p.X.Max) {
		if at := x(t.Value); !t.IsMinor() && c.ContainsX(at) {
			c.StrokeLine2(plainLine(faint, 0.8), at, bottom, at, c.Min.Y)
		}
	}
	c.StrokeLine2(plainLine(quiet, 0.5), c.Min.X, c.Min.Y, c.Max.X, c.Min.Y)
	style := letters(textSize, false, quiet)
	write(c, style, fromLeft, c.Min.X+3, c.Min.Y-laneHead+4, fit(style, head, c.Max.X-c.Min.X-6))
	y := c.Min.Y - laneHead - laneHeight/2
	for i := range lanes {
		v := &lanes[i]
		at := func(speed float64) vg.Length { return min(max(x(along(v.curve, speed)), c.Min.X), c.Max.X) }
		v.curve.mark(c, vg.Point{X: c.Min.X - 9, Y: y}, false)
		if v.words != "" {
			write(c, style, fromLeft, c.Min.X+3, y-3.4, v.words)
		}
		for _, b := range v.bars {
			v.curve.bar(c, at(b.low), at(b.high), y, b)
		}
		for _, m := range v.marks {
			v.curve.breakeven(c, vg.Point{X: at(m.speed), Y: y}, m.ends)
		}
		y -= laneHeight
	}
}

// Positions of the bars of a lane.
const (
	barOff   = 2.2 // below the middle, of one at whose speeds the challenger becomes warmer
	barReach = 2.6 // of its ends
)

// bar draws an interval in a lane: strong where the challenger becomes cooler, thin and
// dashed below that where it becomes warmer again, with an arrow where it is open.
func (l look) bar(c *draw.Canvas, from, to, y vg.Length, b laneBar) {
	line, ends := plainLine(l.colour, 2.6), plainLine(l.colour, 1.4)
	if b.ends {
		y -= barOff
		line = draw.LineStyle{Color: l.colour, Width: 1.3, Dashes: []vg.Length{3, 2}}
	}
	c.StrokeLine2(line, from, y, to, y)
	for _, e := range []struct {
		x, ahead vg.Length
		value    float64
		open     bool
	}{{from, -5, b.low, b.lowOpen}, {to, 5, b.high, b.highOpen}} {
		if !math.IsInf(e.value, 0) {
			c.StrokeLine2(ends, e.x, y-barReach, e.x, y+barReach)
		}
		if e.open {
			c.FillPolygon(l.colour, []vg.Point{{X: e.x, Y: y - barReach - 1}, {X: e.x + e.ahead, Y: y}, {X: e.x, Y: y + barReach + 1}})
		}
	}
}

// laneKeys writes what the bars stand for, and which lines have none.
func (l *legend) laneKeys(lanes []lane, f *family) {
	if len(lanes) == 0 {
		return
	}
	var low, high, again, beyond bool
	for _, v := range lanes {
		for _, b := range v.bars {
			low, high = low || b.lowOpen && !b.ends, high || b.highOpen && !b.ends
			again, beyond = again || b.ends, beyond || b.highOpen && b.ends
		}
	}
	sample := func(b laneBar) func(c *draw.Canvas, r vg.Rectangle) {
		return func(c *draw.Canvas, r vg.Rectangle) {
			if y := middle(r).Y; b.ends {
				neutral.bar(c, r.Min.X+6, r.Max.X-6, y+barOff, b)
			} else {
				neutral.bar(c, r.Min.X+6, r.Max.X-6, y, b)
			}
		}
	}
	open := ""
	switch {
	case low && high:
		open = "arrow: perhaps cooler from the lowest speed on, or never"
	case low:
		open = "arrow: perhaps cooler from the lowest speed on"
	case high:
		open = "arrow: perhaps never"
	}
	l.key(sample(laneBar{}), "95 % interval of the break-even", false, open)
	if again {
		open = ""
		if beyond {
			open = "arrow: perhaps cooler up to the highest speed"
		}
		l.key(sample(laneBar{ends: true}), "of the speed it is warmer above", false, open)
	}
	if missing := len(f.curves) - len(lanes); missing > 0 {
		l.note("Without one: designs that were not assessed, or have no value; the study can ask for all (doubt: designs: all).")
	}
}
