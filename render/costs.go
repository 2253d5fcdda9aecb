package render

import (
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
		output("sound_doubt_low"),
		output("sound_doubt_high"),
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
	for _, a := range answers {
		c.look(a)
	}
	return c
}

// look takes a design into account.
func (c *Cheapest) look(a *breakeven.Answer) {
	lower, _ := Ends(a)
	if lower == nil || a.Status == breakeven.Tie {
		return
	}
	least := func(best **breakeven.Answer, of func(*model.State) float64) {
		v := of(&lower.State)
		if !finite(v) {
			return
		}
		if *best != nil {
			if other, _ := Ends(*best); v >= of(&other.State) {
				return
			}
		}
		*best = a
	}
	least(&c.Sound, func(s *model.State) float64 { return s.Sound })
	least(&c.Power, func(s *model.State) float64 { return s.FanPower })
}
