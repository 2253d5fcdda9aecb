package model_test

import (
	"errors"
	"math"
	"testing"

	"finduel/model"
	"finduel/model/air"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/quantity"
)

// curved is a rig whose curves are looked at.
type curved struct {
	name  string
	rig   model.Rig
	hangs bool
}

// curvedRigs are fans of every kind and placing.
func curvedRigs(t *testing.T) []curved {
	t.Helper()
	var list []curved
	add := func(name string, hangs bool, r model.Rig) { list = append(list, curved{name, r, hangs}) }
	for _, placing := range []fan.Placing{fan.Push, fan.Pull, fan.PushPull} {
		r := small()
		r.Placing = placing
		add("straight, "+placing.String(), false, r)
		r.Fans.Fan.CurveExponent = 1.7
		r.Installed = model.Installed{GrilleLoss: 1.2, Leakage: 0.05, HubShadow: 0.1, Dust: 0.1, SeriesLoss: 0.15}
		r.Correction = model.Correction{AirFriction: 0.2, FanPressure: -0.07}
		add("installed, "+placing.String(), false, r)
		r = large()
		r.Placing, r.Fans.Count, r.Fans.Stopped = placing, 3, 1
		add("one stopped, "+placing.String(), false, r)
		r = improvised()
		r.Placing = placing
		add("propeller, "+placing.String(), false, r)
	}
	r := saddled(t)
	r.Speed = 150
	add("saddle, right of it", false, r)
	for _, placing := range []fan.Placing{fan.Push, fan.Pull} {
		r.Placing = placing
		r.Core.FinDepth = 0.07
		add("saddle, may hang, "+placing.String(), true, r)
	}
	return list
}

