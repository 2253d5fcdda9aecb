package air_test

import (
	"testing"

	"finduel/model/air"
	"finduel/testdata/published"
)

func TestPublishedValues(t *testing.T) {
	dry := air.Atmosphere{Pressure: 101325}
	published.Run(t, "air", map[string]func(t *testing.T, r published.Row) float64{
		"isa_pressure": func(t *testing.T, r published.Row) float64 {
			return air.PressureAtAltitude(r.Arg(t, "z"))
		},
		"isa_density": func(t *testing.T, r published.Row) float64 {
			a := air.Atmosphere{Pressure: air.PressureAtAltitude(r.Arg(t, "z"))}
			return a.Density(r.Arg(t, "t_K"))
		},
		"viscosity":    func(t *testing.T, r published.Row) float64 { return dry.At(r.Arg(t, "t_K")).Viscosity },
		"conductivity": func(t *testing.T, r published.Row) float64 { return dry.At(r.Arg(t, "t_K")).Conductivity },
		"prandtl":      func(t *testing.T, r published.Row) float64 { return dry.At(r.Arg(t, "t_K")).Prandtl() },
		"saturation_pressure": func(t *testing.T, r published.Row) float64 {
			return air.SaturationPressure(r.Arg(t, "t_C") + 273.15)
		},
		"humidity_ratio": func(t *testing.T, r published.Row) float64 {
			w, err := air.HumidityRatio(r.Arg(t, "pw"), r.Arg(t, "p"))
			if err != nil {
				t.Fatal(err)
			}
			return w
		},
		"saturated_humidity_ratio": func(t *testing.T, r published.Row) float64 {
			a, err := air.NewAtmosphere(r.Arg(t, "t_C")+273.15, 0, 1)
			if err != nil {
				t.Fatal(err)
			}
			return a.HumidityRatio
		},
		"moist_volume":   moistVolume,
		"example_volume": moistVolume,
		"moist_density": func(t *testing.T, r published.Row) float64 {
			a := air.Atmosphere{Pressure: r.Arg(t, "p"), HumidityRatio: r.Arg(t, "w")}
			return a.At(r.Arg(t, "t_C") + 273.15).Density
		},
		// The handbook's enthalpy counts from dry air and liquid water at 0 °C, per
		// kg of dry air: evaporation at 0 °C, then warming.
		"moist_enthalpy": func(t *testing.T, r published.Row) float64 {
			w := r.Arg(t, "w")
			a := air.Atmosphere{Pressure: 101325, HumidityRatio: w}
			return w*2501e3 + a.SpecificHeat()*(1+w)*r.Arg(t, "t_C")
		},
		"speed_of_sound": func(t *testing.T, r published.Row) float64 { return air.SpeedOfSound(r.Arg(t, "t_K")) },
	})
}

// moistVolume is the volume of moist air per kg of dry air.
func moistVolume(t *testing.T, r published.Row) float64 {
	w := r.Arg(t, "w")
	a := air.Atmosphere{Pressure: r.Arg(t, "p"), HumidityRatio: w}
	return (1 + w) / a.Density(r.Arg(t, "t_C")+273.15)
}
