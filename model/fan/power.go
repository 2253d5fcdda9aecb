package fan

// Power returns the electrical power, W, at a speed in rev/s and an inlet density
// in kg/m³: it grows with N³ ρ.                                               [1]
//
// It is taken as the same all along the curve: that of axial fans changes by
// about ±20 % (common practice, no source). Small fans whose electronics and
// bearings take a fixed share draw more at low speed than this says: the data sheet
// of one of 40 mm has 15.6 W at 25 000 rpm and 0.84 W at 4 400 rpm, ten times what
// the law leaves.
//
// Check: twice the speed takes eight times the power.
func (f *Fan) Power(speed, density float64) float64 {
	n := speed / f.RatedSpeed
	return f.RatedPower * n * n * n * density / f.RatedDensity
}

// HeatToAir returns how much of an electrical power, W, ends as heat in the air
// that the fan moves, W: all of it if the motor sits in the stream, else the shaft
// power. Flow work is no exception: it turns to heat in the core's passages and
// behind them, and the whole rise of an ideal gas's temperature appears at the
// fan (steady-flow energy balance).
//
// Check: 155 W in the stream warm 0.1513 m³/s of air of 1.2 kg/m³ and
// 1006 J/(kg K) by 0.85 K.
func (f *Fan) HeatToAir(power float64) float64 {
	if f.Motor == Outside {
		return power * f.MotorEfficiency
	}
	return power
}
