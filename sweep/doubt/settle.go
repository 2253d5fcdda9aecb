package doubt

import "math"

// tally is how a number scatters from block to block: the running mean and variance of
// the finite ones, and the count of those that are not.
type tally struct {
	n, infinite int
	mean, m2    float64
}

func (t *tally) add(v float64) {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		t.infinite++
		return
	}
	t.n++
	d := v - t.mean
	t.mean += d / float64(t.n)
	t.m2 += d * (v - t.mean)
}

// scatter returns the standard deviation of the mean of all blocks, JCGM 101 7.9.4 f)
// [2]:
//
//	s² = Σ (y_h − ȳ)² / (h (h − 1))
//
// 0 if the number is infinite in every block, which no further block would change;
// infinite if only in some, see collector.scatter, or with fewer than two blocks.
func (t *tally) scatter() float64 {
	switch {
	case t.n == 0 && t.infinite > 1:
		return 0
	case t.infinite > 0 || t.n < 2:
		return math.Inf(1)
	}
	n := float64(t.n)
	return math.Sqrt(t.m2 / (n * (n - 1)))
}

// resolution returns the step to which a number with the standard uncertainty u is
// worth printing: the largest of 1, 2 and 5 times a power of ten that is at most u/4.
// JCGM 101 7.9.2 [2] takes a power of ten, at most u with one significant digit of u;
// that would print 1.9 ± 1.3 K as 2 ± 1 K. It is 0 for u of 0 or infinity.
//
// Check: 0.2 for 1.3, 0.1 for 0.42, 200 for 1100.
func resolution(u float64) float64 {
	if !(u > 0) || math.IsInf(u, 0) {
		return 0
	}
	power := math.Pow(10, math.Floor(math.Log10(u/4)))
	for _, times := range []float64{5, 2} {
		if times*power <= u/4 {
			return times * power
		}
	}
	return power
}

// stable returns whether a number that scatters by s, a standard deviation, holds the
// digits down to a step: 2s must be below half of the step (JCGM 101 7.9.4 h [2]).
func stable(s, step float64) bool { return 2*s <= step/2 }

// holds returns the smallest of 1, 2 and 5 times a power of ten to which a number that
// scatters by s is stable; 0 for no scatter, and for one that is not known.
func holds(s float64) float64 {
	if !(s > 0) || math.IsInf(s, 0) {
		return 0
	}
	power := math.Pow(10, math.Floor(math.Log10(4*s)))
	for _, times := range []float64{1, 2, 5} {
		if stable(s, times*power*(1+1e-12)) {
			return times * power
		}
	}
	return 10 * power
}

// Band is the median of a result and the interval that it lies in with a probability of
// 95 %, half of the rest on either side (JCGM 101 7.7.2 [2]).
type Band struct {
	Median, Low, High float64 // in the unit of the result; NaN if no draw has a value

	// Steps are to what each of Low, Median and High is worth printing, and stable under
	// other draws (JCGM 101 7.9 [2]): 1, 2 or 5 times a power of ten of the unit in which
	// the result is shown; here in SI. 0 if nothing can be said of it.
	Steps     [3]float64
	Undecided [3]bool // whether more draws might make the finite one infinite, or the infinite one finite
	Settled   bool    // whether all Steps are as fine as the doubt deserves; not if the cap on draws came first
}

// closed returns whether both ends are numbers that are finite.
func (b *Band) closed() bool {
	width := b.High - b.Low
	return !math.IsNaN(width) && !math.IsInf(width, 0)
}

// collector gathers one result from all blocks.
type collector struct {
	perSI             float64 // of the unit in which the result is printed, for one in SI
	all, block        sample
	low, median, high tally
}

func (c *collector) add(v float64) {
	c.all.add(v)
	c.block.add(v)
}

// close ends a block.
func (c *collector) close() {
	if c.block.count > 0 {
		q := c.block.quantiles(bandAt...)
		c.low.add(q[0])
		c.median.add(q[1])
		c.high.add(q[2])
	}
	c.block.clear()
}

// uncertainty returns a quarter of a 95 % interval, the standard uncertainty of a
// normal result; with one infinite end, half of the other side; NaN if the median is
// infinite or both ends are.
func uncertainty(low, median, high float64) float64 {
	switch infLow, infHigh := math.IsInf(low, 0), math.IsInf(high, 0); {
	case infLow && infHigh || math.IsInf(median, 0):
		return math.NaN()
	case infLow:
		return (high - median) / 2
	case infHigh:
		return (median - low) / 2
	}
	return (high - low) / 4
}

// open returns whether the number was infinite in some blocks and not in others.
func (t *tally) open() bool { return t.infinite > 0 && t.n > 0 }

func (c *collector) tallies() [3]*tally { return [3]*tally{&c.low, &c.median, &c.high} }

// scatter returns the standard deviations of low end, median and high end, in the unit in
// which the result is printed: from block to block, or where a number is infinite in some
// blocks only, by ranks, which lie 4 standard deviations apart; infinite where just one of
// the two is.
func (c *collector) scatter() (s [3]float64) {
	for i, t := range c.tallies() {
		if s[i] = c.perSI * t.scatter(); !t.open() {
			continue
		}
		q := c.ranks(i)
		if s[i] = c.perSI * (q[1] - q[0]) / 4; q[0] == q[1] {
			s[i] = 0
		}
	}
	return s
}

// settled returns whether the digits worth printing are stable, which they are of a result
// that no draw has.
func (c *collector) settled() bool {
	if c.all.count == 0 {
		return true
	}
	end := func(t *tally, sign int) float64 {
		if t.n == 0 {
			return math.Inf(sign)
		}
		return t.mean
	}
	step := resolution(c.perSI * uncertainty(end(&c.low, -1), end(&c.median, 1), end(&c.high, 1)))
	for _, s := range c.scatter() {
		if s != 0 && !stable(s, step) {
			return false
		}
	}
	return true
}

// band returns the result.
func (c *collector) band() Band {
	q := c.all.quantiles(bandAt...)
	b := Band{Low: q[0], Median: q[1], High: q[2], Settled: c.settled()}
	worth := resolution(c.perSI * uncertainty(b.Low, b.Median, b.High))
	scatter := c.scatter()
	for i, t := range c.tallies() {
		b.Undecided[i] = t.open() && math.IsInf(scatter[i], 1)
		if b.Undecided[i] {
			scatter[i] = c.nearer(i, [3]float64{b.Low, b.Median, b.High}[i])
		}
		b.Steps[i] = math.Max(worth, holds(scatter[i])) / c.perSI
	}
	return b
}

// nearer returns by how much an end of the band scatters towards where it is finite, in the
// unit in which the result is printed, of an end that is infinite on the other side; v is
// its value. 0 if that is infinite.
func (c *collector) nearer(end int, v float64) float64 {
	for _, q := range c.ranks(end) {
		if s := c.perSI * math.Abs(v-q) / 2; !math.IsInf(s, 0) && !math.IsNaN(s) {
			return s
		}
	}
	return 0
}

// ranks returns the quantiles between which an end of the band lies with 95 %: those of the
// probabilities p ± 2√(p(1 − p)/n).
func (c *collector) ranks(end int) []float64 {
	p := bandAt[end]
	reach := 2 * math.Sqrt(p*(1-p)/float64(c.all.count))
	return c.all.quantiles(math.Max(p-reach, 0), math.Min(p+reach, 1))
}

// leastBlocks is how many blocks there are at least: fewer say too little of how they
// scatter.
const leastBlocks = 4
