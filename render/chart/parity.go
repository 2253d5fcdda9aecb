package chart

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
)

// parityLabels is about how many points of the parity line are written at.
const parityLabels = 7

// parity draws, for every fan speed of the reference, the challenger's break-even
// speed, coloured by how much louder the challenger is there.
func parity(rep *render.Report) (f *figure, caption, why string) {
	var d render.Worked
	for _, w := range rep.Worked() {
		if d.Detail == nil && len(parityPoints(w.Detail)) > 0 {
			d = w
		}
	}
	if d.Detail == nil {
		return nil, "", "no design that was worked out equals the reference at any speed of it"
	}
	points := parityPoints(d.Detail)
	across, up, louder := nothing, nothing, nothing
	for _, p := range points {
		across = across.with(shownSpeed(p.Speed))
		up = up.with(shownSpeed(p.Lower.Speed))
		louder = louder.with(p.Lower.State.Sound - p.Reference.Sound)
	}
	top := up.high
	for _, p := range points {
		top = max(top, min(shownSpeed(p.Lower.Tie.High), 1.25*up.high))
		if p.Upper != nil {
			top = max(top, shownSpeed(p.Upper.Speed))
		}
	}
	up = up.with(top)
	sure, why := parityDoubt(rep, d)
	lower, upper := parityEnds(sure, lowerOf), []ends(nil)
	again := slices.ContainsFunc(points, func(p breakeven.ParityPoint) bool { return p.Upper != nil })
	if again {
		upper = parityEnds(sure, upperOf)
	}
	for _, list := range [][]ends{lower, upper} {
		across, up = withEnds(list, across, up)
	}
	small, large := challenger(rep), reference(rep)
	f = newFigure("Parity line: the fan speeds at which "+small+" equals "+large, printable("Parity: "+render.Sentence(rep.Parity(d.Detail))), parityFacts(rep, d))

	p := newPanel("Fan speed of "+large+", rpm", "Fan speed of "+small+", rpm")
	linear(&p.X, across.padded(0.05), 8)
	linear(&p.Y, up.padded(0.05), 8)
	shades := louder.padded(0)
	named := alongLine(points)
	at := func(x, y func(float64) vg.Length, reference, challenger float64) vg.Point {
		return vg.Point{X: x(shownSpeed(reference)), Y: y(shownSpeed(challenger))}
	}
	p.Add(stroke(func(c *draw.Canvas, x, y func(float64) vg.Length) {
		drawEnds(c, upper, x, y, upperEdge)
		drawEnds(c, lower, x, y, lowerEdge)
	}), grid(p, "xy"), stroke(func(c *draw.Canvas, x, y func(float64) vg.Length) {
		place := newLabels(c)
		place.tags = sure != nil
		for i := 1; i < len(points); i++ {
			a, b := points[i-1], points[i]
			quad := []vg.Point{
				at(x, y, a.Speed, a.Lower.Tie.Low), at(x, y, b.Speed, b.Lower.Tie.Low),
				at(x, y, b.Speed, b.Lower.Tie.High), at(x, y, a.Speed, a.Lower.Tie.High),
			}
			if clipped := c.ClipPolygonXY(quad); len(clipped) > 2 {
				c.FillPolygon(blank, clipped)
			}
		}
		for i := 1; i < len(points); i++ {
			if a, b := points[i-1], points[i]; a.Upper != nil && b.Upper != nil {
				line := []vg.Point{at(x, y, a.Speed, a.Upper.Speed), at(x, y, b.Speed, b.Upper.Speed)}
				c.StrokeLines(draw.LineStyle{Color: ink, Width: 1.4, Dashes: []vg.Length{7, 4}}, c.ClipLinesXY(line)...)
				place.blockLine(line)
			}
		}
		for i := 1; i < len(points); i++ {
			a, b := points[i-1], points[i]
			line := []vg.Point{at(x, y, a.Speed, a.Lower.Speed), at(x, y, b.Speed, b.Lower.Speed)}
			mean := (a.Lower.State.Sound - a.Reference.Sound + b.Lower.State.Sound - b.Reference.Sound) / 2
			c.StrokeLines(plainLine(ink, 6.4), line)
			c.StrokeLines(plainLine(viridis((mean-shades.low)/(shades.high-shades.low)), 4.6), line)
			place.blockLine(line)
		}
		for _, i := range named {
			q := points[i]
			spot := at(x, y, q.Speed, q.Lower.Speed)
			circle.mark(c, spot, 4.4, viridis((q.Lower.State.Sound-q.Reference.Sound-shades.low)/(shades.high-shades.low)), ink, 1.3)
			place.block(spot, 5)
		}
		own := rep.Reference().Rig.Speed
		for _, q := range points {
			if q.Speed == own {
				spot := at(x, y, q.Speed, q.Lower.Speed)
				square.mark(c, spot, 5.4, paper, ink, 2)
				place.block(spot, 6)
			}
		}
		for _, i := range named {
			q := points[i]
			text := fmt.Sprintf("%+.0f dB, %s to %s", q.Lower.State.Sound-q.Reference.Sound,
				render.Number(quantity.Must("fan_power"), q.Reference.FanPower), number("fan_power", q.Lower.State.FanPower))
			place.put(c, letters(textSize, false, ink), text, 13, should, at(x, y, q.Speed, q.Lower.Speed))
		}
	}))
	f.panel(p)

	writeLegend(f.strip, func(l *legend) {
		l.colourBar("Sound of challenger minus that of reference, dB", shades, 130)
		l.skip()
		l.key(func(c *draw.Canvas, r vg.Rectangle) {
			m := middle(r)
			c.StrokeLine2(plainLine(ink, 6.4), r.Min.X, m.Y, r.Max.X, m.Y)
			c.StrokeLine2(plainLine(viridis(0.5), 4.6), r.Min.X, m.Y, r.Max.X, m.Y)
		}, "equal; challenger cooler above", false, "")
		l.key(func(c *draw.Canvas, r vg.Rectangle) { c.FillPolygon(blank, corners(r)) },
			"within "+render.Margin(d.Answer)+": a tie", false, "")
		if again {
			l.key(strokeSample(draw.LineStyle{Color: ink, Width: 1.4, Dashes: []vg.Length{7, 4}}), "equal again; challenger warmer above", false, "")
		}
		for _, q := range points {
			if q.Speed == rep.Reference().Rig.Speed {
				l.key(func(c *draw.Canvas, r vg.Rectangle) { square.mark(c, middle(r), 5, paper, ink, 2) }, "reference as in the study", false, "")
				break
			}
		}
		l.skip()
		l.parityKeys(rep, sure, why, again)
		l.skip()
		l.note("At the points: how much louder the challenger is, and the fan power of the reference and of the challenger, on the line: both move with the speed.")
	})

	caption = fmt.Sprintf("For every fan speed of %s the speed at which %s equals it, coloured by the difference in sound.", large, small)
	if sure != nil {
		caption += " Areas are 95 % intervals of that speed."
	}
	return f, caption, ""
}

