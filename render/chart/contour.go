package chart

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/render"
)

// segment is a piece of a contour line, in columns and rows.
type segment [2][2]float64

// contourLines is how many contours a map has at most.
const contourLines = 7

// contour returns the pieces of the line on which values over a grid of columns and
// rows have a level: straight in each square of four neighbours, by linear
// interpolation along its edges. Squares with a corner without a value have none. In
// a saddle the mean of the corners decides which edges belong together.
func contour(values [][]float64, level float64) []segment {
	var list []segment
	for i := 0; i+1 < len(values); i++ {
		for j := 0; j+1 < len(values[i]); j++ {
			corners := [4][2]int{{i, j}, {i + 1, j}, {i + 1, j + 1}, {i, j + 1}}
			mean, whole := 0.0, true
			for _, c := range corners {
				v := values[c[0]][c[1]]
				mean += v / 4
				whole = whole && finite(v)
			}
			if !whole {
				continue
			}
			var cuts [][2]float64
			for k, a := range corners {
				b := corners[(k+1)%4]
				va, vb := values[a[0]][a[1]], values[b[0]][b[1]]
				if (va < level) == (vb < level) {
					continue
				}
				share := (level - va) / (vb - va)
				cuts = append(cuts, [2]float64{
					float64(a[0]) + share*float64(b[0]-a[0]), float64(a[1]) + share*float64(b[1]-a[1]),
				})
			}
			switch {
			case len(cuts) == 2:
				list = append(list, segment{cuts[0], cuts[1]})
			case len(cuts) == 4 && (mean < level) == (values[i][j] < level):
				list = append(list, segment{cuts[0], cuts[1]}, segment{cuts[2], cuts[3]})
			case len(cuts) == 4:
				list = append(list, segment{cuts[3], cuts[0]}, segment{cuts[1], cuts[2]})
			}
		}
	}
	return list
}

// longLine is how far around a place a line is looked at, to name it where it is long.
const longLine = 100

// drawContours draws lines of equal break-even speed with their speeds: the labels of
// a map whose cells have no room for numbers.
func drawContours(c *draw.Canvas, x, y func(float64) vg.Length, cells []cell, columns, rows int, place *labels) {
	values := make([][]float64, columns)
	for i := range values {
		values[i] = make([]float64, rows)
		for j := range values[i] {
			values[i][j] = math.NaN()
		}
	}
	scale := nothing
	for _, s := range cells {
		if v, ok := lowerSpeed(s.answer); ok {
			values[s.column][s.row] = v
			scale = scale.with(v)
		}
	}
	if scale.empty() {
		return
	}
	type labelled struct {
		text  string
		spots []vg.Point
	}
	var names []labelled
	for _, t := range (linearTicks{contourLines}).Ticks(scale.low, scale.high) {
		if t.IsMinor() {
			continue
		}
		name := labelled{text: render.Number(whole, t.Value)}
		for _, s := range contour(values, t.Value) {
			a, b := vg.Point{X: x(s[0][0]), Y: y(s[0][1])}, vg.Point{X: x(s[1][0]), Y: y(s[1][1])}
			c.StrokeLine2(plainLine(paper, 3), a.X, a.Y, b.X, b.Y)
			c.StrokeLine2(plainLine(ink, 1.2), a.X, a.Y, b.X, b.Y)
			name.spots = append(name.spots, vg.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2})
		}
		names = append(names, name)
	}
	style := letters(textSize, true, ink)
	for _, n := range names {
		half := vg.Point{X: style.Width(n.text)/2 + 3, Y: textSize*capital/2 + 3}
		best, least, most := vg.Rectangle{}, math.Inf(1), 0
		for _, s := range n.spots {
			r := vg.Rectangle{Min: vg.Point{X: s.X - half.X, Y: s.Y - half.Y}, Max: vg.Point{X: s.X + half.X, Y: s.Y + half.Y}}
			around := 0
			for _, other := range n.spots {
				if math.Hypot(float64(other.X-s.X), float64(other.Y-s.Y)) < longLine {
					around++
				}
			}
			if cost := place.cost(r); cost < least || cost == least && around > most {
				best, least, most = r, cost, around
			}
		}
		if least > hidden {
			continue
		}
		place.taken = append(place.taken, best)
		c.FillPolygon(paper, corners(best))
		edge(c, best, plainLine(ink, 0.7))
		writeMiddle(c, style, centred, middle(best).X, middle(best).Y, n.text)
	}
}
