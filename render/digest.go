package render

import (
	"slices"
	"strings"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
)

// Statuses lists the statuses of an answer in the order in which they are shown.
var Statuses = []breakeven.Status{
	breakeven.One, breakeven.Band, breakeven.Always, breakeven.Tie, breakeven.None, breakeven.Unknown, breakeven.Excluded,
}

// Digest is what is said of a report as a whole.
type Digest struct {
	Ran       bool // whether the points were evaluated; without, nothing is said of them and their counts are 0
	Points    int  // of the plan, excluded ones included
	Evaluated int  // rows with a value
	Failed    int  // rows without a value
	LeftOut   int  // points without a row: excluded by the study
	Designs   int  // combinations of all inputs but the fan speed

	Statuses []int // number of designs by status, in the order of render.Statuses

	Base    *breakeven.Answer // of the base design; nil if the report has no answer for it
	Lowest  *breakeven.Answer // the design with the lowest break-even speed; nil if none has one
	Highest *breakeven.Answer // the design with the highest break-even speed; nil if none has one
	Cheap   Cheapest          // of the designs that break even, the cheapest
	Coolest *breakeven.Answer // the design that at its best speed is furthest below the reference; nil if no design has a value

	Warnings []WarningCount // those that occur, in order of weight
	Failures []FailureCount // the commonest first
	Cautions []Caution
}

// Extent says how many points and designs the report has.
func (d *Digest) Extent() string {
	designs := Counted(d.Designs, "design")
	if !d.Ran {
		return designs
	}
	s := Counted(d.Points, "point") + " in " + designs
	if d.Failed > 0 {
		s += ", " + Whole(d.Failed) + " without a value"
	}
	if d.LeftOut > 0 {
		s += ", " + Whole(d.LeftOut) + " left out by the study"
	}
	return s
}

// StatusWords says a status behind a number of designs.
func StatusWords(s breakeven.Status) string { return statusWords[s] }

var statusWords = map[breakeven.Status]string{
	breakeven.One:      "with one break-even speed",
	breakeven.Band:     "better in a band of speeds",
	breakeven.Always:   "better at every searched speed",
	breakeven.Tie:      "tied within the margin",
	breakeven.None:     "never equal",
	breakeven.Unknown:  "without an answer",
	breakeven.Excluded: "left out by the study",
}

// WarningCount says how often a warning occurs.
type WarningCount struct {
	model.Warning
	Points     int // of the challenger
	Answers    int // designs whose challenger carries it where it breaks even, at the end of its band or at its best speed
	References int // designs whose reference carries it
}

// FailureCount says how often points have no value for one reason.
type FailureCount struct {
	Reason string
	Points int
	First  int // number of the first point of them
}

// At says where a point of the plan is: its fan speed and its design.
func (rep *Report) At(point int) string {
	design, _ := rep.plan().Design(point)
	text := Computed("fan_speed", rep.Speed(point))
	if held := rep.Design(design); held != "" {
		text += ", " + held
	}
	return text
}

// Answered reports whether an answer has a best speed and a reference: whether
// its states mean anything.
func Answered(a *breakeven.Answer) bool {
	return a.Status != breakeven.Unknown && a.Status != breakeven.Excluded
}

// Ends returns the crossings at which the challenger first becomes the better one
// and last ceases to be; nil where there is none.
func Ends(a *breakeven.Answer) (lower, upper *breakeven.Crossing) {
	if !Answered(a) {
		return nil, nil
	}
	return a.Ends()
}

// Challenger returns the setup whose inputs are swept.
func (rep *Report) Challenger() *study.Setup { return &rep.Study.Setups[rep.Study.Challenger] }

// Reference returns the setup that the challenger is measured against.
func (rep *Report) Reference() *study.Setup { return &rep.Study.Setups[rep.Study.Reference] }

// Design says the swept inputs of a design; empty if the study sweeps none but the
// fan speed.
func (rep *Report) Design(design int) string { return rep.designBy(design, rep.DesignAxes()) }

// designBy says the values of some axes in a design.
func (rep *Report) designBy(design int, axes []int) string {
	var parts []string
	for _, i := range axes {
		q := rep.Study.Axes[i].Input.Quantity
		parts = append(parts, q.Label+" "+WithUnit(q, Given(q, rep.DesignValue(design, i))))
	}
	return strings.Join(parts, ", ")
}

// Place is a state of a design that is worth showing.
type Place struct {
	Name  string
	Speed float64 // rev/s
	State *model.State

	Crossing *breakeven.Crossing // of a break-even; else nil
}

// Places returns what of an answer is compared side by side: where the challenger
// breaks even, the upper end of its band, its sensible speed, its best speed and the
// reference; only those that there are.
func (rep *Report) Places(a *breakeven.Answer) []Place {
	if !Answered(a) {
		return nil
	}
	var list []Place
	lower, upper := Ends(a)
	if lower != nil {
		list = append(list, Place{"break-even", lower.Speed, &lower.State, lower})
	}
	if upper != nil {
		list = append(list, Place{"upper end", upper.Speed, &upper.State, upper})
	}
	if thrifty(a) && !(lower != nil && a.Sensible.Speed == lower.Speed) {
		list = append(list, Place{"sensible", a.Sensible.Speed, &a.Sensible.State, nil})
	}
	return append(list, Place{"best speed", a.Best.Speed, &a.Best.State, nil},
		Place{"reference", rep.Reference().Rig.Speed, &a.Reference, nil})
}

