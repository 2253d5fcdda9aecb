package solve_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"finduel/model/solve"
)

// watch counts the evaluations of f and keeps the outermost abscissae.
type watch struct {
	f         func(float64) float64
	calls     int
	low, high float64
}

func watching(f func(float64) float64) *watch {
	return &watch{f: f, low: math.Inf(1), high: math.Inf(-1)}
}

func (w *watch) at(x float64) float64 {
	w.calls++
	w.low, w.high = math.Min(w.low, x), math.Max(w.high, x)
	return w.f(x)
}

func TestRootFindsKnownRoots(t *testing.T) {
	for _, p := range roots {
		t.Run(p.name, func(t *testing.T) {
			tolerance := 1e-12 * (p.b - p.a)
			w := watching(p.f)
			r := solve.Root(w.at, p.a, p.b, tolerance)
			if r.Outcome != solve.Converged {
				t.Fatalf("outcome %v", r.Outcome)
			}
			checkRoot(t, p, r, tolerance)
			if r.Evaluations != w.calls {
				t.Errorf("reported %d evaluations of %d", r.Evaluations, w.calls)
			}
			if r.Evaluations > p.limit {
				t.Errorf("%d evaluations, at most %d are allowed", r.Evaluations, p.limit)
			}
			if w.low < p.a || w.high > p.b {
				t.Errorf("looked from %g to %g, outside the bracket", w.low, w.high)
			}

			if from := solve.RootFrom(p.f, p.a, p.f(p.a), p.b, p.f(p.b), tolerance); from.Evaluations != r.Evaluations-2 || from.X != r.X {
				t.Errorf("from known ends %+v, else %+v", from, r)
			}
			turned := solve.Root(p.f, p.b, p.a, tolerance)
			checkRoot(t, p, turned, tolerance)
			upside := solve.Root(func(x float64) float64 { return -p.f(x) }, p.a, p.b, tolerance)
			if upside.X != r.X {
				t.Errorf("the root of -f is %g, of f %g", upside.X, r.X)
			}
		})
	}
}

// checkRoot checks what must hold of any root found.
func checkRoot(t *testing.T, p problem, r solve.Result, tolerance float64) {
	t.Helper()
	spacing := 4 * 2.3e-16 * math.Abs(r.X)
	if off := math.Abs(r.X - p.answer); !(off <= tolerance+spacing) {
		t.Errorf("root at %.17g, known to be %.17g: off by %.3g, allowed %.3g", r.X, p.answer, off, tolerance)
	}
	if r.F != p.f(r.X) {
		t.Errorf("says f is %g at the root, it is %g", r.F, p.f(r.X))
	}
	if !(r.Low <= r.X && r.X <= r.High) {
		t.Errorf("root %g outside its bracket %g to %g", r.X, r.Low, r.High)
	}
	if r.F == 0 {
		return
	}
	if r.High-r.Low > tolerance+spacing {
		t.Errorf("bracket %g wide, asked for %g", r.High-r.Low, tolerance)
	}
	if (p.f(r.Low) < 0) == (p.f(r.High) < 0) {
		t.Errorf("no change of sign from %g to %g", r.Low, r.High)
	}
}

// From two guesses near by, a simple root is found to the last digits in few looks, and
// nothing far away is looked at.
func TestRootNearFindsKnownRoots(t *testing.T) {
	for _, p := range roots {
		if p.limit != smooth {
			continue
		}
		t.Run(p.name, func(t *testing.T) {
			h := 1e-6 * (p.b - p.a)
			slope := (p.f(p.answer+h) - p.f(p.answer-h)) / (2 * h)
			tolerance := 1e-12 * (p.b - p.a)
			for _, off := range []float64{0.01, -0.01, 1e-4, 1e-9} {
				a := p.answer + off*(p.b-p.answer)
				b := p.answer - off/2*(p.answer-p.a)
				w := watching(p.f)
				enough := tolerance * math.Abs(slope)
				r := solve.RootNear(w.at, p.a, p.b, a, p.f(a), b, enough)
				if d := math.Abs(r.X - p.answer); r.Outcome != solve.Converged || d > 1.1*tolerance+1e-15*math.Abs(p.answer) || math.Abs(r.F) > enough {
					t.Fatalf("from %g off: %+v, known to be %.17g", off, r, p.answer)
				}
				if r.F != p.f(r.X) || r.Evaluations != w.calls || r.Low != r.X || r.High != r.X {
					t.Errorf("from %g off: %+v after %d calls, f is %g", off, r, w.calls, p.f(r.X))
				}
				if r.Evaluations > 5 || w.calls > 0 && math.Max(w.high-p.answer, p.answer-w.low) > 2*math.Max(math.Abs(a-p.answer), math.Abs(b-p.answer)) {
					t.Errorf("from %g off: %d looks, from %g to %g", off, r.Evaluations, w.low, w.high)
				}
				if math.Abs(r.Slope-slope) > 0.01*math.Abs(slope) {
					t.Errorf("from %g off: slope %g, is %g", off, r.Slope, slope)
				}
				if again := solve.RootNear(p.f, p.a, p.b, r.X, r.F, b, enough); again.X != r.X || again.Evaluations != 0 || again.Slope != 0 {
					t.Errorf("from the root itself %+v", again)
				}
			}
		})
	}
	wallis := func(x float64) float64 { return x*x*x - 2*x - 5 }
	if r := solve.RootNear(wallis, 2, 3, 2.1, wallis(2.1), 2.09, 1e-12); r.Evaluations != 4 || math.Abs(r.X-2.0945514815423265) > 1e-12 {
		t.Errorf("%+v", r)
	}
}

