package sound_test

import (
	"math"
	"testing"

	"finduel/model/sound"
)

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-11) {
		t.Errorf("%s: %.15g, want %.15g", what, got, want)
	}
}

func TestSumIdentities(t *testing.T) {
	if l := sound.Sum(); !math.IsInf(l, -1) {
		t.Errorf("no source at all: %g", l)
	}
	near(t, "one source", sound.Sum(37.5), 37.5)
	near(t, "order", sound.Sum(20, 33, 41), sound.Sum(41, 20, 33))
	near(t, "in steps", sound.Sum(sound.Sum(20, 33), 41), sound.Sum(20, 33, 41))
	near(t, "silence added", sound.Sum(30, math.Inf(-1)), 30)
	for n := 1; n <= 12; n++ {
		levels := make([]float64, n)
		for i := range levels {
			levels[i] = 23
		}
		near(t, "equal sources", sound.SumOfEqual(23, n), sound.Sum(levels...))
	}
}

func TestSpeedAndDistanceCompose(t *testing.T) {
	near(t, "by way of another speed", sound.AtSpeed(sound.AtSpeed(30, 10, 35, 43), 35, 80, 43), sound.AtSpeed(30, 10, 80, 43))
	near(t, "by way of another distance", sound.AtDistance(sound.AtDistance(30, 1, 3), 3, 0.4), sound.AtDistance(30, 1, 0.4))
	near(t, "speeds in another unit", sound.AtSpeed(30, 600, 4800, 57), sound.AtSpeed(30, 10, 80, 57))
}

// The times of table 1-1 end with "less than 1 s" from 130 dB(A) on.
func TestNIOSHTimesBelowASecond(t *testing.T) {
	for level := 130.0; level <= 140; level++ {
		if s := sound.PermittedNIOSH(level); !(s > 0 && s < 1) {
			t.Errorf("%g dB(A): %g s", level, s)
		}
	}
	if s := sound.PermittedNIOSH(129); s < 1 {
		t.Errorf("129 dB(A): %g s", s)
	}
}

func TestExposureIdentities(t *testing.T) {
	for level := 60.0; level < 140; level += 0.7 {
		near(t, "NIOSH: 3 dB halve the time", sound.PermittedNIOSH(level+3)/sound.PermittedNIOSH(level), 0.5)
		near(t, "OSHA: 5 dB halve the time", sound.PermittedOSHA(level+5)/sound.PermittedOSHA(level), 0.5)
		near(t, "over a whole working day", sound.DailyExposure(level, 8*3600), level)
		near(t, "a tenth of the time", sound.DailyExposure(level, 2880), level-10)
		if level > 85 && !(sound.PermittedNIOSH(level) < sound.PermittedOSHA(level)) {
			t.Errorf("%g dB(A): NIOSH permits as much as OSHA", level)
		}
	}
}

func TestDosesCountFromTheirThreshold(t *testing.T) {
	for level := 60.0; level < 140; level += 0.7 {
		for _, permitted := range []float64{sound.PermittedNIOSH(level), sound.PermittedOSHA(level)} {
			switch dose := sound.Dose(level, 1800, permitted); {
			case level >= 80:
				near(t, "dose", dose*permitted/1800, 1)
			case dose != 0:
				t.Errorf("%g dB(A) has a dose of %g", level, dose)
			}
		}
		// Borne for as long as it takes, each value is reached and not passed.
		for _, value := range []float64{sound.EULower, sound.EUUpper, sound.EULimit} {
			near(t, "value", sound.DailyExposure(level, sound.PermittedEU(level, value)), value)
		}
		lower, upper, limit := sound.ActionTimes(level)
		near(t, "lower action time", lower/sound.PermittedEU(level, sound.EULower), 1)
		near(t, "upper action time", upper/sound.PermittedEU(level, sound.EUUpper), 1)
		near(t, "limit time", limit/sound.PermittedEU(level, sound.EULimit), 1)
	}
	if sound.Dose(80, 3600, sound.PermittedNIOSH(80)) == 0 {
		t.Error("80 dB(A) does not count")
	}
}

// A constant level for 8 h is its own average.
func TestAverageOfADose(t *testing.T) {
	const day = 8 * 3600
	for level := 80.0; level <= 120; level++ {
		if got := sound.AverageNIOSH(sound.Dose(level, day, sound.PermittedNIOSH(level))); math.Abs(got-level) > 0.121 {
			t.Errorf("NIOSH: %g dB(A) average to %g; the printed constant makes 0.12 dB at most", level, got)
		}
		if got := sound.AverageOSHA(sound.Dose(level, day, sound.PermittedOSHA(level))); math.Abs(got-level) > 0.001 {
			t.Errorf("OSHA: %g dB(A) average to %g", level, got)
		}
	}
}
