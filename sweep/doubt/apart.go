package doubt

import "math"

// apartBlocks is how many blocks of draws are made in common and apart.
const apartBlocks = 16

// apart computes by how much the difference would seem less sure if no error were common:
// how many times as wide its interval is if every error is drawn for each setup on its own.
// Nothing is left if no error is common, or if a draw has no difference.
func (c *comparison) apart(into *Detail) {
	options := c.work.options
	if options.Separate {
		return
	}
	options.Separate = true
	separate := newWork(c.work.plan, options)
	if len(separate.variables) == len(c.work.variables) {
		return
	}
	common, ok := c.width()
	if !ok {
		return
	}
	if wide, ok := separate.comparison(searched{design: c.answer.design, from: c.answer.from, to: c.answer.to}).width(); ok {
		into.Apart = common.times(wide)
	}
}

// width is the width of a 95 % interval and by how much it scatters, a standard deviation.
type width struct{ value, scatter float64 }

// times returns how many times as wide as this another width is, with twice its standard
// deviation either way: of a quotient the squares of the relative ones add up [1, 5.1.6], as
// both scatter on their own.
func (w width) times(other width) Index {
	ratio := other.value / w.value
	reach := 2 * ratio * math.Hypot(w.scatter/w.value, other.scatter/other.value)
	return Index{Value: ratio, Low: ratio - reach, High: ratio + reach}
}

// width returns the width of the interval of the difference, K; false if a draw has none, or
// all have the same.
func (c *comparison) width() (width, bool) {
	if c.failure != "" {
		return width{}, false
	}
	all := collector{perSI: 1}
	z := make([]float64, len(c.work.variables))
	var d drawn
	for n := range apartBlocks {
		b := c.block(n)
		for i := range blockSize {
			for j := range z {
				z[j] = b.cube[j][i]
			}
			if b.why[i] != nil || c.challenger.draw(z, &d) != nil {
				return width{}, false
			}
			v, err := d.over(c.speed)
			if err != nil {
				return width{}, false
			}
			all.add(v - b.reference[i])
		}
		all.close()
	}
	band, scatter := all.band(), all.scatter()
	w := width{band.High - band.Low, math.Hypot(scatter[0], scatter[2])}
	return w, w.value > 0
}
