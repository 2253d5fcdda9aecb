package core

import "math"

// duct is a rectangular passage with laminar flow.
type duct struct {
	aspect   float64 // short side over long side, 0 to 1
	diameter float64 // hydraulic diameter, m
	root     float64 // square root of the cross-section, m
	friction float64 // f Re of fully developed flow, Fanning, on the hydraulic diameter
	nusselt  float64 // of fully developed flow, walls at one temperature, on the hydraulic diameter
}

func newDuct(a, b float64) duct {
	aspect := min(a, b) / max(a, b)
	return duct{
		aspect: aspect, diameter: 2 * a * b / (a + b), root: math.Sqrt(a * b),
		friction: DuctFriction(aspect), nusselt: DuctNusselt(aspect),
	}
}

// DuctFriction returns f·Re, Fanning friction factor times Reynolds number on the
// hydraulic diameter, of fully developed laminar flow in a rectangle of an aspect
// ratio a, short over long side, 0 to 1:
//
//	f Re = 24 (1 − 1.3553 a + 1.9467 a² − 1.7012 a³ + 0.9564 a⁴ − 0.2537 a⁵)   [5]
//
// within 0.1 % of the exact series.
//
// Check: 24 between plates, 14.23 in a square.
func DuctFriction(a float64) float64 {
	return 24 * (1 + a*(-1.3553+a*(1.9467+a*(-1.7012+a*(0.9564-a*0.2537)))))
}

// DuctNusselt returns the Nusselt number on the hydraulic diameter of fully
// developed laminar flow in a rectangle of an aspect ratio a, short over long
// side, 0 to 1, all walls at one temperature:
//
//	Nu_T = 7.541 (1 − 2.610 a + 4.970 a² − 5.119 a³ + 2.702 a⁴ − 0.548 a⁵)     [5]
//
// within 0.25 % of the exact solution.
//
// Check: 7.541 between plates, 2.979 in a square.
func DuctNusselt(a float64) float64 {
	return 7.541 * (1 + a*(-2.610+a*(4.970+a*(-5.119+a*(2.702-a*0.548)))))
}

// developingFriction returns the apparent f·Re, Fanning, of laminar flow that
// develops from a flat profile, in a passage of any shape, with the square root of
// its cross-section as length, after Muzychka & Yovanovich:
//
//	f Re = {[3.44/√z⁺]² + (f Re)_∞²}^½,  z⁺ = L / (√A Re)                       [7]
//
// z is z⁺, above 0; developed is (f Re)_∞, of fully developed flow.
//
// Check: z⁺ 0.01 and 14.13 give 37.19.
func developingFriction(z, developed float64) float64 {
	return math.Sqrt(3.44*3.44/z + developed*developed)
}
