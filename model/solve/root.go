package solve

import "math"

// maxSteps is twice what halving takes to narrow a bracket by 1e-30. Only a root
// beside zero that is sought without a tolerance can need more.
const maxSteps = 200

// Root returns a root of f between a and b, in either order, where f must differ
// in sign. It stops when the bracket is no wider than tolerance, an absolute width
// in x, 0 or more, and what the spacing of doubles adds. f must be finite
// everywhere in the bracket. Method and outcomes are those of RootFrom.
func Root(f func(float64) float64, a, b, tolerance float64) Result {
	fa, fb := f(a), f(b)
	r := RootFrom(f, a, fa, b, fb, tolerance)
	r.Evaluations += 2
	return r
}

// RootFrom is Root where f is known at both ends: fa at a, fb at b.
//
// Chandrupatla's method [1]: inverse quadratic interpolation where the last three
// points say that it is safe, bisection otherwise. A smooth function takes five to
// nine evaluations for twelve digits; the worst of some hundred thousand kinked and
// lopsided ones took twice those of bisection.
//
// A jump from one sign to the other counts as a root. The outcome is NoSignChange
// or NotFinite, without an evaluation, if the ends do not bracket a root, or if
// they, their values or their distance are not finite.
//
// Check: x³ − 2x − 5 between 2 and 3 is zero at 2.0945514815 (Wallis's cubic).
func RootFrom(f func(float64) float64, a, fa, b, fb, tolerance float64) Result {
	r := Result{Low: min(a, b), High: max(a, b)}
	r.X, r.F = nearer(a, fa, b, fb)
	switch {
	case !finite(fa) || !finite(b-a):
		r.X, r.F, r.Outcome = a, fa, NotFinite
		return r
	case !finite(fb):
		r.X, r.F, r.Outcome = b, fb, NotFinite
		return r
	case r.F == 0:
		r.Low, r.High = r.X, r.X
		return r
	case (fa < 0) == (fb < 0):
		r.Outcome = NoSignChange
		return r
	}
	// a is the newest point, b brackets the root with it, c is the point before.
	a, b, fa, fb = b, a, fb, fa
	c, fc := b, fb
	share := 0.5
	r.Outcome = TooManySteps
	for range maxSteps {
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
		r.X, r.F = nearer(a, fa, b, fb)
		narrow := 2*2.3e-16*math.Abs(r.X) + 0.5*tolerance
		width := math.Abs(b - a)
		if fx == 0 || width <= 2*narrow {
			r.Outcome = Converged
			break
		}
		share = 0.5
		if xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb); 1-math.Sqrt(1-xi) < phi && phi < math.Sqrt(xi) {
			share = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		least := narrow / width
		share = min(max(share, least), 1-least)
	}
	r.Low, r.High = min(a, b), max(a, b)
	return r
}

// nearSteps is how many steps RootNear takes before it gives the guesses up.
const nearSteps = 12

// RootNear is Root between low and high where two guesses of the root are at hand: a,
// with f(a) = fa, and b. It takes Newton's steps, with the slope of the parabola through
// the last three looks, and ends where |f| is no more than enough, above 0: it looks at
// no other place, and the root need not be bracketed. If a step leads out of the bracket,
// or there are too many, the guesses were bad and the answer is that of Root, to the
// spacing of doubles. Low and High of a root without a bracket are the root itself.
//
// Check: x³ − 2x − 5 from 2.1 and 2.09 takes four looks for twelve digits.
func RootNear(f func(float64) float64, low, high, a, fa, b, enough float64) Result {
	r := Result{X: a, F: fa}
	step, before := b-a, a
	for r.X > low && r.X < high {
		if math.Abs(r.F) <= enough {
			r.Low, r.High = r.X, r.X
			return r
		}
		x := r.X + step
		if !(x > low && x < high) || r.Evaluations == nearSteps {
			break
		}
		fx := f(x)
		r.Evaluations++
		chord, bend := (fx-r.F)/step, 0.0
		if r.Evaluations > 1 {
			bend = (chord - r.Slope) / (x - before)
		}
		before = r.X
		r.X, r.F, r.Slope = x, fx, chord
		step = -fx / (chord + bend*(x-before))
	}
	root := Root(f, low, high, 0)
	root.Evaluations += r.Evaluations
	return root
}

// nearer returns the end whose value is nearer to zero, a if they are alike.
func nearer(a, fa, b, fb float64) (x, fx float64) {
	if math.Abs(fb) < math.Abs(fa) {
		return b, fb
	}
	return a, fa
}
