package solve_test

import "math"

// problem is a function of one variable whose root or minimum is known in closed
// form; tests and benchmarks share the two lists below.
type problem struct {
	name   string
	f      func(float64) float64
	a, b   float64 // the bracket
	answer float64
	// limit is the number of evaluations allowed for a tolerance of 1e-12 (root) or
	// 1e-6 (minimum) of the bracket, its ends included. Those of minima are what the
	// search took when they were written, and one more: a regression check.
	limit int
}

// A smooth root takes at most smooth evaluations; halving takes halving.
const (
	smooth  = 12
	halving = 42
)

// wallis is the real root of x³ − 2x − 5 by Cardano's formula.
var wallis = math.Cbrt(2.5+math.Sqrt(6.25-8./27)) + math.Cbrt(2.5-math.Sqrt(6.25-8./27))

var roots = []problem{
	{"line", func(x float64) float64 { return 2*x - 3 }, 0, 10, 1.5, smooth},
	{"square", func(x float64) float64 { return x*x - 2 }, 0, 2, math.Sqrt2, smooth},
	{"wallis", func(x float64) float64 { return x*x*x - 2*x - 5 }, 2, 3, wallis, smooth},
	{"exponential", func(x float64) float64 { return math.Exp(x) - 2 }, -4, 4, math.Ln2, smooth},
	{"logarithm", math.Log, 0.1, 10, 1, smooth},
	{"tangent", func(x float64) float64 { return math.Tan(x) - 1 }, 0, 1.5, math.Pi / 4, smooth},
	{"reciprocal", func(x float64) float64 { return 1/x - 3 }, 0.01, 1, 1. / 3, smooth},
	{"sine", math.Sin, 2, 4, math.Pi, smooth},
	{"falling", func(x float64) float64 { return 0.5 - math.Tanh(x) }, -2, 2, math.Atanh(0.5), smooth},
	{"fan on square system", func(x float64) float64 { return 1 - x - 2*x*x }, 0.01, 1, 0.5, smooth},
	{"fan on dense system", func(x float64) float64 { return 1 - x - 30*x*x }, 0.01, 1, (math.Sqrt(121) - 1) / 60, smooth},
	{"curved fan", func(x float64) float64 { return 1 - 8*math.Pow(x, 1.5) }, 0.01, 1, 0.25, smooth},
	{"tiny", func(x float64) float64 { return x*x - 2e-200 }, 0, 1e-99, math.Sqrt2 * 1e-100, smooth},
	{"huge", func(x float64) float64 { return x*x - 2e300 }, 0, 1e151, math.Sqrt2 * 1e150, smooth},
	{"root at low end", func(x float64) float64 { return x - 1 }, 1, 3, 1, 2},
	{"root at high end", func(x float64) float64 { return x*x - 9 }, 1, 3, 3, 2},

	{"triple", func(x float64) float64 { return x * x * x }, -1, 2, 0, halving + 2},
	{"ninefold", func(x float64) float64 { return math.Pow(x-1, 9) }, 0.5, 3, 1, halving + 2},
	{"nineteenfold", func(x float64) float64 { return math.Pow(x, 19) }, -1, 4, 0, halving + 2},
	{"steep", func(x float64) float64 { return math.Atan(1e6 * (x - 0.3)) }, 0, 1, 0.3, halving},
	{"steep on one side", func(x float64) float64 { return math.Exp(100*x) - 1e10 }, 0, 1, math.Ln10 / 10, 24},
	{"vertical", func(x float64) float64 { return math.Copysign(math.Sqrt(math.Abs(x-0.7)), x-0.7) }, 0, 1, 0.7, halving + 2},
	{"kink", func(x float64) float64 { return (x - 1) * math.Pow(10, math.Copysign(3, x-1)) }, 0, 3, 1, halving + 2},
	{"jump", func(x float64) float64 { return math.Copysign(1, x-1./3) }, 0, 1, 1. / 3, halving + 2},
	{"pole", func(x float64) float64 { return 1 / (x - 1./3) }, 0, 1, 1. / 3, halving + 2},
	{"beside a pole", func(x float64) float64 { return 1/(x-0.3) - 6 }, 0.3000001, 1, 0.3 + 1./6, smooth},
	{"wide jump", func(x float64) float64 { return math.Copysign(1, x-1e-6) }, -1e6, 1e6, 1e-6, halving + 2},
}

var minima = []problem{
	{"square", func(x float64) float64 { return (x - 1./3) * (x - 1./3) }, 0, 1, 1. / 3, 7},
	{"x log x", func(x float64) float64 { return x * math.Log(x) }, 0, 1, 1 / math.E, 12},
	{"x + 1/x", func(x float64) float64 { return x + 1/x }, 0.1, 5, 1, 13},
	{"-x exp -x", func(x float64) float64 { return -x * math.Exp(-x) }, 0, 10, 1, 14},
	{"fan heat and film", func(x float64) float64 { return 2/x + x*x }, 0.1, 20, 1, 16},
	{"cosine", math.Cos, 2, 5, math.Pi, 9},
	{"fourth power", func(x float64) float64 { x -= 0.6; return x * x * x * x }, 0, 1, 0.6, 24},
	{"kink", func(x float64) float64 { return math.Abs(x - 0.3) }, 0, 1, 0.3, 19},
	{"lopsided kink", func(x float64) float64 { return math.Max(x-0.3, 1e4*(0.3-x)) }, 0, 1, 0.3, 31},
	{"jump", func(x float64) float64 {
		if x < 0.3 {
			return 2
		}
		return x
	}, 0, 1, 0.3, 31},
	{"rising: low end", func(x float64) float64 { return math.Exp(x) }, 1, 2, 1, 31},
	{"falling: high end", func(x float64) float64 { return -x }, 1, 2, 2, 31},
	{"tiny", func(x float64) float64 { return (x - 1e-60) * (x - 1e-60) }, 0, 1e-59, 1e-60, 7},
	{"too tiny for a parabola", func(x float64) float64 { return (x - 1e-100) * (x - 1e-100) }, 0, 1e-99, 1e-100, 31},
	{"huge", func(x float64) float64 { return (x/1e100 - 1) * (x/1e100 - 1) }, 0, 1e101, 1e100, 7},
}
