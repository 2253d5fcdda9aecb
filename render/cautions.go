package render

import (
	"cmp"
	"math"
	"slices"

	"finduel/model"
	"finduel/model/hazard"
	"finduel/model/quantity"
	"finduel/sweep"
	"finduel/sweep/study"
)

// Caution says that a setup reaches a level at which people or wiring need protection.
// It informs; it is no safety assessment.
type Caution struct {
	hazard.Caution
	Setup      string          // name of the setup
	From       float64         // lowest fan speed looked at at which it holds, rev/s; 0: the speeds were not swept
	Not        float64         // the speed looked at below From, at which it does not hold, rev/s; 0: none was
	Onset      float64         // fan speed from which it holds, found between Not and From and rounded down, rev/s; 0: not found
	Design     string          // design that Number is of; empty: the base design, or no designs differ
	FromDesign string          // design that From, Not and Onset are of; likewise
	Graver     hazard.Severity // of the caution that takes its place from Until on
	Until      float64         // fan speed above From from which a graver form of the rule holds instead, rev/s; 0: none does, or the speeds were not swept

	At float64 // fan speed at which Number, its greatest value (the least where Below is set), is reached, rev/s; 0: the one that was asked for
}

// What returns the quantity of the number and the threshold.
func (c *Caution) What() quantity.Quantity { return quantity.Must(c.Quantity) }

// begin takes in where a caution begins; name says a design in words.
func (c *Caution) begin(b *beginning, name func(design int) string) {
	c.From, c.Not, c.Onset, c.FromDesign = b.from, b.not, 0, ""
	if b.from > 0 {
		c.Onset, c.FromDesign = b.onset(int(c.Rule)), name(b.design)
	}
}

// Disclaimer ends every list of cautions, also an empty one.
const Disclaimer = hazard.Disclaimer

// watch gathers the cautions of one setup over its states.
type watch struct {
	setup     string
	any, base record // of all designs, and of the base design alone
}

// record is what holds in some designs.
type record struct {
	found  hazard.Found
	at     [hazard.RuleCount]float64
	of     [hazard.RuleCount]int // design of found
	begins [hazard.RuleCount]beginning
}

// own stands for the base design, and for a setup without designs.
const own = -1

// beginning is where a caution begins.
type beginning struct {
	from, not float64   // as in Caution
	design    int       // own or another
	number    float64   // of the caution at from
	rig       model.Rig // of the states that begin there the one that reaches furthest
}

// look takes in the state of a design's rig at a fan speed in rev/s. What the drive does
// not reach does nothing to anybody.
//
// before is the next lower speed at which the same rig was looked at, 0 if there is none.
func (w *watch) look(design int, rig *model.Rig, before, speed float64, state *model.State) {
	if state.Warnings&model.OutOfReach != 0 {
		return
	}
	w.take(design, rig, before, speed, state)
}

func (w *watch) take(design int, rig *model.Rig, before, speed float64, state *model.State) {
	found := model.Cautions(rig, speed, state)
	w.any.take(&found, design, rig, before, speed)
	if design == own {
		w.base.take(&found, design, rig, before, speed)
	}
}

func (r *record) take(found *hazard.Found, design int, rig *model.Rig, before, speed float64) {
	for rule := range found {
		f, worst := &found[rule], &r.found[rule]
		if !f.Holds {
			continue
		}
		graver := func(than float64) bool {
			if hazard.Rule(rule).Caution(*f).Below {
				return f.Number < than
			}
			return f.Number > than
		}
		if !worst.Holds || graver(worst.Number) {
			*worst, r.at[rule], r.of[rule] = *f, speed, design
		}
		b := &r.begins[rule]
		if b.from == 0 || speed < b.from || speed == b.from && graver(b.number) {
			*b = beginning{speed, before, design, f.Number, *rig}
		}
	}
}

// forget leaves out where cautions begin: the speeds below were not looked at.
func (w *watch) forget() {
	w.any.begins, w.base.begins = [hazard.RuleCount]beginning{}, [hazard.RuleCount]beginning{}
}

// onsetWithin is how well the speed at which a caution begins is found, as a share of it,
// before it is rounded.
const onsetWithin = 1e-4

