package study

import (
	"strings"
	"testing"

	"finduel/model/quantity"
)

// A word of the trade leads to keys that there are, and is written as it is looked up.
func TestTradeWordsLeadToKeys(t *testing.T) {
	keys := map[string]bool{}
	for _, key := range inputKeys() {
		keys[key] = true
	}
	for _, home := range homes {
		for _, field := range fieldsOf(home.section) {
			keys[field.key] = true
		}
	}
	if len(tradeWords) < 100 {
		t.Fatalf("only %d words", len(tradeWords))
	}
	for word, means := range tradeWords {
		if len(means) == 0 || word != strings.ToLower(word) || strings.ContainsAny(word, " -") {
			t.Errorf("%q leads to %q", word, means)
		}
		for _, key := range means {
			if !keys[key] {
				t.Errorf("%s leads to %s, which is no key", word, key)
			}
			if got, ok := tradeWord(word, []string{key}); !ok || got != key {
				t.Errorf("%s leads to %s, not %s", word, got, key)
			}
		}
	}
}

// The keys of a section are listed once for all of its kind: a study whose fans are spelled
// throughout as in data sheets is answered with a line a word.
func TestKeysAreListedOnce(t *testing.T) {
	_, err := Read("brick.yaml", []byte(`study: brick
heat: {load: 300 W}
radiators:
  - {name: brick, face: [110 mm, 105 mm], fin_depth: 30 mm}
fans:
  - {name: loud, rpm: 9000 rpm, airflow: 250 m3/h, colour: black, leakage: 3 %}
  - {name: calm, rpm: 1200 rpm, airflow: 110 m3/h, price: 12 EUR}
setups: [{name: small, core: brick, fan: loud}, {name: large, core: brick, fan: calm}]
sweep: {challenger: small, reference: large}
`), "yaml")
	hints := map[string]string{}
	for _, f := range err.(Faults) {
		hints[f.Path] = f.Hint
		if f.Path == "cores" {
			t.Errorf("radiators are the cores: %v", f)
		}
	}
	for path, want := range map[string]string{
		"radiators":       "did you mean cores? keys of a study: study, about, room, heat, coolant, cores, fans, setups, sweep, doubt",
		"fans[0].airflow": "did you mean free_air_flow?", "fans[0].colour": "the keys of fans[0] are those listed above",
		"fans[0].leakage": "leakage is a key of installed, in setups",
		"fans[1].rpm":     "did you mean rated_speed?", "fans[1].airflow": "did you mean free_air_flow?",
		"fans[1].price": "the keys of fans[1] are those listed above",
	} {
		if hints[path] != want {
			t.Errorf("%s: %q, want %q", path, hints[path], want)
		}
	}
	if first := hints["fans[0].rpm"]; !strings.HasPrefix(first, "did you mean rated_speed? keys of fans[0]: name, rated_speed, ") {
		t.Errorf("the first one: %q", first)
	}
}

