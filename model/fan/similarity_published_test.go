package fan_test

import (
	"math"
	"testing"

	"finduel/model/fan"
	"finduel/testdata/published"
)

func TestPublishedSimilarity(t *testing.T) {
	published.Run(t, "similarity", map[string]func(t *testing.T, r published.Row) float64{
		"reynolds": func(t *testing.T, r published.Row) float64 {
			d := r.Arg(t, "d_mm") / 1000
			return fan.Reynolds(math.Pi*d*r.Arg(t, "rpm")/60, d, r.Arg(t, "viscosity"))
		},
		"affinity_reynolds": func(*testing.T, published.Row) float64 { return fan.AffinityReynolds },
		"tip_mach": func(t *testing.T, r published.Row) float64 {
			return fan.TipMach(r.Arg(t, "u"), r.Arg(t, "c"))
		},
	})
}
