package breakeven

import (
	"math"
	"slices"

	"finduel/model/solve"
)

// justInside is how far, relative to the speed, inside an end of the search the
// slope there is looked at.
const justInside = 1e-6

// samples is how many speeds the search looks at first.
const samples = 49

// turn is a speed at which the difference changes its sign.
type turn struct {
	speed   float64
	falling bool // from worse to better as the speed rises
}

// found is what a search over speeds yields.
type found struct {
	crossings []turn    // where the difference is zero, by rising speed
	edges     []float64 // where the challenger, better than the reference, begins or ceases to have a value, rising
	best      float64   // speed of the least difference
	ends      int       // -1 or +1 if best is the low or high end of the search
	any       bool      // whether any speed has a value
	better    bool      // whether the challenger is better at any speed
}

// search finds the roots and the least value of difference over the speeds from
// low to high, 0 < low <= high. difference returns +Inf where it has no value.
func search(difference func(speed float64) float64, low, high float64) found {
	n := samples
	if !(high > low) {
		n = 1
	}
	speeds := make([]float64, n)
	values := make([]float64, n)
	for i := range speeds {
		speeds[i] = low
		if n > 1 {
			speeds[i] = low * math.Pow(high/low, float64(i)/float64(n-1))
		}
		if i == n-1 {
			speeds[i] = high
		}
		values[i] = difference(speeds[i])
	}
	speeds, values = deepen(difference, speeds, values)

	var f found
	least, sign := 0, 0 // of the last sample that was not zero: -1 better, +1 worse
	var zeros []float64 // samples of exactly zero since then
	for i, v := range values {
		f.any = f.any || !math.IsInf(v, 1)
		f.better = f.better || v < 0
		if v < values[least] {
			least = i
		}
		if v == 0 {
			zeros = append(zeros, speeds[i])
			continue
		}
		now := 1
		if v < 0 {
			now = -1
		}
		switch {
		case len(zeros) > 0 && sign != now && (sign != 0 || now < 0):
			f.crossings = append(f.crossings, turn{zeros[0], now < 0})
		case i > 0 && len(zeros) == 0 && sign != now:
			at, edge := root(difference, speeds[i-1], values[i-1], speeds[i], v)
			if edge {
				f.edges = append(f.edges, at)
			} else {
				f.crossings = append(f.crossings, turn{at, now < 0})
			}
		}
		sign, zeros = now, nil
	}
	if len(zeros) > 0 && sign > 0 {
		f.crossings = append(f.crossings, turn{zeros[0], true})
	}
	f.best = speeds[least]
	switch least {
	case 0:
		f.ends = -1
	case len(speeds) - 1:
		f.ends = 1
	}
	return f
}

// deepen adds, for every sample lower (or higher) than both its neighbours, the
// bottom of the dip (the top of the bump) between them. A bump only matters where
// the difference is negative, since only there it can hide a pair of roots. An end
// of the search that is lower than its neighbour hides a dip if the difference
// falls away from the end.
func deepen(difference func(float64) float64, speeds, values []float64) ([]float64, []float64) {
	n := len(speeds)
	dip := func(a, b float64) {
		turn := solve.Minimum(finite(difference), a, b, 1e-7*b)
		speeds, values = append(speeds, turn.X), append(values, turn.F)
	}
	if n > 1 {
		first, last := speeds[0], speeds[n-1]
		if values[0] <= values[1] && difference(first*(1+justInside)) < values[0] {
			dip(first, speeds[1])
		}
		if values[n-1] <= values[n-2] && difference(last*(1-justInside)) < values[n-1] {
			dip(speeds[n-2], last)
		}
	}
	for i := 1; i < n-1; i++ {
		a, v, b := values[i-1], values[i], values[i+1]
		switch {
		case v <= a && v <= b && !math.IsInf(v, 1):
			dip(speeds[i-1], speeds[i+1])
		case v >= a && v >= b && v < 0:
			turn := solve.Minimum(func(s float64) float64 { return -difference(s) }, speeds[i-1], speeds[i+1], 1e-7*speeds[i])
			speeds, values = append(speeds, turn.X), append(values, -turn.F)
		}
	}
	return inOrder(speeds, values)
}

// finite stands in for a difference where it has no value: far above any
// temperature difference, and a number a minimiser can reckon with.
func finite(difference func(float64) float64) func(float64) float64 {
	return func(speed float64) float64 { return math.Min(difference(speed), 1e6) }
}

// inOrder sorts samples by speed and drops repeated speeds.
func inOrder(speeds, values []float64) ([]float64, []float64) {
	order := make([]int, len(speeds))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		switch {
		case speeds[i] < speeds[j]:
			return -1
		case speeds[i] > speeds[j]:
			return 1
		}
		return 0
	})
	var s, v []float64
	for _, i := range order {
		if len(s) > 0 && s[len(s)-1] == speeds[i] {
			continue
		}
		s, v = append(s, speeds[i]), append(v, values[i])
	}
	return s, v
}

// root returns the speed between a and b at which the difference changes its
// sign. Where one end has no value the stretch is halved until both ends have one,
// or until no double lies between them: then the challenger goes from better to no
// value at all, which is an edge and no root.
func root(difference func(float64) float64, a, fa, b, fb float64) (speed float64, edge bool) {
	for math.IsInf(fa, 1) || math.IsInf(fb, 1) {
		middle := a + (b-a)/2
		if middle <= a || middle >= b {
			if math.IsInf(fa, 1) {
				return b, true
			}
			return a, true
		}
		if f := difference(middle); (f < 0) == (fa < 0) {
			a, fa = middle, f
		} else {
			b, fb = middle, f
		}
	}
	return solve.RootFrom(difference, a, fa, b, fb, 1e-14*b).X, false
}
