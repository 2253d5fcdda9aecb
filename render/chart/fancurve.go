package chart

import (
	"cmp"
	"fmt"
	"image/color"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/model"
	"finduel/model/fan"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/study"
)

// fanPoints is how many points the curve of a fan is drawn by.
const fanPoints = 200

// mostSpeeds is how many speeds of the challenger are drawn.
const mostSpeeds = 5

// fanLine is the fans of a setup at one speed, on its core.
type fanLine struct {
	look
	what  []string // why this speed is drawn
	speed float64  // rev/s
	model.FanCurve
}

// fanPanel is the fans of a setup at some speeds, rising.
type fanPanel struct {
	setup   string // its name
	fans    string // number, name and placing
	lines   []fanLine
	without []string // speeds at which there is no operating point
	stall   stallWords
	grille  bool
}

// fanCurve draws the pressure of the fans over airflow with the resistance of the core,
// a panel a setup: where they cross the setup operates. The curves between are asked
// of the model.
func fanCurve(rep *render.Report) (f *figure, caption, why string) {
	a, ok := baseAnswer(rep)
	if !ok {
		return nil, "", "the base design has no value at any speed or is left out by the study"
	}
	plan := rep.Results.Plan
	first := plan.Point(a.Design, 0)
	rig, other := plan.Challenger(first), plan.Reference(first)
	small := fanPanelOf(rep.Challenger(), &rig, speedsOf(rep), looks)
	large := fanPanelOf(rep.Reference(), &other, []fanLine{{speed: other.Speed}}, []look{{ink, nil, square}})
	if len(small.lines) == 0 {
		return nil, "", "the fans of the base design have no operating point at the speeds to be drawn"
	}
	about := append([]fact{{"Curves", "airflow is that through the core; each flow is at its own temperatures, so that fans and core are in balance where their curves cross"}}, facts(rep)...)
	f = newFigure("Fan curve and core resistance: "+challenger(rep)+" against "+reference(rep), fanLead(&small, &large), about)

	if len(large.lines) > 0 {
		const share = 0.42 // of the width, for the one curve of the reference
		border := f.left.Max.X - share*(f.left.Max.X-f.left.Min.X)
		large.draw(draw.Crop(f.left, border-f.left.Min.X, 0, 0, 0))
		f.left.Max.X = border - 14
	}
	small.draw(f.left)
	fanKeys(f.strip, &small, &large)

	caption = fmt.Sprintf("Static pressure of the fans of %s at %s over airflow, with the resistance of the core; they cross at the operating points.",
		challenger(rep), plural(len(small.lines), "speed", "speeds"))
	if len(large.lines) > 0 {
		caption += " Beside it the same of " + referenceAt(rep) + "."
	}
	return f, withHeld(rep, caption, nil), ""
}

// speedsOf returns the speeds of the challenger that are worth drawing, each once,
// rising: as in the study, the places of its answer, the top of the sweep; the sensible
// speed only if there is room.
func speedsOf(rep *render.Report) []fanLine {
	a, _ := baseAnswer(rep)
	var list []fanLine
	add := func(what string, speed float64) {
		if !finite(speed) || speed <= 0 {
			return
		}
		twin := slices.IndexFunc(list, func(l fanLine) bool { return number("fan_speed", l.speed) == number("fan_speed", speed) })
		switch {
		case twin >= 0:
			list[twin].what = append(list[twin].what, what)
		case len(list) < mostSpeeds:
			list = append(list, fanLine{what: []string{what}, speed: speed})
		}
	}
	if speed, _, ok := ownPoint(rep, a.Design); ok {
		what, own := "as in the study", number("fan_speed", rep.Challenger().Rig.Speed)
		if number("fan_speed", speed) != own {
			what = near + own
		}
		add(what, speed)
	}
	places := rep.Places(a)
	for _, p := range places {
		if p.Name != "reference" && p.Name != "sensible" {
			add(p.Name, p.Speed)
		}
	}
	add("top of the sweep", a.To)
	for _, p := range places {
		if p.Name == "sensible" {
			add(p.Name, p.Speed)
		}
	}
	slices.SortStableFunc(list, func(a, b fanLine) int { return cmp.Compare(a.speed, b.speed) })
	return list
}

