package breakeven

import (
	"math"
	"slices"

	"finduel/model/solve"
)

const (
	// steps is how many even steps the first look takes: one is 1 % of the range.
	steps = 100

	// wariness is how many times the bend of the curve at a sample a dent beside it
	// may be deep. A dent that is 0.4 % of the range wide at half of its depth and
	// lies midway between two samples of the first look is 150 times as deep as the
	// bend that it leaves at those next to them.
	wariness = 200

	// narrowest is the narrowest stretch that is halved to look closer, as a share of
	// the range.
	narrowest = 1e-6

	// most is after how many evaluations the search stops looking closer.
	most = 1000

	// justInside is how far, relative to the speed, inside an end of the search the
	// slope there is looked at.
	justInside = 1e-6

	// equal is how far from zero, K, a difference may be at a break-even.
	equal = 1e-6
)

// turn is a speed at which the difference changes its sign.
type turn struct {
	speed   float64
	falling bool // from worse to better as the speed rises
	jump    bool // the difference is not zero there: it jumps over zero
}

// found is what a search over speeds yields.
type found struct {
	curve     curve
	crossings []turn    // where the difference is zero, by rising speed
	edges     []float64 // where the challenger, better than the reference, begins or ceases to have a value, rising
	best      float64   // speed of the least difference
	ends      int       // -1 or +1 if best is the low or high end of the search
	any       bool      // whether any speed has a value
	better    bool      // whether the challenger is better at any speed
}

// sample is a speed with its difference, +Inf where it has no value.
type sample struct{ speed, value float64 }

func (s sample) missing() bool { return math.IsInf(s.value, 1) }

// curve is a difference over speeds, as far as it was looked at.
type curve struct {
	f         func(speed float64) float64
	low, high float64
	samples   []sample // by rising speed
	asked     int      // evaluations
	cut       bool     // whether there was more to look at
}

// search finds the roots and the least value of difference over the speeds from
// low to high, 0 < low <= high. difference returns +Inf where it has no value.
//
// A first look takes even steps of 1 % of the range. Then the curve is looked at
// more closely wherever its bend says that it may reach zero between two samples,
// and followed to the bottom of every dip and the top of every bump.
func search(difference func(speed float64) float64, low, high float64) found {
	f := found{curve: curve{f: difference, low: low, high: high}}
	c := &f.curve
	c.first()
	c.findEdges()
	c.lookCloser()
	c.findTurns()

	least, sign := 0, 0 // sign is that of the last sample that was not zero: -1 better, +1 worse
	var zeros []float64 // samples of exactly zero since then
	for i, s := range c.samples {
		f.any = f.any || !s.missing()
		f.better = f.better || s.value < 0
		if s.value < c.samples[least].value {
			least = i
		}
		if s.value == 0 {
			zeros = append(zeros, s.speed)
			continue
		}
		now := 1
		if s.value < 0 {
			now = -1
		}
		switch {
		case len(zeros) > 0 && sign != now && (sign != 0 || now < 0):
			f.crossings = append(f.crossings, turn{speed: zeros[0], falling: now < 0})
		case i > 0 && len(zeros) == 0 && sign != now:
			at, value, edge := c.level(c.samples[i-1], s, 0)
			if edge {
				f.edges = append(f.edges, at)
			} else {
				f.crossings = append(f.crossings, turn{at, now < 0, math.Abs(value) > equal})
			}
		}
		sign, zeros = now, nil
	}
	if len(zeros) > 0 && sign > 0 {
		f.crossings = append(f.crossings, turn{speed: zeros[0], falling: true})
	}
	f.best = c.samples[least].speed
	switch least {
	case 0:
		f.ends = -1
	case len(c.samples) - 1:
		f.ends = 1
	}
	return f
}

// at asks for the difference at a speed.
func (c *curve) at(speed float64) sample {
	c.asked++
	return sample{speed, c.f(speed)}
}

// first takes the first look.
func (c *curve) first() {
	if !(c.high > c.low) {
		c.samples = []sample{c.at(c.low)}
		return
	}
	for i := range steps {
		c.samples = append(c.samples, c.at(c.low+(c.high-c.low)*float64(i)/steps))
	}
	c.samples = append(c.samples, c.at(c.high))
}

// add puts new samples among the others. Of two at one speed the first stays.
func (c *curve) add(more ...sample) {
	c.samples = append(c.samples, more...)
	slices.SortStableFunc(c.samples, func(a, b sample) int {
		switch {
		case a.speed < b.speed:
			return -1
		case a.speed > b.speed:
			return 1
		}
		return 0
	})
	c.samples = slices.CompactFunc(c.samples, func(a, b sample) bool { return a.speed == b.speed })
}

// findEdges adds, wherever values begin or cease, the last speed that has one and
// the first that has none.
func (c *curve) findEdges() {
	var more []sample
	for i := 1; i < len(c.samples); i++ {
		a, b := c.samples[i-1], c.samples[i]
		if a.missing() == b.missing() {
			continue
		}
		for {
			middle := a.speed + (b.speed-a.speed)/2
			if middle <= a.speed || middle >= b.speed || b.speed-a.speed < 1e-12*b.speed {
				break
			}
			if m := c.at(middle); m.missing() == a.missing() {
				a = m
			} else {
				b = m
			}
		}
		more = append(more, a, b)
	}
	c.add(more...)
}

