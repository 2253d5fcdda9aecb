package doubt

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
)

// left returns the share of the standard deviation of a result that is left on average
// once a quantity is known exactly:
//
//	√(1 − V(E[y|x]) / V(y))
//
// with its 95 % interval by bootstrap. x may be anything that was computed for the same
// draws as y, such as the product of several errors, of which a measurement shows no
// more than the product.
//
// The conditional mean comes from the draws themselves, sorted by x and cut into bins of
// equal size; the scatter within bins, which their means keep a part of, is taken off:
//
//	V(y|x) = Σ_bins Σ (y − ȳ_bin)² / (n − bins)
//
// It returns why there is no answer if a draw has no finite y or y never changes.
//
// Check: y = x + z with equal variances leaves √½ = 0.707.
func left(y, x []float64, src rand.Source) (Index, error) {
	for _, v := range y {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return Index{}, errors.New("some draws have no such value")
		}
	}
	n := len(y)
	bins := min(max(int(math.Sqrt(float64(n))/2), 2), 40)
	if n < 4*bins {
		return Index{}, errors.New("too few draws")
	}
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case x[a] < x[b]:
			return -1
		case x[a] > x[b]:
			return 1
		}
		return 0
	})
	bin := make([]int, n) // of each draw
	for rank, i := range order {
		bin[i] = rank * bins / n
	}
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	if m := momentsOf(y, nil); !(m.variance > 1e-24*m.mean*m.mean) {
		return Index{}, errNoVariance
	}
	value := leftOf(y, bin, all, bins)
	again, values := rand.New(src), make([]float64, resamples)
	for r := range values {
		for i := range all {
			all[i] = again.IntN(n)
		}
		// Rows drawn twice make a bin look narrower than it is, by 1 in the size of the bin.
		values[r] = leftOf(y, bin, all, bins) * math.Sqrt(float64(n)/float64(n-bins))
	}
	return indexOf(value, values), nil
}

// leftOf is left for the rows picked.
func leftOf(y []float64, bin, rows []int, bins int) float64 {
	count, sum, square := make([]float64, bins), make([]float64, bins), make([]float64, bins)
	n, mean := float64(len(rows)), 0.0
	for _, i := range rows {
		mean += y[i] / n
	}
	for _, i := range rows {
		d := y[i] - mean
		count[bin[i]]++
		sum[bin[i]] += d
		square[bin[i]] += d * d
	}
	within, whole, used := 0.0, 0.0, 0.0
	for b := range bins {
		whole += square[b]
		if count[b] > 0 {
			used++
			within += square[b] - sum[b]*sum[b]/count[b]
		}
	}
	return math.Sqrt(math.Max(0, within/(n-used)) / (whole / (n - 1)))
}
