package sheet

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
)

// few is the number of designs up to which each gets a line of its own.
const few = 24

// narrow is the least width, in characters, that is set; a narrower terminal
// breaks the lines itself.
const narrow = 40

// Terminal writes what a run prints: the setups, the answer for the base design
// with what it costs, the other designs, warnings, points without a value, and
// cautions. Lines are at most width characters wide where words and tables allow
// it (80 if width is 0 or less); wide scripts are counted as one column a
// character. It returns the error of w.
func Terminal(w io.Writer, rep *render.Report, width int) error {
	if width <= 0 {
		width = 80
	}
	t := terminal{rep: rep, digest: rep.Digest(), width: max(width, narrow)}
	t.head()
	t.setups()
	t.base()
	t.designs()
	t.closer()
	t.warnings()
	t.failures()
	t.cautions()
	_, err := io.WriteString(w, t.b.String())
	return err
}

// terminal is the text on its way.
type terminal struct {
	rep    *render.Report
	digest render.Digest
	width  int
	b      strings.Builder
	open   bool // whether a tie is marked as open
	loud   bool // whether permitted times at the loud end are shown
}

// say writes a paragraph.
func (t *terminal) say(head, text string) { t.b.WriteString(wrap(head, text, t.width)) }

// head says what was computed.
func (t *terminal) head() {
	s, d := t.rep.Study, &t.digest
	title := render.Clean(s.Name)
	if s.About != "" {
		title += ": " + render.Clean(s.About)
	}
	t.say("", title)
	t.say("", d.Extent())
}

// setups says what is compared, and under which conditions.
func (t *terminal) setups() {
	challenger, reference := t.rep.Challenger(), t.rep.Reference()
	t.b.WriteByte('\n')
	t.say("  challenger  ", setup(challenger))
	t.say("  reference   ", setup(reference)+" at "+render.Computed("fan_speed", reference.Rig.Speed))
	t.say("  conditions  ", conditions(&reference.Rig))
	var others []string
	for _, s := range t.rep.Aside() {
		others = append(others, render.Clean(s.Name))
	}
	if others != nil {
		t.say("  set aside   ", render.List(others)+": not compared, but looked at for the cautions below; finduel point --setup NAME shows one, and a study that names it in sweep compares it")
	}
	for _, s := range []*study.Setup{challenger, reference} {
		swept := s == challenger && slices.ContainsFunc(t.rep.Study.Axes, func(a study.Axis) bool { return a.Input.Key == "rated_sound" })
		if slices.Contains(s.Estimates(), "rated_sound") && !swept {
			doubt, _ := model.InputOf("sound_doubt")
			t.say("  sound       ", "of "+render.Clean(s.Name)+" estimated from flow and pressure, to ±"+render.Given(doubt.Quantity, doubt.Get(&s.Rig))+" dB: no sound is given")
		}
	}
	steps := ""
	if t.rep.Results != nil {
		steps = render.Steps(t.rep.Results.Plan)
	}
	for _, s := range []*study.Setup{challenger, reference} {
		lent := render.Lent(&s.Rig)
		switch {
		case s == challenger && steps != "":
			t.say("  propeller   ", "of "+render.Clean(s.Name)+": "+steps)
		case lent != "":
			t.say("  propeller   ", "of "+render.Clean(s.Name)+": "+lent)
		}
	}
}

// setup says a setup on a line.
func setup(s *study.Setup) string {
	g := &s.Rig.Core
	depth := given("fin_depth", g.FinDepth) + " deep"
	if in, ok := model.InputOf("fin_depth"); ok {
		if about, from, estimated := render.Estimated(s, in); estimated {
			depth = about + " deep " + from
		}
	}
	return fmt.Sprintf("%s: %s, face %s × %s, fins %s, %s, %s; %s",
		render.Clean(s.Name), render.Clean(s.Core),
		render.Given(quantity.Must("face_length"), g.FaceLength), given("face_width", g.FaceWidth),
		depth, given("fin_density", g.FinDensity), render.Fins(g),
		render.Fans(&s.Rig, s.Fan)+render.Losses(&s.Rig))
}

