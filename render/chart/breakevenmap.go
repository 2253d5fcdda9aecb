package chart

import (
	"cmp"
	"fmt"
	"image/color"
	"slices"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
)

// wordyCells is up to how many cells a map has its numbers written in.
const wordyCells = 60

// cell is a design in a map.
type cell struct {
	column, row int
	answer      *breakeven.Answer
	base        bool
}

// kind is how a cell without a lower break-even is drawn.
type kind struct {
	word, meaning string
	fill          color.NRGBA
	hatch         hatch
}

// The cells without a lower break-even.
var (
	never    = kind{"none", "no break-even: warmer at every speed", blank, rising | falling}
	tied     = kind{"tie", "a tie: nowhere cooler by more than the margin", paper, rising}
	always   = kind{"always", "cooler at every speed", paper, upright}
	upTo     = kind{"to", "cooler from the lowest speed on, up to the speed given", paper, level}
	unknown  = kind{"no value", "no value at any speed", blank, 0}
	excluded = kind{"left out", "left out by the study", paper, 0}
)

// kindOf returns how an answer without a lower break-even is drawn.
func kindOf(a *breakeven.Answer) kind {
	_, hasUpper := a.Upper()
	switch {
	case a.Status == breakeven.Excluded:
		return excluded
	case a.Status == breakeven.Unknown:
		return unknown
	case a.Status == breakeven.Tie:
		return tied
	case a.Status == breakeven.Always:
		return always
	case hasUpper:
		return upTo
	}
	return never
}

