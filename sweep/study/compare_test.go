package study

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// pair reads pair.yaml with a line more in its sweep.
func pair(t *testing.T, line string) *Study {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(goodFolder, "pair.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), "  challenger: small\n", "  challenger: small\n"+line, 1)
	s, err := Read("pair.yaml", []byte(text), "yaml")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestMarginHasADefault(t *testing.T) {
	for line, want := range map[string]float64{"": DefaultMargin, "  margin: 0.25 K\n": 0.25, "  margin: 10 K\n": 10} {
		if s := pair(t, line); s.Margin != want {
			t.Errorf("%q makes a margin of %v K, want %v", line, s.Margin, want)
		}
	}
}

// A map is two indices into the axes, across and up; it does not change what is
// computed.
func TestMapsNameTheirAxes(t *testing.T) {
	plain := pair(t, "")
	s := pair(t, "  maps: [[air_temperature, fin_density], [fin_depth, air_temperature]]\n")
	if want := [][2]int{{3, 1}, {2, 3}}; !reflect.DeepEqual(s.Maps, want) {
		t.Errorf("maps %v, want %v", s.Maps, want)
	}
	if plain.Maps != nil || plain.Hash != s.Hash {
		t.Errorf("without maps there are %v; the hashes are %s and %s", plain.Maps, plain.Hash, s.Hash)
	}
}

// Every fan of the file is there, also one that no setup has.
func TestFansAreAllThere(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(goodFolder, "pair.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	const spare = "  - {name: spare, rated_speed: 3000 rpm, free_air_flow: 90 m3/h, shut_off_pressure: 60 Pa, rated_power: 3 W, rated_sound: 40 dBA}\nsetups:\n"
	s, err := Read("pair.yaml", []byte(strings.Replace(string(data), "setups:\n", spare, 1)), "yaml")
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range s.Fans {
		names = append(names, f.Name)
		if err := f.Fan.Check(); err != nil {
			t.Errorf("%s: %v", f.Name, err)
		}
	}
	if want := []string{"dense 92", "calm 140", "spare"}; !reflect.DeepEqual(names, want) {
		t.Errorf("fans %q, want %q", names, want)
	}
	if s.Fans[2].Fan.TopSpeed != 50 || s.Fans[0].Fan != s.Setups[0].Rig.Fans.Fan {
		t.Errorf("fans %+v", s.Fans)
	}
}
