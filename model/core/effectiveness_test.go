package core

import (
	"math"
	"testing"
)

// transferUnits and ratios span what an exchanger can be.
var (
	transferUnits = []float64{0.01, 0.1, 0.3, 0.7, 1, 1.5, 2, 3, 5, 8}
	ratios        = []float64{0.01, 0.05, 0.1, 0.25, 0.4, 0.5, 0.7, 0.9, 1}
)

// unmixedSeries is the other series for crossflow with both streams unmixed, as
// in Shah & Sekulic 2003:
//
//	ε = 1 − e^−N − e^−(1+C)N Σ_{n>=1} C^n/(n+1)! Σ_{j=1..n} (n+1−j)/j! N^(n+j)
func unmixedSeries(n, c float64) float64 {
	logGamma := func(k int) float64 { g, _ := math.Lgamma(float64(k) + 1); return g }
	sum := 0.0
	for k := 1; k < 300; k++ {
		for j := 1; j <= k; j++ {
			sum += float64(k+1-j) * math.Exp(float64(k)*math.Log(c)+float64(k+j)*math.Log(n)-logGamma(k+1)-logGamma(j)-(1+c)*n)
		}
	}
	return -math.Expm1(-n) - sum
}

func TestCrossflowAgainstTheOtherSeries(t *testing.T) {
	for _, n := range transferUnits {
		for _, c := range ratios {
			near(t, "effectiveness", CrossflowEffectiveness(n, c), unmixedSeries(n, c), 1e-11)
		}
	}
}

// unmixedField solves the heat balance of the two streams cell by cell, neither
// mixed, and returns what the stream of smaller capacity has taken up.
func unmixedField(n, c float64, cells int) float64 {
	big := make([]float64, cells) // excess temperature of the big stream entering each row of cells
	for i := range big {
		big[i] = 1
	}
	// In a cell the streams change by a and b times the difference of their means.
	a := n / float64(cells)
	b := c * a
	mean := 0.0
	for range cells {
		small := 0.0
		for i, hot := range big {
			difference := (hot - small) / (1 + a/2 + b/2)
			small += a * difference
			big[i] = hot - b*difference
		}
		mean += small / float64(cells)
	}
	return mean
}

// The formula is the solution of the heat balance: the error of the cells falls
// with their square.
func TestCrossflowAgainstTheHeatBalance(t *testing.T) {
	for _, n := range []float64{0.3, 1, 3, 8} {
		for _, c := range []float64{0, 0.2, 0.7, 1} {
			coarse, fine := unmixedField(n, c, 100), unmixedField(n, c, 200)
			near(t, "effectiveness", CrossflowEffectiveness(n, c), fine+(fine-coarse)/3, 2e-6)
		}
	}
}

// Where one stream keeps its temperature the flow does not matter.
func TestCrossflowWithOneConstantTemperature(t *testing.T) {
	for _, n := range append([]float64{0, 1e-12, 40, 1e4}, transferUnits...) {
		if got, want := CrossflowEffectiveness(n, 0), -math.Expm1(-n); !(math.Abs(got-want) <= 1e-15*want) {
			t.Errorf("N = %v, C = 0: %v, want %v", n, got, want)
		}
		// Next to it: ε = 1 − e^−N − C N²/2 e^−N to first order in C.
		want := -math.Expm1(-n) - 1e-6*n*n/2*math.Exp(-n)
		if got := CrossflowEffectiveness(n, 1e-6); !(math.Abs(got-want) <= 1e-11*want) {
			t.Errorf("N = %v, C = 1e-6: %v, want %v", n, got, want)
		}
	}
}

// Counterflow does better, crossflow with either stream mixed worse; more transfer
// units help and a greater ratio hurts.
func TestCrossflowBounds(t *testing.T) {
	for _, c := range ratios {
		last := 0.0
		for _, n := range transferUnits {
			e := CrossflowEffectiveness(n, c)
			counter := n / (1 + n)
			if c < 1 {
				x := math.Exp(-n * (1 - c))
				counter = (1 - x) / (1 - c*x)
			}
			bigMixed, smallMixed := -math.Expm1(c*math.Expm1(-n))/c, -math.Expm1(math.Expm1(-c*n)/c)
			if !(e < counter && e > bigMixed && e > smallMixed) {
				t.Errorf("N = %v, C = %v: %v is not between counterflow %v and one stream mixed %v, %v", n, c, e, counter, bigMixed, smallMixed)
			}
			if !(e > last) {
				t.Errorf("C = %v: %v at N = %v, after %v", c, e, n, last)
			}
			if less := CrossflowEffectiveness(n, c*0.99); !(less > e) {
				t.Errorf("N = %v: %v at C = %v, but %v at less", n, e, c, less)
			}
			last = e
		}
	}
}

