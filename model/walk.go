package model

import "math"

// Walk asks a Ready for one fan speed after another. Each search begins where the ones
// before it lead to: at speeds as close as a hundredth of the fan's own it looks at fans
// and coolant about half as often as a search from scratch, at closer ones once.
// A state differs from that of Ready.At by less than 1e-9, relative; by how much depends
// on the speeds that were asked for before it, and on nothing else. The air power of
// push-pull is the sum of what both sides do, of which one may brake as much as the other
// drives: what is left differs by less than 1e-9 of either.
//
// A Walk belongs to one goroutine. The Ready is only read.
type Walk struct {
	ready *Ready
	last  hint // where the last searches ended

	flow         course // of what hint has, over speed
	film, pumped course // likewise, over how long the air stays in the core
	steep, slope chord  // likewise, over speed
}

// hint is where the searches for a state may begin, and where they ended: the root by the
// last slope from where they looked last, which is nearer than that is. Nothing is known
// if it is zero.
type hint struct {
	flow   float64 // mass flow through the core over that in free air
	steep  float64 // how fast the excess of the fans' pressure falls with flow there, over resistance/flow; 0: not known
	film   float64 // film temperature of the coolant, K
	pumped float64 // flow of the coolant that a pump moves, m³/s; 0: not known
	slope  float64 // rise with the film temperature of what exchange brings to zero, K/K; 0: not known
}

// Walk returns a walk that has asked for nothing yet.
func (p *Ready) Walk() Walk { return Walk{ready: p} }

// To fills in the steady state at a fan speed in rev/s, which must be above 0; errors are
// those of Evaluate and leave the state as it was. After an error the next search begins
// from scratch.
func (w *Walk) To(speed float64, st *State) error {
	// Over 1/√speed, and over 1/√(speed flow) of what the air's time in the core decides,
	// most quantities run nearly straight.
	x := 1 / math.Sqrt(speed)
	ahead := w.last
	if w.flow.n > 0 {
		ahead.flow = w.flow.at(x)
		stay := x / math.Sqrt(ahead.flow)
		ahead.film = w.film.at(stay)
		if ahead.pumped != 0 {
			ahead.pumped = w.pumped.at(stay)
		}
		ahead.steep, ahead.slope = w.steep.at(x), w.slope.at(x)
	}
	h := ahead
	if err := w.ready.at(st, speed, &h); err != nil {
		*w = w.ready.Walk()
		return err
	}
	if h.steep != ahead.steep { // else it was not seen
		w.steep.add(x, h.steep)
	}
	if h.slope != ahead.slope {
		w.slope.add(x, h.slope)
	}
	w.flow.add(x, h.flow)
	stay := x / math.Sqrt(h.flow)
	w.film.add(stay, h.film)
	if h.pumped != 0 {
		w.pumped.add(stay, h.pumped)
	}
	w.last = h
	return nil
}

// chord foretells a quantity by the line through its last two values.
type chord struct{ x, value, slope float64 }

func (c *chord) at(x float64) float64 { return c.value + c.slope*(x-c.x) }

// add takes in a value, not 0, at x.
func (c *chord) add(x, value float64) {
	if c.value != 0 && x != c.x {
		c.slope = (value - c.value) / (x - c.x)
	}
	c.x, c.value = x, value
}

// course foretells a quantity by the polynomial through its last values, in Newton's
// form: Σ difference[k] Π (x − x[j]), j < k.
type course struct {
	n          int
	x          [pastStates]float64 // of the values, the newest first
	difference [pastStates]float64 // divided differences of the newest 1, 2, … values
}

// pastStates is from how many values the next one is foretold, where that many help.
const pastStates = 8

// at returns the value at x; there must be one. Terms count as long as each is smaller
// than the one before: those beyond say nothing where a correlation changes hands among
// the values, or far away from values so close together that their rounding shows.
func (c *course) at(x float64) float64 {
	value, last, product := c.difference[0], math.Abs(c.difference[0]), 1.0
	for k := 1; k < c.n; k++ {
		product *= x - c.x[k-1]
		term := c.difference[k] * product
		size := math.Abs(term)
		if !(size < last) {
			break
		}
		value += term
		last = size
	}
	return value
}

// add takes in a value at x. If there was one at the same x, that one and those before it
// are forgotten.
func (c *course) add(x, value float64) {
	n := c.n
	var over [pastStates]float64 // one over the ways from the past values: they do not wait for each other
	for k := range n {
		if x == c.x[k] {
			n = k
			break
		}
		over[k] = 1 / (x - c.x[k])
	}
	c.n = min(n+1, pastStates)
	for k := range c.n {
		c.difference[k], value = value, (value-c.difference[k])*over[k]
	}
	copy(c.x[1:], c.x[:])
	c.x[0] = x
}
