package model_test

import (
	"errors"
	"maps"
	"math"
	"reflect"
	"slices"
	"testing"

	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/quantity"
)

// given is the small rig with every number set, none at a default that stands
// for something else.
func given() model.Rig {
	r := small()
	r.Fans.Fan.RotorDiameter, r.Fans.Fan.Blades = 0.088, 7
	return r
}

// numbers visits every float64 and int of a struct, those of its structs too, by
// the path of its field. Named integers are choices, not numbers.
func numbers(v reflect.Value, path string, visit func(path string, field reflect.Value)) {
	for i := range v.NumField() {
		field, name := v.Field(i), path+"."+v.Type().Field(i).Name
		switch field.Type() {
		case reflect.TypeFor[float64](), reflect.TypeFor[int]():
			visit(name, field)
		default:
			if field.Kind() == reflect.Struct {
				numbers(field, name, visit)
			}
		}
	}
}

// changed returns the paths of the numbers in which two rigs differ.
func changed(a, b model.Rig) []string {
	before := map[string]any{}
	numbers(reflect.ValueOf(a), "", func(path string, f reflect.Value) { before[path] = f.Interface() })
	var paths []string
	numbers(reflect.ValueOf(b), "", func(path string, f reflect.Value) {
		if f.Interface() != before[path] {
			paths = append(paths, path)
		}
	})
	return paths
}

// moved is the given rig with one input at another value.
func moved(in model.Input) model.Rig {
	r := given()
	v := in.Get(&r)
	if in.Whole {
		v++
	} else {
		v = 0.9*v + 1
	}
	in.Set(&r, v)
	return r
}

func input(t *testing.T, key string) model.Input {
	t.Helper()
	in, ok := model.InputOf(key)
	if !ok || in.Key != key {
		t.Fatalf("no input %q: %+v", key, in)
	}
	return in
}

func TestInputsAreWellFormed(t *testing.T) {
	if len(model.Inputs) < 35 {
		t.Fatalf("only %d inputs", len(model.Inputs))
	}
	seen := map[string]bool{}
	for _, in := range model.Inputs {
		if seen[in.Key] {
			t.Errorf("%s is there twice", in.Key)
		}
		seen[in.Key] = true
		if input(t, in.Key).Label != in.Label {
			t.Errorf("%s is found as another", in.Key)
		}
		if q := quantity.Must(in.Key); q != in.Quantity {
			t.Errorf("%s is %+v, in the table %+v", in.Key, in.Quantity, q)
		}
		if !(in.Low < in.High) || in.Low-in.Low != 0 || in.High-in.High != 0 {
			t.Errorf("%s runs from %g to %g", in.Key, in.Low, in.High)
		}
		if in.Whole != (in.Kind == quantity.Count) {
			t.Errorf("%s is %v, whole: %v", in.Key, in.Kind, in.Whole)
		}
		if in.Whole && (in.Low != math.Trunc(in.Low) || in.High != math.Trunc(in.High)) {
			t.Errorf("%s is whole, but runs from %g to %g", in.Key, in.Low, in.High)
		}
	}
	for _, key := range []string{"", "Fan_Speed", "airflow", "sound"} {
		if in, ok := model.InputOf(key); ok {
			t.Errorf("%q is the input %s", key, in.Key)
		}
	}
}

// Both setups of a study share room, heat and coolant, and only those.
func TestSharedInputsAreTheConditions(t *testing.T) {
	for _, in := range model.Inputs {
		a, b := given(), moved(in)
		condition := a.Room != b.Room || a.Heat != b.Heat || a.Coolant != b.Coolant
		if in.Shared != condition {
			t.Errorf("%s shared: %v, changes %v", in.Key, in.Shared, changed(a, b))
		}
	}
}

// A number that no input sets is a number that no study can say.
func TestEveryNumberOfARigIsAnInput(t *testing.T) {
	by := map[string][]string{}
	for _, in := range model.Inputs {
		for _, path := range changed(given(), moved(in)) {
			by[path] = append(by[path], in.Key)
		}
	}
	n := 0
	numbers(reflect.ValueOf(model.Rig{}), "", func(path string, _ reflect.Value) {
		n++
		if len(by[path]) == 0 {
			t.Errorf("no input sets %s", path)
		}
	})
	if n < 30 {
		t.Errorf("only %d numbers in a rig", n)
	}
}

