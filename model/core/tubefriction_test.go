package core

import (
	"math"
	"testing"

	"finduel/model/coolant"
)

// ported returns plausible cores with ports and tubes from smooth to rough.
func ported(t *testing.T, n int) []Core {
	t.Helper()
	var cores []Core
	for i, c := range plausible(t, n) {
		g := c.geometry
		g.PortDiameter = 0.004 * float64(i%4)
		g.TubeRoughness = []float64{0, 1.5e-6, 2e-5}[i%3]
		made, err := New(g)
		if err != nil {
			t.Fatalf("core %d: %v", i, err)
		}
		cores = append(cores, made)
	}
	return cores
}

// liquids are water, cold to hot, and one as thick as a mixture against frost.
func liquids() []coolant.Properties {
	list := []coolant.Properties{{Density: 1060, Viscosity: 5e-3, Conductivity: 0.4, SpecificHeat: 3500}}
	for _, kelvin := range []float64{278.15, 313.15, 363.15} {
		list = append(list, coolant.Liquid{}.At(kelvin))
	}
	return list
}

// The drop rises with the flow everywhere, so that a pump meets it once.
func TestMoreCoolantMeansMoreDrop(t *testing.T) {
	for i, c := range ported(t, 200) {
		for _, p := range liquids() {
			last := 0.0
			for flow := 1e-6; flow < 20; flow *= 1.02 {
				drop := c.CoolantPressureDrop(flow, p)
				if !(drop > last && drop < 1e12) {
					t.Fatalf("core %d: %v Pa at %v kg/s after %v Pa", i, drop, flow, last)
				}
				last = drop
			}
		}
	}
}

// Friction and its slope go on where laminar flow ends and turbulent flow starts.
func TestCoolantFrictionIsSmoothAtItsJoints(t *testing.T) {
	turbulent := 0
	for i, c := range ported(t, 100) {
		k := &c.tube.losses
		f := func(re float64) float64 { return k.frictionFactor(re, &c.tube.passage) }
		for _, joint := range []float64{LaminarEnd, TurbulentStart} {
			const step = 0.01
			below, at, above := f(joint-step), f(joint), f(joint+step)
			if math.Abs(below-at) > 1e-5*at || math.Abs(below-2*at+above) > 1e-8*at {
				t.Errorf("core %d: friction %v, %v, %v about Re %v", i, below, at, above, joint)
			}
		}
		if f(TurbulentStart) == roughFriction(TurbulentStart, k.roughness)/4 {
			turbulent++
		}
	}
	if turbulent < 30 {
		t.Errorf("only %d of 100 cores have turbulent friction at Re %v: the joint is not tried", turbulent, TurbulentStart)
	}
}

// In slow flow through long tubes the drop goes with the flow (Poiseuille); in fast
// flow through rough ones with its square.
func TestCoolantDropAtItsEnds(t *testing.T) {
	c := chainCore(t)
	p := coolant.Liquid{}.At(300)
	near(t, "twice a slow flow", c.CoolantPressureDrop(2e-7, p)/c.CoolantPressureDrop(1e-7, p), 2, 1e-4)
	g := c.geometry
	g.TubeRoughness = 1e-4
	rough, err := New(g)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "twice a fast flow", rough.CoolantPressureDrop(2e4, p)/rough.CoolantPressureDrop(1e4, p), 4, 1e-3)
	if !(rough.CoolantPressureDrop(3, p) > 1.3*c.CoolantPressureDrop(3, p)) {
		t.Error("roughness takes nothing from turbulent flow")
	}
	if rough.CoolantPressureDrop(0.01, p) != c.CoolantPressureDrop(0.01, p) {
		t.Error("roughness changes laminar flow")
	}
}

// Two passes are two cores of half the width, one behind the other, and a turn.
func TestPassesAreCoresInARow(t *testing.T) {
	g := chainCore(t).geometry
	g.PortDiameter = 0.009
	half, row := g, g
	half.FaceWidth /= 3
	half.PortDiameter = 0
	row.Passes = 3
	one, errOne := New(half)
	three, errThree := New(row)
	if errOne != nil || errThree != nil {
		t.Fatal(errOne, errThree)
	}
	p := coolant.Liquid{}.At(310)
	for _, flow := range []float64{0.001, 0.05, 0.4, 2} {
		head := func(area float64) float64 { return flow / area * flow / area / (2 * p.Density) }
		want := 3*one.CoolantPressureDrop(flow, p) + 2*1.5*head(three.tube.bore) + 1.5*head(math.Pi/4*0.009*0.009)
		near(t, "three passes", three.CoolantPressureDrop(flow, p), want, 1e-12)
	}
}

// Three passes behind one another are three cores of a third of the depth, one after
// the other, and two turns.
func TestPassesInTheDepthAreShallowCores(t *testing.T) {
	shallow := surfaceCore(t, Plain, func(g *Geometry) { g.FinDepth /= 3; g.Passes, g.PortDiameter = 1, 0 })
	deep := surfaceCore(t, Plain, func(g *Geometry) { g.Routing, g.Passes, g.PortDiameter = CrossCounterflow, 3, 0.009 })
	p := coolant.Liquid{}.At(310)
	for _, flow := range []float64{0.001, 0.05, 0.4, 2} {
		head := func(area float64) float64 { return flow / area * flow / area / (2 * p.Density) }
		want := 3*shallow.CoolantPressureDrop(flow, p) + 2*1.5*head(deep.tube.bore) + 1.5*head(math.Pi/4*0.009*0.009)
		near(t, "three passes", deep.CoolantPressureDrop(flow, p), want, 1e-12)
		h, re := deep.CoolantFilm(flow, p)
		one, reOne := shallow.CoolantFilm(flow, p)
		near(t, "film", h, one, 1e-12)
		near(t, "Re", re, reOne, 1e-12)
	}
}

func TestCoolantDropAllocatesNothing(t *testing.T) {
	c := chainCore(t)
	p := coolant.Liquid{}.At(310)
	if n := testing.AllocsPerRun(100, func() { sink = c.CoolantPressureDrop(0.05, p) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func BenchmarkCoolantPressureDrop(b *testing.B) {
	c := benchCore(b, Louvered)
	p := coolant.Liquid{}.At(310)
	i := 0
	for b.Loop() {
		i++
		sink = c.CoolantPressureDrop(0.01*float64(1+i%50), p)
	}
}
