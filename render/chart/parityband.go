package chart

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/doubt"
)

// parityDoubt returns how sure the parity line of a design is, by rising speed of the
// reference; or, as a clause, why nothing says so.
func parityDoubt(rep *render.Report, d render.Worked) (list []doubt.ParityPoint, why string) {
	switch a := rep.Doubt; {
	case a == nil || a.Own == nil:
		return nil, "how sure the answers are was not computed"
	case a.Own.Result.Design != d.Design:
		return nil, "only the study's own design was drawn at other speeds of the reference"
	case len(a.Own.Parity) > 0:
		return a.Own.Parity, ""
	case a.Own.Ranking.Refused != "":
		return nil, printable(a.Own.Ranking.Refused)
	}
	return nil, "nothing was drawn at other speeds of the reference"
}

// ends are those of an interval over a speed of the reference, all in the unit shown. An
// end beyond the searched speeds is infinite.
type ends struct{ at, low, high float64 }

// parityEnds returns the intervals of one branch of the parity line: of speeds above which
// the challenger is better, or of those above which it is worse again. Where both ends of
// an interval lie beyond the searched speeds on one side, or all but a few draws are better
// nowhere, there is nothing to draw, and its numbers are NaN.
func parityEnds(list []doubt.ParityPoint, of func(*doubt.ParityPoint) doubt.Band) []ends {
	var all []ends
	for i := range list {
		b := of(&list[i])
		e := ends{shownSpeed(list[i].Speed), shownSpeed(b.Low), shownSpeed(b.High)}
		if e.low == e.high && math.IsInf(e.low, 0) || math.IsInf(list[i].Breakeven.Low, 1) {
			e.low, e.high = math.NaN(), math.NaN()
		}
		all = append(all, e)
	}
	return all
}

func lowerOf(p *doubt.ParityPoint) doubt.Band { return p.Breakeven }

func upperOf(p *doubt.ParityPoint) doubt.Band { return p.Upper }

// drawn reports whether there is anything to draw of an interval.
func (e *ends) drawn() bool { return !math.IsNaN(e.low) && !math.IsNaN(e.high) }

// withEnds returns the spans of a panel, widened to show intervals.
func withEnds(list []ends, across, up span) (a, u span) {
	for _, e := range list {
		if !e.drawn() {
			continue
		}
		across, up = across.with(e.at), up.with(e.low, e.high)
	}
	return across, up
}

// drawEnds fills the intervals of a branch, from one speed of the reference to the next,
// and draws the edges that there are; an end beyond the searched speeds is that of the
// panel, without an edge.
func drawEnds(c *draw.Canvas, list []ends, x, y func(float64) vg.Length, edges draw.LineStyle) {
	at := func(e ends, v float64) vg.Point {
		switch {
		case math.IsInf(v, -1):
			return vg.Point{X: x(e.at), Y: c.Min.Y}
		case math.IsInf(v, 1):
			return vg.Point{X: x(e.at), Y: c.Max.Y}
		}
		return vg.Point{X: x(e.at), Y: y(v)}
	}
	for from := 0; from < len(list); from++ {
		to := from
		for to < len(list) && list[to].drawn() {
			to++
		}
		if to-from < 2 {
			continue
		}
		run := list[from:to]
		var outline []vg.Point
		for _, e := range run {
			outline = append(outline, at(e, e.low))
		}
		for _, e := range slices.Backward(run) {
			outline = append(outline, at(e, e.high))
		}
		c.FillPolygon(pale(blue), c.ClipPolygonXY(outline))
		for i := 1; i < len(run); i++ {
			a, b := run[i-1], run[i]
			for _, pair := range [][2]float64{{a.low, b.low}, {a.high, b.high}} {
				if finite(pair[0], pair[1]) {
					c.StrokeLines(edges, c.ClipLinesXY([]vg.Point{at(a, pair[0]), at(b, pair[1])})...)
				}
			}
		}
		from = to
	}
}

// The edges of the intervals of the two branches.
var (
	lowerEdge = draw.LineStyle{Color: blue, Width: 0.9}
	upperEdge = draw.LineStyle{Color: blue, Width: 0.9, Dashes: []vg.Length{7, 4}}
)

// edgedSample returns the sample of an interval with its edges.
func edgedSample(edges draw.LineStyle) func(*draw.Canvas, vg.Rectangle) {
	return func(c *draw.Canvas, r vg.Rectangle) {
		c.FillPolygon(pale(blue), corners(r))
		c.StrokeLine2(edges, r.Min.X, r.Min.Y, r.Max.X, r.Min.Y)
		c.StrokeLine2(edges, r.Min.X, r.Max.Y, r.Max.X, r.Max.Y)
	}
}

// parityKeys writes what the intervals of the parity line stand for, or why there are none.
func (l *legend) parityKeys(rep *render.Report, list []doubt.ParityPoint, why string, upper bool) {
	if list == nil {
		l.note("No 95 % intervals: " + why + ".")
		return
	}
	own := rep.Doubt.Own.Result
	at := func(key string, b doubt.Band) string {
		text := render.Interval(quantity.Must(key), b)
		if text == "" {
			return ""
		}
		return "as in the study: " + text
	}
	l.key(edgedSample(lowerEdge), "95 % interval of the equal speed", false, at("breakeven_speed", own.Breakeven))
	if upper {
		second := ""
		if own.Again > 0 {
			second = at("breakeven_upper_speed", own.Upper)
		}
		l.key(edgedSample(upperEdge), "the same of equal again", false, second)
	}
	low, high := false, false
	var drawn []render.PlaceDoubt
	for _, p := range list {
		low, high = low || math.IsInf(p.Breakeven.Low, -1), high || math.IsInf(p.Breakeven.High, 1)
		drawn = append(drawn, render.PlaceDoubt{Draws: p.Draws, Absent: p.NoValue})
	}
	l.absent(drawn...)
	if high {
		l.note("Open at the top: perhaps never.")
	}
	if low {
		l.note("Open at the bottom: perhaps cooler from the lowest speed on.")
	}
}
