package fan

// Limits of the affinity laws.
const (
	// AffinityReynolds is the lowest Reynolds number of a rotor, see Reynolds, at
	// which a data sheet was seen to follow the laws of flow and pressure: a fan of
	// 40 mm at 4 400 rpm does what 25 000 rpm foretell within about 3 %. Below,
	// losses grow and the curve is less sure.
	AffinityReynolds = 2e4
	// AffinityMach is the Mach number of the tips above which the laws begin to
	// fail, since the air is compressed (common practice, no source).
	AffinityMach = 0.3
)

// Reynolds returns the Reynolds number of a rotor, from the tip speed in m/s, the
// diameter in m and the air's kinematic viscosity in m²/s, above 0:
//
//	Re = u D/ν
//
// (definition; that of the blades' chord is about a tenth).
//
// Check: 120 mm at 2 000 rpm in 1.51e-5 m²/s is 1.0e5.
func Reynolds(tipSpeed, diameter, viscosity float64) float64 {
	return tipSpeed * diameter / viscosity
}

// TipMach returns the Mach number of the blade tips, from the tip speed and the
// speed of sound in m/s, above 0:
//
//	M = u/c
//
// (definition; the axial flow is left out).
//
// Check: 133 m/s in air of 20 °C, 343.2 m/s, is 0.388.
func TipMach(tipSpeed, soundSpeed float64) float64 { return tipSpeed / soundSpeed }
