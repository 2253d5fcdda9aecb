package hazard_test

import (
	"math"
	"testing"

	"finduel/model/hazard"
)

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-12*math.Abs(want)) {
		t.Errorf("%s: %.15g, want %.15g", what, got, want)
	}
}

func TestStressesInTheirLimits(t *testing.T) {
	near(t, "no hub: half of a ring", hazard.RootStress(1200, 80, 0), 1200*80*80/2)
	near(t, "all hub", hazard.RootStress(1200, 80, 1), 0)
	near(t, "twice the speed", hazard.RootStress(1200, 160, 0.3), 4*hazard.RootStress(1200, 80, 0.3))
	near(t, "twice the density", hazard.RootStress(2400, 80, 0.3), 2*hazard.RootStress(1200, 80, 0.3))
	// The pull of all that is farther out: ∫ ρ ω² r dr from hub to tip, in steps.
	const density, speed, radius, hub, steps = 1240.0, 900.0, 0.06, 0.2, 20000
	sum, step := 0.0, radius*(1-hub)/steps
	for i := range steps {
		sum += density * speed * speed * (hub*radius + (float64(i)+0.5)*step) * step
	}
	if got := hazard.RootStress(density, speed*radius, hub); math.Abs(got/sum-1) > 1e-8 {
		t.Errorf("root stress %g, added up %g", got, sum)
	}
}

func TestFragments(t *testing.T) {
	near(t, "twice the speed", hazard.FragmentEnergy(0.001, 0.03, 400), 4*hazard.FragmentEnergy(0.001, 0.03, 200))
	near(t, "twice the mass", hazard.FragmentEnergy(0.002, 0.03, 400), 2*hazard.FragmentEnergy(0.001, 0.03, 400))
	near(t, "aluminium", hazard.FragmentMass(0.1, 2700), 2.25*hazard.FragmentMass(0.1, 0))
}

func TestWires(t *testing.T) {
	for gauge := 6.0; gauge < 28; gauge++ {
		near(t, "39 gauges are a factor of 92", hazard.WireDiameter(gauge)/hazard.WireDiameter(gauge+39), 92)
		area := hazard.WireArea(gauge)
		near(t, "there and back", hazard.VoltageDrop(7, 3, area, 300), 7*hazard.WireResistance(area, 6, 300))
		near(t, "two wires side by side", hazard.WireResistance(2*area, 3, 300), hazard.WireResistance(area, 3, 300)/2)
	}
}

// Nothing is rated for more than it carries in free air, and thicker wire carries more.
func TestGaugesAreInOrder(t *testing.T) {
	last := hazard.Gauge{}
	for area := 8.1e-8; area < 3e-5; area *= 1.01 {
		g := hazard.GaugeOf(area)
		if g.AWG == 0 || g.Rated >= g.FreeAir || g.FreeAir < last.FreeAir || g.Rated < last.Rated {
			t.Fatalf("%g m² is %+v, a little thinner %+v", area, g, last)
		}
		if hazard.WireArea(float64(g.AWG)) > area/0.989 {
			t.Fatalf("%g m² counts as %d AWG, which is thicker", area, g.AWG)
		}
		if g.AWG > 18 && math.Abs(g.Rated/hazard.WireArea(float64(g.AWG))/(7/hazard.WireArea(18))-1) > 0.03 {
			t.Errorf("%d AWG carries %g A, not as much on its area as 18 AWG", g.AWG, g.Rated)
		}
		last = g
	}
	if last.AWG != 6 {
		t.Errorf("the thickest wire counts as %d AWG", last.AWG)
	}
	for _, area := range []float64{0, -1, 5e-8, math.NaN()} {
		if g := hazard.GaugeOf(area); g != (hazard.Gauge{}) {
			t.Errorf("%g m² is %+v", area, g)
		}
	}
	for gauge := 6; gauge <= 28; gauge += 2 {
		if g := hazard.GaugeOf(hazard.WireArea(float64(gauge))); g.AWG != gauge {
			t.Errorf("%d AWG counts as %d", gauge, g.AWG)
		}
	}
}

// A blade of no stated mass has that of its material: aluminium is heavier than plastic.
func TestFragmentHasTheDensityOfItsBlade(t *testing.T) {
	mass := func(m hazard.Material) float64 {
		b := hazard.Build{Blade: m}
		kg, assumed := b.Fragment(0.127)
		if energy, too := b.FragmentEnergy(0.127, 300); !assumed || !too || energy != hazard.FragmentEnergy(kg, 0.25*0.127, 300) {
			t.Errorf("%v: %g kg with %g J", m, kg, energy)
		}
		return kg
	}
	near(t, "plastic", mass(hazard.MaterialNotKnown), 1e-3)
	near(t, "aluminium", mass(hazard.Aluminium), 2.25e-3)
	near(t, "wood", mass(hazard.Wood), 1e-3*700/1200)
}

func TestGuardDistanceRisesWithTheOpening(t *testing.T) {
	for i, shape := range hazard.Openings {
		if int(shape) != i {
			t.Errorf("shape %d stands at %d", shape, i)
		}
		last := 0.0
		for size := 0.1e-3; size <= 0.12; size += 0.1e-3 {
			d, ok := hazard.GuardDistance(shape, size)
			if !ok || d < last {
				t.Fatalf("%v of %g m: %g m, a smaller one %g m", shape, size, d, last)
			}
			if slot, _ := hazard.GuardDistance(hazard.Slot, size); d > slot {
				t.Fatalf("%v of %g m must stand farther off than a slot", shape, size)
			}
			last = d
		}
		for _, size := range []float64{0.1201, 1, math.NaN()} {
			if d, ok := hazard.GuardDistance(shape, size); ok || d != 0 {
				t.Errorf("%v of %g m: %g m", shape, size, d)
			}
		}
		if d, ok := hazard.GuardDistance(shape, hazard.LargestOpening); !ok || d != 0.85 {
			t.Errorf("%v of the largest size: %g m", shape, d)
		}
	}
	words := [...]string{hazard.Slot.String(), hazard.Square.String(), hazard.Round.String()}
	if words != [...]string{"slot", "square", "round"} {
		t.Errorf("%v", words)
	}
}
