package coolant_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"finduel/model/coolant"
	"finduel/model/quantity"
	"finduel/testdata/published"
)

var glycols = []coolant.Fluid{coolant.EthyleneGlycol, coolant.PropyleneGlycol}

func TestPublishedGlycol(t *testing.T) {
	checks := map[string]func(t *testing.T, r published.Row) float64{}
	for _, fluid := range glycols {
		liquid := func(t *testing.T, r published.Row) coolant.Liquid {
			return coolant.Liquid{Fluid: fluid, GlycolShare: r.Arg(t, "x")}
		}
		property := func(of func(p coolant.Properties) float64) func(t *testing.T, r published.Row) float64 {
			return func(t *testing.T, r published.Row) float64 {
				return of(liquid(t, r).At(r.Arg(t, "t_C") + 273.15))
			}
		}
		name, _, _ := strings.Cut(fluid.String(), " ")
		checks[name+"_density"] = property(func(p coolant.Properties) float64 { return p.Density })
		checks[name+"_specific_heat"] = property(func(p coolant.Properties) float64 { return p.SpecificHeat })
		checks[name+"_conductivity"] = property(func(p coolant.Properties) float64 { return p.Conductivity })
		checks[name+"_viscosity"] = property(func(p coolant.Properties) float64 { return p.Viscosity })
		checks[name+"_freezing_C"] = func(t *testing.T, r published.Row) float64 { return liquid(t, r).Freezing() - 273.15 }
	}
	published.Run(t, "glycol", checks)
}

// eachMixture visits both glycols with shares from 1 % to 60 %.
func eachMixture(visit func(l coolant.Liquid)) {
	for _, fluid := range glycols {
		for percent := 1.0; percent <= 60; percent++ {
			visit(coolant.Liquid{Fluid: fluid, GlycolShare: percent / 100})
		}
	}
}

// Glycol makes water freeze later, heavier, thicker, and carry and hold less heat.
func TestMoreGlycolIsWorseForCooling(t *testing.T) {
	eachMixture(func(l coolant.Liquid) {
		less := l
		less.GlycolShare -= 0.01
		if l.Freezing() >= less.Freezing() {
			t.Errorf("%v %.2f freezes at %g K, with less glycol at %g K", l.Fluid, l.GlycolShare, l.Freezing(), less.Freezing())
		}
		if less.GlycolShare < 0.005 {
			return // the step from water, held in a test of its own
		}
		for temperature := math.Ceil(less.Freezing()); temperature <= l.Boiling(); temperature++ {
			p, q := l.At(temperature), less.At(temperature)
			if !(p.Density > q.Density && p.Viscosity > q.Viscosity && p.Conductivity < q.Conductivity && p.SpecificHeat < q.SpecificHeat) {
				t.Errorf("%v %.2f at %g K: %+v, with less glycol %+v", l.Fluid, l.GlycolShare, temperature, p, q)
			}
		}
	})
}

// Warm mixtures are thinner and conduct better, and lighter but for weak ones near
// the densest point of water; with a share from 0.10 they hold more heat.
func TestMixturesAreMonotoneInTemperature(t *testing.T) {
	eachMixture(func(l coolant.Liquid) {
		before := l.At(l.Freezing())
		for temperature := l.Freezing() + 1; temperature <= l.Boiling(); temperature++ {
			p := l.At(temperature)
			if !(p.Viscosity < before.Viscosity && p.Conductivity > before.Conductivity) {
				t.Errorf("%v %.2f at %g K: %+v after %+v", l.Fluid, l.GlycolShare, temperature, p, before)
			}
			if temperature > 278 && p.Density >= before.Density || l.GlycolShare >= 0.10 && p.SpecificHeat <= before.SpecificHeat {
				t.Errorf("%v %.2f at %g K: %+v after %+v", l.Fluid, l.GlycolShare, temperature, p, before)
			}
			before = p
		}
	})
}

