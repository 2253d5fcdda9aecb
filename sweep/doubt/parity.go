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

// parityPlaces returns the speeds of the reference to draw at, rev/s and rising: even steps
// up to its top speed, and its own, which takes the place of one between the ends that is
// near to it: more is drawn there, and so near the scatter of both would show as a kink.
func parityPlaces(top, own float64) []float64 {
	speeds := breakeven.ParitySpeeds(top, paritySteps)
	low, high := speeds[0], speeds[paritySteps]
	near := (high - low) / paritySteps / 2
	speeds = slices.DeleteFunc(speeds, func(v float64) bool { return v == own || v > low && v < high && math.Abs(v-own) < near })
	speeds = append(speeds, own)
	slices.Sort(speeds)
	return speeds
}

// parity computes how sure the break-even speed is at other speeds of the reference. A
// draw's challenger does not depend on them: what one speed has asked of it serves the
// next.
func (c *comparison) parity(into *Detail) {
	own := c.reference.rig.Speed
	speeds := parityPlaces(c.reference.rig.Fans.Fan.TopSpeed, own)

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
	bands := make([][2]collector, len(speeds)) // lower, upper
	points := make([]ParityPoint, len(speeds))
	shares := make([][4]int, len(speeds)) // exists, from start, never, worse again
	for k := range speeds {
		bands[k] = [2]collector{{perSI: unit.Over / unit.Times}, {perSI: unit.Over / unit.Times}}
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
				v, up := math.NaN(), math.NaN()
				if !bad {
					if level, err := dr.over(speed); err == nil {
						if v = c.crossing.find(over, level); v < math.Inf(1) {
							up = c.crossing.findUpper(over, level)
						}
					}
				}
				if math.IsNaN(v) {
					points[k].NoValue++
					continue
				}
				bands[k][0].add(v)
				shares[k][0] += b2i(!math.IsInf(v, 0))
				shares[k][1] += b2i(math.IsInf(v, -1))
				shares[k][2] += b2i(math.IsInf(v, 1))
				if !math.IsNaN(up) {
					bands[k][1].add(up)
					shares[k][3] += b2i(!math.IsInf(up, 0))
				}
			}
		}
		for k := range bands {
			bands[k][0].close()
			bands[k][1].close()
		}
	}
	for k := range points {
		p, all := &points[k], float64(parityBlocks*blockSize)
		p.Breakeven, p.Upper = bands[k][0].band(), bands[k][1].band()
		for j, at := range []*float64{&p.Exists, &p.FromStart, &p.Never, &p.Again} {
			*at = float64(shares[k][j]) / all
		}
		if r := &into.Result; p.Speed == own { // drawn more often already
			*p = ParityPoint{
				Speed: own, Breakeven: r.Breakeven, Exists: r.Exists, FromStart: r.FromStart, Never: r.Never,
				Upper: r.Upper, Again: r.Again, Draws: r.Draws, NoValue: r.NoBreakeven,
			}
		}
	}
	into.Parity = points
}
