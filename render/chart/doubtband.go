package chart

import (
	"image/color"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
)

// bandPoint is where the doubt of a comparison leaves a curve at one of its speeds.
type bandPoint struct {
	at        point
	low, high float64 // in the unit shown
}

// bandOf returns the 95 % interval of the difference between a curve and the reference,
// laid on the reference's level: where its edges cross the level, the interval of the
// break-even speed ends. Only the study's own design has one.
func bandOf(rep *render.Report, c *curve) []bandPoint {
	if rep.Doubt == nil || rep.Doubt.Own == nil || rep.Doubt.Own.Result.Design != c.answer.Design {
		return nil
	}
	level, ok := c.level()
	if !ok {
		return nil
	}
	metric := rep.Metric()
	width := func(si float64) float64 { return si * metric.Shown.Over / metric.Shown.Times }
	var list []bandPoint
	for _, x := range rep.Doubt.Own.Curve {
		for _, p := range c.points {
			low, high := level+width(x.Difference.Low), level+width(x.Difference.High)
			if !p.missing && !p.between && p.speed == shownSpeed(x.Speed) && finite(low, high) {
				list = append(list, bandPoint{p, low, high})
				break
			}
		}
	}
	return list
}

// mostOfBand is how far beyond the lines a band may stretch a panel, over the lines' own
// extent.
const mostOfBand = 0.5

// withBands returns the span of a panel's lines, widened to show as much of their bands as
// leaves the lines legible.
func withBands(rep *render.Report, f *family, up span) span {
	room := up.stretched(mostOfBand)
	if !up.wide() {
		room = up.padded(mostOfBand)
	}
	for i := range f.curves {
		for _, b := range bandOf(rep, &f.curves[i]) {
			for _, v := range []float64{b.low, b.high} {
				up = up.with(min(max(v, room.low), room.high))
			}
		}
	}
	return up
}

// bandReach is how far the band of a curve that is a single point reaches to either side.
const bandReach = 5

// drawBand fills a band, clipped to the canvas: a bar, if it has a single point; place puts
// a point with a value.
func drawBand(c *draw.Canvas, band []bandPoint, l look, place func(p *point, value float64) vg.Point) {
	var outline []vg.Point
	if len(band) == 1 {
		low, high := place(&band[0].at, band[0].low), place(&band[0].at, band[0].high)
		outline = corners(vg.Rectangle{Min: vg.Point{X: low.X - bandReach, Y: low.Y}, Max: vg.Point{X: high.X + bandReach, Y: high.Y}})
		c.FillPolygon(pale(l.colour), c.ClipPolygonXY(outline))
		return
	}
	for i := range band {
		outline = append(outline, place(&band[i].at, band[i].high))
	}
	for i := len(band) - 1; i >= 0; i-- {
		outline = append(outline, place(&band[i].at, band[i].low))
	}
	c.FillPolygon(pale(l.colour), c.ClipPolygonXY(outline))
}

// pale returns a colour as it is used for areas behind lines.
func pale(c color.NRGBA) color.NRGBA {
	mix := func(v uint8) uint8 { return uint8((int(v)*3 + 0xff*17) / 20) }
	return color.NRGBA{mix(c.R), mix(c.G), mix(c.B), 0xff}
}

// bandKey writes what the band of the base design stands for, if there is one, and whether
// it goes on below the panel, which ends at least, in the unit shown.
func (l *legend) bandKey(rep *render.Report, f *family, least float64) {
	for i := range f.curves {
		c := &f.curves[i]
		if band := bandOf(rep, c); len(band) > 0 {
			second := "base design; what both share cancels"
			if slices.ContainsFunc(band, func(b bandPoint) bool { return b.low < least }) {
				second += "; it goes on below"
			}
			l.key(func(canvas *draw.Canvas, r vg.Rectangle) { canvas.FillPolygon(pale(c.colour), corners(r)) },
				"95 % of the difference to "+reference(rep), false, second)
			var drawn []render.PlaceDoubt
			for _, x := range rep.Doubt.Own.Curve {
				drawn = append(drawn, render.PlaceDoubt{Draws: x.Draws, Absent: x.NoValue})
			}
			l.absent(drawn...)
		}
	}
}

// absent writes how many draws an interval does not have in it where most are missing, if
// any are anywhere.
func (l *legend) absent(drawn ...render.PlaceDoubt) {
	most := render.PlaceDoubt{Draws: 1}
	for _, d := range drawn {
		if d.Absent*most.Draws > most.Absent*d.Draws {
			most = d
		}
	}
	if most.Absent > 0 {
		l.note("up to " + render.Whole(most.Absent) + " of " + render.Whole(most.Draws) + " draws have no value: no interval has them in it")
	}
}

// sureOf returns the 95 % interval of a design's break-even speed; empty if it was not
// assessed, or has none.
func sureOf(rep *render.Report, a *breakeven.Answer) string {
	r, ok := rep.Doubt.Of(a.Design)
	if !ok || r.Draws == 0 || r.Exists == 0 {
		return ""
	}
	return render.Interval(quantity.Must("breakeven_speed"), r.Breakeven)
}

// chanceOf returns how probable it is that a design has a break-even, 0 to 1, and false if
// it was not drawn.
func chanceOf(rep *render.Report, a *breakeven.Answer) (float64, bool) {
	r, ok := rep.Doubt.Of(a.Design)
	if !ok || r.Draws == 0 {
		return 0, false
	}
	return r.Exists, true
}

// drawnAll reports whether every design of a map was drawn that the study does not leave
// out.
func drawnAll(rep *render.Report, cells []cell) bool {
	return !slices.ContainsFunc(cells, func(c cell) bool {
		_, ok := rep.Doubt.Of(c.answer.Design)
		return !ok && c.answer.Status != breakeven.Excluded
	})
}

// sureWords says in a cell how sure its design is: the interval of its break-even speed,
// or how probable it is that it has one; and the interval of the upper end of its band;
// nil if it was not assessed.
func sureWords(rep *render.Report, a *breakeven.Answer) []string {
	r, ok := rep.Doubt.Of(a.Design)
	if !ok || r.Draws == 0 {
		return nil
	}
	var words []string
	if _, has := lowerSpeed(a); !has {
		words = append(words, "exists: "+render.Percent(r.Exists))
	} else if text := sureOf(rep, a); text != "" {
		words = append(words, text)
	}
	if _, has := a.Upper(); has && a.Status != breakeven.Tie && r.HasUpper && r.Again > 0 {
		words = append(words, "end: "+render.Interval(quantity.Must("breakeven_upper_speed"), r.Upper))
	}
	return words
}

// sureLine is sureWords for a legend, in one line.
func sureLine(rep *render.Report, a *breakeven.Answer) string {
	text := strings.Join(sureWords(rep, a), "; ")
	if _, has := lowerSpeed(a); has && text != "" {
		text = "95 %: " + text
	}
	return text
}
