package hazard

import "math"

// Copper of 100 % IACS (from memory; its coefficient read in a transcription).
const (
	copperResistivity = 1.7241e-8    // Ω m, at 20 °C
	copperCoefficient = 0.00393      // 1/K, about 20 °C
	copperAt          = 20 + celsius // K
)

// HotWire is the temperature, K, at which voltage drops are taken: 75 °C, as of a wire
// that carries its rated current [3].
const HotWire = 75.0 + celsius

// WireDiameter returns the diameter of a solid conductor, m, by its AWG number; 2/0,
// 3/0 and 4/0 are -1, -2 and -3:
//
//	d = 0.127 mm · 92^((36 − n)/39)                                    [2]
//
// Check: 14 AWG has 1.628 mm.
func WireDiameter(gauge float64) float64 {
	return 0.127e-3 * math.Pow(92, (36-gauge)/39)
}

// WireArea returns the area of a conductor, m², by its AWG number.
//
// Check: 14 AWG has 2.081 mm².
func WireArea(gauge float64) float64 {
	d := WireDiameter(gauge)
	return math.Pi / 4 * d * d
}

// WireResistance returns the resistance of a copper conductor, Ω, from its area in m²
// above 0, its length in m and its temperature in K, about 200 to 450:
//
//	R = ρ (1 + α (T − 293.15 K)) l/A                                   [2]
//
// Stranded wire has 2 to 4 % more.
//
// Check: 1 m of 14 AWG has 8.285 mΩ at 20 °C, 21.6 % more at 75 °C.
func WireResistance(area, length, temperature float64) float64 {
	return copperResistivity * (1 + copperCoefficient*(temperature-copperAt)) * length / area
}

// VoltageDrop returns the voltage lost in a pair of copper wires, V, from the current
// in A, the length of the wire one way in m, its area in m² above 0 and its
// temperature in K:
//
//	ΔU = 2 I R
//
// Check: 30 A over 0.5 m of 14 AWG lose 0.249 V at 20 °C.
func VoltageDrop(current, length, area, temperature float64) float64 {
	return 2 * current * WireResistance(area, length, temperature)
}

// Gauge is what a gauge of copper wire may carry.
type Gauge struct {
	AWG     int     // number of the gauge; 0: none, thinner than any here
	Rated   float64 // A, both ampacity and largest fuse: 60 °C column of [3] from 14 AWG on, 240.4(D) for 18 and 16 AWG; thinner as much on its area as 18 AWG, our own extension
	FreeAir float64 // A, single wire in free air: a habit of hobby electronics, about twice Rated (from memory)
}

// gauges lists the wires from thick to thin.
var gauges = [...]Gauge{
	{6, 55, 101},
	{8, 40, 73},
	{10, 30, 55},
	{12, 20, 41},
	{14, 15, 32},
	{16, 10, 22},
	{18, 7, 16},
	{20, 4.4, 11},
	{22, 2.8, 7},
	{24, 1.7, 3.5},
	{26, 1.1, 2.2},
	{28, 0.7, 1.4},
}

// gaugeAreas holds the conductor areas of gauges, m².
var gaugeAreas = func() (areas [len(gauges)]float64) {
	for i, g := range gauges {
		areas[i] = WireArea(float64(g.AWG))
	}
	return areas
}()

// GaugeOf returns the even gauge from 6 to 28 that a conductor area in m² fills: the
// thickest that is no thicker, but for the 1 % to which areas are rounded. Thicker
// wires count as 6 AWG; a thinner one than 28 AWG is no Gauge at all.
//
// Check: 1.5 mm² counts as 16 AWG, 2.5 mm² as 14 AWG.
func GaugeOf(area float64) Gauge {
	for i, a := range gaugeAreas {
		if area >= 0.99*a {
			return gauges[i]
		}
	}
	return Gauge{}
}
