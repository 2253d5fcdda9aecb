package chart

import (
	"fmt"
	"image/color"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
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
	detail string // what the state is, without its speed
	speed  string // of the fans, with its unit
	state  *model.State
	band   *doubt.Band       // 95 % interval of what is compared; nil if it is not known
	sure   render.PlaceDoubt // the same with its draws
}

// near is the detail of a state that is only near the one looked for.
const near = "nearest to the study's "

// temperatureBudget draws where coolant over air is lost: the reference and the
// base design of the challenger at the study's speed, at break-even and at its best.
func temperatureBudget(rep *render.Report) (f *figure, caption, why string) {
	a, ok := baseAnswer(rep)
	if !ok {
		return nil, "", "the base design has no value at any speed or is left out by the study"
	}
	bars := barsOf(rep)
	if len(bars) == 0 {
		return nil, "", "the temperature budget of the base design is not finite"
	}
	metric, over := rep.Metric(), quantity.Must("coolant_over_air")
	terms, across := termsOf(bars, metric.Key == over.Key)
	about := facts(rep)
	explanation := splitNote(rep)
	if explanation != "" {
		about = append([]fact{{"Compared", explanation}}, about...)
	}
	f = newFigure("Temperature budget: "+challenger(rep)+" against "+reference(rep), budgetLead(rep, a), about)

	names := draw.Crop(f.left, 0, barNames-(f.left.Max.X-f.left.Min.X), 0, 0)
	p := newPanel(capitalised(over.Title())+" (coolant entering the core)", "")
	linear(&p.X, span{0, across.high}, 8)
	p.Y.Min, p.Y.Max = 0, float64(len(bars))
	p.HideY()
	p.Add(grid(p, "x"), stroke(func(c *draw.Canvas, x, y func(float64) vg.Length) {
		var rows []vg.Length
		first := x(bars[0].state.Budget.Sum())
		for i, b := range bars {
			r := vg.Rectangle{Min: vg.Point{X: x(0), Y: y(float64(len(bars)-i) - 0.82)}, Max: vg.Point{Y: y(float64(len(bars)-i) - 0.18)}}
			limitHeight(&r, 64)
			drawBar(c, r, b.state, terms, x)
			compared := ""
			if explanation != "" {
				compared = metric.Label + " " + render.WithUnit(metric.Quantity, render.Number(metric.Quantity, metric.Get(b.state)))
				if b.band != nil {
					compared += " (95 %: " + render.Interval(metric.Quantity, *b.band) + ")"
				}
			}
			nameBar(&names, b, compared, middle(r).Y)
			rows = append(rows, middle(r).Y)
		}
		c.StrokeLine2(referenceLine, first, c.Min.Y, first, c.Max.Y)
		for i, b := range bars {
			writeSum(c, vg.Point{X: x(b.state.Budget.Sum()) + 8, Y: rows[i]}, b.state)
			if b.band != nil && explanation == "" {
				writeInterval(c, x(over.Shown.Shown(b.band.Low)), x(over.Shown.Shown(b.band.High)), rows[i]-belowMiddle, render.Interval(over, *b.band))
			}
		}
		c.StrokeLine2(plainLine(quiet, 0.9), c.Min.X, c.Min.Y, c.Min.X, c.Max.Y)
	}))
	p.Draw(draw.Crop(f.left, barNames, 0, 0, 0))

	writeLegend(f.strip, func(l *legend) {
		l.heading("From the coolant to the room")
		for _, t := range terms {
			l.key(func(c *draw.Canvas, r vg.Rectangle) {
				t.hatch.fill(c, r, t.fill, hatchInk(t.fill), hatchGap)
				edge(c, r, plainLine(quiet, 0.8))
			}, t.Label, false, meaning[t.Key])
		}
		l.skip()
		l.key(strokeSample(referenceLine), referenceAt(rep), false, "coolant over air")
		if explanation == "" && slices.ContainsFunc(bars, func(b bar) bool { return b.band != nil }) {
			l.key(func(c *draw.Canvas, r vg.Rectangle) { whisker(c, r.Min.X, r.Max.X, middle(r).Y) },
				"95 % interval", false, "each setup by itself; what both share cancels in a comparison")
		}
		var drawn []render.PlaceDoubt
		for _, b := range bars {
			drawn = append(drawn, b.sure)
		}
		l.absent(drawn...)
	})

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

// budgetLead says by how much the challenger wins at its best speed and what is
// then the largest part of its own budget; or by which part it loses most.
func budgetLead(rep *render.Report, a *breakeven.Answer) string {
	metric := rep.Metric()
	if !finite(a.Best.Difference, a.Best.State.Budget.Sum()) {
		return leadOf(rep)
	}
	if a.Best.Difference < 0 {
		key, value := largestTerm(&a.Best.State)
		in := ""
		if metric.Key != "coolant_over_air" {
			in = " in " + metric.Label
		}
		return fmt.Sprintf("At its best speed, %s, %s is %s cooler than %s%s; the largest part of its own budget is %s, %s of %s.",
			number("fan_speed", a.Best.Speed), challenger(rep), number("difference", -a.Best.Difference), reference(rep), in,
			quantity.Must(key).Label, render.Number(quantity.Must(key), value), number("coolant_over_air", a.Best.State.Budget.Sum()))
	}
	if label := render.LimitLabel(a); label != "" {
		return fmt.Sprintf("At its best speed, %s, %s loses most against %s in %s: %s more.",
			number("fan_speed", a.Best.Speed), challenger(rep), reference(rep), label, number("difference", a.Limit.Excess))
	}
	return leadOf(rep)
}

// largestTerm returns the largest term of a state's budget, K.
func largestTerm(s *model.State) (key string, value float64) {
	for _, k := range model.BudgetTerms {
		if o, _ := model.OutputOf(k); key == "" || o.Get(s) > value {
			key, value = k, o.Get(s)
		}
	}
	return key, value
}

// splitNote says how what the study compares follows from what the bars split;
// empty if that is the same.
func splitNote(rep *render.Report) string {
	metric := rep.Metric()
	fall := ""
	switch metric.Key {
	case "coolant_mean_over_air":
		fall = "less half the coolant's fall through the core"
	case "chip_over_air":
		fall = "less the coolant's fall through the core, plus heat load times plate resistance"
	default:
		return ""
	}
	return fmt.Sprintf("the study compares %s, written beside each bar; the bars split coolant over air (coolant entering the core). %s is that %s",
		metric.Label, capitalised(metric.Label), fall)
}

// barsOf returns the states to be compared, the reference first, each speed of the
// challenger once.
func barsOf(rep *render.Report) []bar {
	a, _ := baseAnswer(rep)
	var list []bar
	add := func(name, detail, words string, speed float64, s *model.State) {
		b := bar{name: name, detail: detail, speed: words, state: s}
		if b.sure, _ = rep.DoubtAt(a, &render.Place{Speed: speed, State: s}); b.sure.Draws > 0 && !math.IsNaN(b.sure.Band.Median) {
			b.band = &b.sure.Band
		}
		if !finite(s.Budget.Sum()) {
			return
		}
		twin := slices.IndexFunc(list, func(o bar) bool { return o.name == name && o.speed == b.speed && o.detail != "" })
		switch {
		case twin < 0:
			list = append(list, b)
		case strings.HasPrefix(list[twin].detail, near):
			list = append(slices.Delete(list, twin, twin+1), b)
		default:
			b.detail = list[twin].detail + " and " + detail
			list[twin] = b
		}
	}
	rated := rep.Reference().Rig.Speed
	add(reference(rep), "", number("fan_speed", rated), rated, &a.Reference)
	challenger, own := challenger(rep), number("fan_speed", rep.Challenger().Rig.Speed)
	at := func(detail, words string, speed float64, s *model.State) {
		add(challenger, detail, words, speed, s)
	}
	if speed, state, ok := ownPoint(rep, a.Design); ok {
		detail := "as in the study"
		if number("fan_speed", speed) != own {
			detail = near + own
		}
		at(detail, number("fan_speed", speed), speed, state)
	}
	lower, upper := render.Ends(a)
	if lower != nil {
		at("at break-even", render.PlusMinus(lower)+" rpm", lower.Speed, &lower.State)
	}
	at("at its best", number("fan_speed", a.Best.Speed), a.Best.Speed, &a.Best.State)
	if upper != nil {
		at("at the end of its band", render.PlusMinus(upper)+" rpm", upper.Speed, &upper.State)
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

// termsOf returns the terms that any bar has, and the range across, with the intervals of
// the bars if they are of what the bars show.
func termsOf(bars []bar, intervals bool) ([]term, span) {
	var terms []term
	across := nothing
	for i, key := range model.BudgetTerms {
		o, _ := model.OutputOf(key)
		if slices.ContainsFunc(bars, func(b bar) bool { return o.Get(b.state) > 0 }) {
			terms = append(terms, term{o, budgetLooks[i].fill, budgetLooks[i].hatch})
		}
	}
	for _, b := range bars {
		across = across.with(1.12 * b.state.Budget.Sum()) // room for its number, or its interval's
		if intervals && b.band != nil {
			across = across.with(1.2 * b.band.High)
		}
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
	writeOnPaper(c, letters(leadSize, true, ink), at, number("coolant_over_air", s.Budget.Sum()))
}

// writeOnPaper writes a text from a point on, on a ground of its own.
func writeOnPaper(c *draw.Canvas, style draw.TextStyle, at vg.Point, text string) {
	half := style.Font.Size * 0.7
	c.FillPolygon(paper, corners(vg.Rectangle{
		Min: vg.Point{X: at.X - 2, Y: at.Y - half},
		Max: vg.Point{X: at.X + style.Width(text) + 2, Y: at.Y + half},
	}))
	writeMiddle(c, style, fromLeft, at.X, at.Y, text)
}

// belowMiddle is how far under the middle of a bar its interval is drawn: under its words.
const belowMiddle = 21

// writeInterval draws an interval across a bar and beyond, and writes it behind.
func writeInterval(c *draw.Canvas, low, high, y vg.Length, text string) {
	writeOnPaper(c, letters(textSize, false, quiet), vg.Point{X: high + 8, Y: y}, text)
	whisker(c, low, high, y)
}

// whisker draws an interval across, on a pale ground so that it can be seen on any fill.
func whisker(c *draw.Canvas, low, high, y vg.Length) {
	const cap = 5
	for _, line := range []draw.LineStyle{plainLine(paper, 4), plainLine(ink, 1.6)} {
		c.StrokeLine2(line, low, y, high, y)
		c.StrokeLine2(line, low, y-cap, low, y+cap)
		c.StrokeLine2(line, high, y-cap, high, y+cap)
	}
}

// widest returns the width of the widest line.
func widest(style draw.TextStyle, lines []string) vg.Length {
	most := vg.Length(0)
	for _, line := range lines {
		most = max(most, style.Width(line))
	}
	return most
}

// what says what a bar is and at which speed.
func (b *bar) what() string {
	switch {
	case b.detail == "":
		return "at " + b.speed
	case strings.HasPrefix(b.detail, near):
		return b.detail + ": " + b.speed
	}
	return b.detail + ", " + b.speed
}

// nameBar writes what a bar is, beside it, with what it costs in noise and power and what
// is compared, if that is not what the bar shows.
func nameBar(c *draw.Canvas, b bar, compared string, y vg.Length) {
	width := c.Max.X - c.Min.X - 10
	bold, plain := letters(textSize, true, ink), letters(textSize, false, ink)
	small := letters(textSize, false, quiet)
	detail := wrap(plain, b.what(), width, 3)
	cost := wrap(small, number("sound", b.state.Sound)+", fans "+number("fan_power", b.state.FanPower), width, 2)
	outside := []string{}
	if b.state.Warnings&beyond != 0 {
		outside = wrap(small, "outside correlation range", width, 2)
	}
	if compared != "" {
		detail = append(detail, wrap(plain, compared, width, 2)...)
	}
	lines := vg.Length(1 + len(detail) + len(cost) + len(outside))
	baseline := y + (lines-1)*textSize*leading/2 - textSize*capital/2
	baseline = paragraph(c, bold, c.Min.X, baseline, wrap(bold, b.name, width, 1))
	baseline = paragraph(c, plain, c.Min.X, baseline, detail)
	baseline = paragraph(c, small, c.Min.X, baseline, cost)
	paragraph(c, small, c.Min.X, baseline, outside)
}
