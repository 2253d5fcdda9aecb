package render

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"finduel/model/quantity"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
)

// Rounded returns a computed number for people, without its unit: si, in the SI unit of
// q, in the unit in which q is shown, rounded to a step that is given in SI. A step of 0
// rounds as Number does. What is infinite has no words: the text is empty.
func Rounded(q quantity.Quantity, si, step float64) string {
	v := q.Shown.Shown(si)
	step = Width(q, step)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	if !(step > 0) || math.IsInf(step, 0) {
		return Number(q, si)
	}
	decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	return group(fixed(math.Round(v/step)*step, decimals))
}

// Interval returns the 95 % interval of a band, without its unit: "3 600 to 7 600". An
// open end of a break-even speed says what is there, alone or behind a number where the
// draws leave it open which it is: it may be better from the lowest searched speed on, or
// never; as the upper end of a band, up to the highest speed. Empty if there is none.
func Interval(q quantity.Quantity, b doubt.Band) string {
	if math.IsNaN(b.Low) {
		return ""
	}
	low, high := End(q, b, 0), End(q, b, 2)
	if low == high {
		return low
	}
	return low + " to " + high
}

// End returns one of low end, median and high end of a band, counted from 0, as Interval
// and Middle do.
func End(q quantity.Quantity, b doubt.Band, i int) string {
	v := [...]float64{b.Low, b.Median, b.High}[i]
	open, text := beyond(q, v, i), Rounded(q, v, b.Steps[i])
	switch {
	case math.IsInf(v, 0):
		return open
	case b.Undecided[i]:
		return text + " or " + open
	}
	return text
}

// EndBriefly is End in a few characters: "≥ 9 000" where the draws leave it open whether it
// is that or beyond all speeds.
func EndBriefly(q quantity.Quantity, b doubt.Band, i int) string {
	v := [...]float64{b.Low, b.Median, b.High}[i]
	switch {
	case math.IsInf(v, 0):
		return strings.TrimSuffix(beyond(q, v, i), " speed")
	case b.Undecided[i] && i == 0:
		return "≤ " + Rounded(q, v, b.Steps[i])
	case b.Undecided[i]:
		return "≥ " + Rounded(q, v, b.Steps[i])
	}
	return End(q, b, i)
}

// beyond says what the infinite value of a break-even's end stands for; of a finite one,
// what would lie beyond it.
func beyond(q quantity.Quantity, v float64, i int) string {
	switch {
	case math.IsInf(v, -1) || !math.IsInf(v, 1) && i == 0:
		return "lowest speed"
	case q.Key == "breakeven_upper_speed":
		return "highest speed"
	}
	return "never"
}

// Middle returns the median of a band, without its unit; what it stands for if it is
// open; empty if there is none.
func Middle(q quantity.Quantity, b doubt.Band) string { return End(q, b, 1) }

// Percent returns a share of the draws in whole percent.
func Percent(share float64) string {
	switch percent := 100 * share; {
	case share > 0 && percent <= 0.5:
		return "under 1 %"
	case share < 1 && percent >= 99.5:
		return "over 99 %"
	default:
		return strconv.FormatFloat(percent, 'f', 0, 64) + " %"
	}
}

// Sureness is how sure the comparison of a design is, in words.
type Sureness struct {
	Head  string         // what the lines are of
	Lines []SurenessLine // what is compared, with its interval
	Texts []string       // sentences: who wins, whether there is a break-even, draws without a value
	First []string       // sentences: what to measure first; empty for all but the study's own design
}

// SurenessLine is a result with its doubt.
type SurenessLine struct {
	Label    string
	Quantity quantity.Quantity
	Band     doubt.Band
}

