package render

import (
	"math"
	"slices"
	"testing"

	"finduel/model/quantity"
)

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		key  string
		si   float64
		want string
	}{
		{"fan_speed", 20000. / 60, "20 000"},
		{"fan_speed", 800. / 60, "800"},
		{"fan_speed", 999.6 / 60, "1 000"},
		{"coolant_over_air", 9.1449, "9.14"},
		{"difference", -0.004, "-0.00400"},
		{"difference", 0, "0.00"},
		{"difference", -1.234, "-1.23"},
		{"difference", 12345.678, "12 345.68"},
		{"sound", 64.349, "64.3"},
		{"sound", -0.04, "0.0"},
		{"air_temperature", 296.15, "23.0"},
		{"fan_power", 0.28164, "0.282"},
		{"fan_power", 65.536, "65.5"},
		{"fan_power", 167.39, "167"},
		{"fan_power", 1234.5, "1 234"},
		{"fan_power", 0, "0.00"},
		{"fan_power", 0.00001234, "1.23e-05"},
		{"fan_power", 2.5e12, "2.5e+12"},
		{"airflow", 0.03, "108"},
		{"fans", 2, "2"},
		{"exposure_limit", 28800, "8 h"},
		{"exposure_limit", 22861, "6 h 21 min"},
		{"exposure_limit", 900, "15 min"},
		{"exposure_limit", 3569, "59 min"},
		{"exposure_limit", 3571, "1 h"},
		{"exposure_limit", 45, "45 s"},
		{"exposure_limit", 0.3, "under 1 s"},
		{"exposure_limit", 86400, "24 h"},
		{"exposure_limit", 86401, "over 24 h"},
		{"coolant_over_air", math.NaN(), ""},
		{"exposure_limit", math.Inf(1), ""},
	} {
		if got := Number(quantity.Must(c.key), c.si); got != c.want {
			t.Errorf("Number(%s, %g) = %q, want %q", c.key, c.si, got, c.want)
		}
	}
}

func TestGiven(t *testing.T) {
	for _, c := range []struct {
		key  string
		si   float64
		want string
	}{
		{"fin_density", quantity.Must("fin_density").Shown.SI(12.75), "12.75"},
		{"fin_depth", 0.034, "34"},
		{"humidity", 0.45, "45"},
		{"heat_load", 20000, "20 000"},
		{"altitude", -500, "-500"},
		{"altitude", -1500, "-1 500"},
		{"plate_resistance", 0.045, "0.045"},
		{"heat_load", 1. / 3, "0.3333"},
		{"coolant_flow", 4.59479 / 60000, "4.595"},
		{"fin_depth", 0.0185294, "18.53"},
		{"heat_load", 12345.678, "12 346"},
		{"heat_load", 999.96, "1 000"},
		{"heat_load", 0.00001, "1e-05"},
		{"heat_load", math.Inf(-1), ""},
	} {
		if got := Given(quantity.Must(c.key), c.si); got != c.want {
			t.Errorf("Given(%s, %g) = %q, want %q", c.key, c.si, got, c.want)
		}
	}
}

func TestRecorded(t *testing.T) {
	for _, c := range []struct {
		key  string
		si   float64
		want float64
		ok   bool
	}{
		{"exposure_limit", 28800, 480, true},
		{"exposure_limit", 86400, 1440, true},
		{"exposure_limit", 86401, 0, false},
		{"exposure_limit", math.Inf(1), 0, false},
		{"heat_load", 86401, 86401, true},
		{"heat_load", math.NaN(), 0, false},
	} {
		if got, ok := Recorded(quantity.Must(c.key), c.si); got != c.want || ok != c.ok {
			t.Errorf("Recorded(%s, %g) = %g, %t, want %g, %t", c.key, c.si, got, ok, c.want, c.ok)
		}
	}
}

func TestCounted(t *testing.T) {
	for _, c := range []struct {
		n    int
		want string
	}{{0, "0 points"}, {1, "1 point"}, {1620, "1 620 points"}} {
		if got := Counted(c.n, "point"); got != c.want {
			t.Errorf("Counted(%d) = %q, want %q", c.n, got, c.want)
		}
	}
}

func TestWithUnit(t *testing.T) {
	for _, c := range []struct{ key, number, want string }{
		{"fan_speed", "800", "800 rpm"},
		{"effectiveness", "0.612", "0.612"},
		{"exposure_limit", "8 h", "8 h"},
		{"fan_speed", "", ""},
	} {
		if got := WithUnit(quantity.Must(c.key), c.number); got != c.want {
			t.Errorf("WithUnit(%s, %q) = %q, want %q", c.key, c.number, got, c.want)
		}
	}
}

func TestClean(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"slab 2 – µ", "slab 2 – µ"},
		{"a\nb\tc\r", "a b c "},
		{"red \x1b[31m", "red \ufffd[31m"},
		{"bell\x07", "bell\ufffd"},
		{"c1 \u009b", "c1 \ufffd"},
		{"turn \u202egnp", "turn \ufffdgnp"},
		{"bad \xff", "bad \ufffd"},
		{"line\u2028end", "line end"},
		{"", ""},
	} {
		if got := Clean(c.in); got != c.want {
			t.Errorf("Clean(%q) = %q, want %q", c.in, got, c.want)
		}
	}
}

func TestSentence(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"the coolant would boil", "the coolant would boil."},
		{"done.", "done."},
		{"heat_load: must be above zero\nfans: must be whole", "heat_load: must be above zero; fans: must be whole."},
		{"  ", ""},
	} {
		if got := Sentence(c.in); got != c.want {
			t.Errorf("Sentence(%q) = %q, want %q", c.in, got, c.want)
		}
	}
}

func TestPieces(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{"", nil},
		{"  two   words ", []string{"two", "words"}},
		{"at 12 000 rpm, then", []string{"at", "12 000 rpm,", "then"}},
		{"2 × calm", []string{"2 × calm"}},
		{"fins 20 of them", []string{"fins", "20", "of", "them"}},
	} {
		if got := Pieces(c.text); !slices.Equal(got, c.want) {
			t.Errorf("%q splits into %q, want %q", c.text, got, c.want)
		}
	}
}
