package render

import (
	"math"
	"testing"

	"finduel/model/quantity"
)

func TestSpeedsAreRoundedDown(t *testing.T) {
	rpm := quantity.Must("fan_speed").Shown
	for v, want := range map[float64]float64{85.3: 85.2, 250.7: 250, 999: 998, 1009: 1005, 3456: 3450, 3460: 3460, 19873: 19850, 20001: 20000, 123456: 123000} {
		got := rpm.Shown(roundedDown(rpm.SI(v)))
		if math.Abs(got-want) > 1e-9*want {
			t.Errorf("%g rpm is rounded down to %g, want %g", v, got, want)
		}
	}
	for v := 20.0; v < 1e5; v *= 1.0137 {
		if got := rpm.Shown(roundedDown(rpm.SI(v))); !(got <= v*(1+1e-12) && got > v*0.995) {
			t.Errorf("%g rpm is rounded down to %g", v, got)
		}
	}
}
