package sound_test

import (
	"errors"
	"math"
	"testing"

	"finduel/model/quantity"
	"finduel/model/sound"
)

func TestFitFindsWhatTheReadingsWereMadeFrom(t *testing.T) {
	for _, e := range []float64{30, 48.25, 50, 80} {
		var readings []sound.Reading
		for _, v := range []float64{17, 41, 90, 333} {
			readings = append(readings, sound.Reading{Speed: v, Level: sound.AtSpeed(61, 100, v, e)})
		}
		f, err := sound.Fit(readings, 100)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "level", f.Level, 61)
		near(t, "exponent", f.Exponent, e)
		near(t, "scatter", f.Scatter, 0)
		if f.Exponent = e; f.Unusual() {
			t.Errorf("an exponent of %g is unusual", e)
		}
	}
	for _, e := range []float64{29.9, 80.1, math.NaN()} {
		if !(sound.Fitted{Exponent: e}).Unusual() {
			t.Errorf("an exponent of %g is usual", e)
		}
	}
}

// Two levels off the line by ±1, against it by hand: ΣΔ² is 4 with 4 − 2 degrees of
// freedom, and the exponent stays since the errors are symmetric.
func TestFitTellsTheScatter(t *testing.T) {
	f, err := sound.Fit([]sound.Reading{{1, 11}, {10, 59}, {100, 109}, {1000, 161}}, 1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "exponent", f.Exponent, 50)
	near(t, "level", f.Level, 10)
	near(t, "scatter", f.Scatter, math.Sqrt2)
}

func TestFitOfFewReadings(t *testing.T) {
	one, err := sound.Fit([]sound.Reading{{50, 40}}, 100)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "one reading", one.Level, 40+50*math.Log10(2))
	near(t, "its exponent", one.Exponent, sound.FanExponent)
	two, err := sound.Fit([]sound.Reading{{50, 40}, {100, 58}}, 100)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "two readings", two.Level, 58)
	near(t, "their exponent", two.Exponent, 18/math.Log10(2))
	if one.Slowest != 50 || one.Fastest != 50 || two.Slowest != 50 || two.Fastest != 100 {
		t.Errorf("read from %g to %g and from %g to %g rev/s", one.Slowest, one.Fastest, two.Slowest, two.Fastest)
	}
	for speed, beyond := range map[float64]bool{45.4: true, 45.5: false, 70: false, 109.9: false, 110.1: true} {
		if two.Extrapolated(speed) != beyond {
			t.Errorf("%g rev/s lie beyond readings from 50 to 100: %v", speed, !beyond)
		}
	}
	if two.Scatter != 0 || one.Scatter != 0 {
		t.Errorf("scatter %g and %g of readings that have none", one.Scatter, two.Scatter)
	}
}

// Common practice, no source: the readings of a 127 mm three-blade rotor, the last
// one near the end of the meter.
func TestFitOfTheTradesReadings(t *testing.T) {
	f, err := sound.Fit([]sound.Reading{{5000. / 60, 70}, {8000. / 60, 82}, {20000. / 60, 99.5}}, 20000./60)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(f.Exponent-48.3) > 0.05 || math.Abs(f.Level-99.9) > 0.05 || math.Abs(f.Scatter-1.6) > 0.05 {
		t.Errorf("%+v, computed by hand: 48.3, 99.9 and 1.6", f)
	}
	if minutes := sound.PermittedNIOSH(100) / 60; math.Abs(minutes-15) > 1e-9 {
		t.Errorf("100 dB(A) are permitted for %g min, prolonged they harm", minutes)
	}
}

func TestFitRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		what      string
		readings  []sound.Reading
		reference float64
		key       string
	}{
		{"no reading", nil, 1, "reading_sound"},
		{"one speed twice", []sound.Reading{{3, 40}, {3, 41}}, 1, "reading_speed"},
		{"speeds a hair apart", []sound.Reading{{100, 40}, {109, 41}}, 1, "reading_speed"},
		{"no speed", []sound.Reading{{0, 40}, {2, 50}}, 1, "reading_speed"},
		{"negative speed", []sound.Reading{{-1, 40}, {2, 50}}, 1, "reading_speed"},
		{"NaN for a speed", []sound.Reading{{nan, 40}, {2, 50}}, 1, "reading_speed"},
		{"hardly turning", []sound.Reading{{0.009, 40}, {2, 50}}, 1, "reading_speed"},
		{"faster than anything", []sound.Reading{{1, 40}, {10001, 50}}, 1, "reading_speed"},
		{"infinite speed", []sound.Reading{{1, 40}, {inf, 50}}, 1, "reading_speed"},
		{"NaN for a level", []sound.Reading{{1, nan}, {2, 50}}, 1, "reading_sound"},
		{"infinite level", []sound.Reading{{1, 40}, {2, inf}}, 1, "reading_sound"},
		{"no reference", []sound.Reading{{1, 40}, {2, 50}}, 0, "rated_speed"},
		{"NaN for a reference", []sound.Reading{{1, 40}}, nan, "rated_speed"},
	} {
		f, err := sound.Fit(c.readings, c.reference)
		var out *quantity.RangeError
		if !errors.As(err, &out) || out.Key != c.key || f != (sound.Fitted{}) {
			t.Errorf("%s: %+v, %v", c.what, f, err)
		} else if _, ok := quantity.Of(out.Key); !ok {
			t.Errorf("%s: no quantity %s", c.what, out.Key)
		}
	}
	if _, err := sound.Fit([]sound.Reading{{100, 40}, {110, 42}}, 100); err != nil {
		t.Errorf("a tenth apart: %v", err)
	}
}