// breakevenMap draws the break-even speed over two axes of the design.
func breakevenMap(rep *render.Report, across, down int) (f *figure, caption, why string) {
	cells, columns, rows, more := cellsOf(rep, across, down)
	if len(cells) == 0 {
		return nil, "", "the report has no answers"
	}
	scale := nothing
	for _, c := range cells {
		if speed, ok := lowerSpeed(c.answer); ok {
			scale = scale.with(speed)
		}
	}
	speed := quantity.Must("breakeven_speed")
	f = newFigure("Break-even speed of "+challenger(rep)+" against "+referenceAt(rep), mapLead(rep, cells, across, down), facts(rep, across, down))
	scale = scale.padded(0)

	p := newPanel(capitalised(axisTitle(rep, across)), capitalised(axisTitle(rep, down)))
	for _, a := range []struct {
		axis   *plot.Axis
		values []float64
		of     int
	}{{&p.X, columns, across}, {&p.Y, rows, down}} {
		a.axis.Min, a.axis.Max = -0.5, float64(len(a.values))-0.5
		a.axis.Tick.Length, a.axis.LineStyle.Width, a.axis.Padding = 0, 0, 3
		a.axis.Tick.Marker = cellTicks(rep, a.of, a.values)
	}
	wordy := len(cells) <= wordyCells
	cheap := cheapestOf(cells)
	p.Add(stroke(func(c *draw.Canvas, x, y func(float64) vg.Length) {
		boxOf := func(s cell) vg.Rectangle {
			at := func(pos func(float64) vg.Length, i int, half float64) vg.Length { return pixel(pos(float64(i) + half)) }
			return vg.Rectangle{
				Min: vg.Point{X: at(x, s.column, -0.5), Y: at(y, s.row, -0.5)},
				Max: vg.Point{X: at(x, s.column, 0.5), Y: at(y, s.row, 0.5)},
			}
		}
		for _, s := range cells {
			drawCell(c, boxOf(s), s.answer, scale, wordy, sureWords(rep, s.answer))
		}
		for _, s := range cells {
			if s.base {
				edge(c, inset(boxOf(s), 2.6), plainLine(paper, 5.2))
				edge(c, inset(boxOf(s), 1.8), plainLine(ink, 2.4))
			}
		}
		place := newLabels(c)
		if !wordy {
			drawContours(c, x, y, rep, cells, len(columns), len(rows), place)
		}
		for _, s := range cells {
			markCheapest(c, boxOf(s), s.answer, cheap)
		}
	}))
	f.panel(p)

	writeLegend(f.strip, func(l *legend) {
		if anyLower(cells) {
			l.colourBar(capitalised(speed.Title()), scale, 150)
			l.skip()
		}
		for _, k := range []kind{never, tied, always, upTo, unknown, excluded} {
			if slices.ContainsFunc(cells, func(c cell) bool {
				_, ok := lowerSpeed(c.answer)
				return !ok && kindOf(c.answer) == k
			}) {
				l.key(func(c *draw.Canvas, r vg.Rectangle) {
					k.hatch.fill(c, r, k.fill, quiet, hatchGap)
					edge(c, r, plainLine(quiet, 0.8))
				}, k.meaning, false, "")
			}
		}
		if slices.ContainsFunc(cells, func(c cell) bool { return c.base }) {
			base := ""
			if i := slices.IndexFunc(cells, func(c cell) bool { return c.base }); !wordy {
				base = sureLine(rep, cells[i].answer)
			}
			l.key(func(c *draw.Canvas, r vg.Rectangle) { edge(c, r, plainLine(ink, 2.4)) }, "base design", false, base)
		}
		if !wordy && anyLower(cells) {
			l.contourKeys(rep, cells)
		}
		l.cheapestKeys(cheap)
		l.skip()
		if more > 0 {
			l.note(fmt.Sprintf("%s × %s of %s × %s values are drawn and counted; breakeven.csv has all.", render.Whole(len(columns)), render.Whole(len(rows)),
				render.Whole(len(rep.Study.Axes[across].Values)), render.Whole(len(rep.Study.Axes[down].Values))))
		}
		if rep.Doubt != nil && !drawnAll(rep, cells) {
			l.note("Designs without an interval were not assessed; the study can ask for all (doubt: designs: all).")
		}
		if wordy && anyLower(cells) {
			l.note("±: as far as " + given(quantity.Must("margin"), breakeven.Margin(rep.Study)) + " moves it.")
		}
		if wordy && slices.ContainsFunc(cells, func(c cell) bool {
			_, ok := c.answer.Upper()
			return ok && c.answer.Status != breakeven.Tie
		}) {
			l.note("A second speed is the one above which the challenger is warmer again.")
		}
		if wordy && slices.ContainsFunc(cells, func(c cell) bool { return sureWords(rep, c.answer) != nil }) {
			l.skip()
			text := "Last line: 95 % interval of the break-even speed, or how probable one is."
			if slices.ContainsFunc(cells, func(c cell) bool { return len(sureWords(rep, c.answer)) > 1 }) {
				text = "Last lines: 95 % interval of the break-even speed and of the second one (end), or how probable one is."
			}
			l.note(text)
		}
	})

	caption = fmt.Sprintf("Break-even fan speed of %s against %s over %s (across) and %s (up); one cell a design.",
		challenger(rep), referenceAt(rep), heading(rep, across), heading(rep, down))
	return f, withHeld(rep, caption, []int{across, down}), ""
}

// maps returns the maps of a report: over the pairs of axes that the study names, or
// over fin density and fin depth and over face area and fin density, or else over the
// first two axes that can be chosen one by one and have more than one value.
func maps(rep *render.Report) []chart {
	pairs, why := mapPairs(rep)
	if why != "" {
		return []chart{{mapName(0), func(*render.Report) (*figure, string, string) { return nil, "", why }}}
	}
	var list []chart
	for i, pair := range pairs {
		list = append(list, chart{mapName(i), func(rep *render.Report) (*figure, string, string) {
			return breakevenMap(rep, pair[0], pair[1])
		}})
	}
	return list
}

// mapName returns the name of the file of the map with a number, from 0.
func mapName(i int) string {
	if i == 0 {
		return "breakeven-map.png"
	}
	return fmt.Sprintf("breakeven-map-%d.png", i+1)
}

