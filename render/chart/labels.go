package chart

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// labels places texts in a panel where they hide least.
type labels struct {
	frame vg.Rectangle
	taken []vg.Rectangle
	tags  bool // whether what takes no room is paler behind a text
}

// newLabels returns an empty panel.
func newLabels(c *draw.Canvas) *labels { return &labels{frame: c.Rectangle} }

// block takes the room round a point.
func (l *labels) block(at vg.Point, radius vg.Length) {
	l.taken = append(l.taken, vg.Rectangle{
		Min: vg.Point{X: at.X - radius, Y: at.Y - radius},
		Max: vg.Point{X: at.X + radius, Y: at.Y + radius},
	})
}

// blockLine takes the room along a line.
func (l *labels) blockLine(points []vg.Point) {
	const pace = 5
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		n := int(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))/pace) + 1
		for j := range n {
			share := vg.Length(j) / vg.Length(n)
			l.block(vg.Point{X: a.X + (b.X-a.X)*share, Y: a.Y + (b.Y-a.Y)*share}, 1.8)
		}
	}
}

// hidden is the share of a label that may be over something else.
const hidden = 0.04

// weight is how much a label matters.
type weight int

const (
	may    weight = iota // be left away where there is no room
	should               // be written, somewhat further away if need be
	must                 // be written, even across something else
)

// reaches lists at how many times its distance a label of a weight may stand.
func (w weight) reaches() []vg.Length {
	if w == may {
		return []vg.Length{1}
	}
	return []vg.Length{1, 1.7, 2.4}
}

// put writes a text beside one of the points, at a distance from it, at the first
// of the places round it where it hides nothing; or else where it hides least. If
// that is still too much, it is written only if it must be.
func (l *labels) put(c *draw.Canvas, style draw.TextStyle, s string, distance vg.Length, w weight, points ...vg.Point) {
	width, height := style.Width(s), style.Font.Size*capital
	best, least := vg.Rectangle{}, math.Inf(1)
	for _, p := range points {
		for _, far := range w.reaches() {
			for _, side := range [][2]vg.Length{{0, 1}, {0, -1}, {1, 0.7}, {-1, 0.7}, {1, -0.7}, {-1, -0.7}, {1, 0}, {-1, 0}} {
				middle := vg.Point{
					X: p.X + side[0]*(distance*far+width/2),
					Y: p.Y + side[1]*(distance*far+height/2),
				}
				r := vg.Rectangle{
					Min: vg.Point{X: middle.X - width/2 - 2, Y: middle.Y - height/2 - 2},
					Max: vg.Point{X: middle.X + width/2 + 2, Y: middle.Y + height/2 + 2},
				}
				if cost := l.cost(r); cost < least {
					best, least = r, cost
				}
			}
		}
	}
	if math.IsInf(least, 1) || w != must && least > hidden {
		return
	}
	l.taken = append(l.taken, best)
	if l.tags {
		c.FillPolygon(mist, corners(best))
	}
	writeMiddle(c, style, centred, middle(best).X, middle(best).Y, s)
}

// cost returns which share of a label would lie over something else; infinite if
// it would leave the panel.
func (l *labels) cost(r vg.Rectangle) float64 {
	const rim = 2
	if r.Min.X < l.frame.Min.X+rim || r.Max.X > l.frame.Max.X-rim || r.Min.Y < l.frame.Min.Y+rim || r.Max.Y > l.frame.Max.Y-rim {
		return math.Inf(1)
	}
	sum := vg.Length(0)
	for _, t := range l.taken {
		w := min(r.Max.X, t.Max.X) - max(r.Min.X, t.Min.X)
		h := min(r.Max.Y, t.Max.Y) - max(r.Min.Y, t.Min.Y)
		if w > 0 && h > 0 {
			sum += w * h
		}
	}
	return float64(sum / ((r.Max.X - r.Min.X) * (r.Max.Y - r.Min.Y)))
}
