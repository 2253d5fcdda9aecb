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
		speeds := []float64{17, 41, 90, 333}
		levels := make([]float64, len(speeds))
		for i, v := range speeds {
			levels[i] = sound.AtSpeed(61, 100, v, e)
		}
		f, err := sound.Fit(speeds, levels, 100)
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
	f, err := sound.Fit([]float64{1, 10, 100, 1000}, []float64{11, 59, 109, 161}, 1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "exponent", f.Exponent, 50)
	near(t, "level", f.Level, 10)
	near(t, "scatter", f.Scatter, math.Sqrt2)
}

func TestFitOfFewReadings(t *testing.T) {
	one, err := sound.Fit([]float64{50}, []float64{40}, 100)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "one reading", one.Level, 40+50*math.Log10(2))
	near(t, "its exponent", one.Exponent, sound.FanExponent)
	two, err := sound.Fit([]float64{50, 100}, []float64{40, 58}, 100)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "two readings", two.Level, 58)
	near(t, "their exponent", two.Exponent, 18/math.Log10(2))
	if two.Scatter != 0 || one.Scatter != 0 {
		t.Errorf("scatter %g and %g of readings that have none", one.Scatter, two.Scatter)
	}
}

// Common practice, no source: the readings of a 127 mm three-blade rotor, the last
// one near the end of the meter.
func TestFitOfTheTradesReadings(t *testing.T) {
	f, err := sound.Fit([]float64{5000. / 60, 8000. / 60, 20000. / 60}, []float64{70, 82, 99.5}, 20000./60)
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
		what           string
		speeds, levels []float64
		reference      float64
		key            string
	}{
		{"no reading", nil, nil, 1, "reading_sound"},
		{"fewer levels than speeds", []float64{1, 2}, []float64{40}, 1, "reading_sound"},
		{"one speed twice", []float64{3, 3}, []float64{40, 41}, 1, "reading_speed"},
		{"speeds a hair apart", []float64{100, 109}, []float64{40, 41}, 1, "reading_speed"},
		{"no speed", []float64{0, 2}, []float64{40, 50}, 1, "reading_speed"},
		{"negative speed", []float64{-1, 2}, []float64{40, 50}, 1, "reading_speed"},
		{"NaN for a speed", []float64{nan, 2}, []float64{40, 50}, 1, "reading_speed"},
		{"infinite speed", []float64{1, inf}, []float64{40, 50}, 1, "reading_speed"},
		{"NaN for a level", []float64{1, 2}, []float64{nan, 50}, 1, "reading_sound"},
		{"infinite level", []float64{1, 2}, []float64{40, inf}, 1, "reading_sound"},
		{"no reference", []float64{1, 2}, []float64{40, 50}, 0, "rated_speed"},
		{"NaN for a reference", []float64{1}, []float64{40}, nan, "rated_speed"},
	} {
		f, err := sound.Fit(c.speeds, c.levels, c.reference)
		var out *quantity.RangeError
		if !errors.As(err, &out) || out.Key != c.key || f != (sound.Fitted{}) {
			t.Errorf("%s: %+v, %v", c.what, f, err)
		} else if _, ok := quantity.Of(out.Key); !ok {
			t.Errorf("%s: no quantity %s", c.what, out.Key)
		}
	}
	if _, err := sound.Fit([]float64{100, 110}, []float64{40, 42}, 100); err != nil {
		t.Errorf("a tenth apart: %v", err)
	}
}
