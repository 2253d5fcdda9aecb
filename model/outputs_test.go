package model_test

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/model/sound"
)

func TestOutputsAreWellFormed(t *testing.T) {
	seen, columns := map[string]bool{}, map[string]bool{}
	for _, o := range model.Outputs {
		if seen[o.Key] || columns[o.Column()] {
			t.Errorf("%s is there twice", o.Key)
		}
		seen[o.Key], columns[o.Column()] = true, true
		if q := quantity.Must(o.Key); q != o.Quantity {
			t.Errorf("%s is %+v, in the table %+v", o.Key, o.Quantity, q)
		}
		if got, ok := model.OutputOf(o.Key); !ok || got.Quantity != o.Quantity {
			t.Errorf("%s is found as %+v", o.Key, got.Quantity)
		}
		// A table of points has inputs and outputs side by side.
		if _, ok := model.InputOf(o.Key); ok {
			t.Errorf("%s is an input too", o.Key)
		}
	}
	for _, key := range []string{"", "Sound", "fan_speed", "difference"} {
		if o, ok := model.OutputOf(key); ok {
			t.Errorf("%q is the output %s", key, o.Key)
		}
	}
}

// Every number of a State is one output, and every output one number: each is
// given a value of its own and looked for.
func TestEveryNumberOfAStateIsOneOutput(t *testing.T) {
	var s model.State
	paths := map[float64]string{}
	numbers(reflect.ValueOf(&s).Elem(), "", func(path string, f reflect.Value) {
		v := float64(len(paths) + 1)
		f.SetFloat(v)
		paths[v] = path
	})
	if len(paths) < 35 || len(paths) != len(model.Outputs) {
		t.Errorf("%d numbers, %d outputs", len(paths), len(model.Outputs))
	}
	for _, o := range model.Outputs {
		v := o.Get(&s)
		if paths[v] == "" {
			t.Errorf("%s is no number of a state, or one that another output shows", o.Key)
		}
		delete(paths, v)
	}
	for _, path := range paths {
		t.Errorf("no output shows %s", path)
	}
}

// A name and the number behind it: a state in which they are told apart.
func TestOutputsShowWhatTheyAreCalled(t *testing.T) {
	r := given()
	s := must(t, r)
	for key, want := range map[string]float64{
		"heat_rejected":              219,
		"coolant_inlet_temperature":  r.Room.Temperature + s.CoolantOverAir,
		"coolant_outlet_temperature": r.Room.Temperature + 2*s.CoolantMeanOverAir - s.CoolantOverAir,
		"chip_temperature":           r.Room.Temperature + s.ChipOverAir,
		"conductance":                219 / s.CoolantOverAir,
		"airflow":                    s.FaceVelocity * r.Core.FaceLength * r.Core.FaceWidth,
		"core_air_temperature":       r.Room.Temperature + s.Budget.FanHeat,
		"air_outlet_temperature":     s.CoreAirTemperature + 219/s.AirCapacity,
		"drive_current":              s.FanPower / 12,
		"shaft_torque":               s.ShaftPower / float64(r.Fans.Count) / (2 * math.Pi * r.Speed),
		"exposure_limit":             sound.PermittedNIOSH(s.OperatorSound),
	} {
		o, ok := model.OutputOf(key)
		if !ok {
			t.Fatalf("no output %s", key)
		}
		if got := o.Get(&s); !near(got, want, 1e-9) {
			t.Errorf("%s is %g, want %g", key, got, want)
		}
	}
}

func TestBudgetTermsAreTheBudget(t *testing.T) {
	s := must(t, given())
	sum := 0.0
	for i, key := range model.BudgetTerms {
		if slices.Contains(model.BudgetTerms[:i], key) {
			t.Errorf("%s is there twice", key)
		}
		o, ok := model.OutputOf(key)
		if !ok || o.Kind != quantity.TemperatureDifference {
			t.Fatalf("%s is no output in K", key)
		}
		v := o.Get(&s)
		if !(v > 0) {
			t.Errorf("%s is %g", key, v)
		}
		sum += v
	}
	if len(model.BudgetTerms) != reflect.TypeFor[model.Budget]().NumField() {
		t.Errorf("%d terms, the budget has %d", len(model.BudgetTerms), reflect.TypeFor[model.Budget]().NumField())
	}
	if !near(sum, s.CoolantOverAir, 1e-9) || !near(s.Budget.Sum(), sum, 1e-14) {
		t.Errorf("terms add up to %g, Sum to %g, coolant over air is %g", sum, s.Budget.Sum(), s.CoolantOverAir)
	}
}

// The keys say which field: a name set on the wrong term would still add up.
func TestBudgetTermsAreTheirFields(t *testing.T) {
	s := model.State{Budget: model.Budget{FanHeat: 1, AirFilm: 2, Fin: 3, Wall: 4, CoolantFilm: 5, Capacity: 6, PumpHeat: 7}}
	for key, want := range map[string]float64{
		"budget_fan_heat": 1, "budget_air_film": 2, "budget_fin": 3, "budget_wall": 4,
		"budget_coolant_film": 5, "budget_capacity": 6, "budget_pump_heat": 7,
	} {
		if o, ok := model.OutputOf(key); !ok || o.Get(&s) != want {
			t.Errorf("%s shows another term", key)
		}
	}
	if s.Budget.Sum() != 28 {
		t.Errorf("1 to 7 add up to %g", s.Budget.Sum())
	}
}