// Estimated says an input of a setup whose value is an estimate, such as "about
// 18.5 mm (estimated from the overall thickness)", in two parts, so that words can
// stand between them. It reports false if the value is none.
func Estimated(s *study.Setup, in model.Input) (about, from string, ok bool) {
	if !slices.Contains(s.Estimates(), in.Key) {
		return "", "", false
	}
	from = "(estimated)"
	if in.Key == "fin_depth" {
		from = "(estimated from the overall thickness)"
	}
	return "about " + WithUnit(in.Quantity, Number(in.Quantity, in.Get(&s.Rig))), from, true
}

// Metric returns the output in which the setups are compared: the study's, or
// coolant over air if it names none.
func (rep *Report) Metric() model.Output {
	if o, ok := model.OutputOf(rep.Study.Metric); ok {
		return o
	}
	o, _ := model.OutputOf("coolant_over_air")
	return o
}

// plan returns the plan of the report.
func (rep *Report) plan() *sweep.Plan { return rep.Results.Plan }

// Speed returns the challenger's fan speed at point k, rev/s.
func (rep *Report) Speed(k int) float64 {
	if axis, ok := rep.plan().SpeedAxis(); ok {
		return rep.Study.Axes[axis].Values[rep.plan().Step(k, axis)]
	}
	rig := rep.plan().Challenger(k)
	return rig.Speed
}

// DesignAxes returns the axes that make a design, as indices into Study.Axes in
// file order: all but the fan speed that is searched.
func (rep *Report) DesignAxes() []int {
	speed, swept := rep.plan().SpeedAxis()
	var list []int
	for i := range rep.Study.Axes {
		if !swept || i != speed {
			list = append(list, i)
		}
	}
	return list
}

// FreeAxes returns those of the design axes that can be chosen one by one: of
// axes that step together only the first.
func (rep *Report) FreeAxes() []int {
	seen := map[string]bool{}
	var list []int
	for _, i := range rep.DesignAxes() {
		group := rep.Study.Axes[i].Group
		if group == "" || !seen[group] {
			list = append(list, i)
		}
		seen[group] = true
	}
	return list
}

// DesignValue returns the value of an axis in a design, in the SI unit of the
// axis's input.
func (rep *Report) DesignValue(design, axis int) float64 {
	return rep.Study.Axes[axis].Values[rep.DesignStep(design, axis)]
}

// DesignStep returns which of an axis's values a design has.
func (rep *Report) DesignStep(design, axis int) int {
	return rep.plan().Step(rep.plan().Point(design, 0), axis)
}

// Digest counts and picks what is said of the report as a whole. Of equals the
// first in plan order is picked. Answers that are kept on a disk do not change: they are
// looked at once.
func (rep *Report) Digest() Digest {
	if rep.digested != nil {
		return *rep.digested
	}
	d := rep.digest()
	if rep.Kept != nil {
		rep.digested = &d
	}
	return d
}

func (rep *Report) digest() Digest {
	d := Digest{
		Ran: rep.Results.Ran(), Designs: rep.plan().Designs(),
		Statuses: make([]int, len(Statuses)), Cautions: Cautions(rep),
	}
	if d.Ran {
		d.Points, d.Failed = rep.plan().Points(), rep.Results.Failed()
		d.Evaluated = rep.Results.Len() - d.Failed
		d.LeftOut = d.Points - rep.Results.Len()
	}
	d.Base, _ = rep.BaseAnswer()
	for a := range rep.EachAnswer {
		if s := slices.Index(Statuses, a.Status); s >= 0 {
			d.Statuses[s]++
		}
		if !Answered(a) {
			continue
		}
		d.Cheap.look(a)
		if d.Coolest == nil || a.Best.Difference < d.Coolest.Best.Difference {
			d.Coolest = a
		}
		if speed, ok := a.Lower(); ok && a.Status != breakeven.Tie {
			if low, _ := lower(d.Lowest); d.Lowest == nil || speed < low {
				d.Lowest = a
			}
			if high, _ := lower(d.Highest); d.Highest == nil || speed > high {
				d.Highest = a
			}
		}
	}
	d.Warnings = rep.countWarnings()
	d.Failures = rep.survey().failures
	return d
}

// lower returns the break-even speed of an answer that may be nil.
func lower(a *breakeven.Answer) (float64, bool) {
	if a == nil {
		return 0, false
	}
	return a.Lower()
}

// countWarnings counts the warnings of all rows and of all answers.
func (rep *Report) countWarnings() []WarningCount {
	var counts []WarningCount
	for _, w := range (^model.Warnings(0)).List() {
		counts = append(counts, WarningCount{Warning: w})
	}
	count := func(of func(*WarningCount) *int, set model.Warnings) {
		for i := range counts {
			if set.Has(counts[i].Bit) {
				*of(&counts[i])++
			}
		}
	}
	for set, n := range rep.survey().warned {
		for i := range counts {
			if set.Has(counts[i].Bit) {
				counts[i].Points += n
			}
		}
	}
	for a := range rep.EachAnswer {
		if !Answered(a) {
			continue
		}
		set := a.Best.State.Warnings
		for j := range a.Crossings {
			set |= a.Crossings[j].State.Warnings
		}
		count(func(c *WarningCount) *int { return &c.Answers }, set)
		count(func(c *WarningCount) *int { return &c.References }, a.Reference.Warnings)
	}
	return slices.DeleteFunc(counts, func(c WarningCount) bool {
		return c.Points == 0 && c.Answers == 0 && c.References == 0
	})
}

// LimitLabel returns the budget term by which an answer's challenger loses most,
// in words; empty if there is none.
func LimitLabel(a *breakeven.Answer) string {
	if q, ok := quantity.Of(a.Limit.Term); ok {
		return q.Label
	}
	return ""
}
