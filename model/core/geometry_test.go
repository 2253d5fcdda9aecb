package core_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"finduel/model/core"
	"finduel/model/quantity"
)

// sound is an invented core with nothing wrong about it.
func sound(s core.Surface) core.Geometry {
	g := core.TypicalGeometry(core.Copper, s)
	g.FaceLength, g.FaceWidth, g.FinDepth = 0.24, 0.12, 0.0168
	return g
}

// faults returns what is wrong about a geometry, one by one.
func faults(t *testing.T, err error) []*quantity.RangeError {
	t.Helper()
	var all []*quantity.RangeError
	var walk func(err error)
	walk = func(err error) {
		if joined, ok := err.(interface{ Unwrap() []error }); ok {
			for _, e := range joined.Unwrap() {
				walk(e)
			}
			return
		}
		var fault *quantity.RangeError
		if !errors.As(err, &fault) {
			t.Fatalf("%v is no range error", err)
		}
		all = append(all, fault)
	}
	if err != nil {
		walk(err)
	}
	return all
}

func TestEveryRuleOfCheck(t *testing.T) {
	rules := []struct {
		name string
		key  string
		rule string // a part of it
		set  func(g *core.Geometry) float64
	}{
		{"no such surface", "surface", "louvered, plain, triangular or offset strip", func(g *core.Geometry) float64 { g.Surface = 4; return 4 }},
		{"a surface below all", "surface", "louvered, plain, triangular or offset strip", func(g *core.Geometry) float64 { g.Surface = -1; return -1 }},
		{"no such arrangement", "arrangement", "both mixed or counterflow", func(g *core.Geometry) float64 { g.Arrangement = 5; return 5 }},
		{"no such routing", "routing", "side by side or cross-counterflow", func(g *core.Geometry) float64 { g.Routing = 2; return 2 }},
		{"five passes behind one another", "passes", "at most four behind one another", func(g *core.Geometry) float64 {
			g.Routing, g.Passes, g.FaceWidth = core.CrossCounterflow, 5, 1
			return 5
		}},
		{"tubes behind one another too small", "passes", "higher than they are deep", func(g *core.Geometry) float64 {
			g.Routing, g.Passes, g.FinDepth = core.CrossCounterflow, 4, 3.999*g.TubeHeight
			return 4
		}},
		{"strip as thick as long", "strip_length", "above the fin thickness", func(g *core.Geometry) float64 {
			g.Surface, g.StripLength = core.OffsetStrip, g.FinThickness
			return g.StripLength
		}},
		{"strip longer than the fins", "strip_length", "at most the fin depth", func(g *core.Geometry) float64 {
			g.Surface, g.StripLength = core.OffsetStrip, 1.001*g.FinDepth
			return g.StripLength
		}},
		{"no pass", "passes", "one or more", func(g *core.Geometry) float64 { g.Passes = 0; return 0 }},
		{"fins fill the way", "fin_thickness", "half the fin pitch", func(g *core.Geometry) float64 { g.FinThickness = 0.5 / g.FinDensity; return g.FinThickness }},
		{"fins as thick as high", "fin_thickness", "half the fin height", func(g *core.Geometry) float64 {
			g.FinHeight, g.FinThickness, g.LouverLength = 0.0008, 0.0004, 0.0007
			return g.FinThickness
		}},
		{"tube without bore", "tube_wall", "half the tube height", func(g *core.Geometry) float64 { g.TubeWall = g.TubeHeight / 2; return g.TubeWall }},
		{"tube without depth", "tube_wall", "half the fin depth", func(g *core.Geometry) float64 {
			g.FinDepth, g.TubeHeight, g.TubeWall = 0.003, 0.0031, 0.0015
			return g.TubeWall
		}},
		{"tube across the air", "tube_height", "below the fin depth", func(g *core.Geometry) float64 { g.TubeHeight = g.FinDepth; return g.TubeHeight }},
		{"face without tubes", "face_width", "one tube with its fin a pass", func(g *core.Geometry) float64 {
			g.FaceWidth = 1.999 * (g.FinHeight + g.TubeHeight)
			return g.FaceWidth
		}},
		{"face without fins", "face_length", "two fins", func(g *core.Geometry) float64 { g.FaceLength = 1.999 / g.FinDensity; return g.FaceLength }},
		{"louver wider than a bank", "louver_pitch", "half the fin depth", func(g *core.Geometry) float64 { g.LouverPitch = 0.501 * g.FinDepth; return g.LouverPitch }},
		{"louver longer than the fin", "louver_length", "at most the fin height", func(g *core.Geometry) float64 { g.LouverLength = 1.001 * g.FinHeight; return g.LouverLength }},
		{"steep louver", "louver_angle", "at most 60°", func(g *core.Geometry) float64 { g.LouverAngle = 1.001 * math.Pi / 3; return g.LouverAngle }},
		{"fin too thin for the friction", "fin_thickness", "1.05 % of the fin pitch", func(g *core.Geometry) float64 { g.FinThickness = 0.0105 / g.FinDensity; return g.FinThickness }},
		{"tube too flat for the friction", "tube_height", "fiftieth of the tube pitch", func(g *core.Geometry) float64 {
			g.FinHeight, g.TubeHeight, g.TubeWall = 0.05, 0.001, 0.0001
			return g.TubeHeight
		}},
	}
	rules = append(rules, struct {
		name, key, rule string
		set             func(g *core.Geometry) float64
	}{"tubes rougher than friction can express", "tube_roughness", "5 % of the hydraulic diameter", func(g *core.Geometry) float64 {
		wide, high := g.FinDepth-2*g.TubeWall, g.TubeHeight-2*g.TubeWall
		g.TubeRoughness = 0.0501 * 2 * wide * high / (wide + high)
		return g.TubeRoughness
	}})
	rules = append(rules, struct {
		name, key, rule string
		set             func(g *core.Geometry) float64
	}{"tubes behind one another too rough", "tube_roughness", "5 % of the hydraulic diameter", func(g *core.Geometry) float64 {
		g.Routing, g.Passes = core.CrossCounterflow, 3
		wide, high := g.FinDepth/3-2*g.TubeWall, g.TubeHeight-2*g.TubeWall
		g.TubeRoughness = 0.0501 * 2 * wide * high / (wide + high)
		return g.TubeRoughness
	}})
	// Nothing is allowed of these, but not less.
	for key, at := range map[string]func(g *core.Geometry) *float64{
		"tube_roughness": func(g *core.Geometry) *float64 { return &g.TubeRoughness },
		"port_diameter":  func(g *core.Geometry) *float64 { return &g.PortDiameter },
	} {
		for name, v := range map[string]float64{"negative": -1e-9, "infinite": math.Inf(1), "not a number": math.NaN()} {
			rules = append(rules, struct {
				name, key, rule string
				set             func(g *core.Geometry) float64
			}{key + " " + name, key, "zero or more and finite", func(g *core.Geometry) float64 { *at(g) = v; return v }})
		}
	}
	// Every dimension must be above 0 and a number; a strip length only of strips.
	for name, v := range map[string]float64{"zero": 0, "negative": -1e-3, "infinite": math.Inf(1), "not a number": math.NaN()} {
		rules = append(rules, struct {
			name, key, rule string
			set             func(g *core.Geometry) float64
		}{"strip_length " + name, "strip_length", "above zero and finite", func(g *core.Geometry) float64 {
			g.Surface, g.StripLength = core.OffsetStrip, v
			return v
		}})
	}
	for key, at := range map[string]func(g *core.Geometry) *float64{
		"face_length":       func(g *core.Geometry) *float64 { return &g.FaceLength },
		"face_width":        func(g *core.Geometry) *float64 { return &g.FaceWidth },
		"fin_depth":         func(g *core.Geometry) *float64 { return &g.FinDepth },
		"fin_density":       func(g *core.Geometry) *float64 { return &g.FinDensity },
		"fin_height":        func(g *core.Geometry) *float64 { return &g.FinHeight },
		"fin_thickness":     func(g *core.Geometry) *float64 { return &g.FinThickness },
		"fin_conductivity":  func(g *core.Geometry) *float64 { return &g.FinConductivity },
		"louver_pitch":      func(g *core.Geometry) *float64 { return &g.LouverPitch },
		"louver_length":     func(g *core.Geometry) *float64 { return &g.LouverLength },
		"louver_angle":      func(g *core.Geometry) *float64 { return &g.LouverAngle },
		"tube_height":       func(g *core.Geometry) *float64 { return &g.TubeHeight },
		"tube_wall":         func(g *core.Geometry) *float64 { return &g.TubeWall },
		"tube_conductivity": func(g *core.Geometry) *float64 { return &g.TubeConductivity },
	} {
		for name, v := range map[string]float64{"zero": 0, "negative": -1e-3, "infinite": math.Inf(1), "not a number": math.NaN()} {
			rules = append(rules, struct {
				name, key, rule string
				set             func(g *core.Geometry) float64
			}{key + " " + name, key, "above zero and finite", func(g *core.Geometry) float64 { *at(g) = v; return v }})
		}
	}
	for _, r := range rules {
		t.Run(r.name, func(t *testing.T) {
			g := sound(core.Louvered)
			value := r.set(&g)
			found := false
			for _, f := range faults(t, g.Check()) {
				if _, known := quantity.Of(f.Key); !known && f.Key != "surface" && f.Key != "arrangement" && f.Key != "routing" { // words, not quantities
					t.Errorf("%q is no quantity", f.Key)
				}
				if f.Key == r.key && strings.Contains(f.Rule, r.rule) {
					found = true
					if f.Value != value && !(math.IsNaN(f.Value) && math.IsNaN(value)) {
						t.Errorf("the value told is %v, not %v", f.Value, value)
					}
				}
			}
			if !found {
				t.Errorf("nothing said of %s: %q in %v", r.key, r.rule, g.Check())
			}
			if c, err := core.New(g); err == nil || c != (core.Core{}) {
				t.Errorf("New made %v, %v of it", c, err)
			}
		})
	}
}

