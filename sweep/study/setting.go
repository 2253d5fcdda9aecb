package study

import (
	"slices"
	"strconv"
	"strings"

	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/fan"
	"finduel/model/hazard"
	"finduel/model/sound"
)

// Apply sets inputs and choices of a setup from texts like "fan_speed=9000 rpm" or
// "placing=pull": the key of an input, an equals sign, and a number with its unit
// as in a study file; or the key of a choice and a word. Their order does not
// matter: choices come first, then inputs in the order of model.Inputs. Apply
// returns the changed setup, or Faults that name every text that cannot be
// understood or does not go with the others; where stands for a file in them. A coolant
// flow that is set takes the place of a pump's, and a level that is set that of readings;
// what the latter leaves of them stands in the setup's Notes.
func Apply(setup Setup, where string, settings []string) (Setup, error) {
	f := newFindings(where)
	given := f.settings(settings)
	rig := setup.Rig
	f.choose(&rig, given)
	for _, in := range model.Inputs {
		l := given[in.Key]
		if m, ok := f.number(l, in); ok {
			f.agree(l, in, given)
			in.Set(&rig, m.si)
		}
		switch propeller := setup.Rig.Fans.Fan.Pitch > 0; {
		case l == nil:
		case in.Key == "pitch" && propeller && rig.Fans.Fan.Pitch == 0:
			f.fault(l, "would make another fan of a propeller", "write a pitch above zero, or give the study a setup with the other fan")
		case in.Unused(&rig), in.Key == "pitch" && !propeller:
			f.unused(l, in)
		}
	}
	f.thinOrThick(given["wire_gauge"], given["wire_area"], &rig.Build)
	if top := rig.Fans.Fan.TopSpeed; rig.Speed > top {
		switch speed, lowered := given["fan_speed"], given["top_speed"]; {
		case speed != nil:
			f.fault(speed, aboveTop("the fan", top), lowerSpeed)
		case lowered != nil:
			in, _ := model.InputOf("fan_speed")
			f.fault(lowered, "is below the fan speed, "+show(rig.Speed, in.Shown), "set fan_speed too")
		}
	}
	if faults := f.sorted(); len(faults) > 0 {
		return Setup{}, faults
	}
	setup.Notes = append(slices.Clip(setup.Notes), replaced(&setup.Rig, &rig)...)
	setup.Rig = rig
	setup.Estimated = slices.DeleteFunc(slices.Clone(setup.Estimated), func(key string) bool { return given[key] != nil })
	if given["overall_thickness"] != nil && !slices.Contains(setup.Estimated, "fin_depth") {
		setup.Estimated = append(setup.Estimated, "fin_depth")
	}
	return setup, nil
}

// replaced says what the change of a rig has put in the place of a fan's readings.
func replaced(before, after *model.Rig) []string {
	was, is := &before.Fans.Fan, &after.Fans.Fan
	switch {
	case was.Readings == nil:
	case is.Readings == nil:
		return []string{"rated_sound takes the place of the fan's sound readings. Sound still rises with speed as set: by " + exponent(is.SoundExponent) + " for a tenfold speed."}
	case is.SoundExponent != was.SoundExponent:
		in, _ := model.InputOf("fan_speed")
		return []string{"sound_exponent takes the place of how the fan's sound readings rise with speed, by " + exponent(was.SoundExponent) +
			" for a tenfold speed. They still count at their middle speed, " + strconv.FormatFloat(in.Shown.Shown(was.Readings.Speed), 'f', 0, 64) + " " + in.Shown.Symbol + "."}
	}
	return nil
}

func exponent(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) + " dB" }

