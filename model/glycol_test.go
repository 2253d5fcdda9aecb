package model_test

import (
	"errors"
	"testing"

	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/quantity"
)

// At equal conditions every per cent of glycol costs conductance: it conducts less,
// holds less heat and is thicker.
func TestMoreGlycolConductsLess(t *testing.T) {
	for _, base := range []model.Rig{small(), large()} {
		for _, placing := range []fan.Placing{fan.Push, fan.Pull} {
			for _, flow := range []float64{0.3, 1, 3, 10} {
				for _, fluid := range []coolant.Fluid{coolant.EthyleneGlycol, coolant.PropyleneGlycol} {
					var before model.State
					for percent := 0; percent <= 60; percent += 2 {
						r := mixed(base, fluid, float64(percent)/100)
						r.Placing = placing
						r.Coolant.Flow *= flow
						s := must(t, r)
						if percent > 0 && (s.Conductance >= before.Conductance || s.CoolantOverAir <= before.CoolantOverAir) {
							t.Errorf("%v, %d %%, %v, %g times the flow: conductance %v W/K after %v W/K, Re %v", fluid, percent, placing, flow,
								s.Conductance, before.Conductance, s.CoolantReynolds)
						}
						before = s
					}
				}
			}
		}
	}
}

// The coolant's film belongs to its properties at the film temperature, halfway
// between its mean and the tube wall.
func TestCoolantIsTakenAtItsFilmTemperature(t *testing.T) {
	grid(t, func(t *testing.T, r model.Rig, s model.State) {
		c, err := core.New(r.Core)
		if err != nil {
			t.Fatal(err)
		}
		c.Block(r.Installed.Dust)
		c.Shadow(r.Installed.HubShadow)
		mean := (s.CoolantInletTemperature + s.CoolantOutletTemperature) / 2
		film := mean - s.HeatRejected/(2*s.CoolantFilm*c.TubeInsideArea())
		p := r.Coolant.Liquid.At(film)
		if h, re := c.CoolantFilm(s.CoolantFlow*p.Density, p); !near(s.CoolantFilm, h, 1e-7) || !near(s.CoolantReynolds, re, 1e-7) {
			t.Errorf("film coefficient %v, Re %v; at %v K they are %v and %v: %+v", s.CoolantFilm, s.CoolantReynolds, film, h, re, r)
		}
	})
}

// In an ever colder room there is a state as long as the tube wall, colder than the
// coolant that leaves, is above the freezing point, and none from there on.
func TestCoolantFreezesAtItsFreezingPoint(t *testing.T) {
	const step = 0.25
	for _, liquid := range []coolant.Liquid{
		{},
		{Fluid: coolant.EthyleneGlycol},
		{Fluid: coolant.EthyleneGlycol, GlycolShare: 0.1},
		{Fluid: coolant.EthyleneGlycol, GlycolShare: 0.3},
		{Fluid: coolant.PropyleneGlycol, GlycolShare: 0.1},
		{Fluid: coolant.PropyleneGlycol, GlycolShare: 0.4},
	} {
		r := small()
		r.Coolant.Liquid = liquid
		last, refused := 0.0, 0
		for room := 283.15; room >= 235; room -= step {
			r.Room.Temperature = room
			s, err := model.Evaluate(r)
			switch {
			case err == nil && refused > 0:
				t.Errorf("%+v: liquid in a room at %g K, frozen in a warmer one", liquid, room)
			case err == nil:
				wall := (s.CoolantInletTemperature+s.CoolantOutletTemperature)/2 - s.HeatRejected/r.Heat.Load*s.Budget.CoolantFilm
				last = min(s.CoolantOutletTemperature, wall)
			case errors.Is(err, model.ErrFreezes):
				refused++
			default:
				t.Fatalf("%+v at %g K: %v", liquid, room, err)
			}
		}
		if above := last - liquid.Freezing(); refused == 0 || above <= 0 || above > 1.2*step {
			t.Errorf("%+v freezes at %g K; refused %d times, first below %g K", liquid, liquid.Freezing(), refused, last)
		}
	}
}

// In an ever warmer room there is a state as long as the coolant enters the core
// below 100 °C, and none from there on.
func TestCoolantIsRefusedAboveAHundredDegrees(t *testing.T) {
	const step = 0.25
	for _, liquid := range []coolant.Liquid{
		{},
		{Fluid: coolant.EthyleneGlycol, GlycolShare: 0.6},
		{Fluid: coolant.PropyleneGlycol, GlycolShare: 0.3},
	} {
		r := small()
		r.Heat.Load = 800
		r.Coolant.Liquid = liquid
		last, refused := 0.0, 0
		for room := 300.15; room <= 353.15; room += step {
			r.Room.Temperature = room
			s, err := model.Evaluate(r)
			switch {
			case err == nil && refused > 0:
				t.Errorf("%+v: a state in a room at %g K, none in a colder one", liquid, room)
			case err == nil:
				last = s.CoolantInletTemperature
			case errors.Is(err, model.ErrBoils):
				refused++
			default:
				t.Fatalf("%+v at %g K: %v", liquid, room, err)
			}
		}
		if below := 373.15 - last; refused == 0 || below < 0 || below > 1.2*step {
			t.Errorf("%+v: refused %d times, first above %g K", liquid, refused, last)
		}
	}
}

func TestImpossibleMixturesAreRefused(t *testing.T) {
	for _, liquid := range []coolant.Liquid{
		{GlycolShare: 0.3},
		{Fluid: coolant.EthyleneGlycol, GlycolShare: 0.61},
		{Fluid: coolant.PropyleneGlycol, GlycolShare: -0.01},
	} {
		r := small()
		r.Coolant.Liquid = liquid
		var out *quantity.RangeError
		if _, err := model.Prepare(r); !errors.As(err, &out) || out.Key != "glycol_share" || out.Value != liquid.GlycolShare {
			t.Errorf("%+v: %v", liquid, err)
		}
	}
}
