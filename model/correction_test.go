package model_test

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"finduel/model"
	"finduel/model/quantity"
)

func evaluated(t *testing.T, r model.Rig) model.State {
	t.Helper()
	s, err := model.Evaluate(r)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// A correction changes what it is named after by its own share, the rest only by
// what follows from that.
func TestCorrectionsChangeWhatTheyAreNamedAfter(t *testing.T) {
	for _, r := range bases() {
		before := evaluated(t, r)
		film := r
		film.Correction.AirFilm = 0.2
		s := evaluated(t, film)
		if ratio := s.AirFilm / before.AirFilm; math.Abs(ratio-1.2) > 2e-3 {
			t.Errorf("air film grows to %g of itself, want 1.2 but for its temperature", ratio)
		}
		if s.Airflow != before.Airflow { // it depends on the heat alone
			t.Errorf("a better film moves the airflow from %g to %g", before.Airflow, s.Airflow)
		}
		if !(s.CoolantOverAir < before.CoolantOverAir) {
			t.Errorf("a better air film leaves %g K, before %g K", s.CoolantOverAir, before.CoolantOverAir)
		}

		inside := r
		inside.Correction.CoolantFilm = -0.3
		s = evaluated(t, inside)
		if ratio := s.CoolantFilm / before.CoolantFilm; math.Abs(ratio-0.7) > 2e-2 || !(s.CoolantOverAir > before.CoolantOverAir) {
			t.Errorf("coolant film is %g of itself, want 0.7; %g K, before %g K", ratio, s.CoolantOverAir, before.CoolantOverAir)
		}

		thick := r
		thick.Correction.CoolantViscosity = 0.1
		s = evaluated(t, thick)
		if ratio := before.CoolantReynolds / s.CoolantReynolds; math.Abs(ratio-1.1) > 5e-3 {
			t.Errorf("Reynolds number falls by %g, want 1.1", ratio)
		}

		// Properties: what follows from them at once, by the changes of 5 % made here.
		for _, c := range []struct {
			what  string
			set   func(*model.Correction)
			of    func(*model.State) float64
			least float64 // change of it
			most  float64
		}{
			{"air's density", func(c *model.Correction) { c.AirDensity = 0.05 }, func(s *model.State) float64 { return s.AirMassFlow / s.Airflow }, 1.05 - 1e-9, 1.05 + 1e-9},
			{"air's viscosity", func(c *model.Correction) { c.AirViscosity = 0.05 }, func(s *model.State) float64 { return s.AirMassFlow / s.AirReynolds }, 1.05 - 1e-3, 1.05 + 1e-3},
			{"air's specific heat", func(c *model.Correction) { c.AirSpecificHeat = 0.05 }, func(s *model.State) float64 { return s.AirCapacity / s.AirMassFlow }, 1.05 - 1e-9, 1.05 + 1e-9},
			{"air's conductivity", func(c *model.Correction) { c.AirConductivity = 0.05 }, func(s *model.State) float64 { return s.AirFilm }, 1.05 * 0.97, 1.05 + 2e-3},
			{"coolant's conductivity", func(c *model.Correction) { c.CoolantConductivity = 0.05 }, func(s *model.State) float64 { return s.CoolantFilm }, 1.05 * 0.97, 1.05 + 2e-3},
			{"coolant's specific heat", func(c *model.Correction) { c.CoolantSpecificHeat = 0.05 }, func(s *model.State) float64 {
				return s.HeatRejected / (s.CoolantInletTemperature - s.CoolantOutletTemperature) / s.CoolantFlow
			}, 1.05 - 1e-3, 1.05 + 1e-3},
		} {
			other := r
			c.set(&other.Correction)
			s = evaluated(t, other)
			if ratio := c.of(&s) / c.of(&before); ratio < c.least || ratio > c.most {
				t.Errorf("with 5 %% more of the %s what follows is %g of itself, want %g to %g", c.what, ratio, c.least, c.most)
			}
		}

		// Friction and the fans' pressure are one question: the core meets a curve that is
		// as much higher as its resistance is, at the same flow.
		both := r
		both.Correction.AirFriction, both.Correction.FanPressure = 0.4, 0.4
		s = evaluated(t, both)
		if math.Abs(s.Airflow/before.Airflow-1) > 1e-9 || math.Abs(s.CorePressureDrop/before.CorePressureDrop-1.4) > 1e-9 {
			t.Errorf("airflow %g, before %g; pressure drop %g, before %g", s.Airflow, before.Airflow, s.CorePressureDrop, before.CorePressureDrop)
		}
		rough := r
		rough.Correction.AirFriction = 0.4
		if s = evaluated(t, rough); !(s.Airflow < before.Airflow && s.CorePressureDrop > before.CorePressureDrop) {
			t.Errorf("with more friction %g m³/s at %g Pa, before %g at %g", s.Airflow, s.CorePressureDrop, before.Airflow, before.CorePressureDrop)
		}
	}
}

func TestCorrectionOutOfRangeIsRefused(t *testing.T) {
	for _, key := range []string{"air_film_correction", "air_friction_correction", "coolant_film_correction", "coolant_viscosity_correction", "fan_pressure_correction",
		"coolant_conductivity_correction", "coolant_specific_heat_correction", "air_density_correction", "air_viscosity_correction", "air_conductivity_correction", "air_specific_heat_correction"} {
		in := input(t, key)
		for _, v := range []float64{-0.91, 9.1, math.NaN(), math.Inf(1)} {
			r := small()
			in.Set(&r, v)
			var out *quantity.RangeError
			if _, err := model.Evaluate(r); !errors.As(err, &out) || out.Key != key {
				t.Errorf("%s %g: %v", key, v, err)
			}
		}
		for _, v := range []float64{-0.9, 9} {
			r := small()
			in.Set(&r, v)
			var out *quantity.RangeError
			if _, err := model.Evaluate(r); errors.As(err, &out) {
				t.Errorf("%s %g: %v", key, v, err)
			}
		}
	}
}

// A rig that is corrected once it is ready is the rig that was made ready with the
// correction, to the last bit; a correction out of range leaves it as it is.
func TestCorrectIsPrepareWithTheCorrection(t *testing.T) {
	c := model.Correction{AirFilm: 0.1, AirFriction: -0.2, CoolantFilm: 0.3, CoolantViscosity: -0.05, CoolantConductivity: 0.02, CoolantSpecificHeat: 0.01,
		AirDensity: 0.03, AirViscosity: -0.02, AirConductivity: 0.04, AirSpecificHeat: 0.005, FanPressure: -0.1}
	for i, r := range bases() {
		r.Installed.GrilleLoss = float64(i % 2)
		ready, err := model.Prepare(r)
		if err != nil {
			t.Fatal(err)
		}
		if err := ready.Correct(c); err != nil {
			t.Fatal(err)
		}
		wild := c
		wild.AirFilm, wild.AirFriction = 10, -1
		var out *quantity.RangeError
		if err := ready.Correct(wild); !errors.As(err, &out) {
			t.Errorf("%v from a correction out of range", err)
		}
		r.Correction = c
		want := evaluated(t, r)
		if got, err := ready.At(r.Speed); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("corrected: %v\n%+v\nprepared with the correction:\n%+v", err, got, want)
		}
	}
}
