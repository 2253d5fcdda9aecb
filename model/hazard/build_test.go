package hazard_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"finduel/model/hazard"
	"finduel/model/quantity"
)

func TestBuildCheck(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	known := hazard.Build{
		Blade: hazard.Wood, HubRatio: 0.25, FragmentMass: 0.002, Improvised: true, Shroud: hazard.Steel, WireGauge: 12, WireLength: 0.8,
		ConnectorRating: 60, SupplyRating: 40, FuseRating: 20, GuardShape: hazard.Square, GuardOpening: 0.01, GuardDistance: 0.03,
	}
	for name, b := range map[string]hazard.Build{"nothing known": {}, "all known": known} {
		if err := b.Check(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, c := range []struct {
		key           string
		at            func(b *hazard.Build) *float64
		good, refused []float64
	}{
		{"hub_ratio", func(b *hazard.Build) *float64 { return &b.HubRatio }, []float64{0, 0.9}, []float64{-0.1, 0.91, 1, nan}},
		{"fragment_mass", func(b *hazard.Build) *float64 { return &b.FragmentMass }, []float64{0, 1}, []float64{-1, 1.1, nan, inf}},
		{"wire_gauge", func(b *hazard.Build) *float64 { return &b.WireGauge }, []float64{6, 13, 28}, []float64{-1, 5, 29, 14.5, nan, inf}},
		{"wire_area", func(b *hazard.Build) *float64 { b.WireGauge = 0; return &b.WireArea }, []float64{0, 8.1e-8, 1e-4}, []float64{-1, 8e-8, 2e-4, nan, inf}},
		{"wire_length", func(b *hazard.Build) *float64 { return &b.WireLength }, []float64{0, 100}, []float64{-1, 101, nan, inf}},
		{"connector_rating", func(b *hazard.Build) *float64 { return &b.ConnectorRating }, []float64{0, 1000}, []float64{-1, 1001, nan, inf}},
		{"supply_rating", func(b *hazard.Build) *float64 { return &b.SupplyRating }, []float64{0, 1000}, []float64{-1, 1001, nan, inf}},
		{"fuse_rating", func(b *hazard.Build) *float64 { return &b.FuseRating }, []float64{0, 1000}, []float64{-1, 1001, nan, inf}},
		{"guard_opening", func(b *hazard.Build) *float64 { return &b.GuardOpening }, []float64{0, 0.12}, []float64{-1, 0.121, nan, inf}},
		{"guard_distance", func(b *hazard.Build) *float64 { return &b.GuardDistance }, []float64{0, 10}, []float64{-1, 11, nan, inf}},
	} {
		if _, ok := quantity.Of(c.key); !ok {
			t.Errorf("no quantity %s", c.key)
		}
		for _, v := range c.good {
			b := known
			*c.at(&b) = v
			if err := b.Check(); err != nil {
				t.Errorf("%s = %g: %v", c.key, v, err)
			}
		}
		for _, v := range c.refused {
			b := known
			*c.at(&b) = v
			var out *quantity.RangeError
			if err := b.Check(); !errors.As(err, &out) || out.Key != c.key || !(out.Value == v || v != v) {
				t.Errorf("%s = %g: %v", c.key, v, err)
			}
		}
	}
	twice := hazard.Build{WireGauge: 14, WireArea: 2e-6}
	if err := twice.Check(); err == nil || !strings.Contains(err.Error(), "wire_gauge") {
		t.Errorf("a wire of two sizes: %v", err)
	}
	two := hazard.Build{HubRatio: 2, FuseRating: -1}
	if err := two.Check(); err == nil || !strings.Contains(err.Error(), "hub_ratio") || !strings.Contains(err.Error(), "fuse_rating") {
		t.Errorf("two faults: %v", err)
	}
}

func TestAreaOfTheWire(t *testing.T) {
	for _, c := range []struct {
		build hazard.Build
		want  float64
	}{
		{hazard.Build{}, 0},
		{hazard.Build{WireGauge: 14}, hazard.WireArea(14)},
		{hazard.Build{WireArea: 1.5e-6}, 1.5e-6},
	} {
		if got := c.build.Area(); got != c.want {
			t.Errorf("%+v: %g, want %g", c.build, got, c.want)
		}
	}
}

func TestMaterials(t *testing.T) {
	list := hazard.Materials()
	if len(list) != 11 || list[0] != hazard.Polycarbonate || list[10] != hazard.PrintedABS {
		t.Fatalf("%v", list)
	}
	words := map[string]bool{hazard.MaterialNotKnown.String(): true}
	for _, m := range list {
		p := m.Properties()
		if words[m.String()] || m.String() == "" {
			t.Errorf("two materials are called %q", m)
		}
		words[m.String()] = true
		if !(p.Density > 500 && p.Density < 9000 && p.Strength > 1e6 && p.Strength < 1e9) || p.Source == "" {
			t.Errorf("%v: %+v", m, p)
		}
		if p.Softening != 0 && !(p.Softening > 320 && p.Softening < 500) {
			t.Errorf("%v softens at %g K", m, p.Softening)
		}
		if p.Printed != strings.HasPrefix(m.String(), "printed ") {
			t.Errorf("%v: printed is %v", m, p.Printed)
		}
	}
	for _, m := range []hazard.Material{-1, hazard.MaterialNotKnown, 12, 1000} {
		if m.String() != "not known" || m.Properties() != (hazard.Properties{}) {
			t.Errorf("material %d is %q", int(m), m)
		}
	}
}