// However bad the guesses, within the bracket or beyond, what is found is a root: of as
// small a value as was asked for, or that of Root.
func TestRootNearWithBadGuessesIsRoot(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for _, p := range roots {
		enough := 1e-12 * math.Max(math.Abs(p.f(p.a)), math.Abs(p.f(p.b)))
		for range 300 {
			a := p.a + (1.2*random.Float64()-0.1)*(p.b-p.a)
			b := p.a + (3*random.Float64()-1)*(p.b-p.a)
			if random.IntN(4) == 0 {
				b = a + 1e-14*(p.b-p.a)
			}
			r := solve.RootNear(p.f, p.a, p.b, a, p.f(a), b, enough)
			if r.X < p.a || r.X > p.b || r.F != p.f(r.X) || r.Outcome == solve.NoSignChange || r.Outcome == solve.NotFinite {
				t.Fatalf("%s, from %g and %g: %+v", p.name, a, b, r)
			}
			if off := math.Abs(r.X - p.answer); math.Abs(r.F) > enough && off > 1e-15*math.Max(math.Abs(p.answer), p.b-p.a) {
				t.Errorf("%s, from %g and %g: %+v, known to be %.17g", p.name, a, b, r, p.answer)
			}
		}
	}
	nan := math.NaN()
	line := func(x float64) float64 { return x - 0.3 }
	for _, c := range []struct {
		name     string
		f        func(float64) float64
		a, fa, b float64
		low      float64
		want     solve.Outcome
	}{
		{"no root", line, 0.5, 0.2, 0.45, 0.4, solve.NoSignChange},
		{"a root outside", line, 0.3, 0, 0.35, 0.4, solve.NoSignChange},
		{"NaN at the guess", line, nan, nan, nan, 0, solve.Converged},
		{"NaN for the second guess", line, 0.5, 0.2, nan, 0, solve.Converged},
		{"a value of NaN and no step", line, 0.5, nan, 0.5, 0, solve.Converged},
		{"two guesses that are one", line, 0.5, 0.2, 0.5, 0, solve.Converged},
		{"NaN everywhere", func(float64) float64 { return nan }, 0.5, 1, 0.4, 0, solve.NotFinite},
	} {
		if r := solve.RootNear(c.f, c.low, 1, c.a, c.fa, c.b, 1e-9); r.Outcome != c.want || c.want == solve.Converged && math.Abs(r.X-0.3) > 1e-9 {
			t.Errorf("%s: %+v, want %v", c.name, r, c.want)
		}
	}
}

// A function that underflows to zero around its root: any place there is a root.
func TestRootOnAPlateauOfZeros(t *testing.T) {
	f := func(x float64) float64 {
		if math.Abs(x) < 0.038 {
			return 0
		}
		return x * math.Exp(-1/(x*x))
	}
	r := solve.Root(f, -1, 4, 1e-12)
	if r.Outcome != solve.Converged || r.F != 0 || math.Abs(r.X) > 0.04 || r.Evaluations > 12 {
		t.Errorf("got %+v", r)
	}
}

func TestRootWithoutToleranceEndsAtTheSpacingOfDoubles(t *testing.T) {
	r := solve.Root(func(x float64) float64 { return math.Exp(x) - 20 }, 0, 10, 0)
	if want := math.Log(20); r.Outcome != solve.Converged || math.Abs(r.X-want) > 2e-15 {
		t.Errorf("got %+v, want %.17g", r, want)
	}
}

