package model_test

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/fan"
	"finduel/model/sound"
)

// inOrder lists the warnings in order of weight with their keys.
var inOrder = []struct {
	bit model.Warnings
	key string
}{
	{model.AirReynoldsLow, "air_reynolds_low"},
	{model.AirReynoldsHigh, "air_reynolds_high"},
	{model.CoreOutsideRange, "core_outside_range"},
	{model.StalledDeep, "stalled_deep"},
	{model.BelowValley, "below_valley"},
	{model.StallRegion, "stall_region"},
	{model.AboveTopSpeed, "above_top_speed"},
	{model.TipMachHigh, "tip_mach_high"},
	{model.Compressible, "compressible"},
	{model.CapacityLimited, "capacity_limited"},
	{model.CoolantTransition, "coolant_transition"},
	{model.HumidAir, "humid_air"},
	{model.BoilsHere, "boils_here"},
	{model.CoolantExtrapolated, "coolant_extrapolated"},
	{model.CoolantViscosity, "coolant_viscosity"},
	{model.PumpPowerLow, "pump_power_low"},
	{model.CoolantLimited, "coolant_limited"},
	{model.ChipCold, "chip_cold"},
	{model.InsideSaddle, "inside_saddle"},
	{model.MayHang, "may_hang"},
	{model.BladesStalled, "blades_stalled"},
	{model.RotorExtrapolated, "rotor_extrapolated"},
	{model.RotorLentFastest, "rotor_lent_fastest"},
	{model.RotorTooSlow, "rotor_too_slow"},
	{model.RotorBorrowed, "rotor_borrowed"},
	{model.DuctNarrows, "duct_narrows"},
	{model.RotorSlow, "rotor_slow"},
	{model.AirPowerHigh, "air_power_high"},
	{model.SoundExtrapolated, "sound_extrapolated"},
	{model.SupplyVoltageExceeded, "supply_voltage_exceeded"},
	{model.SupplyCurrentExceeded, "supply_current_exceeded"},
	{model.MotorCurrentExceeded, "motor_current_exceeded"},
	{model.ControllerCurrentExceeded, "controller_current_exceeded"},
	{model.SupplyCollapses, "supply_collapses"},
}

func TestWarningsAreCompleteAndInOrder(t *testing.T) {
	all := ^model.Warnings(0)
	list := all.List()
	if len(list) != len(inOrder) {
		t.Fatalf("%d warnings, want %d", len(list), len(inOrder))
	}
	word := regexp.MustCompile(`^[a-z]+(_[a-z]+)*$`)
	keys, texts := map[string]bool{}, map[string]bool{}
	joined := []string{}
	for i, w := range list {
		if w.Bit != inOrder[i].bit || w.Bit != 1<<i || w.Key != inOrder[i].key {
			t.Errorf("warning %d is %+v, want %v, %s", i, w, inOrder[i].bit, inOrder[i].key)
		}
		if !word.MatchString(w.Key) || keys[w.Key] {
			t.Errorf("key %q", w.Key)
		}
		if w.Text == "" || texts[w.Text] || strings.HasSuffix(w.Text, ".") || strings.TrimSpace(w.Text) != w.Text || strings.ToLower(w.Text[:1]) != w.Text[:1] {
			t.Errorf("text %q", w.Text)
		}
		keys[w.Key], texts[w.Text] = true, true
		joined = append(joined, w.Key)
	}
	if got, want := all.Keys(), strings.Join(joined, ";"); got != want {
		t.Errorf("keys %q, want %q", got, want)
	}
}

func TestWarningsOfASet(t *testing.T) {
	var none model.Warnings
	if none.List() != nil || none.Keys() != "" || none.Has(model.StallRegion) {
		t.Errorf("the empty set: %v, %q", none.List(), none.Keys())
	}
	for _, c := range inOrder {
		if got := c.bit.List(); len(got) != 1 || got[0].Bit != c.bit || c.bit.Keys() != c.key {
			t.Errorf("%s alone: %+v, %q", c.key, got, c.bit.Keys())
		}
	}
	two := model.Compressible | model.AirReynoldsLow
	if two.Keys() != "air_reynolds_low;compressible" {
		t.Errorf("two warnings: %q", two.Keys())
	}
	if !two.Has(model.Compressible) || !two.Has(two) || two.Has(two|model.StallRegion) || two.Has(model.StallRegion) {
		t.Error("the set of two does not hold what it holds")
	}
}

