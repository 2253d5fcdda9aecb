package quantity_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"finduel/model/quantity"
)

// kinds returns every kind: from the first on, as long as they have names.
func kinds(t *testing.T) []quantity.Kind {
	t.Helper()
	var list []quantity.Kind
	for k := quantity.Ratio; k.String() != "an unknown kind"; k++ {
		list = append(list, k)
	}
	if last := len(list) - 1; last < 0 || list[last] != quantity.SpeedSlope {
		t.Fatalf("%d kinds with a name, want all up to %d", len(list), int(quantity.SpeedSlope))
	}
	return list
}

// eachUnit visits every unit of every kind, and fails if they are too few.
func eachUnit(t *testing.T, visit func(u quantity.Unit)) {
	t.Helper()
	n := 0
	for _, k := range kinds(t) {
		for _, u := range quantity.Units(k) {
			visit(u)
			n++
		}
	}
	if n < 50 {
		t.Fatalf("only %d units", n)
	}
}

func find(t *testing.T, k quantity.Kind, symbol string) quantity.Unit {
	t.Helper()
	u, ok := quantity.Find(k, symbol)
	if !ok {
		t.Fatalf("%q is no unit of %v", symbol, k)
	}
	return u
}

func TestEveryKindHasANameAndAUnit(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range kinds(t) {
		name := k.String()
		if !strings.HasPrefix(name, "a ") && !strings.HasPrefix(name, "an ") || strings.ToLower(name) != name {
			t.Errorf("kind %d is called %q", int(k), name)
		}
		if seen[name] {
			t.Errorf("two kinds are called %q", name)
		}
		seen[name] = true
		if len(quantity.Units(k)) == 0 {
			t.Errorf("%s has no unit", name)
		}
	}
	if len(seen) != 32 {
		t.Errorf("%d kinds, 32 are declared", len(seen))
	}
	for _, k := range []quantity.Kind{-1, quantity.SpeedSlope + 1, 1000} {
		if k.String() != "an unknown kind" || quantity.Units(k) != nil {
			t.Errorf("kind %d is %v, with units %v", int(k), k, quantity.Units(k))
		}
	}
}

func TestUnitsAreWellFormed(t *testing.T) {
	name := regexp.MustCompile(`^[A-Za-z0-9_]*$`)
	named := map[string]quantity.Unit{}
	spelled := map[string]bool{}
	eachUnit(t, func(u quantity.Unit) {
		if !name.MatchString(u.Name) || (u.Name == "") != (u.Symbol == "") {
			t.Errorf("%q of %v is called %q in columns", u.Symbol, u.Kind, u.Name)
		}
		if u.Symbol != strings.Join(strings.Fields(u.Symbol), " ") {
			t.Errorf("%q of %v has odd spaces", u.Symbol, u.Kind)
		}
		if !(u.Times > 0 && u.Over > 0 && u.Times <= math.MaxFloat64 && u.Over <= math.MaxFloat64) || u.Offset-u.Offset != 0 {
			t.Errorf("%q of %v is %g/%g + %g", u.Symbol, u.Kind, u.Times, u.Over, u.Offset)
		}
		if u.Kind != quantity.Angle && u.Kind != quantity.SpeedConstant && (u.Times != math.Trunc(u.Times) || u.Over != math.Trunc(u.Over)) {
			t.Errorf("%q of %v: %g/%g is not of whole numbers", u.Symbol, u.Kind, u.Times, u.Over)
		}
		if place := fmt.Sprint(u.Kind, u.Symbol); spelled[place] {
			t.Errorf("two units of %v are written %q", u.Kind, u.Symbol)
		} else {
			spelled[place] = true
		}
		if got, ok := quantity.Find(u.Kind, u.Symbol); !ok || got != u {
			t.Errorf("%q of %v is found as %+v", u.Symbol, u.Kind, got)
		}
		if !slices.Contains(quantity.KindsOf(u.Symbol), u.Kind) {
			t.Errorf("%q is not known as a unit of %v", u.Symbol, u.Kind)
		}
		// Two spellings of one unit must be one unit.
		place := fmt.Sprint(u.Kind, u.Name)
		if first, ok := named[place]; ok && (first.Times != u.Times || first.Over != u.Over || first.Offset != u.Offset) {
			t.Errorf("%q and %q of %v have one name, but two factors", first.Symbol, u.Symbol, u.Kind)
		} else if !ok {
			named[place] = u
		}
	})
}

