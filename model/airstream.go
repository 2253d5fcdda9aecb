package model

import (
	"math"

	"finduel/model/fan"
	"finduel/model/solve"
)

// stream is the air on its way through the rig at one mass flow.
type stream struct {
	massFlow      float64 // through the core, kg/s
	inlet         float64 // entering the core, K
	outlet        float64 // leaving the core, K
	front, behind bank    // what the fans before and behind the core do; zero where there are none
	pressureDrop  float64 // of the core, Pa
	resistance    float64 // of core and grille, Pa
	hanging       float64 // a smaller mass flow at which the fans may hang, kg/s; 0: none
}

// bank is what the fans on one side of the core do.
type bank struct {
	density  float64 // of the air that they breathe, kg/m³
	share    float64 // flow of each turning fan over its free-air flow
	pressure float64 // static, Pa
	turning  float64 // how many of them turn
}

// mean returns the mean temperature of the air in the core, K.
func (s *stream) mean() float64 { return (s.inlet + s.outlet) / 2 }

// airStream finds where the fans meet the core: the mass flow at which the
// pressure they make equals the pressure that core and grille take. What leaks past
// the core is the fans' to move, and carries no heat away.
//
// The air warms up by heat/(ṁ·cp), in push by the fans' heat too, so every mass flow
// has its own temperatures and densities; they are part of the function whose root is
// sought. Air can leave no hotter than the coolant enters. The mass flow at which it
// would leave at the boiling point of the coolant is therefore the least that can
// carry the heat, and the low end of the bracket; free delivery is the high end.
func (p *Ready) airStream(speed float64) (stream, error) {
	least := p.leastFlow(speed)
	most := p.behind.FreeFlow(speed) * p.room * p.share
	if most <= least {
		return stream{}, ErrBoils
	}
	var s stream // the last one that was looked at
	excess := func(massFlow float64) float64 {
		s = p.streamAt(speed, massFlow)
		return p.pressure(&s) - s.resistance
	}
	root, hanging := p.operatingPoint(speed, excess, least, most)
	if root.Outcome == solve.NoSignChange {
		return stream{}, ErrBoils
	}
	if root.Outcome != solve.Converged {
		return stream{}, &SearchError{"the operating point of the fans", root.Outcome}
	}
	if s.massFlow != root.X {
		s = p.streamAt(speed, root.X)
	}
	s.hanging = hanging
	return s, nil
}

// leastFlow returns the mass flow, kg/s, below which the air would leave at the
// boiling point of the coolant or above; infinite in a room as hot as that.
func (p *Ready) leastFlow(speed float64) float64 {
	headroom := p.rig.Coolant.Liquid.Boiling() - p.rig.Room.Temperature
	if headroom <= 0 {
		return math.Inf(1)
	}
	heat := p.heat
	if p.rig.Placing.Before() && p.rig.Fans.Stopped == 0 {
		heat += p.leastFanHeat(speed) * p.through
	}
	return heat / (p.air.SpecificHeat() * headroom)
}

// pressure returns the static pressure of all fans, Pa. Of fans before and behind the
// core some of the sum is lost to swirl.
func (p *Ready) pressure(s *stream) float64 {
	sum := s.front.pressure + s.behind.pressure
	if p.rig.Placing == fan.PushPull {
		sum *= 1 - p.rig.Installed.SeriesLoss
	}
	return sum * (1 + p.rig.Correction.FanPressure)
}

// streamAt returns the air's state at a fan speed and a mass flow, fans and core not
// yet in balance. The viscosity of the air in the passages is that at its mean
// temperature, as in the pressure-drop formula of the core. Fans behind the core
// breathe its air mixed with what leaks past it: in pull room air, in push-pull air
// that the fans in front have warmed.
func (p *Ready) streamAt(speed, massFlow float64) stream {
	s := stream{massFlow: massFlow, inlet: p.rig.Room.Temperature}
	capacity := massFlow * p.air.SpecificHeat()
	if p.rig.Placing.Before() {
		s.front = p.bankAt(&p.rig.Fans, speed, massFlow, p.room)
		s.inlet += p.heatToCore(speed, massFlow, &s.front) / capacity
	}
	s.outlet = s.inlet + p.heat/capacity
	p.throughCore(speed, &s)
	return s
}

// throughCore completes a stream whose temperatures and front are known.
func (p *Ready) throughCore(speed float64, s *stream) {
	massFlow, outletDensity := s.massFlow, p.air.Density(s.outlet)
	if p.rig.Placing.Behind() {
		density := outletDensity
		if p.through < 1 {
			density = p.air.Density(s.outlet - (1-p.through)*(s.outlet-s.inlet))
		}
		s.behind = p.bankAt(&p.behind, speed, massFlow, density)
	}
	drop := p.core.PressureDrop(massFlow, p.air.Density(s.inlet), outletDensity, p.air.Viscosity(s.mean()))
	s.pressureDrop = drop * (1 + p.rig.Correction.AirFriction)
	s.resistance = s.pressureDrop + p.grille*massFlow*massFlow
}

