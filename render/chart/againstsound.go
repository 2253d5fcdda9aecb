package chart

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/model/hazard"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
)

// speedLabels is how many speeds are written along a line.
const speedLabels = 5

// againstSound draws the compared temperature of both setups over the sound at the
// listener: what the same cooling costs in noise.
func againstSound(rep *render.Report) (f *figure, caption, why string) {
	lines := familyOf(rep)
	for i := range lines.curves {
		lines.curves[i].needSound()
	}
	if !lines.hasValue() {
		return nil, "", "no point of the designs to be drawn has a value"
	}
	metric, sound := rep.Metric(), quantity.Must("sound")
	other := referenceCurve(rep)
	f = newFigure(capitalised(metric.Label)+" against sound at the listener", soundLead(rep), facts(rep, lines.drawn()...))

	across, up := nothing, nothing
	for _, c := range append(slices.Clone(lines.curves), other) {
		for _, p := range c.points {
			if !p.missing {
				across, up = across.with(p.state.Sound), up.with(p.value)
			}
		}
	}
	base, isBase := baseAnswer(rep)
	stands := isBase && finite(metric.Get(&base.Reference), base.Reference.Sound)
	if stands {
		across, up = across.with(base.Reference.Sound), up.with(metric.Shown.Shown(metric.Get(&base.Reference)))
	}
	for i := range lines.curves {
		for _, s := range lines.curves[i].crossings(metric) {
			across, up = across.with(s.State.Sound), up.with(metric.Shown.Shown(metric.Get(&s.State)))
		}
		if b, ok := lines.curves[i].best(metric); ok {
			across, up = across.with(b.State.Sound), up.with(metric.Shown.Shown(metric.Get(&b.State)))
		}
	}
	up = withBands(rep, &lines, up)
	p := newPanel(capitalised(sound.Title()), capitalised(metric.Title()))
	linear(&p.X, across.padded(0.04), 8)
	suited(&p.Y, up, 8)
	lanes := lanesOf(rep, &lines)
	laneRoom(p, lanes)
	least := p.Y.Min / 10 // below the panel, and above zero where the scale is logarithmic
	p.Add(stroke(func(c *draw.Canvas, x, y func(float64) vg.Length) {
		for _, curve := range lines.baseLast() {
			drawBand(c, bandOf(rep, curve), curve.look, func(p *point, value float64) vg.Point {
				return vg.Point{X: x(p.state.Sound), Y: y(max(value, least))}
			})
		}
	}), grid(p, "xy"), stroke(func(c *draw.Canvas, x, y func(float64) vg.Length) {
		place := newLabels(c)
		at := func(p *point) vg.Point { return vg.Point{X: x(p.state.Sound), Y: y(p.value)} }
		warnings := warnOfSound(rep, c, x, place)
		for _, curve := range lines.baseLast() {
			if b, ok := curve.best(metric); ok {
				spot := vg.Point{X: x(b.State.Sound), Y: y(metric.Shown.Shown(metric.Get(&b.State)))}
				curve.look.best(c, spot, bestReach)
				place.block(spot, bestReach)
			}
		}
		other.trace(c, at, place)
		for _, curve := range lines.baseLast() {
			curve.trace(c, at, place)
		}
		for _, curve := range lines.baseLast() {
			for _, s := range curve.crossings(metric) {
				spot := vg.Point{X: x(s.State.Sound), Y: y(metric.Shown.Shown(metric.Get(&s.State)))}
				curve.breakeven(c, spot, s.Slope > 0)
				place.block(spot, breakevenRadius)
			}
		}
		if stands {
			spot := vg.Point{X: x(base.Reference.Sound), Y: y(metric.Shown.Shown(metric.Get(&base.Reference)))}
			square.mark(c, spot, 5, ink, paper, 1.2)
			place.block(spot, 6)
			style := letters(textSize, true, ink)
			place.put(c, style, fit(style, referenceAt(rep), (c.Max.X-c.Min.X)*0.4), 9, must, spot)
		}
		for _, w := range warnings {
			place.put(c, letters(textSize, false, darker(vermillion)), w.text, 6, must, w.spots...)
		}
		other.speeds(c, at, place)
		for i := range lines.curves {
			if curve := &lines.curves[i]; curve.base || lines.axis < 0 {
				curve.speeds(c, at, place)
			}
		}
	}), stroke(func(c *draw.Canvas, x, y func(float64) vg.Length) {
		drawLanes(c, p, "Sound over the 95 % interval of the break-even speed", lanes, x, (*curve).soundAt)
	}))
	f.panel(p)

	writeLegend(f.strip, func(l *legend) {
		title := ""
		if lines.axis >= 0 {
			title = challenger(rep) + ": " + heading(rep, lines.axis)
		}
		l.keys(&lines, title, false)
		l.skip()
		if len(other.points) > 0 {
			l.key(sampleOf(other), reference(rep)+" over its own fan speeds", false, ownConditions(rep))
		}
		if stands {
			l.key(func(c *draw.Canvas, r vg.Rectangle) { square.mark(c, middle(r), 5, ink, paper, 1.2) }, referenceAt(rep), false, "")
		}
		l.breakevenKeys(rep, &lines, false)
		l.bandKey(rep, &lines, p.Y.Min)
		l.laneKeys(lanes, &lines)
		if note := rangeNote(append(slices.Clone(lines.curves), other)...); note != "" {
			l.key(hollowSample, note, false, "")
		}
		l.skip()
		along := "Numbers along the lines are fan speeds in rpm."
		if len(render.Field(&rep.Reference().Rig.Room)) == 0 {
			along += " Sound is in free field: no room is taken into account."
		}
		l.note(along)
		if stands && base.Reference.Sound < audible {
			l.note(fmt.Sprintf("Below about %s rooms and microphones are louder (common practice, no source).", given(sound, audible)))
		}
		if note := gapNote(lines.curves); note != "" {
			l.note(note)
		}
	})

	caption = fmt.Sprintf("%s of %s and %s over the sound at the listener.", capitalised(metric.Label), challenger(rep), reference(rep))
	if len(lanes) > 0 {
		caption += " Below the panel the sound over the 95 % interval of the break-even speed of each line."
	}
	return f, withHeld(rep, caption, lines.drawn()), ""
}

