package fan

import (
	"errors"
	"math"

	"finduel/model/quantity"
	"finduel/model/sound"
)

// Fan is one fan by its data sheet.
type Fan struct {
	RatedSpeed      float64 // speed of the rating, rev/s, above 0
	FreeAirFlow     float64 // volume flow without resistance at rated speed, m³/s, above 0
	ShutOffPressure float64 // static pressure without flow at rated speed and density, Pa, above 0
	RatedPower      float64 // electrical power at rated speed and density, W, above 0; with a measured curve in free air
	ElectronicsLoss float64 // part of it that is the same at any speed, W, 0 to below RatedPower
	RatedSound      float64 // sound pressure level at rated speed, at 1 m, dB(A); matters only without Readings and EstimatedSound, see Resolved
	RatedDensity    float64 // air density of the rating, kg/m³, above 0
	TopSpeed        float64 // highest speed, rev/s, above 0; only warned of, not enforced
	CurveExponent   float64 // m of the curve, 1 to 2; matters only without Curve
	Curve           *Curve  // shape of the measured curve; nil: none, the power law of CurveExponent
	RotorDiameter   float64 // m, above 0; 0: estimated from the free-air flow
	Blades          int     // 1 to 100; 0: not known
	SoundExponent   float64 // rise of sound with speed, dB for a tenfold speed, 30 to 80
	SoundDoubt      float64 // how far the level may be out either way, dB, 0.1 to 30; 0: as usual for where it comes from, see Resolved
	DriveVoltage    float64 // V, above 0

	// Where its level comes from, if not from RatedSound.
	Readings       *sound.Fitted // readings, which belong to the speeds at which they were taken; nil: none
	EstimatedSound bool          // flow and pressure, since no level is known; matters only without Readings

	// A propeller as a fan: its ratings and its curve follow from these, RotorDiameter
	// and Blades; see Resolved.
	Pitch             float64 // of the blades, m; 0: a fan by its data sheet
	ThrustCoefficient float64 // CT0; 0: that of the nearest in the table
	PowerCoefficient  float64 // CP0; 0: likewise

	// Its motor, if known: then power and current come from Drive. Else
	// MotorEfficiency stands for all of it.
	Brushless  Brushless // none if its SpeedConstant is 0
	Controller Controller

	MotorEfficiency float64 // shaft power over electrical power without ElectronicsLoss, above 0, to 1
	Motor           Motor   // where the motor's own heat goes
}

// Motor says where the motor sits.
type Motor int

// The places of the motor.
const (
	InStream Motor = iota // in the air stream, which takes up all electrical power
	Outside               // outside the stream, which takes up the shaft power only
)

// String returns the place as written in studies.
func (m Motor) String() string {
	if m == Outside {
		return "outside"
	}
	return "in stream"
}

// Placing says on which side of the core the fans sit.
type Placing int

// The placings.
const (
	Push     Placing = iota // before the core: the fans breathe room air and warm it
	Pull                    // behind the core: the fans breathe what leaves the core
	PushPull                // a bank before the core and an equal one behind it, in series
)

// String returns the placing as written in studies.
func (p Placing) String() string {
	switch p {
	case Pull:
		return "pull"
	case PushPull:
		return "push-pull"
	}
	return "push"
}

// Before reports whether fans stand before the core.
func (p Placing) Before() bool { return p != Pull }

// Behind reports whether fans stand behind the core.
func (p Placing) Behind() bool { return p != Push }

// Typical returns what is taken for a fan where its data sheet is silent: rating
// density 1.2 kg/m³ [2], a straight curve, 12 V, a motor in the stream (small
// axial fans have it in their hub) of an efficiency of 60 % (common practice, no
// source), no fixed loss, TypicalController, and sound that rises with 50 dB for a tenfold
// speed. The rated values are left at 0: there is no typical fan.
func Typical() Fan {
	return Fan{
		RatedDensity: 1.2, CurveExponent: 1, DriveVoltage: 12, MotorEfficiency: 0.6, Motor: InStream,
		SoundExponent: sound.FanExponent, Controller: TypicalController(),
	}
}

// Check returns joined *quantity.RangeError for every number that no fan can
// have.
func (f *Fan) Check() error {
	return errors.Join(
		positive(f.RatedSpeed, "rated_speed"),
		positive(f.FreeAirFlow, "free_air_flow"),
		positive(f.ShutOffPressure, "shut_off_pressure"),
		positive(f.RatedPower, "rated_power"),
		positive(f.RatedDensity, "rated_density"),
		positive(f.TopSpeed, "top_speed"),
		positive(f.DriveVoltage, "drive_voltage"),
		f.checkSound(),
		within(f.CurveExponent, 1, 2, "curve_exponent", "must lie between 1 and 2"),
		within(f.RotorDiameter, 0, 5, "rotor_diameter", "must lie between 0 and 5 m"),
		within(f.ElectronicsLoss, 0, 0.95*f.RatedPower, "electronics_loss", "must be from zero to 95 % of the rated power"),
		within(float64(f.Blades), 0, 100, "blades", "must be from 1 to 100, or 0 if not known"),
		within(f.MotorEfficiency, 1e-3, 1, "motor_efficiency", "must lie between 0.1 % and 100 %"),
	)
}

func positive(v float64, key string) error {
	return within(v, math.SmallestNonzeroFloat64, math.MaxFloat64, key, "must be above zero and finite")
}

// within is false for NaN too.
func within(v, low, high float64, key, rule string) error {
	if v >= low && v <= high {
		return nil
	}
	return &quantity.RangeError{Key: key, Value: v, Low: low, High: high, Rule: rule}
}
