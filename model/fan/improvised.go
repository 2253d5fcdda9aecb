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
	curve.fill()
	f.Curve = curve
	f.settleSound()
	return f, &c, nil
}

// sheetDoubt is how far the pressure of a fan by its data sheet or a measured curve may
// be out either way, as a share (common practice, no source).
const sheetDoubt = 0.10

// PressureDoubt returns how far the fan's static pressure may be out, Pa, low end
// negative, that makes pressure, Pa, at a speed in rev/s, with the flow of the one fan in
// m³/s and the air's density in kg/m³: ±10 % of it by a data sheet or a measured curve (common practice, no source).
//
// What is in doubt of a propeller, whose characteristic is c, nil for other fans, is the
// total pressure; its static pressure is what that exceeds the head of the disc flow by,
// and is out by as many pascals:
//
//	δp = δ (p + ½ρ(V/A)²)
//
// with the shares δ of Characteristic.Doubt. Near free air that is more than there is of
// static pressure.
//
// Check: in free air, where p is 0, of a propeller measured in flight ±15 % of the head.
func (f *Fan) PressureDoubt(c *Characteristic, pressure, speed, flow, density float64) (low, high float64) {
	if c == nil {
		return -sheetDoubt * math.Abs(pressure), sheetDoubt * math.Abs(pressure)
	}
	d := c.Doubt(math.Max(flow/f.FreeFlow(speed), 0))
	through := flow / (math.Pi / 4 * c.Diameter * c.Diameter)
	total := math.Max(pressure+density/2*through*through, 0)
	return d.PressureLow * total, d.PressureHigh * total
}
