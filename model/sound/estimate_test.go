package sound_test

import (
	"math"
	"testing"

	"finduel/model/sound"
)

func TestEstimateFollowsFlowPressureAndSpeed(t *testing.T) {
	for _, c := range []sound.Construction{sound.Propeller, sound.Tubeaxial} {
		l := sound.Estimate(c, 0.1, 50, 0)
		near(t, "twice the flow", sound.Estimate(c, 0.2, 50, 0)-l, 10*math.Log10(2))
		near(t, "twice the pressure", sound.Estimate(c, 0.1, 100, 0)-l, 20*math.Log10(2))
		// Flow as N and pressure as N² make the exponent of the fan laws.
		near(t, "three times the speed", sound.Estimate(c, 0.3, 450, 0), sound.AtSpeed(l, 1, 3, sound.FanExponent))
	}
}

// The tone counts in the octave that holds its frequency and nowhere else; the edges
// of octaves lie 10^0.15 away from their middles.
func TestTheToneIsInItsOctave(t *testing.T) {
	for _, c := range []struct {
		construction sound.Construction
		rise         float64
	}{{sound.Propeller, 5}, {sound.Tubeaxial, 7}} {
		without := sound.PowerSpectrum(c.construction, 0.1, 50, 0)
		for i := range sound.Octaves {
			for _, off := range []float64{0.7080, 1, 1.4124} {
				with := sound.PowerSpectrum(c.construction, 0.1, 50, sound.OctaveCentre(i)*off)
				for j := range with {
					want := 0.0
					if i == j {
						want = c.rise
					}
					near(t, "octave", with[j]-without[j], want)
				}
			}
		}
		for _, f := range []float64{-100, 1, 44, 11300, 1e9, math.NaN(), math.Inf(1)} {
			if sound.PowerSpectrum(c.construction, 0.1, 50, f) != without {
				t.Errorf("a tone of %g Hz is heard", f)
			}
		}
	}
}

func TestWeightedSumOfASpectrum(t *testing.T) {
	silent := math.Inf(-1)
	near(t, "1 kHz alone", sound.Spectrum{silent, silent, silent, silent, 60, silent, silent, silent}.AWeighted(), 60+sound.AWeighting(1000))
	near(t, "63 Hz alone", sound.Spectrum{60, silent, silent, silent, silent, silent, silent, silent}.AWeighted(), 60+sound.AWeighting(sound.OctaveCentre(0)))
	s := sound.Spectrum{50, 51, 52, 53, 54, 55, 56, 57}
	if s.AWeighted(); s != (sound.Spectrum{50, 51, 52, 53, 54, 55, 56, 57}) {
		t.Error("weighting changes the spectrum")
	}
	near(t, "1 kHz is the reference, to the printed 2.00 dB", math.Round(1e3*sound.AWeighting(1000))/1e3, 0)
	if got := testing.AllocsPerRun(100, func() { s.AWeighted() }); got != 0 {
		t.Errorf("%g allocations", got)
	}
}

func TestTones(t *testing.T) {
	for _, c := range []struct {
		blades      int
		speed, mach float64
		want        sound.Tone
	}{
		{0, 100, 0.1, sound.Tone{}},
		{-1, 100, 0.6, sound.Tone{Steep: true}},
		{9, 2000. / 60, 0.04, sound.Tone{Frequency: 300, Weight: sound.AWeighting(300)}},
		{3, 20000. / 60, 0.5, sound.Tone{Frequency: 1000}},
		{3, 20000. / 60, 0.501, sound.Tone{Frequency: 1000, Steep: true}},
	} {
		got := sound.ToneOf(c.blades, c.speed, c.mach)
		near(t, "frequency", got.Frequency, c.want.Frequency)
		if math.Abs(got.Weight-c.want.Weight) > 2e-4 {
			t.Errorf("weight %g dB, want %g", got.Weight, c.want.Weight)
		}
		if got.Steep != c.want.Steep {
			t.Errorf("%+v, want %+v", got, c.want)
		}
	}
}