func TestFindTellsCapitalsApart(t *testing.T) {
	swap := func(r rune) rune {
		if unicode.IsUpper(r) {
			return unicode.ToLower(r)
		}
		return unicode.ToUpper(r)
	}
	swapped := 0
	eachUnit(t, func(u quantity.Unit) {
		other := strings.Map(swap, u.Symbol)
		if other == u.Symbol {
			return
		}
		swapped++
		if _, ok := quantity.Find(u.Kind, other); ok {
			t.Errorf("%q passes for %q, %v", other, u.Symbol, u.Kind)
		}
	})
	if swapped < 40 {
		t.Errorf("only %d units with letters", swapped)
	}
	for _, c := range []struct {
		kind   quantity.Kind
		symbol string
	}{
		{quantity.Power, "MW"}, {quantity.Power, "Mw"}, {quantity.Power, " W"}, {quantity.Power, "W "},
		{quantity.Power, ""}, {quantity.Length, "fpi"}, {quantity.TemperatureDifference, "°C"},
		{quantity.Count, "%"}, {quantity.Length, "\""}, {-1, "m"}, {quantity.SpeedSlope + 1, "s"},
	} {
		if u, ok := quantity.Find(c.kind, c.symbol); ok {
			t.Errorf("%q passes for %v: %+v", c.symbol, c.kind, u)
		}
	}
}

func TestKindsOfASymbol(t *testing.T) {
	for _, c := range []struct {
		symbol string
		want   []quantity.Kind
	}{
		{"K", []quantity.Kind{quantity.Temperature, quantity.TemperatureDifference}},
		{"", []quantity.Kind{quantity.Ratio, quantity.Count}},
		{"mm", []quantity.Kind{quantity.Length}},
		{"furlong", nil},
	} {
		if got := quantity.KindsOf(c.symbol); !slices.Equal(got, c.want) {
			t.Errorf("%q measures %v, want %v", c.symbol, got, c.want)
		}
	}
}

// What a study writes must arrive as the double nearest to what it means.
func TestExactExamples(t *testing.T) {
	for _, c := range []struct {
		kind   quantity.Kind
		symbol string
		value  float64
		si     float64
	}{
		{quantity.Length, "mm", 26, 0.026},
		{quantity.Length, "in", 1, 0.0254},
		{quantity.Length, "in", 1.5, 0.0381},
		{quantity.Length, "ft", 1, 0.3048},
		{quantity.Temperature, "°C", 23, 296.15},
		{quantity.Temperature, "°C", 0, 273.15},
		{quantity.FinDensity, "fpi", 22, 22 / 0.0254},
		{quantity.FinDensity, "fpi", 16, 16 / 0.0254},
		{quantity.FinDensity, "fins/cm", 8, 800},
		{quantity.Speed, "rpm", 20000, 20000. / 60},
		{quantity.Speed, "rpm", 1500, 25},
		{quantity.VolumeFlow, "L/min", 3, 0.00005},
		{quantity.VolumeFlow, "m³/h", 250, 250. / 3600},
		{quantity.VolumeFlow, "gpm", 1, 231 * 0.0254 * 0.0254 * 0.0254 / 60},
		{quantity.VolumeFlow, "cfm", 1, 0.3048 * 0.3048 * 0.3048 / 60},
		{quantity.Area, "cm²", 81, 0.0081},
		{quantity.Ratio, "%", 45, 0.45},
		{quantity.Angle, "deg", 180, math.Pi},
		{quantity.Duration, "h", 8, 28800},
	} {
		u := find(t, c.kind, c.symbol)
		if got := u.SI(c.value); got != c.si {
			t.Errorf("%g %s is %.17g in SI units, want %.17g", c.value, c.symbol, got, c.si)
		}
		if got := u.Shown(c.si); math.Abs(got-c.value) > 2.3e-16*c.value+1e-13*u.Offset/273.15 {
			t.Errorf("%.17g in SI units is shown as %.17g %s, want %g", c.si, got, c.symbol, c.value)
		}
	}
}

