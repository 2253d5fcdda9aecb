package hazard_test

import (
	"math"
	"testing"

	"finduel/model/hazard"
	"finduel/testdata/published"
)

func TestPublishedValues(t *testing.T) {
	kelvin := func(t *testing.T, r published.Row) float64 { return r.Arg(t, "t_C") + 273.15 }
	gauge := func(t *testing.T, r published.Row) hazard.Gauge {
		return hazard.GaugeOf(hazard.WireArea(r.Arg(t, "gauge")))
	}
	tipSpeed := func(t *testing.T, r published.Row) float64 {
		return math.Pi * r.Arg(t, "d_mm") / 1000 * r.Arg(t, "rpm") / 60
	}
	published.Run(t, "hazard", map[string]func(t *testing.T, r published.Row) float64{
		"diameter_mm": func(t *testing.T, r published.Row) float64 { return 1e3 * hazard.WireDiameter(r.Arg(t, "gauge")) },
		"area_mm2":    func(t *testing.T, r published.Row) float64 { return 1e6 * hazard.WireArea(r.Arg(t, "gauge")) },
		"milliohm_per_m": func(t *testing.T, r published.Row) float64 {
			return 1e3 * hazard.WireResistance(hazard.WireArea(r.Arg(t, "gauge")), 1, kelvin(t, r))
		},
		"ohm_per_kft": func(t *testing.T, r published.Row) float64 {
			return hazard.WireResistance(hazard.WireArea(r.Arg(t, "gauge")), 304.8, kelvin(t, r))
		},
		"hot_over_cold": func(t *testing.T, r published.Row) float64 {
			return hazard.WireResistance(1e-6, 1, kelvin(t, r)) / hazard.WireResistance(1e-6, 1, 293.15)
		},
		"voltage_drop": func(t *testing.T, r published.Row) float64 {
			return hazard.VoltageDrop(r.Arg(t, "current"), r.Arg(t, "length"), hazard.WireArea(r.Arg(t, "gauge")), kelvin(t, r))
		},
		"ampacity":         func(t *testing.T, r published.Row) float64 { return gauge(t, r).Rated },
		"largest_fuse":     func(t *testing.T, r published.Row) float64 { return gauge(t, r).Rated },
		"free_air_current": func(t *testing.T, r published.Row) float64 { return gauge(t, r).FreeAir },
		"stranded_gauge": func(t *testing.T, r published.Row) float64 {
			return float64(hazard.GaugeOf(r.Arg(t, "area_mm2") / 1e6).AWG)
		},
		"root_stress_MPa": func(t *testing.T, r published.Row) float64 {
			return hazard.RootStress(r.Arg(t, "density"), tipSpeed(t, r), r.Arg(t, "hub_ratio")) / 1e6
		},
		"fragment_energy": func(t *testing.T, r published.Row) float64 {
			return hazard.FragmentEnergy(r.Arg(t, "mass_g")/1000, r.Arg(t, "radius_mm")/1000, r.Arg(t, "rpm")/60)
		},
		// One metre out, 1/(2π) of a revolution a second is 1 m/s.
		"ball_energy": func(t *testing.T, r published.Row) float64 {
			return hazard.FragmentEnergy(r.Arg(t, "mass_g")/1000, 1, r.Arg(t, "velocity")/(2*math.Pi))
		},
		"fragment_mass_g": func(t *testing.T, r published.Row) float64 {
			return 1000 * hazard.FragmentMass(r.Arg(t, "d_mm")/1000, r.Arg(t, "density"))
		},
		"guard_distance_mm": func(t *testing.T, r published.Row) float64 {
			d, ok := hazard.GuardDistance(hazard.Opening(r.Arg(t, "shape")), r.Arg(t, "opening_mm")/1000)
			if !ok {
				t.Fatal("beyond the table")
			}
			return d * 1000
		},
		"density": func(t *testing.T, r published.Row) float64 {
			return hazard.Material(r.Arg(t, "material")).Properties().Density
		},
		"strength_MPa": func(t *testing.T, r published.Row) float64 {
			return hazard.Material(r.Arg(t, "material")).Properties().Strength / 1e6
		},
		"softening_C": func(t *testing.T, r published.Row) float64 {
			return hazard.Material(r.Arg(t, "material")).Properties().Softening - 273.15
		},
	})
}
