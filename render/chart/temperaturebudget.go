package chart

import (
	"fmt"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
)

// term is one step of the temperature budget and how it is drawn.
type term struct {
	model.Output
	fill  color.NRGBA
	hatch hatch
}

// budgetLooks are those of the terms, in the order of model.BudgetTerms.
var budgetLooks = []struct {
	fill  color.NRGBA
	hatch hatch
}{
	{color.NRGBA{0xb4, 0xb8, 0xbd, 0xff}, 0},
	{sky, rising},
	{yellow, level},
	{purple, falling},
	{blue, upright | level},
	{green, upright},
	{vermillion, rising | falling},
}

// bar is one setup in one state.
type bar struct {
	name   string
	detail string
	state  *model.State
}

// temperatureBudget draws where coolant over air is lost: the reference and the
// base design of the challenger at the study's speed, at break-even and at its best.
func temperatureBudget(rep *render.Report) (f *figure, caption, why string) {
	a, ok := baseAnswer(rep)
	if !ok {
		return nil, "", "the base design has no value at any speed or is left out by the study"
	}
	bars := slices.DeleteFunc(barsOf(rep), func(b bar) bool { return !finite(b.state.Budget.Sum()) })
	if len(bars) == 0 {
		return nil, "", "the temperature budget of the base design is not finite"
	}
	terms, across := termsOf(bars)
	over := quantity.Must("coolant_over_air")
	lead := leadOf(rep)
	if label := render.LimitLabel(a); label != "" {
		lead = fmt.Sprintf("At its best speed %s loses most against %s in %s: %s more.",
			challenger(rep), reference(rep), label, number("difference", a.Limit.Excess))
	}
	f = newFigure("Temperature budget: "+challenger(rep)+" against "+reference(rep), lead, facts(rep))

	names := draw.Crop(f.left, 0, barNames-(f.left.Max.X-f.left.Min.X), 0, 0)
	p := newPanel(capitalised(over.Title())+" (coolant entering the core)", "")
	linear(&p.X, span{0, across.high * 1.12}, 8)
	p.Y.Min, p.Y.Max = 0, float64(len(bars))
	p.HideY()
	p.Add(grid(p, "x"), stroke(func(c *draw.Canvas, x, y func(float64) vg.Length) {
		var rows []vg.Length
		first := x(bars[0].state.Budget.Sum())
		for i, b := range bars {
			r := vg.Rectangle{Min: vg.Point{X: x(0), Y: y(float64(len(bars)-i) - 0.82)}, Max: vg.Point{Y: y(float64(len(bars)-i) - 0.18)}}
			limitHeight(&r, 64)
			drawBar(c, r, b.state, terms, x)
			nameBar(&names, b, middle(r).Y)
			rows = append(rows, middle(r).Y)
		}
		c.StrokeLine2(referenceLine, first, c.Min.Y, first, c.Max.Y)
		for i, b := range bars {
			writeSum(c, vg.Point{X: x(b.state.Budget.Sum()) + 8, Y: rows[i]}, b.state)
		}
		c.StrokeLine2(plainLine(quiet, 0.9), c.Min.X, c.Min.Y, c.Min.X, c.Max.Y)
	}))
	p.Draw(draw.Crop(f.left, barNames, 0, 0, 0))

	l := newLegend(f.strip)
	l.heading("From the chip to the room")
	for _, t := range terms {
		l.key(func(c *draw.Canvas, r vg.Rectangle) {
			t.hatch.fill(c, r, t.fill, hatchInk(t.fill), hatchGap)
			edge(c, r, plainLine(quiet, 0.8))
		}, t.Label, false, meaning[t.Key])
	}
	l.skip()
	l.key(strokeSample(referenceLine), referenceAt(rep), false, "")

	caption = fmt.Sprintf("Coolant over air split into its steps: %s, and the base design of %s.", referenceAt(rep), challenger(rep))
	return f, withHeld(rep, caption, nil), ""
}

// meaning says in a few words what the terms of the budget are.
var meaning = map[string]string{
	"budget_pump_heat":    "the pump's heat on top",
	"budget_coolant_film": "coolant to tube wall",
	"budget_wall":         "through the tube wall",
	"budget_fin":          "along the fins",
	"budget_air_film":     "fin surface to air",
	"budget_capacity":     "air warms, coolant cools on the way",
	"budget_fan_heat":     "fans warm the air first",
}

// barNames is the width of the names beside the bars.
const barNames = 152

// barsOf returns the states to be compared, the reference first.
func barsOf(rep *render.Report) []bar {
	a, _ := baseAnswer(rep)
	name := challenger(rep)
	list := []bar{{reference(rep), "at " + number("fan_speed", rep.Reference().Rig.Speed), &a.Reference}}
	if speed, state, ok := ownPoint(rep, a.Design); ok {
		at := number("fan_speed", speed)
		text := "as in the study, " + at
		if own := number("fan_speed", rep.Challenger().Rig.Speed); at != own {
			text = "nearest to the study's " + own + ": " + at
		}
		list = append(list, bar{name, text, state})
	}
	lower, upper := render.Ends(a)
	if lower != nil {
		list = append(list, bar{name, "at break-even, " + number("fan_speed", lower.Speed), &lower.State})
	}
	list = append(list, bar{name, "at its best, " + number("fan_speed", a.Best.Speed), &a.Best.State})
	if upper != nil {
		list = append(list, bar{name, "at the end of its band, " + number("fan_speed", upper.Speed), &upper.State})
	}
	return list
}

