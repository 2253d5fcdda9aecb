package workbook

import (
	"fmt"
	"strings"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
	"finduel/sweep/study"
)

// The looks of the summary.
var (
	lookHead   = look{bold: true, filled: true, wrapped: true}
	lookHeadR  = look{bold: true, filled: true, wrapped: true, right: true}
	lookText   = look{wrapped: true}
	lookQuiet  = look{quiet: true, wrapped: true}
	lookStrong = look{bold: true, wrapped: true}
)

// The chart takes chartRows rows, whose height is set to rowHeight, in points; the
// library counts an unset row as rowPixels when it places a chart.
const (
	chartRows = 21
	rowHeight = 15
	rowPixels = 18
)

// summary writes the sheet that a reader sees first.
func (b *book) summary(rep *render.Report, c *curve) error {
	p := &page{name: sheetSummary, widths: []float64{46, 15, 15, 15, 15, 24}}
	if err := b.setWidths(p.name, p.widths); err != nil {
		return err
	}
	if err := b.layout(p.name, "portrait"); err != nil {
		return err
	}
	d := rep.Digest()
	p.opening(rep, &d)
	p.answer(rep, &d)
	p.sureness(rep, &d)
	if c.drawn {
		p.breaks = append(p.breaks, len(p.rows)+1) // else a page might end within the chart
		p.blank(1)
		at := fmt.Sprintf("A%d", len(p.rows)+1)
		p.blank(chartRows)
		for i := range chartRows {
			p.rows[len(p.rows)-1-i].height = rowHeight
		}
		if c.above > 0 {
			p.paragraph(render.Counted(c.above, "point")+" above the top of the chart; the sheet "+sheetCurve+" has all.", lookQuiet)
		}
		if err := b.draw(c, p.name, at, 1015, chartRows*rowPixels); err != nil {
			return err
		}
	}
	p.designs(rep, &d)
	p.closer(rep)
	p.warnings(rep, &d)
	p.failures(rep, &d)
	p.cautions(&d)
	p.setups(rep)
	return b.write(p)
}

// opening says what was computed.
func (p *page) opening(rep *render.Report, d *render.Digest) {
	title := look{bold: true, large: true}
	p.paragraph(rep.Study.Name, title)
	if rep.Study.About != "" {
		p.paragraph(rep.Study.About, lookText)
	}
	p.paragraph(d.Extent()+". Computed by finduel "+rep.Version+"; the sheet "+sheetStudy+" says from what.", lookQuiet)
}

// answer says what holds for the base design.
func (p *page) answer(rep *render.Report, d *render.Digest) {
	p.section("Break-even of the design nearest to the study's challenger")
	a := d.Base
	if a == nil {
		p.paragraph("There is no answer for this design.", lookStrong)
		return
	}
	reason := a.Reason
	if reason == "" {
		reason = a.Status.String()
	}
	p.paragraph(render.Sentence(reason), lookStrong)
	if held := rep.Design(a.Design); held != "" {
		p.paragraph("The design: "+held+".", lookQuiet)
	}
	if !render.Answered(a) {
		return
	}
	p.blank(1)
	heads := []cell{{"", lookHead}}
	speeds := []cell{{quantity.Must("fan_speed").Title(), look{}}}
	places := rep.Places(a)
	low := []cell{{"within " + render.Margin(a) + ": from, rpm", look{}}}
	high := []cell{{"within " + render.Margin(a) + ": to, rpm", look{}}}
	slopes := []cell{{quantity.Must("slope").Title(), look{}}}
	for _, at := range places {
		heads = append(heads, cell{at.Name, lookHeadR})
		speeds = append(speeds, number(quantity.Must("fan_speed"), at.Speed))
		if at.Crossing == nil {
			low, high, slopes = append(low, cell{}), append(high, cell{}), append(slopes, cell{})
			continue
		}
		low = append(low, number(quantity.Must("fan_speed"), at.Crossing.Tie.Low))
		high = append(high, number(quantity.Must("fan_speed"), at.Crossing.Tie.High))
		slopes = append(slopes, number(quantity.Must("slope"), at.Crossing.Slope))
	}
	p.add(heads...)
	p.add(speeds...)
	p.ends(places, func(at *render.Place) (quantity.Quantity, doubt.Band, bool) {
		b, q, ok := rep.SpeedDoubt(a, at)
		return q, b, ok
	})
	if len(a.Crossings) > 0 {
		p.add(low...)
		p.add(high...)
		p.add(slopes...)
	}
	for i, o := range rep.Compared() {
		row := []cell{{headOf(o.Title(), o.Quantity), look{wrapped: true}}}
		for _, at := range places {
			row = append(row, number(o.Quantity, o.Get(at.State)))
		}
		p.grow(p.add(row...), 1, p.widths[0])
		if i == 0 {
			p.ends(places, func(at *render.Place) (quantity.Quantity, doubt.Band, bool) {
				d, ok := rep.DoubtAt(a, at)
				return o.Quantity, d.Band, ok
			})
		}
		if rule, ok := render.ExposureRuleOf(o); ok {
			loud := []cell{{"  the same, " + render.LoudEnd + unit(o.Quantity), look{wrapped: true}}}
			for _, at := range places {
				least, _ := rule.Span(at.State)
				loud = append(loud, number(o.Quantity, least))
			}
			p.add(loud...)
		}
	}
	s := "Compared: " + rep.Metric().Label + ". Searched: "
	if a.From < a.To {
		s += render.Computed("fan_speed", a.From) + " to "
	}
	s += render.Computed("fan_speed", a.To) + "."
	if a.From < a.To && a.BestEnds != 0 {
		s += " The best speed is at the end of the searched speeds: there may be a better one beyond."
	}
	if term := render.LimitLabel(a); term != "" {
		s += " At its best speed the challenger loses most in: " + term + ", " + render.Computed("difference", a.Limit.Excess) + " more than the reference."
	}
	if text := rep.OnlyDrawn(); text != "" {
		s += " " + text
	}
	p.paragraph(s, lookQuiet)
	if text := render.Thrift(a); text != "" {
		p.paragraph("Sensible speed: "+text, lookText)
	}
}

