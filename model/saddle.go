package model

import (
	"math"

	"finduel/model/fan"
	"finduel/model/solve"
)

// scanSteps is into how many parts the mass flows are cut in the search for operating
// points of a curve that rises somewhere, a power of two.
const scanSteps = 64

// sighting is what was seen at a mass flow.
type sighting struct {
	place
	resistance    float64 // Pa
	front, behind bank
}

// place is a mass flow on the way from least to most.
type place struct {
	massFlow float64 // kg/s
	excess   float64 // of the fans' pressure over the resistance, Pa
	falls    bool    // whether the fans' curve falls from here to the next place
	settled  bool    // whether it does, or fans and core are far from balance all the way
}

// nearRoot ends a search for the mass flow of balance between low and high from a guess,
// and from how fast the excess falls with flow there, Pa s/kg; 0: as far as is known.
type nearRoot func(low, high, guess, fall float64) solve.Result

// balances finds the highest mass flow between least and most at which the fans are in
// balance with the core and stay so: less flow makes an excess of pressure, more a lack;
// if one above most is known it is that. Of fans whose curve has a saddle there may be
// others at smaller flows, where they may hang after a start or a gust: those are returned
// too, kg/s, falling. Without any balance the outcome is solve.NoSignChange, which says of
// highest that none is known. excess leaves the stream that it looked at in s.
//
// Where the curve of all fans falls, and they are not hot, the excess falls through zero at
// most once: a look at both ends is enough. Elsewhere it is looked at in ever smaller even
// steps, as long as fans and core might be in balance between two; every hump and dip
// between the smallest that does not reach over zero is followed to its end.
func (p *Ready) balances(excess func(massFlow float64) float64, near nearRoot, s *stream, speed, least, most, guess float64, highest solve.Result) (solve.Result, []float64) {
	var hanging []float64
	scan := scan{speed: speed, hot: p.hot(speed, p.mostFanHeat(speed))}
	step := (most - least) / scanSteps
	at := func(i int) sighting {
		massFlow := least + float64(i)*step
		return sighting{place: place{massFlow: massFlow, excess: excess(massFlow)}, resistance: s.resistance, front: s.front, behind: s.behind}
	}
	first, last := at(0), at(scanSteps)
	p.scan(&scan, at, &first, &last, 0, scanSteps)

	seen := scan.seen[:scan.n]
	for i := range seen {
		if math.IsNaN(seen[i].excess) {
			highest.Outcome = solve.NotFinite
			return highest, nil
		}
	}
	var places [2*scanSteps + 2]place
	n := 0
	for i := range seen {
		here := seen[i]
		left, right := here, here
		if i > 0 && !seen[i-1].settled {
			left = seen[i-1]
		}
		if i < len(seen)-1 && !seen[i].settled {
			right = seen[i+1]
		}
		places[n] = here
		n++
		sign := 1.0 // of a dip
		if here.excess <= 0 {
			sign = -1
		}
		if left == right || sign*here.excess > sign*left.excess || sign*here.excess > sign*right.excess {
			continue
		}
		end := solve.Minimum(func(m float64) float64 { return sign * excess(m) }, left.massFlow, right.massFlow, 1e-3*step)
		if end.F < 0 {
			found := place{massFlow: end.X, excess: sign * end.F}
			if places[n] = found; end.X < here.massFlow {
				places[n-1], places[n] = found, here
			}
			n++
		}
	}
	for i := n - 1; i > 0; i-- {
		left, right := &places[i-1], &places[i]
		if left.excess <= 0 || right.excess > 0 {
			continue
		}
		var root solve.Result
		fall := (left.excess - right.excess) / (right.massFlow - left.massFlow)
		switch {
		case !left.falls: // of several balances all searches must end at the same
			root = solve.RootFrom(excess, left.massFlow, left.excess, right.massFlow, right.excess, 1e-14*right.massFlow)
		case left.massFlow < guess && guess < right.massFlow:
			root = near(left.massFlow, right.massFlow, guess, 0)
		default:
			root = near(left.massFlow, right.massFlow, left.massFlow+left.excess/fall, fall)
		}
		if highest.Outcome == solve.NoSignChange {
			highest = root
		} else {
			hanging = append(hanging, root.X)
		}
	}
	return highest, hanging
}

// scan is what was seen, in the order of mass flow.
type scan struct {
	speed float64 // rev/s
	hot   bool    // nothing is said of what lies between two sightings
	seen  [scanSteps + 1]place
	n     int
}

// scan fills in what is seen at the steps from low, at number i, to high, at number j: at
// all of them but where nothing can be missed.
func (p *Ready) scan(s *scan, at func(i int) sighting, low, high *sighting, i, j int) {
	low.falls = !s.hot && p.falls(low.front.share, high.front.share) && p.falls(low.behind.share, high.behind.share)
	low.settled = low.falls || !s.hot && p.apart(s.speed, low, high)
	if low.settled || j-i == 1 {
		if s.n == 0 {
			s.seen[0], s.n = low.place, 1
		}
		s.seen[s.n-1].falls, s.seen[s.n-1].settled = low.falls, low.settled
		s.seen[s.n] = high.place
		s.n++
		return
	}
	middle := at((i + j) / 2)
	p.scan(s, at, low, &middle, i, (i+j)/2)
	p.scan(s, at, &middle, high, (i+j)/2, j)
}

// falls reports whether the fans' curve falls all the way between two shares of free-air
// flow. Of fans beside others that stand still the flow may turn back where that of the
// core does not: nothing is said of them.
func (p *Ready) falls(low, high float64) bool {
	if p.rig.Fans.Stopped > 0 || low > high {
		return false
	}
	for _, t := range p.turns {
		if low < t.Peak && high > t.Valley {
			return false
		}
	}
	return true
}

