package coolant_test

import (
	"math"
	"testing"

	"finduel/model/coolant"
)

func TestEveryFluidHasItsName(t *testing.T) {
	if got := coolant.Water.String(); got != "water" {
		t.Errorf("water is called %q", got)
	}
	for _, f := range []coolant.Fluid{-1, coolant.Water + 1} {
		if got := f.String(); got != "unknown fluid" {
			t.Errorf("fluid %d is called %q", int(f), got)
		}
	}
}

func TestTheZeroLiquidIsWater(t *testing.T) {
	var zero coolant.Liquid
	if zero.Fluid != coolant.Water || zero.At(300) != (coolant.Liquid{Fluid: coolant.Water}).At(300) {
		t.Error("the zero value is not water")
	}
}

func TestWaterIsLiquidBetweenFreezingAndBoiling(t *testing.T) {
	water := coolant.Liquid{Fluid: coolant.Water}
	if f, b := water.Freezing(), water.Boiling(); f != 273.15 || b != 373.15 {
		t.Errorf("freezing %g K, boiling %g K, want 0 °C and 100 °C", f, b)
	}
}

// Water is densest at 3.98 °C (Tanaka et al. 2001, Metrologia 38 301-309: 3.983 °C).
func TestWaterIsDensestAtFourDegrees(t *testing.T) {
	var water coolant.Liquid
	densest, at := 0.0, 0.0
	for c := 0.0; c <= 10; c += 0.01 {
		if d := water.At(c + 273.15).Density; d > densest {
			densest, at = d, c
		}
	}
	if math.Abs(at-3.98) > 0.03 {
		t.Errorf("densest at %.2f °C, want 3.98 °C", at)
	}
}

// Above its densest point warm water is lighter, thinner and conducts better; its
// specific heat has a minimum, which the published tables put at 35 °C to 40 °C.
func TestWaterPropertiesAreMonotoneWherePhysicsDemandsIt(t *testing.T) {
	var water coolant.Liquid
	before := water.At(277.65)
	for c := 5.0; c <= 100; c += 0.5 {
		p := water.At(c + 273.15)
		if !(p.Density < before.Density && p.Viscosity < before.Viscosity && p.Conductivity > before.Conductivity &&
			p.Prandtl() < before.Prandtl()) {
			t.Errorf("%g °C: %+v after %+v", c, p, before)
		}
		if rise := p.SpecificHeat - before.SpecificHeat; c < 30 && rise >= 0 || c > 45 && rise <= 0 {
			t.Errorf("%g °C: specific heat changes by %g", c, rise)
		}
		before = p
	}
}

func TestPropertiesArePositiveAndSmoothAcrossTheirRange(t *testing.T) {
	var water coolant.Liquid
	for temperature := 254.15; temperature <= 382.15; temperature++ {
		a, b, c := water.At(temperature-1), water.At(temperature), water.At(temperature+1)
		for _, v := range [][3]float64{
			{a.Density, b.Density, c.Density},
			{a.Viscosity, b.Viscosity, c.Viscosity},
			{a.Conductivity, b.Conductivity, c.Conductivity},
			{a.SpecificHeat, b.SpecificHeat, c.SpecificHeat},
		} {
			if bend := math.Abs(v[0]-2*v[1]+v[2]) / v[1]; !(v[1] > 0 && bend < 5e-3) {
				t.Errorf("%g K: value %g, bend %g", temperature, v[1], bend)
			}
		}
	}
}

func TestAtAllocatesNothing(t *testing.T) {
	var water coolant.Liquid
	if n := testing.AllocsPerRun(100, func() { sink = water.At(310) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

var sink coolant.Properties

func BenchmarkAt(b *testing.B) {
	var water coolant.Liquid
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		sink = water.At(290 + float64(i&31))
	}
}