// Everything that is wrong is told at once, each thing once.
func TestCheckTellsAll(t *testing.T) {
	g := sound(core.Louvered)
	g.TubeWall, g.LouverLength, g.LouverAngle = 0.001, 0.02, 2
	var keys []string
	for _, f := range faults(t, g.Check()) {
		keys = append(keys, f.Key)
	}
	if got, want := strings.Join(keys, " "), "tube_wall louver_length louver_angle"; got != want {
		t.Errorf("told of %q, want %q", got, want)
	}
}

// Only louvered fins have louvers and only offset strips strips, whatever stands
// there.
func TestOtherFinsNeedNoLouvers(t *testing.T) {
	for _, s := range core.Surfaces() {
		g := sound(s)
		if s != core.Louvered {
			g.LouverPitch, g.LouverLength, g.LouverAngle = 0, math.NaN(), -1
			g.FinThickness = 0.005 / g.FinDensity
		}
		if s != core.OffsetStrip {
			g.StripLength = math.NaN()
		}
		if err := g.Check(); err != nil {
			t.Errorf("%v: %v", s, err)
		}
	}
}

// The limits themselves are allowed where the rule says so.
func TestCheckAtItsLimits(t *testing.T) {
	g := sound(core.Louvered)
	g.LouverPitch, g.LouverLength, g.LouverAngle = g.FinDepth/2, g.FinHeight, math.Pi/3
	g.FaceWidth, g.FaceLength = 2*(g.FinHeight+g.TubeHeight), 2/g.FinDensity
	wide, high := g.FinDepth-2*g.TubeWall, g.TubeHeight-2*g.TubeWall
	g.PortDiameter, g.TubeRoughness = 0, 0.05*2*wide*high/(wide+high)
	if err := g.Check(); err != nil {
		t.Error(err)
	}
	// Four passes behind one another need one tube in the face, and each has a bore of
	// a quarter of the depth; a strip may be as long as the fins are deep.
	g.Surface, g.StripLength = core.OffsetStrip, g.FinDepth
	g.Routing, g.Passes, g.FaceWidth = core.CrossCounterflow, 4, g.FinHeight+g.TubeHeight
	wide = g.FinDepth/4 - 2*g.TubeWall
	g.TubeRoughness = 0.05 * 2 * wide * high / (wide + high)
	if err := g.Check(); err != nil {
		t.Error(err)
	}
}

