package render

import (
	"finduel/model"
	"finduel/model/quantity"
	"finduel/model/sound"
)

// ExposureRule is one of the limits that three rules set to an exposure.
type ExposureRule struct {
	Key  string // of the output that has its permitted time
	Name string // of what it is in, e.g. "NIOSH 98-126"

	permitted func(level float64) float64 // s a day, at a level in dB(A)
}

// ExposureRules are the rules in the order in which they are shown.
var ExposureRules = []ExposureRule{
	{"exposure_limit", "NIOSH 98-126", sound.PermittedNIOSH},
	{"exposure_limit_osha", "29 CFR 1910.95", sound.PermittedOSHA},
	{"lower_action_time", "2003/10/EC, lower action value", timeTo(sound.EULower)},
	{"upper_action_time", "2003/10/EC, upper action value", timeTo(sound.EUUpper)},
	{"limit_value_time", "2003/10/EC, exposure limit value", timeTo(sound.EULimit)},
}

// timeTo returns how long a level may be borne until a value of 2003/10/EC is reached.
func timeTo(value float64) func(level float64) float64 {
	return func(level float64) float64 { return sound.PermittedEU(level, value) }
}

// Permitted returns the permitted time, s a day, at the level at the operator.
func (r *ExposureRule) Permitted(state *model.State) float64 { return r.permitted(state.OperatorSound) }

// Span returns the permitted times, s a day, at the highest level at the operator within
// its doubt and at the lowest.
func (r *ExposureRule) Span(state *model.State) (least, most float64) {
	return r.permitted(state.OperatorSound + state.SoundDoubtHigh), r.permitted(state.OperatorSound + state.SoundDoubtLow)
}

// ExposureRuleOf returns the rule whose permitted time an output is, and false for any
// other output.
func ExposureRuleOf(o model.Output) (ExposureRule, bool) {
	for _, r := range ExposureRules {
		if r.Key == o.Key {
			return r, true
		}
	}
	return ExposureRule{}, false
}

// LoudEnd says that a permitted time is that at the highest level within the doubt.
const LoudEnd = "at the loud end"

// EUValues says what the values of 2003/10/EC are, and which of them counts hearing
// protection.
func EUValues() string {
	level := quantity.Must("daily_exposure")
	value := func(dBA float64) string { return WithUnit(level, Given(level, dBA)) }
	return "a session reaches the lower action value with " + value(sound.EULower) + " over 8 h, the upper one with " + value(sound.EUUpper) +
		", the exposure limit value with " + value(sound.EULimit) + "; the last counts what hearing protection takes off, here nothing"
}

// Doses says what doses count, and what they are as levels over 8 h: "100 % is the limit
// over a day. They count from 80 dBA on (NIOSH 98-126, 1.3.3; …".
func Doses(state *model.State) string {
	level := quantity.Must("operator_sound")
	from := func(dBA float64) string { return WithUnit(level, Given(level, dBA)) }
	text := "100 % is the limit over a day. They count from " + from(sound.CountedFrom) +
		" on (NIOSH 98-126, 1.3.3; 29 CFR 1910.95, (d)(2) and appendix A, with its action level at 50 %); OSHA's permissible exposure counts from " + from(sound.OSHALimit) + " on"
	if state.NIOSHDose > 0 {
		over := func(dBA float64) string { return Computed("daily_exposure", dBA) }
		text += ". As levels over 8 h they are " + over(sound.AverageNIOSH(state.NIOSHDose)) + " (NIOSH) and " + over(sound.AverageOSHA(state.OSHADose)) + " (OSHA)"
	}
	return text
}
