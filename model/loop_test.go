package model_test

import (
	"errors"
	"math"
	"testing"

	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/core"
	"finduel/model/pump"
	"finduel/model/quantity"
)

// film returns the coolant's film temperature, K: the heat crosses the coolant film
// between the mean of the coolant and the wall.
func film(t *testing.T, r model.Rig, s model.State) float64 {
	t.Helper()
	c, err := core.New(r.Core)
	if err != nil {
		t.Fatal(err)
	}
	c.Shadow(r.Installed.HubShadow)
	return (s.CoolantInletTemperature+s.CoolantOutletTemperature)/2 - s.HeatRejected/(s.CoolantFilm*c.TubeInsideArea())/2
}

// The coolant flow is where the pump meets plate, hoses and core, with the coolant as
// warm as it runs.
func TestPumpMeetsTheLoop(t *testing.T) {
	pumped := 0
	grid(t, func(t *testing.T, r model.Rig, s model.State) {
		c, err := core.New(r.Core)
		if err != nil {
			t.Fatal(err)
		}
		p := r.Coolant.Liquid.At(film(t, r, s))
		if drop := c.CoolantPressureDrop(s.CoolantFlow*p.Density, p); !near(drop, s.CoolantPressureDrop, 1e-8) {
			t.Errorf("the core takes %v Pa, stated %v Pa: %+v", drop, s.CoolantPressureDrop, r)
		}
		if r.Coolant.Flow > 0 {
			if s.CoolantFlow != r.Coolant.Flow {
				t.Errorf("the flow is %v, given %v", s.CoolantFlow, r.Coolant.Flow)
			}
			return
		}
		pumped++
		takes := s.CoolantPressureDrop + r.Coolant.Loop.PressureDrop(s.CoolantFlow)
		if makes := r.Coolant.Pump.Pressure(s.CoolantFlow); !near(makes, takes, 1e-9) {
			t.Errorf("the pump makes %v Pa, the loop takes %v Pa: %+v", makes, takes, r)
		}
	})
	if pumped < 500 {
		t.Errorf("only %d rigs with a pump", pumped)
	}
}

// A rig with a pump is the rig to which the flow that comes out is given.
func TestPumpedIsGiven(t *testing.T) {
	for _, r := range []model.Rig{small(), large()} {
		r.Coolant.Flow = 0
		pumped := must(t, r)
		r.Coolant.Flow = pumped.CoolantFlow
		given := must(t, r)
		for _, o := range model.Outputs {
			if got, want := o.Get(&pumped), o.Get(&given); !near(got, want, 1e-9) {
				t.Errorf("%s is %v with the pump, %v with its flow", o.Key, got, want)
			}
		}
	}
}

// Warm coolant is thin: the same pump moves more of it. A stronger pump moves more;
// a loop that takes more gets less; a core with more passes gets less.
func TestWhatMovesTheCoolant(t *testing.T) {
	r := small()
	r.Coolant.Flow = 0
	flow := func(change func(r *model.Rig)) float64 {
		r := r
		change(&r)
		return must(t, r).CoolantFlow
	}
	base := must(t, r).CoolantFlow
	for name, c := range map[string]struct {
		more   bool
		change func(r *model.Rig)
	}{
		"warm room":      {true, func(r *model.Rig) { r.Room.Temperature += 25 }},
		"cold room":      {false, func(r *model.Rig) { r.Room.Temperature -= 15 }},
		"higher head":    {true, func(r *model.Rig) { r.Coolant.Pump.ShutOffPressure *= 1.1 }},
		"less free flow": {false, func(r *model.Rig) { r.Coolant.Pump.FreeFlow /= 1.1 }},
		"tighter plate":  {false, func(r *model.Rig) { r.Coolant.Loop.Drop *= 1.1 }},
		"wider plate":    {true, func(r *model.Rig) { r.Coolant.Loop.DropFlow *= 1.1 }},
		"more passes":    {false, func(r *model.Rig) { r.Core.Passes++ }},
		"wider ports":    {true, func(r *model.Rig) { r.Core.PortDiameter *= 1.1 }},
		"flat curve":     {true, func(r *model.Rig) { r.Coolant.Pump.CurveExponent = 3 }},
	} {
		if got := flow(c.change); c.more != (got > base) || got == base {
			t.Errorf("%s: %v m³/s, was %v", name, got, base)
		}
	}
}

