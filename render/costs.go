package render

import (
	"math"

	"finduel/model"
	"finduel/model/fan"
	"finduel/model/quantity"
	"finduel/model/sound"
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
		stallMargin,
		output("fan_power"),
		output("drive_current"),
		output("sound"),
		output("exposure_limit"),
		exposureOSHA,
		exposureEU,
		output("tip_speed"),
	} {
		if o.Key != metric.Key {
			list = append(list, o)
		}
	}
	return list
}

// Derived lists the outputs that follow from others and are not the model's own.
var Derived = []model.Output{stallMargin, exposureOSHA, exposureEU}

func output(key string) model.Output {
	o, _ := model.OutputOf(key)
	return o
}

// stallMargin is by how much the fan's flow lies above the flow at which stall
// begins, over that flow; negative in the stall region.
var stallMargin = model.Output{
	Quantity: quantity.Must("stall_margin"),
	Get:      func(s *model.State) float64 { return s.FreeFlowShare/fan.StallRegion - 1 },
}

// exposureOSHA is what 29 CFR 1910.95 permits a day at the state's sound.
var exposureOSHA = model.Output{
	Quantity: quantity.Must("exposure_limit_osha"),
	Get:      func(s *model.State) float64 { return sound.PermittedOSHA(s.Sound) },
}

// exposureEU is how long the state's sound takes to the upper exposure action value
// of Directive 2003/10/EC, Article 3, L_EX,8h = 85 dB(A).
var exposureEU = model.Output{
	Quantity: quantity.Must("exposure_limit_eu"),
	Get: func(s *model.State) float64 {
		const upperAction, day = 85, 8 * 3600
		return day * math.Pow(10, (upperAction-s.Sound)/10)
	},
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
