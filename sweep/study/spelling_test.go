package study

import (
	"strings"
	"testing"

	"finduel/model"
	"finduel/model/quantity"
)

// The trade's spellings are units of their kind, of no other, and no unit's own symbol.
func TestSpellingsOfTheTrade(t *testing.T) {
	n := 0
	for kind, list := range spellings {
		for symbol, preferred := range list {
			n++
			unit, ok := quantity.Find(kind, preferred)
			if got, found := unitOf(kind, symbol); !ok || !found || got != unit {
				t.Errorf("%q is %+v, want %q", symbol, got, preferred)
			}
			if _, taken := quantity.Find(kind, symbol); taken {
				t.Errorf("%q is a unit of %v by itself", symbol, kind)
			}
			if kinds := kindsOf(symbol); len(kinds) != 1 || kinds[0] != kind {
				t.Errorf("%q measures %v", symbol, kinds)
			}
		}
	}
	if n < 25 {
		t.Errorf("only %d spellings", n)
	}
	for _, c := range []struct {
		key, text string
		want      float64
	}{
		{"free_air_flow", "100 CFM", 100 * 0.3048 * 0.3048 * 0.3048 / 60},
		{"shut_off_pressure", "2 mmAq", 2 * 9.80665},
		{"speed_constant", "2400 Kv", 2400 * 3.141592653589793 / 30},
		{"fan_speed", "12 krpm", 200},
		{"winding_resistance", "62 mΩ", 0.062},
		{"fragment_mass", "800 mg", 0.0008},
		{"plate_resistance", "0.05 °C/W", 0.05},
		{"plate_resistance", "0.05 C/W", 0.05},
		{"rotor_diameter", "5 inch", 0.127},
		{"wire_length", "20 inches", 0.508},
		{"winding_resistance", "62 milliohm", 0.062},
		{"fuse_rating", "20 Amp", 20},
		{"fuse_rating", "20 amps", 20},
		{"heat_load", "300 watts", 300},
		{"free_air_flow", "3 m3/min", 0.05},
		{"pump_head", "0.4 bar", 40000},
		{"pump_head", "40 mm H2O", 392.266},
		{"fin_density", "20 fins per inch", 20 / 0.0254},
		{"fin_depth", "1.25\"", 0.03175},
		{"air_temperature", "23 Celsius", 296.15},
		{"air_temperature", "23ºC", 296.15},
		{"air_temperature", "23 ℃", 296.15},
		{"air_temperature", "−10 °C", 263.15},
		{"air_temperature", "50 deg F", 283.15},
	} {
		f := newFindings("")
		in, _ := model.InputOf(c.key)
		if m, ok := f.number(&leaf{kind: words, text: c.text}, in); !ok || !near(m.si, c.want) {
			t.Errorf("%s: %g, want %g; %v", c.text, m.si, c.want, f.list)
		}
	}
}

// A guess at a unit changes how it is spelled and never its size.
func TestGuessesAtUnits(t *testing.T) {
	for _, c := range []struct {
		key, text, has, not string
	}{
		{"drive_voltage", "4S", "4 lithium cells in series are 14.8 V nominally and 16.8 V charged", "did you mean"},
		{"drive_voltage", "3s", "3 lithium cells in series are 11.1 V nominally and 12.6 V charged", "did you mean"},
		{"drive_voltage", "400s", "of cells in series the sum: four of 3.7 V are 14.8 V", "did you mean"},
		{"drive_voltage", "4 Q", "one of: V", "did you mean"},
		{"fan_speed", "3 mrpm", "one of: rpm, rev/s", "did you mean"},
		{"fan_speed", "3 Rpm", "did you mean 3 rpm?", "krpm?"},
		{"fan_speed", "3 rpms", "did you mean 3 rpm?", ""},
		{"fragment_mass", "3 ug", "one of: g, kg", "did you mean"},
		{"shut_off_pressure", "3 MPa", "one of: Pa", "did you mean"},
		{"shut_off_pressure", "3 mPa", "one of: Pa", "did you mean"},
		{"rated_power", "3 w", "did you mean 3 W?", ""},
		{"rated_power", "3 MW", "one of: W, mW, kW", "did you mean"},
		{"rated_power", "3 KW", "did you mean 3 kW?", ""},
		{"air_temperature", "22 F", "did you mean 22 °F?", ""},
		{"winding_resistance", "0.062", "one of: mohm, ohm", "as in"},
		{"winding_resistance", "62", "as in 62 mohm", ""},
		{"rated_power", "20 CFM", "one of: W", "did you mean"},
		{"coolant_flow", "60 gph", "cfm, gpm", "did you mean"},
		{"coolant_flow", "4 L/m", "L/min", "did you mean"},
		{"fin_density", "20 fip", "did you mean 20 fpi?", ""},
		{"fin_depth", "about 34 mm", "as in 34 mm; how far it may be out stands behind it, with ±", ""},
		{"fin_depth", "~34 mm", "as in 34 mm; how far it may be out", ""},
		{"fin_depth", "about 34", "one of: mm", "as in"},
		{"fin_density", "18-22 fpi", "several to compare are an axis of sweep, and how far one may be out stands behind it, with ±, as in 18 fpi ± 5 %", ""},
		{"fin_density", "18 – 22 fpi", "several to compare are an axis", ""},
		{"fin_density", "18 to 22 fpi", "several to compare are an axis", ""},
		{"fin_depth", "1 3/8 in", "write a decimal number: 1.375 in", ""},
		{"fin_depth", "3/8 in", "write a decimal number: 0.375 in", ""},
		{"fin_depth", "3/0 in", "one of: mm", "decimal"},
		{"fan_speed", "9.000 rpm", "write nothing between thousands: 9000 rpm; or, if it is meant, 9 rpm", ""},
		{"fan_speed", "12.550 rpm", "12550 rpm; or, if it is meant, 12.55 rpm", ""},
	} {
		f := newFindings("")
		in, _ := model.InputOf(c.key)
		if _, ok := f.number(&leaf{kind: words, text: c.text}, in); ok || len(f.list) != 1 {
			t.Errorf("%s passes: %v", c.text, f.list)
			continue
		}
		if hint := f.list[0].Hint; !strings.Contains(hint, c.has) || c.not != "" && strings.Contains(hint, c.not) {
			t.Errorf("%s: hint %q, want %q and not %q", c.text, hint, c.has, c.not)
		}
	}
}
