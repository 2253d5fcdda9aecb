package core

import (
	"math"
	"testing"
)

// No arrangement does better than counterflow; mixing a stream costs, mixing the
// other too costs more. But for both mixed, more transfer units help; a greater
// ratio hurts always.
func TestOrderOfArrangements(t *testing.T) {
	for _, c := range ratios {
		var last [arrangements]float64
		for _, n := range transferUnits {
			counter, unmixed, both := counterflow(n, c), CrossflowEffectiveness(n, c), bothMixed(n, c)
			most, least := mostMixed(n, c), leastMixed(n, c)
			if !(counter > unmixed && unmixed > least && least >= most*(1-1e-14) && most > both && both > 0) {
				t.Errorf("N = %v, C = %v: counterflow %v, unmixed %v, smaller mixed %v, greater mixed %v, both %v", n, c, counter, unmixed, least, most, both)
			}
			for _, a := range Arrangements() {
				e := a.effectiveness(n, c, true)
				if !(e > last[a]) && a != BothMixed {
					t.Errorf("%v, C = %v: %v at N = %v, after %v", a, c, e, n, last[a])
				}
				if less := a.effectiveness(n, c*0.99, true); !(less > e) {
					t.Errorf("%v, N = %v: %v at C = %v, but %v at less", a, n, e, c, less)
				}
				last[a] = e
			}
		}
	}
}

// With one stream at a constant temperature the arrangement does not matter, nor
// with so few transfer units that neither stream changes; a core without end brings
// what its arrangement can.
func TestLimitsOfArrangements(t *testing.T) {
	for _, a := range Arrangements() {
		for _, airLeast := range []bool{true, false} {
			for _, n := range append([]float64{0, 1e-12, 40, 1e4, math.Inf(1)}, transferUnits...) {
				for _, c := range []float64{0, 1e-300, 1e-17} {
					if c > 0 && math.IsInf(n, 1) {
						continue
					}
					if got, want := a.effectiveness(n, c, airLeast), -math.Expm1(-n); !(math.Abs(got-want) <= 1e-14*want) {
						t.Errorf("%v: N = %v, C = %v: %v, want %v", a, n, c, got, want)
					}
				}
			}
			for _, c := range ratios {
				for _, n := range []float64{1e-300, 1e-20, 1e-9} {
					if got := a.effectiveness(n, c, airLeast); !(math.Abs(got/n-1) < 1e-8) {
						t.Errorf("%v: N = %v, C = %v: %v", a, n, c, got)
					}
				}
				if got := a.effectiveness(0, c, airLeast); got != 0 {
					t.Errorf("%v: without transfer units at C = %v: %v", a, c, got)
				}
			}
			if e := a.effectiveness(math.NaN(), 0.5, airLeast); !math.IsNaN(e) {
				t.Errorf("%v: not a number gives %v", a, e)
			}
		}
	}
	for _, c := range ratios {
		near(t, "counterflow without end", counterflow(1e12, c), 1, 1e-11)
		near(t, "greater mixed without end", mostMixed(1e12, c), -math.Expm1(-c)/c, 1e-12)
		near(t, "smaller mixed without end", leastMixed(1e12, c), -math.Expm1(-1/c), 1e-12)
		near(t, "both mixed without end", bothMixed(1e12, c), 1/(1+c), 1e-11)
	}
	near(t, "counterflow without any end", counterflow(math.Inf(1), 1), 1, 0)
	near(t, "next to equal capacities", counterflow(3, 1-1e-12), 0.75, 1e-11)
	near(t, "two perfect ones", inCounterflow(1, 1, 1), 1, 0)
}

// mixedField solves the heat balance of crossflow slice by slice along the greater
// stream, which is mixed across, and returns what the smaller one has taken up.
func mixedField(n, c float64, cells int) float64 {
	big, taken := 1.0, 0.0
	for range cells {
		small := big * -math.Expm1(-n)
		drop := c * small / float64(cells)
		big -= drop
		taken += small / float64(cells)
	}
	return taken
}

func TestMostMixedAgainstTheHeatBalance(t *testing.T) {
	for _, n := range []float64{0.3, 1, 3, 8} {
		for _, c := range []float64{0.2, 0.7, 1} {
			coarse, fine := mixedField(n, c, 2000), mixedField(n, c, 4000)
			near(t, "effectiveness", mostMixed(n, c), 2*fine-coarse, 1e-6)
		}
	}
}

// behind marches both streams through passes behind one another until nothing
// changes: all the air goes through the last pass first, and both streams are mixed
// between passes. It returns the heat over the inlet temperature difference.
func behind(a Arrangement, ua, airCapacity, coolantCapacity float64, passes int) float64 {
	least, most := min(airCapacity, coolantCapacity), max(airCapacity, coolantCapacity)
	one := a.effectiveness(ua/float64(passes)/least, least/most, airCapacity <= coolantCapacity)
	into := make([]float64, passes+1) // air into each pass, counted as the coolant meets them; the last is fresh
	heat := 0.0
	for range 5000 {
		coolant := 1.0
		heat = 0
		next := make([]float64, passes+1)
		for p := range passes {
			q := one * least * (coolant - into[p+1])
			coolant -= q / coolantCapacity
			next[p] = into[p+1] + q/airCapacity
			heat += q
		}
		into = next
	}
	return heat
}

