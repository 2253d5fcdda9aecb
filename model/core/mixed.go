package core

import "math"

// mostMixed returns the effectiveness, 0 to 1, of crossflow with the stream of the
// greater capacity rate mixed and the other unmixed, from the number of transfer
// units N, 0 or more, and the capacity ratio C, 0 to 1:
//
//	ε = {1 − exp[−C (1 − e^−N)]} / C                                      [8] [9]
//
// Check: N = 2, C = 0.5 give 0.7020127.
func mostMixed(n, c float64) float64 {
	if !(c*n >= 1e-16) { // as in CrossflowEffectiveness
		return -math.Expm1(-n)
	}
	return -math.Expm1(c*math.Expm1(-n)) / c
}

// leastMixed is mostMixed with the stream of the smaller capacity rate mixed and
// the other unmixed:
//
//	ε = 1 − exp[−(1 − e^−CN) / C]                                         [8] [9]
//
// Check: N = 2, C = 0.5 give 0.7175464.
func leastMixed(n, c float64) float64 {
	if !(c*n >= 1e-16) {
		return -math.Expm1(-n)
	}
	return -math.Expm1(math.Expm1(-c*n) / c)
}

// bothMixed returns the effectiveness, 0 to 1, of crossflow with both streams
// mixed, from N and C as above:
//
//	1/ε = 1/(1 − e^−N) + C/(1 − e^−CN) − 1/N                              [8] [9]
//
// It is not the better the more transfer units there are: beyond the best N, 3 at
// C = 1 and 4 at C = 0.5, it falls to 1/(1 + C), what streams that mix with their
// own outlets can reach.
//
// Check: N = 2, C = 0.5 give 0.6908434.
func bothMixed(n, c float64) float64 {
	if !(n > 1e-16) { // ε is N where it is that small
		return n
	}
	other := 1 / n // C/(1 − e^−CN) as C goes to 0
	if c*n >= 1e-16 {
		other = -c / math.Expm1(-c*n)
	}
	return 1 / (-1/math.Expm1(-n) + other - 1/n)
}