// conditions says what both setups share, as it is in the study.
func conditions(r *model.Rig) string {
	liquid := r.Coolant.Liquid.Fluid.String()
	if r.Coolant.Liquid.Fluid != coolant.Water {
		liquid += " (" + given("glycol_share", r.Coolant.Liquid.GlycolShare) + " by mass)"
	}
	return fmt.Sprintf("room air %s, altitude %s, humidity %s; load %s, pump %s; %s %s; %s",
		given("air_temperature", r.Room.Temperature), given("altitude", r.Room.Altitude), given("humidity", r.Room.Humidity),
		given("heat_load", r.Heat.Load), given("pump_power", r.Heat.PumpPower),
		liquid, coolantFlow(&r.Coolant),
		render.Surroundings(&r.Room))
}

// coolantFlow says the coolant flow, or the pump that makes it and what it is against.
func coolantFlow(c *model.Coolant) string {
	if c.Flow > 0 {
		return given("coolant_flow", c.Flow)
	}
	return fmt.Sprintf("by a pump of %s shut-off pressure and %s free flow, plate and hoses taking %s at %s",
		given("pump_head", c.Pump.ShutOffPressure), given("pump_free_flow", c.Pump.FreeFlow),
		given("loop_drop", c.Loop.Drop), given("loop_drop_flow", c.Loop.DropFlow))
}

// base answers for the base design.
func (t *terminal) base() {
	a := t.digest.Base
	t.b.WriteByte('\n')
	if a == nil {
		t.say("", "There is no answer for the design nearest to the study's challenger.")
		return
	}
	if len(t.rep.DesignAxes()) > 0 {
		t.say("", "The design nearest to the study's challenger: "+t.rep.Design(a.Design)+".")
	}
	answer := a.Reason
	if answer == "" {
		answer = a.Status.String()
	}
	t.say("", "Break-even: "+render.Sentence(answer))
	if !render.Answered(a) {
		return
	}
	if len(a.Crossings) > 2 {
		text := "The two are equal at " + render.Moved(&a.Crossings[0])
		for i := range a.Crossings[1:] {
			text += ", " + render.Moved(&a.Crossings[1+i])
		}
		t.say("", text+".")
	}
	t.b.WriteByte('\n')
	t.compare(a)
	t.b.WriteByte('\n')
	text := "Compared: " + t.rep.Metric().Label + ". Searched: "
	switch {
	case a.From >= a.To:
		text += render.Computed("fan_speed", a.To) + " only."
	default:
		text += render.Number(quantity.Must("fan_speed"), a.From) + " to " + render.Computed("fan_speed", a.To) + "."
		switch a.BestEnds {
		case -1:
			text += " The best speed is the lowest searched: less may be better still."
		case 1:
			if a.DriveEnd != "" {
				text += " The best speed is the highest that the drive reaches."
			} else {
				text += " The best speed is the highest searched: more may be better still."
			}
		}
	}
	t.say("", text+" Sound is at the listener; the times a day are for the operator at the operator's distance, in the EU to the upper action value"+t.loudNote()+". Margin to stall: share of free-air flow left until stall begins."+t.openNote()+t.drawnNote())
	if text := render.Thrift(a); text != "" {
		t.say("", "Sensible speed: "+text)
	}
	t.sureness(a.Design)
}