func fanCurve(t *testing.T, r model.Rig, n int) model.FanCurve {
	t.Helper()
	p, err := model.Prepare(r)
	if err != nil {
		t.Fatal(err)
	}
	c, err := p.FanCurve(r.Speed, n)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// between returns the fans' pressure and the resistance at an airflow, interpolated.
func between(points []model.FlowPoint, airflow float64) (pressure, resistance float64) {
	i := 1
	for points[i].Airflow < airflow {
		i++
	}
	a, b := points[i-1], points[i]
	share := (airflow - a.Airflow) / (b.Airflow - a.Airflow)
	return a.FanPressure + share*(b.FanPressure-a.FanPressure), a.Resistance + share*(b.Resistance-a.Resistance)
}

// The curves cross where Evaluate says that the rig operates and where its fans may
// hang, at no other stable place, and at the pressure of both.
func TestCurvesCrossWhereTheRigOperates(t *testing.T) {
	for _, c := range curvedRigs(t) {
		s, curve := must(t, c.rig), fanCurve(t, c.rig, 40001)
		points := curve.Points
		step := points[1].Airflow - points[0].Airflow
		var crossings []float64
		for i := 1; i < len(points); i++ {
			if points[i].Airflow > curve.LeastAirflow && points[i-1].FanPressure > points[i-1].Resistance && points[i].FanPressure <= points[i].Resistance {
				crossings = append(crossings, points[i].Airflow)
			}
		}
		want := []float64{s.Airflow}
		if c.hangs {
			want = []float64{s.HangingAirflow, s.Airflow}
		}
		if len(crossings) != len(want) || (s.HangingAirflow > 0) != c.hangs || (curve.Hanging != nil) != c.hangs {
			t.Errorf("%s: the curves cross at %v, want %v; hanging %+v", c.name, crossings, want, curve.Hanging)
			continue
		}
		for i, v := range crossings {
			if !(v >= want[i] && v-want[i] <= step*1.001) {
				t.Errorf("%s: the curves cross at %g m³/s, want %g", c.name, v, want[i])
			}
		}
		at := map[string]model.FlowPoint{"operating": curve.Operating}
		if c.hangs {
			at["hanging"] = curve.Hanging[len(curve.Hanging)-1]
		}
		for what, p := range at {
			airflow := map[string]float64{"operating": s.Airflow, "hanging": s.HangingAirflow}[what]
			if !near(p.Airflow, airflow, 1e-15) {
				t.Errorf("%s: %s at %g m³/s, want %g", c.name, what, p.Airflow, airflow)
			}
			if !near(p.FanPressure, p.Resistance, 1e-7) {
				t.Errorf("%s, %s: fans %g Pa, core %g Pa", c.name, what, p.FanPressure, p.Resistance)
			}
			pressure, resistance := between(points, airflow)
			if !near(pressure, p.FanPressure, 1e-6) || !near(resistance, p.Resistance, 1e-6) {
				t.Errorf("%s: %s at %g and %g Pa, the curves pass at %g and %g", c.name, what, p.FanPressure, p.Resistance, pressure, resistance)
			}
		}
		o := curve.Operating
		if o.FreeFlowShare != s.FreeFlowShare || !near(o.DoubtLow, s.FanDoubtLow*o.FanPressure, 1e-12) || !near(o.DoubtHigh, s.FanDoubtHigh*o.FanPressure, 1e-12) {
			t.Errorf("%s: operating point %+v, state %g of free air, doubt %g to %g", c.name, o, s.FreeFlowShare, s.FanDoubtLow, s.FanDoubtHigh)
		}
		if c.rig.Installed.GrilleLoss == 0 && o.Resistance != s.CorePressureDrop {
			t.Errorf("%s: resistance %g Pa, core alone %g", c.name, o.Resistance, s.CorePressureDrop)
		}
	}
}

// Curves begin near no flow and pressure and end in free air.
func TestCurvesHaveTheirEnds(t *testing.T) {
	for _, c := range curvedRigs(t) {
		curve := fanCurve(t, c.rig, 400)
		first, last := curve.Points[0], curve.Points[399]
		if !(first.Airflow > 0 && first.Airflow < 0.002*last.Airflow && first.Resistance < 0.01*curve.Operating.Resistance) {
			t.Errorf("%s: begins at %+v", c.name, first)
		}
		if math.Abs(last.FanPressure) > 1e-9*first.FanPressure {
			t.Errorf("%s: %g Pa in free air", c.name, last.FanPressure)
		}
		onset := c.rig.Fans.Fan.Stall().Onset
		if c.rig.Fans.Fan.Pitch > 0 {
			f, _, _ := c.rig.Fans.Fan.Resolved()
			onset = f.Stall().Onset
		}
		for i := 1; i < len(curve.Points); i++ {
			p, before := curve.Points[i], curve.Points[i-1]
			if !(p.Resistance > before.Resistance) {
				t.Errorf("%s: resistance falls from %g to %g Pa at %g m³/s", c.name, before.Resistance, p.Resistance, p.Airflow)
			}
			if stalled := p.FreeFlowShare < onset; stalled != (p.Airflow < curve.Stall.Airflow) {
				t.Errorf("%s: %g of free air at %g m³/s, stall from %g of free air, drawn at %g m³/s", c.name, p.FreeFlowShare, p.Airflow, onset, curve.Stall.Airflow)
				break
			}
			if free := math.Abs(p.FanPressure) < 1e-6; !(free || p.DoubtLow < 0 && p.DoubtHigh > 0) {
				t.Errorf("%s: doubt %g to %g", c.name, p.DoubtLow, p.DoubtHigh)
			}
		}
	}
}

// In push the fans breathe room air: their curve is that of the bank at any flow. The
// resistance is that of the core at the temperatures that each flow has.
func TestCurvesFollowFromTheirPieces(t *testing.T) {
	for _, r := range []model.Rig{small(), large()} {
		c, _ := core.New(r.Core)
		room, _ := air.NewAtmosphere(r.Room.Temperature, r.Room.Altitude, r.Room.Humidity)
		density := room.Density(r.Room.Temperature)
		held, own := 0, 0
		curve := fanCurve(t, r, 300)
		for _, p := range curve.Points {
			if want := r.Fans.Pressure(r.Speed, p.Airflow, density); math.Abs(p.FanPressure-want) > 1e-9*r.Fans.Fan.ShutOff(r.Speed, density) {
				t.Errorf("%g m³/s: fans %g Pa, want %g", p.Airflow, p.FanPressure, want)
			}
			m := p.Airflow * density
			at := m
			if p.Airflow < curve.LeastAirflow {
				at = curve.LeastAirflow * density
				held++
			} else {
				own++
			}
			capacity := at * room.SpecificHeat()
			inlet := r.Room.Temperature + drawn(&r, at/density/r.Fans.FreeFlow(r.Speed), density).Heat/capacity
			outlet := inlet + (r.Heat.Load+r.Heat.PumpPower)/capacity
			if want := c.PressureDrop(m, room.Density(inlet), room.Density(outlet), room.Viscosity((inlet+outlet)/2)); !near(p.Resistance, want, 1e-9) {
				t.Errorf("%g m³/s: core %g Pa, want %g", p.Airflow, p.Resistance, want)
			}
		}
		if held < 5 || own < 100 {
			t.Errorf("%d points with held temperatures, %d with their own", held, own)
		}
		if want := curve.LeastAirflow * density * room.SpecificHeat(); want < (r.Heat.Load+r.Heat.PumpPower)/(r.Coolant.Liquid.Boiling()-r.Room.Temperature) {
			t.Errorf("%g m³/s carries the heat", curve.LeastAirflow)
		}
	}
}

// A curve that falls all the way has no stall, and no curve no points.
func TestCurvesWithoutStallOrBalance(t *testing.T) {
	r := small()
	c, rating, err := fan.NewCurve([]fan.CurvePoint{{Flow: 0, Pressure: 500}, {Flow: 0.03, Pressure: 300}, {Flow: 0.07, Pressure: 0}})
	if err != nil {
		t.Fatal(err)
	}
	r.Fans.Fan.Curve, r.Fans.Fan.FreeAirFlow, r.Fans.Fan.ShutOffPressure = c, rating.FreeAirFlow, rating.ShutOffPressure
	if curve := fanCurve(t, r, 2); curve.Stall != (model.FlowPoint{}) || len(curve.Points) != 2 {
		t.Errorf("stall at %+v, %d points", curve.Stall, len(curve.Points))
	}
	p, _ := model.Prepare(r)
	if _, err := p.FanCurve(100, 1); err != model.ErrFewPoints {
		t.Errorf("one point: %v", err)
	}
	var re *quantity.RangeError
	if _, err := p.FanCurve(0, 9); !errors.As(err, &re) {
		t.Errorf("standing still: %v", err)
	}
	r.Heat.Load = 2e4
	hot, _ := model.Prepare(r)
	if _, err := hot.FanCurve(100, 9); err != model.ErrBoils {
		t.Errorf("20 kW: %v", err)
	}
	r = small()
	r.Room.Temperature, r.Room.Altitude = 353.15, 5000
	if p, err := model.Prepare(r); err == nil {
		if _, err := p.FanCurve(100, 9); err != nil && err != model.ErrBoils {
			t.Errorf("a hot room: %v", err)
		}
	}
}
