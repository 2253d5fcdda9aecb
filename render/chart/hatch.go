package chart

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// hatch is a set of directions of lines; none leaves an area plain.
type hatch uint

// The directions.
const (
	rising hatch = 1 << iota
	falling
	upright
	level
)

// fill fills a rectangle with a colour and hatches it with another. The lines of
// all areas lie on one grid, gap apart.
func (h hatch) fill(c *draw.Canvas, r vg.Rectangle, plain, lines color.Color, gap vg.Length) {
	c.FillPolygon(plain, corners(r))
	style := plainLine(lines, 1)
	if h&rising != 0 {
		for k := snapUp(r.Min.Y-r.Max.X, gap*math.Sqrt2); k < r.Max.Y-r.Min.X; k += gap * math.Sqrt2 {
			from, to := max(r.Min.X, r.Min.Y-k), min(r.Max.X, r.Max.Y-k)
			c.StrokeLine2(style, from, from+k, to, to+k)
		}
	}
	if h&falling != 0 {
		for k := snapUp(r.Min.Y+r.Min.X, gap*math.Sqrt2); k < r.Max.Y+r.Max.X; k += gap * math.Sqrt2 {
			from, to := max(r.Min.X, k-r.Max.Y), min(r.Max.X, k-r.Min.Y)
			c.StrokeLine2(style, from, k-from, to, k-to)
		}
	}
	if h&upright != 0 {
		for x := snapUp(r.Min.X, gap); x < r.Max.X; x += gap {
			c.StrokeLine2(style, x, r.Min.Y, x, r.Max.Y)
		}
	}
	if h&level != 0 {
		for y := snapUp(r.Min.Y, gap); y < r.Max.Y; y += gap {
			c.StrokeLine2(style, r.Min.X, y, r.Max.X, y)
		}
	}
}

// snapUp returns the first multiple of step that is not below v.
func snapUp(v, step vg.Length) vg.Length {
	return vg.Length(math.Ceil(float64(v/step))) * step
}

// corners returns the corners of a rectangle.
func corners(r vg.Rectangle) []vg.Point {
	return []vg.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
}

// inset returns a rectangle that lies so far inside another.
func inset(r vg.Rectangle, by vg.Length) vg.Rectangle {
	return vg.Rectangle{Min: vg.Point{X: r.Min.X + by, Y: r.Min.Y + by}, Max: vg.Point{X: r.Max.X - by, Y: r.Max.Y - by}}
}

// edge draws the outline of a rectangle.
func edge(c *draw.Canvas, r vg.Rectangle, style draw.LineStyle) {
	p := corners(r)
	c.StrokeLines(style, append(p, p[0], p[1]))
}
