package study

import (
	"errors"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/core"
	"finduel/model/fan"
)

// challenger returns the rig of the challenger of the study with everything in it:
// louvered fins, fins 6 mm high with louvers of 5 mm, a fan with the top speed 18 000
// rpm that pulls, with its motor outside.
func challenger(t *testing.T) model.Rig {
	t.Helper()
	s := good(t, filepath.Join(goodFolder, "pair.yaml"))
	return s.Setups[s.Challenger].Rig
}

// TestApply sets numbers and choices.
// set applies settings to a rig.
func set(rig model.Rig, settings []string) (model.Rig, error) {
	setup, err := Apply(Setup{Rig: rig}, "--set", settings)
	return setup.Rig, err
}

func TestApply(t *testing.T) {
	before := challenger(t)
	rig, err := set(before, []string{"fan_speed=9000 rpm", " fins = plain ", "placing=push", "motor=in stream", "fluid=water", "fin_density=18 fpi"})
	if err != nil {
		t.Fatal(err)
	}
	if !near(rig.Speed, 150) || !near(rig.Core.FinDensity, 18/0.0254) {
		t.Errorf("the fan speed is %v rev/s, the fin density %v /m", rig.Speed, rig.Core.FinDensity)
	}
	if rig.Core.Surface != core.Plain || rig.Placing != fan.Push || rig.Fans.Fan.Motor != fan.InStream {
		t.Errorf("the choices are %v, %v, %v", rig.Core.Surface, rig.Placing, rig.Fans.Fan.Motor)
	}
	if before.Core.Surface == core.Plain || before.Placing == fan.Push || before.Fans.Fan.Motor == fan.InStream {
		t.Error("the choices were set before: nothing is tested")
	}
	rig, err = set(rig, []string{"fins=louvered", "placing=pull", "motor=outside", "fan_speed=6000 rpm", "fin_density=20 fpi"})
	if err != nil || rig != before {
		t.Errorf("set back, the rig is %+v, %v, was %+v", rig, err, before)
	}
}

// TestApplySetsCores sets how the fins are made and where the coolant goes.
func TestApplySetsCores(t *testing.T) {
	rig, err := set(challenger(t), []string{"fins=offset strip", "strip_length=2 mm", "arrangement=coolant mixed", "routing=cross-counterflow"})
	if err != nil {
		t.Fatal(err)
	}
	if g := rig.Core; g.Surface != core.OffsetStrip || !near(g.StripLength, 0.002) || g.Arrangement != core.CoolantMixed || g.Routing != core.CrossCounterflow {
		t.Errorf("the core is set to %+v", g)
	}
}

// TestApplyInAnyOrder sets the same in every order. A fin height takes the louvers
// along, and the face area the sides.
func TestApplyInAnyOrder(t *testing.T) {
	settings := []string{"louver_length=3 mm", "fin_height=4 mm", "fins=louvered", "fan_speed=19000 rpm", "top_speed=20000 rpm"}
	want, err := set(challenger(t), settings)
	if err != nil {
		t.Fatal(err)
	}
	if !near(want.Core.LouverLength, 0.003) || !near(want.Core.FinHeight, 0.004) {
		t.Errorf("the louvers are %v m long, want 3 mm", want.Core.LouverLength)
	}
	orders := 0
	var permute func(done, rest []string)
	permute = func(done, rest []string) {
		if len(rest) == 0 {
			orders++
			if got, err := set(challenger(t), done); err != nil || got != want {
				t.Errorf("in the order %q: %+v, %v", done, got, err)
			}
		}
		for i := range rest {
			permute(append(slices.Clone(done), rest[i]), slices.Delete(slices.Clone(rest), i, i+1))
		}
	}
	permute(nil, settings)
	if orders != 120 {
		t.Errorf("%d orders, want 120", orders)
	}
	if got, err := set(challenger(t), []string{"fin_height=3 mm"}); err != nil || !near(got.Core.LouverLength, 0.0025) {
		t.Errorf("a fin height of half leaves louvers of %v m, %v, want 2.5 mm", got.Core.LouverLength, err)
	}
}