// Σ P_n(N) P_n(C N) is the mean of the smaller of two Poisson variables. With C = 1
// that is N less half the mean distance of two equal ones, √(N/π) (1 − 1/16N …)
// for large N.
func TestCrossflowOfManyTransferUnits(t *testing.T) {
	for _, n := range []float64{1e3, 1e4, 1e5, 1e6} {
		short := 1 / math.Sqrt(math.Pi*n)
		if got, want := CrossflowEffectiveness(n, 1), 1-short*(1-1/(16*n)); !(math.Abs(got-want) < short/(100*n*n)+1e-11) {
			t.Errorf("N = %v, C = 1: %v, want %v", n, got, want)
		}
		last := 1.0
		for _, c := range []float64{0, 1e-6, 1e-3, 0.1, 0.5, 0.9, 0.99, 0.999, 1} {
			e := CrossflowEffectiveness(n, c)
			if !(e <= 1 && e > 0.98 && e <= last+1e-11) {
				t.Errorf("N = %v, C = %v: %v after %v", n, c, e, last)
			}
			last = e
		}
	}
}

// The series comes to an end whatever the tails have gathered of rounding, also
// where e^−N is no longer a number above 0; and it is smooth there.
func TestCrossflowComesToAnEnd(t *testing.T) {
	for _, n := range []float64{499, 501, 700, 744, 746, 800, 2000, 1e5, 1e8} {
		for _, small := range []float64{1e-15, 1e-9, 0.5, 1.1, 2, 3.3, 7, 20, 55, 200, 490} {
			e := CrossflowEffectiveness(n, small/n)
			if !(e > 0.9 && e <= 1) || small < 200 && !(e > 1-1e-12) {
				t.Errorf("N = %v, C N = %v: %v", n, small, e)
			}
		}
	}
	if e := CrossflowEffectiveness(math.Inf(1), 0); e != 1 {
		t.Errorf("N without end, C = 0: %v", e)
	}
	for _, c := range []float64{0.3, 0.66, 0.9, 1} {
		for _, n := range []float64{farTail / c, 745} {
			below, above := CrossflowEffectiveness(n*(1-1e-9), c), CrossflowEffectiveness(n*(1+1e-9), c)
			if !(math.Abs(above-below) < 1e-10) {
				t.Errorf("C = %v: %v below N = %v, %v above", c, below, n, above)
			}
		}
	}
	if e := CrossflowEffectiveness(math.NaN(), 0.5); !math.IsNaN(e) {
		t.Errorf("not a number gives %v", e)
	}
}

// marched sends the coolant through the passes one after the other, each with
// fresh air, and returns the heat over the inlet temperature difference.
func marched(ua, airCapacity, coolantCapacity float64, passes int) (heat float64) {
	p := float64(passes)
	temperature := 1.0
	for range passes {
		air := airCapacity / p
		least, most := min(air, coolantCapacity), max(air, coolantCapacity)
		q := CrossflowEffectiveness(ua/p/least, least/most) * least * temperature
		temperature -= q / coolantCapacity
		heat += q
	}
	return heat
}

func TestPassesAgainstAMarch(t *testing.T) {
	for passes := 1; passes <= 8; passes++ {
		c := Core{geometry: Geometry{Passes: passes}}
		for _, ua := range []float64{1, 10, 50, 300} {
			for _, airCapacity := range []float64{2, 20, 200} {
				for _, coolantCapacity := range []float64{5, 60, 280} {
					e := c.Effectiveness(ua, airCapacity, coolantCapacity)
					least := min(airCapacity, coolantCapacity)
					near(t, "heat", e*least, marched(ua, airCapacity, coolantCapacity, passes), 1e-12)
					if !(e > 0 && e <= 1) {
						t.Errorf("%d passes, UA %v, capacities %v and %v: effectiveness %v", passes, ua, airCapacity, coolantCapacity, e)
					}
				}
			}
		}
	}
}

// One pass is plain crossflow, and then it does not matter which stream is which.
func TestOnePassIsCrossflow(t *testing.T) {
	c := Core{geometry: Geometry{Passes: 1}}
	for _, n := range transferUnits {
		for _, ratio := range ratios {
			want := CrossflowEffectiveness(n, ratio)
			near(t, "air smaller", c.Effectiveness(n*30, 30, 30/ratio), want, 1e-12)
			near(t, "coolant smaller", c.Effectiveness(n*30, 30/ratio, 30), want, 1e-12)
		}
	}
}

// A core without conductance exchanges nothing; one with an endless conductance
// brings all its air to the coolant's temperature, pass by pass.
func TestEffectivenessLimits(t *testing.T) {
	for passes := 1; passes <= 3; passes++ {
		c := Core{geometry: Geometry{Passes: passes}}
		if e := c.Effectiveness(0, 20, 200); e != 0 {
			t.Errorf("%d passes without conductance: effectiveness %v", passes, e)
		}
		want := 0.0
		for temperature, p := 1.0, 0; p < passes; p++ {
			want += temperature / float64(passes)
			temperature -= temperature * 20 / float64(passes) / 200
		}
		near(t, "effectiveness of an endless conductance", c.Effectiveness(1e5, 20, 200), want, 1e-12)
	}
}
