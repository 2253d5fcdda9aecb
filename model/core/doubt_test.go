package core

import (
	"math"
	"sort"
	"testing"
)

// quietCore is a louvered core for which the second opinion widens nothing: its
// dimensions lie outside the data of that.
func quietCore(t *testing.T, spacing float64) Core {
	return surfaceCore(t, Louvered, func(g *Geometry) {
		g.FinThickness = 0.000161
		g.FinDensity = 1 / (spacing * g.LouverPitch * math.Sin(g.LouverAngle))
	})
}

// The lines of the tables, read off in the middle of their ranges of the Reynolds
// number, and half-way between.
func TestDoubtIsThatOfItsTable(t *testing.T) {
	dense, wide := quietCore(t, 3.9), quietCore(t, 4.1)
	plain, strips := surfaceCore(t, Plain, nil), surfaceCore(t, OffsetStrip, nil)
	folds := surfaceCore(t, Triangular, nil)
	for _, row := range []struct {
		what string
		of   *Core
		re   float64
		want Doubt
	}{
		{"dense louvers at rest", &dense, 0.1, Doubt{-0.55, 0.30, -0.45, 0.45}},
		{"dense louvers", &dense, 14, Doubt{-0.55, 0.30, -0.45, 0.45}},
		{"dense louvers", &dense, 32, Doubt{-0.45, 0.25, -0.40, 0.45}},
		{"dense louvers", &dense, 51.5, Doubt{-0.375, 0.25, -0.375, 0.40}},
		{"dense louvers", &dense, 71, Doubt{-0.30, 0.25, -0.35, 0.35}},
		{"dense louvers", &dense, 150, Doubt{-0.20, 0.20, -0.30, 0.30}},
		{"dense louvers", &dense, 2000, Doubt{-0.20, 0.20, -0.30, 0.30}},
		{"wide louvers", &wide, 14, Doubt{-0.55, 0.30, -0.50, 0.65}},
		{"wide louvers", &wide, 32, Doubt{-0.45, 0.25, -0.50, 0.65}},
		{"wide louvers", &wide, 71, Doubt{-0.30, 0.25, -0.35, 0.60}},
		{"wide louvers", &wide, 150, Doubt{-0.20, 0.20, -0.30, 0.30}},
		{"plain fins", &plain, 200, Doubt{-0.15, 0.15, -0.10, 0.10}},
		{"plain fins", &plain, 3150, Doubt{-0.20, 0.20, -0.175, 0.175}},
		{"V-folds", &folds, 2300, Doubt{-0.15, 0.15, -0.10, 0.10}},
		{"strips at rest", &strips, 10, Doubt{-0.40, 0.40, -0.40, 0.40}},
		{"strips", &strips, 1000, Doubt{-0.20, 0.20, -0.20, 0.20}},
		{"strips", &strips, 50000, Doubt{-0.30, 0.30, -0.30, 0.30}},
	} {
		got := row.of.doubtInside(row.re)
		for _, d := range []float64{got.FilmLow - row.want.FilmLow, got.FilmHigh - row.want.FilmHigh, got.FrictionLow - row.want.FrictionLow, got.FrictionHigh - row.want.FrictionHigh} {
			if !(math.Abs(d) < 1e-12) {
				t.Errorf("%s at Re %v: %+v, want %+v", row.what, row.re, got, row.want)
				break
			}
		}
	}
}

// The second opinion is for louvers as in its data, from Re 27 to 4132, and else
// says nothing.
func TestSecondOpinionHasARange(t *testing.T) {
	c := surfaceCore(t, Louvered, nil)
	for re, want := range map[float64]bool{26.99: false, 27: true, 100: true, 4132: true, 4132.1: false} {
		if film, friction, ok := c.SecondOpinion(re); ok != want || (film == 1 && friction == 1) == want {
			t.Errorf("at Re %v: %v, %v, %v", re, film, friction, ok)
		}
	}
	for _, s := range []Surface{Plain, Triangular, OffsetStrip} {
		c := surfaceCore(t, s, nil)
		if film, friction, ok := c.SecondOpinion(300); ok || film != 1 || friction != 1 {
			t.Errorf("%v: %v, %v, %v", s, film, friction, ok)
		}
	}
	for name, change := range map[string]func(g *Geometry){
		"louver pitch":  func(g *Geometry) { g.LouverPitch = 0.0031 },
		"louver length": func(g *Geometry) { g.LouverLength = 0.0009 },
		"louver angle":  func(g *Geometry) { g.LouverAngle = 0.63 },
		"fin pitch":     func(g *Geometry) { g.FinDensity = 1 / 0.00515 },
		"fin depth":     func(g *Geometry) { g.FinDepth = 0.058 },
		"fin height":    func(g *Geometry) { g.FinHeight = 0.0205 },
		"fin thickness": func(g *Geometry) { g.FinThickness = 0.000161 },
		"tube pitch":    func(g *Geometry) { g.TubeHeight = 0.0186 },
	} {
		c := surfaceCore(t, Louvered, change)
		if _, _, ok := c.SecondOpinion(300); ok {
			t.Errorf("there is a second opinion beyond the %s of its data", name)
		}
	}
}

