package study

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/quantity"
	"finduel/model/sound"
)

const goodFolder = "../../testdata/studies/good"

// good loads a study that must be in order.
func good(t *testing.T, path string) *Study {
	t.Helper()
	s, err := Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// near allows what a double loses in a few operations.
func near(got, want float64) bool { return math.Abs(got-want) <= 1e-12*math.Abs(want) }

// TestFormatsAgree reads one study in three formats and other units: what comes
// out must be the same to the last bit.
func TestFormatsAgree(t *testing.T) {
	yaml := good(t, filepath.Join(goodFolder, "pair.yaml"))
	for _, other := range []string{"pair.json", "pair.toml"} {
		s := good(t, filepath.Join(goodFolder, other))
		if s.Hash != yaml.Hash || len(s.Hash) != 64 {
			t.Errorf("%s has the hash %s, pair.yaml has %s", other, s.Hash, yaml.Hash)
		}
		if s.About == yaml.About || s.File == yaml.File {
			t.Errorf("%s is about %q: the files were to differ in what the hash leaves out", other, s.About)
		}
		for i := range s.Setups {
			if !reflect.DeepEqual(s.Setups[i], yaml.Setups[i]) {
				t.Errorf("%s: setup %d is %+v, in pair.yaml %+v", other, i, s.Setups[i], yaml.Setups[i])
			}
		}
	}
}

// TestValuesOfAStudy holds what is read of a study against what is written in it.
func TestValuesOfAStudy(t *testing.T) {
	s := good(t, filepath.Join(goodFolder, "pair.yaml"))
	small, large := s.Setups[0], s.Setups[1]
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"air", small.Rig.Room.Temperature, 296.15},
		{"altitude", small.Rig.Room.Altitude, 0.18},
		{"humidity", small.Rig.Room.Humidity, 0.45},
		{"listener", small.Rig.Room.ListenerDistance, 1},
		{"load", small.Rig.Heat.Load, 210},
		{"plate", small.Rig.Heat.PlateResistance, 0.045},
		{"pump", large.Rig.Heat.PumpPower, 9},
		{"flow", large.Rig.Coolant.Flow, 6e-5},
		{"face length", small.Rig.Core.FaceLength, 0.092},
		{"face width", small.Rig.Core.FaceWidth, 0.088},
		{"fin depth", small.Rig.Core.FinDepth, 0.034},
		{"fin depth by thickness", large.Rig.Core.FinDepth, 0.75 * 0.045},
		{"fin density", small.Rig.Core.FinDensity, 20 / 0.0254},
		{"fin density per cm", large.Rig.Core.FinDensity, 500},
		{"fin height", small.Rig.Core.FinHeight, 0.006},
		{"louver length", small.Rig.Core.LouverLength, 0.005},
		{"aluminium fins", large.Rig.Core.FinConductivity, 180},
		{"passes", float64(small.Rig.Core.Passes), 1},
		{"passes by default", float64(large.Rig.Core.Passes), 2},
		{"free-air flow", small.Rig.Fans.Fan.FreeAirFlow, 250. / 3600},
		{"shut-off pressure", small.Rig.Fans.Fan.ShutOffPressure, 520},
		{"top speed", small.Rig.Fans.Fan.TopSpeed, 300},
		{"rotor", small.Rig.Fans.Fan.RotorDiameter, 0.086},
		{"motor efficiency", small.Rig.Fans.Fan.MotorEfficiency, 0.65},
		{"exponent", small.Rig.Fans.Fan.CurveExponent, 1.5},
		{"rated power", large.Rig.Fans.Fan.RatedPower, 2.2},
		{"speed", small.Rig.Speed, 100},
		{"speed by default", large.Rig.Speed, 25},
		{"fans by default", float64(small.Rig.Fans.Count), 1},
		{"fans", float64(large.Rig.Fans.Count), 2},
		{"first speed", s.Axes[0].Values[0], 25},
		{"second speed", s.Axes[0].Values[1], 25 * math.Pow(12, 1./11)},
		{"last speed", s.Axes[0].Values[11], 300},
		{"second depth", s.Axes[2].Values[1], 0.036},
		{"second room", s.Axes[3].Values[1], 295.15},
		{"grille", small.Rig.Installed.GrilleLoss, 0.8},
		{"leakage", small.Rig.Installed.Leakage, 0.03},
		{"shadow", small.Rig.Installed.HubShadow, 0.1},
		{"dust", small.Rig.Installed.Dust, 0.05},
		{"excluded above", s.Exclusions[0][0].Above, 250},
		{"excluded below", s.Exclusions[0][1].Below, 0.02},
	} {
		if !near(c.got, c.want) {
			t.Errorf("%s is %v, want %v", c.what, c.got, c.want)
		}
	}
	if large.Rig.Installed != (model.Installed{SeriesLoss: model.TypicalSeriesLoss}) {
		t.Errorf("the large setup loses %+v", large.Rig.Installed)
	}
	if small.Rig.Placing != fan.Pull || large.Rig.Placing != fan.Push || small.Rig.Fans.Fan.Motor != fan.Outside || large.Rig.Core.Surface != core.Plain {
		t.Errorf("a word is misread: %+v, %+v", small, large)
	}
	if s.Name != "pair 1" || small.Name != "small" || small.Core != "cube" || small.Fan != "dense 92" || s.Metric != "chip_over_air" || s.Challenger != 0 || s.Reference != 1 {
		t.Errorf("a name is misread: %+v", s)
	}
	if s.Axes[1].Group != "fins" || s.Axes[2].Group != "fins" || s.Axes[0].Group != "" || len(s.Axes[0].Values) != 12 {
		t.Errorf("the axes are misread: %+v", s.Axes)
	}
	if len(small.Estimated) != 0 || !slices.Equal(large.Estimated, []string{"fin_depth"}) {
		t.Errorf("estimated are %q of the small and %q of the large, want nothing and the fin depth", small.Estimated, large.Estimated)
	}
	rig := small.Rig
	if s.Excludes(&rig) {
		t.Error("the challenger itself is excluded")
	}
	rig.Speed, rig.Core.FinDepth = 251, 0.019
	if !s.Excludes(&rig) {
		t.Error("a fast fan on a shallow core is not excluded")
	}
}

