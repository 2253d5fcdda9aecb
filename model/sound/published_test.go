package sound_test

import (
	"fmt"
	"testing"

	"finduel/model/sound"
	"finduel/testdata/published"
)

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
			return sound.AtSpeed(30, 25, 25*r.Arg(t, "ratio")) - 30
		},
	})
}

func TestPublishedExposures(t *testing.T) {
	published.Run(t, "exposure", map[string]func(t *testing.T, r published.Row) float64{
		"niosh_time": func(t *testing.T, r published.Row) float64 { return sound.PermittedNIOSH(r.Arg(t, "level")) },
		"osha_hours": func(t *testing.T, r published.Row) float64 { return sound.PermittedOSHA(r.Arg(t, "level")) / 3600 },
		"niosh_dose": func(t *testing.T, r published.Row) float64 {
			return 100 * r.Arg(t, "duration") / sound.PermittedNIOSH(r.Arg(t, "level"))
		},
		"osha_dose": func(t *testing.T, r published.Row) float64 {
			return 100 * r.Arg(t, "duration") / sound.PermittedOSHA(r.Arg(t, "level"))
		},
		"daily_exposure": func(t *testing.T, r published.Row) float64 {
			return sound.DailyExposure(r.Arg(t, "level"), r.Arg(t, "duration"))
		},
		"two_periods": func(t *testing.T, r published.Row) float64 {
			return sound.Sum(
				sound.DailyExposure(r.Arg(t, "level1"), r.Arg(t, "duration1")),
				sound.DailyExposure(r.Arg(t, "level2"), r.Arg(t, "duration2")))
		},
	})
}
