package core

import (
	"math"

	"finduel/model/coolant"
)

// What the coolant loses beside friction, in heads of the local velocity.
const (
	tubeEntrance = 0.5 // tank to tube, sharp edge [14]
	tubeExit     = 1.0 // tube to tank [14]
	tankTurn     = 1.5 // an end tank's turn from one pass to the next, in heads of the tube (common practice, no source: 1.5 to 2.5)
	portPair     = 1.5 // inlet and outlet port together, in heads of the port's bore (common practice, no source)
)

// greatestRoughness is the greatest roughness over the hydraulic diameter that the
// friction formula [13] was made for.
const greatestRoughness = 0.05

// tubeFriction is what the coolant's pressure drop needs of a core.
type tubeFriction struct {
	passes    float64
	length    float64 // of a pass over the root of the bore of a tube
	developed float64 // f Re of fully developed laminar flow on that root
	roughness float64 // ε over the hydraulic diameter
	port      float64 // bore of a port, m²; 0: not counted
}

func newTubeFriction(g Geometry, bore duct) tubeFriction {
	return tubeFriction{
		passes:    float64(g.Passes),
		length:    g.FaceLength / bore.root,
		developed: bore.friction * bore.root / bore.diameter,
		roughness: g.TubeRoughness / bore.diameter,
		port:      math.Pi / 4 * g.PortDiameter * g.PortDiameter,
	}
}

// CoolantPressureDrop returns the pressure drop of the coolant in the core, Pa, from
// port to port, at a mass flow through the whole core, kg/s, above 0, with
// properties at the film temperature. The coolant takes the passes one after the
// other; in each it spreads evenly over the tubes:
//
//	Δp = ρ w²/2 {n_p (4 f L/D_h + 0.5 + 1) + 1.5 (n_p − 1)} + 1.5 ρ w_p²/2
//
// w in the tubes, w_p in the port: friction, a sharp entrance and an exit for each
// pass [14], a turn in the end tank between two passes, and the two ports (turns and
// ports common practice, no source; ports of no diameter are not counted).
//
// Cores behind one another take it one after the other, or in parallel once with
// their share of the flow.
//
// Not in it: hoses, couplings and what else hangs on the core; tanks and their
// uneven supply of the tubes; the change of viscosity towards the wall. Friction in
// tubes is good to about ±10 %, the whole to ±30 % since ports differ.
//
// Check: one pass of twelve tubes of 26.6 mm by 1.6 mm and 120 mm, water of 40 °C at
// 3 L/min, ports not counted, gives 49.274 Pa.
func (c *Core) CoolantPressureDrop(massFlow float64, p coolant.Properties) float64 {
	t := &c.tube
	k := &t.losses
	massFlow /= c.branches()
	velocity := massFlow / t.bore // of mass, kg/(m² s)
	friction := 4 * k.frictionFactor(velocity*t.passage.diameter/p.Viscosity, &t.passage) / t.diameter
	drop := velocity * velocity * (k.passes*(friction+tubeEntrance+tubeExit) + (k.passes-1)*tankTurn)
	if k.port > 0 {
		velocity = massFlow / k.port
		drop += velocity * velocity * portPair
	}
	return drop / (2 * p.Density) * float64(1+c.geometry.Further) / c.branches()
}

// frictionFactor returns the apparent Fanning friction factor of a tube at a
// Reynolds number on its hydraulic diameter, the rise of momentum while the profile
// develops included. Laminar, after Muzychka & Yovanovich [7] with the fully
// developed f Re of the rectangle [5] as the end; turbulent, after Haaland [13].
//
// From 2300 to 4000 the greater of the two takes over, slowly at both ends; no
// source defines friction there, and that blend is a modelling choice. A short
// tube may take more laminar, developing, than turbulent friction: it then keeps
// the laminar one.
func (k *tubeFriction) frictionFactor(re float64, bore *duct) float64 {
	root := re * bore.root / bore.diameter
	laminar := developingFriction(k.length/root, k.developed) / root
	if re <= LaminarEnd {
		return laminar
	}
	share := turbulentShare(re)
	return laminar + share*share*(3-2*share)*max(0, roughFriction(re, k.roughness)/4-laminar)
}

// roughFriction returns the Darcy friction factor of turbulent flow in a duct, Re and
// the roughness on its hydraulic diameter, after Haaland:
//
//	f = {−1.8 log10[(ε/3.7 D_h)^1.11 + 6.9/Re]}^−2                              [13]
//
// Re from 4000 to 1e8, roughness up to 5 % of the diameter; within 2 % of Colebrook.
// Without roughness it is Konakov's formula (smoothFriction) with 1.51 for its 1.5.
//
// Check: Re 1e5 and a roughness of 1e-4 of the diameter give 0.018265.
func roughFriction(re, roughness float64) float64 {
	x := 1.8 * math.Log10(math.Pow(roughness/3.7, 1.11)+6.9/re)
	return 1 / (x * x)
}