// ownPoint returns the point of a design that is nearest to the challenger's speed
// in the study, and false if it has no value.
func ownPoint(rep *render.Report, design int) (speed float64, state *model.State, ok bool) {
	plan, nearest := rep.Results.Plan, math.Inf(1)
	for k := plan.Point(design, 0); k < plan.Point(design+1, 0); k++ {
		if distance := math.Abs(rep.Speed(k) - rep.Challenger().Rig.Speed); distance < nearest {
			nearest = distance
			row, has := rep.Results.Row(k)
			if ok = has && row.Failure == ""; ok {
				speed, state = rep.Speed(k), &row.State
			}
		}
	}
	return speed, state, ok
}

// termsOf returns the terms that any bar has, and the range of the sums.
func termsOf(bars []bar) ([]term, span) {
	var terms []term
	across := nothing
	for i, key := range model.BudgetTerms {
		o, _ := model.OutputOf(key)
		if slices.ContainsFunc(bars, func(b bar) bool { return o.Get(b.state) > 0 }) {
			terms = append(terms, term{o, budgetLooks[i].fill, budgetLooks[i].hatch})
		}
	}
	for _, b := range bars {
		across = across.with(b.state.Budget.Sum())
	}
	if across.high <= 0 {
		across.high = 1
	}
	return terms, across
}

// limitHeight makes a bar no higher than a length, about its middle.
func limitHeight(r *vg.Rectangle, most vg.Length) {
	if over := (r.Max.Y - r.Min.Y - most) / 2; over > 0 {
		r.Min.Y += over
		r.Max.Y -= over
	}
}

// hatchInk is the colour of the hatching on a fill: a light veil on dark colours, a
// dark one on light colours.
func hatchInk(fill color.NRGBA) color.NRGBA {
	c := inkOn(fill)
	c.A = 0x60
	return c
}

// drawBar draws the terms of a state one after the other, with their names and
// values where there is room.
func drawBar(c *draw.Canvas, r vg.Rectangle, s *model.State, terms []term, x func(float64) vg.Length) {
	sum := 0.0
	for _, t := range terms {
		value := t.Get(s)
		part := vg.Rectangle{Min: vg.Point{X: x(sum), Y: r.Min.Y}, Max: vg.Point{X: x(sum + value), Y: r.Max.Y}}
		sum += value
		if value <= 0 {
			continue
		}
		t.hatch.fill(c, part, t.fill, hatchInk(t.fill), hatchGap)
		edge(c, part, plainLine(paper, 1))
		style := letters(textSize, false, inkOn(t.fill))
		lines := []string{t.Label, render.Number(t.Quantity, value)}
		if widest(style, lines) > part.Max.X-part.Min.X-8 {
			lines = lines[1:]
		}
		if width := widest(style, lines); width <= part.Max.X-part.Min.X-6 {
			m, half := middle(part), vg.Length(len(lines))*textSize*leading/2
			c.FillPolygon(t.fill, corners(vg.Rectangle{
				Min: vg.Point{X: m.X - width/2 - 2, Y: m.Y - half},
				Max: vg.Point{X: m.X + width/2 + 2, Y: m.Y + half},
			}))
			for i, line := range lines {
				writeMiddle(c, style, centred, m.X, m.Y+half-textSize*leading*(vg.Length(i)+0.5), line)
			}
		}
	}
}

// writeSum writes the sum of a budget behind its bar.
func writeSum(c *draw.Canvas, at vg.Point, s *model.State) {
	style, text := letters(leadSize, true, ink), number("coolant_over_air", s.Budget.Sum())
	c.FillPolygon(paper, corners(vg.Rectangle{
		Min: vg.Point{X: at.X - 2, Y: at.Y - leadSize*0.7},
		Max: vg.Point{X: at.X + style.Width(text) + 2, Y: at.Y + leadSize*0.7},
	}))
	writeMiddle(c, style, fromLeft, at.X, at.Y, text)
}

// widest returns the width of the widest line.
func widest(style draw.TextStyle, lines []string) vg.Length {
	most := vg.Length(0)
	for _, line := range lines {
		most = max(most, style.Width(line))
	}
	return most
}

// nameBar writes what a bar is, beside it, with what it costs in noise and power.
func nameBar(c *draw.Canvas, b bar, y vg.Length) {
	width := c.Max.X - c.Min.X - 10
	bold, plain := letters(textSize, true, ink), letters(textSize, false, ink)
	small := letters(textSize, false, quiet)
	detail := wrap(plain, b.detail, width, 2)
	cost := wrap(small, number("sound", b.state.Sound)+", fans "+number("fan_power", b.state.FanPower), width, 2)
	outside := []string{}
	if b.state.Warnings&beyond != 0 {
		outside = wrap(small, "outside correlation range", width, 2)
	}
	lines := vg.Length(1 + len(detail) + len(cost) + len(outside))
	baseline := y + (lines-1)*textSize*leading/2 - textSize*capital/2
	baseline = paragraph(c, bold, c.Min.X, baseline, wrap(bold, b.name, width, 1))
	baseline = paragraph(c, plain, c.Min.X, baseline, detail)
	baseline = paragraph(c, small, c.Min.X, baseline, cost)
	paragraph(c, small, c.Min.X, baseline, outside)
}
