package core

import "math"

// Range says where a core lies outside the range of its correlations; the zero
// value is inside.
type Range struct {
	ReynoldsLow  bool // air slower than any data behind the correlation
	ReynoldsHigh bool // air faster
	Geometry     bool // a dimension outside the data bank or the flow-efficiency fit; Outside names it
}

// InRange says where the core lies at a Reynolds number of the air. Louvered fins:
// 100 to 3000 on the louver pitch, dimensions as in the data bank of [1]; below
// 100, where the film leans on the flow efficiency, also a louver spacing
// F_p/(L_p sin θ) within its fit, 1.5 to 5.2, and a correlation that lies above the
// plain passage at 100. Plain fins: laminar flow, up to 2300
// on the hydraulic diameter.
func (c *Core) InRange(re float64) Range {
	if c.geometry.Surface == Plain {
		return Range{ReynoldsHigh: re > LaminarEnd}
	}
	return Range{ReynoldsLow: re < louveredLow, ReynoldsHigh: re > louveredHigh, Geometry: c.outside || re < louveredLow && c.louvered.beyondFit}
}

// Outside returns the key of the first dimension of the core that InRange calls
// outside at a Reynolds number of the air, and an empty text if there is none. The
// hydraulic diameter and the louver spacing are told as fin_density.
func (c *Core) Outside(re float64) string {
	if !c.InRange(re).Geometry {
		return ""
	}
	if key := louveredOutside(&c.geometry, c.diameter); key != "" {
		return key
	}
	return "fin_density"
}

// louveredBank is the range of the data behind the correlations of louvered fins,
// as given in [4], in mm and degrees, in the order of bankValues.
var louveredBank = [...]struct {
	key       string
	low, high float64
}{
	{"louver_pitch", 0.5, 3},
	{"louver_length", 0.94, 18.5},
	{"louver_angle", 8.43, 35},
	{"fin_density", 0.51, 3.33}, // fin pitch
	{"fin_depth", 15.6, 50},
	{"fin_height", 6, 20},
	{"fin_thickness", 0.04, 0.16},
	{"tube_height", 7.51, 25},    // tube pitch
	{"fin_density", 0.824, 4.94}, // hydraulic diameter
}

func bankValues(g *Geometry, diameter float64) [len(louveredBank)]float64 {
	return [...]float64{
		1000 * g.LouverPitch, 1000 * g.LouverLength, 180 / math.Pi * g.LouverAngle, 1000 / g.FinDensity,
		1000 * g.FinDepth, 1000 * g.FinHeight, 1000 * g.FinThickness, 1000 * (g.FinHeight + g.TubeHeight), 1000 * diameter,
	}
}

func louveredOutside(g *Geometry, diameter float64) string {
	for i, v := range bankValues(g, diameter) {
		if b := &louveredBank[i]; v < b.low || v > b.high {
			return b.key
		}
	}
	return ""
}