// settings returns what is set, by key. It reports texts that set nothing, and
// what is set twice.
func (f *findings) settings(texts []string) map[string]*leaf {
	given := map[string]*leaf{}
	for _, text := range texts {
		key, value, found := strings.Cut(text, "=")
		key = strings.TrimSpace(key)
		l := &leaf{path: key, text: strings.TrimSpace(value), kind: words}
		switch {
		case !found:
			f.add(l.at, "", text, "is no setting", "write input=value, e.g. fan_speed=9000 rpm")
		case !settable(key):
			f.add(l.at, "", key, "is not an input", settingHint(key))
		case given[key] != nil:
			f.fault(l, "is set twice: "+quote(given[key].text)+" before", "remove one of the two")
		default:
			if key == "wire_gauge" {
				l.text = gaugeText(l.text)
			}
			given[key] = l
		}
	}
	return given
}

// Choices are the keys of a study that take one of a few words, and that Apply can set.
var Choices = []string{"fluid", "fins", "arrangement", "routing", "stack_feed", "motor", "placing", "shroud", "field",
	"blade_material", "rotor", "shroud_material", "guard_shape", "running"}

// settable reports whether a key is that of an input or a choice.
func settable(key string) bool {
	_, ok := model.InputOf(key)
	for _, c := range Choices {
		ok = ok || c == key
	}
	return ok
}

// settingHint says what could be set instead of a key.
func settingHint(key string) string {
	switch key {
	case "metal":
		return "it only chooses defaults: set fin_thickness, fin_conductivity, tube_wall and tube_conductivity"
	case "fan", "core":
		return "a " + key + " is not swapped here: give the study a setup with the other " + key + "; finduel point --setup NAME shows it"
	}
	return inputHint(key, append(inputKeys(), Choices...))
}

// choose sets what is given of the choices.
func (f *findings) choose(rig *model.Rig, given map[string]*leaf) {
	if l := given["fluid"]; l != nil {
		fluid := choice(f, l, coolant.Water, coolant.EthyleneGlycol, coolant.PropyleneGlycol)
		switch liquid := &rig.Coolant.Liquid; {
		case fluid == coolant.Water:
			*liquid = coolant.Liquid{}
		case liquid.Fluid == coolant.Water:
			*liquid = coolant.Liquid{Fluid: fluid, GlycolShare: defaultGlycolShare}
		default:
			liquid.Fluid = fluid
		}
	}
	if l := given["fins"]; l != nil {
		rig.Core.Surface = choice(f, l, surfaces[:]...)
	}
	if l := given["arrangement"]; l != nil {
		rig.Core.Arrangement = choice(f, l, arrangements[:]...)
	}
	if l := given["routing"]; l != nil {
		rig.Core.Routing = choice(f, l, routings[:]...)
	}
	if l := given["stack_feed"]; l != nil {
		rig.Core.Feed = choice(f, l, feeds[:]...)
	}
	if l := given["motor"]; l != nil {
		rig.Fans.Fan.Motor = choice(f, l, fan.InStream, fan.Outside)
	}
	if l := given["placing"]; l != nil {
		rig.Placing = choice(f, l, placings...)
	}
	if l := given["shroud"]; l != nil {
		rig.Installed.Shroud = choice(f, l, shrouds...)
	}
	if l := given["field"]; l != nil {
		rig.Room.Surroundings.Field = choice(f, l, sound.Fields...)
	}
	f.materials(&rig.Build, given["blade_material"], given["shroud_material"])
	if l := given["rotor"]; l != nil {
		rig.Build.Improvised = choice(f, l, framedRotor, bareRotor) == bareRotor
	}
	if l := given["guard_shape"]; l != nil {
		rig.Build.GuardShape = choice(f, l, hazard.Openings...)
	}
	if l := given["running"]; l != nil {
		rig.Build.Running = choice(f, l, hazard.Attended, hazard.Unattended)
	}
	f.cuts(rig.Core.Surface, given["strip_length"], given["louver_pitch"], given["louver_length"], given["louver_angle"])
}

// agree reports a setting of an input that sets what an earlier input has set.
func (f *findings) agree(l *leaf, in model.Input, given map[string]*leaf) {
	for _, earlier := range model.Inputs {
		switch {
		case earlier.Key == in.Key:
			return
		case given[earlier.Key] != nil && clash(earlier, in):
			f.fault(l, "sets what "+earlier.Key+" sets", "set one of the two")
			return
		}
	}
}
