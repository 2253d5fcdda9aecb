package render

import (
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
	if c.From > 0 {
		if from := Computed("fan_speed", c.From); c.Not > 0 {
			text += " from between " + Number(quantity.Must("fan_speed"), c.Not) + " and " + from
		} else {
			text += " from " + from + " or less"
		}
	}
	text += ": "
	if what := c.What(); what.Key != "fan_speed" {
		text += what.Label + " " + WithUnit(what, Number(what, c.Number))
		if c.At > 0 && c.At != c.From {
			text += " at " + Computed("fan_speed", c.At)
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
	setup    string
	found    hazard.Found
	from, at [hazard.RuleCount]float64
	not      [hazard.RuleCount]float64
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
		graver := f.Number > worst.Number
		if hazard.Rule(rule).Caution(*f).Below {
			graver = f.Number < worst.Number
		}
		if !worst.Holds || graver {
			*worst, w.at[rule] = *f, speed
		}
		if w.from[rule] == 0 || speed < w.from[rule] {
			w.from[rule], w.not[rule] = speed, before
		}
	}
}

// cautions returns what holds, the gravest first.
func (w *watch) cautions() []Caution {
	var list []Caution
	for _, c := range w.found.Ranked() {
		list = append(list, Caution{Caution: c, Setup: w.setup, From: w.from[c.Rule], Not: w.not[c.Rule], At: w.at[c.Rule]})
	}
	return list
}

// Cautions returns the cautions of a report, the gravest first and of equally grave ones
// those of the challenger: each once for a setup that reaches it in any state of the
// report, with the lowest speed at which it holds. The states are the points, the
// break-evens and best speeds, the reference, and the reference over its own speeds; without points there is no
// lowest speed. None of them is an empty list, which does not mean safe.
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
		challenger.from, reference.from = [hazard.RuleCount]float64{}, [hazard.RuleCount]float64{}
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
	list := w.cautions()
	for i := range list {
		list[i].From, list[i].At = 0, 0
	}
	return list
}

// eachOther hands over every state of a report but those of the points, with whether
// it is the reference's, its rig, the next lower speed looked at (0: none) and its own, in
// rev/s, in a fixed order.
func (rep *Report) eachOther(yield func(isReference bool, rig *model.Rig, before, speed float64, state *model.State)) {
	plan := rep.plan()
	for i := range rep.Answers {
		a := &rep.Answers[i]
		if !Answered(a) {
			continue
		}
		k := plan.Point(a.Design, 0)
		challenger, reference := plan.Challenger(k), plan.Reference(k)
		yield(true, &reference, 0, reference.Speed, &a.Reference)
		for j := range a.Crossings {
			yield(false, &challenger, 0, a.Crossings[j].Speed, &a.Crossings[j].State)
		}
		yield(false, &challenger, 0, a.Best.Speed, &a.Best.State)
	}
	before := 0.0
	for i := range rep.Results.ReferenceCurve {
		at := &rep.Results.ReferenceCurve[i]
		yield(true, &rep.Reference().Rig, before, at.Speed, &at.State)
		before = at.Speed
	}
}
