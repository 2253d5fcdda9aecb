package solve

import "math"

// maxSteps is far beyond what halving needs for any bracket of doubles.
const maxSteps = 200

// Root returns a root of f between a and b, where f must differ in sign. It stops
// when the bracket is narrower than tolerance, an absolute width in x, or than
// the spacing of doubles allows. f must be defined everywhere in the bracket.
func Root(f func(float64) float64, a, b, tolerance float64) Result {
	fa, fb := f(a), f(b)
	r := RootFrom(f, a, fa, b, fb, tolerance)
	r.Evaluations += 2
	return r
}

// RootFrom is Root where f is known at both ends: fa at a, fb at b.
//
// Chandrupatla's method [1]: inverse quadratic interpolation where the last three
// points say that it is safe, bisection otherwise. A smooth function takes six to
// nine evaluations, the worst one about three times those of bisection.
func RootFrom(f func(float64) float64, a, fa, b, fb, tolerance float64) Result {
	switch {
	case !finite(fa) || !finite(fb):
		return Result{X: a, F: fa, Low: math.Min(a, b), High: math.Max(a, b), Outcome: NotFinite}
	case fa == 0:
		return Result{X: a, Low: a, High: a}
	case fb == 0:
		return Result{X: b, Low: b, High: b}
	case (fa < 0) == (fb < 0):
		return Result{X: a, F: fa, Low: math.Min(a, b), High: math.Max(a, b), Outcome: NoSignChange}
	}
	// a is the newest point, b brackets the root with it, c is the point before.
	a, b, fa, fb = b, a, fb, fa
	c, fc := b, fb
	share := 0.5
	best := func() (x, fx float64) {
		if math.Abs(fa) < math.Abs(fb) {
			return a, fa
		}
		return b, fb
	}
	r := Result{Outcome: TooManySteps}
	for step := 0; step < maxSteps; step++ {
		x := a + share*(b-a)
		fx := f(x)
		r.Evaluations++
		if !finite(fx) {
			r.X, r.F, r.Outcome = x, fx, NotFinite
			break
		}
		if (fx < 0) == (fa < 0) {
			c, fc = a, fa
		} else {
			c, fc, b, fb = b, fb, a, fa
		}
		a, fa = x, fx
		r.X, r.F = best()
		narrow := 2*2.3e-16*math.Abs(r.X) + 0.5*tolerance
		width := math.Abs(b - a)
		if fx == 0 || width <= 2*narrow {
			if fx == 0 {
				r.X, r.F = x, 0
			}
			r.Outcome = Converged
			break
		}
		share = 0.5
		if xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb); 1-math.Sqrt(1-xi) < phi && phi < math.Sqrt(xi) {
			share = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		least := narrow / width
		share = math.Min(math.Max(share, least), 1-least)
	}
	r.Low, r.High = math.Min(a, b), math.Max(a, b)
	return r
}
