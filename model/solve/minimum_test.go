package solve_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"finduel/model/solve"
)

func TestMinimumFindsKnownMinima(t *testing.T) {
	for _, p := range minima {
		t.Run(p.name, func(t *testing.T) {
			tolerance := 1e-6 * (p.b - p.a)
			w := watching(p.f)
			r := solve.Minimum(w.at, p.a, p.b, tolerance)
			if r.Outcome != solve.Converged {
				t.Fatalf("outcome %v", r.Outcome)
			}
			if off := math.Abs(r.X - p.answer); !(off <= tolerance+3e-8*math.Abs(p.answer)) {
				t.Errorf("minimum at %.10g, known to be %.10g: off by %.3g, allowed %.3g", r.X, p.answer, off, tolerance)
			}
			if r.F != p.f(r.X) {
				t.Errorf("says f is %g at the minimum, it is %g", r.F, p.f(r.X))
			}
			if !(p.a <= r.Low && r.Low <= r.X && r.X <= r.High && r.High <= p.b) {
				t.Errorf("minimum %g, bracket %g to %g within %g to %g", r.X, r.Low, r.High, p.a, p.b)
			}
			if r.Evaluations != w.calls || r.Evaluations > p.limit {
				t.Errorf("reported %d evaluations of %d, at most %d are allowed", r.Evaluations, w.calls, p.limit)
			}
			if w.low <= p.a || w.high >= p.b {
				t.Errorf("looked from %g to %g, not within the bracket", w.low, w.high)
			}
			if turned := solve.Minimum(p.f, p.b, p.a, tolerance); turned != r {
				t.Errorf("with the bracket turned round %+v, else %+v", turned, r)
			}
		})
	}
}

// However narrow the bracket, nothing outside it is asked for.
func TestMinimumStaysInNarrowBrackets(t *testing.T) {
	for width := 1e-16; width < 1e-3; width *= 1.7 {
		w := watching(func(x float64) float64 { return -x })
		r := solve.Minimum(w.at, 1, 1+width, 1e-9)
		if r.Outcome != solve.Converged || w.low < 1 || w.high > 1+width {
			t.Fatalf("width %g: looked from %.17g to %.17g, %+v", width, w.low, w.high, r)
		}
	}
}

// Waves send parabolas to maxima, far outside the bracket and across it. What is
// found need not be the lowest trough, but must be as low as its surroundings.
func TestMinimumOfManyWaves(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	worst := 0
	for range 20000 {
		a, b, c, d := random.Float64(), 30*random.Float64(), random.Float64(), 9*random.Float64()
		w := watching(func(x float64) float64 { return a*math.Cos(b*x) + c*math.Sin(d*x) })
		r := solve.Minimum(w.at, 0, 1, 1e-6)
		if r.Outcome != solve.Converged || w.low <= 0 || w.high >= 1 {
			t.Fatalf("looked from %g to %g, %+v", w.low, w.high, r)
		}
		for _, step := range []float64{-1e-4, 1e-4} {
			if x := r.X + step; x > 0 && x < 1 && w.f(x) < r.F {
				t.Fatalf("f is %g at %g, but %g at the minimum %g", w.f(x), x, r.F, r.X)
			}
		}
		worst = max(worst, r.Evaluations)
	}
	if worst > 45 {
		t.Errorf("the worst took %d evaluations", worst)
	}
}

// Function values cannot tell a minimum finer than the root of the spacing of
// doubles; asked for more, the search must stop there.
func TestMinimumStopsWhereDoublesCannotTell(t *testing.T) {
	r := solve.Minimum(func(x float64) float64 { return math.Cosh(x-3) + x*1e-9 }, 0, 10, 1e-300)
	if r.Outcome != solve.Converged || math.Abs(r.X-3) > 2e-7 || r.Evaluations > 60 {
		t.Errorf("got %+v", r)
	}
}

func TestMinimumOfAConstant(t *testing.T) {
	r := solve.Minimum(func(float64) float64 { return 7 }, 2, 3, 1e-6)
	if r.Outcome != solve.Converged || r.F != 7 || r.X <= 2 || r.X >= 3 || r.Evaluations > 60 {
		t.Errorf("got %+v", r)
	}
}

func TestMinimumSaysWhyItFailed(t *testing.T) {
	nan := math.NaN()
	from := func(limit, value float64) func(float64) float64 {
		return func(x float64) float64 {
			if x < limit {
				return value
			}
			return x
		}
	}
	for _, c := range []struct {
		name  string
		f     func(float64) float64
		a, b  float64
		looks bool // whether f is looked at
	}{
		{"NaN at the first look", func(float64) float64 { return nan }, 0, 1, true},
		{"NaN later", from(0.3, nan), 0, 1, true},
		{"infinite depth", from(0.3, math.Inf(-1)), 0, 1, true},
		{"infinite height", from(0.3, math.Inf(1)), 0, 1, true},
		{"infinite bracket", math.Abs, math.Inf(-1), 1, false},
		{"width beyond doubles", math.Abs, -1e308, 1e308, false},
		{"bracket of NaN", math.Abs, 0, nan, false},
	} {
		w := watching(c.f)
		r := solve.Minimum(w.at, c.a, c.b, 1e-6)
		if r.Outcome != solve.NotFinite || r.F-r.F == 0 || r.Evaluations != w.calls || (w.calls > 0) != c.looks {
			t.Errorf("%s: %+v after %d calls", c.name, r, w.calls)
		}
	}
	if r := solve.Minimum(math.Abs, -1, 2, 0); r.Outcome != solve.TooManySteps || math.Abs(r.X) > 1e-12 {
		t.Errorf("a kink at zero, no tolerance: %+v", r)
	}
}

func BenchmarkMinimum(b *testing.B) {
	for _, p := range minima {
		b.Run(p.name, func(b *testing.B) {
			b.ReportAllocs()
			var r solve.Result
			for b.Loop() {
				r = solve.Minimum(p.f, p.a, p.b, 1e-6*(p.b-p.a))
			}
			b.ReportMetric(float64(r.Evaluations), "evaluations/op")
		})
	}
}
