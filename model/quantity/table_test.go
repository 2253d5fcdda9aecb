package quantity_test

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"finduel/model/quantity"
)

func TestTableIsWellFormed(t *testing.T) {
	if len(quantity.Table) < 70 {
		t.Fatalf("only %d quantities", len(quantity.Table))
	}
	key := regexp.MustCompile(`^[a-z][a-z0-9_]*$`)
	column := regexp.MustCompile(`^[A-Za-z][A-Za-z0-9_]*$`)
	keys, columns, titles, symbols := map[string]bool{}, map[string]bool{}, map[string]bool{}, map[string]bool{}
	once := func(seen map[string]bool, what, word string) {
		if seen[word] {
			t.Errorf("the %s %q is there twice", what, word)
		}
		seen[word] = true
	}
	for _, q := range quantity.Table {
		once(keys, "key", q.Key)
		once(columns, "column", q.Column())
		once(titles, "title", q.Title())
		once(symbols, "symbol", q.Symbol)
		if !key.MatchString(q.Key) {
			t.Errorf("key %q", q.Key)
		}
		if !column.MatchString(q.Column()) || !strings.HasPrefix(q.Column(), q.Key) {
			t.Errorf("%s has the column %q", q.Key, q.Column())
		}
		if q.Symbol == "" || strings.ContainsAny(q.Symbol, " \n") {
			t.Errorf("%s has the symbol %q", q.Key, q.Symbol)
		}
		if q.Label == "" || strings.TrimSpace(q.Label) != q.Label || strings.HasSuffix(q.Label, ".") || strings.HasPrefix(q.Label, strings.ToUpper(q.Label[:1])) && q.Label[:2] != "Re" {
			t.Errorf("%s has the label %q", q.Key, q.Label)
		}
		if q.Shown.Kind != q.Kind {
			t.Errorf("%s is %v, but shown in %q, a unit of %v", q.Key, q.Kind, q.Shown.Symbol, q.Shown.Kind)
		}
		if u, ok := quantity.Find(q.Kind, q.Shown.Symbol); !ok || u != q.Shown {
			t.Errorf("%s is shown in %q, which %v may not be written in", q.Key, q.Shown.Symbol, q.Kind)
		}
		if got, ok := quantity.Of(q.Key); !ok || got != q {
			t.Errorf("%s is found as %+v", q.Key, got)
		}
		if got := quantity.Must(q.Key); got != q {
			t.Errorf("%s must be %+v", q.Key, got)
		}
	}
}

// The budget counts differences: shown as temperatures they would be off by the
// zero of the Celsius scale.
func TestDifferencesAreNoTemperatures(t *testing.T) {
	looked := 0
	for _, q := range quantity.Table {
		over := strings.HasSuffix(q.Key, "_over_air") || strings.HasPrefix(q.Key, "budget_") || q.Key == "difference" || q.Key == "margin"
		if over {
			looked++
		}
		if over != (q.Kind == quantity.TemperatureDifference) {
			t.Errorf("%s is %v", q.Key, q.Kind)
		}
		if at := strings.HasSuffix(q.Key, "_temperature"); at != (q.Kind == quantity.Temperature) {
			t.Errorf("%s is %v", q.Key, q.Kind)
		}
		if q.Kind == quantity.TemperatureDifference && q.Shown.Shown(3.5) != 3.5 {
			t.Errorf("%s: 3.5 K is shown as %g %s", q.Key, q.Shown.Shown(3.5), q.Shown.Symbol)
		}
		if q.Kind == quantity.Temperature && math.Abs(q.Shown.Shown(296.15)-23) > 1e-12 {
			t.Errorf("%s: 296.15 K is shown as %g %s", q.Key, q.Shown.Shown(296.15), q.Shown.Symbol)
		}
	}
	if looked < 10 {
		t.Errorf("only %d differences", looked)
	}
}

// Headers and titles are what other programs and readers go by.
func TestColumnsAndTitles(t *testing.T) {
	for _, c := range []struct{ key, column, title string }{
		{"fan_speed", "fan_speed_rpm", "fan speed, rpm"},
		{"coolant_over_air", "coolant_over_air_K", "coolant over air, K"},
		{"air_temperature", "air_temperature_C", "room air temperature, °C"},
		{"humidity", "humidity_percent", "relative humidity, %"},
		{"face_area", "face_area_cm2", "face area, cm²"},
		{"airflow", "airflow_m3_per_h", "airflow through the core, at room density, m³/h"},
		{"air_film", "air_film_W_per_m2_K", "air film coefficient, W/(m2 K)"},
		{"plate_resistance", "plate_resistance_K_per_W", "plate resistance, K/W"},
		{"sound", "sound_dBA", "sound at the listener, dBA"},
		{"effectiveness", "effectiveness", "effectiveness"},
		{"fans", "fans", "number of fans"},
	} {
		q := quantity.Must(c.key)
		if q.Column() != c.column || q.Title() != c.title {
			t.Errorf("%s has the column %q and the title %q, want %q and %q", c.key, q.Column(), q.Title(), c.column, c.title)
		}
	}
}

func TestUnknownKeys(t *testing.T) {
	for _, key := range []string{"", "Fan_Speed", "fan_speed ", "fan speed", "fan_speed_rpm"} {
		if q, ok := quantity.Of(key); ok || q != (quantity.Quantity{}) {
			t.Errorf("%q is found as %+v", key, q)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("a key that is not there may be asked for in code")
		}
	}()
	quantity.Must("fan_sped")
}
