package air

import (
	"math"

	"finduel/model/quantity"
)

const vapourPerAir = 0.621945 // molar mass of water over that of dry air; [2] eq. (20)

// SaturationPressure returns the saturation pressure of water vapour, in Pa, at
// temperature t, in K: over ice up to 273.16 K ([2] eq. (5)), over liquid water
// above ([2] eq. (6)). With t in K and p in Pa,
//
//	ice:    ln p = -5674.5359/t + 6.3925247 - 9.677843e-3 t + 6.2215701e-7 t²
//	               + 2.0747825e-9 t³ - 9.484024e-13 t⁴ + 4.1635019 ln t
//	liquid: ln p = -5800.2206/t + 1.3914993 - 0.048640239 t + 4.1764768e-5 t²
//	               - 1.4452093e-8 t³ + 6.5459673 ln t
//
// It holds from 173.15 K to 473.15 K within 0.03 % of the handbook's own table.
// The two meet at the triple point within 1e-8.
//
// Check: 298.15 K gives 3169.7 Pa.
func SaturationPressure(t float64) float64 {
	if t <= 273.16 {
		return math.Exp(-5674.5359/t + 6.3925247 + t*(-9.677843e-3+t*(6.2215701e-7+t*(2.0747825e-9-t*9.484024e-13))) + 4.1635019*math.Log(t))
	}
	return math.Exp(-5800.2206/t + 1.3914993 + t*(-0.048640239+t*(4.1764768e-5-t*1.4452093e-8)) + 6.5459673*math.Log(t))
}

// HumidityRatio returns the mass of vapour over the mass of dry air for a vapour
// pressure and a total pressure, both in Pa:
//
//	W = 0.621945 pw/(p - pw)                                   [2] eq. (20)
//
// Air and vapour are taken as ideal gases; the handbook's enhancement factor,
// within 0.5 % of 1, is left out. It returns a *quantity.RangeError with the key
// vapour_pressure unless 0 ≤ pw < p.
//
// Check: pw = 3169.7 Pa, p = 95461 Pa gives 0.02136040.
func HumidityRatio(vapourPressure, pressure float64) (float64, error) {
	if !(vapourPressure >= 0 && vapourPressure < pressure) || math.IsInf(pressure, 1) {
		return 0, &quantity.RangeError{
			Key: "vapour_pressure", Value: vapourPressure, Low: 0, High: pressure,
			Rule: "must not be negative and must lie below the total pressure",
		}
	}
	return vapourPerAir * vapourPressure / (pressure - vapourPressure), nil
}

// VapourFraction returns the mole fraction of vapour in the moist air, which is
// also its share of the pressure:
//
//	x = W/(0.621945 + W)                       [2] eq. (20), solved for pw/p
//
// Compare it with VapourLimit. Check: W = 0.0213604 gives 3169.7/95461 = 0.033204.
func (a Atmosphere) VapourFraction() float64 {
	return a.HumidityRatio / (vapourPerAir + a.HumidityRatio)
}
