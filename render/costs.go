package render

import (
	"math"

	"finduel/model"
	"finduel/sweep/breakeven"
)

// Compared lists what is shown of a break-even, a best speed and the reference, in
// this order: one line a column, the metric of the study first.
func (rep *Report) Compared() []model.Output {
	metric := rep.Metric()
	list := []model.Output{metric}
	for _, o := range []model.Output{
		output("coolant_over_air"),
		output("airflow"),
		output("stall_margin"),
		output("fan_power"),
		output("drive_current"),
		output("sound"),
		output("exposure_limit"),
		output("exposure_limit_osha"),
		output("upper_action_time"),
		output("tip_speed"),
	} {
		if o.Key != metric.Key {
			list = append(list, o)
		}
	}
	return list
}

func output(key string) model.Output {
	o, _ := model.OutputOf(key)
	return o
}

// Slope returns the slope of the difference at a break-even in the unit shown, with
// its unit.
func Slope(c *breakeven.Crossing) string { return Computed("slope", c.Slope) }

// Cheapest is the designs whose break-even costs least; nil if none breaks even.
type Cheapest struct {
	Sound *breakeven.Answer // least sound at its break-even
	Power *breakeven.Answer // least fan power at its break-even
}

// CheapestOf picks the cheapest of some designs. Of equals the first is picked.
func CheapestOf(answers []*breakeven.Answer) Cheapest {
	var c Cheapest
	var sound, power float64
	for _, a := range answers {
		lower, _ := Ends(a)
		if lower == nil || a.Status == breakeven.Tie {
			continue
		}
		if s := lower.State.Sound; !math.IsNaN(s) && !math.IsInf(s, 0) && (c.Sound == nil || s < sound) {
			c.Sound, sound = a, s
		}
		if p := lower.State.FanPower; !math.IsNaN(p) && !math.IsInf(p, 0) && (c.Power == nil || p < power) {
			c.Power, power = a, p
		}
	}
	return c
}

// Pointers returns the answers of the report one by one.
func (rep *Report) Pointers() []*breakeven.Answer {
	list := make([]*breakeven.Answer, len(rep.Answers))
	for i := range list {
		list[i] = &rep.Answers[i]
	}
	return list
}
