package doubt

import (
	"math"

	"finduel/model/solve"
)

// grid is how many speeds the nominal challenger is known at.
const grid = 49

// crossing finds the break-even speed of a draw: the lowest at which a challenger that
// was worse becomes better.
//
// A search over all speeds asks the model some fifty times. A draw is not so new: its
// curve is the nominal one, known at 49 speeds, plus a shift that changes little with
// speed. The shift is known exactly where the draw was asked, and is taken as straight
// over the logarithm of speed between two such places and beyond them; as in proportion
// to the nominal curve, as errors of films are, while there is only one. Where the
// shifted curve crosses, or comes closest, the draw is asked next, until it was asked
// there already: two or three times in most draws. Wherever that is in doubt - the
// challenger has no value, comes within a few hundredths of a kelvin without crossing, or
// the search goes on too long - everything is searched.
type crossing struct {
	at    []float64 // logarithm of the speeds, rising
	curve []float64 // nominal metric there, K; +Inf where it has no value
	known []place   // where the draw was asked, rising

	searches int // how often everything was searched
}

// place is where a draw was asked: the logarithm of the speed, what the nominal challenger
// has there, and how far the draw lies above it, K.
type place struct{ at, nominal, shift float64 }

const (
	nearEnough = 0.01 // of ln speed: a crossing this near to where the draw was asked is taken from the shifted curve
	nearLowest = 0.03 // of ln speed: the same for the lowest place, where the curve is level
	unclear    = 0.03 // K: a challenger that comes this near without crossing is searched in full
	mostAsked  = 7    // times, before everything is searched
)

// newCrossing returns a search between two speeds, rev/s.
func newCrossing(low, high float64) *crossing {
	n := grid
	if !(high > low) {
		n = 1
	}
	c := &crossing{at: make([]float64, n), curve: make([]float64, n)}
	for i := range c.at {
		c.at[i] = math.Log(low)
		if n > 1 {
			c.at[i] += math.Log(high/low) * float64(i) / float64(n-1)
		}
	}
	return c
}

// speed returns the speed at a place of the grid, rev/s.
func (c *crossing) speed(i int) float64 { return math.Exp(c.at[i]) }

// forget starts a new draw.
func (c *crossing) forget() { c.known = c.known[:0] }

// learn takes what the draw has at a speed, rev/s. Beyond the grid, and where there is
// no value, nothing is learnt.
func (c *crossing) learn(speed, over float64) {
	x := math.Log(speed)
	last := len(c.at) - 1
	if x < c.at[0]-1e-9 || x > c.at[last]+1e-9 || math.IsNaN(over) || math.IsInf(over, 0) {
		return
	}
	nominal := c.nominal(x)
	if math.IsInf(nominal, 0) {
		return
	}
	p := place{x, nominal, over - nominal}
	i := 0
	for i < len(c.known) && c.known[i].at < x {
		i++
	}
	c.known = append(c.known, place{})
	copy(c.known[i+1:], c.known[i:])
	c.known[i] = p
}

// nominal returns the nominal metric, straight between the speeds of the grid.
func (c *crossing) nominal(x float64) float64 {
	last := len(c.at) - 1
	if last == 0 {
		return c.curve[0]
	}
	t := (x - c.at[0]) / (c.at[last] - c.at[0]) * float64(last)
	i := min(max(int(t), 0), last-1)
	share := math.Min(math.Max(t-float64(i), 0), 1)
	if share == 0 {
		return c.curve[i]
	}
	if share == 1 {
		return c.curve[i+1]
	}
	return c.curve[i] + share*(c.curve[i+1]-c.curve[i])
}

// shift returns how far the draw lies above the nominal curve at a place, where that has a
// value.
func (c *crossing) shift(x, nominal float64) float64 {
	n := len(c.known)
	if n == 1 {
		p := c.known[0]
		return p.shift * nominal / p.nominal
	}
	i := 1
	for i < n-1 && c.known[i].at < x {
		i++
	}
	a, b := c.known[i-1], c.known[i]
	if b.at-a.at < 1e-12 {
		return b.shift
	}
	return a.shift + (x-a.at)/(b.at-a.at)*(b.shift-a.shift)
}

