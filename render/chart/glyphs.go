package chart

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// shape is the form of a marker: a regular polygon, or a circle.
type shape struct {
	corners int     // 0: a circle
	turn    float64 // of its first corner, rad from the right
}

// The markers of lines, and the one of break-evens, which no line has.
var (
	circle    = shape{}
	square    = shape{4, math.Pi / 4}
	triangle  = shape{3, math.Pi / 2}
	inverted  = shape{3, -math.Pi / 2}
	rightward = shape{3, 0}
	leftward  = shape{3, math.Pi}
	pentagon  = shape{5, math.Pi / 2}
	hexagon   = shape{6, 0}
	diamond   = shape{4, 0}
)

// outline returns the corners of the shape round a point. Corners lie further out
// the fewer there are, so that all shapes look equally large.
func (s shape) outline(at vg.Point, radius vg.Length) []vg.Point {
	n, reach := s.corners, radius
	switch n {
	case 0:
		n = 32
	case 3:
		reach *= 1.35
	case 4:
		reach *= 1.2
	default:
		reach *= 1.08
	}
	points := make([]vg.Point, n)
	for i := range points {
		sin, cos := math.Sincos(s.turn + 2*math.Pi*float64(i)/float64(n))
		points[i] = vg.Point{X: at.X + reach*vg.Length(cos), Y: at.Y + reach*vg.Length(sin)}
	}
	return points
}

// mark draws the shape, filled with one colour and edged with another.
func (s shape) mark(c *draw.Canvas, at vg.Point, radius vg.Length, fill, edge color.Color, width vg.Length) {
	points := s.outline(at, radius)
	c.FillPolygon(fill, points)
	c.StrokeLines(plainLine(edge, width), append(points, points[0], points[1]))
}

// Radii of markers.
const (
	markRadius      = 3.2
	breakevenRadius = 5
	bestReach       = 8 // of the tick at the best speed
	tieReach        = 4 // of the ends of a tie
)

// mark draws a point of a line: filled, or hollow outside the range of the
// correlations.
func (l look) mark(c *draw.Canvas, at vg.Point, hollow bool) {
	fill := l.colour
	if hollow {
		fill = paper
	}
	l.shape.mark(c, at, markRadius, fill, l.colour, 1.3)
}

// breakeven draws a break-even: filled where the challenger becomes the better
// one, open where it ceases to be.
func (l look) breakeven(c *draw.Canvas, at vg.Point, ends bool) {
	fill, edge := l.colour, ink
	if ends {
		fill, edge = paper, l.colour
	}
	diamond.mark(c, at, breakevenRadius, fill, edge, 1.4)
}

// tie draws between which speeds the margin leaves a break-even: a bar with ends. Where
// the panel ends it is cut, without an end.
func (l look) tie(c *draw.Canvas, from, to, y vg.Length) {
	if !(to > from) {
		return
	}
	style := plainLine(l.lettering(), 2.2)
	c.StrokeLine2(style, max(from, c.Min.X), y, min(to, c.Max.X), y)
	for _, x := range []vg.Length{from, to} {
		if c.ContainsX(x) {
			c.StrokeLine2(plainLine(l.lettering(), 1.4), x, y-tieReach, x, y+tieReach)
		}
	}
}

// best draws the tick at a best speed, reaching so far up and down.
func (l look) best(c *draw.Canvas, at vg.Point, reach vg.Length) {
	c.StrokeLine2(plainLine(l.colour, 2.2), at.X, at.Y-reach, at.X, at.Y+reach)
}
