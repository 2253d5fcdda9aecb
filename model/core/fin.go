package core

import "math"

// FinEfficiency returns the mean over root excess temperature of the fins, 0 to 1,
// at an air film coefficient h, W/(m² K). A folded fin is hot at both ends and has
// no heat flow across its middle:
//
//	η_f = tanh(m l)/(m l),  m = [2h/(k_f δ_f) (1 + δ_f/F_d)]^½,  l = F_l/2 − δ_f   [9]
//
// The strip length stands for F_d in fins cut into strips; the legs of V-folds are
// longer by their slant: l = (F_l − δ_f)/(2 cos φ) − δ_f/2.
//
// Louver cuts are ignored, as they were when the correlation of louvered fins was
// made (common practice, no source).
//
// Check: h = 121.15, k = 200, δ = 0.08 mm, F_d = 27 mm, l = 3.92 mm give 0.92884.
func (c *Core) FinEfficiency(h float64) float64 {
	return tanhOver(math.Sqrt(c.finFlow*h) * c.finRoot)
}

// WithFins returns the efficiency of the whole surface on the air side, the tube walls
// between the fins included, 0 to 1, from that of the fins, 0 to 1:
//
//	η_o = 1 − (A_f/A)(1 − η_f)                                          [4]
func (c *Core) WithFins(finEfficiency float64) float64 {
	return 1 - c.finArea/c.airArea*(1-finEfficiency)
}

// tanhOver returns tanh(x)/x, 1 at 0.
func tanhOver(x float64) float64 {
	if x < 1e-8 {
		return 1
	}
	return math.Tanh(x) / x
}