// sureness says how sure the answer for a design is.
func (t *terminal) sureness(design int) {
	s, ok := t.rep.Sureness(design)
	if !ok {
		return
	}
	t.b.WriteByte('\n')
	t.say("", s.Head)
	if s.Lines != nil {
		tab := table{heads: []string{"", "median", "95 % interval"}, left: 1, whole: true}
		for _, l := range s.Lines {
			label := l.Label
			if l.Quantity.Shown.Symbol != "" {
				label += ", " + l.Quantity.Shown.Symbol
			}
			tab.rows = append(tab.rows, []string{label, render.Middle(l.Quantity, l.Band), render.Interval(l.Quantity, l.Band)})
		}
		tab.write(&t.b, len(tab.heads))
	}
	for _, text := range s.Texts {
		t.say("", text)
	}
	if s.First != nil {
		t.b.WriteString("Measure first\n")
		for i, text := range s.First {
			t.say(fmt.Sprintf("  %d  ", i+1), text)
		}
	}
	if own := t.rep.Doubt.Own; own != nil && own.Result.Design == design {
		for _, x := range t.rep.Shares() {
			switch {
			case !t.digest.Ran:
				t.shares(&x, mostShares)
			case x.Quantity.Key == "breakeven_speed":
				t.shares(&x, fewShares)
			}
		}
	}
}

// How many sources are named of a result: where there is nothing else to show, and beside
// the workbook of a run, which has all.
const (
	mostShares = 6
	fewShares  = 3
)

// shares says which sources the variance of a result is from, so many of them, or why that
// cannot be said.
func (t *terminal) shares(s *render.Shares, most int) {
	of := s.Quantity.Label
	if s.Refused != "" {
		t.say("", "Where the doubt of the "+of+" is from cannot be said: "+s.Refused)
		return
	}
	shown := min(len(s.Rows), most)
	t.say("", "Where the doubt of the "+of+" is from: percent of its variance, with 95 % intervals"+s.Counted)
	var widths [2]int
	rows := [][3]string{{"first-order", "total", "source"}}
	for _, row := range s.Rows[:shown] {
		rows = append(rows, [3]string{render.IndexPercent(row.First), render.IndexPercent(row.Total), row.Label})
	}
	for _, row := range rows {
		for i := range widths {
			widths[i] = max(widths[i], utf8.RuneCountInString(row[i]))
		}
	}
	for _, row := range rows { // what a source is called may take lines of its own
		t.say(fmt.Sprintf("  %*s  %*s  ", widths[0], row[0], widths[1], row[1]), row[2])
	}
	text := "First-order: goes on average if the source alone were known. Total: stays if all but it were known."
	if shown < len(s.Rows) {
		text += fmt.Sprintf(" The other %d have %s or less in all each.", len(s.Rows)-shown, render.IndexPercent(s.Rows[shown].Total))
	}
	t.say("", text)
}

// compare writes the base design at its remarkable speeds beside the reference.
func (t *terminal) compare(a *breakeven.Answer) {
	tab := table{heads: []string{""}, left: 1, whole: true}
	speeds := []string{quantity.Must("fan_speed").Title()}
	places := t.rep.Places(a)
	for _, p := range places {
		tab.heads = append(tab.heads, p.Name)
		speeds = append(speeds, render.Number(quantity.Must("fan_speed"), p.Speed))
	}
	tab.rows = append(tab.rows, speeds)
	t.speedBands(&tab, places, a)
	t.ties(&tab, places, a)
	for i, o := range t.rep.Compared() {
		switch o.Key {
		case "sound_doubt_low":
			continue
		case "sound_doubt_high":
			doubts := []string{"its doubt, dB"}
			for _, p := range places {
				doubts = append(doubts, render.SoundDoubt(p.State))
			}
			tab.rows = append(tab.rows, doubts)
			continue
		}
		row := []string{brief(o)}
		for _, p := range places {
			row = append(row, render.Number(o.Quantity, o.Get(p.State)))
		}
		tab.rows = append(tab.rows, row)
		if i == 0 {
			t.bands(&tab, places, a)
		}
		t.loudEnd(&tab, places, o)
	}
	warned := []string{"warnings below"}
	for _, p := range places {
		warned = append(warned, t.numbers(p.State.Warnings))
	}
	tab.rows = append(tab.rows, warned)
	tab.write(&t.b, len(tab.heads))
}

