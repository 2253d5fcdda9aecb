package sheet

import (
	"strings"
	"testing"

	"finduel/model"
	"finduel/model/coolant"
	"finduel/testdata/reports"
)

// A mixture is said with its share of glycol, water without.
func TestConditionsNameTheCoolant(t *testing.T) {
	for _, c := range []struct {
		liquid coolant.Liquid
		want   string
	}{
		{coolant.Liquid{}, "; water 3.2 L/min;"},
		{coolant.Liquid{Fluid: coolant.EthyleneGlycol, GlycolShare: 0.3}, "; ethylene glycol (30 % by mass) 3.2 L/min;"},
		{coolant.Liquid{Fluid: coolant.PropyleneGlycol}, "; propylene glycol (0 % by mass) 3.2 L/min;"},
	} {
		r := model.Rig{Coolant: model.Coolant{Liquid: c.liquid, Flow: 3.2 / 60000}}
		if got := strings.ReplaceAll(conditions(&r), "\u00a0", " "); !strings.Contains(got, c.want) {
			t.Errorf("%q does not say %q", got, c.want)
		}
	}
}

// An estimate of the sound is told of both setups, but not of a challenger whose sound is
// swept.
func TestEstimatedSoundIsTold(t *testing.T) {
	const told = "estimated from flow and pressure, to ±10 dB"
	rep := reports.Few()
	rep.Challenger().Rig.Fans.Fan.EstimatedSound, rep.Reference().Rig.Fans.Fan.EstimatedSound = true, true
	for i, want := range []int{2, 1} {
		var b strings.Builder
		if err := Terminal(&b, rep, 200); err != nil {
			t.Fatal(err)
		}
		if got := strings.Count(b.String(), told); got != want {
			t.Errorf("%d swept: told %d times, want %d in\n%s", i, got, want, b.String())
		}
		rep.Study.Axes[1].Input, _ = model.InputOf("rated_sound")
	}
}