// fanPanelOf asks the model for the curves of a rig of a setup at the speeds of lines.
func fanPanelOf(setup *study.Setup, rig *model.Rig, lines []fanLine, looks []look) fanPanel {
	p := fanPanel{
		setup: named(setup.Name), fans: fmt.Sprintf("%d × %s, %s", rig.Fans.Count, named(setup.Fan), rig.Placing),
		stall: wordsOfStall(&rig.Fans.Fan), grille: rig.Installed.GrilleLoss > 0,
	}
	if n := rig.Fans.Stopped; n > 0 {
		p.fans += fmt.Sprintf(", %d standing still", n)
	}
	ready, err := model.Prepare(*rig)
	for _, l := range lines {
		none := err
		if err == nil {
			l.FanCurve, none = ready.FanCurve(l.speed, fanPoints)
		}
		if none != nil {
			p.without = append(p.without, number("fan_speed", l.speed))
			continue
		}
		l.look = looks[len(p.lines)]
		p.lines = append(p.lines, l)
	}
	return p
}

// stallWords says what lies left of where a fan's stall begins.
type stallWords struct {
	region, beside string // in the panel
	inside         string // of a fan in it
	key            string // in the legend
}

func wordsOfStall(f *fan.Fan) stallWords {
	switch {
	case f.Pitch > 0:
		return stallWords{"no data", "no data left of here", "where there are no data", "no data of the propeller: its curve is a guess"}
	case f.Curve != nil:
		return stallWords{"stall", "stall left of here", "in stall", "stall: left of the last peak of the measured curve"}
	}
	return stallWords{"stall likely", "stall likely left of here", "where stall is likely", fmt.Sprintf("stall likely: below %s of free-air flow (common practice, no source)",
		given(quantity.Must("free_flow_share"), fan.StallRegion))}
}

// fanLead says where challenger and reference operate, the challenger at break-even if
// there is one, else at its best.
func fanLead(small, large *fanPanel) string {
	text := capitalised(small.operates(small.told()))
	if len(large.lines) > 0 {
		text += "; " + large.operates(&large.lines[0])
	}
	return text + "."
}

// told returns the line that matters most.
func (p *fanPanel) told() *fanLine {
	for _, what := range []string{"break-even", "best speed"} {
		for i := range p.lines {
			if slices.Contains(p.lines[i].what, what) {
				return &p.lines[i]
			}
		}
	}
	return &p.lines[0]
}

// operates says where the fans operate, without a capital and full stop.
func (p *fanPanel) operates(l *fanLine) string {
	at := number("fan_speed", l.speed)
	if len(l.what) > 0 {
		at += " (" + strings.Join(l.what, ", ") + ")"
	}
	o := &l.Operating
	text := fmt.Sprintf("at %s %s moves %s against %s, %s of free-air flow", at, p.setup,
		number("airflow", o.Airflow), number("static_pressure", o.FanPressure), number("free_flow_share", o.FreeFlowShare))
	if o.Airflow < l.Stall.Airflow {
		text += ", " + p.stall.inside
	}
	for i := range l.Hanging {
		link := " or "
		if i == 0 {
			link = ", and may hang at "
		}
		text += link + number("airflow", l.Hanging[i].Airflow)
	}
	return text
}

// top returns the highest airflow and pressure of the panel, in the units shown.
func (p *fanPanel) top() (airflow, pressure float64) {
	for i := range p.lines {
		for _, q := range p.lines[i].Points {
			airflow = max(airflow, shown("airflow", q.Airflow))
			pressure = max(pressure, shown("static_pressure", q.FanPressure))
		}
	}
	for _, q := range p.told().Points {
		pressure = max(pressure, shown("static_pressure", q.FanPressure+q.DoubtHigh))
	}
	return airflow, pressure
}