// mapPairs returns the axes of the maps, across and up; why not, if there are not as
// many.
func mapPairs(rep *render.Report) (pairs [][2]int, why string) {
	free := rep.FreeAxes()
	if len(free) < 2 {
		return nil, "a map needs two swept inputs beside the fan speed; this study has " + []string{"none", "one"}[len(free)]
	}
	free = slices.DeleteFunc(free, func(i int) bool { return len(rep.Study.Axes[i].Values) < 2 })
	if len(free) < 2 {
		return nil, "a map needs two swept inputs beside the fan speed with at least two values each"
	}
	for _, pair := range rep.Study.Maps {
		pairs = append(pairs, [2]int{leader(rep, pair[0]), leader(rep, pair[1])})
	}
	if pairs != nil {
		return pairs, ""
	}
	find := func(keys ...string) int {
		return slices.IndexFunc(free, func(i int) bool { return slices.Contains(keys, rep.Study.Axes[i].Input.Key) })
	}
	density, depth, area := find("fin_density"), find("fin_depth", "overall_thickness"), find("face_area")
	if density >= 0 && depth >= 0 {
		pairs = append(pairs, [2]int{free[density], free[depth]})
	}
	if density >= 0 && area >= 0 {
		pairs = append(pairs, [2]int{free[area], free[density]})
	}
	if pairs == nil {
		pairs = append(pairs, [2]int{free[0], free[1]})
	}
	return pairs, ""
}

// leader returns the axis that stands for the group of an axis.
func leader(rep *render.Report, axis int) int {
	if group := rep.Study.Axes[axis].Group; group != "" {
		return slices.IndexFunc(rep.Study.Axes, func(a study.Axis) bool { return a.Group == group })
	}
	return axis
}

// mostOnAxis is how many values an axis of a map has at most: of more, some that are
// spread evenly are drawn, and what the challenger has in any case.
const mostOnAxis = 100

// cellsOf returns the designs of a map, the values of its axes, rising, and how many
// designs are not drawn.
func cellsOf(rep *render.Report, across, down int) (cells []cell, columns, rows []float64, more int) {
	order := func(axis int) (place []int, values []float64) {
		given := rep.Study.Axes[axis].Values
		steps := make([]int, len(given))
		for i := range steps {
			steps[i] = i
		}
		slices.SortStableFunc(steps, func(a, b int) int { return cmp.Compare(given[a], given[b]) })
		place = slices.Repeat([]int{-1}, len(given))
		for _, rank := range spread(len(given), mostOnAxis, slices.Index(steps, rep.Results.Plan.Nearest(axis))) {
			place[steps[rank]] = len(values)
			values = append(values, given[steps[rank]])
		}
		return place, values
	}
	column, columns := order(across)
	row, rows := order(down)
	base := rep.HeldDesigns()
	for _, design := range rep.HeldDesigns(across, down) {
		c := cell{
			column: column[rep.DesignStep(design, across)], row: row[rep.DesignStep(design, down)],
			base: design == base[0],
		}
		if c.column < 0 || c.row < 0 {
			more++
			continue
		}
		if a, ok := rep.AnswerOf(design); ok {
			c.answer = a
			cells = append(cells, c)
		}
	}
	return cells, columns, rows, more
}

// lowerSpeed returns the speed from which a design is cooler, in the unit shown, and
// false if there is none that can be drawn.
func lowerSpeed(a *breakeven.Answer) (float64, bool) {
	if !render.Answered(a) || a.Status == breakeven.Tie {
		return 0, false
	}
	v, ok := a.Lower()
	return shownSpeed(v), ok && finite(shownSpeed(v))
}

func anyLower(cells []cell) bool {
	return slices.ContainsFunc(cells, func(c cell) bool { _, ok := lowerSpeed(c.answer); return ok })
}

// hatchGap is the distance of the lines in a hatched cell.
const hatchGap = 7

