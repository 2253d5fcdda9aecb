package sound

import "math"

// AWeighting returns how much, in dB, the A-weighting adds to a tone of a frequency
// in Hz, above 0:
//
//	R_A = 12194² f⁴ / [(f² + 20.6²) sqrt((f² + 107.7²)(f² + 737.9²)) (f² + 12194²)]
//	A   = 20 log10 R_A + 2.00                                          [7]
//
// Check: at the exact frequencies of third-octaves, 1000 Hz · 10^(k/10), it gives the
// table of [7] from 10 Hz to 20 kHz to its printed 0.1 dB.
func AWeighting(frequency float64) float64 {
	f := frequency * frequency
	r := 12194 * 12194 * f * f / ((f + 20.6*20.6) * math.Sqrt((f+107.7*107.7)*(f+737.9*737.9)) * (f + 12194*12194))
	return 20*math.Log10(r) + 2
}

// Octaves is the number of octaves in a Spectrum.
const Octaves = 8

// Spectrum holds the levels of the octaves of 63, 125, 250, 500, 1000, 2000, 4000
// and 8000 Hz, dB, not weighted.
type Spectrum [Octaves]float64

// OctaveCentre returns the exact middle of an octave of a Spectrum, Hz, by its place
// from 0 on: 10³ · 10^(3(i − 4)/10), 63.1 Hz for 0 and 1000 Hz for 4.
func OctaveCentre(octave int) float64 {
	return 1000 * math.Pow(10, 0.3*float64(octave-4))
}

// octaveOf returns the place of the octave that holds a frequency in Hz, and false
// if a Spectrum has none.
func octaveOf(frequency float64) (int, bool) {
	at := math.Round(math.Log10(frequency/1000)/0.3) + 4
	if !(at >= 0 && at < Octaves) {
		return 0, false
	}
	return int(at), true
}

// octaveWeights holds the A-weights of the octaves, dB.
var octaveWeights = func() (w Spectrum) {
	for i := range w {
		w[i] = AWeighting(OctaveCentre(i))
	}
	return w
}()

// AWeighted returns the level of the whole spectrum, dB(A): its octaves, weighted at
// their middles and summed by Sum. Octaves that were not measured are -Inf. A
// spectrum with a strong tone away from the middle of an octave is off by up to
// 6 dB, in the lowest octave.
//
// Check: eight octaves of 75.8, 78.8, 85.8, 83.8, 87.8, 79.8, 73.8 and 69.8 dB are
// 89.7 dB(A).
func (s Spectrum) AWeighted() float64 {
	for i, w := range octaveWeights {
		s[i] += w
	}
	return Sum(s[:]...)
}