// loudEnd adds the permitted times of a rule at the highest level within the doubt, if
// the output is a permitted time and any of them is less than a day.
func (t *terminal) loudEnd(tab *table, places []render.Place, o model.Output) {
	rule, ok := render.ExposureRuleOf(o)
	row, any := []string{"  " + render.LoudEnd}, false
	for _, p := range places {
		if !ok {
			return
		}
		least, _ := rule.Span(p.State)
		_, short := render.Recorded(o.Quantity, least)
		any = any || short
		row = append(row, render.Number(o.Quantity, least))
	}
	if any {
		t.loud = true
		tab.rows = append(tab.rows, row)
	}
}

// loudNote explains the permitted times at the loud end, if there are any.
func (t *terminal) loudNote() string {
	if !t.loud {
		return ""
	}
	return "; " + render.LoudEnd + ": at the highest level within its doubt"
}

// speedBands adds the 95 % interval of the break-even speeds, where it is known.
func (t *terminal) speedBands(tab *table, places []render.Place, a *breakeven.Answer) {
	low, high := []string{"95 % from"}, []string{"to"}
	known := false
	for i := range places {
		b, q, ok := t.rep.SpeedDoubt(a, &places[i])
		if !ok {
			low, high = append(low, ""), append(high, "")
			continue
		}
		known = true
		low, high = append(low, render.EndBriefly(q, b, 0)), append(high, render.EndBriefly(q, b, 2))
	}
	if known {
		tab.rows = append(tab.rows, low, high)
	}
}

// drawnNote says of what there are intervals, if there are any.
func (t *terminal) drawnNote() string {
	if text := t.rep.OnlyDrawn(); text != "" {
		return " " + text
	}
	return ""
}

// bands adds the 95 % interval of what is compared, where it is known, and the share of
// the draws that it does not have in it, where there are any.
func (t *terminal) bands(tab *table, places []render.Place, a *breakeven.Answer) {
	low, high, absent := []string{"95 % from"}, []string{"to"}, []string{"draws without value"}
	known, lacking := false, false
	q := t.rep.Metric().Quantity
	for i := range places {
		d, ok := t.rep.DoubtAt(a, &places[i])
		if !ok {
			low, high, absent = append(low, ""), append(high, ""), append(absent, "")
			continue
		}
		known, lacking = true, lacking || d.Absent > 0
		low, high, absent = append(low, render.End(q, d.Band, 0)), append(high, render.End(q, d.Band, 2)), append(absent, d.Share())
	}
	if known {
		tab.rows = append(tab.rows, low, high)
	}
	if lacking {
		tab.rows = append(tab.rows, absent)
	}
}

// brief names an output in few words, with its unit.
func brief(o model.Output) string {
	label, ok := briefLabels[o.Key]
	if !ok {
		label = o.Label
	}
	if o.Shown.Symbol == "" || o.Kind == quantity.Duration {
		return label
	}
	return label + ", " + o.Shown.Symbol
}

// briefLabels holds shorter labels than those of the quantity table.
var briefLabels = map[string]string{
	"airflow": "airflow", "fan_power": "fan power", "drive_current": "drive current",
	"sound": "listener", "exposure_limit": "operator, NIOSH", "exposure_limit_osha": "operator, OSHA",
	"upper_action_time": "operator, EU", "stall_margin": "margin to stall",
}

// numbers says the numbers under which a state's warnings are listed.
func (t *terminal) numbers(set model.Warnings) string {
	var list []string
	for i, w := range t.digest.Warnings {
		if set.Has(w.Bit) {
			list = append(list, fmt.Sprint(i+1))
		}
	}
	if list == nil {
		return "none"
	}
	return strings.Join(list, " ")
}