// TestShortStudy reads a study of ten lines: all else has a default.
func TestShortStudy(t *testing.T) {
	path := filepath.Join(goodFolder, "short.yaml")
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if lines := strings.Count(string(data), "\n"); lines != 10 {
		t.Errorf("the short study has %d lines, want 10", lines)
	}
	s := good(t, path)
	rig := s.Setups[0].Rig
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"air", rig.Room.Temperature, 295.15},
		{"altitude", rig.Room.Altitude, 0},
		{"humidity", rig.Room.Humidity, 0.5},
		{"listener", rig.Room.ListenerDistance, 1},
		{"load", rig.Heat.Load, 200},
		{"plate", rig.Heat.PlateResistance, 0.05},
		{"pump", rig.Heat.PumpPower, 10},
		{"coolant flow", rig.Coolant.Flow, 4. / 60000},
		{"fans", float64(rig.Fans.Count), 1},
		{"speed", rig.Speed, 8000. / 60},
		{"top speed", rig.Fans.Fan.TopSpeed, 8000. / 60},
		{"fin density", rig.Core.FinDensity, 16 / 0.0254},
		{"depth of the large", s.Setups[1].Rig.Core.FinDepth, core.FinDepthOf(0.03)},
	} {
		if !near(c.got, c.want) {
			t.Errorf("%s is %v by default, want %v", c.what, c.got, c.want)
		}
	}
	if rig.Placing != fan.Push || rig.Coolant.Liquid.Fluid.String() != "water" || s.Metric != "coolant_over_air" {
		t.Errorf("the defaults are %v, %v, %v", rig.Placing, rig.Coolant.Liquid.Fluid, s.Metric)
	}
	want := core.TypicalGeometry(core.Copper, core.Louvered)
	want.FaceLength, want.FaceWidth, want.FinDepth = 0.09, 0.09, 0.03
	if rig.Core != want {
		t.Errorf("the core is %+v, want the typical %+v", rig.Core, want)
	}
	if len(s.Axes) != 1 || s.Axes[0].Input.Key != "fan_speed" {
		t.Fatalf("the axes are %+v, want the fan speed alone", s.Axes)
	}
	values := s.Axes[0].Values
	if len(values) != 33 || !near(values[0], 0.4*8000/60) || !near(values[16], 0.7*8000/60) || values[32] != rig.Fans.Fan.TopSpeed {
		t.Errorf("the fan speeds are %v", values)
	}
}

// TestGlycol reads mixtures: a share that is given, the one by default, and a sweep
// of it.
func TestGlycol(t *testing.T) {
	s := good(t, filepath.Join(goodFolder, "glycol.yaml"))
	for _, setup := range s.Setups {
		if want := (coolant.Liquid{Fluid: coolant.PropyleneGlycol, GlycolShare: 0.3}); setup.Rig.Coolant.Liquid != want || !near(setup.Rig.Coolant.Flow, 5e-5) {
			t.Errorf("the coolant of %s is %+v, want %+v", setup.Name, setup.Rig.Coolant, want)
		}
	}
	axis := s.Axes[0]
	if axis.Input.Key != "glycol_share" || !axis.Input.Shared || len(axis.Values) != 4 || axis.Values[0] != 0 || !near(axis.Values[1], 0.2) || axis.Values[3] != 0.6 {
		t.Errorf("the axis is %+v", axis)
	}
	for text, want := range map[string]coolant.Liquid{
		"fluid: water":           {},
		"flow: 4 L/min":          {},
		"fluid: ethylene glycol": {Fluid: coolant.EthyleneGlycol, GlycolShare: 0.3},
		"fluid: ethylene glycol, glycol_share: 45 %": {Fluid: coolant.EthyleneGlycol, GlycolShare: 0.45},
		"glycol_share: 0.6, fluid: propylene glycol": {Fluid: coolant.PropyleneGlycol, GlycolShare: 0.6},
		"fluid: propylene glycol, glycol_share: 0 %": {Fluid: coolant.PropyleneGlycol},
	} {
		s, err := Read("short", edited(t, "heat:", "coolant: {"+text+"}\nheat:"), "yaml")
		if err != nil {
			t.Error(err)
			continue
		}
		if got := s.Setups[1].Rig.Coolant.Liquid; got != want {
			t.Errorf("%s is read as %+v, want %+v", text, got, want)
		}
	}
}

