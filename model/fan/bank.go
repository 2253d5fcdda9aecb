package fan

import (
	"errors"
	"math"

	"finduel/model/quantity"
	"finduel/model/solve"
)

// Shares of free-air flow below which an axial fan without a measured curve is taken
// to misbehave (common practice, no source).
const (
	StallRegion = 0.60 // below: the saddle of many axial fans, flow less sure
	DeepStall   = 0.35 // below: stalled blades, noise, less flow than the curve says
)

// Bank is a number of equal fans side by side at one speed: each that turns moves its
// share of the air against the same pressure, and air flows back through each that
// stands still.
type Bank struct {
	Fan     Fan
	Count   int // 1 or more
	Stopped int // of them, 0 to Count - 1
}

// Check returns joined *quantity.RangeError for what no bank can be.
func (b *Bank) Check() error {
	err := b.Fan.Check()
	if b.Count < 1 {
		err = errors.Join(err, &quantity.RangeError{Key: "fans", Value: float64(b.Count), Low: 1, High: math.Inf(1), Rule: "must be one or more"})
	}
	if b.Stopped < 0 || b.Stopped >= max(b.Count, 1) {
		err = errors.Join(err, &quantity.RangeError{Key: "stopped_fans", Value: float64(b.Stopped), Low: 0, High: float64(b.Count - 1), Rule: "must leave one fan turning"})
	}
	return err
}

// Turning returns how many fans turn.
func (b *Bank) Turning() int { return b.Count - b.Stopped }

// Pressure returns the static pressure, Pa, of the bank at a speed in rev/s, the
// volume flow that leaves it in m³/s and the inlet density in kg/m³: that of one
// turning fan with its share of the flow and of what flows back.
func (b *Bank) Pressure(speed, flow, density float64) float64 {
	return b.Fan.Pressure(speed, b.FanFlow(speed, flow, density), density)
}

// backFlow is the discharge coefficient of the rotor disc of a fan that stands still:
// 0.3 to 0.6 (from memory).
const backFlow = 0.4

// FanFlow returns the volume flow of each turning fan, m³/s, when a volume flow, m³/s,
// leaves the bank at a speed in rev/s and an inlet density in kg/m³. Of n fans with k
// standing still
//
//	(n − k) V_fan = V + k C_d (π/4)D² (2p/ρ)^½,  C_d = 0.4
//
// p being the pressure behind the fans; where they are pulled through, p < 0 and the
// flow through a standing fan goes forward.
//
// Check: with none standing it is an even share.
func (b *Bank) FanFlow(speed, flow, density float64) float64 {
	turning := float64(b.Turning())
	if b.Stopped == 0 {
		return flow / turning
	}
	d := b.Fan.Diameter()
	open := float64(b.Stopped) * backFlow * math.Pi / 4 * d * d * math.Sqrt(2/density)
	free := b.Fan.FreeFlow(speed)
	excess := func(each float64) float64 {
		p := b.Fan.Pressure(speed, each, density)
		return turning*each - flow - open*math.Copysign(math.Sqrt(math.Abs(p)), p)
	}
	// Below free air air flows back, beyond it forward: which of the two tells excess.
	low, high := 0.0, free
	for excess(high) < 0 {
		low, high = high, 2*high
	}
	return solve.Root(excess, low, high, 1e-13*high).X
}

// FreeFlow returns the volume flow of all turning fans without resistance, m³/s;
// nothing flows back then.
func (b *Bank) FreeFlow(speed float64) float64 {
	return b.Fan.FreeFlow(speed) * float64(b.Turning())
}
