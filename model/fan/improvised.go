package fan

import "math"

// Resolved returns the fan as it works, and of a propeller its characteristic at rated
// speed, else nil. A propeller, which is a fan with a pitch, gets its ratings and its
// curve from that; its coefficients change by a few per cent with speed, which is left
// out. Of any fan the level at rated speed and its doubt are those that follow from
// where the level comes from: ±5 dB of a rated level and of readings, or twice their
// scatter if that is more, and ±10 dB of an estimate [7]. It returns the errors of
// Propeller.Check; such a propeller has no estimate.
func (f Fan) Resolved() (Fan, *Characteristic, error) {
	if f.Pitch == 0 {
		f.settleSound()
		return f, nil, nil
	}
	p := Propeller{f.RotorDiameter, f.Pitch, f.Blades, f.ThrustCoefficient, f.PowerCoefficient}
	if err := p.Check(); err != nil {
		return f, nil, err
	}
	c := p.At(f.RatedSpeed)
	f.FreeAirFlow = c.FreeAirFlow(f.RatedSpeed)
	f.ShutOffPressure = c.ShutOffPressure(f.RatedSpeed, f.RatedDensity)
	f.RatedPower = f.ElectronicsLoss + c.FreeAirPower(f.RatedSpeed, f.RatedDensity)/f.MotorEfficiency
	shape, static := c.Shape(), c.StaticShare()
	curve := &Curve{points: shape.Count, dataFrom: static}
	copy(curve.share[:], shape.Flow[:shape.Count])
	copy(curve.pressure[:], shape.Pressure[:shape.Count])
	copy(curve.power[:], shape.Power[:shape.Count])
	curve.fillSlopes()
	f.Curve = curve
	f.settleSound()
	return f, &c, nil
}

// sheetDoubt is how far the pressure of a fan by its data sheet or a measured curve may
// be out either way, as a share (common practice, no source).
const sheetDoubt = 0.10

// PressureDoubt returns how far the fan's pressure may be out at a share of its
// free-air flow, as shares of it, low end negative: ±10 % by a data sheet or a measured
// curve (common practice, no source), of a propeller what Characteristic.Doubt says of
// its characteristic c, nil for other fans.
func PressureDoubt(c *Characteristic, share float64) (low, high float64) {
	if c == nil {
		return -sheetDoubt, sheetDoubt
	}
	d := c.Doubt(math.Max(share, 0))
	return d.PressureLow, d.PressureHigh
}
