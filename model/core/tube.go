package core

import (
	"math"

	"finduel/model/coolant"
)

// tube is the coolant's way: flat tubes, taken as rectangles inside. Passes behind
// one another have tubes of their own, which share the depth of the fins.
type tube struct {
	bore     float64 // cross-section of the tubes of one pass, m²
	passage  duct
	inside   float64 // inside surface of all tubes, m²
	wall     float64 // resistance of all walls, K/W
	diameter float64 // hydraulic diameter over length of a pass
	entry    float64 // what the entry adds to turbulent flow
	losses   tubeFriction
}

func newTube(g Geometry, tubes float64) tube {
	rows := g.rows()
	tubes *= rows
	depth := g.FinDepth / rows
	wide, high := depth-2*g.TubeWall, g.TubeHeight-2*g.TubeWall
	inner := 2 * (wide + high)
	outer := 2 * (depth + g.TubeHeight)
	diameter := 2 * wide * high / (wide + high) / g.FaceLength
	passage := newDuct(wide, high)
	return tube{
		bore:     wide * high * tubes / float64(g.Passes),
		passage:  passage,
		inside:   inner * g.FaceLength * tubes,
		wall:     g.TubeWall / (g.TubeConductivity * (inner + outer) / 2 * g.FaceLength * tubes),
		diameter: diameter,
		entry:    entryFactor(diameter),
		losses:   newTubeFriction(g, passage),
	}
}

// TubeInsideArea returns the surface that exchanges heat with the coolant, m².
func (c *Core) TubeInsideArea() float64 { return c.tube.inside }

// WallResistance returns the resistance of the tube walls, K/W: thickness over
// conductivity and mean surface.
func (c *Core) WallResistance() float64 { return c.tube.wall }

// CoolantFilm returns the coolant's film coefficient, W/(m² K), and its Reynolds
// number on the hydraulic diameter of the bore, at a mass flow through the whole
// core, or all cores of a stack, kg/s, above 0, with properties at the film temperature. The coolant takes
// the passes one after the other: each holds its share of the tubes and all of the
// flow.
//
// Up to Re = 2300, after [10] with the Nusselt number of the rectangle in place of
// that of the gap, temperature and velocity developing together, since tubes begin
// at a tank:
//
//	Nu = (Nu₁³ + Nu₂³ + Nu₃³)^⅓
//	Nu₁ = Nu_T(aspect), Nu₂ = 1.841 (Re Pr D/L)^⅓, Nu₃ = [2/(1 + 22 Pr)]^(1/6) (Re Pr D/L)^½
//
// From Re = 4000 on turbulent, between the two in proportion to Re [11].
func (c *Core) CoolantFilm(massFlow float64, p coolant.Properties) (h, re float64) {
	t := &c.tube
	d := t.passage.diameter
	re = massFlow / c.branches() / t.bore * d / p.Viscosity
	prandtl := p.Prandtl()
	var nu float64
	switch {
	case re <= LaminarEnd:
		nu = t.laminarNusselt(re, prandtl)
	case re >= TurbulentStart:
		nu = turbulentNusselt(re, prandtl, t.entry)
	default:
		share := turbulentShare(re)
		nu = (1-share)*t.laminarNusselt(LaminarEnd, prandtl) + share*turbulentNusselt(TurbulentStart, prandtl, t.entry)
	}
	return nu * p.Conductivity / d, re
}

func (t *tube) laminarNusselt(re, prandtl float64) float64 {
	graetz := re * prandtl * t.diameter
	first := t.passage.nusselt
	third := graetz * math.Sqrt(2/(1+22*prandtl)*graetz) // cubed
	return math.Cbrt(first*first*first + 1.841*1.841*1.841*graetz + third)
}

// turbulentNusselt returns the mean Nusselt number of turbulent flow in a smooth
// duct, Re >= 4000, 0.1 <= Pr <= 1000, with its entryFactor, after Gnielinski:
//
//	Nu = (f/8)(Re − 1000) Pr / [1 + 12.7 (f/8)^½ (Pr^⅔ − 1)] · entry                [11]
//
// The dependence on the wall's temperature, a few parts in a hundred, is left out:
// properties are those at the film temperature.
//
// Check: Re 10 000, Pr 6, diameter over length 0.01 give 77.275.
func turbulentNusselt(re, prandtl, entry float64) float64 {
	f := smoothFriction(re) / 8
	root := math.Cbrt(prandtl)
	return f * (re - 1000) * prandtl / (1 + 12.7*math.Sqrt(f)*(root*root-1)) * entry
}

// entryFactor returns what the entry of a duct adds to its mean turbulent Nusselt
// number, from its hydraulic diameter over its length d: 1 + d^⅔.                [11]
func entryFactor(d float64) float64 {
	root := math.Cbrt(d)
	return 1 + root*root
}

// smoothFriction returns the Darcy friction factor of turbulent flow in a smooth
// duct, after Konakov:
//
//	f = (1.8 log10 Re − 1.5)^−2                                                [11]
//
// Check: 0.040262 at Re 4000.
func smoothFriction(re float64) float64 {
	x := 1.8*math.Log10(re) - 1.5
	return 1 / (x * x)
}