// drawCell draws a design, with its speeds in words if there is room, and how sure they
// are.
func drawCell(c *draw.Canvas, r vg.Rectangle, a *breakeven.Answer, scale span, wordy bool, sure []string) {
	fill := color.NRGBA{}
	var words []string
	if speed, ok := lowerSpeed(a); ok {
		fill = viridis((speed - scale.low) / (scale.high - scale.low))
		c.FillPolygon(fill, corners(r))
		low, _ := render.Ends(a)
		speed, tie, _ := strings.Cut(render.PlusMinus(low), " ±")
		words = []string{speed}
		if tie != "" {
			words = append(words, "±"+tie)
		}
	} else {
		k := kindOf(a)
		fill = k.fill
		k.hatch.fill(c, r, k.fill, quiet, hatchGap)
		if k != upTo {
			words = []string{k.word}
		}
	}
	if !wordy {
		return
	}
	edge(c, r, plainLine(paper, 1.2))
	switch _, upper := render.Ends(a); {
	case a.Status == breakeven.Tie:
		words = append(words, a.Tie.String())
	case upper != nil:
		words = append(words, "to "+render.PlusMinus(upper))
	}
	if len(words) > 0 {
		words = append(words, sure...)
	}
	style := letters(leadSize, true, inkOn(fill))
	baseline := middle(r).Y + leadSize*(leading*vg.Length(len(words)-1)-capital)/2
	for i, w := range words {
		if i > 0 {
			style = letters(textSize, false, inkOn(fill))
		}
		w = fit(style, w, r.Max.X-r.Min.X-4)
		if fill.A > 0 && len(words) > 0 {
			half := style.Width(w)/2 + 3
			if _, ok := lowerSpeed(a); !ok {
				c.FillPolygon(fill, corners(vg.Rectangle{
					Min: vg.Point{X: middle(r).X - half, Y: baseline - 3.5},
					Max: vg.Point{X: middle(r).X + half, Y: baseline + style.Font.Size*capital + 3.5},
				}))
			}
		}
		write(c, style, centred, middle(r).X, baseline, w)
		baseline -= leadSize * leading
	}
}

// cellTicks returns the ticks below or beside the cells: the values of the axis, as
// many as there is room for.
func cellTicks(rep *render.Report, axis int, values []float64) plot.ConstantTicks {
	const most = 13
	q := rep.Study.Axes[axis].Input.Quantity
	var ticks plot.ConstantTicks
	for i := 0; i < len(values); i += (len(values) + most - 1) / most {
		ticks = append(ticks, plot.Tick{Value: float64(i), Label: render.Given(q, values[i])})
	}
	return ticks
}

// axisTitle returns the title of an axis with its unit.
func axisTitle(rep *render.Report, axis int) string {
	title := rep.Study.Axes[axis].Input.Title()
	for _, i := range followers(rep, axis) {
		title += " (with " + rep.Study.Axes[i].Input.Label + ")"
	}
	return title
}

// mapLead says how many of the designs that the study does not leave out have a
// break-even above which they are cooler, which has the lowest, and how many are
// cooler from the lowest speed on.
func mapLead(rep *render.Report, cells []cell, across, down int) string {
	rising, ahead, ties, designs := 0, 0, 0, 0
	var lowest *breakeven.Answer
	least := 0.0
	for _, c := range cells {
		if c.answer.Status == breakeven.Excluded {
			continue
		}
		designs++
		speed, ok := lowerSpeed(c.answer)
		if kind := kindOf(c.answer); !ok {
			switch kind {
			case always, upTo:
				ahead++
			case tied:
				ties++
			}
			continue
		}
		if rising++; lowest == nil || speed < least {
			lowest, least = c.answer, speed
		}
	}
	if designs == 0 {
		return "Every design of the map is left out by the study."
	}
	verb := "break even"
	if rising == 1 || designs == 1 {
		verb = "breaks even"
	}
	text := fmt.Sprintf("%s of %s %s with %s within the searched speeds", render.Whole(rising), plural(designs, "design", "designs"), verb, reference(rep))
	if lowest != nil {
		low, _ := render.Ends(lowest)
		text += fmt.Sprintf(", the earliest at %s rpm: %s, %s", render.PlusMinus(low),
			stepWords(rep, across, rep.DesignStep(lowest.Design, across)), stepWords(rep, down, rep.DesignStep(lowest.Design, down)))
	}
	if ahead > 0 {
		text += "; " + plural(ahead, "is", "are") + " cooler from the lowest speed on"
	}
	if ties > 0 {
		text += "; " + plural(ties, "ties", "tie") + " within the margin"
	}
	return text + "."
}
