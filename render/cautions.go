package render

import (
	"fmt"

	"finduel/model"
	"finduel/model/quantity"
)

// Caution says that something computed for a report reaches a level at which
// people or wiring need protection. It informs; it is no safety assessment.
type Caution struct {
	What       quantity.Quantity // what reaches the threshold: sound, tip_speed or drive_current
	Number     float64           // its greatest value in the report, in the SI unit of What
	Setup      string            // name of the setup that reaches it
	Speed      float64           // fan speed at which it does, rev/s
	Threshold  float64           // from here on the caution is given, in the SI unit of What
	Source     string            // where the threshold comes from
	Precaution string            // what to do, a clause without capital and full stop
}

// String says the caution in a sentence.
func (c *Caution) String() string {
	return fmt.Sprintf("%s up to %s (%s at %s; threshold %s, %s): %s.", c.What.Label,
		WithUnit(c.What, Number(c.What, c.Number)), Clean(c.Setup), Computed("fan_speed", c.Speed),
		WithUnit(c.What, Given(c.What, c.Threshold)), c.Source, c.Precaution)
}

// Disclaimer ends every list of cautions, also an empty one.
const Disclaimer = "Local codes and licensed practice decide. No caution does not mean safe."

// noSource marks a threshold that is a habit of the trade.
const noSource = "common practice, no source"

// thresholds lists what Cautions looks for.
var thresholds = []struct {
	key                string
	value              float64 // SI
	source, precaution string
}{
	// The recommended exposure limit of [1], 1.1.1: 85 dB(A) over eight hours.
	{"sound", 85, "NIOSH 98-126", "wear hearing protection, and more so nearer than the listener"},
	// Common practice, no source: from about here a broken blade is a projectile.
	{"tip_speed", 60, noSource, "run it behind a guard, with nobody in the plane of rotation"},
	// Common practice, no source: above what a fan header and thin wire carry.
	{"drive_current", 5, noSource, "wire, connectors and supply must be rated for it"},
}

// Cautions returns the cautions of a report, in a fixed order, each with the
// greatest value that any state in the report has: the points, the break-evens and
// best speeds, the reference, and the reference over its own speeds. A value at
// the threshold counts. None of them is an empty list, which does not mean safe.
func Cautions(rep *Report) []Caution { return cautions(rep.eachState) }

// CautionsFor returns the cautions of one setup in one state at a fan speed in
// rev/s, as Cautions does.
func CautionsFor(setup string, speed float64, state *model.State) []Caution {
	return cautions(func(yield func(string, float64, *model.State)) { yield(setup, speed, state) })
}

// cautions goes through states, each with the name of its setup and its fan speed.
func cautions(each func(yield func(setup string, speed float64, state *model.State))) []Caution {
	found := make([]Caution, len(thresholds))
	outputs := make([]model.Output, len(thresholds))
	for i, t := range thresholds {
		outputs[i], _ = model.OutputOf(t.key)
		found[i] = Caution{
			What: outputs[i].Quantity, Threshold: t.value, Source: t.source, Precaution: t.precaution,
		}
	}
	each(func(setup string, speed float64, state *model.State) {
		for i := range found {
			if v := outputs[i].Get(state); v >= found[i].Threshold && (found[i].Setup == "" || v > found[i].Number) {
				found[i].Number, found[i].Setup, found[i].Speed = v, setup, speed
			}
		}
	})
	var list []Caution
	for _, c := range found {
		if c.Setup != "" {
			list = append(list, c)
		}
	}
	return list
}

// eachState hands over every state of a report that can be the greatest in any of
// the thresholds, with the name of its setup and its fan speed, in rev/s, in a fixed
// order.
func (rep *Report) eachState(yield func(setup string, speed float64, state *model.State)) {
	challenger, reference := rep.Challenger(), rep.Reference()
	worst := rep.survey().worst
	for i := range worst {
		yield(challenger.Name, rep.Speed(worst[i].Point), &worst[i].State)
	}
	for i := range rep.Answers {
		a := &rep.Answers[i]
		if !Answered(a) {
			continue
		}
		yield(reference.Name, reference.Rig.Speed, &a.Reference)
		for j := range a.Crossings {
			yield(challenger.Name, a.Crossings[j].Speed, &a.Crossings[j].State)
		}
		yield(challenger.Name, a.Best.Speed, &a.Best.State)
	}
	for i := range rep.Results.ReferenceCurve {
		at := &rep.Results.ReferenceCurve[i]
		yield(reference.Name, at.Speed, &at.State)
	}
}