// TestApplyRefuses holds what Apply says of settings that mean nothing or do not go
// together.
func TestApplyRefuses(t *testing.T) {
	for _, c := range []struct {
		settings, want string // separated by semicolons; the hint follows after " // ", as far as given
	}{
		{"fan_speed", `--set: "fan_speed" is no setting // write input=value`},
		{"flow=3 L/min", `--set: "flow" is not an input // did you mean coolant_flow? nearest inputs: `},
		{"room.air=20 °C", `--set: "room.air" is not an input // did you mean air_temperature?`},
		{"air=20 °C", `--set: "air" is not an input // did you mean air_temperature?`},
		{"listener=2 m", `--set: "listener" is not an input // did you mean listener_distance?`},
		{"plate=0.1 K/W", `--set: "plate" is not an input // did you mean plate_resistance?`},
		{"pump=9 W", `--set: "pump" is not an input // did you mean pump_power?`},
		{"load=9 W", `--set: "load" is not an input // did you mean heat_load?`},
		{"speed=9 rpm", `--set: "speed" is not an input // did you mean fan_speed?`},
		{"area=9 cm2", `--set: "area" is not an input // did you mean face_area?`},
		{"depth=9 mm", `--set: "depth" is not an input // did you mean fin_depth or overall_thickness?`},
		{"diameter=9 mm", `--set: "diameter" is not an input // did you mean rotor_diameter?`},
		{"fan=quiet", `--set: "fan" is not an input // a fan is not swapped here: give the study a setup with the other fan; finduel point --setup NAME shows it`},
		{"core=slab", `--set: "core" is not an input // a core is not swapped here: give the study a setup with the other core`},
		{"hub_ratio=0.99", `--set: hub_ratio: "0.99" is outside its range // write a value from`},
		{"placin=pull", `--set: "placin" is not an input // did you mean placing?`},
		{"placing=pul", `--set: placing: "pul" is not a choice // did you mean pull? write one of: push, pull`},
		{"fins=flat", `--set: fins: "flat" is not a choice // write one of: louvered, plain`},
		{"fins=offset strips", `--set: fins: "offset strips" is not a choice // did you mean offset strip? write one of: louvered, plain, triangular, offset strip`},
		{"arrangement=unmixed", `--set: arrangement: "unmixed" is not a choice // did you mean both unmixed? write one of: both unmixed, air mixed, coolant mixed, both mixed, counterflow`},
		{"routing=counterflow", `--set: routing: "counterflow" is not a choice // write one of: side by side, cross-counterflow`},
		{"strip_length=3 mm", `--set: strip_length: "3 mm" means nothing: louvered fins have no strips // remove it, or write fins: offset strip`},
		{"metal=copper", `--set: "metal" is not an input // it only chooses defaults: set fin_thickness`},
		{"fan_speed=9000", `--set: fan_speed: "9000" has no unit // write a number`},
		{"fan_speed=", `--set: fan_speed: is not a rotational speed // write a number`},
		{"fan_speed=20000 rpm", `--set: fan_speed: "20000 rpm" is above the top speed of the fan, 18000 rpm // lower it, or raise top_speed of the fan`},
		{"fan_speed=9000 rpm;top_speed=8000 rpm", `--set: fan_speed: "9000 rpm" is above the top speed of the fan, 8000 rpm // lower it`},
		{"top_speed=100 rpm", `--set: top_speed: "100 rpm" is below the fan speed, 6000 rpm // set fan_speed too`},
		{"fan_speed=9000 rpm;fan_speed=8000 rpm", `--set: fan_speed: "8000 rpm" is set twice: "9000 rpm" before // remove one of the two`},
		{"fins=plain;fins=louvered", `--set: fins: "louvered" is set twice: "plain" before // remove one of the two`},
		{"fin_depth=20 mm;overall_thickness=30 mm", `--set: overall_thickness: "30 mm" sets what fin_depth sets // set one of the two`},
		{"face_area=81 cm2;face_width=9 cm", `--set: face_area: "81 cm2" sets what face_width sets // set one of the two`},
		{"louver_pitch=1 mm;fins=plain", `--set: louver_pitch: "1 mm" means nothing: plain fins have no louvers // remove it`},
	} {
		settings := strings.Split(c.settings, ";")
		for range 2 {
			rig, err := set(challenger(t), settings)
			var faults Faults
			if !errors.As(err, &faults) || len(faults) != 1 || rig != (model.Rig{}) {
				t.Fatalf("%q gives %v", settings, err)
			}
			if got := faults[0].Error() + " // " + faults[0].Hint; !strings.HasPrefix(got, c.want) {
				t.Errorf("%q gives\n%s\nwant\n%s", settings, got, c.want)
			}
			if strings.Contains(c.want, "twice") {
				break // which of the two is named depends on their order
			}
			slices.Reverse(settings)
		}
	}
}