func TestTypicalGeometryIsSound(t *testing.T) {
	cores := 0
	for _, m := range []core.Metal{core.Copper, core.Aluminium} {
		for _, s := range core.Surfaces() {
			for _, thickness := range []float64{0.025, 0.028, 0.030, 0.045, 0.060, 0.085} {
				for _, face := range []float64{0.04, 0.08, 0.12, 0.24, 0.48} {
					for _, density := range []float64{8, 16, 30} {
						g := core.TypicalGeometry(m, s)
						g.FaceLength, g.FaceWidth, g.FinDepth, g.FinDensity = face, face, core.FinDepthOf(thickness), density/0.0254
						if _, err := core.New(g); err != nil {
							t.Errorf("%v %v, %v m of %v m: %v", m, s, thickness, face, err)
						}
						if g.Surface != s {
							t.Errorf("surface %v, want %v", g.Surface, s)
						}
						cores++
					}
				}
			}
		}
	}
	if cores != 720 {
		t.Errorf("%d cores were made, not 720", cores)
	}
	copper, aluminium := core.TypicalGeometry(core.Copper, core.Louvered), core.TypicalGeometry(core.Aluminium, core.Louvered)
	if !(copper.FinConductivity > aluminium.FinConductivity && copper.FinThickness < aluminium.FinThickness && copper.TubeWall < aluminium.TubeWall) {
		t.Errorf("copper %+v, aluminium %+v", copper, aluminium)
	}
}