// ends adds the two ends of the 95 % interval of the row above, if any place has one.
func (p *page) ends(places []render.Place, of func(*render.Place) (quantity.Quantity, doubt.Band, bool)) {
	rows := [2][]cell{{{"95 %: from", look{}}}, {{"95 %: to", look{}}}}
	known := false
	for i := range places {
		q, b, ok := of(&places[i])
		known = known || ok
		for j, end := range []int{0, 2} {
			c := cell{}
			if ok {
				c = bandCell(q, b, end)
			}
			rows[j] = append(rows[j], c)
		}
	}
	if known {
		p.add(rows[0]...)
		p.add(rows[1]...)
	}
}

// closer says what is worked out of a few designs.
func (p *page) closer(rep *render.Report) {
	for _, d := range rep.Worked() {
		p.section("Closer look at " + d.Chosen)
		if held := rep.Design(d.Design); held != "" {
			p.paragraph("The design: "+held+".", lookQuiet)
		}
		p.paragraph(render.Sentence(d.Answer.Reason), lookText)
		if text := rep.Blocked(d.Answer); text != "" {
			p.paragraph(text, lookText)
		}
		if len(d.Changes) > 0 && !render.AnyWorks(d.Changes) {
			p.paragraph(render.NoChange, lookStrong)
		}
		for i := range d.Changes {
			what, comes := rep.Change(&d.Changes[i])
			row := p.add(cell{text(what), lookText}, cell{text(comes), lookText})
			p.span(row, 2, len(p.widths))
			p.grow(row, 1, p.widths[0])
		}
		p.paragraph("Parity: "+rep.ParityBetween(d.Detail), lookText)
		p.paragraph("At the same sound: "+rep.Match(&d.Sound), lookText)
		p.paragraph("At the same fan power: "+rep.Match(&d.Power), lookText)
	}
	if text := rep.CloserDrawn(); text != "" && len(rep.Worked()) > 0 {
		p.paragraph(text, lookQuiet)
	}
}

// designs says how all designs fare.
func (p *page) designs(rep *render.Report, d *render.Digest) {
	p.section("All designs")
	count := look{format: "0"}
	for i, n := range d.Statuses {
		if n > 0 {
			p.add(cell{"designs " + render.StatusWords(render.Statuses[i]), look{}}, cell{n, count})
		}
	}
	pick := func(label string, q quantity.Quantity, value float64, at *breakeven.Crossing, a *breakeven.Answer) {
		held := rep.Design(a.Design)
		if at != nil && q.Key == "sound" {
			held = render.SoundDoubt(&at.State) + " dB; " + held
		}
		if at != nil {
			held = "at " + render.Moved(at) + rep.Between(a) + "; " + held
		} else {
			held = "at " + render.Computed("fan_speed", a.Best.Speed) + rep.BestBetween(a) + "; " + held
		}
		row := p.add(cell{label + unit(q), look{}}, number(q, value), cell{strings.TrimSuffix(held, "; "), look{quiet: true, wrapped: true, indent: true}})
		p.span(row, 3, len(p.widths))
	}
	speed := quantity.Must("fan_speed")
	if d.Lowest != nil {
		low, _ := render.Ends(d.Lowest)
		pick("lowest break-even speed", speed, low.Speed, low, d.Lowest)
		high, _ := render.Ends(d.Highest)
		pick("highest break-even speed", speed, high.Speed, high, d.Highest)
	}
	if a := d.Cheap.Sound; a != nil {
		c, _ := render.Ends(a)
		pick("quietest at its break-even", quantity.Must("sound"), c.State.Sound, c, a)
	}
	if a := d.Cheap.Power; a != nil {
		c, _ := render.Ends(a)
		pick("fewest watts at its break-even", quantity.Must("fan_power"), c.State.FanPower, c, a)
	}
	if d.Coolest != nil {
		pick("challenger minus reference, best of all designs", quantity.Must("difference"), d.Coolest.Best.Difference, nil, d.Coolest)
	}
}

