package fan

import (
	"errors"
	"math"

	"finduel/model/quantity"
	"finduel/model/sound"
)

// Shares of free-air flow below which an axial fan misbehaves (common practice,
// no source).
const (
	StallRegion = 0.60 // below: the saddle of many axial fans, flow less sure
	DeepStall   = 0.35 // below: stalled blades, noise, less flow than the curve says
)

// Bank is a number of equal fans side by side at one speed: each moves its share
// of the air against the same pressure.
type Bank struct {
	Fan   Fan
	Count int // 1 or more
}

// Check returns joined *quantity.RangeError for what no bank can be.
func (b *Bank) Check() error {
	err := b.Fan.Check()
	if b.Count < 1 {
		err = errors.Join(err, &quantity.RangeError{Key: "fans", Value: float64(b.Count), Low: 1, High: math.Inf(1), Rule: "must be one or more"})
	}
	return err
}

// Pressure returns the static pressure, Pa, of the bank at a speed in rev/s, the
// volume flow of all fans in m³/s and the inlet density in kg/m³: that of one fan
// with its share of the flow.
func (b *Bank) Pressure(speed, flow, density float64) float64 {
	return b.Fan.Pressure(speed, flow/float64(b.Count), density)
}

// FreeFlow returns the volume flow of all fans without resistance, m³/s.
func (b *Bank) FreeFlow(speed float64) float64 {
	return b.Fan.FreeFlow(speed) * float64(b.Count)
}

// Power returns the electrical power of all fans, W, at a speed in rev/s and an
// inlet density in kg/m³.
func (b *Bank) Power(speed, density float64) float64 {
	return b.Fan.Power(speed, density) * float64(b.Count)
}

// HeatToAir returns how much of an electrical power, W, of the bank ends in the
// air, W; see Fan.HeatToAir.
func (b *Bank) HeatToAir(power float64) float64 { return b.Fan.HeatToAir(power) }

// DriveCurrent returns the current of all fans together at their drive voltage,
// A, at a speed in rev/s and an inlet density in kg/m³: power over voltage.
//
// Check: 11.76 W at 12 V is 0.98 A.
func (b *Bank) DriveCurrent(speed, density float64) float64 {
	return b.Power(speed, density) / b.Fan.DriveVoltage
}

// Sound returns the level of all fans together at 1 m, dB(A), at a speed in
// rev/s; see sound.AtSpeed and sound.SumOfEqual.
func (b *Bank) Sound(speed float64) float64 {
	return sound.SumOfEqual(sound.AtSpeed(b.Fan.RatedSound, b.Fan.RatedSpeed, speed, sound.FanExponent), b.Count)
}
