package study

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"finduel/model"
	"finduel/model/fan"
	"finduel/model/hazard"
	"finduel/model/sound"
)

// TestFansOfEveryKind reads a measured curve, a propeller with its motor, a fan of which
// no sound is known and a propeller that borrows its coefficients.
func TestFansOfEveryKind(t *testing.T) {
	s := good(t, filepath.Join(goodFolder, "fans.yaml"))
	propeller, measured, unheard, borrowed := s.Setups[0].Rig, s.Setups[1].Rig, s.Setups[2].Rig, s.Setups[3].Rig

	of := func(key string, rig model.Rig) float64 {
		in, _ := model.InputOf(key)
		return in.Get(&rig)
	}
	curve := measured.Fans.Fan.Curve
	if curve == nil {
		t.Fatal("no curve")
	}
	points := curve.Points()
	fit, err := sound.Fit([]sound.Reading{{Speed: 100, Level: 74}, {Speed: 150, Level: 83}, {Speed: 250, Level: 94}}, 200)
	if err != nil {
		t.Fatal(err)
	}
	levels := sound.Spectrum{40, 41, 39, 36, 33, 30, 25, 18}
	p := propeller.Fans.Fan
	for _, v := range []struct {
		what      string
		got, want float64
	}{
		{"free-air flow, 4 Pa beyond the last point", measured.Fans.Fan.FreeAirFlow, (150 + 4*30./16) / 3600},
		{"shut-off pressure", measured.Fans.Fan.ShutOffPressure, 52},
		{"power in free air", measured.Fans.Fan.RatedPower, 2.6},
		{"pressure of a point", points[2].Pressure, 36. / 52},
		{"power of a point", points[2].Power, 3.4 / 2.6},
		{"electronics", measured.Fans.Fan.ElectronicsLoss, 0.4},
		{"sound of octaves", measured.Fans.Fan.RatedSound, levels.AWeighted()},
		{"top speed by default", measured.Fans.Fan.TopSpeed, 40},
		{"blades", float64(measured.Fans.Fan.Blades), 7},
		{"standing", float64(measured.Fans.Stopped), 1},
		{"sound of readings", of("rated_sound", propeller), fit.Level},
		{"exponent of readings", p.SoundExponent, fit.Exponent},
		{"diameter", p.RotorDiameter, 0.14},
		{"pitch", p.Pitch, 0.105},
		{"thrust", p.ThrustCoefficient, 0.17},
		{"power coefficient", p.PowerCoefficient, 0.11},
		{"speed constant", p.Brushless.SpeedConstant, 1750 * math.Pi / 30},
		{"winding", p.Brushless.Resistance, 0.06},
		{"no load", p.Brushless.NoLoadCurrent, 1.1},
		{"most of the motor", p.Brushless.MostCurrent, 40},
		{"controller", p.Controller.Efficiency, 0.94},
		{"idle", p.Controller.IdlePower, 6},
		{"most of the controller", p.Controller.MostCurrent, 45},
		{"speed", propeller.Speed, 200},
		{"series loss", propeller.Installed.SeriesLoss, 0.15},
		{"series loss by default", measured.Installed.SeriesLoss, 0.1},
		{"doubt given", of("sound_doubt", unheard), 12},
		{"exponent given", unheard.Fans.Fan.SoundExponent, 55},
		{"sound estimated", of("rated_sound", unheard), sound.Estimate(sound.Tubeaxial, 0.65*110/3600, 0.35*16, 0)},
		{"doubt of an estimate", of("sound_doubt", borrowed), 10},
		{"doubt of readings", of("sound_doubt", propeller), 5},
		{"rated speed by default", borrowed.Fans.Fan.RatedSpeed, 250},
		{"operator", propeller.Room.OperatorDistance, 0.6},
		{"session", propeller.Room.Session, 2700},
		{"room", propeller.Room.Surroundings.Surface, 62},
		{"absorption", propeller.Room.Surroundings.Absorption, 0.25},
		{"directivity", propeller.Room.Surroundings.Directivity, 4},
	} {
		if !near(v.got, v.want) {
			t.Errorf("%s is %v, want %v", v.what, v.got, v.want)
		}
	}
	want := hazard.Build{
		Blade: hazard.Nylon, HubRatio: 0.15, FragmentMass: 0.0012, Improvised: true, Running: hazard.Unattended, Shroud: hazard.PrintedPETG,
		WireArea: 2.5e-6, WireLength: 0.6, ConnectorRating: 40, SupplyRating: 30, FuseRating: 25,
		GuardShape: hazard.Square, GuardOpening: 0.008, GuardDistance: 0.03,
	}
	if propeller.Build != want {
		t.Errorf("build %+v, want %+v", propeller.Build, want)
	}
	if measured.Build.Running != hazard.RunningNotKnown {
		t.Errorf("nothing is said of who stays, but it is %v", measured.Build.Running)
	}
	if (measured.Build != hazard.Build{Improvised: true, WireGauge: 16}) || unheard.Build != (hazard.Build{}) || !borrowed.Build.Improvised {
		t.Errorf("builds %+v, %+v, %+v", measured.Build, unheard.Build, borrowed.Build)
	}
	if propeller.Placing != fan.PushPull || propeller.Installed.Shroud != model.Blocked || propeller.Room.Surroundings.Field != sound.Room {
		t.Errorf("placing %v, shroud %v, field %v", propeller.Placing, propeller.Installed.Shroud, propeller.Room.Surroundings.Field)
	}
	for i, estimated := range []string{"", "", "rated_sound", "rated_sound"} {
		if got := strings.Join(s.Setups[i].Estimates(), " "); got != estimated {
			t.Errorf("%s estimates %q, want %q", s.Setups[i].Name, got, estimated)
		}
	}
	for _, setup := range s.Setups {
		if _, err := model.Evaluate(setup.Rig); err != nil {
			t.Errorf("%s: %v", setup.Name, err)
		}
	}
}