// designs shows all designs: one by one if they are few, else their counts and
// extremes and the map over the first two free axes.
func (t *terminal) designs() {
	axes := t.rep.FreeAxes()
	switch {
	case t.digest.Designs < 2 || len(axes) == 0:
		return
	case t.rep.CountAnswers() <= few:
		t.b.WriteString("\nAll designs (±: as far as " + t.margin() + " moves a break-even)\n")
		t.list(few)
		return
	}
	t.b.WriteByte('\n')
	t.say("", "All designs: "+t.statuses()+".")
	t.extremes()
	t.b.WriteByte('\n')
	if len(axes) == 1 {
		t.say("", fmt.Sprintf("%d of the %d designs (breakeven.csv has all; ±: as far as %s moves a break-even):", few, t.rep.CountAnswers(), t.margin()))
		t.list(few)
		return
	}
	t.grid(axes[0], axes[1])
}

// statuses counts the designs by status.
func (t *terminal) statuses() string {
	var parts []string
	for i, n := range t.digest.Statuses {
		if n > 0 {
			parts = append(parts, render.Whole(n)+" "+render.StatusWords(render.Statuses[i]))
		}
	}
	return strings.Join(parts, ", ")
}

// extremes names the designs with the lowest and the highest break-even, and the
// one that gets coolest against the reference.
func (t *terminal) extremes() {
	d := &t.digest
	if d.Lowest != nil {
		low, _ := render.Ends(d.Lowest)
		t.say("  lowest break-even   ", render.Moved(low)+t.rep.Between(d.Lowest)+" with "+t.rep.Design(d.Lowest.Design))
		high, _ := render.Ends(d.Highest)
		t.say("  highest break-even  ", render.Moved(high)+t.rep.Between(d.Highest)+" with "+t.rep.Design(d.Highest.Design))
	}
	if a := d.Cheap.Sound; a != nil {
		c, _ := render.Ends(a)
		t.say("  quietest            ", render.Computed("sound", c.State.Sound)+" ("+render.SoundDoubt(&c.State)+" dB) at its break-even with "+t.rep.Design(a.Design))
	}
	if a := d.Cheap.Power; a != nil {
		c, _ := render.Ends(a)
		t.say("  fewest watts        ", render.Computed("fan_power", c.State.FanPower)+" at its break-even with "+t.rep.Design(a.Design))
	}
	if d.Coolest != nil {
		difference := d.Coolest.Best.Difference
		word := " below the reference at "
		if difference > 0 {
			word = " above the reference at "
		} else {
			difference = -difference
		}
		t.say("  best of all         ", render.Computed("difference", difference)+word+
			render.Computed("fan_speed", d.Coolest.Best.Speed)+t.rep.BestBetween(d.Coolest)+" with "+t.rep.Design(d.Coolest.Design))
	}
}