// Sureness returns how sure the comparison of a design is, and false if it was not
// assessed.
func (rep *Report) Sureness(design int) (Sureness, bool) {
	r, ok := rep.Doubt.Of(design)
	if !ok {
		return Sureness{}, false
	}
	challenger, reference := Clean(rep.Challenger().Name), Clean(rep.Reference().Name)
	at := Computed("fan_speed", r.Speed)
	metric, difference := rep.Metric().Quantity, quantity.Must("difference")
	s := Sureness{Head: fmt.Sprintf("How sure: medians and 95 %% intervals from %s draws of what is not known, seed %d", Whole(r.Draws), rep.Doubt.Seed)}
	if r.Draws == 0 {
		s.Head = "How sure: nothing can be drawn"
		s.Texts = []string{Sentence(r.Failure)}
		return s, true
	}
	s.Lines = []SurenessLine{
		{challenger + " at " + at, metric, r.Challenger},
		{reference, metric, r.Reference},
		{challenger + " minus " + reference, difference, r.Difference},
		{"break-even speed", quantity.Must("breakeven_speed"), r.Breakeven},
	}
	if r.HasUpper && r.Again > 0 {
		s.Lines = append(s.Lines, SurenessLine{"warmer again above", quantity.Must("breakeven_upper_speed"), r.Upper})
	}
	margin := Computed("difference", rep.Doubt.Margin)
	never := math.IsInf(r.Breakeven.Low, 1) // to within the interval
	if !never {
		s.Texts = []string{"The 95 % interval is how sure the break-even speed is; ± or \"within " + Given(difference, rep.Doubt.Margin) + " K\" only how wide the margin makes it. " +
			"Where the doubt reaches further to one side, the median differs from the speed above."}
	}
	chance := func(lead string, share float64) string { // draws show no certainty, only that none was otherwise
		switch share {
		case 0:
			return "in no draw"
		case 1:
			return "in all " + Whole(r.Draws) + " draws"
		}
		return lead + Chance(r, share)
	}
	text := fmt.Sprintf("At %s %s is cooler than %s by more than %s %s, within it %s, warmer %s",
		at, challenger, reference, margin, chance("with a probability of ", r.Win), chance("with ", r.Tie), chance("with ", r.Lose))
	if r.NoValue > 0 {
		text += ", without a value with " + Chance(r, r.NoValue)
	}
	s.Texts = append(s.Texts, text+".")
	text = "A break-even speed exists " + chance("with ", r.Exists)
	if r.FromStart > 0 {
		text += "; better from the lowest searched speed on " + chance("with ", r.FromStart)
	}
	if r.Never > 0 {
		text += "; never better " + chance("with ", r.Never)
	}
	if r.HasUpper && r.Again > 0 {
		text += "; better and warmer again at a higher speed " + chance("with ", r.Again)
	}
	s.Texts = append(s.Texts, text+".")
	if missing := max(r.NoChallenger, r.NoReference, r.NoBreakeven); missing > 0 {
		var parts []string
		for _, c := range []struct {
			n    int
			what string
		}{{r.NoChallenger, challenger + " at that speed"}, {r.NoReference, reference}, {r.NoBreakeven, "the break-even"}} {
			if c.n > 0 {
				parts = append(parts, Whole(c.n)+" for "+c.what)
			}
		}
		s.Texts = append(s.Texts, "Draws without a value, in no interval above: "+strings.Join(parts, ", ")+". The commonest reason: "+Sentence(r.Failure))
	}
	if r.Breakeven.Undecided != [3]bool{} || r.HasUpper && r.Upper.Undecided != [3]bool{} {
		s.Texts = append(s.Texts, "An interval that ends in a speed or beyond all of them (or, ≥, ≤): the draws leave open which.")
	}
	s.Texts = append(s.Texts, stable(r))
	if own := rep.Doubt.Own; own != nil && own.Result.Design == design {
		s.Texts = append(s.Texts, checked(own)...)
	}
	if !rep.Doubt.All && rep.CountAnswers() > 1 {
		s.Texts = append(s.Texts, "Only this design was drawn; the study can ask for all (doubt: designs: all).")
	}
	if own := rep.Doubt.Own; own != nil && own.Result.Design == design {
		if own.Ranking.Refused != "" {
			s.Texts = append(s.Texts, "What to measure first cannot be said: "+Sentence(own.Ranking.Refused))
		} else {
			s.First = measureFirst(&own.Ranking)
		}
	}
	return s, true
}

