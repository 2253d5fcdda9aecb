package core

import "math"

// CrossflowEffectiveness returns the effectiveness, 0 to 1, of crossflow with both
// streams unmixed, from the number of transfer units N = UA/C_min, 0 or more, and
// the capacity ratio C = C_min/C_max, 0 to 1. It is exact:
//
//	ε = 1/(C N) Σ_{n>=0} P_n(N) P_n(C N),  P_n(x) = 1 − e^−x Σ_{m<=n} x^m/m!
//
// a series of positive terms equal to the one in [9]. The common approximation
// with N^0.22 errs by up to 3.8 %.
//
// Check: N = 1, C = 1 give 0.476222; N = 5, C = 0.7 give 0.844482.
func CrossflowEffectiveness(n, c float64) float64 {
	small := c * n
	if !(small >= 1e-16) { // the terms beyond 1 − e^−N are lost in rounding; also N without end, C = 0
		return -math.Expm1(-n)
	}
	// Where x is so large that e^−x vanishes, the terms up to first are 1 and need
	// no adding up.
	first := firstTerm(small)
	sum := first
	tail1, mass1 := tailFrom(n, first)
	tail2, mass2 := tailFrom(small, first)
	// The end is told by the mass, which falls to 0 for sure; the tail keeps what
	// rounding has left in it.
	for k := first; k <= small || mass2 > 1e-17*sum; {
		sum += tail1 * tail2
		k++
		share := 1 / k
		mass1 *= n * share
		mass2 *= small * share
		tail1 -= mass1
		tail2 -= mass2
	}
	return min(sum/small, 1)
}

// farTail is the x up to which e^−x is far from vanishing.
const farTail = 500

// firstTerm returns the n up to which P_n(x) differs from 1 by less than 1e-17: x
// less ten standard deviations of the Poisson distribution of mean x.
func firstTerm(x float64) float64 {
	if x < farTail {
		return 0
	}
	return math.Floor(x - 10*math.Sqrt(x))
}

// tailFrom returns P_n(x) at n = first, and e^−x x^n/n! there.
func tailFrom(x, first float64) (tail, mass float64) {
	if first == 0 && x < 1 {
		tail = -math.Expm1(-x)
		return tail, 1 - tail
	}
	if first == 0 {
		mass = math.Exp(-x)
		return 1 - mass, mass
	}
	logGamma, _ := math.Lgamma(first + 1)
	return 1, math.Exp(first*math.Log(x) - x - logGamma)
}