func TestRootSaysWhyItFailed(t *testing.T) {
	line := func(x float64) float64 { return x - 0.3 }
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name        string
		f           func(float64) float64
		a, b        float64
		want        solve.Outcome
		x, value    float64
		evaluations int
	}{
		{"both above", line, 1, 2, solve.NoSignChange, 1, 0.7, 2},
		{"both below", line, -2, -1, solve.NoSignChange, -1, -1.3, 2},
		{"NaN at the low end", math.Sqrt, -1, 1, solve.NotFinite, -1, nan, 2},
		{"NaN at the high end", func(x float64) float64 { return math.Sqrt(1-x) - 0.5 }, 0, 2, solve.NotFinite, 2, nan, 2},
		{"infinite at an end", func(x float64) float64 { return math.Log(x) }, 0, 2, solve.NotFinite, 0, -inf, 2},
		{"NaN within", func(x float64) float64 {
			if x == 0.5 {
				return nan
			}
			return x - 0.3
		}, 0, 1, solve.NotFinite, 0.5, nan, 3},
		{"infinite within", func(x float64) float64 { return 1 / (x - 0.5) }, 0, 1, solve.NotFinite, 0.5, inf, 3},
		{"infinite bracket", math.Atan, math.Inf(-1), inf, solve.NotFinite, math.Inf(-1), -math.Pi / 2, 2},
		{"width beyond doubles", math.Atan, -1e308, 1e308, solve.NotFinite, -1e308, -math.Pi / 2, 2},
		{"bracket of NaN", func(float64) float64 { return -1 }, nan, 1, solve.NotFinite, nan, -1, 2},
	} {
		r := solve.Root(c.f, c.a, c.b, 1e-9)
		if r.Outcome != c.want || !same(r.X, c.x) || !same(r.F, c.value) || r.Evaluations != c.evaluations {
			t.Errorf("%s: %v, f(%g) = %g after %d evaluations; want %v, f(%g) = %g after %d",
				c.name, r.Outcome, r.X, r.F, r.Evaluations, c.want, c.x, c.value, c.evaluations)
		}
	}
	beside := solve.Root(func(x float64) float64 { return math.Copysign(1, x-1e-300) }, -1, 1, 0)
	if beside.Outcome != solve.TooManySteps || !(beside.Low < 1e-300 && 1e-300 <= beside.High) || beside.High > 1e-12 {
		t.Errorf("a jump beside zero, no tolerance: %+v", beside)
	}
}

// same compares numbers, NaN being the same as NaN.
func same(a, b float64) bool {
	return a == b || math.Abs(a-b) < 1e-15 || math.IsNaN(a) && math.IsNaN(b)
}

// Kinked powers are about the worst that a bracket can hold: nearly flat on one
// side of the root, nearly vertical on the other.
func TestRootIsNeverMuchWorseThanHalving(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	spread := func(decades float64) float64 { return math.Pow(10, decades*(random.Float64()-0.5)) }
	worst := 0
	for range 20000 {
		at, left, right, scale := random.Float64(), spread(3.5), spread(3.5), spread(12)
		f := func(x float64) float64 {
			if x < at {
				return -math.Pow(at-x, left)
			}
			return scale * math.Pow(x-at, right)
		}
		r := solve.Root(f, 0, 1, 1e-12)
		if r.Outcome != solve.Converged || f(r.Low) > 0 || f(r.High) < 0 {
			t.Fatalf("root %g, powers %g and %g, scale %g: %+v", at, left, right, scale, r)
		}
		worst = max(worst, r.Evaluations)
	}
	if worst < halving || worst > 2*halving+10 {
		t.Errorf("the worst took %d evaluations, halving takes %d", worst, halving)
	}
}

func TestSearchesDoNotAllocate(t *testing.T) {
	target, sum := 2.0, 0.0
	if n := testing.AllocsPerRun(50, func() {
		target += 0.01
		sum += solve.Root(func(x float64) float64 { return x*x - target }, 0, 3, 1e-9).X
	}); n != 0 {
		t.Errorf("Root allocates %g times", n)
	}
	if n := testing.AllocsPerRun(50, func() {
		target += 0.01
		f := func(x float64) float64 { return x*x - target }
		sum += solve.RootNear(f, 0, 3, 1.5, f(1.5), 1.4, 1e-9).X
	}); n != 0 {
		t.Errorf("RootNear allocates %g times", n)
	}
	if n := testing.AllocsPerRun(50, func() {
		target += 0.01
		sum += solve.Minimum(func(x float64) float64 { return math.Abs(x*x - target) }, 0, 3, 1e-9).X
	}); n != 0 {
		t.Errorf("Minimum allocates %g times", n)
	}
	if !(sum > 0) {
		t.Errorf("nothing was searched: %g", sum)
	}
}

func TestOutcomesReadDifferently(t *testing.T) {
	seen := map[string]bool{}
	for o := solve.Converged; o <= solve.NotFinite+1; o++ {
		if o.String() == "" || seen[o.String()] {
			t.Errorf("outcome %d reads %q", int(o), o)
		}
		seen[o.String()] = true
	}
	if solve.Converged.String() != "converged" || solve.Outcome(-1).String() != "unknown outcome" {
		t.Errorf("converged reads %q, -1 reads %q", solve.Converged, solve.Outcome(-1))
	}
}

func BenchmarkRoot(b *testing.B) {
	for _, p := range roots {
		b.Run(p.name, func(b *testing.B) {
			b.ReportAllocs()
			var r solve.Result
			for b.Loop() {
				r = solve.Root(p.f, p.a, p.b, 1e-12*(p.b-p.a))
			}
			b.ReportMetric(float64(r.Evaluations), "evaluations/op")
		})
	}
}
