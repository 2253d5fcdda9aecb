package render_test

import (
	"testing"

	"finduel/model"
	"finduel/model/sound"
	"finduel/render"
)

func TestSoundDoubtInWords(t *testing.T) {
	for want, s := range map[string]model.State{
		"±5.0":      {SoundDoubtLow: -5, SoundDoubtHigh: 5},
		"±0.0":      {},
		"-8.0 +7.0": {SoundDoubtLow: -8, SoundDoubtHigh: 7},
		"±5.1":      {SoundDoubtLow: -5.06, SoundDoubtHigh: 5.14},
	} {
		if got := render.SoundDoubt(&s); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A tone is said by what A-weighting does to it, which has a source.
func TestToneInWords(t *testing.T) {
	const strength = " How strong it is, is not computed: one that is clearly heard annoys like 3 dB more, one that stands out like 6 dB (ISO 1996, simplified)"
	for want, tone := range map[string]sound.Tone{
		"the number of blades is not given, so its frequency is not known":                                                                                                   {},
		"A-weighting takes 3.9 dB off one at the blade passing frequency." + strength:                                                                                        sound.ToneOf(9, 50, 0.1),
		"A-weighting adds 1.2 dB to one at the blade passing frequency." + strength:                                                                                          sound.ToneOf(10, 200, 0.1),
		"A-weighting leaves one at the blade passing frequency as it is." + strength:                                                                                         sound.ToneOf(10, 100, 0.1),
		"the number of blades is not given, so its frequency is not known. Tips are above half the speed of sound, where tones rise faster with speed than is computed here": sound.ToneOf(0, 100, 0.6),
	} {
		if got := render.Tone(tone); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestList(t *testing.T) {
	for want, words := range map[string][]string{"": nil, "a": {"a"}, "a and b": {"a", "b"}, "a, b and c": {"a", "b", "c"}} {
		if got := render.List(words); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