// A study as builders write it, and what is said of the words that it does not take.
func TestWordsOfBuilders(t *testing.T) {
	const base = `study: brick
room: {air: 22 °C}
heat: {load: 300 W}
coolant: {fluid: water}
cores:
  - {name: brick, face: [110 mm, 105 mm], fin_depth: 30 mm}
  - {name: slab, face: [390 mm, 140 mm], fin_depth: 22 mm}
fans:
  - {name: loud, rated_speed: 9000 rpm, free_air_flow: 250 m3/h, shut_off_pressure: 520 Pa, rated_power: 40 W, drive_voltage: 12 V}
setups:
  - {name: small, core: brick, fan: loud, build: {shroud_material: steel}}
  - {name: large, core: slab, fan: loud, speed: 2000 rpm}
sweep: {challenger: small, reference: large}
`
	read := func(old, new string) (*Study, string) {
		if strings.Count(base, old) != 1 {
			t.Fatalf("%q is there %d times", old, strings.Count(base, old))
		}
		s, err := Read("brick.yaml", []byte(strings.Replace(base, old, new, 1)), "yaml")
		if err == nil {
			return s, ""
		}
		var b strings.Builder
		for _, f := range err.(Faults) {
			b.WriteString(f.Error() + " // " + f.Hint + "\n")
		}
		return nil, b.String()
	}
	for _, c := range []struct{ old, new, hint string }{
		{"105 mm], fin_depth: 30 mm", "105 mm], thickness: 30 mm", `cores[0].thickness: is not a key of cores[0] // did you mean overall_thickness?`},
		{"105 mm], fin_depth: 30 mm", "105 mm], depth: 30 mm", `// did you mean fin_depth?`},
		{"rated_power: 40 W", "rated_power: 40 W, diameter: 92 mm", `// did you mean rotor_diameter?`},
		{"105 mm], fin_depth: 30 mm", "105 mm], fin_depth: 30 mm, fins_per_inch: 20 fpi", `// did you mean fin_density?`},
		{"rated_power: 40 W", "rated_power: 40 W, KV: 900 KV", `// did you mean speed_constant?`},
		{"rated_power: 40 W", "rated_power: 40 W, noise-level: 60 dBA", `// did you mean rated_sound?`},
		{"air: 22 °C", "ambient: 22 °C", `// did you mean air?`},
		{"air: 22 °C", "air_temperature: 22 °C", `// did you mean air? keys of room: air, altitude`},
		{"heat: {load: 300 W}", "heat: {tdp: 300 W}", `// did you mean load?`},
		{"heat: {load: 300 W}", "heat: {load: 300,5 W}", `heat."5 W": is not a key of heat // write a decimal point: load: 300.5 W`},
		{"heat: {load: 300 W}", "heat: {load: 300 W, 5 W}", `heat."5 W": is not a key of heat // keys of heat: load,`},
		{"small, core: brick, fan", "small, radiator: brick, fan", `// did you mean core?`},
		{"fluid: water", "fluid: water, ambient: 22 °C", `// air is a key of room. Keys of coolant: fluid,`},
		{"fluid: water", "fluid: water, rated_sound: 60 dBA", `// rated_sound is a key of fans. Keys of coolant: fluid,`},
		{"core: brick, fan: loud,", "core: brick, fan: loud, leakage: 3 %,", `// leakage is a key of installed, in setups. Keys of setups[0]: name,`},
		{"[110 mm, 105 mm]", "[110 x 105 mm]", `// write it like this: face: [110 mm, 105 mm], along`},
		{"[110 mm, 105 mm]", "[110 mm × 105 mm]", `// write it like this: face: [110 mm, 105 mm], along`},
		{"[110 mm, 105 mm]", "[110 mm]", `// write it like this: face: [92 mm, 88 mm], along`},
		{"shroud_material: steel", "shroud_material: PLA", `"PLA" is not a choice // did you mean printed PLA?`},
		{"fluid: water", "fluid: 1", `coolant.fluid: "1" is not a choice // write one of: water,`},
		{"fluid: water", "fluid: yes", `coolant.fluid: "yes" is not a choice // write one of: water,`},
		{"fluid: water", "fluid: true", `coolant.fluid: "true" is not a choice // write one of: water,`},
		{"fluid: water", "fluid: distilled water", `"distilled water" is not a choice // did you mean water?`},
		{"105 mm], fin_depth: 30 mm", "105 mm], fin_depth: 30 mm, metal: alu", `"alu" is not a choice // did you mean aluminium?`},
		{"  - {name: brick", "\t- {name: brick", `// indent with spaces: the line starts with a tab`},
		{"fluid: water", "fluid: glycol", `"glycol" is not a choice // write one of: water, ethylene glycol, propylene glycol`},
		{"drive_voltage: 12 V", "drive_voltage: 6S", `6 lithium cells in series are 22.2 V nominally and 25.2 V charged`},
		{"air: 22 °C", "air: 295 ± 0.5 K", `room.air: "295" has no unit`},
		{"heat: {load: 300 W}", "heat: {load: 300 ± 5 %}", `heat.load: "300" has no unit`},
	} {
		if _, said := read(c.old, c.new); !strings.Contains(said, c.hint) {
			t.Errorf("%s:\n%swant %s", c.new, said, c.hint)
		}
	}
	if _, said := read("shroud_material: steel", "hub_ratio: 0.99"); !strings.Contains(said, "hub_ratio") || strings.Contains(said, "did you mean") {
		t.Errorf("hub_ratio: 0.99:\n%swant a range and no guess", said)
	}
	celsius := quantity.Must("air_temperature").Shown
	for _, c := range []struct {
		old, new, key string
		value, within float64
	}{
		{"air: 22 °C", "air: 22 °C ± 0.5 °C", "air_temperature", celsius.SI(22), 0.5},
		{"air: 22 °C", "air: 22±0.5 °C normal", "air_temperature", celsius.SI(22), 0.5},
		{"fin_depth: 30 mm", "fin_depth: 30±1 mm", "fin_depth", 0.030, 0.001},
		{"load: 300 W", "load: 300 +/- 6 watts triangular", "heat_load", 300, 6},
	} {
		s, said := read(c.old, c.new)
		if s == nil {
			t.Errorf("%s is refused:\n%s", c.new, said)
			continue
		}
		found := false
		for _, one := range s.Doubt.Tolerances {
			rig := s.Setups[0].Rig
			found = found || one.Input.Key == c.key && near(one.Within, c.within) && near(one.Input.Get(&rig), c.value)
		}
		if !found {
			t.Errorf("%s: %+v", c.new, s.Doubt.Tolerances)
		}
	}
}

// What opens and is not closed is looked for from the end, so many bytes far: of a long file
// the parser's own line is told.
func TestWhereAFileIsNoYAML(t *testing.T) {
	for _, c := range []struct{ lines, want int }{{100, 1}, {20000, 20000}} {
		data := []byte("a: [\n" + strings.Repeat("b,\n", c.lines-1))
		if got := unreadable(data, c.lines); got != c.want {
			t.Errorf("%d lines: unreadable from line %d, want %d", c.lines, got, c.want)
		}
	}
}
