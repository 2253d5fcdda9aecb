package chart

import (
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/render"
	"finduel/sweep/breakeven"
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

// lineKind is how contours of one kind are drawn: a line on a wider one, and their numbers
// on a box.
type lineKind struct {
	line, around draw.LineStyle
	words, box   color.Color
}

// The contours of a map: of the break-even speed, and of how probable one is.
var (
	speedLines  = lineKind{plainLine(ink, 1.2), plainLine(paper, 3), ink, paper}
	chanceLines = lineKind{draw.LineStyle{Color: paper, Width: 1.6, Dashes: []vg.Length{6, 3}}, plainLine(ink, 3.2), paper, ink}
)

// chances are the probabilities that there is a break-even that a map has lines at.
var chances = []float64{0.5, 0.8, 0.95}

// contourName is a line to be named, and where that may be.
type contourName struct {
	kind  lineKind
	text  string
	under func(column, row int) string // a second line of the name, beside a cell; empty: none
	spots []contourSpot
}

// contourSpot is a place on a line, and the cell beside it.
type contourSpot struct {
	at          vg.Point
	column, row int
}

// drawContours draws lines of equal break-even speed with their speeds, and those of equal
// probability that there is one: the labels of a map whose cells have no room for numbers.
// Under a speed stands how sure it is there.
func drawContours(c *draw.Canvas, x, y func(float64) vg.Length, rep *render.Report, cells []cell, columns, rows int, place *labels) {
	speeds, scale := gridOf(cells, columns, rows, func(s cell) (float64, bool) { return lowerSpeed(s.answer) })
	if scale.empty() {
		return
	}
	answers := map[[2]int]*breakeven.Answer{}
	for _, s := range cells {
		answers[[2]int{s.column, s.row}] = s.answer
	}
	sure := func(column, row int) string { return sureOf(rep, answers[[2]int{column, row}]) }
	chance, _ := gridOf(cells, columns, rows, func(s cell) (float64, bool) { return chanceOf(rep, s.answer) })
	var names []contourName
	for _, level := range chances {
		n := contourName{kind: chanceLines, text: render.Percent(level)}
		n.trace(c, x, y, contour(chance, level))
		names = append(names, n)
	}
	for _, t := range (linearTicks{contourLines}).Ticks(scale.low, scale.high) {
		if t.IsMinor() {
			continue
		}
		n := contourName{kind: speedLines, text: render.Number(whole, t.Value), under: sure}
		n.trace(c, x, y, contour(speeds, t.Value))
		names = append(names, n)
	}
	for _, n := range names {
		n.write(c, place)
	}
}

// gridOf returns a number for every cell of a map, by column and row, NaN where there is
// none, and the span of all.
func gridOf(cells []cell, columns, rows int, of func(cell) (float64, bool)) ([][]float64, span) {
	values := make([][]float64, columns)
	for i := range values {
		values[i] = slices.Repeat([]float64{math.NaN()}, rows)
	}
	scale := nothing
	for _, s := range cells {
		if v, ok := of(s); ok {
			values[s.column][s.row] = v
			scale = scale.with(v)
		}
	}
	return values, scale
}

// trace draws a line.
func (n *contourName) trace(c *draw.Canvas, x, y func(float64) vg.Length, line []segment) {
	for _, s := range line {
		a, b := vg.Point{X: x(s[0][0]), Y: y(s[0][1])}, vg.Point{X: x(s[1][0]), Y: y(s[1][1])}
		c.StrokeLine2(n.kind.around, a.X, a.Y, b.X, b.Y)
		c.StrokeLine2(n.kind.line, a.X, a.Y, b.X, b.Y)
		n.spots = append(n.spots, contourSpot{
			vg.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2},
			int(math.Round((s[0][0] + s[1][0]) / 2)), int(math.Round((s[0][1] + s[1][1]) / 2)),
		})
	}
}

// write writes the name where it hides least and the line is long.
func (n *contourName) write(c *draw.Canvas, place *labels) {
	style, second := letters(textSize, true, n.kind.words), letters(textSize, false, n.kind.words)
	best, least, most, words := vg.Rectangle{}, math.Inf(1), 0, ""
	for _, s := range n.spots {
		half, under := vg.Point{X: style.Width(n.text)/2 + 3, Y: textSize*capital/2 + 3}, ""
		if n.under != nil {
			under = n.under(s.column, s.row)
		}
		if under != "" {
			half = vg.Point{X: max(half.X, second.Width(under)/2+3), Y: half.Y + textSize*leading/2}
		}
		r := vg.Rectangle{Min: vg.Point{X: s.at.X - half.X, Y: s.at.Y - half.Y}, Max: vg.Point{X: s.at.X + half.X, Y: s.at.Y + half.Y}}
		around := 0
		for _, other := range n.spots {
			if math.Hypot(float64(other.at.X-s.at.X), float64(other.at.Y-s.at.Y)) < longLine {
				around++
			}
		}
		if cost := place.cost(r); cost < least || cost == least && around > most {
			best, least, most, words = r, cost, around, under
		}
	}
	if least > hidden {
		return
	}
	place.taken = append(place.taken, best)
	c.FillPolygon(n.kind.box, corners(best))
	edge(c, best, plainLine(n.kind.words, 0.7))
	first := middle(best)
	if words != "" {
		first.Y += textSize * leading / 2
		writeMiddle(c, second, centred, first.X, first.Y-textSize*leading, words)
	}
	writeMiddle(c, style, centred, first.X, first.Y, n.text)
}

// contourKeys writes what the contours of a map stand for.
func (l *legend) contourKeys(rep *render.Report, cells []cell) {
	sample := func(k lineKind) func(*draw.Canvas, vg.Rectangle) {
		return func(c *draw.Canvas, r vg.Rectangle) {
			strokeSample(k.around)(c, r)
			strokeSample(k.line)(c, r)
		}
	}
	under := ""
	if slices.ContainsFunc(cells, func(c cell) bool { return !c.base && sureOf(rep, c.answer) != "" }) {
		under = "below it the 95 % interval of the design beside"
	}
	l.key(sample(speedLines), "the same break-even speed, in rpm", false, under)
	above, below := false, false
	for _, c := range cells {
		if v, ok := chanceOf(rep, c.answer); ok {
			above, below = above || v >= chances[0], below || v < chances[len(chances)-1]
		}
	}
	if above && below {
		l.key(sample(chanceLines), "the same probability that there is one", false, "")
	}
}
