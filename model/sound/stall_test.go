package sound_test

import (
	"testing"

	"finduel/model/sound"
)

func TestStallPenalty(t *testing.T) {
	for _, stall := range []float64{0.6, 0.45, 1} {
		last := sound.StallRise
		for i := 0; i <= 1000; i++ {
			share := float64(i) / 1000
			rise := sound.StallPenalty(share, stall)
			if !(rise >= 0 && rise <= last && last-rise <= 0.04) {
				t.Fatalf("stall at %g: %g dB at %g, %g dB just below", stall, rise, share, last)
			}
			last = rise
		}
		near(t, "where stall begins", sound.StallPenalty(stall, stall), 0)
		near(t, "just there", sound.StallPenalty(stall*(1-1e-14), stall), 0)
		near(t, "stalled through", sound.StallPenalty(stall*0.35/0.6, stall), 6)
		near(t, "shut off", sound.StallPenalty(0, stall), 6)
		near(t, "free air", sound.StallPenalty(1, stall), 0)
	}
	near(t, "half way", sound.StallPenalty(0.475, 0.6), 3)
}

// A fan that is stalled through is 3 to 8 dB louder: that is what the doubt of the rise
// covers, and no more.
func TestStallWidensTheDoubt(t *testing.T) {
	low, high := sound.StallDoubt(0, sound.StallRise)
	near(t, "least rise", sound.StallRise+low, 3)
	near(t, "greatest rise", sound.StallRise+high, 8)
	low, high = sound.StallDoubt(5, 0)
	near(t, "low without stall", low, -5)
	near(t, "high without stall", high, 5)
	low, high = sound.StallDoubt(5, 3)
	near(t, "low half way", low, -6.5)
	near(t, "high half way", high, 6)
}
