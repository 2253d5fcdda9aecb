package breakeven

import "math"

// Interval is a stretch of fan speeds over which challenger and reference differ by
// no more than a margin.
type Interval struct {
	Low, High         float64 // rev/s
	OpenLow, OpenHigh bool    // whether it ends there only because the search, or the challenger's value, does
}

// Width returns how long the stretch is, rev/s.
func (v Interval) Width() float64 { return v.High - v.Low }

// widest is the width of a tie, over the break-even speed in it, above
// which the break-even is ill-determined (common practice, no source).
const widest = 0.1

// around returns the stretch round a speed over which the difference stays within
// margin, K, of zero. The speed must be one where it does.
func (c *curve) around(speed, margin float64) Interval {
	v := Interval{Low: speed, High: speed}
	v.Low, v.OpenLow = c.leave(speed, margin, -1)
	v.High, v.OpenHigh = c.leave(speed, margin, 1)
	return v
}

// leave goes from a speed to one side (-1 down, +1 up) and returns where the
// difference leaves the margin; it reports true if it does not, up to where the
// curve ends.
func (c *curve) leave(speed, margin float64, side int) (float64, bool) {
	last := sample{speed, 0}
	for i := range c.samples {
		s := c.samples[i]
		if side < 0 {
			s = c.samples[len(c.samples)-1-i]
		}
		if (s.speed-speed)*float64(side) < 0 {
			continue
		}
		if math.Abs(s.value) <= margin {
			last = s
			continue
		}
		if s.missing() {
			return last.speed, true
		}
		at, _, _ := c.level(last, s, math.Copysign(margin, s.value))
		return at, false
	}
	return last.speed, true
}

// sensible returns the lowest speed at which the difference is within margin, K, of
// its least, and reports false if that is where the curve begins.
func (c *curve) sensible(least, margin float64) (speed float64, inside bool) {
	for i, s := range c.samples {
		if s.value > least+margin {
			continue
		}
		if i == 0 || c.samples[i-1].missing() {
			return s.speed, false
		}
		at, _, _ := c.level(c.samples[i-1], s, least+margin)
		return at, true
	}
	return c.low, false
}
