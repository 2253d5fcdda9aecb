package render_test

import (
	"strings"
	"testing"

	"finduel/model"
	"finduel/render"
)

// Each limit is its own output, so that no column shows another's time.
func TestExposureRulesAreTheirOutputs(t *testing.T) {
	state := model.State{OperatorSound: 94, SoundDoubtLow: -5, SoundDoubtHigh: 5}
	for key, hours := range map[string]float64{
		"exposure_limit": 1, "exposure_limit_osha": 4.595, "lower_action_time": 0.3185, "upper_action_time": 1.007, "limit_value_time": 1.596,
	} {
		o, ok := model.OutputOf(key)
		if !ok {
			t.Fatalf("no output %s", key)
		}
		rule, ok := render.ExposureRuleOf(o)
		if got := rule.Permitted(&state) / 3600; !ok || got < hours*0.999 || got > hours*1.001 {
			t.Errorf("%s permits %g h at 94 dB(A), want %g h", key, got, hours)
		}
	}
	if len(render.ExposureRules) != 5 {
		t.Errorf("%d limits", len(render.ExposureRules))
	}
}

func TestDosesSayWhereTheyCountFrom(t *testing.T) {
	state := model.State{NIOSHDose: 1, OSHADose: 0.5}
	text := render.Doses(&state)
	for _, want := range []string{"from 80 dBA on", "from 90 dBA on", "1.3.3", "(d)(2)", "85.0 dBA (NIOSH) and 85.0 dBA (OSHA)"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q does not say %q", text, want)
		}
	}
	if quiet := render.Doses(&model.State{}); strings.Contains(quiet, "As levels") || !strings.Contains(quiet, "from 80 dBA on") {
		t.Errorf("of no dose: %q", quiet)
	}
	for _, want := range []string{"80 dBA", "85 dBA", "87 dBA"} {
		if !strings.Contains(render.EUValues(), want) {
			t.Errorf("%q does not say %s", render.EUValues(), want)
		}
	}
}