// TestUnusedInputsSayWhy sets what plays no part in a setup.
func TestUnusedInputsSayWhy(t *testing.T) {
	s := good(t, filepath.Join(goodFolder, "fans.yaml"))
	for _, c := range []struct {
		setup         int
		setting, want string
	}{
		{0, "rated_power=20 W", "a propeller's ratings follow from its blades"},
		{0, "motor_efficiency=50 %", "the motor's constants are known"},
		{1, "curve_exponent=2", "the fan has a curve of its own"},
		{1, "series_loss=20 %", "fans stand on one side only"},
		{2, "thrust_coefficient=0.1", "the fan is no propeller"},
		{2, "pitch=100 mm", "the fan is no propeller"},
		{2, "no_load_current=1 A", "the fan's motor is not known"},
		{2, "pump_head=30 kPa", "the coolant flow is given"},
	} {
		_, err := set(s.Setups[c.setup].Rig, []string{c.setting})
		if err == nil || !strings.Contains(err.Error(), "has no effect: "+c.want) {
			t.Errorf("%s: %v", c.setting, err)
		}
	}
}

// TestWhatIsSetIsWhatIsWritten sets inputs of fans in each way that there is, and writes
// them into the study instead: the two must sound, and do all else, the same.
func TestWhatIsSetIsWhatIsWritten(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(goodFolder, "fans.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	// None of the fans has a motor here: its currents are another matter.
	text := regexp.MustCompile(`(?m)^    (speed_constant|winding|no_load|motor_most|controller).*\n`).ReplaceAllString(string(data), "")
	text = strings.Replace(text, "speed: 6000 rpm", "speed:  6000 rpm", 1)
	read := func(text string) *Study {
		t.Helper()
		s, err := Read("fans.yaml", []byte(text), "yaml")
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	const stallShift = 0.5 // dB; readings stay where they are, another stall is heard
	for _, c := range []struct {
		setup       int
		from, to    string // in the study
		key, number string
	}{
		{0, "rated_speed: 12000 rpm", "rated_speed: 300 rpm", "rated_speed", "300 rpm"},
		{0, "rotor_diameter: 140 mm", "rotor_diameter: 150 mm", "rotor_diameter", "150 mm"},
		{0, "pitch: 105 mm", "pitch: 90 mm", "pitch", "90 mm"},
		{0, "blades: 3", "blades: 4", "blades", "4"},
		{1, "rated_speed: 2400 rpm", "rated_speed: 3000 rpm", "rated_speed", "3000 rpm"},
		{2, "rated_speed: 1500 rpm", "rated_speed: 2000 rpm, top_speed: 1500 rpm", "rated_speed", "2000 rpm"},
		{2, "free_air_flow: 110 m3/h", "free_air_flow: 150 m3/h", "free_air_flow", "150 m3/h"},
		{2, "shut_off_pressure: 16 Pa", "shut_off_pressure: 25 Pa", "shut_off_pressure", "25 Pa"},
		{2, "rated_power: 1.8 W", "rated_power: 1.8 W, curve_exponent: 2", "curve_exponent", "2"},
		{2, "rated_power: 1.8 W", "rated_power: 1.8 W, blades: 7", "blades", "7"},
		{2, "rated_power: 1.8 W", "rated_power: 1.8 W, rated_sound: 30 dBA", "rated_sound", "30 dBA"},
		{3, "rotor_diameter: 127 mm", "rotor_diameter: 140 mm", "rotor_diameter", "140 mm"},
		{3, "pitch: 100 mm", "pitch: 80 mm", "pitch", "80 mm"},
		{3, "blades: 2}", "blades: 3}", "blades", "3"},
		{3, "top_speed: 15000 rpm", "top_speed: 15000 rpm, rated_density: 1.0 kg/m3", "rated_density", "1.0 kg/m3"},
	} {
		if strings.Count(text, c.from) != 1 {
			t.Fatalf("%q is there %d times", c.from, strings.Count(text, c.from))
		}
		before, written := read(text).Setups[c.setup].Rig, read(strings.Replace(text, c.from, c.to, 1)).Setups[c.setup].Rig
		rig, err := set(before, []string{c.key + "=" + c.number})
		if err != nil {
			t.Errorf("%s: %v", c.to, err)
			continue
		}
		swept := before
		in, _ := model.InputOf(c.key)
		in.Set(&swept, in.Get(&written))
		written.Speed = rig.Speed
		want, err := model.Evaluate(written)
		if err != nil {
			t.Fatal(err)
		}
		for how, rig := range map[string]model.Rig{"set": rig, "swept": swept} {
			got, err := model.Evaluate(rig)
			if err != nil || got.Sound != want.Sound || got.OperatorSound != want.OperatorSound || got.CoolantOverAir != want.CoolantOverAir {
				t.Errorf("%s, %s: %g dB(A), written %g, %g K over air, written %g; %v", c.to, how, got.Sound, want.Sound, got.CoolantOverAir, want.CoolantOverAir, err)
			}
		}
		was, err := model.Evaluate(before)
		moved := math.Abs(want.Sound - was.Sound)
		// An estimate goes with the air that the fan works in, whatever that of its rating.
		stays := c.setup == 0 || c.key == "rated_density"
		if err != nil || stays && moved > stallShift || !stays && moved < 1e-3 {
			t.Errorf("%s: sound %g, was %g; %v", c.to, want.Sound, was.Sound, err)
		}
	}
}

// TestReadingsGiveWay sets what readings say: it takes their place, and is said to.
func TestReadingsGiveWay(t *testing.T) {
	propeller := good(t, filepath.Join(goodFolder, "fans.yaml")).Setups[0]
	level, _ := model.InputOf("rated_sound")
	rise := propeller.Rig.Fans.Fan.SoundExponent
	louder, err := Apply(propeller, "--set", []string{"rated_sound=95 dBA"})
	if err != nil || level.Get(&louder.Rig) != 95 || louder.Rig.Fans.Fan.SoundExponent != rise ||
		len(louder.Notes) != 1 || !strings.HasPrefix(louder.Notes[0], "rated_sound takes the place of the fan's sound readings.") {
		t.Errorf("%g dB(A), notes %q, %v", level.Get(&louder.Rig), louder.Notes, err)
	}
	// 6000, 9000 and 15 000 rpm have the middle 9322 rpm.
	steeper, err := Apply(propeller, "--set", []string{"sound_exponent=60"})
	if err != nil || len(steeper.Notes) != 1 || !strings.Contains(steeper.Notes[0], "at their middle speed, 9322 rpm.") {
		t.Errorf("notes %q, %v", steeper.Notes, err)
	}
	for _, s := range []*Setup{&propeller, &steeper} {
		s.Rig.Fans.Fan.RatedSpeed = math.Cbrt(100. * 150 * 250)
	}
	if a, b := level.Get(&propeller.Rig), level.Get(&steeper.Rig); !near(a, b) {
		t.Errorf("at the middle speed %g dB(A) by readings, %g with another exponent", a, b)
	}
	if quiet, err := Apply(propeller, "--set", []string{"rated_speed=300 rpm", "sound_doubt=3 dBA"}); err != nil || quiet.Notes != nil {
		t.Errorf("notes %q, %v", quiet.Notes, err)
	}
	data, err := os.ReadFile(filepath.Join(goodFolder, "fans.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"rated_sound", "sound_exponent"} {
		_, err = Read("fans.yaml", []byte(strings.Replace(string(data), "reference: large}", "reference: large, axes: [{input: "+key+", list: [60, 70]}]}", 1)), "yaml")
		if err == nil || !strings.Contains(err.Error(), "is what the challenger's sound_readings say") {
			t.Errorf("axis over %s: %v", key, err)
		}
	}
}

// TestOneReadingLeavesTheExponent to the study: it says nothing of it.
func TestOneReadingLeavesTheExponent(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(goodFolder, "fans.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	text := regexp.MustCompile(`sound_readings:.*`).ReplaceAllString(string(data), "sound_readings: [{speed: 6000 rpm, level: 74 dBA}]\n    sound_exponent: 56")
	s, err := Read("fans.yaml", []byte(text), "yaml")
	if err != nil {
		t.Fatal(err)
	}
	level, _ := model.InputOf("rated_sound")
	if got, want := level.Get(&s.Setups[0].Rig), 74+56*math.Log10(2); !near(got, want) {
		t.Errorf("%g dB(A) at 12 000 rpm, want %g", got, want)
	}
}

// TestEstimatesFollowWhatIsSet: what is set is an estimate no more, or becomes one.
func TestEstimatesFollowWhatIsSet(t *testing.T) {
	for _, c := range []struct {
		file    string
		setup   int
		setting string
		want    string
	}{
		{"fans.yaml", 2, "blades=7", "rated_sound"},
		{"fans.yaml", 2, "rated_sound=30 dBA", ""},
		{"pair.yaml", 1, "fans=1", "fin_depth"},
		{"pair.yaml", 1, "fin_depth=20 mm", ""},
		{"pair.yaml", 0, "overall_thickness=40 mm", "fin_depth"},
		{"pair.yaml", 1, "overall_thickness=40 mm", "fin_depth"},
	} {
		setup, err := Apply(good(t, filepath.Join(goodFolder, c.file)).Setups[c.setup], "--set", []string{c.setting})
		if got := strings.Join(setup.Estimates(), " "); err != nil || got != c.want {
			t.Errorf("%s: estimated is %q, want %q; %v", c.setting, got, c.want, err)
		}
	}
}

// TestBuildIsSet sets what is no number of how a setup is built.
func TestBuildIsSet(t *testing.T) {
	rig, err := set(good(t, filepath.Join(goodFolder, "fans.yaml")).Setups[2].Rig, []string{"blade_material=nylon", "shroud_material=printed PETG",
		"rotor=bare", "guard_shape=square", "running=unattended", "wire_gauge=14 AWG"})
	want := hazard.Build{Blade: hazard.Nylon, Shroud: hazard.PrintedPETG, Improvised: true, GuardShape: hazard.Square, Running: hazard.Unattended, WireGauge: 14}
	if err != nil || rig.Build != want {
		t.Errorf("build %+v, want %+v; %v", rig.Build, want, err)
	}
	for setting, want := range map[string]string{
		"running=alone":       "write one of: attended, unattended",
		"blade_material=wool": "write one of:",
		"wire_gauge=4":        "is no wire gauge that is known here",
		"wire_area=0.01 mm2":  "is thinner than any wire that is known here",
	} {
		_, err := set(rig, []string{setting})
		var faults Faults
		if !errors.As(err, &faults) || !strings.Contains(faults[0].Error()+faults[0].Hint, want) {
			t.Errorf("%s: %v", setting, err)
		}
	}
}

// TestOperatorStandsWhereTheListenerIs unless the study says else.
func TestOperatorStandsWhereTheListenerIs(t *testing.T) {
	s := good(t, filepath.Join(goodFolder, "pair.yaml"))
	if r := s.Setups[0].Rig.Room; r.OperatorDistance != r.ListenerDistance || r.Session != 3600 {
		t.Errorf("operator at %g m for %g s, listener at %g m", r.OperatorDistance, r.Session, r.ListenerDistance)
	}
	if r := Defaults().Room; r.OperatorDistance != 1 || r.ListenerDistance != 1 {
		t.Errorf("by default operator at %g m, listener at %g m", r.OperatorDistance, r.ListenerDistance)
	}
}

// TestBadFans changes one thing in the good study of fans and reads what is said.
func TestBadFans(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(goodFolder, "fans.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ from, to, fault, hint string }{
		{"    rated_speed: 2400 rpm\n", "", "fans[0].rated_speed: is missing", "add rated_speed: 1500 rpm, at which the curve was measured"},
		{"    electronics_loss: 0.4 W", "    electronics_loss: 2.6 W", `fans[0].electronics_loss: "2.6 W" must be from zero to 95 % of the rated power`, ""},
		{"    electronics_loss: 0.4 W", "    free_air_flow: 150 m3/h", `fans[0].free_air_flow: "150 m3/h" is what the curve says`, "remove it, or remove curve"},
		{"    electronics_loss: 0.4 W", "    rated_power: 3 W", `fans[0].rated_power: "3 W" is what the curve says: its points have a power`, "remove it, or the power of the points"},
		{"{flow: 0 m3/h,   pressure: 52 Pa, power: 3.6 W}", "{flow: 0 m3/h, pressure: 52 Pa}", "fans[0].curve[1]: makes no fan curve: every point must have a power above zero, or none", "a curve runs by rising flow from shut-off to free air"},
		{"{flow: 0 m3/h,   pressure: 52 Pa, power: 3.6 W}", "{flow: 5 m3/h, pressure: 52 Pa, power: 3.6 W}", "fans[0].curve[0]: makes no fan curve: the first point must be the shut-off pressure, at no flow", "a curve runs by rising flow from shut-off to free air"},
		{"{flow: 0 m3/h,   pressure: 52 Pa, power: 3.6 W}", "{pressure: 52 Pa, power: 3.6 W}", "fans[0].curve[0].flow: is missing", "add flow: 60 m3/h"},
		{"{flow: 0 m3/h,   pressure: 52 Pa, power: 3.6 W}", "{flow: 0 Pa, pressure: 52 Pa, power: 3.6 W}", `fans[0].curve[0].flow: "0 Pa" is a pressure, not a volume flow`, ""},
		{"    rated_octaves: [40, 41, 39, 36, 33, 30, 25, 18]", "    rated_octaves: [40, 41]", "fans[0].rated_octaves: has not eight levels", ""},
		{"    rated_octaves: [40, 41, 39, 36, 33, 30, 25, 18]", "    rated_octaves: [400, 41, 39, 36, 33, 30, 25, 18]", "fans[0].rated_octaves: are 373.803 dBA in all, which no fan has", "write levels in dB at 1 m"},
		{"    rated_octaves: [40,", "    rated_sound: 40 dBA\n    rated_octaves: [40,", "fans[0]: gives its sound twice", "keep one of rated_sound, rated_octaves and sound_readings"},
		{"    rotor_diameter: 140 mm\n", "", "fans[1].rotor_diameter: is missing", "add rotor_diameter: 140 mm"},
		{"    blades: 3\n", "", "fans[1].blades: is missing", "add blades: 3"},
		{"    pitch: 105 mm", "    pitch: 300 mm", `fans[1].pitch: "300 mm" must lie between 0.4 and 1.6 rotor diameters`, ""},
		{"    blades: 3", "    blades: 1", `fans[1].blades: "1" must lie between 2 and 12`, ""},
		{"    power_coefficient: 0.11\n", "", `fans[1].thrust_coefficient: "0.17" is one coefficient of two`, ""},
		{"    blades: 3\n", "    blades: 3\n    rated_power: 300 W\n", `fans[1].rated_power: "300 W" means nothing beside pitch: a propeller's ratings follow from its blades`, "remove it, or remove pitch"},
		{"    speed_constant: 1750 rpm/V\n", "", `fans[1].winding_resistance: "60 mohm" means nothing without speed_constant`, "add speed_constant: 1750 rpm/V, or remove it"},
		{"    winding_resistance: 60 mohm\n", "", "fans[1].winding_resistance: is missing", "add winding_resistance: 60 mohm, between two leads"},
		{"    no_load_current: 1.1 A\n", "    no_load_current: 1.1 A\n    motor_efficiency: 70 %\n", `fans[1].motor_efficiency: "70 %" is what the motor's constants say`, "remove it, or speed_constant"},
		{"{speed: 15000 rpm, level: 94 dBA}", "{speed: 15000 rpm, level: 150 dBA}", "fans[1].sound_readings: lie 20.1 dB off any even rise with speed", ""},
		{"level: 83 dBA}, {speed: 15000 rpm, level: 94 dBA}", "level: 91.6 dBA}, {speed: 15000 rpm, level: 113.8 dBA}", "fans[1].sound_readings: rise with speed as no fan's sound does, 100.0 dB", ""},
		{"    pitch: 105 mm\n", "", "fans[1].pitch: is missing", "add pitch: 105 mm, of the propeller; or give the ratings of a fan"},
		{"    winding_resistance: 60 mohm", "    winding_resistance: 60 ohm", `fans[1].winding_resistance: "60 ohm" takes more voltage at the no-load current than there is`, "60 mohm"},
		{"rated_power: 1.8 W", "rated_power: 18 mW", "fans[2]: makes more air power, 0.122222 W, than it draws, 0.018 W", "check the units"},
		{"[{speed: 6000 rpm, level: 74 dBA}, {speed: 9000 rpm, level: 83 dBA}, {speed: 15000 rpm", "[{speed: 14900 rpm, level: 74 dBA}, {speed: 15000 rpm", "fans[1].sound_readings:", "read the sound at speeds that lie apart"},
		{"    sound_readings:", "    sound_exponent: 52\n    sound_readings:", `fans[1].sound_exponent: "52" is what the readings say`, "remove it, or sound_readings"},
		{"rated_power: 1.8 W", "blades: 7", "fans[2].rated_power: is missing", "add rated_power: 2.2 W, electrical, at rated speed"},
		{"    placing: push-pull", "    placing: both", `setups[0].placing: "both" is not a choice`, "write one of: push, pull, push-pull"},
		{"shroud: blocked", "shroud: none", `setups[0].installed.shroud: "none" is not a choice`, "write one of: ducted, blocked, open"},
		{"blade_material: nylon", "blade_material: glass", `setups[0].build.blade_material: "glass" is not a choice`, ""},
		{"wire_area: 2.5 mm2", "wire_area: 0.01 mm2", `setups[0].build.wire_area: "0.01 mm2" is thinner than any wire that is known here`, ""},
		{"guard_opening: 8 mm, ", "", `setups[0].build.guard_distance: "30 mm" means nothing without guard_opening`, ""},
		{"stopped_fans: 1", "stopped_fans: 3", `setups[1].stopped_fans: "3" leaves none of them turning`, "write fewer than fans"},
		{"wire_gauge: 16 AWG", "wire_gauge: 16.5 AWG", `setups[1].build.wire_gauge: "16.5" must be a whole number`, ""},
		{"wire_gauge: 16 AWG", "wire_gauge: 4", `setups[1].build.wire_gauge: "4" is no wire gauge that is known here`, ""},
		{"wire_gauge: 16 AWG", "wire_gauge: 16, wire_area: 1 mm2", `setups[1].build.wire_area: "1 mm2" stands for wire_gauge, which is given too`, "keep one of the two"},
		{"field: room, ", "", `room.surface: "62 m2" means nothing without field: room`, "add field: room, or remove it"},
		{"directivity: 4", "directivity: 3", `room.directivity: "3" is no directivity`, "write 1 (amid the room), 2 (on a plane), 4 (on an edge) or 8 (in a corner)"},
		{"session: 45 min", "session: 45", `room.session: "45" has no unit`, ""},
	} {
		if strings.Count(string(data), c.from) != 1 {
			t.Fatalf("%q is there %d times", c.from, strings.Count(string(data), c.from))
		}
		_, err := Read("fans.yaml", []byte(strings.Replace(string(data), c.from, c.to, 1)), "yaml")
		var faults Faults
		if !errors.As(err, &faults) {
			t.Errorf("%q: %v", c.to, err)
			continue
		}
		found := false
		for _, f := range faults {
			found = found || strings.Contains(f.Error(), c.fault) && strings.Contains(f.Hint, c.hint)
		}
		if !found {
			t.Errorf("%q for %q: got\n%v\n(%q)\nwant %s (%s)", c.to, c.from, faults, faults[0].Hint, c.fault, c.hint)
		}
	}
}