// asked returns whether the draw was asked within a distance of a place.
func (c *crossing) asked(x, distance float64) bool {
	for _, p := range c.known {
		if math.Abs(p.at-x) <= distance {
			return true
		}
	}
	return false
}

// find returns the break-even speed, rev/s: −Inf if the challenger is better at the
// lowest speed already, or at the lowest that has a value, +Inf if it never becomes better;
// NaN if it has no value at any speed. over returns what the draw has at a speed, K, NaN
// if nothing; level is the reference's, K. What it asked serves the search for another
// level in the same draw.
func (c *crossing) find(over func(speed float64) float64, level float64) float64 {
	most := max(mostAsked, len(c.known)+mostAsked-1) // another level may have been sought before
	for len(c.known) < most {
		x, f := c.guess(level)
		switch {
		case len(c.known) > 0 && x == c.at[0] && f < 0:
			if c.asked(x, 1e-9) {
				return math.Inf(-1)
			}
		case len(c.known) > 0 && f < 0:
			return c.search(over, level)
		case f <= 0:
			if c.asked(x, nearEnough) {
				return math.Exp(x)
			}
		case c.asked(x, nearLowest):
			if f > unclear {
				return math.Inf(1)
			}
			return c.search(over, level)
		}
		v := over(math.Exp(x))
		before := len(c.known)
		if c.learn(math.Exp(x), v); len(c.known) == before {
			break // no value there
		}
	}
	return c.search(over, level)
}

// guess returns where the shifted curve first falls below the level, and there 0; or the
// lowest speed, if it is below there already; or where it is lowest, if it never is. f is
// the difference there, below 0 if the curve is below the level where it begins.
func (c *crossing) guess(level float64) (x, f float64) {
	if len(c.known) == 0 {
		middle := len(c.at) / 2
		for i, v := range c.curve {
			if v-level <= 0 {
				return c.at[i], 0
			}
			if v < c.curve[middle] {
				middle = i
			}
		}
		return c.at[middle], c.curve[middle] - level
	}
	least := math.Inf(1)
	last := 0.0
	for i, xi := range c.at {
		g := math.Inf(1)
		if v := c.curve[i]; !math.IsInf(v, 1) {
			g = v - level + c.shift(xi, v)
		}
		if g < 0 {
			if i == 0 || math.IsInf(last, 1) {
				return xi, g
			}
			return c.root(i, last, g, level), 0
		}
		if g < least {
			least, x = g, xi
		}
		last = g
	}
	// A known place between two speeds of the grid may be lower than both.
	for _, p := range c.known {
		g := p.nominal - level + p.shift
		if g < least {
			least, x = g, p.at
		}
	}
	return x, least
}

// root returns where the shifted curve crosses the level between the places i−1 and i of
// the grid, whose values are a and b, of opposite signs: straight between them and the
// places asked.
func (c *crossing) root(i int, a, b, level float64) float64 {
	low, high := c.at[i-1], c.at[i]
	for _, p := range c.known {
		if p.at <= low || p.at >= high {
			continue
		}
		if g := p.nominal - level + p.shift; g < 0 != (a < 0) {
			high, b = p.at, g
			break
		} else {
			low, a = p.at, g
		}
	}
	return low + (high-low)*a/(a-b)
}

// findUpper returns the speed, rev/s, above which a challenger that is better at some speed
// stays worse: +Inf if it is better at the highest searched speed, or the highest that has
// a value. It goes on from where find has asked, in the same way, from the highest speed
// down.
func (c *crossing) findUpper(over func(speed float64) float64, level float64) float64 {
	most := max(2*mostAsked, len(c.known)+mostAsked)
	for len(c.known) > 0 && len(c.known) < most {
		x, below := c.guessUpper(level)
		switch {
		case math.IsNaN(x):
			return c.searchUpper(over, level)
		case below && c.asked(x, 1e-9):
			return math.Inf(1)
		case !below && c.asked(x, nearEnough):
			return math.Exp(x)
		}
		before := len(c.known)
		if c.learn(math.Exp(x), over(math.Exp(x))); len(c.known) == before {
			break // no value there
		}
	}
	return c.searchUpper(over, level)
}

