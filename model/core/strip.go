package core

import (
	"math"

	"finduel/model/air"
)

// strip holds the flow-independent parts of the correlations of offset strip fins,
// as logarithms.
type strip struct {
	colburn      float64 // ln of j at Re = 1, the bracket left out
	colburnFast  float64 // ln of what stands before Re^1.340 in the bracket of j
	friction     float64 // likewise of f
	frictionFast float64
	nusselt      float64 // Nu of fully developed flow in the uncut passage, on the strips' diameter and surface
	drag         float64 // f Re of it, likewise
}

// Reynolds numbers, on the hydraulic diameter, between which the correlations of
// offset strips hold [4].
const (
	stripLow  = 300.0
	stripHigh = 5000.0
)

// stripSection returns the section of a passage between offset strips: the free
// width s and height h between fins of thickness t cut into strips of length l. A
// strip's edges, before and behind, are part of its surface, so that
//
//	D_h = 4 s h l / [2 (s l + h l + t h) + t s]                             [17]
//
// is 4 A_c F_d / A, and friction and film have one surface as their base.
func stripSection(g *Geometry, s, h float64) section {
	t, l := g.FinThickness, g.StripLength
	return section{flow: s * h, fins: 2*h + (2*t*h+t*s)/l, wall: 2 * s, leg: g.FinHeight/2 - t}
}

// stripGroups returns the groups that describe offset strips: free width over
// height, thickness over strip length, thickness over free width.
func stripGroups(g *Geometry) (alpha, delta, gamma float64) {
	s, h := 1/g.FinDensity-g.FinThickness, g.FinHeight-g.FinThickness
	return s / h, g.FinThickness / g.StripLength, g.FinThickness / s
}

func newStrip(g Geometry, diameter float64, uncut duct) strip {
	a, d, y := stripGroups(&g)
	alpha, delta, gamma := math.Log(a), math.Log(d), math.Log(y)
	shrunk := diameter / uncut.diameter
	return strip{
		colburn:      math.Log(0.6522) - 0.1541*alpha + 0.1499*delta - 0.0678*gamma,
		colburnFast:  math.Log(5.269e-5) + 0.504*alpha + 0.456*delta - 1.055*gamma,
		friction:     math.Log(9.6243) - 0.1856*alpha + 0.3053*delta - 0.2659*gamma,
		frictionFast: math.Log(7.669e-8) + 0.920*alpha + 3.767*delta + 0.236*gamma,
		nusselt:      uncut.nusselt * shrunk * shrunk,
		drag:         uncut.friction * shrunk * shrunk,
	}
}

// lnColburn returns the natural logarithm of the Colburn factor j of offset strips,
// from that of the Reynolds number on the hydraulic diameter, after Manglik &
// Bergles:
//
//	j = 0.6522 Re^−0.5403 α^−0.1541 δ^0.1499 γ^−0.0678
//	    [1 + 5.269·10⁻⁵ Re^1.340 α^0.504 δ^0.456 γ^−1.055]^0.1                  [17]
//
// with α = s/h, δ = t/l, γ = t/s, for 300 < Re < 5000 [4]; most data lie within
// ±20 % (from memory).
//
// Check: α 0.25, δ 0.03, γ 0.07 give 0.014606 at Re 1000.
func (s *strip) lnColburn(lnRe float64) float64 {
	return s.colburn - 0.5403*lnRe + 0.1*math.Log1p(math.Exp(s.colburnFast+1.340*lnRe))
}

// frictionFactor returns the Fanning friction factor of offset strips, on the
// surface with the strips' edges over the least free-flow area, at a Reynolds
// number on the hydraulic diameter, after Manglik & Bergles:
//
//	f = 9.6243 Re^−0.7422 α^−0.1856 δ^0.3053 γ^−0.2659
//	    [1 + 7.669·10⁻⁸ Re^4.429 α^0.920 δ^3.767 γ^0.236]^0.1                   [17]
//
// The passage never takes less pressure than the one it is cut from: as the air
// comes to rest, below Re of about 20, friction is that of fully developed flow
// there. That is our own extension.
//
// Check: α 0.25, δ 0.03, γ 0.07 give 0.053145 at Re 1000.
func (s *strip) frictionFactor(re float64) float64 {
	lnRe := math.Log(re)
	f := math.Exp(s.friction - 0.7422*lnRe + 0.1*math.Log1p(math.Exp(s.frictionFast+4.429*lnRe)))
	return max(f, s.drag/re)
}

// film returns the air film coefficient, W/(m² K), on the surface with the strips'
// edges, at a Reynolds number on the hydraulic diameter, m. The passage never
// exchanges less than the one it is cut from: as the air comes to rest, below Re of
// about 100, the film is that of fully developed flow there. That is our own
// extension.
func (s *strip) film(re float64, p air.Properties, diameter float64) float64 {
	nusselt := math.Exp(s.lnColburn(math.Log(re))) * re * math.Cbrt(p.Prandtl())
	return max(nusselt, s.nusselt) * p.Conductivity / diameter
}

// stripBank is the range of the data behind the correlations of offset strips, as
// given in [4], in the order of stripValues.
var stripBank = [...]limit{
	{"fin_density", 1.209, 3.414},   // hydraulic diameter, mm
	{"fin_density", 0.134, 0.997},   // free width over height
	{"strip_length", 0.012, 0.048},  // thickness over strip length
	{"fin_thickness", 0.041, 0.121}, // thickness over free width
}

func stripValues(g *Geometry, diameter float64) [len(stripBank)]float64 {
	alpha, delta, gamma := stripGroups(g)
	return [...]float64{1000 * diameter, alpha, delta, gamma}
}

func stripOutside(g *Geometry, diameter float64) string {
	values := stripValues(g, diameter)
	return outside(stripBank[:], values[:])
}

// stripDoubt is the doubt of offset strips: ±20 % for the authors' own data (from
// memory), our own estimate below and above.
var stripDoubt = [...]doubtLine{
	{20, Doubt{-0.40, 0.40, -0.40, 0.40}},
	{stripLow, Doubt{-0.20, 0.20, -0.20, 0.20}},
	{stripHigh, Doubt{-0.20, 0.20, -0.20, 0.20}},
	{20000, Doubt{-0.30, 0.30, -0.30, 0.30}},
}
