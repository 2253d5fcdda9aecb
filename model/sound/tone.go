package sound

// BladePassing returns the blade passing frequency, Hz, of a rotor by its number of
// blades, 1 or more, and its speed in rev/s:
//
//	f = B N
//
// by definition. Its multiples sound too.
//
// Check: nine blades at 2000 rpm pass at 300 Hz, three at 20 000 rpm at 1000 Hz.
func BladePassing(blades int, speed float64) float64 { return float64(blades) * speed }

// SteepToneMach is the Mach number of the blade tips above which tones rise steeply
// with speed, far faster than FanExponent says (from memory).
const SteepToneMach = 0.5

// What a tone adds to a level before it is held against a limit of annoyance, dB (ISO
// 1996, simplified; a transcription). Rules for hearing do not count it.
const (
	AudibleTone   = 3.0 // a tone that is clearly heard
	ProminentTone = 6.0 // a tone that stands out
)

// Tone is what can be said of the blade tone of a rotor.
type Tone struct {
	Frequency float64 // blade passing frequency, Hz; 0 if not known
	Weight    float64 // what A-weighting adds to a tone of that frequency, dB; 0 if not known
	Steep     bool    // the tips are above SteepToneMach
}

// ToneOf returns what can be said of the blade tone of a rotor, by its number of
// blades (0: not known), its speed in rev/s and the Mach number of its tips. It says
// nothing of how strong the tone is: that takes a measurement.
//
// Check: three blades at 20 000 rpm pass at 1000 Hz, where A-weighting adds nothing.
func ToneOf(blades int, speed, tipMach float64) Tone {
	t := Tone{Steep: tipMach > SteepToneMach}
	if blades > 0 {
		t.Frequency = BladePassing(blades, speed)
		t.Weight = AWeighting(t.Frequency)
	}
	return t
}