// freeFlowShare returns the flow of a fan over its free-air flow, of the side that is
// nearer to stall.
func (p *Ready) freeFlowShare(s *stream) float64 {
	switch p.rig.Placing {
	case fan.Push:
		return s.front.share
	case fan.Pull:
		return s.behind.share
	}
	return math.Min(s.front.share, s.behind.share)
}

// bankAt returns what the fans on one side do when they breathe air of a density and
// a mass flow goes through the core.
func (p *Ready) bankAt(fans *fan.Bank, speed, massFlow, density float64) bank {
	each := fans.FanFlow(speed, massFlow/p.share/density, density)
	return bank{density, each / fans.Fan.FreeFlow(speed), fans.Fan.Pressure(speed, each, density), float64(fans.Turning())}
}

// heatToCore returns how much of the heat of the fans in front of the core goes into
// it, W: all but what leaks past it, or flows back through fans that stand still.
func (p *Ready) heatToCore(speed, massFlow float64, front *bank) float64 {
	fans := &p.rig.Fans
	d, _ := p.draw(speed, front)
	heat := d.Heat * front.turning * p.through
	if fans.Stopped > 0 {
		moved := front.share * fans.FreeFlow(speed) * front.density * p.share
		heat *= massFlow / moved
	}
	return heat
}

// risingSteps is into how many parts a rising stretch of a fan curve is cut in the
// search for operating points: resistance is smooth, and a cubic less a smooth curve
// turns but a few times.
const risingSteps = 12

// operatingPoint returns the highest mass flow, kg/s, between least and most at which
// the fans are in balance with the core and stay so: less flow makes an excess of
// pressure, more a lack. A curve that falls all the way has one; one with a saddle may
// have another at a smaller flow, where the fans may hang after a start or a gust:
// that is returned too, the smallest if there are several, 0 if there is none. Without
// any balance the outcome is solve.NoSignChange.
func (p *Ready) operatingPoint(speed float64, excess func(massFlow float64) float64, least, most float64) (highest solve.Result, hanging float64) {
	tolerance := 1e-11 * most
	highest.Outcome = solve.NoSignChange
	right, atRight := most, excess(most)
	look := func(left, atLeft float64) {
		if math.IsNaN(atLeft) {
			highest.Outcome = solve.NotFinite
		}
		if atLeft > 0 && atRight <= 0 {
			root := solve.RootFrom(excess, left, atLeft, right, atRight, tolerance)
			if highest.Outcome == solve.NoSignChange {
				highest = root
			} else {
				hanging = root.X
			}
		}
		right, atRight = left, atLeft
	}
	for _, t := range p.turns[:p.turnCount] {
		peak, valley := p.massFlowAt(speed, t.Peak), p.massFlowAt(speed, t.Valley)
		if peak <= least {
			break
		}
		if peak < right {
			look(peak, excess(peak))
		}
		step := (right - math.Max(valley, least)) / risingSteps
		top, atTop := right, atRight
		bottom, atBottom := right, atRight
		from := right
		for i := 1; i <= risingSteps; i++ {
			left := from - float64(i)*step
			at := excess(left)
			if at > atTop {
				top, atTop = left, at
			}
			if at < atBottom {
				bottom, atBottom = left, at
			}
			if i == risingSteps && atTop <= 0 {
				// Nothing but lack so far: the fans may just reach the core between two steps.
				near := solve.Minimum(func(m float64) float64 { return -excess(m) }, top-step, top+step, tolerance)
				if -near.F > 0 {
					right, atRight = near.X+step, excess(near.X+step)
					look(near.X, -near.F)
				}
			}
			if i == risingSteps && atBottom > 0 {
				// Nothing but excess: the saddle may just dip below the core between two steps.
				near := solve.Minimum(excess, math.Max(bottom-step, least), bottom+step, tolerance)
				if near.F < 0 {
					right, atRight = near.X+step, excess(near.X+step)
					look(near.X, near.F)
				}
			}
			look(left, at)
		}
	}
	if right > least {
		look(least, excess(least))
	}
	return highest, hanging
}

// massFlowAt returns the mass flow through the core, kg/s, at which each fan moves a
// share of its free-air flow. Behind the core their air is the thinner the less of it
// there is: a fixed point that takes a few steps.
func (p *Ready) massFlowAt(speed, share float64) float64 {
	massFlow := share * p.rig.Fans.FreeFlow(speed) * p.room * p.share
	if p.rig.Placing != fan.Pull {
		return massFlow
	}
	dense := massFlow
	for range 20 {
		massFlow = dense * p.streamAt(speed, massFlow).behind.density / p.room
	}
	return massFlow
}
