package doubt

import (
	"math"
	"slices"
)

// sample holds values of one result and answers for their quantiles, in memory that
// does not grow with their number: up to full values all of them; beyond, every second
// one of the sorted values stands for two, by turns the odd and the even ones, and
// again for each doubling [7]. Values may be infinite, but not NaN.
type sample struct {
	levels [][]float64 // values at level i stand for 2^i each
	count  int
	odd    bool
}

// full is how many values a level holds. 50 000 values are then off by at most 20 in
// rank, which is far below what the drawing leaves open.
const full = 8192

func (s *sample) add(v float64) {
	s.count++
	s.put(0, v)
}

func (s *sample) put(level int, v float64) {
	if level == len(s.levels) {
		s.levels = append(s.levels, nil)
	}
	s.levels[level] = append(s.levels[level], v)
	if len(s.levels[level]) < full {
		return
	}
	all := s.levels[level]
	slices.Sort(all)
	first := 0
	if s.odd {
		first = 1
	}
	s.odd = !s.odd
	for i := first; i < len(all); i += 2 {
		s.put(level+1, all[i])
	}
	s.levels[level] = all[:0]
}

// clear takes all values away and keeps the memory.
func (s *sample) clear() {
	for i := range s.levels {
		s.levels[i] = s.levels[i][:0]
	}
	s.count = 0
}

// quantiles returns the quantiles of what was added, one for each probability, which
// must lie between 0 and 1; NaN if nothing was.
//
// A value stands in the middle of the ranks that it stands for, and between two values
// the quantile is on the straight line (Hazen's rule); beside an infinite one it is the
// nearer of the two.
//
// Check: the median of 1, 2, 3, 4 is 2.5; the 0.125-quantile is 1.
func (s *sample) quantiles(probabilities ...float64) []float64 {
	type weighted struct {
		v      float64
		weight float64
	}
	var all []weighted
	for i, level := range s.levels {
		for _, v := range level {
			all = append(all, weighted{v, math.Ldexp(1, i)})
		}
	}
	slices.SortFunc(all, func(a, b weighted) int {
		switch {
		case a.v < b.v:
			return -1
		case a.v > b.v:
			return 1
		}
		return 0
	})
	total := 0.0
	for _, w := range all {
		total += w.weight
	}
	result := make([]float64, len(probabilities))
	for i, p := range probabilities {
		result[i] = math.NaN()
		before, rank := 0.0, p*total
		for j, w := range all {
			middle := before + w.weight/2
			if rank <= middle || j == len(all)-1 {
				result[i] = w.v
				if j > 0 && rank < middle {
					last := all[j-1]
					result[i] = between(last.v, w.v, (rank-(before-last.weight/2))/(w.weight/2+last.weight/2))
				}
				break
			}
			before += w.weight
		}
	}
	return result
}

// between returns what lies a share of the way from a to b, 0 <= share <= 1; the nearer
// of the two if either is infinite.
func between(a, b, share float64) float64 {
	if math.IsInf(a, 0) || math.IsInf(b, 0) {
		if share < 0.5 {
			return a
		}
		return b
	}
	return a + share*(b-a)
}

// The probabilities of a band: a 95 % interval with equal shares beyond its ends
// (JCGM 101 7.7.2 [2], q = (1 − p)M/2), and its median.
var bandAt = []float64{0.025, 0.5, 0.975}
