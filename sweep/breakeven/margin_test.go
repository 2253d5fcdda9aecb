package breakeven

import (
	"math"
	"testing"
)

// The ends of ties and the sensible speed have closed forms on a straight line, a
// parabola and a hyperbola.
func TestTiesAndSensibleSpeeds(t *testing.T) {
	for _, c := range []struct {
		name     string
		f        func(float64) float64
		at       float64 // a break-even
		margin   float64
		low      float64
		high     float64
		sensible float64
	}{
		{"line", func(s float64) float64 { return (100 - s) / 50 }, 100, 0.1, 95, 105, 195},
		{"line, wider", func(s float64) float64 { return (100 - s) / 50 }, 100, 1, 50, 150, 150},
		{"parabola, one side", func(s float64) float64 { return (s-50)*(s-150)/1e3 - 0 }, 50, 0.1, 100 - math.Sqrt(2600), 100 - math.Sqrt(2400), 90},
		{"parabola, both sides", func(s float64) float64 { return ((s-100)*(s-100) - 25) / 1e3 }, 95, 0.1, 100 - math.Sqrt(125), 100 + math.Sqrt(125), 90},
		{"hyperbola", func(s float64) float64 { return 1000/s - 10 }, 100, 0.1, 1000 / 10.1, 1000 / 9.9, 1000 / 5.1},
	} {
		f := search(c.f, 20, 200)
		v := f.curve.around(c.at, c.margin)
		if math.Abs(v.Low-c.low) > 1e-9*c.low || math.Abs(v.High-c.high) > 1e-9*c.high || v.OpenLow || v.OpenHigh {
			t.Errorf("%s: a tie from %v to %v, want %v to %v (open %v, %v)", c.name, v.Low, v.High, c.low, c.high, v.OpenLow, v.OpenHigh)
		}
		speed, inside := f.curve.sensible(c.f(f.best), c.margin)
		if math.Abs(speed-c.sensible) > 1e-6*c.sensible || !inside {
			t.Errorf("%s: sensible speed %v (%v), want %v", c.name, speed, inside, c.sensible)
		}
	}
}

// A tie that does not end within the search, or ends with the value, is open.
func TestOpenTies(t *testing.T) {
	f := search(func(s float64) float64 {
		if s > 150 {
			return math.Inf(1)
		}
		return 1e-4 * (100 - s)
	}, 20, 200)
	v := f.curve.around(100, 0.1)
	if v.Low != 20 || !v.OpenLow || math.Abs(v.High-150) > 1e-9 || !v.OpenHigh {
		t.Errorf("a tie from %v to %v, open %v, %v", v.Low, v.High, v.OpenLow, v.OpenHigh)
	}
	if speed, inside := f.curve.sensible(f.curve.f(f.best), 0.1); speed != 20 || inside {
		t.Errorf("sensible speed %v, inside %v", speed, inside)
	}
	if s := (Interval{Low: 20, High: 150, OpenHigh: true}).String(); s != "1 200 to 9 000 or more" {
		t.Errorf("said as %q", s)
	}
}

// A break-even is ill-determined if its tie is wider than a tenth of its speed.
func TestIllDetermined(t *testing.T) {
	for high, want := range map[float64]bool{103: false, 105: false, 106: true} {
		c := Crossing{Speed: 100, Tie: Interval{Low: 95, High: high}}
		if c.IllDetermined() != want {
			t.Errorf("a tie from 95 to %v round 100: %v", high, !want)
		}
	}
}
