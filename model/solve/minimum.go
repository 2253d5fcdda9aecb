package solve

import "math"

// goldenStep is the smaller part of the golden section.
const goldenStep = 0.3819660112501051

// Minimum returns a local minimum of f between a and b: the only one if f falls
// and then rises. It stops when the minimum is known to within tolerance, an
// absolute width in x above 0, or to a few parts in 1e-8 of x, which is as near
// as a minimum can be told from function values.
//
// Brent's method [2]: a parabola through the three lowest points where that is
// safe, golden section otherwise. An end of the bracket is approached to within
// the tolerance but not evaluated. The outcome is NotFinite, without an
// evaluation and with F NaN, if an end or the width of the bracket is not finite.
//
// Check: x log x between 0 and 1 is least, −1/e, at 1/e.
func Minimum(f func(float64) float64, a, b, tolerance float64) Result {
	a, b = min(a, b), max(a, b)
	if !finite(b - a) {
		return Result{X: a, F: math.NaN(), Low: a, High: b, Outcome: NotFinite}
	}
	x := a + goldenStep*(b-a)
	w, v := x, x
	fx := f(x)
	fw, fv := fx, fx
	var step, before float64
	r := Result{Evaluations: 1, Outcome: TooManySteps}
	for range maxSteps {
		if !finite(fx) {
			r.Outcome = NotFinite
			break
		}
		middle := (a + b) / 2
		near := 1.5e-8*math.Abs(x) + tolerance/3
		if math.Abs(x-middle) <= 2*near-(b-a)/2 {
			r.Outcome = Converged
			break
		}
		parabola := false
		if math.Abs(before) > near {
			p1, q1 := (x-w)*(fx-fv), (x-v)*(fx-fw)
			p, q := (x-v)*q1-(x-w)*p1, 2*(q1-p1)
			if q > 0 {
				p = -p
			}
			q = math.Abs(q)
			if math.Abs(p) < math.Abs(q*before/2) && p > q*(a-x) && p < q*(b-x) {
				before, step, parabola = step, p/q, true
				if u := x + step; u-a < 2*near || b-u < 2*near {
					step = math.Copysign(near, middle-x)
				}
			}
		}
		if !parabola {
			before = b - x
			if x >= middle {
				before = a - x
			}
			step = goldenStep * before
		}
		u := x + step
		if math.Abs(step) < near {
			u = x + math.Copysign(near, step)
		}
		fu := f(u)
		r.Evaluations++
		if !finite(fu) {
			x, fx = u, fu
			continue
		}
		if fu <= fx {
			if u >= x {
				a = x
			} else {
				b = x
			}
			v, fv, w, fw, x, fx = w, fw, x, fx, u, fu
			continue
		}
		if u < x {
			a = u
		} else {
			b = u
		}
		if fu <= fw || w == x {
			v, fv, w, fw = w, fw, u, fu
		} else if fu <= fv || v == x || v == w {
			v, fv = u, fu
		}
	}
	r.X, r.F, r.Low, r.High = x, fx, a, b
	return r
}