// Where both opinions are at home they agree as SecondOpinion says: a count of our
// own, no proof of either.
func TestOpinionsAgreeAtHome(t *testing.T) {
	var films, frictions []float64
	for _, c := range plausible(t, 4000) {
		if c.outside {
			continue
		}
		for _, re := range []float64{200, 300, 1000} {
			if film, friction, ok := c.SecondOpinion(re); ok {
				films, frictions = append(films, film), append(frictions, friction)
			}
		}
	}
	if len(films) < 300 {
		t.Fatalf("only %d opinions", len(films))
	}
	sort.Float64s(films)
	sort.Float64s(frictions)
	low, high := len(films)/20, len(films)-1-len(films)/20
	if films[low] < 0.85 || films[high] > 1.30 || frictions[low] < 0.70 || frictions[high] > 1.40 {
		t.Errorf("nine in ten lie between %v and %v in film, %v and %v in friction", films[low], films[high], frictions[low], frictions[high])
	}
}

// The doubt holds the second opinion from Re = 70 down, that of Re = 27 below there,
// and nothing jumps on the way; above 100 it is the table's alone.
func TestSecondOpinionWidensTheDoubt(t *testing.T) {
	widened := [4]int{}
	for i, c := range plausible(t, 2000) {
		if c.geometry.Surface != Louvered {
			continue
		}
		lines := louveredDoubt[:]
		if c.louvered.spacing > 4 {
			lines = wideDoubt[:]
		}
		for re := 5.0; re < 400; re *= 1.1 {
			got, table := c.doubtInside(re), doubtAt(lines, re)
			film, friction, ok := c.SecondOpinion(math.Max(re, 27))
			if !ok || re >= 100 {
				if got != table {
					t.Errorf("core %d at Re %v: %+v, the table has %+v", i, re, got, table)
				}
				continue
			}
			if got.FilmLow > table.FilmLow || got.FilmHigh < table.FilmHigh || got.FrictionLow > table.FrictionLow || got.FrictionHigh < table.FrictionHigh {
				t.Errorf("core %d at Re %v: %+v is narrower than the table's %+v", i, re, got, table)
			}
			if re <= 70 {
				want := Doubt{min(table.FilmLow, film-1), max(table.FilmHigh, film-1), min(table.FrictionLow, friction-1), max(table.FrictionHigh, friction-1)}
				if math.Abs(got.FilmLow-want.FilmLow)+math.Abs(got.FilmHigh-want.FilmHigh)+math.Abs(got.FrictionLow-want.FrictionLow)+math.Abs(got.FrictionHigh-want.FrictionHigh) > 1e-12 {
					t.Errorf("core %d at Re %v: %+v, want %+v", i, re, got, want)
				}
				for k, wider := range []bool{got.FilmLow < table.FilmLow, got.FilmHigh > table.FilmHigh, got.FrictionLow < table.FrictionLow, got.FrictionHigh > table.FrictionHigh} {
					if wider {
						widened[k]++
					}
				}
			}
		}
		for _, joint := range []float64{27, 70, 100} {
			before, after := c.doubtInside(joint*(1-1e-9)), c.doubtInside(joint*(1+1e-9))
			if math.Abs(before.FilmLow-after.FilmLow)+math.Abs(before.FilmHigh-after.FilmHigh)+math.Abs(before.FrictionLow-after.FrictionLow)+math.Abs(before.FrictionHigh-after.FrictionHigh) > 1e-7 {
				t.Errorf("core %d: the doubt jumps at Re %v from %+v to %+v", i, joint, before, after)
			}
		}
	}
	for k, n := range widened {
		if n == 0 {
			t.Errorf("end %d of the doubt is never widened", k)
		}
	}
}

// A dimension outside the data behind the correlations makes the doubt half as much
// again, but leaves something of film and friction.
func TestDoubtOutsideTheDataIsWider(t *testing.T) {
	inside := surfaceCore(t, Louvered, func(g *Geometry) { g.FinDepth, g.FinHeight = 0.03, 0.0065 })
	beyond := surfaceCore(t, Louvered, func(g *Geometry) { g.FinDepth, g.FinHeight = 0.06, 0.0065 })
	if inside.outside || !beyond.outside {
		t.Fatalf("outside: %v, %v", inside.outside, beyond.outside)
	}
	for _, re := range []float64{5, 50, 99, 101, 300, 2000} {
		if inside.Doubt(re) != inside.doubtInside(re) {
			t.Errorf("inside at Re %v: %+v", re, inside.Doubt(re))
		}
		got, want := beyond.Doubt(re), beyond.doubtInside(re)
		if got.FilmHigh != 1.5*want.FilmHigh || got.FrictionLow != max(1.5*want.FrictionLow, -0.95) || got.FilmLow < -0.95 || got.FilmLow >= want.FilmLow {
			t.Errorf("beyond at Re %v: %+v, inside %+v", re, got, want)
		}
	}
}