// checked says how many draws more lie in the intervals of the study's own design, and what
// its errors would do if none were common.
func checked(own *doubt.Detail) []string {
	var list, parts []string
	draws := 0
	for _, c := range own.Coverage {
		if c.Draws == 0 || c.Of == "breakeven_speed" && math.IsInf(own.Result.Breakeven.Low, 1) { // all lie beyond the searched speeds
			continue
		}
		draws = max(draws, c.Draws)
		lie := " in that of the "
		if parts == nil {
			lie = " lie in the interval of the "
		}
		parts = append(parts, IndexPercent(c.Share)+" %"+lie+quantity.Must(c.Of).Label)
	}
	if parts != nil {
		list = append(list, fmt.Sprintf("Of %s draws more, made as a check, %s.", Whole(draws), List(parts)))
	}
	if a := own.Apart; a.Value > 0 {
		step := a.Step()
		decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
		value, low, high := WorthIndex(a)
		list = append(list, fmt.Sprintf("If no error were common, each drawn apart, the interval of the difference would be %s times as wide (%s to %s).",
			fixed(value, decimals), fixed(low, decimals), fixed(high, decimals)))
	}
	return list
}

// PlaceDoubt is how sure what is compared is at a place.
type PlaceDoubt struct {
	Band   doubt.Band // 95 % interval; its numbers are NaN if no draw has a value
	Draws  int        // made there
	Absent int        // of them, without a value: Band does not have them in it

	Difference doubt.Band // the same of challenger minus reference; its numbers are NaN for the reference
}

// none is a band of what was not drawn.
var none = doubt.Band{Low: math.NaN(), Median: math.NaN(), High: math.NaN()}

// Share returns the share of the draws without a value, in whole percent; empty if all
// have one.
func (d *PlaceDoubt) Share() string {
	if d.Absent == 0 {
		return ""
	}
	return Percent(float64(d.Absent) / float64(d.Draws))
}

// DoubtAt returns how sure what is compared is at a place of an answer, and false if that
// was not drawn: the reference beside any design that was, the challenger of the study's
// own design at the swept speeds and those that its answer names.
func (rep *Report) DoubtAt(a *breakeven.Answer, p *Place) (PlaceDoubt, bool) {
	r, ok := rep.Doubt.Of(a.Design)
	switch {
	case !ok || r.Draws == 0:
		return PlaceDoubt{}, false
	case p.State == &a.Reference:
		return PlaceDoubt{r.Reference, r.Draws, r.NoReference, none}, true
	case rep.Doubt.Own == nil || rep.Doubt.Own.Result.Design != a.Design:
		return PlaceDoubt{}, false
	}
	at, ok := rep.Doubt.Own.At(p.Speed)
	if !ok {
		return PlaceDoubt{}, false
	}
	return PlaceDoubt{at.Challenger, at.Draws, at.NoChallenger, at.Difference}, true
}

// SpeedDoubt returns how sure the speed of a place of an answer is, with its quantity, and
// false if it was not drawn: the break-even speed and the upper end of a band of a design
// that was.
func (rep *Report) SpeedDoubt(a *breakeven.Answer, p *Place) (doubt.Band, quantity.Quantity, bool) {
	r, ok := rep.Doubt.Of(a.Design)
	if !ok || r.Draws == 0 || p.Crossing == nil {
		return none, quantity.Quantity{}, false
	}
	lower, upper := Ends(a)
	switch {
	case p.Crossing == lower:
		return r.Breakeven, quantity.Must("breakeven_speed"), true
	case p.Crossing == upper && r.HasUpper:
		return r.Upper, quantity.Must("breakeven_upper_speed"), true
	}
	return none, quantity.Quantity{}, false
}