// lookCloser halves, again and again, every stretch between two samples in which the
// curve may reach zero unseen: the bend at its ends allows it.
func (c *curve) lookCloser() {
	for {
		var more []sample
		for i := 1; i < len(c.samples); i++ {
			if !c.mayHide(i) {
				continue
			}
			if c.asked >= most {
				c.cut = true
				break
			}
			a, b := c.samples[i-1], c.samples[i]
			more = append(more, c.at(a.speed+(b.speed-a.speed)/2))
		}
		if len(more) == 0 {
			return
		}
		c.add(more...)
	}
}

// mayHide reports whether the curve may have roots between sample i and the one
// before it that the two do not show: two more than they do.
func (c *curve) mayHide(i int) bool {
	a, b := c.samples[i-1], c.samples[i]
	if a.missing() || b.missing() || b.speed-a.speed < narrowest*(c.high-c.low) {
		return false
	}
	bend := math.Max(c.bend(i-1), c.bend(i))
	if (a.value < 0) != (b.value < 0) {
		return 2*bend > math.Abs(b.value-a.value)
	}
	return wariness*bend > math.Min(math.Abs(a.value), math.Abs(b.value))
}

// bend returns by how much sample i differs from what its neighbours, up to two on
// either side, let expect: the value there of the polynomial through them. Samples
// without a value are no neighbours, nor is what lies beyond them.
func (c *curve) bend(i int) float64 {
	var near [4]sample
	n := 0
	for _, side := range [2]int{-1, 1} {
		for k := 1; k <= 2; k++ {
			at := i + side*k
			if at < 0 || at >= len(c.samples) || c.samples[at].missing() {
				break
			}
			near[n] = c.samples[at]
			n++
		}
	}
	if n == 0 {
		return 0
	}
	expected := 0.0
	for j := range n {
		share := near[j].value
		for k := range n {
			if k != j {
				share *= (c.samples[i].speed - near[k].speed) / (near[j].speed - near[k].speed)
			}
		}
		expected += share
	}
	return math.Abs(c.samples[i].value - expected)
}

// findTurns adds, for every sample lower (or higher) than both its neighbours, the
// bottom of the dip (the top of the bump) between them. An end of the curve that is
// lower than its neighbour hides a dip if the curve falls away from the end.
func (c *curve) findTurns() {
	var more []sample
	follow := func(a, b float64, sign float64) {
		const beyond = 1e6 // K; stands in where there is no value
		r := solve.Minimum(func(s float64) float64 {
			return sign * math.Min(c.at(s).value, beyond)
		}, a, b, 1e-7*b)
		if v := sign * r.F; v < beyond {
			more = append(more, sample{r.X, v})
		}
	}
	for i, s := range c.samples {
		first := i == 0 || c.samples[i-1].missing()
		last := i == len(c.samples)-1 || c.samples[i+1].missing()
		switch {
		case s.missing() || first && last:
		case first:
			c.fromEnd(s, c.samples[i+1], 1, follow)
		case last:
			c.fromEnd(s, c.samples[i-1], -1, follow)
		default:
			a, b := c.samples[i-1], c.samples[i+1]
			switch {
			case s.value <= a.value && s.value <= b.value && (s.value < a.value || s.value < b.value):
				follow(a.speed, b.speed, 1)
			case s.value >= a.value && s.value >= b.value && (s.value > a.value || s.value > b.value):
				follow(a.speed, b.speed, -1)
			}
		}
	}
	c.add(more...)
}

// fromEnd follows a dip or a bump between an end of the curve and the sample beside
// it, on the side that is named.
func (c *curve) fromEnd(end, beside sample, side float64, follow func(a, b, sign float64)) {
	inside := c.at(end.speed * (1 + side*justInside))
	a, b := math.Min(end.speed, beside.speed), math.Max(end.speed, beside.speed)
	switch {
	case inside.missing():
	case end.value <= beside.value && inside.value < end.value:
		follow(a, b, 1)
	case end.value >= beside.value && inside.value > end.value:
		follow(a, b, -1)
	}
}

// level returns the speed between two samples at which the difference passes a
// level that lies between them, and its value there. Where one sample has no value
// the stretch is halved until both have one, or until no double lies between: then
// the challenger goes from below the level to no value at all, which is an edge.
func (c *curve) level(a, b sample, level float64) (speed, value float64, edge bool) {
	below := func(s sample) bool { return s.value < level }
	for a.missing() || b.missing() {
		middle := a.speed + (b.speed-a.speed)/2
		if middle <= a.speed || middle >= b.speed {
			if a.missing() {
				return b.speed, b.value, true
			}
			return a.speed, a.value, true
		}
		if m := c.at(middle); below(m) == below(a) {
			a = m
		} else {
			b = m
		}
	}
	r := solve.RootFrom(func(s float64) float64 { return c.at(s).value - level },
		a.speed, a.value-level, b.speed, b.value-level, 1e-14*b.speed)
	return r.X, r.F + level, false
}
