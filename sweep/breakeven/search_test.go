package breakeven

import (
	"math"
	"testing"
)

// The searched functions have closed-form roots: a difference like
// c/N + b·N² − d falls and rises again, as coolant over air does.
func TestSearchFindsEveryRoot(t *testing.T) {
	bowl := func(a, b, least float64) func(float64) float64 {
		// zero at a and b, bottom at sqrt(ab) with depth set by least
		return func(s float64) float64 { return least * (s - a) * (s - b) / s }
	}
	nowhere := math.Inf(1)
	for _, c := range []struct {
		name      string
		f         func(float64) float64
		low, high float64
		roots     []float64
		best      float64 // 0: not checked
		ends      int
		betterLow bool
	}{
		{"none, falling", func(s float64) float64 { return 1 + 100/s }, 10, 300, nil, 300, 1, false},
		{"none, interior dip", func(s float64) float64 { return 1 + (s-77)*(s-77)/s }, 10, 300, nil, 77, 0, false},
		{"one", func(s float64) float64 { return 100/s - 2 }, 10, 300, []float64{50}, 300, 1, false},
		{"band", bowl(40, 160, 1), 10, 300, []float64{40, 160}, 80, 0, false},
		{"band narrower than one part in 10 000", bowl(99.995, 100.005, 1), 10, 300, []float64{99.995, 100.005}, 100, 0, false},
		{"band right behind the low end", bowl(10.001, 10.4, 1), 10, 300, []float64{10.001, 10.4}, 0, 0, false},
		{"better from the start, worse later", func(s float64) float64 { return s - 200 }, 10, 300, []float64{200}, 10, -1, true},
		{"always better", func(s float64) float64 { return -1 - s }, 10, 300, nil, 300, 1, true},
		{"bump within the better stretch", func(s float64) float64 { return 0.001 - (s-50)*(s-50)/s }, 10, 300, []float64{49.77689264323313, 50.22410735676687}, 0, 1, true},
		{"no value below 60, better above", func(s float64) float64 {
			if s < 60 {
				return nowhere
			}
			return 70 - s
		}, 10, 300, []float64{70}, 300, 1, false},
		{"root at the first sample", func(s float64) float64 { return 10 - s }, 10, 300, []float64{10}, 300, 1, false},
		{"one speed only", func(s float64) float64 { return s - 20 }, 10, 10, nil, 10, -1, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := search(c.f, c.low, c.high)
			if len(f.crossings) != len(c.roots) {
				t.Fatalf("found roots %v, want %v", f.crossings, c.roots)
			}
			for _, want := range c.roots {
				near := false
				for _, got := range f.crossings {
					near = near || math.Abs(got-want) < 1e-9*want
				}
				if !near {
					t.Errorf("found roots %v, want one at %v", f.crossings, want)
				}
			}
			for i, got := range f.crossings {
				if d := c.f(got); math.Abs(d) > 1e-9 {
					t.Errorf("difference at root %v is %g", got, d)
				}
				if i > 0 && got <= f.crossings[i-1] {
					t.Errorf("roots %v do not rise", f.crossings)
				}
			}
			if c.best != 0 && math.Abs(f.best-c.best) > 1e-4*c.best {
				t.Errorf("best speed %v, want %v", f.best, c.best)
			}
			if c.best != 0 && f.ends != c.ends {
				t.Errorf("ends %d, want %d", f.ends, c.ends)
			}
			if f.betterLow != c.betterLow {
				t.Errorf("better at the low end: %v, want %v", f.betterLow, c.betterLow)
			}
		})
	}
}

// How far a band may hide: the narrower it is, the more it takes to see it. Bands
// of one part in a thousand of their speed, anywhere, must all be found.
func TestNarrowBandsAreFoundEverywhere(t *testing.T) {
	for at := 10.3; at < 290; at *= 1.0137 {
		a, b := at*0.9995, at*1.0005
		f := search(func(s float64) float64 { return (s - a) * (s - b) / s }, 10, 300)
		if len(f.crossings) != 2 {
			t.Errorf("band from %v to %v: found %v", a, b, f.crossings)
		}
	}
}

func TestSearchWithoutAnyValue(t *testing.T) {
	f := search(func(float64) float64 { return math.Inf(1) }, 10, 300)
	if f.any || len(f.crossings) != 0 {
		t.Errorf("got %+v, want nothing found", f)
	}
}
