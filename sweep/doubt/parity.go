package doubt

import (
	"math"
	"slices"

	"finduel/model/quantity"
	"finduel/sweep"
	"finduel/sweep/breakeven"
)

const (
	paritySteps  = 16 // even steps of the reference's speed
	parityBlocks = 4  // blocks of draws at each
)

// parity computes how sure the break-even speed is at other speeds of the reference. A
// draw's challenger does not depend on them: what one speed has asked of it serves the
// next.
func (c *comparison) parity(into *Detail) {
	own := c.reference.rig.Speed
	speeds := append(breakeven.ParitySpeeds(c.reference.rig.Fans.Fan.TopSpeed, paritySteps), own)
	slices.Sort(speeds)
	speeds = slices.Compact(speeds)

	nominal := c.work.options.Model
	if nominal == nil {
		nominal = sweep.Physics
	}
	reference := c.reference
	reference.at, reference.widths = nil, nil
	if ready, err := sweep.Ready(nominal, reference.rig); err == nil {
		for _, speed := range speeds {
			if state, err := ready.At(speed); err == nil {
				reference.know(speed, &state)
			}
		}
	}
	if len(reference.at) == 0 {
		return
	}

	unit := quantity.Must("breakeven_speed").Shown
	bands := make([]collector, len(speeds))
	points := make([]ParityPoint, len(speeds))
	shares := make([][3]int, len(speeds)) // exists, from start, never
	for k := range speeds {
		bands[k].perSI = unit.Over / unit.Times
		points[k] = ParityPoint{Speed: speeds[k], Draws: parityBlocks * blockSize}
	}
	z := make([]float64, len(c.work.variables))
	var d, dr drawn
	over := func(speed float64) float64 {
		v, err := d.over(speed)
		if err != nil {
			return math.NaN()
		}
		return v
	}
	for n := range parityBlocks {
		cube := c.work.block(n, &c.reference).cube
		for i := range blockSize {
			for j := range z {
				z[j] = cube[j][i]
			}
			bad := c.challenger.draw(z, &d) != nil || reference.draw(z, &dr) != nil
			c.crossing.forget()
			if !bad {
				c.crossing.learn(c.speed, over(c.speed))
			}
			for k, speed := range speeds {
				v := math.NaN()
				if !bad {
					if level, err := dr.over(speed); err == nil {
						v = c.crossing.find(over, level)
					}
				}
				if math.IsNaN(v) {
					points[k].NoValue++
					continue
				}
				bands[k].add(v)
				shares[k][0] += b2i(!math.IsInf(v, 0))
				shares[k][1] += b2i(math.IsInf(v, -1))
				shares[k][2] += b2i(math.IsInf(v, 1))
			}
		}
		for k := range bands {
			bands[k].close()
		}
	}
	for k := range points {
		p, all := &points[k], float64(parityBlocks*blockSize)
		p.Breakeven = bands[k].band()
		p.Exists, p.FromStart, p.Never = float64(shares[k][0])/all, float64(shares[k][1])/all, float64(shares[k][2])/all
		if r := &into.Result; p.Speed == own { // drawn more often already
			*p = ParityPoint{Speed: own, Breakeven: r.Breakeven, Exists: r.Exists, FromStart: r.FromStart, Never: r.Never, Draws: r.Draws, NoValue: r.NoBreakeven}
		}
	}
	into.Parity = points
}
