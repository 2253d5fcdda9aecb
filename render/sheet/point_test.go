package sheet

import (
	"slices"
	"strings"
	"testing"

	"finduel/model"
	"finduel/model/core"
	"finduel/model/sound"
	"finduel/sweep/study"
)

func TestRangeInWords(t *testing.T) {
	made := func(surface core.Surface, depth float64) core.Core {
		g := core.TypicalGeometry(core.Copper, surface)
		g.FaceLength, g.FaceWidth, g.FinDepth = 0.1, 0.1, depth
		c, err := core.New(g)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	inside, deep, plain := made(core.Louvered, 0.03), made(core.Louvered, 0.08), made(core.Plain, 0.03)
	for _, c := range []struct {
		of   *core.Core
		re   float64
		want string
	}{
		{&inside, 300, "Re 100 to 3 000: inside"},
		{&inside, 50, "Re 100 to 3 000: air flow below it"},
		{&inside, 3500, "Re 100 to 3 000: air flow above it"},
		{&deep, 300, "Re 100 to 3 000: outside by fin depth"},
		{&deep, 50, "Re 100 to 3 000: air flow below it, outside by fin depth"},
		{&plain, 300, "Re up to 2 300: inside"},
		{&plain, 2500, "Re up to 2 300: air flow above it"},
	} {
		if got := inRange(c.of, c.re); got != c.want {
			t.Errorf("Re %v: %q, want %q", c.re, got, c.want)
		}
	}
}

// rotor returns a setup of the shipped study of a propeller, with settings.
func rotor(t *testing.T, name string, settings ...string) (study.Setup, model.State, Drive) {
	t.Helper()
	s, err := study.Load("../../configs/rotor.yaml")
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(s.Setups, func(s study.Setup) bool { return s.Name == name })
	setup, err := study.Apply(s.Setups[i], "--set", settings)
	if err != nil {
		t.Fatal(err)
	}
	state, err := model.Evaluate(setup.Rig)
	if err != nil {
		t.Fatal(err)
	}
	const low, high = 10, 600
	reached, err := model.Reach(setup.Rig, low, setup.Rig.Fans.Fan.TopSpeed)
	if err != nil {
		return setup, state, Drive{}
	}
	limits, err := model.Ladder(setup.Rig, low, high)
	if err != nil {
		t.Fatal(err)
	}
	return setup, state, Drive{Reached: reached, Limits: limits, To: high}
}

// The fan sheet says what is heard where, how sure that is, what it permits and which
// limits the drive meets at which speed.
func TestFanSheetInWords(t *testing.T) {
	for _, c := range []struct {
		setup    string
		settings []string
		want     []string
		not      []string
	}{
		{"rotor push", nil, []string{
			"of the sound, added by stall 6.0 dB", "doubt of the sound, low end -8.0 dB", "doubt of the sound, high end 7.0 dB",
			"(NIOSH 98-126) 1 h 11 min (14 min to 7 h 30 min)", "to the lower action value (2003/10/EC) 23 min", "to the exposure limit value (2003/10/EC) 1 h 53 min",
			"exposure limit value with 87 dBA; ", "They count from 80 dBA on", "torque on the shaft of a fan 30.1 mN·m", "The shaft power of the propeller is known to ±20 %",
			"A motor passes 74.5 % of its power on to its shaft; the most that it can pass on at its voltage is 81.3 %, at 13.3 A.", "The operator stays for 20 min a day.",
			"by the listener at 3 m and the operator at 1.5 m, in a room whose 74 m² absorb 22 % of it, with a directivity of 2; its echo is the louder part from 0.911 m on, and going farther away helps little.",
			"7 958 rpm, the middle of the sound readings from 4 500 to 14 000 rpm, to ±5 dB", "A-weighting takes 3.9 dB off one at the blade passing frequency.",
			"Stalled fans are 3 to 8 dB louder; 6.0 dB is in the levels",
			"Limits, each by itself: the fuse's rating at 18 1", "the supply's voltage at 19 509 rpm, the connector's rating at 22 898 rpm, the supply's current at",
			"what the blades may bear at 24 974 rpm", "stress at the blade root from rotation 3.25 MPa", "of what the blades may bear 13.0 %",
			"energy of a blade that comes off 1.09 J Blades of glass-filled nylon may bear 25.0 MPa, a quarter of their strength: they reach it at 24 974 rpm. A blade has 1.80 g.",
			"not met up to 36 000 rpm: the wires' resistance.",
		}, []string{"not stated", "assumed"}},
		{"rotor push", []string{"fragment_mass=0 g", "fuse_rating=0 A"}, []string{
			"A blade has 1.81 g, which is assumed, since fragment_mass is not stated, and may be out by a factor of 2.", "energy of a blade that comes off 1.10 J (its mass is assumed and may be out by a factor of 2), threshold 0.84 J: ",
			"not stated: the fuse's rating.",
		}, nil},
		{"rotor push", []string{"motor_most_current=0 A", "supply_rating=0 A", "wire_length=0 m", "operator_distance=3 m", "field=half space", "rated_sound=80 dBA", "blades=3", "fan_speed=18000 rpm"}, []string{
			"not stated: the supply's current, the motor's current and the wires' resistance.", "by listener and operator at 3 m, over a reflecting plane (half space)",
			"80.0 dBA at 1 m, 1.2 kg/m³ and 9 500 rpm, as rated, to ±5 dB", "A-weighting takes 0.3 dB off one", "note rated_sound takes the place",
		}, []string{"rumble"}},
		{"slab", []string{"field=free field", "blades=0", "fin_depth=4 mm"}, []string{
			"of the sound, added by stall 0.0 dB", "in a free field.", "20.0 dBA at 1 m, 1.2 kg/m³ and 1 250 rpm, as rated", "the number of blades is not given",
			"(NIOSH 98-126) over 24 h permitted",
		}, []string{"Limits", "blade root", "comes off", "Stalled fans", "drive reaches", "brackets", "exposure limit value with", "of the propeller", "A motor"}},
	} {
		setup, state, drive := rotor(t, c.setup, c.settings...)
		var b strings.Builder
		if err := Point(&b, &setup, &state, drive, 80); err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(b.String()), " ")
		for _, want := range c.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s %q: no %q in\n%s", c.setup, c.settings, want, b.String())
			}
		}
		for _, not := range c.not {
			if strings.Contains(text, not) {
				t.Errorf("%s %q: %q in\n%s", c.setup, c.settings, not, b.String())
			}
		}
	}
}

