package quantity_test

import (
	"testing"

	"finduel/model/quantity"
	"finduel/testdata/published"
)

// unitKinds names the kinds in the table of published unit values.
var unitKinds = map[string]quantity.Kind{
	"length": quantity.Length, "area": quantity.Area, "fin_density": quantity.FinDensity,
	"speed": quantity.Speed, "volume_flow": quantity.VolumeFlow, "mass_flow": quantity.MassFlow,
	"pressure": quantity.Pressure, "power": quantity.Power, "current": quantity.Current,
	"angle": quantity.Angle, "temperature": quantity.Temperature, "ratio": quantity.Ratio,
	"frequency": quantity.Frequency, "energy": quantity.Energy, "mass": quantity.Mass, "stress": quantity.Stress, "torque": quantity.Torque,
	"speed_constant": quantity.SpeedConstant, "electrical_resistance": quantity.ElectricalResistance, "duration": quantity.Duration,
	"speed_slope": quantity.SpeedSlope,
}

// stated returns the unit and the value that a row states.
func stated(t *testing.T, r published.Row) (u quantity.Unit, value float64) {
	t.Helper()
	if len(r.In) != 1 {
		t.Fatalf("line %d: %d inputs", r.Line, len(r.In))
	}
	for symbol, v := range r.In {
		var ok bool
		if u, ok = quantity.Find(unitKinds[r.Case], symbol); !ok {
			t.Fatalf("line %d: %q is no unit of %v", r.Line, symbol, unitKinds[r.Case])
		}
		value = v
	}
	return u, value
}

func TestPublishedUnits(t *testing.T) {
	checks := map[string]func(t *testing.T, r published.Row) float64{}
	for name := range unitKinds {
		checks[name] = func(t *testing.T, r published.Row) float64 {
			u, v := stated(t, r)
			return u.SI(v)
		}
	}
	published.Run(t, "units", checks)
}

// Whatever multiplies a number must have been held against a definition.
func TestEveryFactorIsPublished(t *testing.T) {
	held := map[quantity.Unit]bool{}
	for _, r := range published.Rows(t, "units") {
		u, v := stated(t, r)
		held[u] = held[u] || v != 0
	}
	eachUnit(t, func(u quantity.Unit) {
		if si := u.Times == u.Over && u.Offset == 0; !si && !held[u] {
			t.Errorf("%q of %v has no published value", u.Symbol, u.Kind)
		}
	})
}
