package render

import (
	"math"
	"strings"

	"finduel/model"
	"finduel/model/hazard"
	"finduel/model/quantity"
	"finduel/sweep/study"
)

// Caution says that a setup reaches a level at which people or wiring need protection.
// It informs; it is no safety assessment.
type Caution struct {
	hazard.Caution
	Setup string  // name of the setup
	From  float64 // lowest fan speed looked at at which it holds, rev/s; 0: the speeds were not swept
	Not   float64 // the speed looked at below From, at which it does not hold, rev/s; 0: none was
	Onset float64 // fan speed from which it holds, found between Not and From and rounded down, rev/s; 0: not found
	At    float64 // fan speed at which Number, its greatest value (the least where Below is set), is reached, rev/s; 0: the one that was asked for
}

// What returns the quantity of the number and the threshold.
func (c *Caution) What() quantity.Quantity { return quantity.Must(c.Quantity) }

// String says the caution in a sentence: "Warning, small from 9 000 rpm: tip speed
// 133 m/s at 20 000 rpm, threshold 60 m/s: put it behind a guard (common practice, no
// source)."
func (c *Caution) String() string {
	word := c.Severity.String()
	text := strings.ToUpper(word[:1]) + word[1:] + ", " + Clean(c.Setup)
	switch from := Computed("fan_speed", c.From); {
	case c.Onset > 0:
		text += " from " + Computed("fan_speed", c.Onset)
	case c.Not > 0:
		text += " from between " + Number(quantity.Must("fan_speed"), c.Not) + " and " + from
	case c.From > 0:
		text += " from " + from + " or less"
	}
	text += ": "
	if what := c.What(); what.Key != "fan_speed" {
		text += what.Label + " " + WithUnit(what, Number(what, c.Number))
		if c.At > 0 && c.At != c.From {
			text += " at " + Computed("fan_speed", c.At)
		}
		if c.Assumption != "" {
			text += " (" + c.Assumption + ")"
		}
		if c.Threshold > 0 {
			text += ", threshold " + WithUnit(what, Given(what, c.Threshold))
		}
		text += ": "
	}
	return text + c.Precaution + " (" + c.Source + ")."
}

// Disclaimer ends every list of cautions, also an empty one.
const Disclaimer = hazard.Disclaimer

// watch gathers the cautions of one setup over its states.
type watch struct {
	setup  string
	found  hazard.Found
	at     [hazard.RuleCount]float64
	begins [hazard.RuleCount]beginning
}

// beginning is where a caution begins.
type beginning struct {
	from, not float64   // as in Caution
	number    float64   // of the caution at from
	rig       model.Rig // of the states that begin there the one that reaches furthest
}

// look takes in the state of a rig at a fan speed in rev/s. What the drive does not reach
// does nothing to anybody.
//
// before is the next lower speed at which the same rig was looked at, 0 if there is none.
func (w *watch) look(rig *model.Rig, before, speed float64, state *model.State) {
	if state.Warnings&model.OutOfReach != 0 {
		return
	}
	w.take(rig, before, speed, state)
}

func (w *watch) take(rig *model.Rig, before, speed float64, state *model.State) {
	found := model.Cautions(rig, speed, state)
	for rule := range found {
		f, worst := &found[rule], &w.found[rule]
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
			*worst, w.at[rule] = *f, speed
		}
		b := &w.begins[rule]
		if b.from == 0 || speed < b.from || speed == b.from && graver(b.number) {
			*b = beginning{speed, before, f.Number, *rig}
		}
	}
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

// cautions returns what holds, the gravest first.
func (w *watch) cautions() []Caution {
	var list []Caution
	for _, c := range w.found.Ranked() {
		b := &w.begins[c.Rule]
		list = append(list, Caution{Caution: c, Setup: w.setup, From: b.from, Not: b.not, Onset: b.onset(int(c.Rule)), At: w.at[c.Rule]})
	}
	return list
}

// Cautions returns the cautions of a report, the gravest first and of equally grave ones
// those of the challenger: each once for a setup that reaches it in any state of the
// report, with the speed from which it holds. The states are the points, the
// break-evens and best speeds, the reference, and the reference over its own speeds;
// without points there is no such speed. Of designs in which it begins between the same two
// speeds it is that of the one that reaches furthest at the upper one. None of them is an empty list, which does not mean safe.
func Cautions(rep *Report) []Caution {
	challenger, reference := rep.survey().watch, watch{setup: rep.Reference().Name}
	rep.eachOther(func(isReference bool, rig *model.Rig, before, speed float64, state *model.State) {
		if isReference {
			reference.look(rig, before, speed, state)
		} else {
			challenger.look(rig, before, speed, state)
		}
	})
	if !rep.Results.Ran() {
		challenger.begins, reference.begins = [hazard.RuleCount]beginning{}, [hazard.RuleCount]beginning{}
	}
	var list []Caution
	a, b := challenger.cautions(), reference.cautions()
	for len(a) > 0 || len(b) > 0 {
		if len(b) == 0 || len(a) > 0 && a[0].Rule <= b[0].Rule {
			list, a = append(list, a[0]), a[1:]
		} else {
			list, b = append(list, b[0]), b[1:]
		}
	}
	return list
}

// CautionsFor returns the cautions of one setup in one state, as Cautions does.
func CautionsFor(s *study.Setup, state *model.State) []Caution {
	w := watch{setup: s.Name}
	w.take(&s.Rig, 0, s.Rig.Speed, state)
	w.begins = [hazard.RuleCount]beginning{}
	list := w.cautions()
	for i := range list {
		list[i].At = 0
	}
	return list
}

// eachOther hands over every state of a report but those of the points, with whether
// it is the reference's, its rig, the next lower speed looked at (0: none) and its own, in
// rev/s, in a fixed order.
func (rep *Report) eachOther(yield func(isReference bool, rig *model.Rig, before, speed float64, state *model.State)) {
	plan := rep.plan()
	for a := range rep.EachAnswer {
		if !Answered(a) {
			continue
		}
		k := plan.Point(a.Design, 0)
		challenger, reference := plan.Challenger(k), plan.Reference(k)
		under := 0.0
		if reference == rep.Reference().Rig {
			for j := range rep.Results.ReferenceCurve {
				if v := rep.Results.ReferenceCurve[j].Speed; v < reference.Speed {
					under = max(under, v)
				}
			}
		}
		yield(true, &reference, under, reference.Speed, &a.Reference)
		for j := range a.Crossings {
			c := &a.Crossings[j]
			yield(false, &challenger, rep.sweptBelow(c.Speed), c.Speed, &c.State)
		}
		yield(false, &challenger, rep.sweptBelow(a.Best.Speed), a.Best.Speed, &a.Best.State)
	}
	before := 0.0
	for i := range rep.Results.ReferenceCurve {
		at := &rep.Results.ReferenceCurve[i]
		yield(true, &rep.Reference().Rig, before, at.Speed, &at.State)
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