// The same as JSON: what is not known is null or left out, never zero.
func TestFanSheetAsJSON(t *testing.T) {
	setup, state, drive := rotor(t, "rotor push", "connector_rating=0 A")
	var b strings.Builder
	if err := PointJSON(&b, "rotor", "0.0.0-test", &setup, &state, drive); err != nil {
		t.Fatal(err)
	}
	v := decode(t, b.String())
	at := func(path ...any) any {
		var x any = v
		for _, step := range path {
			switch step := step.(type) {
			case string:
				x = x.(map[string]any)[step]
			case int:
				x = x.([]any)[step]
			}
		}
		return x
	}
	level, high := state.OperatorSound, state.OperatorSound+state.SoundDoubtHigh
	for _, c := range []struct {
		path []any
		want any
	}{
		{[]any{"state", "stall_sound_dB"}, sound.StallRise},
		{[]any{"state", "sound_doubt_low_dB"}, -8.},
		{[]any{"setup", "inputs", "session_duration_min"}, 20.},
		{[]any{"setup", "inputs", "sound_doubt_dB"}, 5.},
		{[]any{"setup", "inputs", "connector_rating_A"}, nil},
		{[]any{"setup", "sound_field"}, "room"},
		{[]any{"setup", "shroud"}, "blocked"},
		{[]any{"exposures", 0, "rule"}, "NIOSH 98-126"},
		{[]any{"exposures", 0, "permitted_min"}, sound.PermittedNIOSH(level) / 60},
		{[]any{"exposures", 1, "permitted_at_highest_min"}, sound.PermittedOSHA(high) / 60},
		{[]any{"exposures", 2, "rule"}, "2003/10/EC, lower action value"},
		{[]any{"exposures", 3, "permitted_at_lowest_min"}, sound.PermittedEU(state.OperatorSound+state.SoundDoubtLow, 85) / 60},
		{[]any{"exposures", 4, "permitted_min"}, sound.PermittedEU(level, 87) / 60},
		{[]any{"tone", "blade_passing_frequency_Hz"}, 450.},
		{[]any{"drive", "reached_fan_speed_rpm"}, 19000.},
		{[]any{"drive", "stopped_by"}, nil},
		{[]any{"drive", "limits", 0, "limit"}, "the fuse's rating"},
		{[]any{"drive", "limits", 1, "limit"}, "the supply's voltage"},
		{[]any{"drive", "limits", 7, "limit"}, "the connector's rating"},
		{[]any{"drive", "limits", 7, "from_fan_speed_rpm"}, nil},
		{[]any{"blades", "may_bear_MPa"}, 25.},
		{[]any{"blades", "fragment_mass_g"}, 1.8},
		{[]any{"blades", "fragment_mass_is_assumed"}, false},
		{[]any{"cautions", 0, "from_fan_speed_rpm"}, nil},
		{[]any{"cautions", 0, "fan_speed_rpm"}, nil},
	} {
		if got := at(c.path...); got != c.want {
			t.Errorf("%v is %v, want %v", c.path, got, c.want)
		}
	}
	setup, state, drive = rotor(t, "slab", "blades=0")
	b.Reset()
	if err := PointJSON(&b, "rotor", "0.0.0-test", &setup, &state, drive); err != nil {
		t.Fatal(err)
	}
	v = decode(t, b.String())
	if _, is := v["blades"]; is {
		t.Errorf("blades of which nothing is known: %v", v["blades"])
	}
	if _, is := v["drive"]; is || at("tone", "blade_passing_frequency_Hz") != nil || at("exposures", 0, "permitted_min") != nil {
		t.Errorf("of a quiet fan without a motor: %v, %v", v["drive"], v["tone"])
	}
}