// TestApplyNothing changes nothing, and reads both sides of a face.
func TestApplyNothing(t *testing.T) {
	before := challenger(t)
	before.Speed = 2 * before.Fans.Fan.TopSpeed
	if rig, err := set(before, []string{"fin_depth=20 mm"}); err != nil || rig.Speed != before.Speed {
		t.Errorf("a fan that was too fast before gives %v", err)
	}
	rig, err := set(challenger(t), []string{"face_width=80 mm", "face_length=70 mm"})
	if err != nil || !near(rig.Core.FaceLength, 0.07) || !near(rig.Core.FaceWidth, 0.08) {
		t.Errorf("the face is %v m by %v m, %v", rig.Core.FaceLength, rig.Core.FaceWidth, err)
	}
}

// TestRemediesHold makes cores that cannot be, by one input each, and gives the input
// what the hint says, or a little less or more where the hint says so: the rules must
// have nothing more against it.
func TestRemediesHold(t *testing.T) {
	for _, c := range []struct {
		key   string
		wrong float64
		set   func(*core.Geometry) // beside the input
	}{
		{"face_width", 0.006, nil},
		{"face_width", 0.006, func(g *core.Geometry) { g.Passes, g.FinHeight = 3, 0.00777 }},
		{"face_length", 0.005, func(g *core.Geometry) { g.FinDensity, g.FinThickness = 97, 0.0002 }},
		{"fin_thickness", 0.0009, nil},
		{"fin_thickness", 0.0009, func(g *core.Geometry) { g.FinHeight, g.LouverLength, g.FinDensity = 0.0005, 0.0004, 900 }},
		{"fin_thickness", 0.00001, nil},
		{"tube_wall", 0.001, nil},
		{"tube_wall", 0.01, func(g *core.Geometry) { g.TubeHeight = 0.05 }},
		{"tube_height", 0.04, nil},
		{"tube_height", 0.0004, func(g *core.Geometry) { g.FinHeight = 0.03 }},
		{"louver_pitch", 0.02, nil},
		{"louver_length", 0.0066, nil},
	} {
		g := core.TypicalGeometry(core.Copper, core.Louvered)
		g.FaceLength, g.FaceWidth, g.FinDepth = 0.09, 0.09, 0.02
		if c.set != nil {
			c.set(&g)
		}
		in, _ := model.InputOf(c.key)
		rig := model.Rig{Core: g}
		in.Set(&rig, c.wrong)
		if !breaks(rig.Core, c.key) {
			t.Errorf("%s of %v is allowed: nothing is tested", c.key, c.wrong)
			continue
		}
		hint := remedy(rig.Core, c.key)
		said := strings.Fields(strings.Split(hint, ",")[0]) // write at least 16.6 mm
		if len(said) != 5 {
			t.Errorf("%s: the hint is %q", c.key, hint)
			continue
		}
		m, ok := new(findings).measure(&leaf{kind: words, text: said[3] + " " + said[4]}, in.Kind)
		if !ok {
			t.Errorf("%s: the hint is %q", c.key, hint)
			continue
		}
		allowed, refused := m.si, m.si
		switch said[1] + " " + said[2] {
		case "at least":
			refused *= 0.99
		case "at most":
			refused *= 1.01
		case "more than":
			allowed, refused = allowed*(1+1e-9), refused*0.99
		case "less than":
			allowed, refused = allowed*(1-1e-9), refused*1.01
		}
		if in.Set(&rig, allowed); breaks(rig.Core, c.key) {
			t.Errorf("%s: %v m is refused, though the hint is %q", c.key, allowed, hint)
		}
		if in.Set(&rig, refused); !breaks(rig.Core, c.key) {
			t.Errorf("%s: %v m is allowed, though the hint is %q", c.key, refused, hint)
		}
	}
}

