package core

import (
	"math"
	"math/rand/v2"
	"testing"

	"finduel/model/coolant"
)

// reynolds are Reynolds numbers of the air from 0.1 to 10 000, dense enough for
// several in every part of every curve.
func reynolds() []float64 {
	var re []float64
	for x := 0.1; x <= 1e4; x *= 1.03 {
		re = append(re, x)
	}
	return re
}

// With more air the pressure drop rises, the film does not fall, and the whole
// conductance rises.
func TestMoreAirMeansMorePressureAndMoreConductance(t *testing.T) {
	water := coolant.Liquid{}.At(310)
	for i, c := range plausible(t, 200) {
		var drop, film, conductance float64
		inside, _ := c.CoolantFilm(0.05, water)
		for _, re := range reynolds() {
			flow := flowAt(&c, re)
			d, h := c.PressureDrop(flow, 1.18, 1.14, roomAir.Viscosity), c.AirFilm(flow, roomAir)
			if !(d > drop) {
				t.Errorf("core %d: pressure drop falls from %v to %v Pa at Re %v", i, drop, d, re)
			}
			if !(h >= film*(1-1e-12)) {
				t.Errorf("core %d: film falls from %v to %v at Re %v", i, film, h, re)
			}
			ua := 1 / (1/(c.WithFins(c.FinEfficiency(h))*h*c.AirArea()) + c.WallResistance() + 1/(inside*c.TubeInsideArea()))
			if !(ua >= conductance*(1-1e-12)) {
				t.Errorf("core %d: conductance falls from %v to %v at Re %v", i, conductance, ua, re)
			}
			drop, film, conductance = d, h, ua
		}
	}
}

// Whatever dimensions pass Check, however odd, give numbers that are finite and
// rise with the flow: far wider than any core that makes sense.
func TestOddCoresBehaveToo(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	between := func(low, high float64) float64 { return low * math.Exp(random.Float64()*math.Log(high/low)) }
	made := [surfaces]int{}
	for i := range 40000 {
		c, err := New(Geometry{
			FaceLength: between(0.005, 5), FaceWidth: between(0.005, 5), FinDepth: between(0.001, 1), FinDensity: between(40, 4000),
			FinHeight: between(5e-4, 0.1), FinThickness: between(1e-5, 1e-3), FinConductivity: between(1, 3000),
			LouverPitch: between(1e-4, 0.02), LouverLength: between(1e-4, 0.1), LouverAngle: between(math.Pi/180, math.Pi/3),
			TubeHeight: between(2e-4, 0.05), TubeWall: between(2e-5, 0.01), TubeConductivity: between(0.1, 3000),
			Passes: 1 + random.IntN(8), Surface: Surface(i % surfaces), StripLength: between(1e-4, 0.1), Routing: Routing(random.IntN(routings)),
		})
		if err != nil {
			continue
		}
		made[c.geometry.Surface]++
		momentum, film := 0.0, 0.0 // f Re² goes as the pressure drop
		for re := 1e-3; re < 1e6; re *= 1.3 {
			f, h := c.Friction(re), c.AirFilm(flowAt(&c, re), roomAir)
			if !(f*re*re > momentum && f < 1e12 && h >= film*(1-1e-12) && h > 0 && h < 1e12) {
				t.Fatalf("Re %v: friction %v, film %v after %v: %+v", re, f, h, film, c.geometry)
			}
			if d := c.Doubt(re); !(d.FilmLow > -1 && d.FilmLow <= 0 && d.FilmHigh >= 0 && d.FilmHigh < 100 && d.FrictionLow > -1 && d.FrictionLow <= 0 && d.FrictionHigh >= 0 && d.FrictionHigh < 100) {
				t.Fatalf("Re %v: doubt %+v: %+v", re, d, c.geometry)
			}
			momentum, film = f*re*re, h
		}
	}
	for s, n := range made {
		if n < 500 {
			t.Errorf("only %d cores with %v fins passed Check", n, Surface(s))
		}
	}
}

// With more coolant the film does not fall, for water from cold to hot.
func TestMoreCoolantMeansMoreFilm(t *testing.T) {
	for i, c := range plausible(t, 100) {
		for _, kelvin := range []float64{278.15, 313.15, 353.15} {
			p := coolant.Liquid{}.At(kelvin)
			film := 0.0
			for flow := 1e-4; flow < 10; flow *= 1.05 {
				h, re := c.CoolantFilm(flow, p)
				if !(h >= film) {
					t.Errorf("core %d at %v K: film falls from %v to %v at Re %v", i, kelvin, film, h, re)
				}
				film = h
			}
		}
	}
}

// Between laminar and turbulent flow the film goes in proportion to the Reynolds
// number (Gnielinski 2013).
func TestCoolantFilmInTransition(t *testing.T) {
	p := coolant.Liquid{}.At(310)
	for _, c := range plausible(t, 10) {
		_, one := c.CoolantFilm(1, p)
		at := func(re float64) float64 { h, _ := c.CoolantFilm(re/one, p); return h }
		near(t, "a quarter of the way", at(2725), 0.75*at(LaminarEnd)+0.25*at(TurbulentStart), 1e-9)
	}
}

