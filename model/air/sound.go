package air

import "math"

// SpeedOfSound returns the speed of sound in dry air, in m/s, at temperature t,
// in K:
//
//	c = √(γ R t),  γ = 1.4, R = 287.042 J/(kg K)               [1] eq. (50)
//
// The pressure does not matter. t must not be negative. γ falls to 1.395 at 400 K
// (0.2 % in c); saturated air at 30 °C carries sound 0.7 % faster (both from the
// gas law, no source).
//
// Check: 288.15 K gives 340.29 m/s.
func SpeedOfSound(t float64) float64 { return math.Sqrt(1.4 * gasConstant * t) }
