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

// Hearing says how the ear takes a tone.
type Hearing int

// How the ear takes a tone, by its frequency (common practice, no source).
const (
	ToneNotKnown Hearing = iota // without the number of blades there is no frequency
	Rumble                      // below 500 Hz: A-weighting takes 3 dB and more off
	Keen                        // 500 Hz to 5 kHz: where the ear is keenest
	Whine                       // above 5 kHz: dies away soon in air and behind walls, still harms
)

// Ends of the keen range of the ear, Hz (common practice, no source).
const (
	keenFrom = 500.0
	keenTo   = 5000.0
)

// SteepToneMach is the Mach number of the blade tips above which tones rise steeply
// with speed, far faster than FanExponent says (from memory).
const SteepToneMach = 0.5

// Tone is what can be said of the blade tone of a rotor.
type Tone struct {
	Frequency float64 // blade passing frequency, Hz; 0 if not known
	Hearing   Hearing
	Steep     bool // the tips are above SteepToneMach
}

// ToneOf returns what can be said of the blade tone of a rotor, by its number of
// blades (0: not known), its speed in rev/s and the Mach number of its tips. It says
// nothing of how strong the tone is: that takes a measurement.
//
// Check: two blades at 20 000 rpm pass at 667 Hz, where the ear is keen.
func ToneOf(blades int, speed, tipMach float64) Tone {
	t := Tone{Steep: tipMach > SteepToneMach}
	if blades < 1 {
		return t
	}
	t.Frequency = BladePassing(blades, speed)
	switch {
	case t.Frequency < keenFrom:
		t.Hearing = Rumble
	case t.Frequency <= keenTo:
		t.Hearing = Keen
	default:
		t.Hearing = Whine
	}
	return t
}

var hearingTexts = [...]string{
	ToneNotKnown: "the number of blades is not given, so the tone is not known",
	Rumble:       "a low tone: a rumble or hum, which walls hold back badly",
	Keen:         "a tone where the ear is keenest: it annoys more than its dB(A) say",
	Whine:        "a high tone: a whine, which dies away soon with distance",
}

// Text says it in words, without a capital and a full stop.
func (t Tone) Text() string {
	text := hearingTexts[t.Hearing]
	if t.Steep {
		text += "; with tips above half the speed of sound tones rise steeply with speed"
	}
	return text
}
