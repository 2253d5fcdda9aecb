package fan

import "math"

// Draw is what a fan draws, and where that goes, in W.
type Draw struct {
	Supply float64 // electrical, from the supply
	Motor  float64 // electrical, into the motor
	Shaft  float64 // from motor to rotor
	Heat   float64 // ends as heat in the air that the fan moves
}

// Draw returns what the fan draws at a speed in rev/s, a share of its free-air flow
// and an inlet density in kg/m³:
//
//	P = P_e + (P_0 − P_e) (N/N_0)³ (ρ/ρ_0) π                                  [1]
//
// P_e is the loss of its electronics, the same at any speed; π the power over that in
// free air on a measured curve, else 1: that of axial fans changes by about ±20 %
// along the curve (common practice, no source).
//
// Heat is all of it if the motor sits in the stream, else the shaft power. Flow work
// is no exception: it turns to heat in the core's passages and behind them, and the
// whole rise of an ideal gas's temperature appears at the fan (steady-flow energy
// balance).
//
// Check: without a fixed loss twice the speed takes eight times the power. A fan of
// 40 mm has 15.6 W at 25 000 rpm and 0.84 W at 4 400 rpm on its sheet: P_e is 0.76 W.
// 155 W in the stream warm 0.1513 m³/s of air of 1.2 kg/m³ and 1006 J/(kg K) by 0.85 K.
func (f *Fan) Draw(speed, share, density float64) Draw {
	n := speed / f.RatedSpeed
	motor := (f.RatedPower - f.ElectronicsLoss) * n * n * n * density / f.RatedDensity
	if f.Curve != nil {
		motor *= f.Curve.Power(share)
	}
	d := Draw{Supply: f.ElectronicsLoss + motor, Motor: motor, Shaft: motor * f.MotorEfficiency}
	d.Heat = d.Supply
	if f.Motor == Outside {
		d.Heat = d.Shaft
	}
	return d
}

// MostAirPower returns the greatest static pressure times flow of the fan at rated speed
// and density, W, to about a per cent: no fan makes more than it draws.
//
// Check: a straight curve makes a quarter of free-air flow times shut-off pressure.
func (f *Fan) MostAirPower() float64 {
	const steps = 40
	most := 0.0
	for i := range steps {
		flow := f.FreeAirFlow * float64(i) / steps
		most = math.Max(most, flow*f.Pressure(f.RatedSpeed, flow, f.RatedDensity))
	}
	return most
}

// LeastDraw returns the least that the fan draws at any share of its free-air flow, at
// a speed in rev/s and an inlet density in kg/m³.
func (f *Fan) LeastDraw(speed, density float64) Draw {
	share := 1.0
	if f.Curve != nil {
		share = f.Curve.leastPower
	}
	return f.Draw(speed, share, density)
}

// MostDraw returns the most that the fan draws at any share of its free-air flow, at a
// speed in rev/s and an inlet density in kg/m³.
func (f *Fan) MostDraw(speed, density float64) Draw {
	share := 1.0
	if f.Curve != nil {
		share = f.Curve.mostPower
	}
	return f.Draw(speed, share, density)
}