// TestPumpedStudy reads a study whose coolant flow is a pump's.
func TestPumpedStudy(t *testing.T) {
	s := good(t, filepath.Join(goodFolder, "pumped.yaml"))
	want := model.Correction{AirFilm: 0.05, AirFriction: -0.1, CoolantFilm: 0.02, CoolantViscosity: 0.03, FanPressure: -0.04,
		CoolantConductivity: 0.01, CoolantSpecificHeat: -0.02, AirDensity: -0.03, AirViscosity: 0.005, AirConductivity: -0.006, AirSpecificHeat: 0.007}
	if c := s.Setups[0].Rig.Correction; c != want {
		t.Errorf("corrections %+v, want %+v", c, want)
	}
	if c := s.Setups[1].Rig.Correction; c != (model.Correction{}) {
		t.Errorf("the other setup has corrections %+v", c)
	}
	c, g := s.Setups[0].Rig.Coolant, s.Setups[0].Rig.Core
	for _, v := range []struct {
		what      string
		got, want float64
	}{
		{"flow", c.Flow, 0},
		{"head", c.Pump.ShutOffPressure, 4 * 9806.65},
		{"free flow", c.Pump.FreeFlow, 1000 / 3.6e6},
		{"exponent by default", c.Pump.CurveExponent, 1.8},
		{"loop", c.Loop.Drop, 9000},
		{"its flow by default", c.Loop.DropFlow, 4. / 60000},
		{"port", g.PortDiameter, 0.009},
		{"port by default", s.Setups[1].Rig.Core.PortDiameter, 0.008},
		{"roughness by default", g.TubeRoughness, 1.5e-6},
		{"second head", s.Axes[1].Values[1], 40e3},
	} {
		if !near(v.got, v.want) {
			t.Errorf("%s is %v, want %v", v.what, v.got, v.want)
		}
	}
	state, err := model.Evaluate(s.Setups[0].Rig)
	if err != nil || !(state.CoolantFlow > 0) {
		t.Errorf("the pump moves %v m³/s, %v", state.CoolantFlow, err)
	}
}

// TestSettings sets inputs by text, as the command line does.
func TestSettings(t *testing.T) {
	pumped := good(t, filepath.Join(goodFolder, "pumped.yaml")).Setups[0].Rig
	given := good(t, filepath.Join(goodFolder, "short.yaml")).Setups[0].Rig
	rig, err := set(pumped, []string{"pump_head=2 mH2O", " dust = 10 % "})
	if err != nil || rig.Coolant.Pump.ShutOffPressure != 19613.3 || rig.Installed.Dust != 0.1 || rig.Coolant.Flow != 0 {
		t.Errorf("set: %v, %+v", err, rig)
	}
	if rig, err := set(pumped, []string{"coolant_flow=3 L/min"}); err != nil || rig.Coolant.Flow != 5e-5 {
		t.Errorf("a flow instead of the pump: %v, %+v", err, rig.Coolant)
	}
	for setting, want := range map[string]string{
		"pump_head=40 kPa":       `--set: pump_head: "40 kPa" has no effect: the coolant flow is given`,
		"pump_free_flow=900 L/h": `--set: pump_free_flow: "900 L/h" has no effect: the coolant flow is given`,
		"pump_exponent=2":        `--set: pump_exponent: "2" has no effect: the coolant flow is given`,
		"loop_drop=4 kPa":        `--set: loop_drop: "4 kPa" has no effect: the coolant flow is given`,
		"loop_drop_flow=4 L/min": `--set: loop_drop_flow: "4 L/min" has no effect: the coolant flow is given`,
		"dust=2":                 `--set: dust: "2" is outside its range`,
	} {
		if _, err := set(given, []string{setting}); err == nil || err.Error() != want {
			t.Errorf("%s: %v, want %s", setting, err, want)
		}
	}
}

// TestWordsOfCores reads every surface, arrangement and routing.
func TestWordsOfCores(t *testing.T) {
	s := good(t, filepath.Join(goodFolder, "surfaces.yaml"))
	for i, want := range []struct {
		surface     core.Surface
		arrangement core.Arrangement
		routing     core.Routing
		passes      int
		strip       float64
	}{
		{core.OffsetStrip, core.BothUnmixed, core.SideBySide, 2, 0.0025},
		{core.Triangular, core.AirMixed, core.CrossCounterflow, 4, 0.003},
		{core.OffsetStrip, core.CoolantMixed, core.SideBySide, 2, 0.003},
		{core.Louvered, core.BothMixed, core.SideBySide, 2, 0.003},
		{core.Plain, core.Counterflow, core.SideBySide, 2, 0.003},
	} {
		g := s.Setups[i].Rig.Core
		if g.Surface != want.surface || g.Arrangement != want.arrangement || g.Routing != want.routing || g.Passes != want.passes || !near(g.StripLength, want.strip) {
			t.Errorf("core %s is read as %+v, want %+v", s.Setups[i].Core, g, want)
		}
	}
}

