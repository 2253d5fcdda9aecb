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
		better    bool
	}{
		{"none, falling", func(s float64) float64 { return 1 + 100/s }, 10, 300, nil, 300, 1, false},
		{"none, interior dip", func(s float64) float64 { return 1 + (s-77)*(s-77)/s }, 10, 300, nil, 77, 0, false},
		{"one", func(s float64) float64 { return 100/s - 2 }, 10, 300, []float64{50}, 300, 1, true},
		{"band", bowl(40, 160, 1), 10, 300, []float64{40, 160}, 80, 0, true},
		{"band narrower than one part in 10 000", bowl(99.995, 100.005, 1), 10, 300, []float64{99.995, 100.005}, 100, 0, true},
		{"band right behind the low end", bowl(10.001, 10.4, 1), 10, 300, []float64{10.001, 10.4}, 0, 0, true},
		{"better from the start, worse later", func(s float64) float64 { return s - 200 }, 10, 300, []float64{200}, 10, -1, true},
		{"always better", func(s float64) float64 { return -1 - s }, 10, 300, nil, 300, 1, true},
		{"bump within the better stretch", func(s float64) float64 { return 0.001 - (s-50)*(s-50)/s }, 10, 300, []float64{49.77689264323313, 50.22410735676687}, 0, 1, true},
		{"no value below 60, better above", func(s float64) float64 {
			if s < 60 {
				return nowhere
			}
			return 70 - s
		}, 10, 300, []float64{70}, 300, 1, true},
		{"root at the first sample", func(s float64) float64 { return 10 - s }, 10, 300, []float64{10}, 300, 1, true},
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
					near = near || math.Abs(got.speed-want) < 1e-9*want
				}
				if !near {
					t.Errorf("found roots %v, want one at %v", f.crossings, want)
				}
			}
			for i, got := range f.crossings {
				if d := c.f(got.speed); math.Abs(d) > 1e-9 {
					t.Errorf("difference at root %v is %g", got, d)
				}
				if i > 0 && (got.speed <= f.crossings[i-1].speed || got.falling == f.crossings[i-1].falling) {
					t.Errorf("roots %v do not rise or do not take turns", f.crossings)
				}
				if before := c.f(got.speed * (1 - 1e-7)); got.speed > c.low && (before > 0) != got.falling {
					t.Errorf("root %v: before it the difference is %v", got, before)
				}
			}
			if c.best != 0 && math.Abs(f.best-c.best) > 1e-4*c.best {
				t.Errorf("best speed %v, want %v", f.best, c.best)
			}
			if c.best != 0 && f.ends != c.ends {
				t.Errorf("ends %d, want %d", f.ends, c.ends)
			}
			if f.better != c.better {
				t.Errorf("better anywhere: %v, want %v", f.better, c.better)
			}
			if len(f.edges) > 0 {
				t.Errorf("edges %v", f.edges)
			}
		})
	}
}

// Bands of one part in a thousand of their speed, on a bowl, anywhere.
func TestNarrowBandsAreFoundEverywhere(t *testing.T) {
	for at := 10.3; at < 290; at *= 1.0137 {
		a, b := at*0.9995, at*1.0005
		f := search(func(s float64) float64 { return (s - a) * (s - b) / s }, 10, 300)
		if len(f.crossings) != 2 {
			t.Errorf("band from %v to %v: found %v", a, b, f.crossings)
		}
	}
}

