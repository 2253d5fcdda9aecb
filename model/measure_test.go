package model_test

import (
	"math"
	"testing"

	"finduel/model"
	"finduel/model/fan"
)

// Measured where the rig is in balance, by volume, its parts give what the state has, to
// what the warm air of operation changes; in push, fans breathe room air either way.
func TestMeasureAgreesWithTheState(t *testing.T) {
	for _, placing := range []fan.Placing{fan.Push, fan.Pull, fan.PushPull} {
		r := small()
		r.Placing = placing
		p, err := model.Prepare(r)
		if err != nil {
			t.Fatal(err)
		}
		st, err := p.At(r.Speed)
		if err != nil {
			t.Fatal(err)
		}
		m := p.Measure(r.Speed, st.Airflow)
		for what, c := range map[string][2]float64{
			"fan pressure":  {m.FanPressure, st.CorePressureDrop},
			"pressure drop": {m.PressureDrop, st.CorePressureDrop},
			"conductance":   {m.Conductance, st.CoreConductance},
			"coolant flow":  {m.CoolantFlow, st.CoolantFlow},
		} {
			if !(math.Abs(c[0]/c[1]-1) < 0.1) {
				t.Errorf("%v: %s %v, in operation %v", placing, what, c[0], c[1])
			}
		}
		if placing == fan.Push && math.Abs(m.FanPressure/st.CorePressureDrop-1) > 1e-9 {
			t.Errorf("push: fans make %v Pa on the bench, %v in operation", m.FanPressure, st.CorePressureDrop)
		}
	}
}
