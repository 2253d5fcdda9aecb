package core

import "math"

// counterflow returns the effectiveness, 0 to 1, of counterflow, from the number
// of transfer units N, 0 or more, and the capacity ratio C, 0 to 1:
//
//	ε = [1 − e^−N(1−C)] / [1 − C e^−N(1−C)],  N/(1 + N) at C = 1          [8] [9]
//
// No arrangement of the streams does better.
//
// Check: N = 5, C = 0.7 give 0.920670368605.
func counterflow(n, c float64) float64 {
	short := 1 - c
	if short == 0 {
		return 1 / (1 + 1/n)
	}
	x := -math.Expm1(-n * short)
	return x / (short + c*x)
}

// inCounterflow returns the effectiveness of two exchangers that lie behind one
// another, each stream mixed between them and meeting the other's second first,
// from the effectiveness of each, 0 to 1, and the capacity ratio C, 0 to 1:
//
//	ε = 1 − (1 − a)(1 − b) / (1 − a b C)
//
// From pass to pass it builds up what is given in [9] for n equal passes, without
// its singularity at C = 1:
//
//	ε = (r − 1)/(r − C),  r = [(1 − ε₁ C)/(1 − ε₁)]^n
//
// Check: a = b = 0.5 at C = 1 give 2/3.
func inCounterflow(a, b, c float64) float64 {
	if a == 1 || b == 1 {
		return 1
	}
	return 1 - (1-a)*(1-b)/(1-a*b*c)
}