func TestPassesBehindOneAnotherAgainstAMarch(t *testing.T) {
	for _, a := range Arrangements() {
		for passes := 1; passes <= maxRows; passes++ {
			c := Core{geometry: Geometry{Passes: passes, Arrangement: a, Routing: CrossCounterflow}}
			for _, ua := range []float64{1, 50, 300} {
				for _, airCapacity := range []float64{2, 60, 200} {
					for _, coolantCapacity := range []float64{5, 60, 280} {
						e := c.Effectiveness(ua, airCapacity, coolantCapacity)
						near(t, "heat", e*min(airCapacity, coolantCapacity), behind(a, ua, airCapacity, coolantCapacity, passes), 1e-9)
					}
				}
			}
		}
	}
}

// Counterflow cut into passes is counterflow; passes of crossflow come the nearer to
// it the more there are. The closed form of equal passes is met where it has no
// singularity.
func TestPassesBehindOneAnotherTendToCounterflow(t *testing.T) {
	for _, n := range transferUnits {
		for _, ratio := range ratios {
			counter := counterflow(n, ratio)
			last := CrossflowEffectiveness(n, ratio)
			for passes := 1; passes <= maxRows; passes++ {
				g := Geometry{Passes: passes, Routing: CrossCounterflow}
				cut := g
				cut.Arrangement = Counterflow
				near(t, "counterflow in passes", (&Core{geometry: cut}).Effectiveness(30*n, 30, 30/ratio), counter, 1e-12)
				e := (&Core{geometry: g}).Effectiveness(30*n, 30, 30/ratio)
				if !(e < counter && (passes == 1 || e > last)) {
					t.Errorf("N = %v, C = %v, %d passes: %v after %v, counterflow has %v", n, ratio, passes, e, last, counter)
				}
				if one := CrossflowEffectiveness(n/float64(passes), ratio); ratio < 1 {
					r := math.Pow((1-one*ratio)/(1-one), float64(passes))
					near(t, "closed form", e, (r-1)/(r-ratio), 1e-10)
				}
				near(t, "streams turned round", (&Core{geometry: g}).Effectiveness(30*n, 30/ratio, 30), e, 1e-12)
				last = e
			}
		}
	}
}

// Passes side by side of any arrangement, marched one after the other.
func TestSideBySideOfAnyArrangement(t *testing.T) {
	for _, a := range Arrangements() {
		for passes := 1; passes <= 3; passes++ {
			c := Core{geometry: Geometry{Passes: passes, Arrangement: a}}
			for _, airCapacity := range []float64{20, 200, 900} {
				const ua, coolantCapacity = 120, 150
				heat, temperature := 0.0, 1.0
				for range passes {
					air := airCapacity / float64(passes)
					least, most := min(air, coolantCapacity), max(air, coolantCapacity)
					q := a.effectiveness(ua/float64(passes)/least, least/most, air <= coolantCapacity) * least * temperature
					temperature -= q / coolantCapacity
					heat += q
				}
				near(t, "heat", c.Effectiveness(ua, airCapacity, coolantCapacity)*min(airCapacity, coolantCapacity), heat, 1e-12)
			}
		}
	}
}

// Passes behind one another share the depth of the fins: each has its own tubes over
// all of the face.
func TestTubesBehindOneAnother(t *testing.T) {
	for passes := 1; passes <= maxRows; passes++ {
		rows := float64(passes)
		c := surfaceCore(t, Louvered, func(g *Geometry) { g.Routing, g.Passes = CrossCounterflow, passes })
		g := c.geometry
		wide, high := g.FinDepth/rows-2*g.TubeWall, g.TubeHeight-2*g.TubeWall
		near(t, "bore of a pass", c.tube.bore, wide*high*c.tubes, 1e-12)
		near(t, "inside", c.TubeInsideArea(), 2*(wide+high)*rows*g.FaceLength*c.tubes, 1e-12)
		near(t, "bore's diameter", c.tube.passage.diameter, 2*wide*high/(wide+high), 1e-12)
		near(t, "wall", c.WallResistance(), g.TubeWall/(g.TubeConductivity*2*(g.FinDepth/rows+g.TubeHeight-2*g.TubeWall)*rows*g.FaceLength*c.tubes), 1e-12)
	}
	// One pass is one pass, wherever it lies.
	side := surfaceCore(t, Louvered, func(g *Geometry) { g.Passes = 1 })
	behind := surfaceCore(t, Louvered, func(g *Geometry) { g.Passes, g.Routing = 1, CrossCounterflow })
	if side.tube != behind.tube {
		t.Errorf("one pass: %+v side by side, %+v behind one another", side.tube, behind.tube)
	}
}
