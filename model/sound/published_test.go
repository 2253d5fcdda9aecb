package sound_test

import (
	"fmt"
	"math"
	"testing"

	"finduel/model/quantity"
	"finduel/model/sound"
	"finduel/testdata/published"
)

// fromPower is 10 log10(4π), what a level of sound power is above the level at 1 m in
// a free field, dB.
var fromPower = 10 * math.Log10(4*math.Pi)

func room(t *testing.T, r published.Row) sound.Surroundings {
	s := sound.Surroundings{Field: sound.Room, Surface: r.Arg(t, "surface"), Absorption: r.Arg(t, "absorption"), Directivity: 1}
	if q, ok := r.In["directivity"]; ok {
		s.Directivity = q
	}
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	return s
}

// sheet returns flow and pressure of a row in SI units.
func sheet(t *testing.T, r published.Row) (flow, pressure float64) {
	cfm, _ := quantity.Find(quantity.VolumeFlow, "cfm")
	inwg, _ := quantity.Find(quantity.Pressure, "inH2O")
	return cfm.SI(r.Arg(t, "flow_cfm")), inwg.SI(r.Arg(t, "pressure_inwg"))
}

func spectrum(t *testing.T, r published.Row) sound.Spectrum {
	flow, pressure := sheet(t, r)
	return sound.PowerSpectrum(sound.Construction(r.Arg(t, "tubeaxial")), flow, pressure, r.Arg(t, "tone"))
}

func TestPublishedLevels(t *testing.T) {
	published.Run(t, "sound", map[string]func(t *testing.T, r published.Row) float64{
		"sum": func(t *testing.T, r published.Row) float64 {
			levels := make([]float64, len(r.In))
			for i := range levels {
				levels[i] = r.Arg(t, fmt.Sprintf("l%d", i+1))
			}
			return sound.Sum(levels...)
		},
		"rise_of_equal": func(t *testing.T, r published.Row) float64 {
			return sound.SumOfEqual(41, int(r.Arg(t, "n"))) - 41
		},
		"rise_with_distance": func(t *testing.T, r published.Row) float64 {
			return sound.AtDistance(50, r.Arg(t, "from"), r.Arg(t, "to")) - 50
		},
		// A sound power level is the level where the hemisphere has 1 m².
		"hemisphere": func(t *testing.T, r published.Row) float64 {
			const unitArea = 0.3989422804014327 // 1/sqrt(2π), m
			return sound.AtDistance(r.Arg(t, "power_level"), unitArea, r.Arg(t, "to"))
		},
		"rise_with_speed": func(t *testing.T, r published.Row) float64 {
			return sound.AtSpeed(30, 25, 25*r.Arg(t, "ratio"), sound.FanExponent) - 30
		},
		"rise_with_density": func(t *testing.T, r published.Row) float64 {
			return sound.AtDensity(30, 1.2, 1.2*r.Arg(t, "ratio")) - 30
		},
		"between_readings": func(t *testing.T, r published.Row) float64 {
			return sound.AtSpeed(r.Arg(t, "level"), r.Arg(t, "rpm"), r.Arg(t, "to_rpm"), sound.FanExponent)
		},
		"a_weighting": func(t *testing.T, r published.Row) float64 {
			return sound.AWeighting(1000 * math.Pow(10, r.Arg(t, "third_octave")/10))
		},
		"room_constant":     func(t *testing.T, r published.Row) float64 { return room(t, r).RoomConstant() },
		"critical_distance": func(t *testing.T, r published.Row) float64 { return room(t, r).CriticalDistance() },
		"room_loss": func(t *testing.T, r published.Row) float64 {
			return room(t, r).Level(-fromPower, r.Arg(t, "distance"))
		},
		"sphere": func(t *testing.T, r published.Row) float64 {
			return sound.Surroundings{}.Level(r.Arg(t, "power_level")-fromPower, r.Arg(t, "distance"))
		},
		"half_space": func(t *testing.T, r published.Row) float64 {
			return sound.Surroundings{Field: sound.HalfSpace}.Level(r.Arg(t, "power_level")-fromPower, r.Arg(t, "distance"))
		},
		"power_band": func(t *testing.T, r published.Row) float64 { return spectrum(t, r)[int(r.Arg(t, "octave"))] },
		"power_level": func(t *testing.T, r published.Row) float64 {
			s := spectrum(t, r)
			return sound.Sum(s[:]...)
		},
		"weighted_power_level": func(t *testing.T, r published.Row) float64 { return spectrum(t, r).AWeighted() },
		"estimate": func(t *testing.T, r published.Row) float64 {
			flow, pressure := sheet(t, r)
			return sound.Estimate(sound.Construction(r.Arg(t, "tubeaxial")), flow, pressure, r.Arg(t, "tone"))
		},
		"specific_power_level": func(t *testing.T, r published.Row) float64 {
			s := sound.PowerSpectrum(sound.Construction(r.Arg(t, "tubeaxial")), 1, 1, 0)
			return sound.Sum(s[:]...)
		},
		// The propeller row has 48 dB in the octave of 63 Hz.
		"power_rise": func(t *testing.T, r published.Row) float64 {
			flow, pressure := sheet(t, r)
			return sound.PowerSpectrum(sound.Propeller, flow, pressure, 0)[0] - 48
		},
		"blade_passing": func(t *testing.T, r published.Row) float64 {
			return sound.BladePassing(int(r.Arg(t, "blades")), r.Arg(t, "rpm")/60)
		},
	})
}

func TestPublishedExposures(t *testing.T) {
	published.Run(t, "exposure", map[string]func(t *testing.T, r published.Row) float64{
		"niosh_time": func(t *testing.T, r published.Row) float64 { return sound.PermittedNIOSH(r.Arg(t, "level")) },
		"osha_hours": func(t *testing.T, r published.Row) float64 { return sound.PermittedOSHA(r.Arg(t, "level")) / 3600 },
		"niosh_dose": func(t *testing.T, r published.Row) float64 {
			return 100 * sound.Dose(r.Arg(t, "level"), r.Arg(t, "duration"), sound.PermittedNIOSH(r.Arg(t, "level")))
		},
		"osha_dose": func(t *testing.T, r published.Row) float64 {
			return 100 * sound.Dose(r.Arg(t, "level"), r.Arg(t, "duration"), sound.PermittedOSHA(r.Arg(t, "level")))
		},
		"daily_exposure": func(t *testing.T, r published.Row) float64 {
			return sound.DailyExposure(r.Arg(t, "level"), r.Arg(t, "duration"))
		},
		"eu_minutes": func(t *testing.T, r published.Row) float64 {
			return sound.PermittedEU(r.Arg(t, "level"), r.Arg(t, "value")) / 60
		},
		"niosh_average": func(t *testing.T, r published.Row) float64 { return sound.AverageNIOSH(r.Arg(t, "dose")) },
		"osha_average":  func(t *testing.T, r published.Row) float64 { return sound.AverageOSHA(r.Arg(t, "dose")) },
		"two_periods": func(t *testing.T, r published.Row) float64 {
			return sound.Sum(
				sound.DailyExposure(r.Arg(t, "level1"), r.Arg(t, "duration1")),
				sound.DailyExposure(r.Arg(t, "level2"), r.Arg(t, "duration2")))
		},
	})
}
