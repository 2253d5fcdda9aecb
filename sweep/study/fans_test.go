package study

import (
	"errors"
	"math"
	"os"
	"path/filepath"
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
		{"sound of readings", p.RatedSound, fit.Level},
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
		{"doubt given", unheard.Fans.Fan.SoundDoubt, 12},
		{"exponent given", unheard.Fans.Fan.SoundExponent, 55},
		{"sound estimated", unheard.Fans.Fan.RatedSound, sound.Estimate(sound.Tubeaxial, 0.65*110/3600, 0.35*16, 0)},
		{"doubt of an estimate", borrowed.Fans.Fan.SoundDoubt, 10},
		{"doubt of a rating", p.SoundDoubt, 5},
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
		Blade: hazard.Nylon, HubRatio: 0.15, FragmentMass: 0.0012, Improvised: true, Unattended: true, Shroud: hazard.PrintedPETG,
		WireArea: 2.5e-6, WireLength: 0.6, ConnectorRating: 40, SupplyRating: 30, FuseRating: 25,
		GuardShape: hazard.Square, GuardOpening: 0.008, GuardDistance: 0.03,
	}
	if propeller.Build != want {
		t.Errorf("build %+v, want %+v", propeller.Build, want)
	}
	if (measured.Build != hazard.Build{Improvised: true, WireGauge: 16}) || unheard.Build != (hazard.Build{}) || !borrowed.Build.Improvised {
		t.Errorf("builds %+v, %+v, %+v", measured.Build, unheard.Build, borrowed.Build)
	}
	if propeller.Placing != fan.PushPull || propeller.Installed.Shroud != model.Blocked || propeller.Room.Surroundings.Field != sound.Room {
		t.Errorf("placing %v, shroud %v, field %v", propeller.Placing, propeller.Installed.Shroud, propeller.Room.Surroundings.Field)
	}
	for i, estimated := range []string{"", "", "rated_sound", "rated_sound"} {
		if got := strings.Join(s.Setups[i].Estimated, " "); got != estimated {
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
		{2, "no_load_current=1 A", "the fan's motor is not known"},
		{2, "pump_head=30 kPa", "the coolant flow is given"},
	} {
		_, err := Apply(s.Setups[c.setup].Rig, "--set", []string{c.setting})
		if err == nil || !strings.Contains(err.Error(), "has no effect: "+c.want) {
			t.Errorf("%s: %v", c.setting, err)
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