// Plate, hoses and pump that make nothing of the core's share leave the closed form.
func TestPumpedFlowInClosedForm(t *testing.T) {
	r := small()
	r.Coolant.Flow = 0
	r.Core.PortDiameter = 0
	r.Core.FaceWidth, r.Core.Passes = 1, 1 // a core that takes next to nothing
	r.Coolant.Pump.CurveExponent = 1.75
	p, l := r.Coolant.Pump, r.Coolant.Loop
	at := l.PressureDrop(p.FreeFlow)
	want := p.FreeFlow * math.Pow(p.ShutOffPressure/(p.ShutOffPressure+at), 1/1.75)
	if s := must(t, r); !near(s.CoolantFlow, want, 0.02) || s.CoolantFlow >= want {
		t.Errorf("flow %v, without the core %v", s.CoolantFlow, want)
	}
}

// A pump that hardly moves anything ends in a reason, not in a number.
func TestWeakPumpBoils(t *testing.T) {
	r := small()
	r.Coolant.Flow = 0
	r.Coolant.Pump.ShutOffPressure = 1
	if _, err := model.Evaluate(r); !errors.Is(err, model.ErrBoils) {
		t.Errorf("got %v", err)
	}
}

func TestPumpIsCheckedWhereItMatters(t *testing.T) {
	key := func(r model.Rig) string {
		_, err := model.Evaluate(r)
		var re *quantity.RangeError
		if !errors.As(err, &re) {
			return ""
		}
		return re.Key
	}
	r := small()
	r.Coolant.Pump, r.Coolant.Loop = pump.Pump{}, pump.Loop{}
	if got := key(r); got != "" {
		t.Errorf("a given flow needs no pump, but %s", got)
	}
	r.Coolant.Flow = 0
	if got := key(r); got != "coolant_flow" {
		t.Errorf("neither flow nor pump: %q", got)
	}
	r = small()
	r.Coolant.Flow, r.Coolant.Pump.FreeFlow = 0, 0
	if got := key(r); got != "pump_free_flow" {
		t.Errorf("half a pump: %q", got)
	}
	r = small()
	r.Coolant.Flow, r.Coolant.Loop.DropFlow = 0, 0
	if got := key(r); got != "loop_drop_flow" {
		t.Errorf("half a loop: %q", got)
	}
}

// 100 W warm 1 L/min of water by 1.44 K: heat over ρ V cp, with water of 20 °C; warm
// water takes a little less heat.
func TestCoolantRise(t *testing.T) {
	r := small()
	r.Coolant.Liquid = coolant.Liquid{Fluid: coolant.Water}
	r.Coolant.Flow = 1. / 60000
	for heat, rise := range map[float64]float64{100: 1.437, 300: 4.312} {
		r.Heat.Load, r.Heat.PumpPower = heat-5, 5
		if s := must(t, r); !near(s.CoolantInletTemperature-s.CoolantOutletTemperature, rise, 0.015) {
			t.Errorf("%v W: %v K, want %v K", heat, s.CoolantInletTemperature-s.CoolantOutletTemperature, rise)
		}
	}
}

// The warning of too little pump heat comes where the flow takes more power than the
// pump is given.
func TestPumpPowerLowComesAtTheHydraulicPower(t *testing.T) {
	r := small()
	r.Coolant.Flow = 0
	s := must(t, r)
	takes := (s.CoolantPressureDrop + r.Coolant.Loop.PressureDrop(s.CoolantFlow)) * s.CoolantFlow
	for share, low := range map[float64]bool{0.99: true, 1.01: false} {
		r.Heat.PumpPower = share * takes
		if s := must(t, r); s.Warnings.Has(model.PumpPowerLow) != low {
			t.Errorf("%v W of the %v W that the flow takes: warnings %q", r.Heat.PumpPower, takes, s.Warnings.Keys())
		}
	}
}