// OnlyDrawn says of what there are intervals, to stand under a table that has other numbers
// too.
func (rep *Report) OnlyDrawn() string {
	if rep.Doubt == nil {
		return ""
	}
	return "Intervals are drawn of what is compared and of break-even speeds; airflow, power, current and tip speed are as computed from the numbers as given."
}

// Surely returns how sure the break-even speed of a design is, in short: its 95 % interval,
// in rpm, and in how many of the draws there is one; false if it was not drawn.
func (rep *Report) Surely(a *breakeven.Answer) (interval, exists string, ok bool) {
	r, ok := rep.Doubt.Of(a.Design)
	if !ok || r.Draws == 0 {
		return "", "", false
	}
	return Interval(quantity.Must("breakeven_speed"), r.Breakeven), Often(r, r.Exists), true
}

// Between says the same behind the speed itself; empty if it was not drawn.
func (rep *Report) Between(a *breakeven.Answer) string {
	interval, exists, ok := rep.Surely(a)
	if !ok || interval == "" {
		return ""
	}
	return " (95 %, rpm: " + interval + "; in " + exists + " of the draws)"
}

// BestBetween says the 95 % interval of the difference at the best speed of a design behind
// it, where it was drawn, or that it was not.
func (rep *Report) BestBetween(a *breakeven.Answer) string {
	if rep.Doubt == nil {
		return ""
	}
	d, ok := rep.DoubtAt(a, &Place{Speed: a.Best.Speed, State: &a.Best.State})
	if !ok {
		return " (no interval drawn)"
	}
	q := quantity.Must("difference")
	return " (challenger minus reference, 95 %: " + WithUnit(q, Interval(q, d.Difference)) + ")"
}

// CloserDrawn says of which closer looks intervals are drawn; empty where nothing was
// assessed.
func (rep *Report) CloserDrawn() string {
	if rep.Doubt == nil {
		return ""
	}
	return "Closer looks are computed from the numbers as given: intervals are drawn of the parity line alone, see its chart and table, and their sound levels are in doubt as those above."
}

// mostSteps is how many things to measure are named.
const mostSteps = 3

// leastGain is the share of a doubt that a measurement must take away to be named.
const leastGain = 0.02

// measureFirst says what to measure first.
func measureFirst(r *doubt.Ranking) []string {
	q := quantity.Must(r.Of)
	of := q.Label
	switch {
	case r.Why != "":
		of = "difference (" + r.Why + ")"
	case r.Outside > 0:
		of += " (draws without one count at the ends of the searched speeds)"
	}
	var list []string
	for _, step := range r.Steps {
		if len(list) == mostSteps || step.Left.Value > 1-leastGain {
			break
		}
		text := Clean(step.Action)
		if len(list) == 0 {
			text += ": the doubt of the " + of + " falls from ±" + Half(q, r.Half) + " to about ±" + WithUnit(q, Half(q, step.Half))
		} else {
			text += ": to about ±" + WithUnit(q, Half(q, step.Half))
		}
		list = append(list, fmt.Sprintf("%s (%s to %s of it is left).", text, Percent(step.Left.Low), Percent(step.Left.High)))
	}
	if list == nil {
		list = []string{"No single measurement takes away more than " + Percent(leastGain) + " of the doubt of the " + of + "."}
	}
	return list
}

// Half returns half of an interval, in SI, without its unit, to two digits.
func Half(q quantity.Quantity, si float64) string {
	v := WorthHalf(q, si)
	if step := twoDigits(v); step > 0 {
		return group(fixed(v, max(0, int(math.Ceil(-math.Log10(step)-1e-9)))))
	}
	return fixed(v, 0)
}