// shown returns a number in the unit in which its quantity is shown.
func shown(key string, si float64) float64 { return quantity.Must(key).Shown.Shown(si) }

// uneven is the ratio of operating pressures above which a linear axis would crowd the
// lower ones at its foot.
const uneven = 4

// draw draws the panel with its name.
func (p *fanPanel) draw(c draw.Canvas) {
	style := letters(textSize, true, ink)
	write(&c, style, fromLeft, c.Min.X, c.Max.Y-textSize*capital, fit(style, p.setup+": "+p.fans, c.Max.X-c.Min.X))
	c.Max.Y -= textSize * leading * 1.3
	panel := newPanel(capitalised(quantity.Must("airflow").Title()), capitalised(quantity.Must("static_pressure").Title()))
	panel.X.Label.TextStyle.Font.Size, panel.Y.Label.TextStyle.Font.Size = textSize, textSize
	right, top := p.top()
	linear(&panel.X, span{0, right * 1.03}, 6)
	panel.Y.Min, panel.Y.Max = 0, top*1.06
	low, high := p.lines[0].Operating.FanPressure, p.lines[len(p.lines)-1].Operating.FanPressure
	if high > uneven*low {
		panel.Y.Scale, panel.Y.Tick.Marker = rootScale{}, rootTicks{}
		panel.Y.Label.Text += " (square-root scale)"
	} else {
		linear(&panel.Y, span{0, top * 1.06}, 8)
	}
	panel.Add(grid(panel, "xy"), stroke(p.trace))
	panel.Draw(c)
}

// trace draws the curves of the panel.
func (p *fanPanel) trace(c *draw.Canvas, x, y func(float64) vg.Length) {
	place := newLabels(c)
	at := func(airflow, pressure float64) vg.Point {
		return vg.Point{X: x(shown("airflow", airflow)), Y: y(shown("static_pressure", max(pressure, 0)))}
	}
	regions, border := p.shadeStall(c, at)
	place.blockLine(border)
	told := p.told()
	told.band(c, at)
	for i := range p.lines {
		l := &p.lines[i]
		resistance := func(q *model.FlowPoint) float64 { return q.Resistance }
		l.part(c, place, plainLine(quiet, 0.5), 0, l.LeastAirflow, at, resistance)
		l.part(c, place, resistanceLine, l.LeastAirflow, math.Inf(1), at, resistance)
	}
	for i := range p.lines {
		l := &p.lines[i]
		pressure := func(q *model.FlowPoint) float64 { return q.FanPressure }
		l.part(c, place, l.line(thin), 0, l.Stall.Airflow, at, pressure)
		l.part(c, place, l.line(strong), l.Stall.Airflow, math.Inf(1), at, pressure)
	}
	for i := range p.lines {
		l := &p.lines[i]
		for _, q := range l.Hanging {
			hang := at(q.Airflow, q.FanPressure)
			l.hang(c, hang)
			place.block(hang, hangRadius+1)
		}
		o := at(l.Operating.Airflow, l.Operating.FanPressure)
		l.operating(c, o)
		place.block(o, operatingRadius+1)
	}
	p.nameStall(c, place, regions, border)
	name := func(l *fanLine, w weight) {
		style := letters(textSize, true, l.lettering())
		place.put(c, style, number("fan_speed", l.speed), operatingRadius+4, w, at(l.Operating.Airflow, l.Operating.FanPressure))
		for _, q := range l.Hanging {
			place.put(c, style, "may hang", hangRadius+3, should, at(q.Airflow, q.FanPressure))
		}
	}
	name(told, must)
	for i := range p.lines {
		if l := &p.lines[i]; l != told {
			name(l, should)
		}
	}
}

// Radii of the marks on fan curves.
const (
	operatingRadius = 4.6
	hangRadius      = 5.4
)

// resistanceLine is the style of a core's resistance. Those at several speeds differ by
// their temperatures only, and lie close together.
var resistanceLine = plainLine(quiet, 1.1)

