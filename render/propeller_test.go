package render_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"finduel/model"
	"finduel/model/fan"
	"finduel/render"
	"finduel/sweep"
	"finduel/sweep/study"
)

// rotorStudy is a propeller against a slab, invented, with what coefficients it has and
// what is swept of it besides its speed.
func rotorStudy(t *testing.T, coefficients, axes string) *study.Study {
	t.Helper()
	text := `study: rotor
heat: {load: 300 W}
cores: [{name: brick, face: [126 mm, 118 mm], fin_depth: 38 mm}, {name: slab, face: [390 mm, 140 mm], fin_depth: 22 mm}]
fans:
  - {name: blades, rated_speed: 7440 rpm, rotor_diameter: 5 in, pitch: 3.75 in, blades: 2` + coefficients + `}
  - {name: calm, rated_speed: 1250 rpm, free_air_flow: 120 m3/h, shut_off_pressure: 16 Pa, rated_power: 2 W, rated_sound: 20 dBA}
setups: [{name: small, core: brick, fan: blades}, {name: large, core: slab, fan: calm, fans: 3}]
sweep: {challenger: small, reference: large, axes: [{input: fan_speed, list: [4000 rpm, 7000 rpm]}` + axes + `]}
`
	path := filepath.Join(t.TempDir(), "rotor.yaml")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := study.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The coefficients are those of run 1121md at 7 440 rpm as the UIUC Propeller Data Site
// has them.
func TestLentCoefficientsAreNamed(t *testing.T) {
	rig := rotorStudy(t, "", "").Setups[0].Rig
	want := "static thrust coefficient 0.129 and power coefficient 0.0926, lent by the nearest measured propeller: 127 × 95.2 mm, 2 blades (run 1121md), measured at what are 1 410 to 7 440 rpm here, at equal Reynolds number"
	if got := strings.ReplaceAll(render.Lent(&rig), "\u00a0", " "); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := render.LentTo(&rig, "power_coefficient"); got != "0.0926, lent by 127 × 95.2 mm, 2 blades" {
		t.Errorf("power coefficient: %q", got)
	}
	own := rotorStudy(t, ", thrust_coefficient: 0.155, power_coefficient: 0.102", "").Setups[0].Rig
	for what, rig := range map[string]*model.Rig{"own coefficients": &own, "no propeller": {Fans: fan.Bank{Fan: fan.Typical()}}} {
		if got := render.Lent(rig) + render.LentTo(rig, "thrust_coefficient"); got != "" {
			t.Errorf("%s: %q is lent", what, got)
		}
	}
	if got := render.LentTo(&rig, "pitch"); got != "" {
		t.Errorf("pitch: %q is lent", got)
	}
}

func TestStepsOfLentCoefficients(t *testing.T) {
	const own, blades = ", thrust_coefficient: 0.155, power_coefficient: 0.102", ", {input: blades, list: [2, 3, 4]}"
	got := render.Steps(sweep.Lay(rotorStudy(t, "", blades)))
	if want := "the sweep of number of blades has no coefficients of the propeller's own: the nearest measured propeller lends them, here 127 × 95.2 mm, 2 blades (1 design); 127 × 95.2 mm, 3 blades (2 designs). "; !strings.HasPrefix(got, want) {
		t.Errorf("%q does not begin with %q", got, want)
	}
	for what, p := range map[string]*sweep.Plan{
		"own coefficients": sweep.Lay(rotorStudy(t, own, blades)),
		"another axis":     sweep.Lay(rotorStudy(t, "", ", {input: fin_depth, list: [20 mm, 30 mm]}")),
	} {
		if got := render.Steps(p); got != "" {
			t.Errorf("%s: %q", what, got)
		}
	}
}
