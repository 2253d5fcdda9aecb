package core

import "math"

// V-folds: the strip runs to and fro between two tubes, a leg every fin pitch F_p.
// Between two neighbouring legs lies an isosceles triangle that stands on one tube
// and has its apex at the other, by turns upright and on its head:
//
//	════════════════════  tube
//	 \    /\    /\    /
//	  \  /  \  /  \  /       legs F_p apart at half height,
//	   \/    \/    \/        2 F_p apart on a tube
//	════════════════════  tube
//
// The middle of the strip runs from δ/2 to F_l − δ/2, so the half apex angle is
// atan[F_p/(F_l − δ)]; the bends lie flat on the tubes. What the thickness leaves
// free has the base 2 F_p − δ (1 − sin φ)/cos φ.

// apexTable holds fully developed laminar flow in isosceles triangles by apex
// angle, which [5] tabulates too. The values are from our own finite elements,
// extrapolated from three meshes: at 60° f Re is the 13.333 of [5], and the Nusselt
// number 1 % above the 2.47 there, which is from older finite differences. The ends
// are exact: thin wedges, in which the widest slice is last to exchange its heat,
// between plates 7.5407 on twice its width.
var apexTable = [...]struct{ degrees, friction, nusselt float64 }{
	{0, 12, 7.5407 / 8},
	{5, 12.255, 1.430},
	{10, 12.474, 1.694},
	{20, 12.822, 2.050},
	{30, 13.065, 2.271},
	{40, 13.222, 2.405},
	{60, 40. / 3, 2.495},
	{90, 13.153, 2.357},
	{120, 12.739, 2.027},
	{150, 12.27, 1.578},
	{180, 12, 7.5407 / 8},
}

// inTriangle returns f·Re, Fanning friction factor times Reynolds number, and the Nusselt
// number with all walls at one temperature, both on the hydraulic diameter, of fully
// developed laminar flow in an isosceles triangle with an apex angle, rad, 0 to π [5].
// They are from apexTable by cubic Hermite interpolation, f·Re within 0.05 %, the Nusselt
// number within 0.5 %, below 5° within 5 %; the slope at a line of the table is that of the
// parabola through it and its neighbours.
//
// Check: 40/3 and 2.495 at 60° (2.47 in [5]), 12 and 0.9426 at 0.
func inTriangle(apex float64) (friction, nusselt float64) {
	degrees := min(max(apex*180/math.Pi, 0), 180)
	last := len(apexTable) - 1
	i := 0
	for i < last-1 && degrees > apexTable[i+1].degrees {
		i++
	}
	width := apexTable[i+1].degrees - apexTable[i].degrees
	t := (degrees - apexTable[i].degrees) / width
	// Weights of the two lines and of the slopes there.
	slope0, slope1 := width*t*(1-t)*(1-t), -width*t*t*(1-t)
	second := t * t * (3 - 2*t)
	frictionSlope0, nusseltSlope0 := apexSlopes(i)
	frictionSlope1, nusseltSlope1 := apexSlopes(i + 1)
	a, b := &apexTable[i], &apexTable[i+1]
	friction = a.friction + second*(b.friction-a.friction) + slope0*frictionSlope0 + slope1*frictionSlope1
	nusselt = a.nusselt + second*(b.nusselt-a.nusselt) + slope0*nusseltSlope0 + slope1*nusseltSlope1
	return friction, nusselt
}

// apexSlopes returns the slopes of f Re and Nu at a line of the table, a degree.
func apexSlopes(i int) (friction, nusselt float64) {
	middle := min(max(i, 1), len(apexTable)-2)
	a, b, c := &apexTable[middle-1], &apexTable[middle], &apexTable[middle+1]
	// Weights of the two secants at the line.
	before, after := b.degrees-a.degrees, c.degrees-b.degrees
	share := before / (before + after)
	switch {
	case i < middle:
		share = -share
	case i > middle:
		share = 1 + after/(before+after)
	}
	friction = (1-share)*(b.friction-a.friction)/before + share*(c.friction-b.friction)/after
	nusselt = (1-share)*(b.nusselt-a.nusselt)/before + share*(c.nusselt-b.nusselt)/after
	return friction, nusselt
}

// newTriangular returns the passage between V-folds: its section, the duct it is,
// and what its developing flow needs. Friction and film while flow develops are
// those of [6] and [7] for any duct, with the fully developed flow of the triangle
// in place of their models of it. The published model of the film has an exponent
// γ = −0.3 for small corner angles (from memory) and lies 0 to 9 % above the
// triangle's at apex angles of 10° to 30°, but 22 % above at 60°.
func newTriangular(g Geometry) (section, duct, plain) {
	half := apexOf(&g) / 2
	cos, sin := math.Cos(half), math.Sin(half)
	base := 2/g.FinDensity - g.FinThickness*(1-sin)/cos
	side := base / (2 * sin)
	area := base / 2 * side * cos
	s := section{flow: area, fins: 2 * side, wall: base, leg: (g.FinHeight-g.FinThickness)/(2*cos) - g.FinThickness/2}
	friction, nusselt := inTriangle(2 * half)
	d := duct{diameter: 4 * area / (base + 2*side), root: math.Sqrt(area), friction: friction, nusselt: nusselt}
	scale := d.root / d.diameter
	return s, d, plain{depth: g.FinDepth, friction: friction * scale, developed: nusselt * scale}
}

// apexOf returns the apex angle of the passages between V-folds, rad.
func apexOf(g *Geometry) float64 {
	return 2 * math.Atan2(1/g.FinDensity, g.FinHeight-g.FinThickness)
}

// apexBank is the range of apex angles, degrees, within which apexTable is good to
// 0.5 %.
var apexBank = [...]limit{{"fin_density", 5, 150}}

func triangularOutside(g *Geometry) string {
	return outside(apexBank[:], []float64{apexOf(g) * 180 / math.Pi})
}