// TestSlowerTopSpeed gives a fan that may not turn as fast as it was rated at.
func TestSlowerTopSpeed(t *testing.T) {
	s, err := Read("short", edited(t, "rated_speed: 8000 rpm", "rated_speed: 8000 rpm, top_speed: 6000 rpm"), "yaml")
	if err != nil {
		t.Fatal(err)
	}
	if s.Setups[0].Rig.Speed != 100 {
		t.Errorf("the speed by default is %v rev/s, want the top speed, 100", s.Setups[0].Rig.Speed)
	}
}

// TestTopSpeedSwept allows fan speeds up to the greatest top speed of a sweep.
func TestTopSpeedSwept(t *testing.T) {
	if _, err := Read("short", edited(t, "reference: large}", `reference: large, axes: [
  {input: fan_speed, from: 1000 rpm, to: 9000 rpm, steps: 3}, {input: top_speed, list: [8000 rpm, 9000 rpm]}]}`), "yaml"); err != nil {
		t.Error(err)
	}
}

// TestSidesSweptApart sweeps both sides of the face: they share a part, but each sets
// its own.
func TestSidesSweptApart(t *testing.T) {
	for _, order := range [][]string{{"face_length", "face_width"}, {"face_width", "face_length"}} {
		axes := fmt.Sprintf("reference: large, axes: [{input: %s, list: [90 mm, 80 mm]}, {input: %s, list: [90 mm, 70 mm]}]}", order[0], order[1])
		if _, err := Read("short", edited(t, "reference: large}", axes), "yaml"); err != nil {
			t.Error(err)
		}
	}
}

// TestOnePointLeft leaves out all points but one, wherever it is.
func TestOnePointLeft(t *testing.T) {
	for _, exclude := range []string{
		"[{input: passes, above: 1}], [{input: fin_depth, above: 21 mm}]",
		"[{input: passes, above: 1}], [{input: fin_depth, below: 29 mm}]",
		"[{input: passes, below: 3}], [{input: fin_depth, above: 21 mm}]",
		"[{input: passes, below: 3}], [{input: fin_depth, below: 29 mm}]",
		"[{input: passes, below: 2}], [{input: passes, above: 2}], [{input: fin_depth, below: 24 mm}], [{input: fin_depth, above: 26 mm}]",
		// The louvers have the length that is written, though the fin height stands behind it.
		"[{input: louver_length, above: 3.1 mm}], [{input: louver_length, below: 2.9 mm}]",
		"[{input: fin_height, below: 5.1 mm}], [{input: louver_length, above: 3.1 mm}]",
	} {
		study := edited(t, "reference: large}", `reference: large, axes: [
  {input: louver_length, list: [2 mm, 3 mm, 4 mm], group: louvers}, {input: fin_height, list: [5 mm, 6 mm, 7 mm], group: louvers},
  {input: passes, list: [1, 2, 3]}, {input: fin_depth, list: [20 mm, 25 mm, 30 mm]}], exclude: [`+exclude+"]}")
		if _, err := Read("short", study, "yaml"); err != nil {
			t.Errorf("%s: %v", exclude, err)
		}
	}
}

// edited returns the short study with a part of it replaced.
func edited(t *testing.T, old, with string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(goodFolder, "short.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(data), old) {
		t.Fatalf("the short study has no %q", old)
	}
	return []byte(strings.Replace(string(data), old, with, 1))
}

// TestShippedStudies loads all studies that come with finduel.
func TestShippedStudies(t *testing.T) {
	files, err := filepath.Glob("../../configs/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no shipped studies: %v", err)
	}
	for _, file := range files {
		good(t, file)
	}
}

// TestCannotRead tells files that cannot be read from studies with faults.
func TestCannotRead(t *testing.T) {
	var faults Faults
	_, err := Load(filepath.Join(t.TempDir(), "none.yaml"))
	if !errors.Is(err, fs.ErrNotExist) || errors.As(err, &faults) {
		t.Errorf("a missing file gives %v", err)
	}
	folder := filepath.Join(t.TempDir(), "folder.yaml")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{folder, filepath.Dir(folder)} {
		if _, err := Load(path); !errors.As(err, &faults) || faults[0].Error() != path+": is a directory, not a study" {
			t.Errorf("a folder gives %v", err)
		}
	}
	if _, err := Load("study.txt"); !errors.As(err, &faults) || faults[0].Error() != "study.txt: is not a study by its name" {
		t.Errorf("an unknown extension gives %v", err)
	}
	if _, err := Read("study", nil, "ini"); err == nil || errors.As(err, &faults) {
		t.Errorf("an unknown format gives %v", err)
	}
}