// list writes one line a design. Columns that do not fit are left away from the
// right.
func (t *terminal) list(most int) {
	axes := t.rep.DesignAxes()
	tab := table{left: 0}
	for _, i := range axes {
		tab.heads = append(tab.heads, t.rep.Study.Axes[i].Input.Title())
	}
	sound, power := quantity.Must("sound"), quantity.Must("fan_power")
	tab.heads = append(tab.heads, "answer", "break-even, rpm", "up to, rpm", "tie, rpm", "95 %, rpm", "exists",
		"best speed, rpm", "best minus reference, K", "sound at break-even, dBA", "fan power there, W")
	for _, design := range thin(t.rep.CountAnswers(), most) {
		a, ok := t.rep.AnswerOf(design)
		if !ok {
			return
		}
		var row []string
		for _, i := range axes {
			row = append(row, render.Given(t.rep.Study.Axes[i].Input.Quantity, t.rep.DesignValue(a.Design, i)))
		}
		row = append(row, a.Status.String(), "", "", "", "", "", "", "", "", "")
		last := row[len(axes)+1:]
		last[3], last[4], _ = t.rep.Surely(a)
		if render.Answered(a) {
			speed := quantity.Must("fan_speed")
			lower, upper := render.Ends(a)
			if lower != nil {
				last[0] = render.PlusMinus(lower)
				last[7], last[8] = render.Number(sound, lower.State.Sound), render.Number(power, lower.State.FanPower)
			}
			if upper != nil {
				last[1] = render.PlusMinus(upper)
			}
			if a.Status == breakeven.Tie {
				last[0], last[1], last[2] = "", "", a.Tie.String()
			}
			last[5] = render.Number(speed, a.Best.Speed)
			last[6] = render.Number(quantity.Must("difference"), a.Best.Difference)
		}
		tab.rows = append(tab.rows, row)
	}
	tab.dropEmpty(len(axes) + 1)
	columns := tab.fits(t.width, len(axes)+1)
	tab.write(&t.b, columns)
	switch shown := tab.heads[:columns]; {
	case slices.Contains(shown, "exists"):
		t.say("", "95 %, exists: the interval of the break-even speed, and in how many of the draws there is one. "+asGiven)
	case slices.Contains(shown, "95 %, rpm"):
		t.say("", "95 %: the interval of the break-even speed. "+asGiven)
	}
	if note := tab.plusNote(); note != "" {
		t.say("", strings.TrimSpace(note))
	}
}

// asGiven says of which numbers of a list of designs there is no interval.
const asGiven = "All else is as computed from the numbers as given; sound is in doubt as above."

// warnings lists the warnings that occur.
func (t *terminal) warnings() {
	if len(t.digest.Warnings) == 0 {
		return
	}
	t.b.WriteString("\nWarnings\n")
	for i, w := range t.digest.Warnings {
		where := []string{}
		if w.Points > 0 {
			where = append(where, render.Counted(w.Points, "point")+" of "+render.Whole(t.digest.Evaluated))
		}
		if w.Answers > 0 {
			where = append(where, render.Counted(w.Answers, "answer")+" of "+render.Whole(t.rep.CountAnswers()))
		}
		if w.References > 0 {
			where = append(where, "the reference")
		}
		t.say(fmt.Sprintf("  %d  ", i+1), w.Text+" ("+strings.Join(where, ", ")+")")
	}
}

// failures says how many points have no value, and why.
func (t *terminal) failures() {
	if t.digest.Failed == 0 {
		return
	}
	t.b.WriteByte('\n')
	others := "; the others are complete."
	if t.digest.Evaluated == 0 {
		others = "."
	}
	t.say("", fmt.Sprintf("%s of %s without a value", render.Counted(t.digest.Failed, "point"), render.Whole(t.digest.Failed+t.digest.Evaluated))+others)
	const most = 3
	rest := 0
	for i, f := range t.digest.Failures {
		if i >= most {
			rest += f.Points
			continue
		}
		eg := "e.g. "
		if f.Points == 1 {
			eg = ""
		}
		t.say("  - ", fmt.Sprintf("%s, %sat %s: %s", render.Counted(f.Points, "point"), eg, t.rep.At(f.First), render.Sentence(f.Reason)))
	}
	if rest > 0 {
		t.say("  - ", render.Counted(rest, "point")+" for other reasons.")
	}
}

// cautions says what can hurt people or wiring.
func (t *terminal) cautions() {
	t.b.WriteByte('\n')
	t.caution(t.digest.Cautions)
}

// caution lists cautions and says what they are not.
func (t *terminal) caution(list []render.Caution) {
	if len(list) > 0 {
		t.b.WriteString("Cautions\n")
	}
	for _, text := range render.CautionSentences(list) {
		t.say("  - ", text)
	}
	t.say("", render.Disclaimer)
}

// given says a given number with its unit.
func given(key string, si float64) string {
	q := quantity.Must(key)
	return render.WithUnit(q, render.Given(q, si))
}