// A band that is a local dent, narrower than 1 % of the range, in a curve that shows
// nothing of it further away: on flat, falling, rising and bowl-shaped ground, at
// many places, as a band of better speeds and as one of worse.
func TestDentsAreFoundEverywhere(t *testing.T) {
	const low, high = 25., 333.
	grounds := map[string]func(s float64) float64{
		"flat":    func(float64) float64 { return 1 },
		"falling": func(s float64) float64 { return 0.8 + 100/s },
		"rising":  func(s float64) float64 { return 0.8 + s/100 },
		"bowl":    func(s float64) float64 { return 1 + 30/s + s*s/2e5 },
	}
	for name, ground := range grounds {
		for _, share := range []float64{0.009, 0.006, 0.004} {
			width := share * (high - low)
			sigma := width / 2 / math.Sqrt(2*math.Ln2) // zeros where the dent is half as deep
			for k := range 397 {
				at := low + 3*width + (high-low-6*width)*float64(k)/396
				for _, sign := range []float64{1, -1} {
					f := search(func(s float64) float64 {
						return sign * (ground(s) - 2*ground(at)*math.Exp(-(s-at)*(s-at)/(2*sigma*sigma)))
					}, low, high)
					if len(f.crossings) != 2 {
						t.Fatalf("%s ground, sign %v: a dent %v wide at %v: found %v", name, sign, width, at, f.crossings)
					}
					if got := f.crossings[1].speed - f.crossings[0].speed; math.Abs(got/width-1) > 0.2 {
						t.Errorf("%s ground: a dent %v wide at %v is found %v wide", name, width, at, got)
					}
					if f.crossings[0].falling != (sign > 0) || f.better != true {
						t.Errorf("%s ground, sign %v: %+v", name, sign, f.crossings)
					}
					if f.curve.asked > 800 {
						t.Errorf("%s ground: %d evaluations", name, f.curve.asked)
					}
				}
			}
		}
	}
}

// Three roots inside one step of the first look.
func TestThreeRootsInOneStep(t *testing.T) {
	for k := range 300 {
		at := 20 + 250*float64(k)/300
		f := search(func(s float64) float64 { x := s - at; return x * (x*x - 0.5) / (1 + x*x*x*x) }, 10, 310)
		if len(f.crossings) != 3 {
			t.Fatalf("round %v: found %v", at, f.crossings)
		}
		for i, want := range []float64{at - math.Sqrt(0.5), at, at + math.Sqrt(0.5)} {
			if math.Abs(f.crossings[i].speed-want) > 1e-9*want {
				t.Errorf("root %v, want %v", f.crossings[i].speed, want)
			}
		}
	}
}

// A smooth curve costs little more than the first look; a rough one is given up.
func TestWhatASearchCosts(t *testing.T) {
	smooth := search(func(s float64) float64 { return 600/s + s*s/1e4 - 9 }, 25, 333)
	if len(smooth.crossings) != 2 || smooth.curve.asked > steps+60 || smooth.curve.cut {
		t.Errorf("a smooth curve: %d evaluations, crossings %v", smooth.curve.asked, smooth.crossings)
	}
	rough := search(func(s float64) float64 { return 1.1 + math.Sin(1e7*s) }, 25, 333)
	if !rough.curve.cut || rough.curve.asked > 20*most {
		t.Errorf("a rough curve: %d evaluations, given up: %v", rough.curve.asked, rough.curve.cut)
	}
}

// Where a better challenger ceases to have a value there is an edge, not a root.
func TestEdgesAreNoRoots(t *testing.T) {
	f := search(func(s float64) float64 {
		if s > 80 {
			return math.Inf(1)
		}
		return 50 - s
	}, 10, 300)
	if len(f.crossings) != 1 || math.Abs(f.crossings[0].speed-50) > 1e-9 || !f.crossings[0].falling {
		t.Errorf("roots %v, want 50", f.crossings)
	}
	if len(f.edges) != 1 || math.Abs(f.edges[0]-80) > 1e-9 {
		t.Errorf("edges %v, want 80", f.edges)
	}
	if math.Abs(f.best-80) > 1e-5 {
		t.Errorf("best at %v, want 80", f.best)
	}
}

// A difference that only touches zero from above is no break-even.
func TestATouchIsNoCrossing(t *testing.T) {
	f := search(func(s float64) float64 { return (s - 10) * (s - 10) }, 10, 300)
	if len(f.crossings) != 0 || f.better {
		t.Errorf("found %+v", f)
	}
}

func TestSearchWithoutAnyValue(t *testing.T) {
	f := search(func(float64) float64 { return math.Inf(1) }, 10, 300)
	if f.any || len(f.crossings) != 0 {
		t.Errorf("got %+v, want nothing found", f)
	}
}