// audible is the level, dB(A), below which rooms and microphones are louder (common
// practice, no source).
const audible = 20

// needSound marks points without a sound level as missing.
func (c *curve) needSound() {
	for i := range c.points {
		if p := &c.points[i]; !p.missing {
			p.missing = !finite(p.state.Sound)
		}
	}
}

// soundAt returns the sound, dB(A), of a curve at a fan speed, rev/s: straight between its
// points, over the speed; of a speed beyond them, that of the nearest.
func (c *curve) soundAt(speed float64) float64 {
	speed = shownSpeed(speed)
	var last *point
	for i := range c.points {
		p := &c.points[i]
		if p.missing {
			continue
		}
		if p.speed >= speed {
			if last == nil || p.speed == last.speed {
				return p.state.Sound
			}
			return last.state.Sound + (p.state.Sound-last.state.Sound)*(speed-last.speed)/(p.speed-last.speed)
		}
		last = p
	}
	if last == nil {
		return math.NaN()
	}
	return last.state.Sound
}

// referenceCurve returns the reference over its own speeds.
func referenceCurve(rep *render.Report) curve {
	c := curve{look: look{ink, nil, square}}
	metric := rep.Metric()
	for i := range rep.Results.ReferenceCurve {
		at := &rep.Results.ReferenceCurve[i]
		c.points = append(c.points, pointOf(metric, at.Speed, &at.State, 0))
	}
	c.needSound()
	return c
}

// speeds writes fan speeds at markers of a curve, where there is room.
func (c *curve) speeds(canvas *draw.Canvas, at func(*point) vg.Point, place *labels) {
	speed, marked := quantity.Must("fan_speed"), c.marked()
	for _, i := range spread(len(marked), speedLabels, -1) {
		p := &c.points[marked[i]]
		place.put(canvas, letters(textSize, false, c.lettering()), render.Number(speed, speed.Shown.SI(p.speed)), 7, may, at(p))
	}
}

// soundWarning is what is to be written at the line of a warning, and where it may stand.
type soundWarning struct {
	text  string
	spots []vg.Point
}

