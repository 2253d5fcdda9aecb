package fan

import "math"

// freeFlowCoefficient is the flow coefficient φ = 4V/(π² D³ N) of small axial
// fans at free-air flow. Data sheets of fans of 40 to 120 mm give 0.20 to 0.31 on a
// rotor taken from the frame, and 0.35 on the 110 mm that a fan of 120 mm sweeps (common
// practice, no source); the cube root makes that 8 % too small to 10 % too large a
// diameter.
const freeFlowCoefficient = 0.26

// Diameter returns the rotor diameter, m: as given, or estimated from the
// free-air flow with a flow coefficient of 0.26:
//
//	D = [4 V_0 / (π² φ N_0)]^(1/3)
//
// from the definition of φ; the coefficient is from data sheets, see above.
//
// Check: 54 m³/h at 25 000 rpm make 38.3 mm; the rotor of that fan has about 38 mm.
func (f *Fan) Diameter() float64 {
	if f.RotorDiameter > 0 {
		return f.RotorDiameter
	}
	return math.Cbrt(4 * f.FreeAirFlow / (math.Pi * math.Pi * freeFlowCoefficient * f.RatedSpeed))
}

// TipSpeed returns the speed of the blade tips, m/s, at a speed in rev/s:
//
//	u = π D N
//
// Check: 127 mm at 20 000 rpm is 133.0 m/s.
func (f *Fan) TipSpeed(speed float64) float64 {
	return math.Pi * f.Diameter() * speed
}
