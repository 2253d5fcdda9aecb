package doubt_test

import (
	"slices"
	"strings"
	"testing"

	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/core"
	"finduel/sweep/doubt"
	"finduel/sweep/study"
	"finduel/testdata/reports"
)

// Who has which error: what is common, what is each setup's own, and what a study says
// instead.
func TestSourcesAreCommonOrSeparate(t *testing.T) {
	both, each, challenger, reference, nobody := []doubt.Side{doubt.Both}, []doubt.Side{doubt.Challenger, doubt.Reference}, []doubt.Side{doubt.Challenger}, []doubt.Side{doubt.Reference}, []doubt.Side(nil)
	tolerance := func(key string, setup int, within float64, kind study.Error) study.Tolerance {
		in, ok := model.InputOf(key)
		if !ok {
			t.Fatal(key)
		}
		return study.Tolerance{Input: in, Setup: setup, Within: within, Relative: true, Error: kind}
	}
	for _, c := range []struct {
		name   string
		change func(*study.Study)
		want   map[string][]doubt.Side
		limits map[string]string
	}{
		{"as usual", func(*study.Study) {}, map[string][]doubt.Side{
			"heat_load": both, "coolant_flow": both, "plate_resistance": both, "coolant_film_correction": both, "coolant_viscosity_correction": both,
			"coolant_conductivity_correction": both, "coolant_specific_heat_correction": both,
			"air_density_correction": both, "air_viscosity_correction": both, "air_conductivity_correction": both, "air_specific_heat_correction": both,
			"fin_density": each, "fin_depth": each, "fan_speed": each, "free_air_flow": each, "shut_off_pressure": each, "rated_power": each, "fan_pressure_correction": each,
			"air_film_level": both, "air_film_beyond": both, "air_film_own": each, "air_friction_level": both, "air_friction_beyond": both, "air_friction_own": each,
			"pump_head": nobody, "passes": nobody, "rotor_pressure": nobody, "fans": nobody, "humidity": nobody, "air_film_correction": nobody, "thrust_coefficient": nobody,
		}, map[string]string{"coolant_viscosity_correction": "±1 %", "coolant_specific_heat_correction": "±0.1 %", "air_density_correction": "±2 %", "air_viscosity_correction": "±2 %",
			"air_conductivity_correction": "±2 %", "air_specific_heat_correction": "±0.5 %", "fin_depth": "±3 %",
			"air_film_level": "±15 %", "air_film_own": "±13 %", "air_friction_own": "±26 %"}},
		{"fins of two kinds have two correlations", func(s *study.Study) { s.Setups[s.Reference].Rig.Core.Surface = core.Plain }, map[string][]doubt.Side{
			"air_film_level": each, "air_friction_level": each, "air_film_beyond": each, "air_film_own": each,
		}, nil},
		{"both with plain fins", func(s *study.Study) {
			s.Setups[s.Challenger].Rig.Core.Surface, s.Setups[s.Reference].Rig.Core.Surface = core.Plain, core.Plain
		}, map[string][]doubt.Side{"air_film_level": both, "air_film_own": each},
			map[string]string{"air_film_level": "up to ±15 %", "air_film_own": "up to ±13 %", "air_friction_own": "up to ±26 %"}},
		{"the same core", func(s *study.Study) {
			s.Setups[0].Core, s.Setups[1].Core = "cube", "cube"
			s.Setups[1].Rig.Core = s.Setups[0].Rig.Core
		}, map[string][]doubt.Side{"fin_density": both, "fin_depth": both, "air_film_own": both, "fan_speed": each}, nil},
		{"the same core, but swept", func(s *study.Study) {
			s.Setups[0].Core, s.Setups[1].Core = "cube", "cube"
			s.Setups[1].Rig.Core = s.Setups[0].Rig.Core
			s.Axes = append(s.Axes, reports.Axis("fin_density", 12, 20))
		}, map[string][]doubt.Side{"fin_density": each, "fin_depth": each, "air_film_own": each}, nil},
		{"a depth that is estimated", func(s *study.Study) { s.Setups[s.Challenger].Estimated = []string{"fin_depth"} }, map[string][]doubt.Side{"fin_depth": each},
			map[string]string{"fin_depth": "±12 %"}},
		{"glycol and a pump", func(s *study.Study) {
			for i := range s.Setups {
				s.Setups[i].Rig.Coolant = model.Coolant{Liquid: coolant.Liquid{Fluid: coolant.EthyleneGlycol, GlycolShare: 0.3}}
				s.Setups[i].Rig.Coolant.Pump.ShutOffPressure, s.Setups[i].Rig.Coolant.Pump.FreeFlow, s.Setups[i].Rig.Coolant.Loop.Drop = 4e4, 3e-4, 1e4
			}
		}, map[string][]doubt.Side{"coolant_flow": nobody, "pump_head": both, "pump_free_flow": both, "loop_drop": both},
			map[string]string{"coolant_viscosity_correction": "±6 %", "coolant_conductivity_correction": "±2 %", "coolant_specific_heat_correction": "±2 %"}},
		{"a core that was measured", func(s *study.Study) {
			s.Doubt.Tolerances = []study.Tolerance{tolerance("air_friction_correction", s.Challenger, 0.05, study.AsUsual)}
			s.Setups[s.Challenger].Rig.Correction.AirFriction = 0.1
		}, map[string][]doubt.Side{
			"air_friction_correction": challenger, "air_friction_level": reference, "air_friction_own": reference, "air_film_level": both,
		}, nil},
		{"a propeller", func(s *study.Study) {
			f := &s.Setups[s.Challenger].Rig.Fans.Fan
			f.RotorDiameter, f.Pitch, f.Blades, f.ThrustCoefficient, f.PowerCoefficient = 0.1, 0.08, 3, 0.17, 0.11
		}, map[string][]doubt.Side{
			"rotor_pressure": challenger, "fan_pressure_correction": reference, "free_air_flow": reference, "thrust_coefficient": challenger, "power_coefficient": challenger,
		}, map[string]string{"thrust_coefficient": "±10 %", "power_coefficient": "±20 %"}},
		{"a propeller that borrows its coefficients", func(s *study.Study) {
			f := &s.Setups[s.Challenger].Rig.Fans.Fan
			f.RotorDiameter, f.Pitch, f.Blades = 0.1, 0.08, 3
		}, map[string][]doubt.Side{
			"rotor_pressure": challenger, "thrust_coefficient": challenger, "power_coefficient": challenger,
		}, map[string]string{"thrust_coefficient": "±20 %", "power_coefficient": "±20 %"}},
		{"a propeller in a shroud that was measured", func(s *study.Study) {
			f := &s.Setups[s.Challenger].Rig.Fans.Fan
			f.RotorDiameter, f.Pitch, f.Blades, f.ThrustCoefficient, f.PowerCoefficient = 0.1, 0.08, 3, 0.17, 0.11
			s.Doubt.Tolerances = []study.Tolerance{tolerance("fan_pressure_correction", s.Challenger, 0.05, study.AsUsual)}
			s.Setups[s.Challenger].Rig.Correction.FanPressure = 0.1
		}, map[string][]doubt.Side{"rotor_pressure": nobody, "fan_pressure_correction": each}, map[string]string{"fan_pressure_correction": "±5 %"}},
		{"told otherwise", func(s *study.Study) {
			s.Doubt.Tolerances = []study.Tolerance{
				tolerance("fin_density", study.BothSetups, 0.1, study.Common), tolerance("heat_load", study.BothSetups, 0.1, study.Separate),
				tolerance("fin_depth", study.BothSetups, 0, study.AsUsual), tolerance("rated_power", s.Reference, 0, study.AsUsual), tolerance("humidity", study.BothSetups, 0.1, study.AsUsual),
			}
		}, map[string][]doubt.Side{"fin_density": both, "heat_load": each, "fin_depth": nobody, "rated_power": challenger, "humidity": both},
			map[string]string{"fin_density": "±10 %"}},
	} {
		s := reports.TwoSetups()
		c.change(s)
		got, limits := map[string][]doubt.Side{}, map[string]string{}
		for _, x := range doubt.SourcesOf(s) {
			got[x.Key] = append(got[x.Key], x.Of)
			if x.Of != doubt.Reference {
				limits[x.Key] = x.Limit
			}
			if x.Label == "" || x.Limit == "" || x.Why == "" {
				t.Errorf("%s: %+v says too little", c.name, x)
			}
		}
		for key, want := range c.want {
			if !slices.Equal(got[key], want) {
				t.Errorf("%s: %s is in doubt for %v, want %v", c.name, key, got[key], want)
			}
		}
		for key, want := range c.limits {
			if limits[key] != want {
				t.Errorf("%s: %s is in doubt by %s, want %s", c.name, key, limits[key], want)
			}
		}
	}
}

// A tolerance whose draws leave the range of its input is told of, and none other.
func TestExcessesLeaveTheRange(t *testing.T) {
	s := reports.TwoSetups()
	if list := doubt.Excesses(s); len(list) != 0 {
		t.Errorf("the bench has %+v", list)
	}
	humidity, _ := model.InputOf("humidity")
	s.Doubt.Tolerances = append(s.Doubt.Tolerances, study.Tolerance{Input: humidity, Setup: study.BothSetups, Within: 0.7})
	if list := doubt.Excesses(s); len(list) != 1 || list[0].Rule == "" || !strings.Contains(list[0].Label, "humidity") {
		t.Errorf("%+v", list)
	}
}
