package doubt

import (
	"slices"

	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
)

// LeastDraws is how many draws every result has at least.
const LeastDraws = leastBlocks * blockSize

// ParityPlaces is where the doubt of the parity line is drawn.
var ParityPlaces = parityPlaces

// Drawn is one draw of a design, for tests.
type Drawn struct {
	Over       func(speed float64) (float64, error) // what the challenger has at a speed, K
	Challenger float64                              // at the compared speed, K; NaN if it has no value
	Reference  float64                              // K; NaN if it has no value
	Breakeven  float64                              // rev/s, or infinite; NaN if there is none
	Upper      float64                              // rev/s, or infinite; NaN where it is better nowhere
	Asked      int                                  // how often the challenger was asked
}

// Draw draws a design n times and shows each draw. It returns how many of them searched
// all speeds.
func Draw(p *sweep.Plan, a *breakeven.Answer, n int, show func(Drawn)) int {
	w := newWork(p, Options{})
	c := w.comparison(searched{design: a.Design, from: a.From, to: a.To, upper: true})
	cube := hypercube(w.shapes, n, source(uint64(a.Design), streamDraws, 0))
	references, _ := referenceOf(&c.reference, cube, n)
	z := make([]float64, len(cube))
	var d drawn
	for k := range references {
		for j := range z {
			z[j] = cube[j][k]
		}
		d.asked = 0
		o := c.draw(z, &d, references[k], nil)
		show(Drawn{d.over, o.challenger, references[k], o.breakeven, o.upper, d.asked})
	}
	return c.crossing.searches
}

// Rows draws n rows for indices, each again by itself, and shows both; of is whose error
// changed, and whole that it is a row of its own. It returns how often either way asked.
func Rows(p *sweep.Plan, a *breakeven.Answer, n int, show func(of Side, whole bool, got, again Drawn)) (asked, askedAgain int) {
	w := newWork(p, Options{})
	c := w.comparison(searched{design: a.Design, from: a.From, to: a.To, upper: true})
	r := newRows(c)
	var d, dr drawn
	pick(hypercube(w.shapes, n, source(1, streamIndices, 0)), hypercube(w.shapes, n, source(1, streamIndices, 1)), 1, func(z []float64, changed int, _ []float64) {
		got := r.outcome(z, changed)
		known := append([]place(nil), c.crossing.known...)
		again := c.row(z, &d, &dr)
		c.crossing.known = append(c.crossing.known[:0], known...)
		of := Both
		if changed != wholeRow {
			of = w.variables[changed].Of
		}
		show(of, changed == wholeRow, drawnOf(got), drawnOf(again))
	})
	for _, x := range []*drawn{&r.challenger, &r.reference, &r.once, &r.onceReference} {
		asked += x.asked
	}
	return asked, d.asked + dr.asked
}

func drawnOf(o outcome) Drawn {
	return Drawn{Challenger: o.challenger, Reference: o.reference, Breakeven: o.breakeven, Upper: o.upper}
}

// ActionsOf lists what could be done about the inputs of a study in doubt, of a setup with
// a name.
func ActionsOf(s *study.Study, name string) []string {
	var list []string
	for _, v := range variablesOf(s, false) {
		if v.part == noPart && !slices.Contains(throughProducts, v.Key) {
			list = append(list, actionFor(&v, name))
		}
	}
	return list
}
