package core

import (
	"math"
	"testing"
)

// surfaceCore is an invented core of a surface, 120 mm by 120 mm, fins 27 mm deep,
// with one dimension or another changed.
func surfaceCore(t *testing.T, s Surface, change func(g *Geometry)) Core {
	t.Helper()
	g := TypicalGeometry(Aluminium, s)
	g.FaceLength, g.FaceWidth, g.FinDepth = 0.12, 0.12, 0.027
	if change != nil {
		change(&g)
	}
	c, err := New(g)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Triangular passages are what straight legs of the strip's thickness leave free
// between two tubes: found here by crossing lines.
func TestAreasOfTriangles(t *testing.T) {
	looked := 0
	for _, c := range plausible(t, 200) {
		g := c.geometry
		if g.Surface != Triangular {
			continue
		}
		looked++
		pitch, thick := 1/g.FinDensity, g.FinThickness
		// The middle of a leg runs from (pitch, thick/2) to (0, FinHeight − thick/2); its
		// near face is half a thickness closer to the middle of the passage.
		dx, dy := -pitch, g.FinHeight-thick
		length := math.Hypot(dx, dy)
		nx, ny := -dy/length, dx/length // towards the passage
		x0, y0 := pitch+nx*thick/2, thick/2+ny*thick/2
		base := x0 - y0*dx/dy // where the face meets the tube, from the middle
		top := y0 - x0*dy/dx  // where it meets its neighbour
		area, side := base*top, math.Hypot(base, top)
		passages := c.tubes * g.FaceLength / pitch
		near(t, "flow area", c.flowArea, passages*area, 1e-12)
		near(t, "fin area", c.finArea, passages*2*side*g.FinDepth, 1e-12)
		near(t, "air area", c.AirArea(), passages*2*(side+base)*g.FinDepth, 1e-12)
		near(t, "diameter", c.diameter, 2*area/(side+base), 1e-12)
		near(t, "diameter of the duct", c.passage.diameter, c.diameter, 1e-12)
		near(t, "root", c.passage.root, math.Sqrt(area), 1e-12)
		near(t, "leg", c.finRoot, length/2-thick/2, 1e-12)
		near(t, "sigma", c.Sigma(), area/((g.FinHeight+g.TubeHeight)*pitch), 1e-12)
	}
	if looked < 20 {
		t.Errorf("only %d cores", looked)
	}
}

// V-folds so dense that they are U-folds leave nearly the same way free; the wall of
// the tubes is then of no account.
func TestDenseFoldsAreNearlyParallel(t *testing.T) {
	dense := func(g *Geometry) { g.FinDensity, g.FinThickness = 4000, 1e-6 }
	v, u := surfaceCore(t, Triangular, dense), surfaceCore(t, Plain, dense)
	near(t, "flow area", v.flowArea, u.flowArea, 1e-3)
	near(t, "fin area", v.finArea, u.finArea, 0.01)
	near(t, "fin efficiency", v.FinEfficiency(100), u.FinEfficiency(100), 0.01)
}

// Slow air in a long triangular passage is fully developed; in a passage shorter
// than its boundary layer needs it is a flat plate (Shah & London 1978).
func TestTrianglesFromPlateToDuct(t *testing.T) {
	for _, c := range plausible(t, 80) {
		if c.geometry.Surface != Triangular {
			continue
		}
		d, scale := &c.passage, c.passage.diameter/c.passage.root
		apex := 2 * math.Atan(1/c.geometry.FinDensity/(c.geometry.FinHeight-c.geometry.FinThickness))
		long := c.plain
		long.depth = 1e6
		friction, nusselt := inTriangle(apex)
		near(t, "Nu at rest", long.film(0.1, airOf(0.7), d)*d.diameter/0.026, nusselt, 1e-6)
		near(t, "f Re at rest", long.frictionFactor(0.1, d)*0.1, friction, 1e-6)
		short := c.plain
		short.depth = 1e-4 * d.root
		near(t, "film of a plate", short.nusselt(2000, 0.7, d.root)*1e-4, 0.664*math.Sqrt(0.2)*math.Cbrt(0.7), 0.02)
		near(t, "friction of a plate", short.frictionFactor(2000*scale, d)*2000, 3.44*math.Sqrt(2000/1e-4), 0.01)
		if re := 2 * TurbulentStart; !(c.plain.frictionFactor(re, d) >= smoothFriction(re)/4) {
			t.Errorf("friction at Re %v is below that of a smooth duct", re)
		}
	}
}

// The table is smooth: what cubics make of it neither jumps nor turns more often
// than the flow does, which has its most at 60° (that of the cubics is at 62°).
func TestTrianglesHaveTheirMostAtSixtyDegrees(t *testing.T) {
	var friction, nusselt float64
	for degrees := 0.0; degrees <= 180; degrees += 0.25 {
		f, n := inTriangle(degrees * math.Pi / 180)
		if degrees > 0 && degrees <= 59 && !(f > friction && n > nusselt) || degrees > 62.5 && !(f < friction && n < nusselt) {
			t.Errorf("at %v°: f Re %v after %v, Nu %v after %v", degrees, f, friction, n, nusselt)
		}
		if degrees > 0 && !(math.Abs(f-friction) < 0.02 && math.Abs(n-nusselt) < 0.04) {
			t.Errorf("a jump at %v°: f Re %v after %v, Nu %v after %v", degrees, f, friction, n, nusselt)
		}
		friction, nusselt = f, n
	}
	for _, beyond := range []float64{-1, 4} {
		if f, n := inTriangle(beyond); f != 12 || math.Abs(n-0.9426) > 1e-4 {
			t.Errorf("beyond its ends the table is %v, %v", f, n)
		}
	}
}

// The published model of developed film in ducts with small corner angles (Muzychka
// & Yovanovich 2004, exponent -0.3 from memory) is why the table is used: it does
// well where the angle is small only.
func TestPublishedModelOfSmallCorners(t *testing.T) {
	for _, row := range []struct{ degrees, low, high float64 }{{10, -0.01, 0.01}, {20, 0.03, 0.06}, {30, 0.08, 0.10}, {60, 0.20, 0.24}} {
		half := row.degrees * math.Pi / 360
		base, area := 2*math.Tan(half), math.Tan(half) // of height 1
		aspect := math.Min(base, 1/base)
		if row.degrees == 60 {
			aspect = 1 // a regular polygon
		}
		diameter := 4 * area / (base + 2/math.Cos(half))
		root := math.Sqrt(area)
		friction, nusselt := inTriangle(2 * half)
		model := 3.24 * friction * root / diameter / (8 * math.Sqrt(math.Pi) * math.Pow(aspect, -0.3)) * diameter / root
		if over := model/nusselt - 1; !(over > row.low && over < row.high) {
			t.Errorf("at %v° it is %v over the table", row.degrees, over)
		}
	}
}

// Strips have the sides of the fins, the tube walls, and edges before and behind:
// of the legs all, of the crests half.
func TestAreasOfStrips(t *testing.T) {
	looked := 0
	for _, c := range plausible(t, 200) {
		g := c.geometry
		if g.Surface != OffsetStrip {
			continue
		}
		looked++
		pitch := 1 / g.FinDensity
		gap, height := pitch-g.FinThickness, g.FinHeight-g.FinThickness
		passages := c.tubes * g.FaceLength / pitch
		strips := g.FinDepth / g.StripLength
		edges := strips * (2*height*g.FinThickness + gap*g.FinThickness)
		near(t, "flow area", c.flowArea, passages*gap*height, 1e-12)
		near(t, "fin area", c.finArea, passages*(2*height*g.FinDepth+edges), 1e-12)
		near(t, "air area", c.AirArea(), passages*(2*(gap+height)*g.FinDepth+edges), 1e-12)
		m := math.Sqrt(2 * 80 / (g.FinConductivity * g.FinThickness) * (1 + g.FinThickness/g.StripLength))
		l := g.FinHeight/2 - g.FinThickness
		near(t, "fin efficiency", c.FinEfficiency(80), math.Tanh(m*l)/(m*l), 1e-12)
	}
	if looked < 20 {
		t.Errorf("only %d cores", looked)
	}
}

// As the air comes to rest strips exchange and take what the passage does that they
// are cut from; never less. From Re = 300 on, for dimensions as in the data, film
// and friction are the correlations' alone.
func TestStripsTendToTheUncutPassage(t *testing.T) {
	within := 0
	for i, c := range plausible(t, 800) {
		g := c.geometry
		if g.Surface != OffsetStrip {
			continue
		}
		pitch := 1 / g.FinDensity
		gap, height := pitch-g.FinThickness, g.FinHeight-g.FinThickness
		uncut := newDuct(gap, height)
		area := 4 * c.flowArea * g.FinDepth / uncut.diameter
		conducts := uncut.nusselt * roomAir.Conductivity / uncut.diameter * area
		for _, re := range []float64{1e-6, 1e-3, 0.1} {
			flow := flowAt(&c, re)
			near(t, "conductance at rest", c.AirFilm(flow, roomAir)*c.AirArea(), conducts, 1e-12)
			// Pressure per velocity head, on either surface.
			inUncut := flow / c.flowArea * uncut.diameter / roomAir.Viscosity
			near(t, "drag at rest", c.Friction(re)*c.AirArea(), uncut.friction/inUncut*area, 1e-12)
		}
		for re := 0.1; re < 1e5; re *= 1.5 {
			flow := flowAt(&c, re)
			if got := c.AirFilm(flow, roomAir) * c.AirArea(); got < conducts*(1-1e-12) {
				t.Errorf("core %d: conductance %v at Re %v, the uncut passage has %v", i, got, re, conducts)
			}
			inUncut := flow / c.flowArea * uncut.diameter / roomAir.Viscosity
			if got, least := c.Friction(re)*c.AirArea(), uncut.friction/inUncut*area; got < least*(1-1e-12) {
				t.Errorf("core %d: drag %v at Re %v, the uncut passage has %v", i, got, re, least)
			}
		}
		if c.outside {
			continue
		}
		within++
		for _, re := range []float64{300, 1000, 5000} {
			j := math.Exp(c.strip.lnColburn(math.Log(re)))
			h := j * flowAt(&c, re) / c.flowArea * roomAir.SpecificHeat / math.Pow(roomAir.Prandtl(), 2./3)
			near(t, "film in range", c.AirFilm(flowAt(&c, re), roomAir), h, 1e-12)
			if c.Friction(re) <= c.strip.drag/re {
				t.Errorf("core %d: friction at Re %v is the uncut passage's", i, re)
			}
		}
	}
	if within < 20 {
		t.Errorf("only %d cores have dimensions as in the data", within)
	}
}

// Thick V-folds: half their slant, less half a thickness, is the root of the fin.
func TestEfficiencyOfSlantedFins(t *testing.T) {
	c := surfaceCore(t, Triangular, nil)
	g := c.geometry
	m := math.Sqrt(2 * 60 / (g.FinConductivity * g.FinThickness) * (1 + g.FinThickness/g.FinDepth))
	l := math.Hypot(1/g.FinDensity, g.FinHeight-g.FinThickness)/2 - g.FinThickness/2
	near(t, "fin efficiency", c.FinEfficiency(60), math.Tanh(m*l)/(m*l), 1e-12)
}

// At a given airflow strips conduct more than plain fins and take more pressure;
// V-folds less of both.
func TestOrderOfSurfaces(t *testing.T) {
	of := func(s Surface) (conductance, drop float64) {
		c := surfaceCore(t, s, nil)
		flow := 2 * c.FaceArea() * roomAir.Density
		h := c.AirFilm(flow, roomAir)
		return h * c.AirArea() * c.WithFins(c.FinEfficiency(h)), c.PressureDrop(flow, 1.18, 1.18, roomAir.Viscosity)
	}
	var conductance, drop float64
	for _, s := range []Surface{Triangular, Plain, OffsetStrip, Louvered} {
		g, p := of(s)
		if !(g > conductance && p > drop) {
			t.Errorf("%v: %v W/K after %v, %v Pa after %v", s, g, conductance, p, drop)
		}
		conductance, drop = g, p
	}
}
