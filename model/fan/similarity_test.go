package fan_test

import (
	"math"
	"testing"

	"finduel/model/fan"
)

// The data sheet of a fan of 40 x 40 x 28 mm (maker not named) has 54 m³/h, 1000 Pa
// and 15.6 W at 25 000 rpm, and 9.3 m³/h, 32 Pa and 0.84 W at 4 400 rpm: the
// constant says that flow and pressure still follow the laws there. Its power does
// not.
func TestDataSheetFollowsTheLawsDownToTheLimit(t *testing.T) {
	f := unit()
	f.RatedSpeed, f.FreeAirFlow, f.ShutOffPressure = 25000./60, 54./3600, 1000
	f.RatedDensity = 1.2
	const slow = 4400. / 60
	if r := f.FreeFlow(slow) * 3600 / 9.3; math.Abs(r-1) > 0.03 {
		t.Errorf("flow %.3f of the sheet's", r)
	}
	if r := f.ShutOff(slow, 1.2) / 32; math.Abs(r-1) > 0.035 {
		t.Errorf("pressure %.3f of the sheet's", r)
	}
	if re := fan.Reynolds(math.Pi*0.038*slow, 0.038, 1.51e-5); !(re >= fan.AffinityReynolds && re < 1.2*fan.AffinityReynolds) {
		t.Errorf("Reynolds number %.0f, the limit %.0f", re, fan.AffinityReynolds)
	}
	n := slow / f.RatedSpeed
	if r := 0.84 / (15.6 * n * n * n); !(r > 9 && r < 11) {
		t.Errorf("the law alone leaves 1/%.1f of the power", r)
	}
}

func TestSimilarityIsDimensionless(t *testing.T) {
	near(t, "Reynolds number", fan.Reynolds(10, 0.1, 1e-5), 1e5)
	near(t, "Reynolds number of half the size at twice the speed", fan.Reynolds(20, 0.05, 1e-5), 1e5)
	near(t, "Mach number", fan.TipMach(150, 300), 0.5)
	if !(fan.AffinityMach > 0.2 && fan.AffinityMach < 0.5) {
		t.Errorf("the laws end at a Mach number of %g", fan.AffinityMach)
	}
}