// operating draws an operating point.
func (l look) operating(c *draw.Canvas, at vg.Point) {
	l.shape.mark(c, at, operatingRadius, l.colour, paper, 1)
}

// hang draws the ring where the fans may hang in stall.
func (l look) hang(c *draw.Canvas, at vg.Point) {
	circle.mark(c, at, hangRadius, color.Transparent, l.colour, 1.8)
}

// part draws what get returns of the points from one airflow to another, as far as the
// panel reaches.
func (l *fanLine) part(c *draw.Canvas, place *labels, style draw.LineStyle, from, to float64, at func(airflow, pressure float64) vg.Point, get func(*model.FlowPoint) float64) {
	var line []vg.Point
	for _, q := range l.cut(from, to) {
		line = append(line, at(q.Airflow, get(&q)))
	}
	if len(line) < 2 {
		return
	}
	for _, piece := range c.ClipLinesXY(line) {
		c.StrokeLines(style, piece)
		place.blockLine(piece)
	}
}

// cut returns the points from one airflow to another, with those at the operating point,
// where stall begins and where the fans may hang, so that lines go through their marks.
func (l *fanLine) cut(from, to float64) []model.FlowPoint {
	list := slices.Concat(l.Points, l.Hanging)
	for _, q := range []model.FlowPoint{l.Operating, l.Stall} {
		if q.Airflow > 0 {
			list = append(list, q)
		}
	}
	slices.SortStableFunc(list, byAirflow)
	return slices.DeleteFunc(list, func(q model.FlowPoint) bool { return q.Airflow < from || q.Airflow > to })
}

func byAirflow(a, b model.FlowPoint) int { return cmp.Compare(a.Airflow, b.Airflow) }

// band fills what the fans' pressure may be.
func (l *fanLine) band(c *draw.Canvas, at func(airflow, pressure float64) vg.Point) {
	var area []vg.Point
	points := l.cut(0, math.Inf(1))
	for _, q := range points {
		area = append(area, at(q.Airflow, q.FanPressure+q.DoubtHigh))
	}
	for _, q := range slices.Backward(points) {
		area = append(area, at(q.Airflow, q.FanPressure+q.DoubtLow))
	}
	c.FillPolygon(veiled(l.colour), c.ClipPolygonXY(area))
}

// veiled returns a colour as a veil over what lies below.
func veiled(c color.NRGBA) color.NRGBA {
	c.A = 0x2c
	return c
}

// shadeStall hatches where the fans are in stall: left of a border through where stall
// begins at each speed, up to the curve of the highest. Between the speeds pressure goes
// with the square of flow, as the fan laws say. It returns the border and the hatching,
// each line from the border upwards; nothing if there is no stall.
func (p *fanPanel) shadeStall(c *draw.Canvas, at func(airflow, pressure float64) vg.Point) (hatching [][2]vg.Point, border []vg.Point) {
	top := &p.lines[len(p.lines)-1]
	if top.Stall.Airflow == 0 {
		return nil, nil
	}
	onset := []model.FlowPoint{{}}
	for i := range p.lines {
		if p.lines[i].Stall.Airflow > 0 {
			onset = append(onset, p.lines[i].Stall)
		}
	}
	begins := func(airflow float64) float64 {
		i := 1
		for i < len(onset)-1 && onset[i].Airflow < airflow {
			i++
		}
		a, b := &onset[i-1], &onset[i]
		low, high := math.Sqrt(max(a.FanPressure, 0)), math.Sqrt(max(b.FanPressure, 0))
		root := low + (high-low)*(airflow-a.Airflow)/(b.Airflow-a.Airflow)
		return root * root
	}
	const steps = 60
	for i := range steps + 1 {
		flow := top.Stall.Airflow * float64(i) / steps
		border = append(border, at(flow, begins(flow)))
	}
	// A saddle dips below the border: what is left of the dip is stall at any speed.
	points := top.cut(0, top.Stall.Airflow)
	if k := slices.IndexFunc(points, func(q model.FlowPoint) bool { return q.FanPressure < begins(q.Airflow) }); k >= 0 {
		points = points[:k]
	}
	end := points[len(points)-1].Airflow
	area := []vg.Point{at(0, 0), at(0, points[0].FanPressure)}
	for _, q := range points {
		area = append(area, at(q.Airflow, q.FanPressure))
	}
	for _, q := range slices.Backward(border) {
		if q.X < area[len(area)-1].X {
			area = append(area, q)
		}
	}
	c.FillPolygon(stallFill, area)
	n := int((at(end, 0).X - border[0].X) / stallGap)
	for i := 1; i <= n; i++ {
		flow := end * float64(i) / float64(n+1)
		k := slices.IndexFunc(points, func(q model.FlowPoint) bool { return q.Airflow >= flow })
		line := [2]vg.Point{at(flow, begins(flow)), at(flow, points[k].FanPressure)}
		c.StrokeLine2(plainLine(stallInk, 0.7), line[0].X, line[0].Y, line[1].X, line[1].Y)
		hatching = append(hatching, line)
	}
	c.StrokeLines(stallBorder, border)
	return hatching, border
}

