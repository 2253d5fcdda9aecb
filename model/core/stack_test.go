package core_test

import (
	"math"
	"testing"

	"finduel/model/air"
	"finduel/model/coolant"
	"finduel/model/core"
)

// stacked is a core of n equal ones behind one another.
func stacked(t *testing.T, n int, feed core.Feed) core.Core {
	t.Helper()
	g := core.TypicalGeometry(core.Copper, core.Louvered)
	g.FaceLength, g.FaceWidth, g.FinDepth = 0.24, 0.117, 0.02
	g.Further, g.Feed = n-1, feed
	return made(t, g)
}

// march goes through cores behind one another, core by core, and returns the
// effectiveness of all: in parallel each core gets fresh coolant; in series the
// coolant meets the last core first, and the temperatures between cores are found by
// iteration.
func march(one core.Core, n int, feed core.Feed, ua, air, liquid float64) float64 {
	const hot, cold = 1.0, 0.0
	heat := 0.0
	if feed == core.InParallel {
		ta := cold
		for range n {
			branch := liquid / float64(n)
			q := one.Effectiveness(ua/float64(n), air, branch) * math.Min(air, branch) * (hot - ta)
			heat += q
			ta += q / air
		}
	} else {
		q := make([]float64, n) // of each core, the first meeting the fresh air
		for range 20000 {
			for i := range n {
				ta, tc := cold, hot
				for _, x := range q[:i] {
					ta += x / air
				}
				for _, x := range q[i+1:] {
					tc -= x / liquid
				}
				q[i] = one.Effectiveness(ua/float64(n), air, liquid) * math.Min(air, liquid) * (tc - ta)
			}
		}
		for _, x := range q {
			heat += x
		}
	}
	return heat / (math.Min(air, liquid) * (hot - cold))
}

func TestStackIsItsCoresOneByOne(t *testing.T) {
	one := stacked(t, 1, core.InSeries)
	for _, feed := range core.Feeds() {
		for n := 1; n <= 4; n++ {
			all := stacked(t, n, feed)
			for _, ua := range []float64{5, 40, 300} {
				for _, air := range []float64{10, 60, 400} {
					const liquid = 120
					got, want := all.Effectiveness(ua, air, liquid), march(one, n, feed, ua, air, liquid)
					if math.Abs(got-want) > 1e-9 {
						t.Errorf("%d cores in %v, UA %v, air %v W/K: effectiveness %v, core by core %v", n, feed, ua, air, got, want)
					}
					if got <= 0 || got > 1 {
						t.Errorf("%d cores in %v: effectiveness %v", n, feed, got)
					}
				}
			}
		}
	}
}

// More cores have more surface, take more pressure and cost the coolant more, or
// less in parallel.
func TestStackAddsUp(t *testing.T) {
	one, three := stacked(t, 1, core.InSeries), stacked(t, 3, core.InSeries)
	parallel := stacked(t, 3, core.InParallel)
	for what, pair := range map[string][2]float64{
		"air area":        {three.AirArea(), 3 * one.AirArea()},
		"inside of tubes": {three.TubeInsideArea(), 3 * one.TubeInsideArea()},
		"wall":            {three.WallResistance(), one.WallResistance() / 3},
		"face":            {three.FaceArea(), one.FaceArea()},
		"friction":        {three.Friction(200), one.Friction(200)},
	} {
		if math.Abs(pair[0]/pair[1]-1) > 1e-12 {
			t.Errorf("%s: %v, want %v", what, pair[0], pair[1])
		}
	}
	// Without heating every core takes the same pressure.
	if got, want := three.PressureDrop(0.05, 1.2, 1.2, 1.8e-5), 3*one.PressureDrop(0.05, 1.2, 1.2, 1.8e-5); math.Abs(got/want-1) > 1e-12 {
		t.Errorf("three cores take %v Pa, want %v", got, want)
	}
	p := coolant.Liquid{}.At(313.15)
	h1, re1 := one.CoolantFilm(0.05, p)
	h3, re3 := three.CoolantFilm(0.05, p)
	hp, rep := parallel.CoolantFilm(0.15, p)
	if h3 != h1 || re3 != re1 || math.Abs(hp/h1-1) > 1e-12 || math.Abs(rep/re1-1) > 1e-12 {
		t.Errorf("coolant film %v at Re %v; in series %v at %v, thrice the flow in parallel %v at %v", h1, re1, h3, re3, hp, rep)
	}
	d1 := one.CoolantPressureDrop(0.05, p)
	if d3, dp := three.CoolantPressureDrop(0.05, p), parallel.CoolantPressureDrop(0.15, p); math.Abs(d3/(3*d1)-1) > 1e-12 || math.Abs(dp/d1-1) > 1e-12 {
		t.Errorf("coolant pressure drop %v Pa; in series %v, thrice the flow in parallel %v", d1, d3, dp)
	}
}