// The reason for two whole numbers instead of a factor: every whole number of
// millimetres is the double that its decimal in metres is.
func TestWholeNumbersOfDecimalUnitsAreExact(t *testing.T) {
	for _, c := range []struct {
		kind   quantity.Kind
		symbol string
		power  string
	}{
		{quantity.Length, "mm", "e-3"}, {quantity.Length, "cm", "e-2"}, {quantity.Area, "cm²", "e-4"},
		{quantity.Area, "mm2", "e-6"}, {quantity.Ratio, "%", "e-2"}, {quantity.Current, "mA", "e-3"},
		{quantity.Pressure, "hPa", "e2"}, {quantity.MassFlow, "g/s", "e-3"}, {quantity.VolumeFlow, "L/s", "e-3"},
	} {
		u := find(t, c.kind, c.symbol)
		for i := range 5000 {
			want, err := strconv.ParseFloat(strconv.Itoa(i)+c.power, 64)
			if err != nil {
				t.Fatal(err)
			}
			if got := u.SI(float64(i)); got != want {
				t.Fatalf("%d %s is %.17g, want %.17g", i, c.symbol, got, want)
			}
		}
	}
}

func TestUnitsTurnRound(t *testing.T) {
	eachUnit(t, func(u quantity.Unit) {
		for _, v := range []float64{0, 1, -1, 0.1, 7, 22, 296.15, 12345.678, 1e-9, 1e9} {
			// The offset costs what the spacing of doubles is at its size.
			lost := 2.3e-16 * u.Offset
			if got := u.Shown(u.SI(v)); !(math.Abs(got-v) <= 5e-16*math.Abs(v)+lost*u.Over/u.Times) {
				t.Errorf("%g %s of %v comes back as %.17g", v, u.Symbol, u.Kind, got)
			}
			if got := u.SI(u.Shown(v)); !(math.Abs(got-v) <= 5e-16*math.Abs(v)+lost) {
				t.Errorf("%g in SI units of %v comes back by way of %q as %.17g", v, u.Kind, u.Symbol, got)
			}
		}
		if !(u.SI(2)-u.SI(1) > 0) {
			t.Errorf("%q of %v does not rise", u.Symbol, u.Kind)
		}
	})
}

// A caller may do with the list what it likes.
func TestUnitsReturnsItsOwnList(t *testing.T) {
	list := quantity.Units(quantity.Length)
	list[0].Times = 42
	if quantity.Units(quantity.Length)[0].Times == 42 {
		t.Error("a change of the list changes the units")
	}
}

// What people wrote comes back as they wrote it.
func TestWrittenNumbersComeBackShort(t *testing.T) {
	for _, c := range []struct {
		kind   quantity.Kind
		symbol string
	}{
		{quantity.Speed, "rpm"}, {quantity.FinDensity, "fpi"}, {quantity.Angle, "deg"}, {quantity.VolumeFlow, "m³/h"},
		{quantity.VolumeFlow, "cfm"}, {quantity.Temperature, "°C"}, {quantity.Length, "mm"}, {quantity.Area, "cm²"},
	} {
		u, ok := quantity.Find(c.kind, c.symbol)
		if !ok {
			t.Fatalf("no unit %s", c.symbol)
		}
		for v := 0.1; v < 1e5; v *= 1.7 {
			written := math.Round(v*1000) / 1000
			if got := u.Shown(u.SI(written)); got != written {
				t.Errorf("%v %s comes back as %v", written, c.symbol, got)
			}
		}
	}
}
