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
	Over      func(speed float64) (float64, error) // what the challenger has at a speed, K
	Reference float64                              // K; NaN if it has no value
	Breakeven float64                              // rev/s, or infinite; NaN if there is none
	Upper     float64                              // rev/s, or infinite; NaN where it is better nowhere
	Asked     int                                  // how often the challenger was asked
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
		show(Drawn{d.over, references[k], o.breakeven, o.upper, d.asked})
	}
	return c.crossing.searches
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