func TestImpossibleStacks(t *testing.T) {
	g := core.TypicalGeometry(core.Copper, core.Louvered)
	g.FaceLength, g.FaceWidth, g.FinDepth = 0.24, 0.117, 0.02
	for _, further := range []int{-1, 8} {
		g.Further = further
		if _, err := core.New(g); err == nil {
			t.Errorf("%d further cores are accepted", further)
		}
	}
	g.Further, g.Feed = 1, 2
	if _, err := core.New(g); err == nil {
		t.Error("an unknown feed is accepted")
	}
	if core.Feed(-1).String() != "" || core.Feed(2).String() != "" {
		t.Error("a feed that there is not has a name")
	}
}

// The coldest branch is the first core's, asked alone.
func TestColdestBranchIsTheFirst(t *testing.T) {
	one := stacked(t, 1, core.InSeries)
	for n := 2; n <= 4; n++ {
		all := stacked(t, n, core.InParallel)
		const ua, air, liquid = 90, 70, 40
		branch := liquid / float64(n)
		want := one.Effectiveness(ua/float64(n), air, branch) * math.Min(air, branch) / branch
		if got := all.Coldest(all.Effectiveness(ua, air, liquid), air, liquid); math.Abs(got-want) > 1e-9 {
			t.Errorf("%d branches: the coldest cools by %v, the first core alone by %v", n, got, want)
		}
		series := stacked(t, n, core.InSeries)
		if eps := series.Effectiveness(ua, air, liquid); math.Abs(series.Coldest(eps, air, liquid)-eps) > 1e-15 {
			t.Errorf("%d cores in series: %v", n, series.Coldest(eps, air, liquid))
		}
	}
}

// Geometrically similar cores at the same Reynolds number have the same friction
// factor, and films that go with the inverse of their size.
func TestSimilarCoresAreSimilar(t *testing.T) {
	p := coolant.Liquid{}.At(313.15)
	a := air.Properties{Density: 1.18, Viscosity: 1.85e-5, Conductivity: 0.026, SpecificHeat: 1006}
	for _, surface := range core.Surfaces() {
		build := func(s float64) core.Core {
			g := core.TypicalGeometry(core.Copper, surface)
			g.FaceLength, g.FaceWidth, g.FinDepth = 0.12*s, 0.117*s, 0.025*s
			g.FinDensity /= s
			for _, length := range []*float64{&g.FinHeight, &g.FinThickness, &g.LouverPitch, &g.LouverLength, &g.StripLength, &g.TubeHeight, &g.TubeWall} {
				*length *= s
			}
			return made(t, g)
		}
		one := build(1)
		for _, s := range []float64{0.5, 3} {
			other := build(s)
			for _, flow := range []float64{0.002, 0.02, 0.2} {
				// Reynolds numbers go with flow over size.
				if r1, r2 := one.Reynolds(flow, a.Viscosity), other.Reynolds(flow*s, a.Viscosity); math.Abs(r2/r1-1) > 1e-12 {
					t.Fatalf("Re %v and %v", r1, r2)
				}
				re := one.Reynolds(flow, a.Viscosity)
				if f1, f2 := one.Friction(re), other.Friction(re); math.Abs(f2/f1-1) > 1e-9 {
					t.Errorf("%v %v times as large at Re %v: f %v, was %v", surface, s, re, f2, f1)
				}
				if h1, h2 := one.AirFilm(flow, a), other.AirFilm(flow*s, a); math.Abs(h2*s/h1-1) > 1e-9 {
					t.Errorf("%v %v times as large at Re %v: film %v, was %v", surface, s, re, h2, h1)
				}
				h1, _ := one.CoolantFilm(flow, p)
				h2, _ := other.CoolantFilm(flow*s, p)
				if math.Abs(h2*s/h1-1) > 1e-9 {
					t.Errorf("%v %v times as large: coolant film %v, was %v", surface, s, h2, h1)
				}
			}
		}
	}
}