// Two inputs may set the same number only if they are said to exclude each
// other; the louvers that go along with the fins are not excluded.
func TestInputsThatSetTheSameAreOnePart(t *testing.T) {
	sets := map[string][]model.Input{}
	parts := map[string]int{}
	for _, in := range model.Inputs {
		for _, path := range changed(given(), moved(in)) {
			sets[path] = append(sets[path], in)
		}
		if in.Part != "" {
			parts[in.Part]++
		}
	}
	for path, ins := range sets {
		for _, in := range ins[1:] {
			if first := ins[0]; in.Part == "" || in.Part != first.Part {
				if path == ".Core.LouverLength" && first.Key == "fin_height" && in.Key == "louver_length" {
					continue
				}
				t.Errorf("%s and %s both set %s, their parts are %q and %q", first.Key, in.Key, path, first.Part, in.Part)
			}
		}
	}
	if parts["face"] != 3 || parts["depth"] != 2 || parts["wire"] != 2 || len(parts) != 3 {
		t.Errorf("parts %v", parts)
	}
}

func TestCheckSaysWhatIsWrong(t *testing.T) {
	for _, in := range model.Inputs {
		for _, v := range []float64{in.Low, in.High} {
			if err := in.Check(v); err != nil {
				t.Errorf("%s: its end %g is refused: %v", in.Key, v, err)
			}
		}
		type refusal struct {
			v    float64
			rule string
		}
		cases := []refusal{
			{math.NaN(), "must be a finite number"},
			{math.Inf(1), "must be a finite number"},
			{math.Inf(-1), "must be a finite number"},
			{math.Nextafter(in.High, math.Inf(1)), "is outside its range"},
			{math.Nextafter(in.Low, math.Inf(-1)), "is outside its range"},
		}
		if in.Whole {
			cases = append(cases, refusal{in.Low + 0.5, "must be a whole number"})
		} else if err := in.Check(in.Low + (in.High-in.Low)/math.Pi); err != nil {
			t.Errorf("%s: a number within its range is refused: %v", in.Key, err)
		}
		for _, c := range cases {
			var re *quantity.RangeError
			if err := in.Check(c.v); !errors.As(err, &re) {
				t.Errorf("%s: %g gives %v", in.Key, c.v, err)
				continue
			}
			same := re.Value == c.v || math.IsNaN(re.Value) && math.IsNaN(c.v)
			if !same || re.Key != in.Key || re.Low != in.Low || re.High != in.High || re.Rule != c.rule {
				t.Errorf("%s: %g gives %+v, want the rule %q", in.Key, c.v, re, c.rule)
			}
		}
	}
}

// Whatever the inputs allow one at a time, the answer is a state of finite
// numbers or a reason.
func TestEndsOfRangesGiveAStateOrAReason(t *testing.T) {
	states, reasons := 0, 0
	pumped := given()
	pumped.Coolant.Flow = 0
	for _, base := range []model.Rig{given(), large(), pumped} {
		for _, surface := range core.Surfaces() {
			for _, placing := range []fan.Placing{fan.Push, fan.Pull} {
				for _, in := range model.Inputs {
					for _, v := range []float64{in.Low, in.High} {
						r := base
						r.Core.Surface, r.Placing = surface, placing
						in.Set(&r, v)
						s, err := model.Evaluate(r)
						if err != nil {
							reasons++
							continue
						}
						states++
						numbers(reflect.ValueOf(s), "", func(path string, f reflect.Value) {
							if x := f.Float(); x-x != 0 {
								t.Errorf("%s %g, %v, %v: %s is %g", in.Key, v, surface, placing, path, x)
							}
						})
					}
				}
			}
		}
	}
	if states < 300 || reasons < 30 {
		t.Errorf("%d states, %d reasons: the ends do not reach both", states, reasons)
	}
}

// Room, heat, coolant and fans must take what the inputs allow. A core may refuse
// an end for how it fits its other dimensions.
func TestPartsAllowWhatTheInputsAllow(t *testing.T) {
	looked := 0
	pumped := given()
	pumped.Coolant.Flow = 0
	for _, in := range model.Inputs {
		for _, v := range []float64{in.Low, in.High} {
			for _, r := range []model.Rig{given(), pumped} {
				if in.Key == "glycol_share" { // not of water
					r.Coolant.Liquid.Fluid = coolant.EthyleneGlycol
				}
				in.Set(&r, v)
				if r.Core != given().Core {
					continue
				}
				if in.Key == "stopped_fans" { // one must turn
					r.Fans.Count = 100
				}
				if in.Key == "pitch" && v > 0 { // of a propeller that it goes with
					r.Fans.Fan.RotorDiameter = 5
				}
				if in.Key == "speed_constant" || in.Key == "winding_resistance" { // of a motor whose other numbers are given
					continue
				}
				if in.Key == "electronics_loss" { // a part of all of it
					r.Fans.Fan.RatedPower = 2 * in.High
				}
				looked++
				if _, err := model.Prepare(r); err != nil {
					t.Errorf("%s %g is allowed, but %v", in.Key, v, err)
				}
			}
		}
	}
	if looked < 100 {
		t.Errorf("only %d ends were tried", looked)
	}
}