// nameStall says what the hatching is: within it, or beside its border where it is too
// narrow.
func (p *fanPanel) nameStall(c *draw.Canvas, place *labels, hatching [][2]vg.Point, border []vg.Point) {
	if len(hatching) == 0 {
		return
	}
	style := letters(textSize, false, quiet)
	width, height := style.Width(p.stall.region), style.Font.Size*capital
	inside := func(m vg.Point) bool {
		left, right := m.X-width/2, m.X+width/2
		if left < border[0].X+3 || right > hatching[len(hatching)-1][0].X {
			return false
		}
		for _, h := range hatching {
			if h[0].X > left-stallGap && h[0].X < right+stallGap && (h[0].Y > m.Y-height || h[1].Y < m.Y+height) {
				return false
			}
		}
		return true
	}
	var spots []vg.Point
	for _, h := range hatching {
		for _, share := range []vg.Length{0.5, 0.65, 0.8, 0.9, 0.35} {
			if m := (vg.Point{X: h[0].X, Y: h[0].Y + share*(h[1].Y-h[0].Y)}); inside(m) {
				spots = append(spots, m)
			}
		}
	}
	if len(spots) > 0 {
		place.put(c, style, p.stall.region, -height/2, should, spots...)
		return
	}
	for _, share := range []int{6, 5, 7, 4, 8, 3} {
		spots = append(spots, border[len(border)*share/10])
	}
	place.put(c, style, p.stall.beside, 5, should, spots...)
}

// stallBorder is the style of the line where stall begins.
var stallBorder = draw.LineStyle{Color: quiet, Width: 1, Dashes: []vg.Length{3, 2}}

// The look of the region of stall.
var (
	stallFill = color.NRGBA{0xf1, 0xf2, 0xf4, 0xff}
	stallInk  = color.NRGBA{0xc3, 0xc7, 0xcd, 0xff}
)

// stallGap is the distance of the hatching of stall.
const stallGap = 7

// fanKeys writes the legend of the panels.
func fanKeys(strip draw.Canvas, panels ...*fanPanel) {
	writeLegend(strip, func(l *legend) { l.fanKeys(panels...) })
}

