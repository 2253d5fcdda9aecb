package sheet

import (
	"strings"
	"testing"

	"finduel/model"
	"finduel/model/coolant"
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
