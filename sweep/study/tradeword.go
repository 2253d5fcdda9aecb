package study

import (
	"reflect"
	"slices"
	"strings"
)

// tradeWords are words of data sheets and of the bench for keys that are spelled
// otherwise (common practice, no source), in lower case: what each may mean, of which
// whoever looks it up takes the first that is a key where it was written.
var tradeWords = map[string][]string{
	// Sections.
	"radiators": {"cores"}, "radiator": {"cores", "core"}, "rads": {"cores"}, "rad": {"core"}, "heat_exchangers": {"cores"}, "heat_exchanger": {"cores", "core"}, "exchangers": {"cores"}, "exchanger": {"core"},
	"loop": {"coolant"}, "environment": {"room"}, "conditions": {"room"}, "assemblies": {"setups"}, "configurations": {"setups"}, "experiments": {"setups"},
	"title": {"study"}, "description": {"about"}, "comment": {"about"}, "notes": {"about"}, "compare": {"sweep"}, "comparison": {"sweep"}, "tolerances": {"doubt"}, "uncertainty": {"doubt"},
	// Cores.
	"thickness": {"overall_thickness"}, "core_thickness": {"overall_thickness"}, "radiator_thickness": {"overall_thickness"}, "total_thickness": {"overall_thickness"},
	"depth": {"fin_depth"}, "core_depth": {"fin_depth"},
	"fpi": {"fin_density"}, "fins_per_inch": {"fin_density"}, "density": {"fin_density"}, "fin_count": {"fin_density"}, "fin_pitch": {"fin_density"}, "fin_spacing": {"fin_density"},
	"size": {"face", "rotor_diameter"}, "dimensions": {"face"}, "area": {"face", "face_area"}, "frontal_area": {"face", "face_area"},
	"width": {"face", "face_width"}, "length": {"face", "face_length"}, "height": {"face"},
	"material": {"metal", "blade_material"}, "fin_material": {"metal"}, "type": {"fins", "fluid", "placing"}, "fin_type": {"fins"}, "fin_shape": {"fins"},
	"tube_thickness": {"tube_height"}, "tube_width": {"fin_depth"}, "wall_thickness": {"tube_wall"},
	"rows": {"stacked"}, "cores": {"stacked"}, "port_size": {"port_diameter"},
	// Fans and their motors.
	"diameter": {"rotor_diameter"}, "fan_diameter": {"rotor_diameter"}, "propeller_diameter": {"rotor_diameter"}, "prop_diameter": {"rotor_diameter"},
	"rpm": {"fan_speed", "speed", "rated_speed"}, "speed": {"fan_speed", "rated_speed"}, "nominal_speed": {"rated_speed"},
	"max_rpm": {"top_speed"}, "max_speed": {"top_speed"}, "maximum_speed": {"top_speed"},
	"airflow": {"free_air_flow"}, "air_flow": {"free_air_flow"}, "flow": {"free_air_flow"}, "max_flow": {"free_air_flow"}, "max_airflow": {"free_air_flow"}, "volume_flow": {"free_air_flow"}, "cfm": {"free_air_flow"},
	"pressure": {"shut_off_pressure", "altitude"}, "static_pressure": {"shut_off_pressure"}, "max_pressure": {"shut_off_pressure"}, "max_static_pressure": {"shut_off_pressure"},
	"power": {"rated_power", "load"}, "watts": {"rated_power", "load"}, "wattage": {"rated_power", "load"}, "power_draw": {"rated_power"}, "current": {"rated_power"}, "rated_current": {"rated_power"},
	"noise": {"rated_sound"}, "noise_level": {"rated_sound"}, "sound": {"rated_sound"}, "sound_level": {"rated_sound"}, "sound_pressure": {"rated_sound"}, "sound_pressure_level": {"rated_sound"}, "db": {"rated_sound"}, "dba": {"rated_sound"},
	"voltage": {"drive_voltage"}, "volts": {"drive_voltage"}, "kv": {"speed_constant"}, "idle_current": {"no_load_current"}, "max_current": {"motor_most_current"}, "efficiency": {"motor_efficiency"},
	"esc_efficiency": {"controller_efficiency"}, "resistance": {"winding_resistance", "plate"},
	// Setups.
	"count": {"fans"}, "number_of_fans": {"fans"}, "fan_count": {"fans"}, "mode": {"placing"}, "position": {"placing"}, "direction": {"placing"}, "configuration": {"placing"}, "push_pull": {"placing"},
	// Coolant, room, heat.
	"flow_rate": {"flow", "coolant_flow"}, "flowrate": {"flow", "coolant_flow"}, "rate": {"flow"}, "water_flow": {"flow", "coolant_flow"}, "lpm": {"flow", "coolant_flow"}, "head": {"pump_head"},
	"glycol": {"glycol_share"}, "concentration": {"glycol_share"}, "mixture": {"glycol_share"}, "liquid": {"fluid"},
	"temperature": {"air", "air_temperature"}, "temp": {"air", "air_temperature"}, "ambient": {"air", "air_temperature"}, "ambient_temperature": {"air", "air_temperature"}, "room_temperature": {"air", "air_temperature"}, "inlet_temperature": {"air", "air_temperature"},
	"distance": {"listener", "listener_distance"}, "rh": {"humidity"}, "relative_humidity": {"humidity"}, "elevation": {"altitude"},
	"tdp": {"load", "heat_load"}, "cpu": {"load"}, "heat": {"load", "heat_load"}, "block": {"plate"}, "cold_plate": {"plate", "plate_resistance"}, "thermal_resistance": {"plate", "plate_resistance"},
	// The sweep.
	"tolerance": {"margin"}, "baseline": {"reference"}, "candidate": {"challenger"}, "parameters": {"axes"}, "variables": {"axes"},
	"name": {"study", "input"}, "variable": {"input"}, "parameter": {"input"}, "min": {"from"}, "max": {"to"}, "values": {"list"}, "points": {"steps"},
}

// tradeWord returns the first key that a word of the trade may mean, and false if it means
// none of them.
func tradeWord(word string, keys []string) (string, bool) {
	word = strings.NewReplacer(" ", "_", "-", "_").Replace(strings.ToLower(word))
	for _, key := range tradeWords[word] {
		if slices.Contains(keys, key) {
			return key, true
		}
	}
	return "", false
}

// homes are the sections with keys of their own, as a hint names them.
var homes = []struct {
	name    string
	section reflect.Type
}{
	{"the study itself, at its left edge", reflect.TypeFor[document]()},
	{"room", reflect.TypeFor[roomPart]()}, {"heat", reflect.TypeFor[heatPart]()}, {"coolant", reflect.TypeFor[coolantPart]()},
	{"cores", reflect.TypeFor[corePart]()}, {"fans", reflect.TypeFor[fanPart]()}, {"setups", reflect.TypeFor[setupPart]()},
	{"installed, in setups", reflect.TypeFor[installedPart]()}, {"build, in setups", reflect.TypeFor[buildPart]()}, {"corrections, in setups", reflect.TypeFor[correctionsPart]()},
	{"sweep", reflect.TypeFor[sweepPart]()}, {"axes, in sweep", reflect.TypeFor[axisPart]()}, {"doubt", reflect.TypeFor[doubtPart]()},
}

// homeOf returns the key that a word is, or may mean, and the section that has it, and
// false if none has.
func homeOf(word string) (key, home string, ok bool) {
	for _, key := range append([]string{word}, tradeWords[strings.ToLower(word)]...) {
		for _, home := range homes {
			for _, field := range fieldsOf(home.section) {
				if field.key == key {
					return key, home.name, true
				}
			}
		}
	}
	return word, "", false
}
