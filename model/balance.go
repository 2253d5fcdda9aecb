package model

import (
	"errors"

	"finduel/model/solve"
)

// FlowPoint is what the fans make and the core takes at one airflow, whether the two
// are equal there or not.
type FlowPoint struct {
	Airflow       float64 // through the core, volume flow at room density, m³/s
	FanPressure   float64 // static, of all fans, Pa
	Resistance    float64 // of core and grille, Pa
	FreeFlowShare float64 // volume flow of a fan over its free-air flow; in push-pull that of the side nearer to stall
	DoubtLow      float64 // how far FanPressure may be out, Pa; low end, negative; see fan.Fan.PressureDoubt
	DoubtHigh     float64 // high end
}

// FanCurve is the fans' pressure and the core's resistance over airflow at one fan
// speed.
//
// Each airflow has its own temperatures, those at which the air carries the heat away,
// as in the search for the operating point. Less air is hotter air: it resists more,
// and fans that breathe it make less pressure. So the two curves cross where the rig
// can be in balance and nowhere else: where it operates and where its fans may hang.
// With the temperatures of the operating point held they would cross there too, but
// not where the fans hang.
//
// Air below LeastAirflow is too little to carry the heat before the coolant boils. No
// steady state is there; the temperatures are held as they are at LeastAirflow.
type FanCurve struct {
	Points       []FlowPoint // evenly over airflow, from near no flow to free air
	Operating    FlowPoint   // as in State
	Hanging      []FlowPoint // where the fans may hang, by falling airflow, the last at State.HangingAirflow; nil: nowhere
	Stall        FlowPoint   // below its airflow a fan is in stall, or without data, see fan.Stall; zero: nowhere
	LeastAirflow float64     // m³/s
}

// ErrFewPoints says that a curve was asked for by less than two points.
var ErrFewPoints = errors.New("a curve takes two points or more")

// fromNoFlow is the first airflow of a curve over that in free air.
const fromNoFlow = 1e-3

// FanCurve returns the curves at a fan speed in rev/s, which must be above 0, by n
// points. In free air the fans' pressure is 0. It returns ErrFewPoints if n is less than
// 2, and those errors of Evaluate that have to do with the air.
func (p *Ready) FanCurve(speed float64, n int) (FanCurve, error) {
	if err := above(speed, 0, "fan_speed"); err != nil {
		return FanCurve{}, err
	}
	if n < 2 {
		return FanCurve{}, ErrFewPoints
	}
	var s stream
	if err := p.airStream(&s, speed, &hint{}); err != nil {
		return FanCurve{}, err
	}
	c := FanCurve{Operating: p.flowPoint(speed, &s), LeastAirflow: p.leastFlow(speed) / p.room}
	for _, m := range s.hanging {
		c.Hanging = append(c.Hanging, p.flowPointAt(speed, m))
	}
	free := p.freeFlow(speed, &s)
	first := fromNoFlow * free
	if m := p.stallFlow(speed, first, free); m > 0 {
		c.Stall = p.flowPointAt(speed, m)
	}
	c.Points = make([]FlowPoint, n)
	for i := range c.Points {
		c.Points[i] = p.flowPointAt(speed, first+(free-first)*float64(i)/float64(n-1))
	}
	return c, nil
}

func (p *Ready) flowPoint(speed float64, s *stream) FlowPoint {
	point := FlowPoint{Airflow: s.massFlow / p.room, FanPressure: p.pressure(s), Resistance: s.resistance, FreeFlowShare: p.freeFlowShare(s)}
	point.DoubtLow, point.DoubtHigh = p.pressureDoubt(speed, s)
	return point
}

// flowPointAt returns the point at a mass flow, kg/s.
func (p *Ready) flowPointAt(speed, massFlow float64) FlowPoint {
	s := p.heldStreamAt(speed, massFlow)
	return p.flowPoint(speed, &s)
}

// heldStreamAt is streamAt, with the temperatures held below the least mass flow that
// carries the heat.
func (p *Ready) heldStreamAt(speed, massFlow float64) (s stream) {
	least := p.leastFlow(speed)
	if massFlow >= least {
		p.streamAt(&s, speed, massFlow)
		return s
	}
	p.streamAt(&s, speed, least)
	s = stream{massFlow: massFlow, inlet: s.inlet, outlet: s.outlet}
	if p.rig.Placing.Before() {
		s.front = p.bankAt(&p.rig.Fans, speed, massFlow, p.room)
	}
	p.throughCore(&s, speed)
	return s
}

// freeFlow returns the mass flow, kg/s, at which the fans make no pressure; operating
// is a stream at which they do. Fans behind the core breathe thinner air than the
// room's, and less mass of it.
func (p *Ready) freeFlow(speed float64, operating *stream) float64 {
	most := p.behind.FreeFlow(speed) * p.room * p.share
	var s stream
	pressure := func(massFlow float64) float64 {
		p.streamAt(&s, speed, massFlow)
		return p.pressure(&s)
	}
	if root := solve.Root(pressure, operating.massFlow, most, 1e-13*most); root.Outcome == solve.Converged {
		return root.X
	}
	return most // where rounding leaves a trace of pressure
}

// stallFlow returns the mass flow, kg/s, between two at which a fan has the share of
// its free-air flow where stall begins; 0 if it does not stall, or not there.
func (p *Ready) stallFlow(speed, low, high float64) float64 {
	if p.stall.Onset == 0 {
		return 0
	}
	root := solve.Root(func(massFlow float64) float64 {
		s := p.heldStreamAt(speed, massFlow)
		return p.freeFlowShare(&s) - p.stall.Onset
	}, low, high, 1e-12*high)
	if root.Outcome != solve.Converged {
		return 0
	}
	return root.X
}
