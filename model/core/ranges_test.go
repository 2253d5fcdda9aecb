package core_test

import (
	"math"
	"testing"

	"finduel/model/core"
)

// inside is an invented core with every dimension inside the data bank of louvered
// fins.
func inside() core.Geometry {
	return core.Geometry{
		FaceLength: 0.3, FaceWidth: 0.3, FinDepth: 0.03, FinDensity: 500, FinHeight: 0.008, FinThickness: 0.0001,
		FinConductivity: 200, LouverPitch: 0.0012, LouverLength: 0.0068, LouverAngle: 27 * math.Pi / 180,
		TubeHeight: 0.002, TubeWall: 0.0003, TubeConductivity: 150, Passes: 1, Surface: core.Louvered,
	}
}

func made(t *testing.T, g core.Geometry) core.Core {
	t.Helper()
	c, err := core.New(g)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// The limits of the data bank, from Jacobi, Engineering Data Book III, chapter 6:
// just inside nothing is said, just outside the dimension is named.
func TestDataBankOfLouvers(t *testing.T) {
	const little = 1e-6
	for _, row := range []struct {
		name      string
		low, high float64 // m, rad
		key       string
		set       func(g *core.Geometry, v float64)
	}{
		{"louver pitch", 0.0005, 0.003, "louver_pitch", func(g *core.Geometry, v float64) { g.LouverPitch = v }},
		{"louver length", 0.00094, 0.0185, "louver_length", func(g *core.Geometry, v float64) {
			g.LouverLength = v
			if v > g.FinHeight {
				g.FinHeight = 0.019
			}
		}},
		{"louver angle", 8.43 * math.Pi / 180, 35 * math.Pi / 180, "louver_angle", func(g *core.Geometry, v float64) { g.LouverAngle = v }},
		{"fin pitch", 0.00051, 0.00333, "fin_density", func(g *core.Geometry, v float64) {
			g.FinDensity = 1 / v
			if v < 0.001 {
				g.FinThickness = 0.00004 // keeps the hydraulic diameter inside
			}
		}},
		{"fin depth", 0.0156, 0.05, "fin_depth", func(g *core.Geometry, v float64) { g.FinDepth = v }},
		{"fin height", 0.006, 0.02, "fin_height", func(g *core.Geometry, v float64) { g.FinHeight, g.LouverLength = v, 0.005 }},
		{"fin thickness", 0.00004, 0.00016, "fin_thickness", func(g *core.Geometry, v float64) { g.FinThickness = v }},
		{"tube pitch", 0.00751, 0.025, "tube_height", func(g *core.Geometry, v float64) {
			g.FinHeight, g.LouverLength = 0.0062, 0.005
			if v > 0.02 {
				g.FinHeight = 0.019
			}
			g.TubeHeight = v - g.FinHeight
		}},
		{"hydraulic diameter", 0.000824, 0.00494, "fin_density", func(g *core.Geometry, v float64) {
			g.FinThickness, g.FinHeight = 0.00016, 0.0062
			g.LouverLength = 0.005
			if v > 0.004 {
				g.FinHeight = 0.0195
			}
			free := g.FinHeight - g.FinThickness
			g.FinDensity = 1 / (v*free/(2*free-v) + g.FinThickness)
		}},
	} {
		for _, c := range []struct {
			v       float64
			outside bool
		}{
			{row.low * (1 + little), false}, {row.low * (1 - little), true},
			{row.high * (1 - little), false}, {row.high * (1 + little), true},
		} {
			g := inside()
			row.set(&g, c.v)
			made := made(t, g)
			want := ""
			if c.outside {
				want = row.key
			}
			if got := made.Outside(500); got != want {
				t.Errorf("%s of %v: outside is %q, want %q", row.name, c.v, got, want)
			}
			if got := made.InRange(500); got != (core.Range{Geometry: c.outside}) {
				t.Errorf("%s of %v: %+v", row.name, c.v, got)
			}
		}
	}
}

func TestReynoldsInRange(t *testing.T) {
	louvers := made(t, inside())
	g := inside()
	g.Surface, g.FinHeight, g.LouverLength = core.Plain, 0.004, 0.003 // outside the bank of louvers
	channels := made(t, g)
	for _, c := range []struct {
		of        *core.Core
		re        float64
		low, high bool
	}{
		{&louvers, 99.999, true, false}, {&louvers, 100, false, false}, {&louvers, 3000, false, false}, {&louvers, 3000.01, false, true},
		{&channels, 0.1, false, false}, {&channels, 2300, false, false}, {&channels, 2300.01, false, true},
	} {
		if got, want := c.of.InRange(c.re), (core.Range{ReynoldsLow: c.low, ReynoldsHigh: c.high}); got != want {
			t.Errorf("Re %v: %+v, want %+v", c.re, got, want)
		}
	}
	if got := channels.InRange(50); got.Geometry {
		t.Errorf("plain fins are outside: %+v", got)
	}
	if got := channels.Outside(50); got != "" {
		t.Errorf("plain fins are outside by %q", got)
	}
}

// The louver spacing F_p/(L_p sin θ) counts only where the film leans on the flow
// efficiency, which was fitted from 1.5 to 5.2: below Re = 100.
func TestLouverSpacingCountsInSlowAir(t *testing.T) {
	for _, c := range []struct {
		spacing, re float64
		want        core.Range
		key         string
	}{
		{1.499, 99, core.Range{ReynoldsLow: true, Geometry: true}, "fin_density"},
		{1.501, 99, core.Range{ReynoldsLow: true}, ""},
		{5.199, 20, core.Range{ReynoldsLow: true}, ""},
		{5.201, 20, core.Range{ReynoldsLow: true, Geometry: true}, "fin_density"},
		{1.499, 100, core.Range{}, ""},
		{5.201, 100, core.Range{}, ""},
	} {
		g := inside()
		if c.spacing < 2 {
			// Wide louvers, so that the fins are not so dense as to count by themselves.
			g.LouverPitch, g.LouverAngle = 0.0028, 34*math.Pi/180
		}
		g.FinDensity = 1 / (c.spacing * g.LouverPitch * math.Sin(g.LouverAngle))
		made := made(t, g)
		if got, key := made.InRange(c.re), made.Outside(c.re); got != c.want || key != c.key {
			t.Errorf("spacing %v at Re %v: %+v, %q, want %+v, %q", c.spacing, c.re, got, key, c.want, c.key)
		}
	}
}

// A dense core whose correlation lies below its own plain passage is outside in
// slow air: its film there rests on neither.
func TestDenseCoresCountInSlowAir(t *testing.T) {
	for fpi, dense := range map[float64]bool{20: false, 32: true} {
		g := core.TypicalGeometry(core.Copper, core.Louvered)
		g.FaceLength, g.FaceWidth, g.FinDepth, g.FinDensity = 0.1, 0.1, 0.03, fpi/0.0254
		c := made(t, g)
		if got := c.InRange(99).Geometry; got != dense {
			t.Errorf("%v fins an inch at Re 99: outside is %v, want %v", fpi, got, dense)
		}
		if c.InRange(101).Geometry {
			t.Errorf("%v fins an inch at Re 101 are outside", fpi)
		}
	}
}

// The limits of the data of offset strips, from Jacobi, Engineering Data Book III,
// chapter 6, told by the dimension to change.
func TestDataBankOfStrips(t *testing.T) {
	const little = 1e-6
	// Free width, free height and thickness in the middle of the data, m.
	build := func(width, height, thickness, length float64) core.Geometry {
		g := sound(core.OffsetStrip)
		g.FinDensity, g.FinHeight, g.FinThickness, g.StripLength = 1/(width+thickness), height+thickness, thickness, length
		return g
	}
	for _, row := range []struct {
		name      string
		low, high float64
		key       string
		make      func(v float64) core.Geometry
	}{
		{"hydraulic diameter, mm", 1.209, 3.414, "fin_density", func(v float64) core.Geometry {
			// D_h goes with the size of the passage.
			g := build(0.001, 0.003, 0.00007, 0.003)
			c := made(t, g)
			k := v / 1000 / (4 * c.Sigma() * c.FaceArea() * g.FinDepth / c.AirArea())
			return build(k*0.001, k*0.003, k*0.00007, k*0.003)
		}},
		{"width over height", 0.134, 0.997, "fin_density", func(v float64) core.Geometry {
			return build(0.0014, 0.0014/v, 0.0001, 0.003)
		}},
		{"thickness over length", 0.012, 0.048, "strip_length", func(v float64) core.Geometry {
			return build(0.0014, 0.004, 0.0001, 0.0001/v)
		}},
		{"thickness over width", 0.041, 0.121, "fin_thickness", func(v float64) core.Geometry {
			return build(0.0014, 0.004, v*0.0014, v*0.0014/0.03)
		}},
	} {
		for _, c := range []struct {
			v       float64
			outside bool
		}{
			{row.low * (1 + little), false}, {row.low * (1 - little), true},
			{row.high * (1 - little), false}, {row.high * (1 + little), true},
		} {
			made := made(t, row.make(c.v))
			want := ""
			if c.outside {
				want = row.key
			}
			if got := made.Outside(500); got != want || made.InRange(500) != (core.Range{Geometry: c.outside}) {
				t.Errorf("%s of %v: outside is %q, want %q (%+v)", row.name, c.v, got, want, made.InRange(500))
			}
		}
	}
	c := made(t, build(0.0014, 0.004, 0.0001, 0.003))
	for _, row := range []struct {
		re   float64
		want core.Range
	}{{299.9, core.Range{ReynoldsLow: true}}, {300, core.Range{}}, {5000, core.Range{}}, {5000.1, core.Range{ReynoldsHigh: true}}} {
		if got := c.InRange(row.re); got != row.want {
			t.Errorf("strips at Re %v: %+v, want %+v", row.re, got, row.want)
		}
	}
}

// Triangular passages are plain ones with an apex that the table must reach.
func TestApexInRange(t *testing.T) {
	for _, row := range []struct {
		degrees, re float64
		want        core.Range
		key         string
	}{
		{4.99, 100, core.Range{Geometry: true}, "fin_density"},
		{5.01, 100, core.Range{}, ""},
		{28, 2300, core.Range{}, ""},
		{28, 2301, core.Range{ReynoldsHigh: true}, ""},
		{149.9, 0.1, core.Range{}, ""},
		{150.1, 100, core.Range{Geometry: true}, "fin_density"},
	} {
		g := sound(core.Triangular)
		g.FinHeight, g.FinThickness = 0.003, 0.00001
		g.FinDensity = 1 / ((g.FinHeight - g.FinThickness) * math.Tan(row.degrees*math.Pi/360))
		c := made(t, g)
		if got, key := c.InRange(row.re), c.Outside(row.re); got != row.want || key != row.key {
			t.Errorf("an apex of %v° at Re %v: %+v, %q, want %+v, %q", row.degrees, row.re, got, key, row.want, row.key)
		}
	}
}
