package core

import "math"

// Range says where a core lies outside the range of its correlations; the zero
// value is inside.
type Range struct {
	ReynoldsLow  bool // air slower than any data behind the correlation
	ReynoldsHigh bool // air faster
	Geometry     bool // a dimension outside the data bank; Outside names it
}

// InRange says where the core lies at a Reynolds number of the air. Louvered fins:
// 100 to 3000 on the louver pitch, dimensions as in the data bank of [1]. Plain
// fins: laminar flow, up to 2300 on the hydraulic diameter.
func (c *Core) InRange(re float64) Range {
	if c.geometry.Surface == Plain {
		return Range{ReynoldsHigh: re > LaminarEnd}
	}
	return Range{ReynoldsLow: re < louveredLow, ReynoldsHigh: re > louveredHigh, Geometry: c.outside}
}

// Outside returns the key of the first dimension of the core outside the data bank
// of the correlations, and an empty text if there is none. The hydraulic diameter
// is told as fin_density.
func (c *Core) Outside() string {
	if c.geometry.Surface == Plain {
		return ""
	}
	return louveredOutside(c.geometry, c.diameter)
}

// louveredBank is the range of the data behind the correlations of louvered fins,
// as given in [4], in mm and degrees.
var louveredBank = [...]struct {
	key       string
	low, high float64
	get       func(g *Geometry, diameter float64) float64
}{
	{"louver_pitch", 0.5, 3, func(g *Geometry, _ float64) float64 { return 1000 * g.LouverPitch }},
	{"louver_length", 0.94, 18.5, func(g *Geometry, _ float64) float64 { return 1000 * g.LouverLength }},
	{"louver_angle", 8.43, 35, func(g *Geometry, _ float64) float64 { return 180 / math.Pi * g.LouverAngle }},
	{"fin_density", 0.51, 3.33, func(g *Geometry, _ float64) float64 { return 1000 / g.FinDensity }},
	{"fin_depth", 15.6, 50, func(g *Geometry, _ float64) float64 { return 1000 * g.FinDepth }},
	{"fin_height", 6, 20, func(g *Geometry, _ float64) float64 { return 1000 * g.FinHeight }},
	{"fin_thickness", 0.04, 0.16, func(g *Geometry, _ float64) float64 { return 1000 * g.FinThickness }},
	{"tube_height", 7.51, 25, func(g *Geometry, _ float64) float64 { return 1000 * (g.FinHeight + g.TubeHeight) }},
	{"fin_density", 0.824, 4.94, func(_ *Geometry, diameter float64) float64 { return 1000 * diameter }},
}

func louveredOutside(g Geometry, diameter float64) string {
	for _, b := range louveredBank {
		if v := b.get(&g, diameter); v < b.low || v > b.high {
			return b.key
		}
	}
	return ""
}