// An input that is not used changes no answer; the coolant flow takes the pump's
// place as soon as it is set.
func TestUnusedInputsChangeNothing(t *testing.T) {
	unused := map[string]int{}
	pumped := given()
	pumped.Coolant.Flow = 0
	for i, r := range []model.Rig{given(), pumped} {
		for _, in := range model.Inputs {
			if !in.Unused(&r) {
				continue
			}
			unused[in.Key] += 1 << i
			if in.Key == "coolant_flow" {
				continue
			}
			other := r
			in.Set(&other, 1.3*in.Get(&r))
			if must(t, other) != must(t, r) {
				t.Errorf("%s is not used, but changes the state", in.Key)
			}
		}
	}
	const both = 3
	want := map[string]int{
		"pitch": both, "thrust_coefficient": both, "power_coefficient": both,
		"speed_constant": both, "winding_resistance": both, "no_load_current": both, "motor_most_current": both,
		"controller_efficiency": both, "controller_idle_power": both, "controller_most_current": both,
		"series_loss": both, "room_surface": both, "room_absorption": both, "room_directivity": both,
		"pump_head": 1, "pump_free_flow": 1, "pump_exponent": 1, "loop_drop": 1, "loop_drop_flow": 1, "coolant_flow": 2,
	}
	if !maps.Equal(unused, want) {
		t.Errorf("not used: %v, want %v", unused, want)
	}
	flow := input(t, "coolant_flow")
	flow.Set(&pumped, given().Coolant.Flow)
	if must(t, pumped) != must(t, given()) {
		t.Error("a flow that is set leaves something to the pump")
	}
}

func TestFaceAreaKeepsTheShape(t *testing.T) {
	area := input(t, "face_area")
	r := given()
	shape := r.Core.FaceLength / r.Core.FaceWidth
	area.Set(&r, 0.02)
	if got := r.Core.FaceLength * r.Core.FaceWidth; !near(got, 0.02, 1e-14) {
		t.Errorf("the area is %g", got)
	}
	if got := r.Core.FaceLength / r.Core.FaceWidth; !near(got, shape, 1e-14) {
		t.Errorf("the shape is %g, was %g", got, shape)
	}
}

// A core bought as 28 mm thick has 16.8 mm of fins: the two must not be mixed up.
func TestOverallThicknessStandsForFinDepth(t *testing.T) {
	overall, depth := input(t, "overall_thickness"), input(t, "fin_depth")
	for _, c := range []struct{ overall, depth float64 }{{0.028, 0.0168}, {0.045, 0.03375}, {0.060, 0.0498}} {
		r := given()
		overall.Set(&r, c.overall)
		if !near(r.Core.FinDepth, c.depth, 1e-12) {
			t.Errorf("%g m overall have %g m of fins, want %g", c.overall, r.Core.FinDepth, c.depth)
		}
		depth.Set(&r, c.depth)
		if got := overall.Get(&r); !near(got, c.overall, 1e-12) {
			t.Errorf("%g m of fins are in %g m overall, want %g", c.depth, got, c.overall)
		}
	}
	for _, v := range []float64{overall.Low, overall.High} {
		r := given()
		overall.Set(&r, v)
		if err := depth.Check(r.Core.FinDepth); err != nil {
			t.Errorf("%g m overall is allowed, its fin depth of %g m is not", v, r.Core.FinDepth)
		}
	}
}

func TestFinHeightTakesTheLouversAlong(t *testing.T) {
	r := given()
	share := r.Core.LouverLength / r.Core.FinHeight
	input(t, "fin_height").Set(&r, 0.009)
	if got := r.Core.LouverLength / r.Core.FinHeight; r.Core.FinHeight != 0.009 || !near(got, share, 1e-14) {
		t.Errorf("fin height %g, louvers over %g of it, were over %g", r.Core.FinHeight, got, share)
	}
}

// The order of axes and tables: conditions first, then core, then fans.
func TestInputsStandInTheOrderOfTheTable(t *testing.T) {
	var want []string
	for _, q := range quantity.Table {
		if _, ok := model.InputOf(q.Key); ok {
			want = append(want, q.Key)
		}
	}
	var got []string
	for _, in := range model.Inputs {
		got = append(got, in.Key)
	}
	if !slices.Equal(got, want) {
		t.Errorf("inputs %v, in the table %v", got, want)
	}
}