// TestLimits gives files that would eat memory, time or the stack.
func TestLimits(t *testing.T) {
	const deep = 1 << 20
	for _, c := range []struct {
		what, format, data, rule string
	}{
		{"large", "yaml", "about: " + strings.Repeat("x", maxBytes), "is larger than 4 MiB"},
		{"deep YAML", "yaml", strings.Repeat("[", deep), "is not YAML: exceeded max depth of 10000"},
		{"deep JSON", "json", strings.Repeat("[", deep) + strings.Repeat("]", deep), "is not JSON: invalid character '[' exceeded max depth"},
		{"deep TOML", "toml", "a = " + strings.Repeat("[", deep), "is not TOML: arrays and inline tables are nested more than the maximum of 10000 levels deep"},
		{"dotted TOML", "toml", "a" + strings.Repeat(".a", 1000) + " = 1", "is nested more than 32 levels deep"},
		{"headed TOML", "toml", "[a" + strings.Repeat(".a", 1000) + "]", "is nested more than 32 levels deep"},
		{"many values", "yaml", "a: [" + strings.Repeat("1,", maxValues+1) + "1]", "has more than 200000 values"},
		{"many values of JSON", "json", "[" + strings.Repeat("1,", maxValues+1) + "1]", "has more than 200000 values"},
		{"many values of TOML", "toml", "a = [" + strings.Repeat("1,", maxValues+1) + "]", "has more than 200000 values"},
	} {
		_, err := Read(c.what, []byte(c.data), c.format)
		var faults Faults
		if !errors.As(err, &faults) || len(faults) != 1 || faults[0].Rule != c.rule || faults[0].Line != 1 {
			t.Errorf("%s: got %.300v, want %s", c.what, err, c.rule)
		}
	}
}

// TestEveryInputHasAWayIn holds the document against the inputs of the model: what
// can be swept can be given, and what is given is an input.
func TestEveryInputHasAWayIn(t *testing.T) {
	given := map[string]bool{"face_length": true, "face_width": true, "face_area": true} // by face
	for _, part := range []any{roomPart{}, heatPart{}, coolantPart{}, corePart{}, fanPart{}, setupPart{}, installedPart{}, correctionsPart{}, buildPart{}} {
		for i := range reflect.TypeOf(part).NumField() {
			if key := reflect.TypeOf(part).Field(i).Tag.Get("input"); key != "" {
				given[key] = true
				if _, ok := model.InputOf(key); !ok {
					t.Errorf("%T gives %s, which is no input", part, key)
				}
			}
		}
	}
	for _, in := range model.Inputs {
		if !given[in.Key] {
			t.Errorf("%s can be swept but not given", in.Key)
		}
	}
}

// TestDefaultsAreAllowed holds the defaults against the ranges of their inputs.
func TestDefaultsAreAllowed(t *testing.T) {
	needed := map[string]bool{
		"heat_load": true, "fan_speed": true, "rated_speed": true, "free_air_flow": true, "shut_off_pressure": true,
		"rated_power": true, "top_speed": true, "rotor_diameter": true, // 0: estimated
		"pump_head": true, "pump_free_flow": true, // 0: no pump
		"face_length": true, "face_width": true, "face_area": true, "fin_depth": true, "overall_thickness": true,
	}
	for _, metal := range []core.Metal{core.Copper, core.Aluminium} {
		rig := Defaults()
		rig.Core = core.TypicalGeometry(metal, core.Louvered)
		for _, in := range model.Inputs {
			if err := in.Check(in.Get(&rig)); err != nil && !needed[in.Key] {
				t.Errorf("the default of %s, %v, is refused: %v", in.Key, in.Get(&rig), err)
			}
		}
	}
}

