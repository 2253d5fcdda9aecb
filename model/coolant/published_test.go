package coolant_test

import (
	"testing"

	"finduel/model/coolant"
	"finduel/testdata/published"
)

func TestPublishedValues(t *testing.T) {
	water := func(t *testing.T, r published.Row) coolant.Properties {
		if celsius, ok := r.In["t_C"]; ok {
			return coolant.Liquid{Fluid: coolant.Water}.At(celsius + 273.15)
		}
		return coolant.Liquid{Fluid: coolant.Water}.At(r.Arg(t, "t_K"))
	}
	published.Run(t, "water", map[string]func(t *testing.T, r published.Row) float64{
		"density":         func(t *testing.T, r published.Row) float64 { return water(t, r).Density },
		"specific_volume": func(t *testing.T, r published.Row) float64 { return 1 / water(t, r).Density },
		"specific_heat":   func(t *testing.T, r published.Row) float64 { return water(t, r).SpecificHeat },
		"viscosity":       func(t *testing.T, r published.Row) float64 { return water(t, r).Viscosity },
		"conductivity":    func(t *testing.T, r published.Row) float64 { return water(t, r).Conductivity },
		"prandtl":         func(t *testing.T, r published.Row) float64 { return water(t, r).Prandtl() },
	})
}