// The texts name the shares of free-air flow at which they come.
func TestStallTextsNameTheirShares(t *testing.T) {
	deep, saddle := fmt.Sprintf("%.0f %%", 100*fan.DeepStall), fmt.Sprintf("%.0f %%", 100*fan.StallRegion)
	for _, c := range []struct {
		bit  model.Warnings
		want []string
	}{{model.StalledDeep, []string{deep}}, {model.StallRegion, []string{deep, saddle}}} {
		for _, want := range c.want {
			if text := c.bit.List()[0].Text; !strings.Contains(text, want) {
				t.Errorf("%q does not say %s", text, want)
			}
		}
	}
}

// Each warning is reached by a rig that deserves it, and missing beside it.
func TestEachWarningIsReached(t *testing.T) {
	plain := func(r *model.Rig) {
		r.Speed, r.Core.FinDensity, r.Core.FinDepth = 40, 14/0.0254, 0.02
	}
	face := func(share float64) func(r *model.Rig) { // of its area that the disc of a fan has
		return func(r *model.Rig) {
			r.Fans.Fan.RotorDiameter = math.Sqrt(4 / math.Pi * share * r.Core.FaceLength * r.Core.FaceWidth)
		}
	}
	read := func(slowest, speed float64) func(r *model.Rig) { // from there to 100 rev/s
		return func(r *model.Rig) {
			r.Fans.Fan.Readings = &sound.Fitted{Speed: 70, Level: 60, Exponent: 50, Slowest: math.Min(slowest, 100), Fastest: math.Max(slowest, 100)}
			r.Speed = speed
		}
	}
	for _, c := range []struct {
		bit          model.Warnings
		name         string
		with, beside func(r *model.Rig)
	}{
		{model.AboveTopSpeed, "top speed", func(r *model.Rig) { r.Fans.Fan.TopSpeed = 99.99 }, func(r *model.Rig) { r.Fans.Fan.TopSpeed = 100 }},
		{model.AirPowerHigh, "air power", func(r *model.Rig) { r.Fans.Fan.RatedPower, r.Fans.Fan.ShutOffPressure = 14, 520 }, func(r *model.Rig) { r.Fans.Fan.RatedPower, r.Fans.Fan.ShutOffPressure = 17, 520 }},
		{model.TipMachHigh, "tip speed", func(r *model.Rig) { r.Fans.Fan.RotorDiameter = 0.33 }, func(r *model.Rig) { r.Fans.Fan.RotorDiameter = 0.32 }},
		{model.Compressible, "pressure", func(r *model.Rig) { r.Fans.Fan.ShutOffPressure, r.Fans.Fan.FreeAirFlow = 2e4, 1 }, plain},
		{model.CoreOutsideRange, "dimension", func(r *model.Rig) { r.Core.LouverAngle = 0.1 }, plain},
		{model.StalledDeep, "deep stall", func(r *model.Rig) { r.Fans.Fan.ShutOffPressure = 20 }, func(r *model.Rig) { r.Fans.Fan.ShutOffPressure = 5000 }},
		{model.StallRegion, "stall region", func(r *model.Rig) { r.Fans.Fan.ShutOffPressure = 520 }, func(r *model.Rig) { r.Fans.Fan.ShutOffPressure = 20 }},
		{model.AirReynoldsLow, "low Reynolds number", func(r *model.Rig) { r.Speed = 10; r.Heat.Load = 20 }, func(r *model.Rig) { r.Speed = 300 }},
		{model.AirReynoldsHigh, "high Reynolds number", func(r *model.Rig) { r.Fans.Fan.FreeAirFlow, r.Fans.Fan.ShutOffPressure = 2, 2e4 }, plain},
		{model.CapacityLimited, "capacity", func(r *model.Rig) { r.Core.FinDepth, r.Speed, r.Core.FinDensity = 0.08, 30, 20/0.0254 }, func(r *model.Rig) { r.Core.FinDepth, r.Speed = 0.015, 250 }},
		{model.HumidAir, "humid air", func(r *model.Rig) { r.Room.Temperature, r.Room.Humidity = 313.15, 1 }, func(r *model.Rig) { r.Room.Temperature, r.Room.Humidity = 303.15, 1 }},
		{model.BoilsHere, "boiling at altitude", func(r *model.Rig) { r.Room.Altitude, r.Room.Temperature = 4900, 349 }, func(r *model.Rig) { r.Room.Altitude, r.Room.Temperature = 0, 349 }},
		{model.CoolantTransition, "transition", func(r *model.Rig) { r.Coolant.Flow = 12. / 60000 }, func(r *model.Rig) { r.Coolant.Flow = 1. / 60000 }},
		{model.CoolantViscosity, "viscosity", func(r *model.Rig) { *r = mixed(*r, coolant.EthyleneGlycol, 0.01) }, func(r *model.Rig) { *r = mixed(*r, coolant.EthyleneGlycol, 0) }},
		{model.CoolantExtrapolated, "warm mixture", func(r *model.Rig) { *r = mixed(*r, coolant.PropyleneGlycol, 0.3); r.Room.Temperature = 308.15 }, func(r *model.Rig) { *r = mixed(*r, coolant.PropyleneGlycol, 0.3); r.Room.Temperature = 298.15 }},
		{model.CoolantExtrapolated, "warm water", func(r *model.Rig) { *r = mixed(*r, coolant.EthyleneGlycol, 0.3); r.Room.Temperature = 333.15 }, func(r *model.Rig) { r.Room.Temperature = 333.15 }},
		{model.PumpPowerLow, "pump power", func(r *model.Rig) { r.Coolant.Flow, r.Heat.PumpPower = 0, 1 }, func(r *model.Rig) { r.Coolant.Flow = 0 }},
		{model.PumpPowerLow, "too much flow for the pump", func(r *model.Rig) { r.Coolant.Flow *= 20 }, func(r *model.Rig) {}},
		{model.CoolantLimited, "little coolant", func(r *model.Rig) { r.Coolant.Flow, r.Heat.Load, r.Speed = 0.1/60000, 30, 300 }, func(r *model.Rig) {}},
		{model.ChipCold, "cold chip", func(r *model.Rig) { r.Coolant.Flow, r.Heat.Load = 0.2/60000, 60 }, func(r *model.Rig) { r.Coolant.Flow *= 2 }},
		{model.PumpPowerLow, "no pump", func(r *model.Rig) { r.Coolant.Flow, r.Heat.PumpPower = 0, 0 }, func(r *model.Rig) { r.Heat.PumpPower = 0 }},
		{model.DuctNarrows, "a disc larger than the face", face(1.001), face(0.999)},
		{model.DuctNarrows, "two discs larger than the face", func(r *model.Rig) { face(1.001 / 2)(r); r.Fans.Count = 2 }, func(r *model.Rig) { face(0.999 / 2)(r); r.Fans.Count = 2 }},
		{model.DuctNarrows, "a duct", face(1.5), func(r *model.Rig) { face(1.5)(r); r.Installed.Shroud = model.Blocked }},
		{model.DuctNarrows, "a known disc", face(1.5), func(r *model.Rig) { r.Fans.Fan.RotorDiameter, r.Core.FaceLength, r.Core.FaceWidth = 0, 0.05, 0.05 }},
		{model.SoundExtrapolated, "faster than read", read(40, 111), read(40, 109)},
		{model.SoundExtrapolated, "slower than read", read(120, 90.8), read(120, 91)},
		{model.SoundExtrapolated, "read, not rated", read(20, 111), func(r *model.Rig) { read(20, 111)(r); r.Fans.Fan.Readings = nil }},
	} {
		r := given()
		c.with(&r)
		s := must(t, r)
		if !s.Warnings.Has(c.bit) {
			t.Errorf("%s: no warning; share %g, Re %g, coolant Re %g, drop %g, has %q", c.name, s.FreeFlowShare, s.AirReynolds, s.CoolantReynolds, s.CorePressureDrop, s.Warnings.Keys())
		}
		r = given()
		c.beside(&r)
		s = must(t, r)
		if s.Warnings.Has(c.bit) {
			t.Errorf("%s: a warning beside it; share %g, Re %g, coolant Re %g, drop %g, has %q", c.name, s.FreeFlowShare, s.AirReynolds, s.CoolantReynolds, s.CorePressureDrop, s.Warnings.Keys())
		}
	}
}