// setups puts the two setups side by side.
func (p *page) setups(rep *render.Report) {
	p.section("The setups, as in the study")
	p.breaks = append(p.breaks, len(p.rows))
	challenger, reference := rep.Challenger(), rep.Reference()
	p.pair("", lookHead, "challenger: "+text(challenger.Name), "reference: "+text(reference.Name), lookHead)
	for _, w := range words {
		p.pair(w.label, look{}, text(w.of(challenger)), text(w.of(reference)), look{wrapped: true})
	}
	for _, in := range model.Inputs {
		if !in.Shared && brief[in.Key] {
			a, b := setting(in, challenger), setting(in, reference)
			p.pair(in.Title(), look{}, a, b, look{left: true, wrapped: true})
		}
	}
	p.section("Conditions that both share, as in the study")
	p.add(cell{"coolant", look{}}, cell{challenger.Rig.Coolant.Liquid.Fluid.String(), look{}})
	for _, in := range model.Inputs {
		if in.Shared && !in.Unused(&challenger.Rig) {
			p.add(cell{in.Title(), look{}}, cell{shown(in.Quantity, in.Get(&challenger.Rig)), look{left: true}})
		}
	}
}

// pair adds a row of two values, each over two columns.
func (p *page) pair(label string, left look, a, b any, l look) {
	row := p.add(cell{label, left}, cell{a, l}, cell{nil, l}, cell{b, l}, cell{nil, l})
	p.span(row, 2, 3)
	p.span(row, 4, 5)
}

// word is what is said of a setup in words.
type word struct {
	label string
	of    func(*study.Setup) string
}

var words = []word{
	{"core", func(s *study.Setup) string { return s.Core }},
	{"fin surface", func(s *study.Setup) string { return s.Rig.Core.Surface.String() }},
	{"routing of the passes", func(s *study.Setup) string { return s.Rig.Core.Routing.String() }},
	{"arrangement of the streams", func(s *study.Setup) string { return s.Rig.Core.Arrangement.String() }},
	{"feed of stacked cores", func(s *study.Setup) string { return s.Rig.Core.Feed.String() }},
	{"fan", func(s *study.Setup) string { return s.Fan }},
	{"placing", func(s *study.Setup) string { return s.Rig.Placing.String() }},
	{"motor", func(s *study.Setup) string { return s.Rig.Fans.Fan.Motor.String() }},
}

// brief holds the inputs that the summary shows; the sheet of the study has all.
var brief = map[string]bool{
	"face_length": true, "face_width": true, "fin_depth": true, "fin_density": true, "fan_speed": true, "fans": true,
	"rated_speed": true, "free_air_flow": true, "shut_off_pressure": true, "rated_power": true, "rated_sound": true, "top_speed": true,
}

// warnings counts the warnings.
func (p *page) warnings(rep *render.Report, d *render.Digest) {
	p.section("Warnings: the value stands, but on weaker ground")
	if len(d.Warnings) == 0 {
		p.paragraph("none", look{})
		return
	}
	p.add(cell{nil, lookHead}, cell{nil, lookHead}, cell{nil, lookHead},
		cell{"points", lookHeadR}, cell{"designs at their answer", lookHeadR}, cell{"designs in their reference", lookHeadR})
	p.grow(len(p.rows), 5, p.widths[4])
	count := look{format: "0"}
	for _, w := range d.Warnings {
		row := p.add(cell{w.Text, lookText}, cell{}, cell{}, cell{w.Points, count}, cell{w.Answers, count}, cell{w.References, count})
		p.span(row, 1, 3)
	}
	p.paragraph(fmt.Sprintf("Of %s with a value and %s.", render.Counted(d.Evaluated, "point"), render.Counted(rep.CountAnswers(), "design")), lookQuiet)
}

// failures says why points have no value, the commonest reasons first.
func (p *page) failures(rep *render.Report, d *render.Digest) {
	if d.Failed == 0 {
		return
	}
	p.section("Points without a value")
	const most = 10
	count := look{format: "0"}
	rest := 0
	for i, f := range d.Failures {
		if i >= most {
			rest += f.Points
			continue
		}
		row := p.add(cell{text(f.Reason), lookText}, cell{}, cell{}, cell{f.Points, count}, cell{"e.g. at " + rep.At(f.First), look{quiet: true, wrapped: true, indent: true}})
		p.span(row, 1, 3)
		p.span(row, 5, len(p.widths))
	}
	if rest > 0 {
		p.add(cell{"other reasons", look{}}, cell{}, cell{}, cell{rest, count})
	}
}

// cautions says what can hurt people or wiring.
func (p *page) cautions(d *render.Digest) {
	p.section("Cautions")
	for _, text := range render.CautionSentences(d.Cautions) {
		p.paragraph(text, look{})
	}
	p.paragraph(render.Disclaimer, lookStrong)
}
