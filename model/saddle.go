package model

import (
	"math"

	"finduel/model/solve"
)

// scanSteps is into how many parts the mass flows are cut in the search for operating
// points of a curve that rises somewhere, a power of two.
const scanSteps = 64

// sighting is what was seen at a mass flow.
type sighting struct {
	massFlow      float64 // kg/s
	excess        float64 // of the fans' pressure over the resistance, Pa
	front, behind float64 // share of free-air flow of the fans on each side
	falls         bool    // whether the fans' curve falls from here to the next sighting
}

// balances returns the highest mass flow, kg/s, between least and most at which the fans
// are in balance with the core and stay so: less flow makes an excess of pressure, more a
// lack. Of fans whose curve has a saddle there may be others at smaller flows, where they
// may hang after a start or a gust: those are returned too, falling. Without any balance
// the outcome is solve.NoSignChange. excess leaves the stream that it looked at in s.
//
// Where the curve of all fans falls, the excess falls through zero at most once: a look at
// both ends is enough. Elsewhere it is looked at in even steps, and every hump and dip
// between them that does not reach over zero is followed to its end.
func (p *Ready) balances(excess func(massFlow float64) float64, s *stream, least, most float64) (highest solve.Result, hanging []float64) {
	var scan scan
	step := (most - least) / scanSteps
	look := func(massFlow float64) sighting {
		e := excess(massFlow)
		return sighting{massFlow: massFlow, excess: e, front: s.front.share, behind: s.behind.share}
	}
	at := func(i int) sighting { return look(least + float64(i)*step) }
	p.scan(&scan, at, at(0), at(scanSteps), 0, scanSteps)

	seen := scan.seen[:scan.n]
	for i := range seen {
		if math.IsNaN(seen[i].excess) {
			highest.Outcome = solve.NotFinite
			return highest, nil
		}
	}
	var points [2*scanSteps + 2]sighting
	n := 0
	for i, here := range seen {
		left, right := here, here
		if i > 0 && !seen[i-1].falls {
			left = seen[i-1]
		}
		if i < len(seen)-1 && !here.falls {
			right = seen[i+1]
		}
		points[n] = here
		n++
		sign := 1.0 // of a dip
		if here.excess <= 0 {
			sign = -1
		}
		if left == right || sign*here.excess > sign*left.excess || sign*here.excess > sign*right.excess {
			continue
		}
		near := solve.Minimum(func(m float64) float64 { return sign * excess(m) }, left.massFlow, right.massFlow, 1e-3*step)
		if near.F < 0 {
			found := sighting{massFlow: near.X, excess: sign * near.F}
			if points[n] = found; near.X < here.massFlow {
				points[n-1], points[n] = found, here
			}
			n++
		}
	}
	highest.Outcome = solve.NoSignChange
	for i := n - 1; i > 0; i-- {
		left, right := points[i-1], points[i]
		if left.excess <= 0 || right.excess > 0 {
			continue
		}
		root := solve.RootFrom(excess, left.massFlow, left.excess, right.massFlow, right.excess, 1e-14*right.massFlow)
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
	seen [scanSteps + 1]sighting
	n    int
}

// scan fills in what is seen at the steps from low, at number i, to high, at number j: at
// all of them but where the fans' curve falls.
func (p *Ready) scan(s *scan, at func(i int) sighting, low, high sighting, i, j int) {
	low.falls = p.falls(low.front, high.front) && p.falls(low.behind, high.behind)
	if low.falls || j-i == 1 {
		if s.n == 0 {
			s.seen[0], s.n = low, 1
		}
		s.seen[s.n-1].falls = low.falls
		s.seen[s.n] = high
		s.n++
		return
	}
	middle := at((i + j) / 2)
	p.scan(s, at, low, middle, i, (i+j)/2)
	p.scan(s, at, middle, high, (i+j)/2, j)
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