// onset returns the speed between not and from at which a rule begins to hold, rounded
// down by half a per cent of it at most, but not below not; 0 if the model has it hold at
// not, or not at from, for the states may have been another's.
func (b *beginning) onset(rule int) float64 {
	ready, err := model.Prepare(b.rig)
	if err != nil {
		return 0
	}
	holds := func(speed float64) bool {
		state, err := ready.At(speed)
		return err == nil && state.Warnings&model.OutOfReach == 0 && model.Cautions(&b.rig, speed, &state)[rule].Holds
	}
	low, high := b.not, b.from
	if low == 0 || holds(low) || !holds(high) {
		return 0
	}
	for high-low > onsetWithin*high {
		if middle := (low + high) / 2; holds(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return max(roundedDown(low), b.not)
}

// roundedDown returns a speed, rev/s, rounded down to a step of 1, 2 or 5 times a power of
// ten rpm that is at most half a per cent of it.
//
// Check: 3 456 rpm is 3 450 rpm, 19 873 rpm 19 850 rpm.
func roundedDown(speed float64) float64 {
	unit := quantity.Must("fan_speed").Shown
	v := unit.Shown(speed)
	power := math.Pow(10, math.Floor(math.Log10(v/200)))
	step := power
	for _, times := range []float64{2, 5} {
		if times*power <= v/200 {
			step = times * power
		}
	}
	return unit.SI(math.Floor(v/step) * step)
}

// cautions returns what holds, the gravest first; name says a design in words. Where the
// base design says the same in print it is that one's.
func (w *watch) cautions(name func(design int) string) []Caution {
	var list []Caution
	for _, gravest := range w.any.found.Ranked() {
		rule := gravest.Rule
		c := Caution{Caution: gravest, Setup: w.setup, At: w.any.at[rule], Design: name(w.any.of[rule])}
		if f := w.base.found[rule]; f.Holds && Number(c.What(), f.Number) == Number(c.What(), c.Number) {
			c.Caution, c.At, c.Design = rule.Caution(f), w.base.at[rule], ""
		}
		c.begin(&w.any.begins[rule], name)
		mine := c
		if mine.begin(&w.base.begins[rule], name); mine.from() == c.from() {
			c = mine
		}
		list = append(list, c)
	}
	for i := range list {
		rule, _ := list[i].Rule.Graver()
		for _, g := range list {
			if from := cmp.Or(g.Onset, g.From); g.Rule == rule && rule != list[i].Rule && list[i].From > 0 && from > list[i].From {
				list[i].Graver, list[i].Until = g.Severity, from
			}
		}
	}
	return list
}

// Cautions returns the cautions of every setup of a study, the gravest first and of equally
// grave ones those of the challenger, the reference, and the others as the study has them:
// each once for a setup that reaches it in any state of the report, with the speed from
// which it holds. The states are the points, the break-evens and best speeds, the
// reference, and the reference over its own speeds; of a setup that is not compared those
// of asideSpeeds.
// Of designs in which it begins between the same two speeds it is that of the one that
// reaches furthest at the upper one. Where no points were computed they are looked at here,
// of a large plan those of some designs alone, see walked. None of them is an empty list,
// which does not mean safe.
func Cautions(rep *Report) []Caution {
	base := rep.baseDesign()
	challenger, reference := rep.survey().watch, watch{setup: rep.Reference().Name}
	rep.eachOther(base, func(isReference bool, design int, rig *model.Rig, before, speed float64, state *model.State) {
		if isReference {
			reference.look(design, rig, before, speed, state)
		} else {
			challenger.look(design, rig, before, speed, state)
		}
	})
	if !rep.Results.Ran() {
		rep.walk(base, &challenger)
		reference.forget()
		reference.curve(&rep.Reference().Rig, sweep.ReferenceCurve(rep.plan(), sweep.Physics))
	}
	list := append(challenger.cautions(rep.named(rep.DesignAxes())), reference.cautions(rep.named(rep.sharedAxes()))...)
	for _, s := range rep.Aside() {
		w := watch{setup: s.Name}
		w.over(s.Rig, asideSpeeds(s))
		list = append(list, w.cautions(rep.named(nil))...)
	}
	slices.SortStableFunc(list, func(a, b Caution) int { return cmp.Compare(a.Rule, b.Rule) })
	return list
}

// Aside returns the setups of the study that are not compared, as the study has them.
func (rep *Report) Aside() []*study.Setup {
	var list []*study.Setup
	for i := range rep.Study.Setups {
		if i != rep.Study.Challenger && i != rep.Study.Reference {
			list = append(list, &rep.Study.Setups[i])
		}
	}
	return list
}

// asideSteps is at how many speeds a setup that is not compared is looked at, beside its
// own.
const asideSteps = 40

// asideSpeeds returns the speeds at which a setup that is not compared is looked at,
// rising: even steps up to its top speed, and the speed that the study gives it.
func asideSpeeds(s *study.Setup) []float64 {
	speeds := []float64{s.Rig.Speed}
	for i := range asideSteps {
		speeds = append(speeds, s.Rig.Fans.Fan.TopSpeed*float64(i+1)/asideSteps)
	}
	slices.Sort(speeds)
	return slices.Compact(speeds)
}

// baseDesign returns the number of the base design; own, which is none, without answers.
func (rep *Report) baseDesign() int {
	if held := rep.HeldDesigns(); len(held) > 0 {
		return held[0]
	}
	return own
}

// named returns how designs are said in words, by some of the axes; a setup's own by none.
func (rep *Report) named(axes []int) func(design int) string {
	return func(design int) string {
		if design == own {
			return ""
		}
		return rep.designBy(design, axes)
	}
}

// sharedAxes returns the design axes that both setups share.
func (rep *Report) sharedAxes() []int {
	return slices.DeleteFunc(rep.DesignAxes(), func(i int) bool { return !rep.Study.Axes[i].Input.Shared })
}

// mostWalked is how many points are looked at where none were computed; it takes about half
// a second.
const mostWalked = 50_000

// walked returns the designs whose swept speeds are looked at where no points were
// computed, rising: all of them, or if that is more than so many points the base design and
// those in which a caution is gravest.
func (rep *Report) walked(base int, w *watch, most int) []int {
	plan := rep.plan()
	if plan.Points() <= most {
		all := make([]int, plan.Designs())
		for i := range all {
			all[i] = i
		}
		return all
	}
	var designs []int
	if base != own {
		designs = append(designs, base)
	}
	for rule, f := range w.any.found {
		if of := w.any.of[rule]; f.Holds && !slices.Contains(designs, of) && of != own {
			designs = append(designs, of)
		}
	}
	slices.Sort(designs)
	return designs
}

// walk looks at the swept speeds of designs, in the place of points.
func (rep *Report) walk(base int, w *watch) {
	designs := rep.walked(base, w, mostWalked)
	w.forget()
	plan := rep.plan()
	speeds := plan.Points() / plan.Designs()
	for _, design := range designs {
		before := 0.0
		rig := plan.Challenger(plan.Point(design, 0))
		ready, err := model.Prepare(rig)
		for i := 0; err == nil && i < speeds; i++ {
			k := plan.Point(design, i)
			speed := rep.Speed(k)
			state, none := ready.At(speed)
			if none != nil || plan.Excluded(k) {
				continue
			}
			if before > speed { // a list of speeds may fall
				before = 0
			}
			w.look(ownIf(design, base), &rig, before, speed, &state)
			before = speed
		}
	}
}

// ownIf returns a design, or own if it is the base design.
func ownIf(design, base int) int {
	if design == base {
		return own
	}
	return design
}

// curve looks at a setup over rising speeds.
func (w *watch) curve(rig *model.Rig, states []sweep.SpeedState) {
	before := 0.0
	for i := range states {
		w.look(own, rig, before, states[i].Speed, &states[i].State)
		before = states[i].Speed
	}
}

// over looks at a setup's rig at rising speeds, in rev/s; what has no value does nothing to anybody.
func (w *watch) over(rig model.Rig, speeds []float64) {
	ready, err := model.Prepare(rig)
	if err != nil {
		return
	}
	before := 0.0
	for _, speed := range speeds {
		if state, err := ready.At(speed); err == nil {
			w.look(own, &rig, before, speed, &state)
			before = speed
		}
	}
}

// CautionsFor returns the cautions of one setup in one state, as Cautions does.
func CautionsFor(s *study.Setup, state *model.State) []Caution {
	w := watch{setup: s.Name}
	w.take(own, &s.Rig, 0, s.Rig.Speed, state)
	w.forget()
	list := w.cautions(func(int) string { return "" })
	for i := range list {
		list[i].At = 0
	}
	return list
}

// eachOther hands over every state of a report but those of the points, with whether
// it is the reference's, its design, its rig, the next lower speed looked at (0: none) and
// its own, in rev/s, in a fixed order.
func (rep *Report) eachOther(base int, yield func(isReference bool, design int, rig *model.Rig, before, speed float64, state *model.State)) {
	plan := rep.plan()
	for a := range rep.EachAnswer {
		if !Answered(a) {
			continue
		}
		k, design := plan.Point(a.Design, 0), ownIf(a.Design, base)
		challenger, reference := plan.Challenger(k), plan.Reference(k)
		under, of := 0.0, a.Design
		if reference == rep.Reference().Rig {
			of = own
			for j := range rep.Results.ReferenceCurve {
				if v := rep.Results.ReferenceCurve[j].Speed; v < reference.Speed {
					under = max(under, v)
				}
			}
		}
		yield(true, of, &reference, under, reference.Speed, &a.Reference)
		for j := range a.Crossings {
			c := &a.Crossings[j]
			yield(false, design, &challenger, rep.sweptBelow(c.Speed), c.Speed, &c.State)
		}
		yield(false, design, &challenger, rep.sweptBelow(a.Best.Speed), a.Best.Speed, &a.Best.State)
	}
	before := 0.0
	for i := range rep.Results.ReferenceCurve {
		at := &rep.Results.ReferenceCurve[i]
		yield(true, own, &rep.Reference().Rig, before, at.Speed, &at.State)
		before = at.Speed
	}
}

// sweptBelow returns the next lower fan speed of the sweep, rev/s; 0 if there is none.
func (rep *Report) sweptBelow(speed float64) float64 {
	plan := rep.plan()
	axis, swept := plan.SpeedAxis()
	if !swept {
		return 0
	}
	below := 0.0
	for _, v := range plan.Study.Axes[axis].Values {
		if v < speed {
			below = max(below, v)
		}
	}
	return below
}
