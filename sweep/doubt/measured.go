package doubt

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
)

// left returns, for each of several quantities x, the share of the standard deviation of a
// result that is left on average once the quantity is known exactly:
//
//	√(1 − V(E[y|x]) / V(y))
//
// with its 95 % interval by bootstrap, from the same rows for all of them. x may be anything
// that was computed for the same draws as y, such as the product of several errors, of which
// a measurement shows no more than the product.
//
// The conditional mean comes from the draws themselves, sorted by x and cut into bins of
// equal size; the scatter within bins, which their means keep a part of, is taken off:
//
//	V(y|x) = Σ_bins Σ (y − ȳ_bin)² / (n − bins)
//
// It returns why there is no answer if a draw has no finite y or y never changes.
//
// Check: y = x + z with equal variances leaves √½ = 0.707.
func left(y []float64, xs [][]float64, src rand.Source) ([]Index, error) {
	for _, v := range y {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, errors.New("some draws have no such value")
		}
	}
	n := len(y)
	bins := min(max(int(math.Sqrt(float64(n))/2), 2), 40)
	if n < 4*bins {
		return nil, errors.New("too few draws")
	}
	if m := momentsOf(y, nil); !(m.variance > 1e-24*m.mean*m.mean) {
		return nil, errNoVariance
	}
	ranked := make([][]int, len(xs))
	for k, x := range xs {
		ranked[k] = rankedBy(x)
	}
	picked := make([]float64, n) // how often each draw is
	for i := range picked {
		picked[i] = 1
	}
	values := make([]float64, len(xs))
	leftOf(y, picked, ranked, bins, values)
	resampled, now := make([][]float64, len(xs)), make([]float64, len(xs))
	again := rand.New(src)
	for range resamples {
		clear(picked)
		for range n {
			picked[again.IntN(n)]++
		}
		leftOf(y, picked, ranked, bins, now)
		for k, v := range now {
			// Rows drawn twice make a bin look narrower than it is, by 1 in the size of the bin.
			resampled[k] = append(resampled[k], v*math.Sqrt(float64(n)/float64(n-bins)))
		}
	}
	list := make([]Index, len(xs))
	for k := range list {
		list[k] = indexOf(values[k], resampled[k])
	}
	return list, nil
}

// rankedBy returns the places of x, of the lowest first.
func rankedBy(x []float64) []int {
	order := make([]int, len(x))
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
	return order
}

// leftOf is left for draws each of which is picked so many times.
func leftOf(y, picked []float64, ranked [][]int, bins int, into []float64) {
	n, mean, whole := float64(len(y)), 0.0, 0.0
	for i, v := range y {
		mean += picked[i] * v / n
	}
	apart := make([]float64, len(y)) // from the mean, times picked
	for i, v := range y {
		apart[i] = picked[i] * (v - mean)
		whole += apart[i] * (v - mean)
	}
	for k, order := range ranked {
		within, used := whole, 0.0
		for b := range bins {
			count, sum := 0.0, 0.0
			for _, i := range order[(b*len(y)+bins-1)/bins : ((b+1)*len(y)+bins-1)/bins] {
				count += picked[i]
				sum += apart[i]
			}
			if count > 0 {
				used++
				within -= sum * sum / count
			}
		}
		into[k] = math.Sqrt(math.Max(0, within/(n-used)) / (whole / (n - 1)))
	}
}