// guessUpper returns where the shifted curve last rises above the level; or the highest
// speed, and that it is below the level there; NaN if it is below nowhere, or beside a
// speed without a value.
func (c *crossing) guessUpper(level float64) (x float64, below bool) {
	last := len(c.at) - 1
	above := math.Inf(1)
	for i := last; i >= 0; i-- {
		g := math.Inf(1)
		if v := c.curve[i]; !math.IsInf(v, 1) {
			g = v - level + c.shift(c.at[i], v)
		}
		switch {
		case g >= 0:
			above = g
		case i == last:
			return c.at[last], true
		case math.IsInf(above, 1):
			return math.NaN(), false
		default:
			return c.root(i+1, g, above, level), false
		}
	}
	return math.NaN(), false
}

// searchUpper looks at every speed of the grid from the highest down, and between those
// where the sign changes; if it never does, around the lowest place.
func (c *crossing) searchUpper(over func(float64) float64, level float64) float64 {
	c.searches++
	difference := differenceFrom(over, level)
	last := len(c.at) - 1
	values := make([]float64, len(c.at))
	lowest := last
	for i := last; i >= 0; i-- {
		values[i] = difference(c.speed(i))
		if values[i] < 0 {
			if i == last || math.IsInf(values[i+1], 1) {
				return math.Inf(1)
			}
			return solve.RootFrom(difference, c.speed(i), values[i], c.speed(i+1), values[i+1], 1e-6*c.speed(i+1)).X
		}
		if values[i] < values[lowest] {
			lowest = i
		}
	}
	low, high := c.speed(max(lowest-1, 0)), c.speed(min(lowest+1, last))
	if high > low {
		bottom := solve.Minimum(func(s float64) float64 { return math.Min(difference(s), 1e6) }, low, high, 1e-5*high)
		if end := difference(high); bottom.F < 0 && end > 0 && !math.IsInf(end, 1) {
			return solve.RootFrom(difference, bottom.X, bottom.F, high, end, 1e-6*high).X
		}
	}
	return math.Inf(1)
}

// differenceFrom returns the difference to a level, K, +Inf where there is no value.
func differenceFrom(over func(float64) float64, level float64) func(float64) float64 {
	return func(speed float64) float64 {
		v := over(speed) - level
		if math.IsNaN(v) {
			return math.Inf(1)
		}
		return v
	}
}

// search looks at every speed of the grid and between those where the sign changes; if
// it never does, around the lowest.
func (c *crossing) search(over func(float64) float64, level float64) float64 {
	c.searches++
	difference := differenceFrom(over, level)
	values := make([]float64, len(c.at))
	lowest := 0
	for i := range c.at {
		v := difference(c.speed(i))
		if v < 0 {
			if i == 0 {
				return math.Inf(-1)
			}
			return c.between(difference, c.speed(i-1), values[i-1], c.speed(i), v)
		}
		if values[i] = v; v < values[lowest] {
			lowest = i
		}
	}
	if math.IsInf(values[lowest], 1) {
		return math.NaN()
	}
	low, high := c.speed(max(lowest-1, 0)), c.speed(min(lowest+1, len(c.at)-1))
	if high > low {
		bottom := solve.Minimum(func(s float64) float64 { return math.Min(difference(s), 1e6) }, low, high, 1e-5*high)
		if bottom.F < 0 {
			return c.between(difference, low, difference(low), bottom.X, bottom.F)
		}
	}
	return math.Inf(1)
}

// between returns where the difference falls through zero between two speeds, at the
// first of which it may have no value; −Inf if it has none until it is below zero, as the
// challenger is then better wherever it has a value.
func (c *crossing) between(difference func(float64) float64, a, fa, b, fb float64) float64 {
	for math.IsInf(fa, 1) && b-a > 1e-6*b {
		middle := (a + b) / 2
		if f := difference(middle); f < 0 {
			b, fb = middle, f
		} else {
			a, fa = middle, f
		}
	}
	if math.IsInf(fa, 1) {
		return math.Inf(-1)
	}
	return solve.RootFrom(difference, a, fa, b, fb, 1e-6*b).X
}
