package thermometer_test

import (
	"math"
	"testing"

	"finduel/model/thermometer"
	"finduel/testdata/published"
)

func TestPublishedValues(t *testing.T) {
	published.Run(t, "sensors", map[string]func(t *testing.T, r published.Row) float64{
		"limit": func(t *testing.T, r published.Row) float64 {
			limit, ok := thermometer.Thermometer(r.Arg(t, "sensor")).Limit(r.Arg(t, "t_C") + 273.15)
			if !ok {
				t.Fatal("outside its range")
			}
			return limit
		},
	})
}

func TestLimitsOfAllThermometers(t *testing.T) {
	words := map[string]bool{}
	for _, s := range thermometer.All() {
		if words[s.String()] || s.String() == "" {
			t.Errorf("two thermometers are called %q", s)
		}
		words[s.String()] = true
		low, high := s.Range()
		last, _ := s.Limit(273.15)
		for k := 273.15; k <= high; k++ {
			v, ok := s.Limit(k)
			if !ok || v < last || !(v > 0.05 && v < 20) {
				t.Fatalf("%s at %g K: %g K, %v, after %g K", s, k, v, ok, last)
			}
			last = v
			if below, ok := s.Limit(2*273.15 - k); ok && math.Abs(below-v) > 1e-12 {
				t.Errorf("%s: %g K as far below freezing as %g K above", s, below, v)
			}
		}
		if _, ok := s.Limit(low); !ok || low > 274 {
			t.Errorf("%s has no limit where its range begins, at %g K", s, low)
		}
		for _, k := range []float64{low - 1e-6, high + 1e-6, math.NaN()} {
			if v, ok := s.Limit(k); ok || v != 0 {
				t.Errorf("%s has a limit of %g K at %g K, outside its range", s, v, k)
			}
		}
	}
}
