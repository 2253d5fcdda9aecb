package breakeven

import (
	"context"
	"slices"

	"golang.org/x/sync/errgroup"

	"finduel/model"
	"finduel/sweep"
)

// Detail is what is worked out for a few designs only, since each takes hundreds of
// comparisons.
type Detail struct {
	Design  int           // its number in the plan
	Chosen  string        // why it was chosen: a clause that describes the design
	Parity  []ParityPoint // by the reference's speed, rising
	Sound   Match         // the two at the same sound
	Power   Match         // the two at the same fan power
	Changes []Change      // for None: what would create a break-even, one an input; else empty
}

// Why a design was chosen.
const (
	chosenOwn     = "the design nearest to the study's challenger"
	chosenLowest  = "the design with the lowest break-even speed"
	chosenNearest = "the design that comes closest of those that never equal the reference"
)

// Details works out the designs that matter most, at most three whatever the size of
// the plan, so that the cost is bounded: the one nearest to the study's challenger,
// the one with the lowest break-even speed, and the one that comes closest of those
// without any. Answers are those of All. It returns what ctx says if ctx ends first.
func Details(ctx context.Context, p *sweep.Plan, answers Answers, o sweep.Options) ([]Detail, error) {
	o = o.WithDefaults()
	chosen, err := choose(p, answers)
	if err != nil {
		return nil, err
	}
	pool, inner := errgroup.WithContext(ctx)
	pool.SetLimit(o.Workers)
	for i := range chosen {
		d := &chosen[i]
		a, err := answers.Of(d.Design)
		if err != nil {
			return nil, err
		}
		w := workbench{plan: p, model: o.Model, answer: a}
		k := p.Point(d.Design, 0)
		w.challenger, w.reference = p.Challenger(k), p.Reference(k)
		for _, job := range []func(){
			func() { d.Parity = w.parity() },
			func() { d.Sound = w.match("sound") },
			func() { d.Power = w.match("fan_power") },
			func() {
				if a.Status == None {
					d.Changes = w.changes()
				}
			},
		} {
			pool.Go(func() error {
				if err := inner.Err(); err != nil {
					return err
				}
				job()
				return nil
			})
		}
	}
	if err := pool.Wait(); err != nil {
		return nil, err
	}
	return chosen, ctx.Err()
}

// workbench is one design with what it is worked out with.
type workbench struct {
	plan       *sweep.Plan
	model      sweep.Model
	answer     *Answer
	challenger model.Rig
	reference  model.Rig
}

// settle compares a challenger with a reference over speeds, rev/s.
func (w *workbench) settle(challenger, reference model.Rig, from, to float64) Answer {
	a := Answer{Design: w.answer.Design, Margin: w.answer.Margin, From: from, To: to}
	return settle(w.plan, w.model, a, challenger, reference)
}

// choose returns the designs to work out, each once.
func choose(p *sweep.Plan, answers Answers) ([]Detail, error) {
	var lowest, nearest *Answer
	least := 0.0
	err := answers.Each(func(a *Answer) bool {
		if speed, ok := a.Lower(); ok && a.Status != Tie && (lowest == nil || speed < least) {
			lowest, least = a, speed
		}
		if a.Status == None && (nearest == nil || a.Best.Difference < nearest.Best.Difference) {
			nearest = a
		}
		return true
	})
	if err != nil || answers.Len() == 0 {
		return nil, err
	}
	own, err := answers.Of(Own(p))
	if err != nil {
		return nil, err
	}
	var list []Detail
	for _, c := range []struct {
		a   *Answer // nil: there is none
		why string
	}{{own, chosenOwn}, {lowest, chosenLowest}, {nearest, chosenNearest}} {
		if c.a == nil || c.a.Status == Unknown || c.a.Status == Excluded {
			continue
		}
		if !slices.ContainsFunc(list, func(d Detail) bool { return d.Design == c.a.Design }) {
			list = append(list, Detail{Design: c.a.Design, Chosen: c.why})
		}
	}
	return list, nil
}

// Own returns the design nearest to the study's challenger: every axis that can be
// chosen on its own is at the value nearest to what the challenger has in the study.
// Of axes in a group the first one counts.
func Own(p *sweep.Plan) int {
	speed, swept := p.SpeedAxis()
	grouped := map[string]bool{}
	var free, nearest []int
	for i, a := range p.Study.Axes {
		if swept && i == speed || a.Group != "" && grouped[a.Group] {
			continue
		}
		grouped[a.Group] = true
		free, nearest = append(free, i), append(nearest, p.Nearest(i))
	}
next:
	for design := range p.Designs() {
		k := p.Point(design, 0)
		for i, axis := range free {
			if p.Step(k, axis) != nearest[i] {
				continue next
			}
		}
		return design
	}
	return 0
}