// farApart is how far, over the resistance, fans and core must be from balance where it is
// not looked between two sightings; between two that are close it is less: the root of the
// ratio of their flows, less 1. The resistance grows with the root of the flow or faster,
// but for a little: on the steepest bridge between two friction correlations, where hotter
// air undoes some of it. Of sixty thousand random rigs the worst was 13 % from that, and
// of all the resistance grew with flow.
const farApart = 0.2

// apart reports whether the fans' pressure is far above the resistance, or far below it,
// all the way between two sightings. Nothing is said of fans beside others that stand
// still: their flow may turn back between the two.
func (p *Ready) apart(speed float64, low, high *sighting) bool {
	if p.rig.Fans.Stopped > 0 {
		return false
	}
	var least, most float64
	if p.rig.Placing.Before() {
		least, most = p.pressures(speed, &low.front, &high.front)
	}
	if p.rig.Placing.Behind() {
		l, m := p.pressures(speed, &low.behind, &high.behind)
		least, most = least+l, most+m
	}
	far := min(farApart, math.Sqrt(high.massFlow/low.massFlow)-1)
	return p.together(least) > (1+far)*max(low.resistance, high.resistance) ||
		p.together(most) < (1-far)*min(low.resistance, high.resistance)
}

// pressures returns between which pressures, Pa, the fans of one side stay between two
// flows, low and high, at a speed. Their pressure turns where their curve does, and the
// density that it is in proportion to changes one way.
func (p *Ready) pressures(speed float64, low, high *bank) (least, most float64) {
	f := &p.rig.Fans.Fan
	a, b := low.pressure/low.density, high.pressure/high.density
	least, most = min(a, b), max(a, b)
	for _, t := range p.turns {
		for _, share := range [...]float64{t.Valley, t.Peak} {
			if low.share < share && share < high.share {
				turn := f.Pressure(speed, share*f.FreeFlow(speed), 1)
				least, most = min(least, turn), max(most, turn)
			}
		}
	}
	return least * min(low.density, high.density), most * max(low.density, high.density)
}

// elsewhere returns the mass flow, kg/s, up to which fans that are in balance at s may be
// so too; infinite where that may be anywhere, 0 where it is nowhere above least. Past
// every peak of their curve they can be in balance once. From there down they cannot as
// long as they stay far above what the core takes, in air as thin as it gets: that is
// asked of one half of what is left after the other.
func (p *Ready) elsewhere(s *stream, speed, least float64) float64 {
	if len(p.turns) == 0 && p.rig.Placing != fan.PushPull && !p.uneven {
		return 0
	}
	fanHeat := 0.0
	if p.rig.Placing.Before() {
		fanHeat = p.mostFanHeat(speed)
	}
	switch {
	case p.hot(speed, fanHeat):
		return math.Inf(1)
	case len(p.turns) == 0:
		return 0
	case p.rig.Fans.Stopped > 0:
		return math.Inf(1)
	}
	share, heat := math.Inf(1), p.heat+fanHeat*p.through
	if p.rig.Placing.Before() {
		share = s.front.share
	}
	if p.rig.Placing.Behind() {
		share = min(share, s.behind.share)
	}
	density := func(massFlow float64) float64 { // or more, behind the core
		return p.air.Density(p.rig.Room.Temperature + heat/(massFlow*p.specificHeat))
	}
	// Behind the core less flow is hotter, and its volume falls by less.
	upTo := s.massFlow * p.turns[0].Peak / share
	for upTo > least {
		low, pressure := max(upTo/2, least), 0.0
		if p.rig.Placing.Before() {
			pressure = p.leastPressure(&p.rig.Fans, speed, upTo, p.room, p.room)
		}
		if p.rig.Placing.Behind() {
			pressure += p.leastPressure(&p.behind, speed, upTo, density(low), density(upTo))
		}
		taken := s.resistance * math.Sqrt(upTo/s.massFlow)
		if !(p.together(pressure) > (1+farApart)*taken) {
			return upTo
		}
		upTo = low
	}
	return 0
}

// leastPressure returns a static pressure, Pa, that fans of which none stands still do not
// fall below from no flow to a mass flow, kg/s, in air that is no thinner than thinnest,
// and at that flow no thinner than thin, kg/m³. Past the last peak of their curve it is
// what the curve says at the end, which may lie beyond free air: there they brake.
func (p *Ready) leastPressure(fans *fan.Bank, speed, massFlow, thinnest, thin float64) float64 {
	share := massFlow / (p.share * thin * float64(fans.Turning()) * fans.Fan.FreeFlow(speed))
	over := p.dip
	if share > p.turns[0].Peak {
		over = min(over, fans.Fan.Curve.Pressure(share))
	}
	if over < 0 {
		return over * fans.Fan.ShutOff(speed, p.room)
	}
	return over * fans.Fan.ShutOff(speed, thinnest)
}

// warmed is how much warmer fans before the core may make the air, K, before it counts as
// hot: with 5 K of some 300 K even a power that changes fifty times as fast as the flow
// does not turn the volume back that those behind breathe. The mildest random rig that had
// several balances for it made 45 K.
const warmed = 5

// hot reports whether the fans before the core, which give off no more than a heat, W, may
// warm the air so much that less flow, of hotter air, takes more pressure from those before
// it, or more volume from those behind it, and that the flow at which all are in balance is
// not the only one though their curve falls. Before a core that takes fans whose power
// changes with flow.
func (p *Ready) hot(speed, heat float64) bool {
	if !p.rig.Placing.Before() || p.rig.Placing == fan.Push && !p.uneven {
		return false
	}
	most := p.behind.FreeFlow(speed) * p.room
	return heat > warmed*most*p.specificHeat
}