// TestHashCoversEverything changes every number and word of a study in turn: the
// hash must change each time, and must not with the file and what it is about.
func TestHashCoversEverything(t *testing.T) {
	load := func() *Study { return good(t, filepath.Join(goodFolder, "pair.yaml")) }
	s := load()
	s.File, s.About, s.Setups[1].Estimated = "elsewhere.toml", "something else", nil
	if s.hash() != s.Hash {
		t.Error("the hash depends on the file's name, on what the study is about or on what is estimated")
	}
	seen := map[string]string{s.Hash: "the study itself"}
	differs := func(what string, change func(s *Study)) {
		t.Helper()
		s := load()
		change(s)
		h := s.hash()
		if other, ok := seen[h]; ok {
			t.Errorf("with another %s the hash is that of %s", what, other)
		}
		seen[h] = what
	}
	numbers := 0
	var walk func(what string, at func(*Study) reflect.Value)
	walk = func(what string, at func(*Study) reflect.Value) {
		v := at(load())
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				walk(what+"."+v.Type().Field(i).Name, func(s *Study) reflect.Value { return at(s).Field(i) })
			}
		case reflect.Float64:
			numbers++
			differs(what, func(s *Study) { v := at(s); v.SetFloat(math.Nextafter(v.Float(), math.Inf(1))) })
		case reflect.Int:
			numbers++
			differs(what, func(s *Study) {
				v := at(s)
				if v.Type().Name() == "int" {
					v.SetInt(v.Int() + 7)
				} else {
					v.SetInt(1 - v.Int())
				}
			})
		case reflect.Bool:
			differs(what, func(s *Study) { v := at(s); v.SetBool(!v.Bool()) })
		case reflect.Pointer:
			switch v.Interface().(type) {
			case *fan.Curve:
				differs(what, func(s *Study) { s.Setups[1].Rig.Fans.Fan.Curve = measured(t, 20) })
				differs(what+" of another shape", func(s *Study) { s.Setups[1].Rig.Fans.Fan.Curve = measured(t, 21) })
			case *sound.Fitted:
				for i, r := range []sound.Fitted{{}, {Speed: 1}, {Level: 1}, {Exponent: 1}, {Scatter: 1}, {Slowest: 1}, {Fastest: 1}} {
					differs(what+fmt.Sprint(i), func(s *Study) { s.Setups[1].Rig.Fans.Fan.Readings = &r })
				}
			default:
				t.Errorf("%s is a %v", what, v.Type())
			}
		default:
			t.Errorf("%s is a %v", what, v.Kind())
		}
	}
	walk("rig", func(s *Study) reflect.Value { return reflect.ValueOf(&s.Setups[1].Rig).Elem() })
	if numbers < 35 {
		t.Errorf("only %d numbers were changed", numbers)
	}
	differs("name", func(s *Study) { s.Name = "x" })
	differs("name of a setup", func(s *Study) { s.Setups[0].Name = "x" })
	differs("name of a core", func(s *Study) { s.Setups[0].Core = "x" })
	differs("name of a fan", func(s *Study) { s.Setups[0].Fan = "x" })
	differs("challenger", func(s *Study) { s.Challenger = 1 })
	differs("reference", func(s *Study) { s.Reference = 0 })
	differs("metric", func(s *Study) { s.Metric = "x" })
	differs("margin", func(s *Study) { s.Margin *= 2 })
	differs("name of a fan that is listed", func(s *Study) { s.Fans[0].Name = "x" })
	differs("fan that is listed", func(s *Study) { s.Fans[0].Fan.TopSpeed++ })
	differs("curve that is listed", func(s *Study) { s.Fans[0].Fan.Curve = measured(t, 20) })
	differs("sound that is listed", func(s *Study) { s.Fans[0].Fan.EstimatedSound = !s.Fans[0].Fan.EstimatedSound })
	differs("motor that is listed", func(s *Study) { s.Fans[0].Fan.Motor = 1 - s.Fans[0].Fan.Motor })
	differs("number of fans that are listed", func(s *Study) { s.Fans = s.Fans[:1] })
	differs("axis", func(s *Study) { s.Axes[0].Input = s.Axes[1].Input })
	differs("group", func(s *Study) { s.Axes[0].Group = "x" })
	differs("value", func(s *Study) { s.Axes[0].Values[3] *= 1.1 })
	differs("number of values", func(s *Study) { s.Axes[0].Values = s.Axes[0].Values[:3] })
	differs("order of axes", func(s *Study) { s.Axes[0], s.Axes[3] = s.Axes[3], s.Axes[0] })
	differs("excluded input", func(s *Study) { s.Exclusions[0][0].Input = s.Axes[1].Input })
	differs("upper end", func(s *Study) { s.Exclusions[0][0].Above++ })
	differs("lower end", func(s *Study) { s.Exclusions[0][0].Below = 1 })
	differs("number of draws", func(s *Study) { s.Doubt.Draws++ })
	differs("choice of designs", func(s *Study) { s.Doubt.Designs = OwnDesign })
	for what, t := range map[string]Tolerance{
		"tolerance": {}, "tolerance's input": {Input: s.Axes[0].Input}, "tolerance's setup": {Setup: 1}, "half-width": {Within: 1},
		"relative half-width": {Within: 1, Relative: true}, "shape": {Shape: Normal}, "error": {Error: Common},
	} {
		differs(what, func(s *Study) { s.Doubt.Tolerances = append(s.Doubt.Tolerances, t) })
	}
	// An estimate that comes to what is rated is an estimate all the same: it moves.
	s = load()
	f := &s.Setups[1].Rig.Fans.Fan
	f.EstimatedSound = true
	settled, _, err := f.Resolved()
	if err != nil {
		t.Fatal(err)
	}
	f.RatedSound, f.SoundDoubt = settled.RatedSound, settled.SoundDoubt
	estimated := s.hash()
	if f.EstimatedSound = false; s.hash() == estimated {
		t.Error("a rating has the hash of an estimate")
	}
	differs("exclusions", func(s *Study) { s.Exclusions = append(s.Exclusions, s.Exclusions[0]) })
	differs("exclusion in two", func(s *Study) {
		e := s.Exclusions[0]
		s.Exclusions = []Exclusion{e[:1], e[1:]}
	})
}

