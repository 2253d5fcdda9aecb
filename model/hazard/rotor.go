package hazard

import "math"

// RootStress returns the stress from rotation at the root of a blade of uniform
// section, Pa, from the density of its material in kg/m³, the tip speed in m/s and the
// hub ratio r_h/R, 0 to below 1:
//
//	σ = ½ ρ u² (1 − (r_h/R)²)                                          [1]
//
// A tapered blade has less. Thrust, gyroscopic load and fatigue come on top: keep the
// stress below a quarter of the tensile strength (common practice, no source).
//
// Check: 1240 kg/m³ at 133 m/s with a hub of 0.2 has 10.5 MPa.
func RootStress(density, tipSpeed, hubRatio float64) float64 {
	return 0.5 * density * tipSpeed * tipSpeed * (1 - hubRatio*hubRatio)
}

// BladeStress returns the stress from rotation at the root of a build's blades at a tip
// speed in m/s, and what they may bear, a quarter of the tensile strength of their
// material (common practice, no source), both Pa; both 0 if the material is not known.
// See RootStress.
func (b *Build) BladeStress(tipSpeed float64) (stress, borne float64) {
	material := b.Blade.Properties()
	return RootStress(material.Density, tipSpeed, b.HubRatio), stressShare * material.Strength
}

// BladeSpeed returns the tip speed, m/s, at which BladeStress reaches what the blades may
// bear; 0 if their material is not known.
//
// Check: polycarbonate without a hub bears 15 MPa at 158 m/s.
func (b *Build) BladeSpeed() float64 {
	atOne, borne := b.BladeStress(1)
	if borne == 0 {
		return 0
	}
	return math.Sqrt(borne / atOne)
}

// FragmentEnergy returns the energy of a piece of a rotor that flies off, J, from its
// mass in kg, the radius of its centre of mass in m and the speed of the rotor in
// rev/s:
//
//	E = ½ m (2π N r)²
//
// by definition; what the piece turns about itself is left out.
//
// Check: 1 g at 30 mm and 20 000 rpm has 1.97 J.
func FragmentEnergy(mass, radius, speed float64) float64 {
	v := 2 * math.Pi * speed * radius
	return 0.5 * mass * v * v
}

// What is taken for a blade that comes off (common practice, no source): blades of
// equal shape have masses as the cube of their diameter; one of a three-blade plastic
// rotor of 127 mm has about 1 g, and its centre of mass about half way out.
const (
	blade         = 1e-3   // kg
	bladeDiameter = 0.127  // m
	bladeDensity  = 1200.0 // kg/m³
	outAt         = 0.25   // radius of its centre of mass over the diameter of the rotor
)

// Fragment returns the mass of a blade of a build, kg, of a rotor of a diameter in m, and
// whether it is assumed, see FragmentMass, since the build does not say it.
func (b *Build) Fragment(diameter float64) (mass float64, assumed bool) {
	if b.FragmentMass > 0 {
		return b.FragmentMass, false
	}
	return FragmentMass(diameter, b.Blade.Properties().Density), true
}

// FragmentEnergy returns the energy of a blade of a build that comes off, J, at a speed in
// rev/s of a rotor of a diameter in m, its centre of mass half way out, and whether its
// mass is assumed. See FragmentEnergy and Fragment.
func (b *Build) FragmentEnergy(diameter, speed float64) (energy float64, assumed bool) {
	mass, assumed := b.Fragment(diameter)
	return FragmentEnergy(mass, outAt*diameter, speed), assumed
}

// FragmentMass estimates the mass of one blade, kg, from the diameter of the rotor in
// m and the density of the blades in kg/m³, 0 for plastic:
//
//	m = 1 g · (D/127 mm)³ · ρ/(1200 kg/m³)
//
// It may be out by a factor of 2. Weigh a blade where it matters.
//
// Check: 63.5 mm of plastic make an eighth of a gram.
func FragmentMass(diameter, density float64) float64 {
	if density == 0 {
		density = bladeDensity
	}
	d := diameter / bladeDiameter
	return blade * d * d * d * density / bladeDensity
}