func (l *legend) fanKeys(panels ...*fanPanel) {
	what, hangs := "resistance of the core", false
	doubt := nothing
	about := l.c.Max.Y-l.c.Min.Y > roomy
	for _, p := range panels {
		l.heading(fit(letters(l.size, true, ink), p.setup, l.width()))
		for i := range p.lines {
			line := &p.lines[i]
			second := ""
			if about {
				second = number("airflow", line.Operating.Airflow) + " at " + number("static_pressure", line.Operating.FanPressure)
			}
			l.key(func(c *draw.Canvas, r vg.Rectangle) {
				m := middle(r)
				c.StrokeLine2(line.line(strong), r.Min.X, m.Y, r.Max.X, m.Y)
				line.operating(c, m)
			}, strings.Join(append([]string{number("fan_speed", line.speed)}, line.what...), ", "), false, second)
			hangs = hangs || line.Hanging != nil
		}
		if len(p.lines) > 0 {
			o := &p.told().Operating
			doubt = doubt.with(o.DoubtLow/o.FanPressure, o.DoubtHigh/o.FanPressure)
		}
		if len(p.without) > 0 {
			l.note("No operating point at " + strings.Join(p.without, ", ") + ".")
		}
		if p.grille {
			what = "resistance of core and grille"
		}
		l.skip()
	}
	l.key(strokeSample(resistanceLine), what, false, "")
	l.key(func(c *draw.Canvas, r vg.Rectangle) { neutral.operating(c, middle(r)) }, "operating point", false, "")
	if hangs {
		l.key(func(c *draw.Canvas, r vg.Rectangle) { neutral.hang(c, middle(r)) }, "where the fans may hang instead, after a start or a gust", false, "")
	}
	l.key(func(c *draw.Canvas, r vg.Rectangle) { c.FillPolygon(veiled(quiet), corners(r)) },
		"doubt of the fans' pressure", false, doubtWords(doubt))
	var told []stallWords
	for _, p := range panels {
		if slices.Contains(told, p.stall) || !slices.ContainsFunc(p.lines, func(l fanLine) bool { return l.Stall.Airflow > 0 }) {
			continue
		}
		told = append(told, p.stall)
		l.key(func(c *draw.Canvas, r vg.Rectangle) { upright.fill(c, r, stallFill, stallInk, stallGap) }, p.stall.key, false, "")
	}
	if len(told) > 0 {
		l.note("Thin lines: fans in that region; cores with too little air to carry the heat.")
	} else {
		l.note("Thin line: a core with too little air to carry the heat.")
	}
}

// roomy is the height of a strip above which every operating point is written.
const roomy = 340

// doubtWords says how far the fans' pressure may be out where they operate.
func doubtWords(s span) string {
	low, high := given(quantity.Must("fan_doubt_low"), -s.low), given(quantity.Must("fan_doubt_high"), s.high)
	if low == high {
		return "±" + high
	}
	return fmt.Sprintf("-%s to +%s where they operate", number("fan_doubt_low", -s.low), number("fan_doubt_high", s.high))
}

// rootScale is a scale on which a number stands at its square root: fan pressure goes
// with the square of speed, and so curves at all speeds are of one shape on it.
type rootScale struct{}

// Normalize returns where a number stands, 0 at the low end and 1 at the high.
func (rootScale) Normalize(low, high, v float64) float64 {
	low, high = math.Sqrt(max(low, 0)), math.Sqrt(max(high, 0))
	return (math.Sqrt(max(v, 0)) - low) / (high - low)
}

// rootTicks places ticks at 0 and at 1, 2 and 5 times powers of ten, with labels as far
// as there is room.
type rootTicks struct{}

// Ticks returns the ticks of an axis from 0 to high; none if that is no range.
func (rootTicks) Ticks(_, high float64) []plot.Tick {
	if !finite(high) || high <= 0 {
		return nil
	}
	const apart = 0.045 // of the axis, labels at least
	var ticks []plot.Tick
	last := math.Inf(1)
	for power := int(math.Ceil(math.Log10(high))); scaled(1, -power) > high*1e-4; power-- {
		for _, m := range []float64{5, 2, 1} {
			v := scaled(m, -power)
			if v > high {
				continue
			}
			tick, at := plot.Tick{Value: v}, math.Sqrt(v/high)
			if at >= apart && last-at >= apart {
				tick.Label, last = tickLabel(v), at
			}
			ticks = append(ticks, tick)
		}
	}
	ticks = append(ticks, plot.Tick{Value: 0, Label: tickLabel(0)})
	slices.Reverse(ticks)
	return ticks
}
