package render

import (
	"finduel/model"
	"finduel/model/sound"
)

// ExposureRule is one of the three rules that permit an exposure.
type ExposureRule struct {
	Key  string // of the output that has its permitted time
	Name string // of what it is in, e.g. "NIOSH 98-126"

	permitted func(level float64) float64 // s a day, at a level in dB(A)
}

// ExposureRules are the rules in the order in which they are shown, the strictest first.
var ExposureRules = []ExposureRule{
	{"exposure_limit", "NIOSH 98-126", sound.PermittedNIOSH},
	{"exposure_limit_osha", "29 CFR 1910.95", sound.PermittedOSHA},
	{"upper_action_time", "2003/10/EC, upper action value", func(level float64) float64 { return sound.PermittedEU(level, sound.EUUpper) }},
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