// A slim unit of 28 mm has 0.60 of it in fins, one of 45 mm 0.75, one of 60 mm
// 0.83, with straight lines of the share between (common practice, no source).
func TestFinDepthOf(t *testing.T) {
	for _, c := range []struct{ thickness, depth float64 }{
		{0.010, 0.006}, {0.028, 0.0168}, {0.0365, 0.675 * 0.0365}, {0.045, 0.03375}, {0.0525, 0.79 * 0.0525}, {0.060, 0.0498}, {0.1, 0.083},
	} {
		if got := core.FinDepthOf(c.thickness); math.Abs(got-c.depth) > 1e-12 {
			t.Errorf("%v m overall have %v m of fins, want %v", c.thickness, got, c.depth)
		}
	}
	last := 0.0
	for thickness := 0.002; thickness < 1.2; thickness *= 1.01 {
		depth := core.FinDepthOf(thickness)
		if depth <= last {
			t.Errorf("%v m overall have no more fins than less", thickness)
		}
		if back := core.OverallThicknessOf(depth); math.Abs(back/thickness-1) > 1e-12 {
			t.Errorf("%v m overall become %v", thickness, back)
		}
		last = depth
	}
}

func TestNames(t *testing.T) {
	var words []string
	for i, s := range core.Surfaces() {
		words = append(words, s.String())
		if int(s) != i {
			t.Errorf("surface %d is %v", i, s)
		}
	}
	for _, m := range []core.Metal{core.Copper, core.Aluminium} {
		words = append(words, m.String())
	}
	for i, a := range core.Arrangements() {
		words = append(words, a.String())
		if int(a) != i {
			t.Errorf("arrangement %d is %v", i, a)
		}
	}
	for i, r := range core.Routings() {
		words = append(words, r.String())
		if int(r) != i {
			t.Errorf("routing %d is %v", i, r)
		}
	}
	const want = "louvered; plain; triangular; offset strip; copper; aluminium; both unmixed; air mixed; coolant mixed; both mixed; counterflow; side by side; cross-counterflow"
	if got := strings.Join(words, "; "); got != want {
		t.Errorf("the names are %q, want %q", got, want)
	}
	for _, name := range []string{core.Surface(-1).String(), core.Surface(4).String(), core.Arrangement(-1).String(), core.Arrangement(5).String(), core.Routing(-1).String(), core.Routing(2).String()} {
		if name != "" {
			t.Errorf("what there is not is called %q", name)
		}
	}
}
