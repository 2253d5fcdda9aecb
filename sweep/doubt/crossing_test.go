package doubt

import (
	"math"
	"testing"
)

// bowl is a nominal curve in K over the logarithm of speed: 10 K at the bottom, ln 100.
func bowl(speed float64) float64 {
	x := math.Log(speed / 100)
	return 10 + 4*x*x
}

func bowls() *crossing {
	c := newCrossing(20, 400)
	for i := range c.at {
		c.curve[i] = bowl(c.speed(i))
	}
	return c
}

// Draws whose curves are known in closed form, against a level of 12 K or another.
func TestCrossingsInClosedForm(t *testing.T) {
	inf := math.Inf(1)
	dip := func(at, deep float64) func(float64) float64 { // a dip that nothing nominal foretells
		return func(s float64) float64 { return bowl(s) - deep*math.Exp(-math.Pow(math.Log(s/at)/0.05, 2)) }
	}
	for _, c := range []struct {
		name        string
		over        func(float64) float64
		level, want float64
		full        bool // whether everything must be searched
	}{
		{"the nominal curve", bowl, 12, 100 * math.Exp(-math.Sqrt(0.5)), false},
		{"higher by 1 K", func(s float64) float64 { return bowl(s) + 1 }, 12, 100 * math.Exp(-0.5), false},
		{"higher by a tenth", func(s float64) float64 { return 1.1 * bowl(s) }, 12, 100 * math.Exp(-math.Sqrt((12/1.1-10)/4)), false},
		{"tilted", func(s float64) float64 { return bowl(s) - 2*math.Log(s/100) }, 12, 100 * math.Exp(0.25-math.Sqrt(0.0625+0.5)), false},
		{"far above", func(s float64) float64 { return bowl(s) + 5 }, 12, inf, false},
		{"below from the start", func(s float64) float64 { return bowl(s) - 15 }, 12, -inf, false},
		{"just above the level", func(s float64) float64 { return bowl(s) + 0.02 }, 10, inf, true},
		{"just above, but for a dip beside", func(s float64) float64 { return dip(115, 0.5)(s) + 0.02 }, 10, 0, true},
		{"no value anywhere", func(float64) float64 { return math.NaN() }, 12, math.NaN(), true},
		{"no value below 90, better above", func(s float64) float64 {
			if s < 90 {
				return math.NaN()
			}
			return bowl(s)
		}, 12, -inf, true},
		{"no value below 40, worse there", func(s float64) float64 {
			if s < 40 {
				return math.NaN()
			}
			return bowl(s)
		}, 12, 100 * math.Exp(-math.Sqrt(0.5)), false},
	} {
		search := bowls()
		search.learn(150, c.over(150))
		got := search.find(c.over, c.level)
		want := c.want
		if want == 0 { // by halving, on the side where it falls
			low, high := 80.0, 113.0
			for range 60 {
				if middle := (low + high) / 2; c.over(middle) > c.level {
					low = middle
				} else {
					high = middle
				}
			}
			want = low
		}
		switch {
		case math.IsNaN(want) && math.IsNaN(got) || want == got:
		case !(math.Abs(got/want-1) < 2e-3):
			t.Errorf("%s: %v, want %v", c.name, got, want)
		}
		if (search.searches > 0) != c.full {
			t.Errorf("%s: searched in full %d times", c.name, search.searches)
		}
	}
}

// The upper ends of the same kind of draws, found after the lower ones.
func TestUpperEndsInClosedForm(t *testing.T) {
	inf := math.Inf(1)
	until := func(end float64, f func(float64) float64) func(float64) float64 {
		return func(s float64) float64 {
			if s > end {
				return math.NaN()
			}
			return f(s)
		}
	}
	for _, c := range []struct {
		name        string
		over        func(float64) float64
		level, want float64
		most        int // evaluations, both ends together
		full        bool
	}{
		{"the nominal curve", bowl, 12, 100 * math.Exp(math.Sqrt(0.5)), 3, false},
		{"higher by 1 K", func(s float64) float64 { return bowl(s) + 1 }, 12, 100 * math.Exp(0.5), 3, false},
		{"tilted", func(s float64) float64 { return bowl(s) - 2*math.Log(s/100) }, 12, 100 * math.Exp(0.25+math.Sqrt(0.0625+0.5)), 4, false},
		{"curved otherwise", func(s float64) float64 { x := math.Log(s / 100); return bowl(s) + 3*x*x*x }, 12, 180.2026, 7, false},
		{"better at the highest speed", func(s float64) float64 { return bowl(s) - 8 }, 12, inf, 3, false},
		{"no value from 150 on, better there", until(150, bowl), 12, inf, 200, true},
		{"no value from 300 on, worse there", until(300, bowl), 12, 100 * math.Exp(math.Sqrt(0.5)), 4, false},
		{"a dip between two speeds of the grid", func(s float64) float64 {
			return bowl(s) + 0.02 - 0.5*math.Exp(-math.Pow(math.Log(s/98)/0.01, 2))
		}, 10, 99.7738, 200, true},
		{"a dip that nothing foretells", func(s float64) float64 {
			return bowl(s) + 0.02 - 0.5*math.Exp(-math.Pow(math.Log(s/103)/0.01, 2))
		}, 10, 104.7567, 7, false},
	} {
		search := bowls()
		asked := 0
		over := func(s float64) float64 { asked++; return c.over(s) }
		search.learn(150, c.over(150))
		lower := search.find(over, c.level)
		got := search.findUpper(over, c.level)
		if c.want != got && !(math.Abs(got/c.want-1) < 2e-3) {
			t.Errorf("%s: %v after %v, want %v", c.name, got, lower, c.want)
		}
		if asked > c.most || (search.searches > 0) != c.full {
			t.Errorf("%s: asked %d times, searched in full %d times", c.name, asked, search.searches)
		}
	}
}

// The parts of a correlation's doubt add up, by squares, to the whole that the model
// states, at either end and however large it is.
func TestPartsMakeUpTheWhole(t *testing.T) {
	for _, limit := range []float64{0, 0.05, 0.15, 0.2, 0.3, 0.55, 0.9} {
		for _, inRange := range []float64{filmInRange, fricInRange} {
			level, own, beyond := split(limit, inRange)
			if got := math.Sqrt(level*level + own*own + beyond*beyond); math.Abs(got-limit) > 1e-12 {
				t.Errorf("%v, %v and %v make %v of %v", level, own, beyond, got, limit)
			}
			if level > levelLimit || limit <= inRange && beyond > 1e-8 || limit > inRange && math.Abs(math.Hypot(level, own)-inRange) > 1e-12 {
				t.Errorf("%v is split into %v, %v and %v", limit, level, own, beyond)
			}
		}
	}
}
