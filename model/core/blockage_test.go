package core

import (
	"testing"

	"finduel/model/coolant"
)

func TestNothingBlockedIsTheCoreItself(t *testing.T) {
	for _, c := range plausible(t, 4) {
		same := c
		same.Block(0)
		same.Shadow(0)
		if same != c {
			t.Errorf("%+v became %+v", c, same)
		}
	}
}

// A core with a share of its face in shadow is, for the air and for the exchange, one
// that is shorter by the share; its face and its coolant's way stay.
func TestShadowIsAShorterCore(t *testing.T) {
	p := coolant.Liquid{}.At(310)
	for _, c := range plausible(t, 40) {
		for _, share := range []float64{0.1, 0.4} {
			g := c.geometry
			g.FaceLength *= 1 - share
			short, err := New(g)
			if err != nil {
				t.Fatal(err)
			}
			lit := c
			lit.Shadow(share)
			near(t, "flow area", lit.flowArea, short.flowArea, 1e-12)
			near(t, "sigma", lit.Sigma(), short.Sigma(), 1e-12)
			near(t, "air area", lit.AirArea(), short.AirArea(), 1e-12)
			near(t, "fin area", lit.finArea, short.finArea, 1e-12)
			near(t, "inside", lit.TubeInsideArea(), short.TubeInsideArea(), 1e-12)
			near(t, "wall", lit.WallResistance(), short.WallResistance(), 1e-12)
			near(t, "pressure drop", lit.PressureDrop(0.02, 1.2, 1.1, 1.8e-5), short.PressureDrop(0.02, 1.2, 1.1, 1.8e-5), 1e-12)
			near(t, "air film", lit.AirFilm(0.02, roomAir), short.AirFilm(0.02, roomAir), 1e-12)
			if lit.FaceArea() != c.FaceArea() || lit.CoolantPressureDrop(0.05, p) != c.CoolantPressureDrop(0.05, p) {
				t.Error("the face or the coolant's drop has changed")
			}
		}
	}
}

// Dust closes passages: mass velocity, losses and surface go with what is open; the
// tubes stay.
func TestDustClosesPassages(t *testing.T) {
	for _, c := range plausible(t, 40) {
		const share = 0.2
		dusty := c
		dusty.Block(share)
		near(t, "Re", dusty.Reynolds(0.01, 1.8e-5), c.Reynolds(0.01, 1.8e-5)/(1-share), 1e-12)
		near(t, "air area", dusty.AirArea(), c.AirArea()*(1-share), 1e-12)
		near(t, "sigma", dusty.Sigma(), c.Sigma()*(1-share), 1e-12)
		near(t, "surface efficiency", dusty.WithFins(dusty.FinEfficiency(50)), c.WithFins(c.FinEfficiency(50)), 1e-12)
		// With equal densities the drop is G²/2ρ (K_c + K_e + f A/A_c), of the same passages.
		s, g := dusty.sigma, 0.01/(c.flowArea*(1-share))
		want := g * g / (2 * 1.2) * (0.4*(1-s*s) + (1-s)*(1-s) + 0.1*c.airArea/c.flowArea)
		near(t, "pressure drop", dusty.PressureDropWith(0.1, 0.01, 1.2, 1.2), want, 1e-12)
		if dusty.TubeInsideArea() != c.TubeInsideArea() || dusty.WallResistance() != c.WallResistance() || dusty.FaceArea() != c.FaceArea() {
			t.Error("the tubes or the face have changed")
		}
	}
}

// What is closed or in shadow takes pressure and conductance at every airflow: more
// of it never helps, unless it drives plain passages out of laminar flow.
func TestBlockageNeverHelps(t *testing.T) {
	p := coolant.Liquid{}.At(310)
	for i, c := range plausible(t, 100) {
		for name, close := range map[string]func(c *Core, share float64){"dust": (*Core).Block, "shadow": (*Core).Shadow} {
			for _, re := range []float64{1, 20, 80, 99, 120, 200, 400, 2000} {
				if (c.geometry.Surface == Plain || c.geometry.Surface == Triangular) && re > (1-0.6)*LaminarEnd {
					continue
				}
				flow := flowAt(&c, re)
				before, ua := 0.0, 1e300
				for share := 0.0; share <= 0.6; share += 0.05 {
					less := c
					close(&less, share)
					drop, h := less.PressureDrop(flow, 1.18, 1.14, roomAir.Viscosity), less.AirFilm(flow, roomAir)
					inside, _ := less.CoolantFilm(0.05, p)
					got := 1 / (1/(less.WithFins(less.FinEfficiency(h))*h*less.AirArea()) + less.WallResistance() + 1/(inside*less.TubeInsideArea()))
					if !(drop > before && got < ua) {
						t.Errorf("core %d, %s of %v at Re %v: drop %v Pa after %v, conductance %v W/K after %v", i, name, share, re, drop, before, got, ua)
					}
					before, ua = drop, got
				}
			}
		}
	}
}
