package model

import (
	"math"

	"finduel/model/fan"
	"finduel/model/solve"
)

// stream is the air on its way through the rig at one mass flow.
type stream struct {
	massFlow      float64   // through the core, kg/s
	warming       float64   // by the fans before the core, K
	inlet         float64   // entering the core, K
	outlet        float64   // leaving the core, K
	front, behind bank      // what the fans before and behind the core do; zero where there are none
	pressureDrop  float64   // of the core, Pa
	resistance    float64   // of core and grille, Pa
	hanging       []float64 // smaller mass flows at which the fans may hang, falling, kg/s
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

// airStream fills in where the fans meet the core: the mass flow at which the
// pressure they make equals the pressure that core and grille take. What leaks past
// the core is the fans' to move, and carries no heat away.
//
// The air warms up by heat/(ṁ·cp), in push by the fans' heat too, so every mass flow
// has its own temperatures and densities; they are part of the function whose root is
// sought. Air can leave no hotter than the coolant enters. The mass flow at which it
// would leave at the boiling point of the coolant is therefore the least that can
// carry the heat, and the low end of the bracket; free delivery is the high end.
//
// The search begins where h says, and h is told where it ended.
func (p *Ready) airStream(s *stream, speed float64, h *hint) error {
	least := p.leastFlow(speed)
	most := p.behind.FreeFlow(speed) * p.room * p.share
	if most <= least {
		return ErrBoils
	}
	excess := func(massFlow float64) float64 {
		p.streamAt(s, speed, massFlow)
		return p.pressure(s) - s.resistance
	}
	// fall is how fast the excess falls with flow, Pa s/kg; 0: not known.
	near := func(low, high, guess, fall float64) solve.Result {
		f := excess(guess)
		resistance, made := s.resistance, f+s.resistance
		second := guess + f/fall
		if fall == 0 {
			second = guess * (1 + f/(h.steep*resistance))
			if h.steep == 0 {
				second = guess * balanced(resistance/made)
			}
		}
		// The lesser of the two is not above what both are in balance.
		enough := inBalance*max(min(resistance, made), 0) + rounding*p.behind.Fan.ShutOff(speed, p.room)
		return solve.RootNear(excess, low, high, guess, f, second, enough)
	}
	guess := most / 2
	if h.steep != 0 {
		guess = h.flow * most
	}
	root := near(least, most, guess, 0)
	settle := func() {
		if s.massFlow != root.X {
			p.streamAt(s, speed, root.X)
		}
	}
	settle()
	if upTo := p.elsewhere(s, speed, least); upTo > least {
		if root.Outcome != solve.Converged || upTo >= root.X {
			upTo, root = most, solve.Result{Outcome: solve.NoSignChange}
		}
		var hanging []float64
		root, hanging = p.balances(excess, near, s, speed, least, upTo, guess, root)
		settle()
		s.hanging = hanging
	}
	if root.Outcome == solve.NoSignChange {
		return ErrBoils
	}
	if root.Outcome != solve.Converged {
		return &SearchError{"the operating point of the fans", root.Outcome}
	}
	h.flow = root.X / most
	if root.Slope != 0 {
		h.steep = -root.Slope * root.X / s.resistance
	}
	if h.steep != 0 {
		h.flow *= 1 + root.F/(h.steep*s.resistance)
	}
	return nil
}

// Fans and core are in balance where their pressures differ by no more than inBalance.
// Near free air these are small themselves: there it is the rounding of what makes them.
const (
	inBalance = 2e-11
	rounding  = 4e-15
)

// balanced returns, to a few parts in a hundred, at which multiple of half the free-air
// flow fans meet a core that takes the given multiple of their pressure there, if their
// curve is straight and the core's resistance grows with flow to 1.5:
//
//	2 − x = ratio x^1.5
//
// by Newton's steps from 1. Below a ratio of 0, or of NaN, it returns NaN.
func balanced(ratio float64) float64 {
	if !(ratio >= 0) {
		return math.NaN()
	}
	x := 1.0
	for range 4 {
		root := math.Sqrt(x)
		x -= (ratio*x*root + x - 2) / (1.5*ratio*root + 1)
	}
	return x
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
	return heat / (p.specificHeat * headroom)
}

// pressure returns the static pressure of all fans, Pa. Of fans before and behind the
// core some of the sum is lost to swirl.
func (p *Ready) pressure(s *stream) float64 {
	return p.together(s.front.pressure + s.behind.pressure)
}

// together returns what is left of the sum of the pressures of both sides, Pa, corrected.
func (p *Ready) together(sum float64) float64 {
	if p.rig.Placing == fan.PushPull {
		sum *= 1 - p.rig.Installed.SeriesLoss
	}
	return sum * (1 + p.rig.Correction.FanPressure)
}

// streamAt fills in the air's state at a fan speed and a mass flow, fans and core not
// yet in balance. The viscosity of the air in the passages is that at its mean
// temperature, as in the pressure-drop formula of the core. Fans behind the core
// breathe its air mixed with what leaks past it: in pull room air, in push-pull air
// that the fans in front have warmed.
func (p *Ready) streamAt(s *stream, speed, massFlow float64) {
	*s = stream{massFlow: massFlow, inlet: p.rig.Room.Temperature}
	capacity := massFlow * p.specificHeat
	if p.rig.Placing.Before() {
		s.front = p.bankAt(&p.rig.Fans, speed, massFlow, p.room)
		s.warming = p.heatToCore(speed, massFlow, &s.front) / capacity
		s.inlet += s.warming
	}
	s.outlet = s.inlet + p.heat/capacity
	p.throughCore(s, speed)
}

// throughCore completes a stream whose temperatures and front are known.
func (p *Ready) throughCore(s *stream, speed float64) {
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
	return min(s.front.share, s.behind.share)
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
