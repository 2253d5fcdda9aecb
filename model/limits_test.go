package model_test

import (
	"testing"

	"finduel/model"
	"finduel/model/core"
	"finduel/model/fan"
)

// every visits both rigs with every surface.
func every(t *testing.T, visit func(t *testing.T, r model.Rig)) {
	t.Helper()
	for _, base := range []model.Rig{small(), large()} {
		for _, surface := range core.Surfaces() {
			r := base
			r.Core.Surface, r.Placing = surface, fan.Pull
			visit(t, r)
		}
	}
}

// With air without end the air film and its warming vanish: what is left are the
// fins, the wall, the coolant's film and what the coolant cools down on its way.
func TestEndlessAirLeavesTheCoolantSide(t *testing.T) {
	every(t, func(t *testing.T, r model.Rig) {
		r.Fans.Fan.FreeAirFlow, r.Fans.Fan.ShutOffPressure, r.Fans.Fan.RatedPower = 500, 1e9, 1e-3
		s := must(t, r)
		coolantCapacity := s.HeatRejected / (s.CoolantInletTemperature - s.CoolantOutletTemperature)
		if s.AirCapacity < 100*coolantCapacity {
			t.Fatalf("air %v W/K is not without end beside %v W/K", s.AirCapacity, coolantCapacity)
		}
		if s.Budget.AirFilm > 0.02*s.CoolantOverAir+0.2 || s.AirOutletTemperature-s.CoreAirTemperature > 0.05 {
			t.Errorf("%v: air film %v K, air warms by %v K", r.Core.Surface, s.Budget.AirFilm, s.AirOutletTemperature-s.CoreAirTemperature)
		}
	})
}

// Fins that conduct nothing are as if they were not there but for their pressure
// drop; fins that conduct without end are all at root temperature.
func TestFinsBetweenNoConductivityAndEndless(t *testing.T) {
	every(t, func(t *testing.T, r model.Rig) {
		r.Heat.Load, r.Heat.PumpPower = 20, 0
		r.Fans.Fan.ShutOffPressure *= 20
		last := 0.0
		for _, k := range []float64{1e-6, 1e-3, 1, 30, 300, 1e5, 1e9} {
			r.Core.FinConductivity = k
			s := must(t, r)
			if s.CoreConductance < last*(1-1e-3) {
				t.Errorf("%v, %v W/(m K): UA %v W/K after %v", r.Core.Surface, k, s.CoreConductance, last)
			}
			last = s.CoreConductance
			c, err := core.New(r.Core)
			if err != nil {
				t.Fatal(err)
			}
			if k == 1e-6 {
				if bare := c.WithFins(0); !near(c.WithFins(c.FinEfficiency(s.AirFilm)), bare, 1e-2) {
					t.Errorf("%v: surface efficiency %v of fins that conduct nothing, bare share %v", r.Core.Surface, c.WithFins(c.FinEfficiency(s.AirFilm)), bare)
				}
			}
			if k == 1e9 && s.Budget.Fin > 1e-4 {
				t.Errorf("%v: fin term %v K with endless conductivity", r.Core.Surface, s.Budget.Fin)
			}
		}
	})
}

// A core of endless face leaves nothing but the capacity: the air goes out as warm as
// the coolant comes in. No air at all carries no heat.
func TestEndlessFaceAndNoAir(t *testing.T) {
	every(t, func(t *testing.T, r model.Rig) {
		wide := r
		wide.Core.FaceLength, wide.Core.FaceWidth = 5, 5
		wide.Coolant.Flow = 1e-3
		if s := must(t, wide); s.Conductance < 0.99*s.AirCapacity {
			t.Errorf("%v: conductance %v W/K of %v W/K", r.Core.Surface, s.Conductance, s.AirCapacity)
		}
		r.Speed = 1e-3
		if _, err := model.Evaluate(r); err == nil {
			t.Errorf("%v: no air carries the heat away", r.Core.Surface)
		}
	})
}
