package sound

import "math"

// Sum returns the level, dB(A), of sources that sound together with no fixed
// phase, from the level of each, dB(A):
//
//	L = 10 log10 Σ 10^(Lᵢ/10)                                          [2]
//
// No source at all has the level -Inf.
//
// Check: 60 and 60 make 63.01, 60 and 63 make 64.76.
func Sum(levels ...float64) float64 {
	power := 0.0
	for _, l := range levels {
		power += math.Exp(l * (math.Ln10 / 10))
	}
	return 10 * math.Log10(power)
}

// SumOfEqual returns the level, dB(A), of n sources, n >= 1, of the same level,
// dB(A):
//
//	L_n = L + 10 log10 n                                               [2]
//
// Check: nine equal sources are 9.54 dB above one.
func SumOfEqual(level float64, n int) float64 {
	return level + 10*math.Log10(float64(n))
}

// Exponents of sound over speed, in dB for a tenfold speed.
const (
	FanExponent     = 50.0 // after [1]; measured fans lie between 50 and 56, propellers up to 60 (common practice, no source)
	LowestExponent  = 30.0 // below: some other sound than the fan's is heard (our own bound)
	HighestExponent = 80.0 // above: the readings are doubtful (our own bound)
)

// AtSpeed returns the level, dB(A), of a fan at a speed, from its rated level,
// dB(A), at its rated speed; speeds in any one unit, above 0; the exponent in dB for
// a tenfold speed, FanExponent where nothing better is known:
//
//	L = L_0 + e log10(N/N_0)                                           [1]
//
// It holds for one fan on one system, below stall, with tips well below the speed
// of sound. Sensible exponents lie between LowestExponent and HighestExponent.
//
// Check: twice the speed is 15.05 dB louder with an exponent of 50.
func AtSpeed(rated, ratedSpeed, speed, exponent float64) float64 {
	return rated + exponent*math.Log10(speed/ratedSpeed)
}

// AtDensity returns the level, dB(A), of a fan in air of a density, from its level, dB(A),
// in air of its rated density at the same speed; densities in any one unit, above 0:
//
//	L = L_0 + 20 log10(ρ/ρ_0)                                          [8]
//
// from eq. C-5: 20 log10 of the pressure, which goes with the density [1].
//
// Check: at 3 000 m in a standard atmosphere, 0.909 against 1.225 kg/m³, a fan is 2.6 dB
// quieter.
func AtDensity(rated, ratedDensity, density float64) float64 {
	return rated + 20*math.Log10(density/ratedDensity)
}

// AtDistance returns the level, dB(A), at distance to, from the level at distance
// from, both in m and above 0, in a free field:
//
//	L₂ = L₁ − 20 log10(r₂/r₁)                                          [2]
//
// In a room the level falls less with distance, since walls send sound back.
//
// Check: twice the distance is 6.02 dB quieter.
func AtDistance(level, from, to float64) float64 {
	return level - 20*math.Log10(to/from)
}
