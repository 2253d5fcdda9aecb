package core

import (
	"math"

	"finduel/model/air"
)

// plain holds what developing flow through plain passages needs, of any shape.
type plain struct {
	depth     float64 // length of the passage, m
	friction  float64 // f Re of fully developed flow, on the square root of the cross-section
	developed float64 // Nu of fully developed flow, likewise
}

func newPlain(g Geometry, passage duct) plain {
	e := passage.aspect
	friction := 12 / (math.Sqrt(e) * (1 + e) * (1 - 192*e/(math.Pow(math.Pi, 5))*math.Tanh(math.Pi/(2*e))))
	return plain{depth: g.FinDepth, friction: friction, developed: 3.24 * friction / (8 * math.Sqrt(math.Pi) * math.Pow(e, 0.1))}
}

// Reynolds numbers on the hydraulic diameter between which flow turns from
// laminar to turbulent, after Gnielinski [11].
const (
	LaminarEnd     = 2300.0
	TurbulentStart = 4000.0
)

// frictionFactor returns the apparent Fanning friction factor of a plain passage
// at a Reynolds number on its hydraulic diameter, the rise of momentum while the
// profile develops included. Laminar, after Muzychka & Yovanovich, with the square
// root of the cross-section as length:
//
//	f Re = {[3.44/√z⁺]² + (f Re)_∞²}^½,  z⁺ = L / (√A Re)
//	(f Re)_∞ = 12 / {√e (1 + e) [1 − (192 e/π⁵) tanh(π/2e)]}                   [7]
//
// Where turbulent friction of a smooth duct is higher it takes over between 2300
// and 4000, in proportion; that blend is a modelling choice.
func (pl *plain) frictionFactor(re float64, d *duct) float64 {
	root := re * d.root / d.diameter
	z := pl.depth / (d.root * root)
	laminar := developingFriction(z, pl.friction) / root
	if re <= LaminarEnd {
		return laminar
	}
	return laminar + turbulentShare(re)*max(0, smoothFriction(max(re, TurbulentStart))/4-laminar)
}

// film returns the air film coefficient, W/(m² K), of a plain passage at a
// Reynolds number on its hydraulic diameter. Laminar, temperature and velocity
// developing together, walls at one temperature, mean over the length, after
// Muzychka & Yovanovich, on √A:
//
//	Nu = [(C₄ f(Pr)/√z*)^m + {(C₂ C₃ (f Re/z*)^⅓)⁵ + (C₁ f Re/(8 √π e^γ))⁵}^(m/5)]^(1/m)
//	z* = L / (√A Re Pr),  m = 2.27 + 1.65 Pr^⅓,  γ = 1/10
//	C₁ = 3.24, C₂ = 3/2, C₃ = 0.409, C₄ = 2
//	f(Pr) = 0.564 / [1 + (1.664 Pr^(1/6))^(9/2)]^(2/9)                         [6]
//
// for gases (Pr about 0.7). One formula for ducts of any shape: in long rectangular
// passages it lies up to 12 % above the exact solution, most at an aspect of a half.
// Triangular passages put their own developed flow in place of the C₁ term.
//
// Where the turbulent film of a smooth duct is higher it takes over between 2300
// and 4000, in proportion; that blend is a modelling choice.
func (pl *plain) film(re float64, p air.Properties, d *duct) float64 {
	prandtl := p.Prandtl()
	nu := pl.nusselt(re*d.root/d.diameter, prandtl, d.root)
	if re > LaminarEnd {
		turbulent := turbulentNusselt(max(re, TurbulentStart), prandtl, entryFactor(d.diameter/pl.depth)) * d.root / d.diameter
		nu += turbulentShare(re) * max(0, turbulent-nu)
	}
	return nu * p.Conductivity / d.root
}

// nusselt is the laminar formula above, on √A throughout.
func (pl *plain) nusselt(re, prandtl, root float64) float64 {
	z := pl.depth / (root * re * prandtl)
	cubeRoot := math.Cbrt(prandtl)
	m := 2.27 + 1.65*cubeRoot
	entry := 2 * 0.564 / math.Pow(1+math.Pow(1.664*math.Sqrt(cubeRoot), 4.5), 2./9) / math.Sqrt(z)
	thermal := 1.5 * 0.409 * math.Cbrt(pl.friction/z)
	inner := math.Pow(thermal, 5) + math.Pow(pl.developed, 5)
	return math.Pow(math.Pow(entry, m)+math.Pow(inner, m/5), 1/m)
}

// turbulentShare returns how far flow at a Reynolds number has turned turbulent,
// 0 to 1.                                                                       [11]
func turbulentShare(re float64) float64 {
	return min(max((re-LaminarEnd)/(TurbulentStart-LaminarEnd), 0), 1)
}

// plainInRange says where plain passages of any shape lie: laminar flow, up to 2300
// on the hydraulic diameter.
func plainInRange(re float64) Range { return Range{ReynoldsHigh: re > LaminarEnd} }

// plainDoubt is the doubt of plain passages of any shape. Published numerical
// solutions lie within ±15 % of the film [6] and ±10 % of the friction [7] (both
// from memory); where flow turns turbulent, and beyond, the lines are our own
// estimate.
var plainDoubt = [...]doubtLine{
	{LaminarEnd, Doubt{-0.15, 0.15, -0.10, 0.10}},
	{TurbulentStart, Doubt{-0.25, 0.25, -0.25, 0.25}},
	{10000, Doubt{-0.15, 0.15, -0.15, 0.15}},
}
