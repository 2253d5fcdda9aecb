package study

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

const badFolder = "../../testdata/studies/bad"

// bad holds, for every file of the folder, all that Load must say of it, in order,
// each message followed by its hint.
var bad = map[string][]string{
	"alias-bomb.yaml": {
		`alias-bomb.yaml:2:9: about[0]: has an anchor or an alias`,
		`write the value itself: a study has no & and *`,
		`alias-bomb.yaml:2:41: about[1]: has an anchor or an alias`,
		`write the value itself: a study has no & and *`,
		`alias-bomb.yaml:2:82: about[2]: has an anchor or an alias`,
		`write the value itself: a study has no & and *`,
		`alias-bomb.yaml:2:123: about[3]: has an anchor or an alias`,
		`write the value itself: a study has no & and *`,
		`alias-bomb.yaml:2:164: about[4]: has an anchor or an alias`,
		`write the value itself: a study has no & and *`,
		`alias-bomb.yaml:2:205: about[5]: has an anchor or an alias`,
		`write the value itself: a study has no & and *`,
		`alias-bomb.yaml:2:246: about[6]: has an anchor or an alias`,
		`write the value itself: a study has no & and *`,
		`alias-bomb.yaml:2:287: about[7]: has an anchor or an alias`,
		`write the value itself: a study has no & and *`,
	},
	"anchor.yaml": {
		`anchor.yaml:2:7: heat: has an anchor or an alias`,
		`write the value itself: a study has no & and *`,
		`anchor.yaml:3:7: room: has an anchor or an alias`,
		`write the value itself: a study has no & and *`,
		`anchor.yaml:4:8: about: has the tag "!!str"`,
		`write the value alone: a study has no tags`,
	},
	"arrangement-unknown.yaml": {
		`arrangement-unknown.yaml:4:72: cores[0].arrangement: "air unmixed" is not a choice`,
		`did you mean air mixed? write one of: both unmixed, air mixed, coolant mixed, both mixed, counterflow`,
		`arrangement-unknown.yaml:5:77: cores[1].routing: "counterflow" is not a choice`,
		`write one of: side by side, cross-counterflow`,
	},
	"axes-empty.yaml": {
		`axes-empty.yaml:13:9: sweep.axes: is an empty list`,
		`write it like this: axes: [{input: fin_density, list: [12 fpi, 16 fpi]}, …]`,
	},
	"axis-conflict.yaml": {
		`axis-conflict.yaml:16:15: sweep.axes[2].input: "face_area" sets what face_length of sweep.axes[0] sets`,
		`sweep one of the two`,
		`axis-conflict.yaml:17:15: sweep.axes[3].input: "face_width" is swept twice: sweep.axes[1] has it too`,
		`make one axis of the two`,
		`axis-conflict.yaml:19:15: sweep.axes[5].input: "overall_thickness" sets what fin_depth of sweep.axes[4] sets`,
		`sweep one of the two`,
	},
	"axis-empty.yaml": {
		`axis-empty.yaml:14:7: sweep.axes[0]: has no values`,
		`add from, to and steps; or a list`,
		`axis-empty.yaml:15:32: sweep.axes[1].list: is an empty list`,
		`write it like this: list: [12 fpi, 16 fpi]`,
		`axis-empty.yaml:16:60: sweep.axes[2].steps: "0" is not a number of steps`,
		`write a whole number from 2 to 100000; for a single value: list`,
	},
	"axis-half.yaml": {
		`axis-half.yaml:14:7: sweep.axes[0].to: is missing`,
		`an axis has from, to and steps; or a list`,
		`axis-half.yaml:15:32: sweep.axes[1].list: is given beside from, to, steps or spacing`,
		`give a list, or from, to and steps`,
		`axis-half.yaml:16:45: sweep.axes[2].to: "8 fpi" is the same as from`,
		`for a single value: list`,
		`axis-half.yaml:16:59: sweep.axes[2].steps: "2.5" is not a number of steps`,
		`write a whole number from 2 to 100000; for a single value: list`,
	},
	"axis-input.yaml": {
		`axis-input.yaml:14:15: sweep.axes[0].input: "fin_dept" is not an input`,
		`did you mean fin_depth? nearest inputs: fin_depth, fin_density, fin_height, fin_thickness, fin_conductivity; finduel help inputs lists all`,
		`axis-input.yaml:15:7: sweep.axes[1].input: is missing`,
		`add input: fan_speed`,
		`axis-input.yaml:16:15: sweep.axes[2].input: "rpm" is not an input`,
		`did you mean fan_speed? finduel help inputs lists all`,
	},
	"axis-range.yaml": {
		`axis-range.yaml:14:40: sweep.axes[0].to: "120 %" is outside its range`,
		`write a value from 0 % to 100 %`,
		`axis-range.yaml:15:40: sweep.axes[1].list[1]: "0 mm" is outside its range`,
		`write a value from 1 mm to 1000 mm`,
		`axis-range.yaml:15:46: sweep.axes[1].list[2]: "20 fpi" is a fin density, not a length`,
		`write a number and one of: mm, cm, m, in, ft`,
		`axis-range.yaml:15:54: sweep.axes[1].list[3]: "2 cm" is in the list twice`,
		`remove one of the two`,
	},
	"axis-section-key.yaml": {
		`axis-section-key.yaml:14:15: sweep.axes[0].input: "flow" is not an input`,
		`did you mean coolant_flow? nearest inputs: coolant_flow, free_air_flow, pump_free_flow, loop_drop_flow; finduel help inputs lists all`,
		`axis-section-key.yaml:15:15: sweep.axes[1].input: "room.air" is not an input`,
		`did you mean air_temperature? nearest inputs: free_air_flow, air_temperature, air_film_correction, air_density_correction, air_friction_correction, air_viscosity_correction; finduel help inputs lists all`,
		`axis-section-key.yaml:16:15: sweep.axes[2].input: "thickness" is not an input`,
		`did you mean overall_thickness, fin_depth or fin_thickness? nearest inputs: fin_thickness, overall_thickness; finduel help inputs lists all`,
		`axis-section-key.yaml:17:15: sweep.axes[3].input: "face" is not an input`,
		`did you mean face_area, face_length or face_width? nearest inputs: face_area, face_width, face_length, fans; finduel help inputs lists all`,
		`axis-section-key.yaml:18:15: sweep.axes[4].input: "speed" is not an input`,
		`did you mean fan_speed? nearest inputs: fan_speed, top_speed, rated_speed, speed_constant; finduel help inputs lists all`,
		`axis-section-key.yaml:19:15: sweep.axes[5].input: "placing" is not an input`,
		`a choice, not a number: give a second setup`,
		`axis-section-key.yaml:20:15: sweep.axes[6].input: "fan" is not an input`,
		`a choice, not a number: give a second setup`,
	},
	"axis-spacing.yaml": {
		`axis-spacing.yaml:14:75: sweep.axes[0].spacing: "geometric" needs values above zero of something that has a natural zero`,
		`write spacing: even`,
		`axis-spacing.yaml:15:66: sweep.axes[1].spacing: "geometric" needs values above zero of something that has a natural zero`,
		`write spacing: even`,
		`axis-spacing.yaml:16:69: sweep.axes[2].spacing: "log" is not a choice`,
		`write one of: even, geometric`,
	},
	"axis-whole.yaml": {
		`axis-whole.yaml:14:46: sweep.axes[0].steps: "3" does not give whole numbers of passes`,
		`choose steps that do, or write a list`,
	},
	"control.yaml": {
		`control.yaml:2:10: holds the control character U+0007`,
		`remove it`,
	},
	"core-default-impossible.yaml": {
		`core-default-impossible.yaml:4:5: cores[0].louver_pitch: "1.1 mm" must be at most half the fin depth`,
		`this is the default: give louver_pitch; write at most 0.75 mm`,
		`core-default-impossible.yaml:4:5: cores[0].tube_height: "1.8 mm" must be below the fin depth: flat tubes lie along the air`,
		`this is the default: give tube_height; write less than 1.5 mm`,
	},
	"core-impossible-twice.yaml": {
		`core-impossible-twice.yaml:4:115: cores[0].fin_thickness: "0.3 mm" must be below half the fin pitch: the fins would fill the air's way`,
		`write less than 0.211 mm`,
	},
	"core-impossible.yaml": {
		`core-impossible.yaml:4:70: cores[0].tube_wall: "1 mm" must be below half the tube height: nothing would be left for the coolant`,
		`write less than 0.9 mm`,
		`core-impossible.yaml:5:105: cores[1].fin_thickness: "0.2 mm" must be below half the fin pitch: the fins would fill the air's way`,
		`write less than 0.127 mm`,
	},
	"core-small.yaml": {
		`core-small.yaml:4:5: cores[0].fin_thickness: "0.05 mm" must be above 1.05 % of the fin pitch: the friction correlation of louvered fins has no value below`,
		`this is the default: give fin_thickness; write more than 0.0525 mm`,
		`core-small.yaml:4:32: cores[0].face[1]: "6 mm" must hold at least one tube with its fin a pass`,
		`write at least 16.6 mm, passes × (fin_height + tube_height)`,
		`core-small.yaml:5:5: cores[1].fin_thickness: "0.05 mm" must be above 1.05 % of the fin pitch: the friction correlation of louvered fins has no value below`,
		`this is the default: give fin_thickness; write more than 0.0553 mm`,
		`core-small.yaml:5:25: cores[1].face[0]: "1 cm" must hold at least two fins`,
		`write at least 10.6 mm`,
		`core-small.yaml:5:80: cores[1].louver_length: "9 mm" must be at most the fin height`,
		`write at most 6.5 mm`,
	},
	"core-thin.yaml": {
		`core-thin.yaml:4:98: cores[0].fin_thickness: "0.05 mm" must be above 1.05 % of the fin pitch: the friction correlation of louvered fins has no value below`,
		`write more than 0.0525 mm`,
		`core-thin.yaml:4:120: cores[0].tube_height: "0.2 mm" must be above a fiftieth of the tube pitch`,
		`write more than 0.409 mm`,
	},
	"count-broken.yaml": {
		`count-broken.yaml:9:56: setups[0].fans: "2.5" must be a whole number`,
		`write a whole number from 1 to 100`,
		`count-broken.yaml:9:105: setups[1].fans: "0" is outside its range`,
		`write a whole number from 1 to 100`,
	},
	"cut.json": {
		`cut.json:2:10: is not JSON: unexpected end of JSON input`,
		`look for a missing bracket, quote or comma, or one too many, up to here`,
	},
	"depth-twice.yaml": {
		`depth-twice.yaml:4:78: cores[0].overall_thickness: "45 mm" stands for fin_depth, which is given too`,
		`keep one of the two: fin_depth is the fins alone, overall_thickness has the housing in it`,
		`depth-twice.yaml:5:5: cores[1].fin_depth: is missing`,
		`add fin_depth: 34 mm, the fins alone; or overall_thickness: 45 mm, housing included`,
	},
	"documents.yaml": {
		`documents.yaml:11:1: starts a second document`,
		`one file is one study: remove what follows the line ---`,
	},
	"empty.json": {
		`empty.json:1:1: has nothing in it`,
		`finduel new FILE writes a study to start from`,
	},
	"empty.toml": {
		`empty.toml:1:1: has nothing in it`,
		`finduel new FILE writes a study to start from`,
	},
	"empty.yaml": {
		`empty.yaml:1:1: has nothing in it`,
		`finduel new FILE writes a study to start from`,
	},
	"exclude-all.yaml": {
		`exclude-all.yaml:18:5: sweep.exclude: leaves out every point`,
		`a point is left out if all conditions of one combination hold: move above and below`,
	},
	"exclude-wrong.yaml": {
		`exclude-wrong.yaml:14:8: sweep.exclude[0][0]: has neither above nor below`,
		`add above or below, and a value`,
		`exclude-wrong.yaml:14:56: sweep.exclude[0][1].above: "20 mm" is a length, not a fin density`,
		`write a number and one of: fpi, fins/in, fins/cm`,
		`exclude-wrong.yaml:15:48: sweep.exclude[1][0].below: "2 rpm" is given beside above`,
		`give one of the two; a second combination can have the other`,
		`exclude-wrong.yaml:15:56: sweep.exclude[1][1].input: is missing`,
		`add input: fin_density`,
		`exclude-wrong.yaml:16:7: sweep.exclude[2]: is a section, not a list`,
		`write it like this: exclude: [[{input: fin_density, above: 20 fpi}, {input: fin_depth, above: 30 mm}], …]`,
	},
	"glycol-fluid-unknown.yaml": {
		`glycol-fluid-unknown.yaml:2:18: coolant.fluid: "ethylen glycol" is not a choice`,
		`did you mean ethylene glycol? write one of: water, ethylene glycol, propylene glycol`,
	},
	"glycol-in-water.yaml": {
		`glycol-in-water.yaml:2:25: coolant.glycol_share: "30 %" means nothing: water holds no glycol`,
		`remove it, or write fluid: ethylene glycol, or fluid: propylene glycol`,
		`glycol-in-water.yaml:11:61: sweep.axes[0].input: "glycol_share" cannot be swept: water holds no glycol`,
		`remove the axis, or write fluid: ethylene glycol, or fluid: propylene glycol in the section coolant`,
	},
	"glycol-key-unknown.yaml": {
		`glycol-key-unknown.yaml:2:11: coolant.fluit: is not a key of coolant`,
		`did you mean fluid? keys of coolant: fluid, glycol_share, flow, pump_head, pump_free_flow, pump_exponent, loop_drop, loop_drop_flow`,
	},
	"glycol-too-much.yaml": {
		`glycol-too-much.yaml:2:49: coolant.glycol_share: "65 %" is outside its range`,
		`write a value from 0 % to 60 %`,
		`glycol-too-much.yaml:11:87: sweep.axes[0].list[1]: "40" is outside its range`,
		`write a value from 0 to 0.6; did you mean 40 %?`,
	},
	"glycol-without-section.yaml": {
		`glycol-without-section.yaml:2:10: coolant: "ethylene glycol" is a text, not a section`,
		`write it like this: coolant: {fluid: water, flow: 4 L/min}`,
	},
	"flow-axis-with-pump.yaml": {
		`flow-axis-with-pump.yaml:11:61: sweep.axes[0].input: "coolant_flow" follows from the pump`,
		`sweep pump_head or pump_free_flow, or give flow instead of the pump`,
	},
	"group-uneven.yaml": {
		`group-uneven.yaml:15:70: sweep.axes[1].group: "a" runs in step with sweep.axes[0], which has 2 values; this axis has 3`,
		`axes of a group have equally many values`,
	},
	"installed-wrong.yaml": {
		`installed-wrong.yaml:9:71: setups[0].installed.leakage: "95 %" is outside its range`,
		`write a value from 0 % to 90 %`,
		`installed-wrong.yaml:9:77: setups[0].installed.grille: is not a key of setups[0].installed`,
		`did you mean grille_loss? keys of setups[0].installed: grille_loss, leakage, hub_shadow, dust, series_loss, shroud`,
		`installed-wrong.yaml:9:94: setups[0].installed.dust: "-1 %" is outside its range`,
		`write a value from 0 % to 90 %`,
		`installed-wrong.yaml:9:150: setups[1].installed: "3 %" is a text, not a section`,
		`write it like this: installed: {grille_loss: 0.8, leakage: 3 %}`,
	},
	"key-missing.yaml": {
		`key-missing.yaml:2:7: heat.load: is missing`,
		`add load: 200 W`,
		`key-missing.yaml:4:5: cores[0].name: is missing`,
		`add name: cube`,
		`key-missing.yaml:7:5: fans[0].rated_power: is missing`,
		`add rated_power: 2.2 W, electrical, at rated speed`,
	},
	"key-twice.yaml": {
		`key-twice.yaml:2:1: study: is given twice, first on line 1`,
		`remove one of the two; keys are lower case`,
		`key-twice.yaml:4:1: About: is given twice, first as about on line 3`,
		`remove one of the two; keys are lower case`,
	},
	"key-unknown.yaml": {
		`key-unknown.yaml:2:8: heat.laod: is not a key of heat`,
		`did you mean load? keys of heat: load, plate, pump`,
		`key-unknown.yaml:3:1: foo: is not a key of a study`,
		`keys of a study: study, about, room, heat, coolant, cores, fans, setups, sweep, doubt`,
		`key-unknown.yaml:4:8: room.ari: is not a key of room`,
		`did you mean air? keys of room: air, altitude, humidity, listener, operator, session, field, surface, absorption, directivity`,
	},
	"latin.yaml": {
		`latin.yaml:2:16: is not text in UTF-8`,
		`save the file as UTF-8`,
	},
	"list-empty.yaml": {
		`list-empty.yaml:9:9: setups: is an empty list`,
		`write it like this: setups: [{name: small, core: cube, fan: calm}, …]`,
	},
	"list-of-words.yaml": {
		`list-of-words.yaml:4:5: cores[0]: "dense" is a text, not a section`,
		`write it like this: cores: [{name: cube, face: [92 mm, 88 mm], fin_depth: 34 mm}, …]`,
	},
	"list-wrong.yaml": {
		`list-wrong.yaml:4:25: cores[0].face: "90 mm" is a text, not a list`,
		`write it like this: face: [92 mm, 88 mm], along the tubes and across`,
		`list-wrong.yaml:5:24: cores[1].face: is not a length and a width`,
		`write it like this: face: [92 mm, 88 mm], along the tubes and across`,
	},
	"loop-without-pump.yaml": {
		`loop-without-pump.yaml:3:22: coolant.loop_drop: "9 kPa" has no effect: the coolant flow is given`,
		`remove it, or give pump_head and pump_free_flow instead of flow`,
		`loop-without-pump.yaml:3:45: coolant.loop_drop_flow: "3 L/min" has no effect: the coolant flow is given`,
		`remove it, or give pump_head and pump_free_flow instead of flow`,
	},
	"louver-axis-on-plain.yaml": {
		`louver-axis-on-plain.yaml:10:61: sweep.axes[0].input: "louver_pitch" has no effect: the challenger's fins are plain`,
		`remove the axis, or write fins: louvered`,
	},
	"louvers-on-plain.yaml": {
		`louvers-on-plain.yaml:4:86: cores[0].louver_angle: "20 deg" means nothing: plain fins have no louvers`,
		`remove it, or write fins: louvered`,
	},
	"margin-wrong.yaml": {
		`margin-wrong.yaml:13:11: sweep.margin: "0 K" is not a margin that a bench can have`,
		`write a value from 0.001 K to 10 K`,
		`margin-wrong.yaml:21:7: sweep.maps[0]: does not name two inputs`,
		`write it like this: [fin_density, fin_depth], across and up`,
		`margin-wrong.yaml:22:21: sweep.maps[1][1]: "fan_speed" is not swept over several values beside the fan speed`,
		`name two of fin_density, fin_depth, face_area`,
		`margin-wrong.yaml:23:8: sweep.maps[2][0]: "fans" is not swept over several values beside the fan speed`,
		`name two of fin_density, fin_depth, face_area`,
		`margin-wrong.yaml:23:14: sweep.maps[2][1]: "heat_load" is not swept over several values beside the fan speed`,
		`name two of fin_density, fin_depth, face_area`,
		`margin-wrong.yaml:24:21: sweep.maps[3][1]: "fin_depth" does not vary beside the other`,
		`name two inputs that are swept independently`,
		`margin-wrong.yaml:25:19: sweep.maps[4][1]: "face_area" does not vary beside the other`,
		`name two inputs that are swept independently`,
		`margin-wrong.yaml:26:8: sweep.maps[5][0]: "fins" is not an input`,
		`a choice, not a number: give a second setup`,
	},
	"name-given-twice.yaml": {
		`name-given-twice.yaml:8:12: fans[1].name: "fierce" is given twice: fans[0].name has it too`,
		`give each its own name`,
		`name-given-twice.yaml:9:82: setups[1].fan: "calm" is not the name of a fan`,
		`there are: fierce (given 2 times)`,
	},
	"name-twice.yaml": {
		`name-twice.yaml:5:12: cores[1].name: "Dense" is the name of two: cores[0].name has it too`,
		`names must differ by more than upper and lower case`,
		`name-twice.yaml:9:71: setups[1].core: "wide" is not the name of a core`,
		`there are: dense, Dense`,
	},
	"name-unknown.yaml": {
		`name-unknown.yaml:9:71: setups[1].core: "wid" is not the name of a core`,
		`did you mean wide? there are: dense, wide`,
		`name-unknown.yaml:9:81: setups[1].fan: "Calm" is not the name of a fan`,
		`did you mean calm? there are: fierce, calm`,
		`name-unknown.yaml:10:21: sweep.challenger: "tiny" is not the name of a setup`,
		`there are: small, large`,
	},
	"key-without-space.yaml": {
		`key-without-space.yaml:4:40: cores[0]."fin_depth:34 mm": is not a key of cores[0]`,
		`put a space behind the colon: fin_depth: 34 mm`,
	},
	"nested.json": {
		`nested.json:1:42: is nested more than 32 levels deep`,
		`a study needs no more than six levels`,
	},
	"nested.toml": {
		`nested.toml:1:1: is nested more than 32 levels deep`,
		`a study needs no more than six levels`,
	},
	"nested.yaml": {
		`nested.yaml:1:39: is nested more than 32 levels deep`,
		`a study needs no more than six levels`,
	},
	"not-a-section.yaml": {
		`not-a-section.yaml:1:1: is a list, not a section`,
		`write it like this: study: booth`,
	},
	"number-comma.yaml": {
		`number-comma.yaml:2:14: heat.load: "200,5 W" has a decimal comma`,
		`write a decimal point: 200.5 W`,
		`number-comma.yaml:7:33: fans[0].rated_speed: "8,000 rpm" has a comma`,
		`write a decimal point, and nothing between thousands: 8 rpm or 8000 rpm`,
	},
	"number-gaps.yaml": {
		`number-gaps.yaml:7:33: fans[0].rated_speed: "8 000 rpm" has a gap in the number`,
		`write nothing between thousands: 8000 rpm`,
		`number-gaps.yaml:8:31: fans[1].rated_speed: "1_400 rpm" has a gap in the number`,
		`write nothing between thousands: 1400 rpm`,
		`number-gaps.yaml:8:57: fans[1].free_air_flow: "0110 m3/h" starts with a zero`,
		`write the number without it`,
	},
	"number-is-truth.yaml": {
		`number-is-truth.yaml:2:14: heat.load: "true" is true or false, not a power`,
		`write a number and one of: W, mW, kW`,
		`number-is-truth.yaml:7:108: fans[0].rated_power: "2024-05-01" is a date, not a power`,
		`write a number and one of: W, mW, kW`,
	},
	"number-none.yaml": {
		`number-none.yaml:2:14: heat.load: "much" is not a power`,
		`write a number and one of: W, mW, kW`,
		`number-none.yaml:7:108: fans[0].rated_power: "W 30" is not a power`,
		`write a number and one of: W, mW, kW`,
	},
	"number-not-finite.yaml": {
		`number-not-finite.yaml:2:14: heat.load: ".nan" is not a finite number`,
		`write a number and one of: W, mW, kW`,
		`number-not-finite.yaml:7:108: fans[0].rated_power: "-Inf W" is not a finite number`,
		`write a number and one of: W, mW, kW`,
		`number-not-finite.yaml:8:105: fans[1].rated_power: "1e400 W" is not a number that can be computed with`,
		`write fewer digits, or a smaller exponent`,
	},
	"number-too-long.yaml": {
		`number-too-long.yaml:2:14: heat.load: "200.00000000000000000000000000000000000000 W" is not a number that can be computed with`,
		`write fewer digits, or a smaller exponent`,
	},
	"points-too-many.yaml": {
		`points-too-many.yaml:14:5: sweep.axes: makes 10000 million points`,
		`a study has at most 1000 million: take fewer steps, or let axes run in step with a group`,
	},
	"pump-axis-without-pump.yaml": {
		`pump-axis-without-pump.yaml:10:61: sweep.axes[0].input: "pump_head" has no effect: the coolant flow is given`,
		`remove it, or give pump_head and pump_free_flow instead of flow`,
		`pump-axis-without-pump.yaml:10:97: sweep.axes[1].input: "loop_drop" has no effect: the coolant flow is given`,
		`remove it, or give pump_head and pump_free_flow instead of flow`,
	},
	"pump-exponent-alone.yaml": {
		`pump-exponent-alone.yaml:3:10: coolant.pump_free_flow: is missing`,
		`add pump_free_flow: 1100 L/h, the pump's flow without resistance`,
		`pump-exponent-alone.yaml:3:10: coolant.pump_head: is missing`,
		`add pump_head: 40 kPa, the pump's pressure without flow`,
	},
	"pump-half.yaml": {
		`pump-half.yaml:3:10: coolant.pump_head: is missing`,
		`add pump_head: 40 kPa, the pump's pressure without flow`,
		`pump-half.yaml:3:43: coolant.flow: "4 L/min" is given beside a pump`,
		`give flow, or pump_head and pump_free_flow`,
	},
	"pump-misspelt.yaml": {
		`pump-misspelt.yaml:3:11: coolant.pump_hed: is not a key of coolant`,
		`did you mean pump_head? keys of coolant: fluid, glycol_share, flow, pump_head, pump_free_flow, pump_exponent, loop_drop, loop_drop_flow`,
		`pump-misspelt.yaml:3:66: coolant.loop_drop: "1 psi" is not a pressure`,
		`write a number and one of: Pa, hPa, kPa, mbar, bar, mmH2O, mH2O, inH2O`,
	},
	"range.yaml": {
		`range.yaml:2:13: room.air: "5000 °C" is outside its range`,
		`write a value from -40 °C to 80 °C`,
		`range.yaml:2:32: room.humidity: "45" is outside its range`,
		`write a value from 0 to 1; did you mean 45 %?`,
		`range.yaml:2:46: room.altitude: "-600 m" is outside its range`,
		`write a value from -500 m to 5000 m`,
		`range.yaml:3:14: heat.load: "0 W" is outside its range`,
		`write a value from 0.1 W to 100000 W`,
	},
	"rows-impossible.yaml": {
		`rows-impossible.yaml:4:95: cores[0].passes: "5" must be at most four behind one another`,
		"",
		`rows-impossible.yaml:5:104: cores[1].passes: "4" must be fewer: behind one another they leave tubes that are higher than they are deep`,
		`write at most 3, or routing: side by side`,
	},
	"same-setup.yaml": {
		`same-setup.yaml:10:39: sweep.reference: "small" is the challenger too`,
		`a study compares two setups`,
	},
	"section-missing.yaml": {
		`section-missing.yaml:1:1: heat: is missing`,
		`add heat: {load: 200 W}`,
		`section-missing.yaml:1:1: sweep: is missing`,
		`add sweep: {challenger: small, reference: large}`,
	},
	"section-wrong.yaml": {
		`section-wrong.yaml:2:7: heat: "200 W" is a text, not a section`,
		`write it like this: heat: {load: 200 W}`,
		`section-wrong.yaml:3:7: room: is a list, not a section`,
		`write it like this: room: {air: 22 °C}`,
		`section-wrong.yaml:4:18: coolant.fluid: is a section, not a value`,
		`write a single value`,
	},
	"several.json": {
		`several.json:14:30: room.altitud: is not a key of room`,
		`did you mean altitude? keys of room: air, altitude, humidity, listener, operator, session, field, surface, absorption, directivity`,
		`several.json:18:85: cores[0].fin_density: "20" has no unit`,
		`write a number and one of: fpi, fins/in, fins/cm, as in 20 fpi`,
		`several.json:31:67: setups[0].placing: has no value`,
		`write a value, or remove the key to have the default`,
		`several.json:31:73: setups[0].Placing: is given twice, first as placing on line 31`,
		`remove one of the two; keys are lower case`,
		`several.json:31:92: setups[0].fan: is given twice, first on line 31`,
		`remove one of the two; keys are lower case`,
	},
	"several.toml": {
		`several.toml:9:1: heat.laod: is not a key of heat`,
		`did you mean load? keys of heat: load, plate, pump`,
		`several.toml:21:15: cores[0].fin_density: "20" has no unit`,
		`write a number and one of: fpi, fins/in, fins/cm, as in 20 fpi`,
		`several.toml:63:1: setups[0].placing: is given twice, first on line 62`,
		`remove one of the two; keys are lower case`,
		`several.toml:80:48: sweep.axes[3].list[1]: "ü" is not a temperature`,
		`write a number and one of: °C, °F, K`,
		`several.toml:80:53: sweep.axes[3].list[2]: "inf" is not a finite number`,
		`write a number and one of: °C, °F, K`,
	},
	"speed-above-top.yaml": {
		`speed-above-top.yaml:9:95: setups[1].speed: "1500 rpm" is above the top speed of fan calm, 1400 rpm`,
		`lower it, or raise top_speed of the fan`,
		`speed-above-top.yaml:10:92: sweep.axes[0].to: "9000 rpm" is above the top speed of fan fierce, 8000 rpm`,
		`lower it, or raise top_speed of the fan`,
	},
	"strip-axis-on-triangular.yaml": {
		`strip-axis-on-triangular.yaml:10:61: sweep.axes[0].input: "strip_length" has no effect: the challenger's fins are triangular`,
		`remove the axis, or write fins: offset strip`,
		`strip-axis-on-triangular.yaml:10:98: sweep.axes[1].input: "louver_angle" has no effect: the challenger's fins are triangular`,
		`remove the axis, or write fins: louvered`,
	},
	"strips-impossible.yaml": {
		`strips-impossible.yaml:4:93: cores[0].strip_length: "31 mm" must be at most the fin depth`,
		`write at most 30 mm`,
		`strips-impossible.yaml:5:102: cores[1].strip_length: "0.1 mm" must be above the fin thickness`,
		`write more than 0.1 mm`,
	},
	"strips-on-louvered.yaml": {
		`strips-on-louvered.yaml:4:73: cores[0].strip_length: "3 mm" means nothing: louvered fins have no strips`,
		`remove it, or write fins: offset strip`,
		`strips-on-louvered.yaml:5:102: cores[1].louver_pitch: "1 mm" means nothing: offset strip fins have no louvers`,
		`remove it, or write fins: louvered`,
	},
	"study-name-cup.yaml": {
		`study-name-cup.yaml:1:8: study: "tea ☕ first" cannot name a folder: ☕ is not a letter, digit, space, -, _ or .`,
		`remove it, or write another character`,
	},
	"study-name-device.yaml": {
		`study-name-device.yaml:1:8: study: "nul.txt" cannot name a folder: some systems keep the name for a device`,
		`choose another name`,
	},
	"study-name-number.yaml": {
		`study-name-number.yaml:1:8: study: "2024" is a number, not a text`,
		`write it in quotes`,
	},
	"study-name-two-lines.yaml": {
		`study-name-two-lines.yaml:1:8: study: "short\nshort" has a line break`,
		`write the name on one line; is the next line indented too far?`,
	},
	"study-name-unseen.yaml": {
		`study-name-unseen.yaml:1:8: study: "tea\u200bfirst" has the character U+200B, which cannot be printed`,
		`remove it`,
	},
	"study-name.yaml": {
		`study-name.yaml:1:8: study: "../short" cannot name a folder: / is not a letter, digit, space, -, _ or .`,
		`remove it, or write another character`,
	},
	"syntax-bracket.yaml": {
		`syntax-bracket.yaml:3: is not YAML: did not find expected ',' or '}'`,
		`look for a missing bracket, quote or colon, or a wrong indent, here or just above`,
	},
	"syntax-colon.yaml": {
		`syntax-colon.yaml:2: is not YAML: mapping values are not allowed in this context`,
		`a text that has a colon and a space in it stands in quotes`,
	},
	"syntax-comment.yaml": {
		`syntax-comment.yaml:2: is not YAML: did not find expected ',' or '}'`,
		`close the bracket before the #: all that follows it is a comment`,
	},
	"syntax-fence.yaml": {
		"syntax-fence.yaml:1: is not YAML: found character that cannot start any token",
		"leave the lines of ``` out: they are not of the study",
	},
	"syntax-first-line.yaml": {
		`syntax-first-line.yaml:1: is not YAML: did not find expected ',' or ']'`,
		`look for a missing bracket, quote or colon, or a wrong indent, here or just above`,
	},
	"syntax-indent.yaml": {
		`syntax-indent.yaml:4: is not YAML: did not find expected key`,
		`look for a missing bracket, quote or colon, or a wrong indent, here or just above`,
	},
	"syntax-late.yaml": {
		`syntax-late.yaml:1: is not YAML: did not find expected ',' or ']'`,
		`look for a missing bracket, quote or colon, or a wrong indent, here or just above`,
	},
	"syntax-quote.yaml": {
		`syntax-quote.yaml:4: is not YAML: found unexpected end of stream`,
		`look for a missing bracket, quote or colon, or a wrong indent, here or just above`,
	},
	"syntax-space.yaml": {
		`syntax-space.yaml:4: is not YAML: could not find expected ':'`,
		`put a space behind the colon: load: 200 W`,
	},
	"syntax-tab.yaml": {
		`syntax-tab.yaml:3: is not YAML: found character that cannot start any token`,
		`indent with spaces: the line starts with a tab, which YAML does not take`,
	},
	"syntax.json": {
		`syntax.json:3:27: is not JSON: invalid character '}' looking for beginning of object key string`,
		`look for a missing bracket, quote or comma, or one too many, up to here`,
	},
	"syntax.toml": {
		`syntax.toml:2:20: is not TOML: expected ',' or '}' after inline table key-value`,
		`texts, and numbers with a unit, stand in quotes`,
	},
	"table-clash.toml": {
		`table-clash.toml:3:2: room: is given as a text already`,
		`give it once, in one way`,
	},
	"table-twice.toml": {
		`table-twice.toml:13:2: is not TOML: table heat already exists`,
		`give every table and every key once`,
	},
	"temperature-difference.yaml": {
		`temperature-difference.yaml:2:13: room.air: "22 K/W" is a thermal resistance, not a temperature`,
		`write a number and one of: °C, °F, K`,
	},
	"tolerance-words.yaml": {
		`tolerance-words.yaml:3:14: heat.load: "2 % gaussian" ends in gaussian, which is no shape`,
		`write rectangular, normal or triangular, or nothing for rectangular`,
		`tolerance-words.yaml:5:51: cores[0].fin_depth: "34 mm +1 mm -0 mm" has a tolerance for each side`,
		`a tolerance reaches as far to either side: write ± and the greater of the two`,
		`tolerance-words.yaml:6:73: cores[1].fin_density: "1 fpi uniform" ends in uniform, which is no shape`,
		`write rectangular, normal or triangular, or nothing for rectangular`,
	},
	"tolerance-wrong.yaml": {
		`tolerance-wrong.yaml:3:15: heat.load: "5 K" is a temperature, not a power`,
		`write a number and one of: W, mW, kW`,
		`tolerance-wrong.yaml:5:52: cores[0].fin_depth: "-1 mm" is below zero`,
		`a tolerance reaches as far to either side: write it without the sign`,
		`tolerance-wrong.yaml:5:79: cores[0].passes: "1" is a tolerance of passes, which is counted`,
		`remove it`,
		`tolerance-wrong.yaml:6:73: cores[1].fin_density: "1" has no unit`,
		`write a number and one of: fpi, fins/in, fins/cm, as in 1 fpi`,
		`tolerance-wrong.yaml:16:35: sweep.axes[0].list[0]: "12 fpi ± 1 fpi" has a tolerance, which is not taken here`,
		`give it where the study gives the number, or under doubt: tolerances`,
		`tolerance-wrong.yaml:18:10: doubt.draws: "10" is not a number of draws`,
		`write a whole number from 1000 to 100000`,
		`tolerance-wrong.yaml:19:12: doubt.designs: "some" is not a choice`,
		`write one of: all, own`,
		`tolerance-wrong.yaml:21:34: doubt.tolerances[0].within: "120 %" is no share of the number`,
		`write 0 % or more, and less than 100 %`,
		`tolerance-wrong.yaml:21:48: doubt.tolerances[0].shape: "gaussian" is not a choice`,
		`write one of: rectangular, normal, triangular`,
		`tolerance-wrong.yaml:22:46: doubt.tolerances[1].setup: "small" cannot have heat_load by itself: both setups share it`,
		`leave setup away`,
		`tolerance-wrong.yaml:23:61: doubt.tolerances[2].error: "common" goes with a tolerance of both setups`,
		`leave setup away, or write error: separate`,
		`tolerance-wrong.yaml:24:7: doubt.tolerances[3].within: is missing`,
		`add within: 1 fpi, or within: 5 %`,
		`tolerance-wrong.yaml:25:47: doubt.tolerances[4].setup: "middle" is neither challenger nor reference`,
		`name one of the two, or leave setup away for both`,
		`tolerance-wrong.yaml:26:40: doubt.tolerances[5].within: "10 %" is a share of a temperature, whose zero is chosen`,
		`write how far it may be off in kelvins, as ± 2 K`,
	},
	"unit-case.yaml": {
		`unit-case.yaml:7:33: fans[0].rated_speed: "8000 Rpm" is not a rotational speed`,
		`write a number and one of: rpm, rev/s, krpm; did you mean 8000 rpm?`,
	},
	"unit-fahrenheit.yaml": {
		`unit-fahrenheit.yaml:3:13: room.air: "22 F" is not a temperature`,
		`write a number and one of: °C, °F, K; did you mean 22 °F?`,
	},
	"unit-missing.yaml": {
		`unit-missing.yaml:2:14: heat.load: "200" has no unit`,
		`write a number and one of: W, mW, kW, as in 200 W`,
		`unit-missing.yaml:7:108: fans[0].rated_power: "30" has no unit`,
		`write a number and one of: W, mW, kW, as in 30 W`,
	},
	"unit-misspelt.yaml": {
		`unit-misspelt.yaml:4:72: cores[0].fin_density: "22 fip" is not a fin density`,
		`write a number and one of: fpi, fins/in, fins/cm; did you mean 22 fpi?`,
	},
	"unit-of-another-kind.yaml": {
		`unit-of-another-kind.yaml:2:14: heat.load: "200 K/W" is a thermal resistance, not a power`,
		`write a number and one of: W, mW, kW`,
		`unit-of-another-kind.yaml:4:72: cores[0].fin_density: "22 mm" is a length, not a fin density`,
		`write a number and one of: fpi, fins/in, fins/cm`,
	},
	"unit-unwanted.yaml": {
		`unit-unwanted.yaml:9:56: setups[0].fans: "2 mm" is a length, not a count`,
		`write a whole number`,
		`unit-unwanted.yaml:9:106: setups[1].fans: "50 %" is a ratio, not a count`,
		`write a whole number`,
	},
	"value-missing.yaml": {
		`value-missing.yaml:2:14: heat.load: has no value`,
		`write it like this: load: 200 W`,
		`value-missing.yaml:2:22: heat.pump: has no value`,
		`write a value, or remove the key to have the default`,
		`value-missing.yaml:7:12: fans[0].name: is empty`,
		`write it like this: name: calm`,
	},
	"word-unknown.yaml": {
		`word-unknown.yaml:2:18: coolant.fluid: "oil" is not a choice`,
		`write one of: water, ethylene glycol, propylene glycol`,
		`word-unknown.yaml:5:65: cores[0].fins: "louvred" is not a choice`,
		`did you mean louvered? write one of: louvered, plain, triangular, offset strip`,
		`word-unknown.yaml:5:81: cores[0].metal: "brass" is not a choice`,
		`write one of: copper, aluminium`,
		`word-unknown.yaml:10:59: setups[0].placing: "pusch" is not a choice`,
		`did you mean push? write one of: push, pull, push-pull`,
		`word-unknown.yaml:11:54: sweep.metric: "chip" is not a choice`,
		`did you mean chip_over_air? write one of: coolant_over_air, coolant_mean_over_air, chip_over_air`,
	},
}

// TestBadStudies holds every bad study against what must be said of it.
func TestBadStudies(t *testing.T) {
	files, err := os.ReadDir(badFolder)
	if err != nil {
		t.Fatal(err)
	}
	if len(files) < 60 {
		t.Errorf("only %d bad studies were found", len(files))
	}
	for _, file := range files {
		t.Run(file.Name(), func(t *testing.T) {
			want, ok := bad[file.Name()]
			if !ok || len(want) == 0 {
				t.Fatal("the table does not say what is wrong with it")
			}
			s, err := Load(filepath.Join(badFolder, file.Name()))
			var faults Faults
			if !errors.As(err, &faults) || s != nil {
				t.Fatalf("Load gives the study %v and the error %v, want faults alone", s, err)
			}
			var got []string
			for _, f := range faults {
				f.File = file.Name()
				got = append(got, f.Error(), f.Hint)
			}
			if !slices.Equal(got, want) {
				t.Errorf("got\n%q\nwant\n%q", got, want)
			}
		})
	}
	for name := range bad {
		if _, err := os.Stat(filepath.Join(badFolder, name)); err != nil {
			t.Errorf("the table names a file that is not there: %v", err)
		}
	}
}