// TestDoubt reads tolerances behind numbers and in their section.
func TestDoubt(t *testing.T) {
	s := good(t, filepath.Join(goodFolder, "tolerances.yaml"))
	if d := s.Doubt; d.Draws != 4000 || d.Designs != OwnDesign {
		t.Errorf("%d draws, designs %v", d.Draws, d.Designs)
	}
	fpi := 1 / 0.0254
	want := []struct {
		key      string
		setup    int
		within   float64
		relative bool
		shape    Shape
		error    Error
	}{
		{"air_temperature", BothSetups, 0.5, false, Normal, AsUsual},
		{"heat_load", BothSetups, 0.02, true, Rectangular, AsUsual},
		{"fin_density", 0, 1 * fpi, false, Rectangular, AsUsual},
		{"face_width", 0, 0.001, false, Rectangular, AsUsual},
		{"fin_depth", 1, 0.05, true, Triangular, AsUsual},
		{"free_air_flow", 0, 0.1, true, Rectangular, AsUsual},
		{"leakage", 0, 0.02, false, Rectangular, AsUsual},
		{"fan_speed", 1, 20. / 60, false, Rectangular, AsUsual},
		{"air_friction_correction", 1, 0.05, false, Normal, AsUsual},
		{"fin_depth", BothSetups, 0.001, false, Normal, Common},
		{"shut_off_pressure", 1, 0.04, true, Triangular, Separate},
		{"air_film_correction", 0, 0, false, Rectangular, AsUsual},
	}
	if len(s.Doubt.Tolerances) != len(want) {
		t.Fatalf("%d tolerances, want %d: %+v", len(s.Doubt.Tolerances), len(want), s.Doubt.Tolerances)
	}
	for i, w := range want {
		got := s.Doubt.Tolerances[i]
		if got.Input.Key != w.key || got.Setup != w.setup || math.Abs(got.Within-w.within) > 1e-12 || got.Relative != w.relative || got.Shape != w.shape || got.Error != w.error {
			t.Errorf("tolerance %d is %s of %d: %v relative %v %v %v, want %+v", i, got.Input.Key, got.Setup, got.Within, got.Relative, got.Shape, got.Error, w)
		}
	}
	// The numbers themselves are what stands before the sign.
	if rig := s.Setups[0].Rig; rig.Core.FinDensity != 22*fpi || rig.Core.FaceWidth != 0.088 || rig.Heat.Load != 210 || rig.Installed.Leakage != 0.04 {
		t.Errorf("numbers with a tolerance are read as %+v", rig)
	}
	if d := good(t, filepath.Join(goodFolder, "short.yaml")).Doubt; d.Draws != DefaultDraws || d.Designs != AllUpToMany || d.Tolerances != nil {
		t.Errorf("a study that says nothing of its doubt has %+v", d)
	}
}

