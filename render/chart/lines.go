package chart

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
)

// width returns how strongly the line of a curve is drawn.
func (c *curve) width() vg.Length {
	if c.base {
		return strong
	}
	return normal
}

// markersPerLine is about how many points of a line get a marker.
const markersPerLine = 13

// trace draws a curve, each point where at puts it: gaps where values are missing,
// thin where one is outside the range of the correlations, and markers at some
// points. It takes the room of the line and its markers in place.
func (c *curve) trace(canvas *draw.Canvas, at func(*point) vg.Point, place *labels) {
	for i := 1; i < len(c.points); {
		from := i - 1
		outside, drawn := c.stretch(i)
		for i < len(c.points) {
			if o, d := c.stretch(i); o != outside || d != drawn {
				break
			}
			i++
		}
		if !drawn {
			continue
		}
		width := c.width()
		if outside {
			width = thin
		}
		var line []vg.Point
		for k := from; k < i; k++ {
			line = append(line, at(&c.points[k]))
		}
		canvas.StrokeLines(c.line(width), line)
		place.blockLine(line)
	}
	for _, i := range c.marked() {
		c.mark(canvas, at(&c.points[i]), c.points[i].outside)
		place.block(at(&c.points[i]), markRadius+0.5)
	}
}

// marked returns the points of a curve that get a marker: some, spread evenly, and
// those that have no line.
func (c *curve) marked() []int {
	swept := 0
	for _, p := range c.points {
		if !p.between {
			swept++
		}
	}
	every := max(1, (swept+markersPerLine-1)/markersPerLine)
	first, place := int(c.shift*float64(every)), 0
	var list []int
	for i, p := range c.points {
		if p.between {
			continue
		}
		alone := (i == 0 || c.points[i-1].missing) && (i == len(c.points)-1 || c.points[i+1].missing)
		if !p.missing && (alone || place%every == first) {
			list = append(list, i)
		}
		place++
	}
	return list
}

// stretch says of the part of the line that ends at point i whether it is outside
// the range of the correlations and whether it is drawn at all.
func (c *curve) stretch(i int) (outside, drawn bool) {
	a, b := &c.points[i-1], &c.points[i]
	return a.outside || b.outside, !a.missing && !b.missing
}

// keys writes the legend of a family and its answers.
func (l *legend) keys(f *family, title string, answers bool) {
	if title != "" {
		l.heading(title)
	}
	for i := range f.curves {
		c := &f.curves[i]
		second := ""
		if answers {
			second = verdict(c.answer)
			if _, has := lowerSpeed(c.answer); c.sure != "" && (c.base || len(f.curves) <= mostSure || !has) {
				second += " (" + c.sure + ")"
			}
		}
		name := c.name
		if c.base && f.axis >= 0 {
			name += " (base design)"
		}
		l.key(sampleOf(*c), name, c.base, second)
	}
	if f.more > 0 {
		l.note(plural(f.more, "more design is", "more designs are") + " not drawn.")
	}
}

// mostSure is up to how many lines all have the interval of their break-even in the
// legend; of more only the base design has, and how probable one is where there is none.
const mostSure = 5

// rangeWords says what each warning of range is about, in order of weight.
var rangeWords = []struct {
	bit  model.Warnings
	text string
}{
	{model.AirReynoldsLow, "low air flow"},
	{model.AirReynoldsHigh, "high air flow"},
	{model.CoreOutsideRange, "a dimension of the core"},
}

// rangeNote says what the hollow markers of curves stand for; empty if there are
// none.
func rangeNote(curves ...curve) string {
	var all model.Warnings
	for _, c := range curves {
		for _, p := range c.points {
			if !p.missing {
				all |= p.state.Warnings
			}
		}
	}
	var list []string
	for _, w := range rangeWords {
		if all.Has(w.bit) {
			list = append(list, w.text)
		}
	}
	if list == nil {
		return ""
	}
	return "outside the correlations' range (" + strings.Join(list, "; ") + ")"
}

// gapNote says how many of the points of the plan on some curves have no value;
// empty if all have. Points that the study leaves out are not counted.
func gapNote(curves []curve) string {
	all, gaps, unreached := 0, 0, 0
	for _, c := range curves {
		for _, p := range c.points {
			if p.between || p.leftOut {
				continue
			}
			switch all++; {
			case p.unreached:
				unreached++
			case p.missing:
				gaps++
			}
		}
	}
	var notes []string
	if unreached > 0 {
		notes = append(notes, fmt.Sprintf("%s of %s points are not drawn: the drive does not reach their speed.", render.Whole(unreached), render.Whole(all)))
	}
	switch gaps {
	case 0:
	case 1:
		notes = append(notes, fmt.Sprintf("1 of %d points has no value.", all))
	default:
		notes = append(notes, fmt.Sprintf("%s of %s points have no value.", render.Whole(gaps), render.Whole(all)))
	}
	return strings.Join(notes, " ")
}

// hollowSample is the sample of a point outside the range of the correlations.
func hollowSample(c *draw.Canvas, r vg.Rectangle) {
	m := middle(r)
	c.StrokeLine2(plainLine(ink, thin), r.Min.X, m.Y, r.Max.X, m.Y)
	circle.mark(c, m, markRadius, paper, ink, 1.3)
}

// neutral is the look of samples that stand for every line.
var neutral = look{colour: quiet, shape: circle}

// breakevenKeys writes what the marks of break-evens and best speeds stand for, as
// far as the curves have them; ties are among them if they are drawn.
func (l *legend) breakevenKeys(rep *render.Report, f *family, ties bool) {
	var begins, ends, best bool
	for i := range f.curves {
		for _, x := range f.curves[i].crossings(rep.Metric()) {
			begins, ends = begins || x.Slope <= 0, ends || x.Slope > 0
		}
		_, ok := f.curves[i].best(rep.Metric())
		best = best || ok
	}
	if begins {
		l.key(func(c *draw.Canvas, r vg.Rectangle) { neutral.breakeven(c, middle(r), false) },
			"break-even: cooler above", false, "")
	}
	if ends {
		l.key(func(c *draw.Canvas, r vg.Rectangle) { neutral.breakeven(c, middle(r), true) },
			"break-even: warmer above", false, "")
	}
	if ties && (begins || ends) {
		l.key(func(c *draw.Canvas, r vg.Rectangle) { neutral.tie(c, r.Min.X, r.Max.X-1, middle(r).Y) },
			"within "+given(quantity.Must("margin"), breakeven.Margin(rep.Study)), false, "")
	}
	if best {
		l.key(func(c *draw.Canvas, r vg.Rectangle) { neutral.best(c, middle(r), 5.5) }, "best speed", false, "")
	}
}

// plural returns a number of things in words.
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return render.Whole(n) + " " + many
}