// The polynomials do not meet water: the step is as small as At says.
func TestTheStepFromWaterIsSmall(t *testing.T) {
	for _, fluid := range glycols {
		for temperature := 273.15; temperature <= 373.15; temperature += 5 {
			none, some := coolant.Liquid{Fluid: fluid}.At(temperature), coolant.Liquid{Fluid: fluid, GlycolShare: 1e-9}.At(temperature)
			if none != (coolant.Liquid{}).At(temperature) {
				t.Errorf("%v without glycol at %g K is not water: %+v", fluid, temperature, none)
			}
			for _, v := range [][2]float64{
				{none.Density, some.Density}, {none.Viscosity, some.Viscosity},
				{none.Conductivity, some.Conductivity}, {none.SpecificHeat, some.SpecificHeat},
			} {
				if step := math.Abs(v[1]/v[0] - 1); step == 0 || step > 0.018 {
					t.Errorf("%v at %g K steps from %g to %g", fluid, temperature, v[0], v[1])
				}
			}
		}
	}
}

func TestLimitsAndDoubtsOfLiquids(t *testing.T) {
	for _, c := range []struct {
		liquid     coolant.Liquid
		fit, doubt float64
	}{
		{coolant.Liquid{}, 383.15, 0.01},
		{coolant.Liquid{Fluid: coolant.EthyleneGlycol}, 383.15, 0.01},
		{coolant.Liquid{Fluid: coolant.EthyleneGlycol, GlycolShare: 0.3}, 313.15, 0.06},
		{coolant.Liquid{Fluid: coolant.PropyleneGlycol, GlycolShare: 0.6}, 313.15, 0.06},
	} {
		if fit, doubt, boiling := c.liquid.FitEnd(), c.liquid.ViscosityDoubt(), c.liquid.Boiling(); fit != c.fit || doubt != c.doubt || boiling != 373.15 {
			t.Errorf("%+v: fitted up to %g K, viscosity in doubt by %g, refused above %g K; want %g K, %g, 373.15 K", c.liquid, fit, doubt, boiling, c.fit, c.doubt)
		}
	}
}

func TestCheckRefusesImpossibleShares(t *testing.T) {
	for _, c := range []struct {
		fluid coolant.Fluid
		share float64
		high  float64
		bad   bool
	}{
		{coolant.Water, 0, 0, false},
		{coolant.Water, 1e-9, 0, true},
		{coolant.Water, -1e-9, 0, true},
		{coolant.Water, math.NaN(), 0, true},
		{coolant.EthyleneGlycol, 0, 0.6, false},
		{coolant.EthyleneGlycol, 0.3, 0.6, false},
		{coolant.EthyleneGlycol, 0.6, 0.6, false},
		{coolant.EthyleneGlycol, math.Nextafter(0.6, 1), 0.6, true},
		{coolant.PropyleneGlycol, math.Nextafter(0, -1), 0.6, true},
		{coolant.PropyleneGlycol, math.NaN(), 0.6, true},
		{coolant.PropyleneGlycol, math.Inf(1), 0.6, true},
	} {
		err := coolant.Liquid{Fluid: c.fluid, GlycolShare: c.share}.Check()
		if !c.bad {
			if err != nil {
				t.Errorf("%v with a share of %g: %v", c.fluid, c.share, err)
			}
			continue
		}
		var out *quantity.RangeError
		if !errors.As(err, &out) || out.Key != "glycol_share" || out.Low != 0 || out.High != c.high ||
			out.Value != c.share && !(math.IsNaN(out.Value) && math.IsNaN(c.share)) {
			t.Errorf("%v with a share of %g: %#v", c.fluid, c.share, err)
		}
	}
}

func TestAnUnknownFluidPanics(t *testing.T) {
	for what, call := range map[string]func(l coolant.Liquid){
		"At":       func(l coolant.Liquid) { l.At(300) },
		"Freezing": func(l coolant.Liquid) { l.Freezing() },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s of an unknown fluid answers", what)
				}
			}()
			call(coolant.Liquid{Fluid: coolant.PropyleneGlycol + 1})
		}()
	}
}
