package model

import "math"

// Walk asks a Ready for one fan speed after another. Each search begins where the ones
// before it lead to, which takes about half the looks at fans and coolant of a search
// from scratch. A state differs from that of Ready.At by less than 1e-9, relative; by how
// much depends on the speeds that were asked for before it, and on nothing else.
//
// A Walk belongs to one goroutine. The Ready is only read.
type Walk struct {
	ready *Ready
	n     int // how many states of the past are known, up to all
	past  [pastStates]pastState
}

// pastStates is from how many states the next one is foretold: by a cubic.
const pastStates = 4

// pastState is where the searches for a state ended, and the coordinates over which that
// runs smoothly.
type pastState struct {
	hint
	speed float64 // rev/s
	stay  float64 // 1 over speed and flow, to which the time that the air stays in the core is in proportion
}

// hint is where the searches for a state may begin, and where they ended. Nothing is
// known if it is zero; a search that ends where it began learns no slope.
type hint struct {
	flow  float64 // mass flow through the core over that in free air
	steep float64 // how fast the excess of the fans' pressure falls with flow there, over resistance/flow; 0: not known
	film  float64 // film temperature of the coolant, K
	slope float64 // rise with the film temperature of what exchange brings to zero, K/K; 0: not known
}

// Walk returns a walk that has asked for nothing yet.
func (p *Ready) Walk() Walk { return Walk{ready: p} }

// To fills in the steady state at a fan speed in rev/s, which must be above 0; errors are
// those of Evaluate and leave the state as it was. After an error the next search begins
// from scratch.
func (w *Walk) To(speed float64, st *State) error {
	h := w.ahead(speed)
	if err := w.ready.at(st, speed, &h); err != nil {
		*w = w.ready.Walk()
		return err
	}
	if h.steep == 0 {
		h.steep = w.past[0].steep
	}
	if h.slope == 0 {
		h.slope = w.past[0].slope
	}
	copy(w.past[1:], w.past[:])
	w.past[0] = pastState{h, speed, 1 / (speed * h.flow)}
	w.n = min(w.n+1, pastStates)
	return nil
}

// ahead returns where the search at a speed may begin.
func (w *Walk) ahead(speed float64) hint {
	if w.n == 0 {
		return hint{}
	}
	past := w.past[:w.n]
	h := past[0].hint
	var at, counts [pastStates]float64
	for i := range past {
		at[i] = past[i].speed
	}
	if weigh(counts[:w.n], at[:w.n], speed) {
		flow, steep := 0.0, 0.0
		for i := range past {
			flow += counts[i] * past[i].flow
			steep += counts[i] * past[i].steep
		}
		h.flow, h.steep = flow, steep
	}
	for i := range past {
		at[i] = past[i].stay
	}
	if weigh(counts[:w.n], at[:w.n], 1/(speed*h.flow)) {
		film, slope := 0.0, 0.0
		for i := range past {
			film += counts[i] * past[i].film
			slope += counts[i] * past[i].slope
		}
		h.film, h.slope = film, slope
	}
	return h
}

// farthest is how much points may count together, those of either sign, where they are
// still to foretell: 15 one even step ahead. Speeds that are close together say nothing
// of one far away.
const farthest = 100

// weigh fills in what each of some points, at abscissae of their own, counts at x on the
// polynomial through all of them (Lagrange's formula), and returns whether that may be
// used: not far away, and not where two abscissae are the same.
func weigh(counts, abscissae []float64, x float64) bool {
	sum := 0.0
	for i, a := range abscissae {
		over, under := 1.0, 1.0
		for j, b := range abscissae {
			if j != i {
				over *= x - b
				under *= a - b
			}
		}
		counts[i] = over / under
		sum += math.Abs(counts[i])
	}
	return sum <= farthest
}
