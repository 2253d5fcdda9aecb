package chart

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
)

// coolantOverAir draws the compared temperature over the challenger's fan speed: a
// line for each value of one axis, the reference as a level, break-evens and best
// speeds as marks.
func coolantOverAir(rep *render.Report) (f *figure, caption, why string) {
	axis, ok := rep.Results.Plan.SpeedAxis()
	if !ok {
		return nil, "", "the study does not sweep the challenger's fan speed by itself"
	}
	if len(rep.Study.Axes[axis].Values) < 2 {
		return nil, "", "one fan speed only"
	}
	lines := familyOf(rep)
	if !lines.hasValue() {
		return nil, "", "no point of the designs to be drawn has a value"
	}
	metric := rep.Metric()
	f = newFigure(capitalised(metric.Label)+" against fan speed", leadOf(rep), facts(rep, lines.drawn()...))

	across, up := nothing, nothing
	for i := range lines.curves {
		c := &lines.curves[i]
		for _, p := range c.points {
			if !p.leftOut {
				across = across.with(p.speed)
			}
			if !p.missing {
				up = up.with(p.value, p.reference)
			}
		}
		if b, ok := c.best(metric); ok {
			up = up.with(metric.Shown.Shown(metric.Get(&b.State)))
		}
	}
	up = withBands(rep, &lines, up)
	p := newPanel(capitalised(quantity.Must("fan_speed").Title()), capitalised(metric.Title()))
	linear(&p.X, across.padded(0.025), 8)
	suited(&p.Y, up, 8)
	lanes := lanesOf(rep, &lines)
	laneRoom(p, lanes)
	least := p.Y.Min / 10 // below the panel, and above zero where the scale is logarithmic
	p.Add(stroke(func(c *draw.Canvas, x, y func(float64) vg.Length) {
		for _, curve := range lines.baseLast() {
			drawBand(c, bandOf(rep, curve), curve.look, func(p *point, value float64) vg.Point {
				return vg.Point{X: x(p.speed), Y: y(max(value, least))}
			})
		}
	}), grid(p, "xy"), stroke(func(c *draw.Canvas, x, y func(float64) vg.Length) {
		place := newLabels(c)
		for i := range lines.curves {
			curve := &lines.curves[i]
			if level, ok := curve.level(); ok && len(lines.levels()) > 1 {
				c.StrokeLine2(curve.line(thin), c.Min.X, y(level), c.Max.X, y(level))
			}
		}
		if levels := lines.levels(); len(levels) == 1 {
			at := []vg.Point{{X: c.Min.X, Y: y(levels[0])}, {X: c.Max.X, Y: y(levels[0])}}
			c.StrokeLines(referenceLine, at)
			place.blockLine(at)
		}
		for _, curve := range lines.baseLast() {
			if b, ok := curve.best(metric); ok {
				at := vg.Point{X: x(shownSpeed(b.Speed)), Y: y(metric.Shown.Shown(metric.Get(&b.State)))}
				curve.look.best(c, at, bestReach)
				place.block(at, bestReach)
			}
		}
		for _, curve := range lines.baseLast() {
			curve.trace(c, func(p *point) vg.Point { return vg.Point{X: x(p.speed), Y: y(p.value)} }, place)
		}
		crossing := func(s breakeven.Crossing) vg.Point {
			return vg.Point{X: x(shownSpeed(s.Speed)), Y: y(metric.Shown.Shown(metric.Get(&s.State)))}
		}
		for _, curve := range lines.baseLast() {
			for _, s := range curve.crossings(metric) {
				curve.tie(c, x(shownSpeed(s.Tie.Low)), x(shownSpeed(s.Tie.High)), crossing(s).Y)
				curve.breakeven(c, crossing(s), s.Slope > 0)
				place.block(crossing(s), breakevenRadius)
			}
		}
		nameCrossings := func(base bool, w weight) {
			for i := range lines.curves {
				curve := &lines.curves[i]
				if curve.base != base {
					continue
				}
				for _, s := range curve.crossings(metric) {
					place.put(c, letters(textSize, base, curve.lettering()), render.PlusMinus(&s)+" rpm", 9, w, crossing(s))
				}
			}
		}
		nameCrossings(true, should)
		if levels := lines.levels(); len(levels) == 1 {
			style := letters(textSize, true, ink)
			text := fit(style, referenceAt(rep), (c.Max.X-c.Min.X)*0.3) + ": " + referenceLevel(rep, &lines)
			spots := []vg.Point{}
			for _, share := range []float64{0.85, 0.7, 0.5, 0.3, 0.15} {
				spots = append(spots, vg.Point{X: c.X(share), Y: y(levels[0])})
			}
			place.put(c, style, text, 5, should, spots...)
		}
		nameCrossings(false, may)
	}), stroke(func(c *draw.Canvas, x, y func(float64) vg.Length) {
		drawLanes(c, p, "95 % interval of the break-even speed", lanes, x, (*curve).nearest)
	}))
	f.panel(p)

	writeLegend(f.strip, func(l *legend) {
		title := ""
		if lines.axis >= 0 {
			title = capitalised(heading(rep, lines.axis)) + ", and where it is cooler than " + reference(rep) + ", rpm"
		}
		l.keys(&lines, title, true)
		l.skip()
		if len(lines.levels()) > 1 {
			l.key(strokeSample(plainLine(quiet, thin)), referenceAt(rep), false, "under the same condition: a thin level in the colour of each line")
		} else {
			l.key(strokeSample(referenceLine), referenceAt(rep), false, referenceLevel(rep, &lines))
		}
		l.breakevenKeys(rep, &lines, true)
		l.bandKey(rep, &lines, p.Y.Min)
		l.laneKeys(lanes, &lines)
		if note := rangeNote(lines.curves...); note != "" {
			l.key(hollowSample, note, false, "")
		}
		if note := gapNote(lines.curves); note != "" {
			l.skip()
			l.note(note)
		}
	})

	caption = fmt.Sprintf("%s of %s over its fan speed, against %s.", capitalised(metric.Label), challenger(rep), referenceAt(rep))
	if lines.axis >= 0 {
		caption += " One line for each " + heading(rep, lines.axis) + "."
	}
	if len(lanes) > 0 {
		caption += " Below the panel the 95 % interval of the break-even speed of each."
	}
	return f, withHeld(rep, caption, lines.drawn()), ""
}

// leadOf returns the answer of the base design as a sentence, with the names of the
// setups as they are drawn elsewhere; empty if it has none.
func leadOf(rep *render.Report) string {
	base, ok := rep.BaseAnswer()
	if !ok {
		return ""
	}
	if base.Status == breakeven.Excluded {
		return "The base design is left out by the study."
	}
	text := base.Reason
	for _, name := range []string{rep.Challenger().Name, rep.Reference().Name} {
		if len([]rune(name)) > longestName {
			text = strings.ReplaceAll(text, name, named(name))
		}
	}
	return printable(render.Sentence(text))
}

// referenceLevel says the value that the reference has.
func referenceLevel(rep *render.Report, f *family) string {
	metric := rep.Metric()
	return render.WithUnit(metric.Quantity, render.Number(metric.Quantity, metric.Shown.SI(f.levels()[0])))
}

// withHeld adds to a caption what is held.
func withHeld(rep *render.Report, caption string, drawn []int) string {
	if held := held(rep, drawn); held != "" {
		caption += " Held: " + held + "."
	}
	return caption
}