// Areas counted one way are those counted another.
func TestAreas(t *testing.T) {
	for _, c := range plausible(t, 100) {
		g := c.geometry
		near(t, "A/Ac", c.AirArea()/c.flowArea, 4*g.FinDepth/c.diameter, 1e-12)
		if g.Surface == Triangular || g.Surface == OffsetStrip {
			continue // TestAreasOfTriangles, TestAreasOfStrips
		}
		pitch, tubePitch := 1/g.FinDensity, g.FinHeight+g.TubeHeight
		near(t, "sigma", c.Sigma(), (g.FinHeight-g.FinThickness)*(pitch-g.FinThickness)/(tubePitch*pitch), 1e-12)
		near(t, "Ac", c.flowArea, c.Sigma()*g.FaceLength*g.FaceWidth, 1e-12)
		near(t, "face", c.FaceArea(), g.FaceLength*g.FaceWidth, 1e-12)
		near(t, "A", c.AirArea(), g.FaceLength*g.FaceWidth*g.FinDepth*2*(g.FinHeight-g.FinThickness+pitch-g.FinThickness)/(pitch*tubePitch), 1e-12)
		near(t, "tubes", c.tubes*tubePitch, g.FaceWidth, 1e-12)
		// A channel has two fins' sides and two tube walls.
		near(t, "fins' share", c.finArea/c.AirArea(), (g.FinHeight-g.FinThickness)/(g.FinHeight+pitch-2*g.FinThickness), 1e-12)
		rows := 1.0
		if g.Routing == CrossCounterflow {
			rows = float64(g.Passes)
		}
		wide, high := g.FinDepth/rows-2*g.TubeWall, g.TubeHeight-2*g.TubeWall
		near(t, "inside", c.TubeInsideArea(), 2*(wide+high)*g.FaceLength*c.tubes*rows, 1e-12)
		// All walls are one plate of the mean of inside and outside surface.
		mean := 2 * (g.FinDepth/rows + g.TubeHeight - 2*g.TubeWall) * g.FaceLength * c.tubes * rows
		near(t, "wall", c.WallResistance(), g.TubeWall/(g.TubeConductivity*mean), 1e-12)
	}
}

// The Reynolds numbers are mass velocity times their length over viscosity.
func TestReynolds(t *testing.T) {
	for _, c := range plausible(t, 24) {
		length := c.diameter
		if c.geometry.Surface == Louvered {
			length = c.geometry.LouverPitch
		}
		near(t, "Re of the air", c.Reynolds(0.02, 1.8e-5), 0.02/c.flowArea*length/1.8e-5, 1e-12)

		p := coolant.Liquid{}.At(300)
		g := c.geometry
		share := 1 / float64(g.Passes) // of the tubes of the face in a pass
		wide, high := g.FinDepth-2*g.TubeWall, g.TubeHeight-2*g.TubeWall
		if g.Routing == CrossCounterflow {
			wide, share = g.FinDepth/float64(g.Passes)-2*g.TubeWall, 1
		}
		_, re := c.CoolantFilm(0.05, p)
		velocity := 0.05 / (wide * high * c.tubes * share)
		near(t, "Re of the coolant", re, velocity*2*wide*high/(wide+high)/p.Viscosity, 1e-12)
	}
}

// Two passes at half the flow have the films of one pass at all of it.
func TestPassesShareTheTubes(t *testing.T) {
	p := coolant.Liquid{}.At(320)
	one := chainCore(t)
	g := one.geometry
	g.Passes = 2
	two, err := New(g)
	if err != nil {
		t.Fatal(err)
	}
	for _, flow := range []float64{0.005, 0.05, 0.3, 1} {
		h1, re1 := one.CoolantFilm(flow, p)
		h2, re2 := two.CoolantFilm(flow/2, p)
		near(t, "film of two passes", h2, h1, 1e-12)
		near(t, "Re of two passes", re2, re1, 1e-12)
	}
}

// The pressure drop is the one with the friction factor of its Reynolds number.
func TestPressureDropTakesItsFriction(t *testing.T) {
	for _, c := range plausible(t, 6) {
		flow := flowAt(&c, 77)
		near(t, "pressure drop", c.PressureDrop(flow, 1.2, 1.1, roomAir.Viscosity), c.PressureDropWith(c.Friction(77), flow, 1.2, 1.1), 1e-12)
	}
}

// Where heat flows without effort or hardly at all, fins have nothing to do with
// their conductivity; where it is all they have, efficiency falls with the root.
func TestFinLimits(t *testing.T) {
	for _, c := range plausible(t, 20) {
		if c.geometry.Surface == Triangular || c.geometry.Surface == OffsetStrip {
			continue // their own tests
		}
		near(t, "efficiency without film", c.FinEfficiency(0), 1, 0)
		near(t, "efficiency of a small film", c.FinEfficiency(1e-9), 1, 1e-9)
		near(t, "surface of a small film", c.WithFins(c.FinEfficiency(1e-9)), 1, 1e-9)
		g := c.geometry
		m := math.Sqrt(2e9 / (g.FinConductivity * g.FinThickness) * (1 + g.FinThickness/g.FinDepth))
		near(t, "efficiency of a great film", c.FinEfficiency(1e9), 1/(m*(g.FinHeight/2-g.FinThickness)), 1e-12)
		near(t, "surface of an endless film", c.WithFins(c.FinEfficiency(1e30)), 1-c.finArea/c.AirArea(), 1e-9)
		last := 1.0
		for h := 1.0; h < 1e5; h *= 1.5 {
			eta := c.FinEfficiency(h)
			if !(eta < last && eta > 0) {
				t.Errorf("efficiency %v after %v at a film of %v", eta, last, h)
			}
			last = eta
		}
		g.FinConductivity = 1e15
		ideal, err := New(g)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "efficiency of an ideal metal", ideal.FinEfficiency(500), 1, 1e-9)
	}
}
