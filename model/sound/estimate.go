package sound

import (
	"math"

	"finduel/model/quantity"
)

// How far a level may be out either way, dB (common practice, no source; three
// published estimates agree within ±4 dB, and quiet small fans are rated 5 to 12 dB
// below them).
const (
	RatedDoubt     = 5.0  // with a rated level
	EstimatedDoubt = 10.0 // without one, after Estimate
)

// Construction is how an axial fan is built.
type Construction int

// The constructions of which [8] has constants.
const (
	Propeller Construction = iota // blades in the open or in a plate
	Tubeaxial                     // blades in a close tube, wheel below 1 m
)

// specific holds the specific sound power levels of [9], dB re 1 pW at 1 cfm and
// 1 inH2O, by octave, and what the octave of the blade passing frequency has more.
var specific = [...]struct {
	octaves Spectrum
	tone    float64
}{
	Propeller: {Spectrum{48, 51, 58, 56, 55, 52, 46, 42}, 5},
	Tubeaxial: {Spectrum{48, 47, 49, 53, 52, 51, 43, 40}, 7},
}

// perSI carries the specific levels from 1 cfm and 1 inH2O over to 1 m³/s and 1 Pa:
// -14.67 dB.
var perSI = func() float64 {
	flow, _ := quantity.Find(quantity.VolumeFlow, "cfm")
	pressure, _ := quantity.Find(quantity.Pressure, "inH2O")
	return -10*math.Log10(flow.SI(1)) - 20*math.Log10(pressure.SI(1))
}()

// PowerSpectrum returns the sound power levels of a fan by octave, dB re 1 pW, from
// its volume flow in m³/s, its static pressure in Pa, both above 0, and its blade
// passing frequency in Hz, 0 if not known:
//
//	L_W = K_W + 10 log10 V + 20 log10 p + BFI                          [8] eq. C-5
//
// with K_W and BFI of [9]. BFI counts in the octave of the blade passing frequency
// only, and not at all if that is not known or in no octave of a Spectrum. The
// correction of [8] for fans away from their best efficiency is left out, since that
// is not known here; it is 0 to 16 dB. Without flow or pressure the levels are -Inf.
//
// Check: a propeller fan with 321 cfm at 1.373 inH2O and blades passing at 1 kHz has
// 87.8 dB in that octave and 91.7 dB in all.
func PowerSpectrum(construction Construction, flow, pressure, bladePassing float64) Spectrum {
	k := &specific[Propeller]
	if construction == Tubeaxial {
		k = &specific[Tubeaxial]
	}
	s := k.octaves
	if at, ok := octaveOf(bladePassing); ok {
		s[at] += k.tone
	}
	rise := perSI + 10*math.Log10(flow) + 20*math.Log10(pressure)
	for i := range s {
		s[i] += rise
	}
	return s
}

// Estimate returns the level of a fan of which no rated level is known, at 1 m in a
// free field, dB(A); arguments as for PowerSpectrum. A sound power level is
// 10 log10(4π · 1 m²) = 10.99 dB above that level [2]. The doubt is EstimatedDoubt:
// the constants are those of large fans, and no more than a bound for quiet small
// ones. A bare rotor of 127 mm at 20 000 rpm read about 20 dB more than this (common
// practice, no source; the meter's distance was not said): read such rotors.
//
// Check: the fan of PowerSpectrum has 89.7 dB(A) of sound power, 78.7 dB(A) at 1 m.
func Estimate(construction Construction, flow, pressure, bladePassing float64) float64 {
	return PowerSpectrum(construction, flow, pressure, bladePassing).AWeighted() - 10*math.Log10(4*math.Pi)
}