// breaks reports whether the rules of a core name an input.
func breaks(g core.Geometry, key string) bool {
	for _, e := range rangeErrors(g.Check()) {
		if e.Key == key {
			return true
		}
	}
	return false
}

// TestStacks reads cores behind one another, from a study and from settings; the
// hash tells their feed.
func TestStacks(t *testing.T) {
	read := func(text string) *Study {
		t.Helper()
		s, err := Read("short", edited(t, "fin_depth: 30 mm", "fin_depth: 30 mm"+text), "yaml")
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	one, series, parallel := read(""), read(", stacked: 2"), read(", stacked: 2, stack_feed: parallel")
	for _, c := range []struct {
		s       *Study
		further int
		feed    core.Feed
	}{{one, 0, core.InSeries}, {series, 1, core.InSeries}, {parallel, 1, core.InParallel}} {
		if g := c.s.Setups[0].Rig.Core; g.Further != c.further || g.Feed != c.feed {
			t.Errorf("read %d further cores in %v, want %d in %v", g.Further, g.Feed, c.further, c.feed)
		}
	}
	if one.Hash == series.Hash || series.Hash == parallel.Hash {
		t.Error("the hash does not tell stacks apart")
	}
	rig, err := set(one.Setups[0].Rig, []string{"stacked=3", "stack_feed=parallel"})
	if err != nil || rig.Core.Further != 2 || rig.Core.Feed != core.InParallel {
		t.Errorf("set: %v, %+v", err, rig.Core)
	}
	if _, err := set(one.Setups[0].Rig, []string{"stacked=1.5", "stack_feed=both"}); err == nil {
		t.Error("half a core and an unknown feed are accepted")
	}
}

// TestFluidIsSet changes the coolant: a glycol comes with its default share, water
// without any.
func TestFluidIsSet(t *testing.T) {
	water := good(t, filepath.Join(goodFolder, "short.yaml")).Setups[0].Rig
	mixture, err := set(water, []string{"fluid=ethylene glycol"})
	if err != nil || mixture.Coolant.Liquid != (coolant.Liquid{Fluid: coolant.EthyleneGlycol, GlycolShare: 0.3}) {
		t.Errorf("set: %v, %+v", err, mixture.Coolant.Liquid)
	}
	other, err := set(mixture, []string{"fluid=propylene glycol", "glycol_share=40 %"})
	if err != nil || other.Coolant.Liquid != (coolant.Liquid{Fluid: coolant.PropyleneGlycol, GlycolShare: 0.4}) {
		t.Errorf("set: %v, %+v", err, other.Coolant.Liquid)
	}
	back, err := set(other, []string{"fluid=water"})
	if err != nil || back.Coolant.Liquid != (coolant.Liquid{}) {
		t.Errorf("set: %v, %+v", err, back.Coolant.Liquid)
	}
}