// alongLine returns which points of a parity line are written at: those nearest to
// speeds of the reference that are spread evenly.
func alongLine(points []breakeven.ParityPoint) []int {
	first, last := points[0].Speed, points[len(points)-1].Speed
	var list []int
	for k := range parityLabels {
		target := first + (last-first)*float64(k)/(parityLabels-1)
		best := 0
		for i := range points {
			if math.Abs(points[i].Speed-target) < math.Abs(points[best].Speed-target) {
				best = i
			}
		}
		if n := len(list); n == 0 || list[n-1] != best {
			list = append(list, best)
		}
	}
	return list
}

// parityPoints returns the points of a parity line that can be drawn.
func parityPoints(d *breakeven.Detail) []breakeven.ParityPoint {
	var list []breakeven.ParityPoint
	for _, p := range d.Parity {
		if p.Lower != nil && finite(p.Speed, p.Lower.Speed, p.Reference.Sound, p.Lower.State.Sound, p.Reference.FanPower, p.Lower.State.FanPower, p.Lower.Tie.Low, p.Lower.Tie.High) {
			list = append(list, p)
		}
	}
	return list
}

// parityFacts returns what stands under the title: the setups, the conditions, and
// the design that is drawn.
func parityFacts(rep *render.Report, d render.Worked) []fact {
	list := facts(rep, rep.DesignAxes()...)
	if held := rep.Design(d.Design); held != "" {
		list = append(list, fact{"Design", printable(held + ": " + d.Chosen)})
	}
	return list
}
