package fan

import (
	"errors"
	"math"
)

// Brushless is a brushless motor by the constants of its data sheet. The model is
// that of a motor with a commutator [4]; the controller's stepping, the iron's
// losses beyond I_0, and the winding's resistance as it warms, 0.39 % more a kelvin,
// are not in it.
type Brushless struct {
	SpeedConstant float64 // Kv, rad/s per V, above 0; data sheets give rpm/V, 9.549 times as much
	Resistance    float64 // of the winding between two leads, Ω, above 0
	NoLoadCurrent float64 // I_0, A, 0 or more
	MostCurrent   float64 // A, that the motor may draw; 0: not stated
}

// Check returns joined *quantity.RangeError for what no motor can be.
func (m *Brushless) Check() error {
	return errors.Join(
		within(m.SpeedConstant, 0.1, 1e4, "speed_constant", "must lie between 1 and 95000 rpm/V"),
		within(m.Resistance, 1e-5, 1e3, "winding_resistance", "must lie between 0.00001 and 1000 ohm"),
		within(m.NoLoadCurrent, 0, 1e3, "no_load_current", "must lie between 0 and 1000 A"),
		within(m.MostCurrent, 0, 1e4, "motor_most_current", "must lie between 0 and 10000 A"),
	)
}

// Current returns the current, A, for a shaft torque in N m:
//
//	I = Q Kv + I_0                                                     [4]
//
// so that an ampere more makes 1/Kv of torque, 3.979 mN m of 2400 rpm/V.
//
// Check: 2400 rpm/V and 1 A without load take 10 A for 35.81 mN m.
func (m *Brushless) Current(torque float64) float64 {
	return torque*m.SpeedConstant + m.NoLoadCurrent
}

// Voltage returns the voltage, V, at a speed in rev/s and a current in A:
//
//	V = ω/Kv + I R                                                     [4]
//
// Check: 2400 rpm/V and 0.05 Ω take 16 V for 37 200 rpm at 10 A.
func (m *Brushless) Voltage(speed, current float64) float64 {
	return 2*math.Pi*speed/m.SpeedConstant + current*m.Resistance
}

// NoLoadSpeed returns the speed without load, rev/s, at a voltage in V:
//
//	N = Kv (V − I_0 R)/(2π)                                            [4]
//
// 0 if the voltage does not drive the no-load current.
//
// Check: 2600 rpm/V at 12 V turn 31 200 rpm, I_0 R left out.
func (m *Brushless) NoLoadSpeed(voltage float64) float64 {
	return m.SpeedConstant * math.Max(voltage-m.NoLoadCurrent*m.Resistance, 0) / (2 * math.Pi)
}

// Efficiency returns shaft power over electrical power at a voltage in V and a
// current in A, both above 0:
//
//	η = (1 − I_0/I)(1 − I R/V)                                         [4]
//
// Check: 16 V, 10 A, 0.05 Ω, 1 A without load make 0.8719.
func (m *Brushless) Efficiency(voltage, current float64) float64 {
	return (1 - m.NoLoadCurrent/current) * (1 - current*m.Resistance/voltage)
}

// BestCurrent returns the current of the best efficiency, A, at a voltage in V:
//
//	I* = √(V I_0/R)
//
// the maximum of Efficiency.
//
// Check: 16 V, 0.05 Ω, 1 A without load make 17.889 A.
func (m *Brushless) BestCurrent(voltage float64) float64 {
	return math.Sqrt(voltage * m.NoLoadCurrent / m.Resistance)
}

// BestEfficiency returns the best efficiency at a voltage in V:
//
//	η* = (1 − √(I_0 R/V))²
//
// that at BestCurrent; 0 if the voltage does not drive the no-load current.
//
// Check: 16 V, 0.05 Ω, 1 A without load make 0.89132.
func (m *Brushless) BestEfficiency(voltage float64) float64 {
	short := 1 - math.Sqrt(m.NoLoadCurrent*m.Resistance/voltage)
	return math.Max(short, 0) * math.Max(short, 0)
}

// Heat returns what stays in the motor as heat, W, at a voltage in V and a current
// in A:
//
//	P_h = I² R + I_0 (V − I R)                                         [4]
//
// Check: 16 V, 10 A, 0.05 Ω, 1 A without load leave 20.5 W.
func (m *Brushless) Heat(voltage, current float64) float64 {
	drop := current * m.Resistance
	return current*drop + m.NoLoadCurrent*(voltage-drop)
}