// measured is an invented curve with a pressure in its middle.
func measured(t *testing.T, middle float64) *fan.Curve {
	t.Helper()
	c, _, err := fan.NewCurve([]fan.CurvePoint{{Flow: 0, Pressure: 30}, {Flow: 1, Pressure: middle}, {Flow: 2, Pressure: 0}})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// TestUnitsRoundOnce holds the exact conversion against that of the quantity
// package, which may round at each step.
func TestUnitsRoundOnce(t *testing.T) {
	units := 0
	for kind := quantity.Ratio; kind <= quantity.SpeedSlope; kind++ {
		for _, u := range quantity.Units(kind) {
			units++
			for _, digits := range []string{"0", "8.8", "-3.25", "1e3", "0.1", "123456.789", "5.", ".5", "+7", "2E-2"} {
				got, ok := inSI(digits, u)
				m, _ := new(findings).measure(&leaf{kind: words, text: digits + " " + u.Symbol}, kind)
				if !ok || m.si != got {
					t.Errorf("%s %s: inSI gives %v, %v, measure %v", digits, u.Symbol, got, ok, m.si)
				}
				value := map[string]float64{"0": 0, "8.8": 8.8, "-3.25": -3.25, "1e3": 1000, "0.1": 0.1, "123456.789": 123456.789, "5.": 5, ".5": 0.5, "+7": 7, "2E-2": 0.02}[digits]
				if want := u.SI(value); math.Abs(got-want) > 4e-16*(math.Abs(want)+u.Offset) {
					t.Errorf("%s %s is %v in SI, want %v", digits, u.Symbol, got, want)
				}
			}
		}
	}
	if units < 50 {
		t.Errorf("only %d units were tried", units)
	}
}

// TestHintsHold writes what the hint of a range says into a study: both ends must
// be allowed, in every unit.
func TestHintsHold(t *testing.T) {
	for _, in := range model.Inputs {
		for _, u := range quantity.Units(in.Kind) {
			for _, end := range []float64{in.Low, in.High} {
				l := &leaf{kind: words, text: show(end, u)}
				f := newFindings("")
				if _, ok := f.number(l, in); !ok && !rounded(end, u) {
					t.Errorf("%s: %v", in.Key, f.list)
				}
			}
		}
	}
}

// rounded reports whether a hint shows a value in a unit with fewer digits than it
// has: one cannot ask for the last of them.
func rounded(si float64, u quantity.Unit) bool {
	v := u.Shown(si)
	return math.Abs(v-math.Round(v*1000)/1000) > 1e-9*math.Abs(v)
}

// TestNearest holds the guesses at misspelt words against what was meant.
func TestNearest(t *testing.T) {
	names := []string{"fin_density", "fin_depth", "fan", "fans", "face"}
	for s, want := range map[string]string{
		"fin_densty": "fin_density", "FIN_DEPTH": "fin_depth", "findepth": "fin_depth", "fna": "fan", "fant": "fan",
		"fanss": "fans", "": "", "xyzzy": "", "density": "", "fcae": "face",
	} {
		if got, _ := nearest(s, names); got != want {
			t.Errorf("nearest to %q is %q, want %q", s, got, want)
		}
	}
	if d := distance("kitten", "sitting"); d != 3 {
		t.Errorf("from kitten to sitting it is %d changes, want 3", d)
	}
	if d := distance("ab", "ba"); d != 1 {
		t.Errorf("swapping two letters is %d changes, want 1", d)
	}
}

// TestPlaces finds lines and columns in characters, not bytes.
func TestPlaces(t *testing.T) {
	l := indexLines([]byte("°C\n\nab"))
	for offset, want := range map[int]place{-1: {1, 1}, 0: {1, 1}, 2: {1, 2}, 3: {1, 3}, 4: {2, 1}, 5: {3, 1}, 7: {3, 3}, 99: {3, 3}} {
		if got := l.place(offset); got != want {
			t.Errorf("offset %d is at %v, want %v", offset, got, want)
		}
	}
}

// TestByteOrderMark reads a file that starts with one in every format.
func TestByteOrderMark(t *testing.T) {
	for _, name := range []string{"pair.yaml", "pair.json", "pair.toml"} {
		data, err := os.ReadFile(filepath.Join(goodFolder, name))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Read(name, append([]byte("\ufeff"), data...), strings.TrimPrefix(filepath.Ext(name), ".")); err != nil {
			t.Error(err)
		}
	}
}

// TestLongMessages cuts long values short and keeps them on one line.
func TestLongMessages(t *testing.T) {
	f := Fault{File: "a.yaml", Line: 3, Path: "about", Value: strings.Repeat("é\n", 100), Rule: "is too long"}
	if got := f.Error(); strings.Contains(got, "\n") || len([]rune(got)) > 130 || !strings.HasPrefix(got, `a.yaml:3: about: "é\n`) {
		t.Errorf("the message is %s", got)
	}
	if got := (Faults{f, {File: "b", Rule: "is empty"}}).Error(); !strings.HasSuffix(got, "\nb: is empty") {
		t.Errorf("both messages are %s", got)
	}
}

// TestSpacedEndsAreExact gives ends that arithmetic would miss by a bit.
func TestSpacedEndsAreExact(t *testing.T) {
	for _, how := range []spacing{even, geometric} {
		misses := 0
		for i := 1; i < 200; i++ {
			from, to := float64(i)/10, float64(3*i+1)/10
			v := spaced(from, to, 4, how)
			if v[0] != from || v[3] != to {
				t.Errorf("%s from %v to %v gives %v", how, from, to, v)
			}
			if how == even && from+(to-from) != to || how == geometric && from*(to/from) != to {
				misses++
			}
		}
		if misses == 0 {
			t.Errorf("%s: no pair of ends was one that arithmetic misses", how)
		}
	}
}

// TestSorted puts findings in the order of the file and names each once.
func TestSorted(t *testing.T) {
	f := newFindings("a")
	f.add(place{2, 1}, "b", "", "is wrong", "")
	f.add(place{1, 9}, "c", "", "is wrong", "")
	f.add(place{1, 2}, "d", "", "is wrong", "")
	f.add(place{1, 2}, "d", "", "is odd", "")
	f.add(place{2, 1}, "b", "", "is wrong", "")
	want := "a:1:2: d: is odd\na:1:2: d: is wrong\na:1:9: c: is wrong\na:2:1: b: is wrong"
	if got := f.sorted().Error(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// TestFahrenheitMeetsCelsius reads one temperature in both: it must be one number,
// so that the two studies have one hash.
func TestFahrenheitMeetsCelsius(t *testing.T) {
	for tenths := -400; tenths <= 800; tenths++ { // of °C
		celsius, _ := quantity.Find(quantity.Temperature, "°C")
		fahrenheit, _ := quantity.Find(quantity.Temperature, "°F")
		hundredths := 18*tenths + 3200 // of °F
		c, okC := inSI(fmt.Sprintf("%de-1", tenths), celsius)
		f, okF := inSI(fmt.Sprintf("%de-2", hundredths), fahrenheit)
		if !okC || !okF || c != f {
			t.Errorf("%d tenths of a degree Celsius are %v K, and %v K by way of Fahrenheit", tenths, c, f)
		}
	}
}