// warnOfSound draws the level from which hearing needs protection, if the report
// has a caution about it and the panel reaches it. It returns what is to be written
// beside the line once the curves are traced, so that it can keep clear of them.
func warnOfSound(rep *render.Report, c *draw.Canvas, x func(float64) vg.Length, place *labels) (list []soundWarning) {
	for _, caution := range render.Cautions(rep) {
		// The axis has the listener's level; the operator may stand elsewhere.
		nearer := rep.Challenger().Rig.Room.Nearer()
		compared := caution.Setup == rep.Challenger().Name || caution.Setup == rep.Reference().Name
		if caution.Rule != hazard.Loud || !compared || !c.ContainsX(x(caution.Threshold-nearer)) {
			continue
		}
		at := x(caution.Threshold - nearer)
		line := []vg.Point{{X: at, Y: c.Min.Y}, {X: at, Y: c.Max.Y}}
		c.StrokeLines(draw.LineStyle{Color: vermillion, Width: 1.2, Dashes: []vg.Length{2, 2}}, line)
		place.blockLine(line)
		text := given(caution.What(), caution.Threshold) + ": hearing protection (" + caution.Source + ")"
		if nearer != 0 {
			text = given(caution.What(), caution.Threshold) + " at the operator: hearing protection (" + caution.Source + ")"
		}
		spots := []vg.Point{}
		for _, share := range []float64{0.96, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0.04} {
			spots = append(spots, vg.Point{X: at, Y: c.Y(share)})
		}
		list = append(list, soundWarning{text, spots})
	}
	return list
}

// baseAnswer returns the answer of the base design, and false if it has no value.
func baseAnswer(rep *render.Report) (*breakeven.Answer, bool) {
	base, ok := rep.BaseAnswer()
	if !ok || !render.Answered(base) {
		return nil, false
	}
	return base, true
}

// ownConditions says that the reference's curve holds under the conditions of the
// study itself, where those are swept.
func ownConditions(rep *render.Report) string {
	for _, a := range rep.Study.Axes {
		if a.Input.Shared {
			return "under the study's own conditions"
		}
	}
	return ""
}

// soundLead says what the break-even of the base design costs in noise.
func soundLead(rep *render.Report) string {
	a, ok := baseAnswer(rep)
	if !ok {
		return leadOf(rep)
	}
	small, large := challenger(rep), referenceAt(rep)
	against := func(s float64) string {
		text := fmt.Sprintf("%s against %s of %s", number("sound", s), number("sound", a.Reference.Sound), large)
		// The difference of the numbers shown, so that it agrees with them.
		louder := math.Round(s*10)/10 - math.Round(a.Reference.Sound*10)/10
		word := "more"
		switch {
		case math.Abs(louder) < 0.05:
			return text + ", as much."
		case louder < 0:
			word = "less"
		}
		return fmt.Sprintf("%s, %s dB %s.", text, render.Number(quantity.Must("sound"), math.Abs(louder)), word)
	}
	lower, upper := render.Ends(a)
	switch {
	case !finite(a.Reference.Sound, a.Best.State.Sound):
		return leadOf(rep)
	case lower != nil:
		return fmt.Sprintf("Where %s breaks even, at %s, it makes %s", small, render.PlusMinus(lower)+" rpm", against(lower.State.Sound))
	case upper != nil:
		return fmt.Sprintf("At the end of its band, at %s, %s makes %s", render.PlusMinus(upper)+" rpm", small, against(upper.State.Sound))
	case a.Status == breakeven.Always && a.From == a.To:
		return fmt.Sprintf("At %s, the one speed searched, %s is cooler and makes %s", number("fan_speed", a.Best.Speed), small, against(a.Best.State.Sound))
	case a.Status == breakeven.Always:
		return fmt.Sprintf("%s is cooler at every speed; at its best one, %s, it makes %s", small, number("fan_speed", a.Best.Speed), against(a.Best.State.Sound))
	}
	return fmt.Sprintf("%s stays warmer; at its best speed, %s, it makes %s", small, number("fan_speed", a.Best.Speed), against(a.Best.State.Sound))
}
