package breakeven

import (
	"context"
	"fmt"
	"math"

	"golang.org/x/sync/errgroup"

	"finduel/model"
	"finduel/sweep"
	"finduel/sweep/study"
)

// All compares every design of a plan with the reference; o.Done counts designs. Answers
// are held in memory and do not depend on the number of workers. It returns what ctx
// says if ctx ends first.
func All(ctx context.Context, p *sweep.Plan, o sweep.Options) (List, error) {
	o = o.WithDefaults()
	answers := make(List, p.Designs())
	pool, inner := errgroup.WithContext(ctx)
	pool.SetLimit(o.Workers)
	for design := range answers {
		if inner.Err() != nil {
			break
		}
		pool.Go(func() error { return Stretch(inner, p, o, design, answers[design:design+1]) })
	}
	if err := pool.Wait(); err != nil {
		return nil, err
	}
	return answers, ctx.Err()
}

// Stretch compares consecutive designs, from one on, as All does, one after the other.
func Stretch(ctx context.Context, p *sweep.Plan, o sweep.Options, from int, into []Answer) error {
	o = o.WithDefaults()
	for i := range into {
		if err := ctx.Err(); err != nil {
			return err
		}
		into[i] = compare(p, o.Model, from+i)
		o.Done.Add(1)
	}
	return nil
}

// Speeds returns the fan speeds over which a plan's challenger is searched,
// rev/s: those of its axis from the least to the greatest, or a fifth of the top
// speed to the top speed if the speed is not swept.
func Speeds(p *sweep.Plan) (low, high float64) {
	axis, ok := p.SpeedAxis()
	if !ok {
		top := p.Study.Setups[p.Study.Challenger].Rig.Fans.Fan.TopSpeed
		return top / 5, top
	}
	low, high = math.Inf(1), 0
	for _, v := range p.Study.Axes[axis].Values {
		low, high = min(low, v), max(high, v)
	}
	return low, high
}

// compare answers for one design.
func compare(p *sweep.Plan, m sweep.Model, design int) Answer {
	a := Answer{Design: design, Status: Excluded, Reason: "left out by the study", Margin: Margin(p.Study)}
	a.From, a.To = Speeds(p)
	if p.ExcludesDesign(design) {
		return a
	}
	k := p.Point(design, 0)
	return settle(p, m, a, p.Challenger(k), p.Reference(k))
}

// Margin returns the margin of a study, K.
func Margin(s *study.Study) float64 {
	if s.Margin > 0 {
		return s.Margin
	}
	return study.DefaultMargin
}

// settle completes an answer whose design, margin and speeds are set: it compares a
// challenger with a reference at its own speed.
func settle(p *sweep.Plan, m sweep.Model, a Answer, challenger, reference model.Rig) Answer {
	fail := func(why string) Answer {
		a.Status, a.Failure, a.Reason = Unknown, why, "no answer: "+why
		return a
	}
	state, err := sweep.Evaluate(m, reference)
	if err != nil {
		return fail("the reference has no value: " + sweep.Reason(err))
	}
	a.Reference = state
	ready, err := sweep.Ready(m, challenger)
	if err != nil {
		return fail("the challenger has no value: " + sweep.Reason(err))
	}
	low, high, open := allowed(p.Study.Exclusions, challenger, a.From, a.To)
	if !open {
		a.Status, a.Reason = Excluded, "left out by the study"
		return a
	}
	a.From, a.To = low, high
	if !a.endAtReach(ready) {
		return fail("the challenger's drive does not reach even the lowest searched speed, " + rpm(a.From) + ": " + a.DriveEnd + " stops it")
	}

	metric := p.Metric()
	level := metric(&a.Reference)
	at := func(speed float64) Point {
		challenger.Speed = speed
		state, err := ready.At(speed)
		if err != nil || p.Study.Excludes(&challenger) {
			return Point{Speed: speed, Difference: math.Inf(1)}
		}
		return Point{Speed: speed, Difference: metric(&state) - level, State: state}
	}
	difference := func(speed float64) float64 { return at(speed).Difference }

	f := search(difference, a.From, a.To)
	if !f.any {
		_, err := ready.At(a.To)
		return fail(fmt.Sprintf("the challenger has no value at any speed: %s", sweep.Reason(err)))
	}
	c := &f.curve
	for _, turn := range f.crossings {
		here := at(turn.speed)
		x := Crossing{
			Speed: turn.speed, Falling: turn.falling, Jump: turn.jump, Difference: here.Difference, State: here.State,
			Slope: slope(difference, turn.speed, a.From, a.To), Tie: c.around(turn.speed, a.Margin),
		}
		if x.DefaultTie = x.Tie; a.Margin != study.DefaultMargin {
			x.DefaultTie = c.around(turn.speed, study.DefaultMargin)
		}
		a.Crossings = append(a.Crossings, x)
	}
	a.Edges, a.Cut = f.edges, c.cut
	a.Best, a.BestEnds = at(f.best), f.ends
	speed, _ := c.sensible(a.Best.Difference, a.Margin)
	a.Sensible = at(speed)
	a.Status = status(a.Crossings, f.better)
	if math.Abs(a.Best.Difference) <= a.Margin {
		a.Status, a.Tie = Tie, c.around(a.Best.Speed, a.Margin)
	}
	a.Limit = limit(&a.Best.State, &a.Reference)
	a.Reason = reason(p, &a, at(a.To))
	return a
}

// allowed narrows the speeds from low to high to those at which a challenger is
// not left out: exclusions that hold for it but for its speed cut off one end. It
// reports false if nothing is left. Exclusions that cut out a stretch between two
// speeds leave both ends as they are.
func allowed(exclusions []study.Exclusion, challenger model.Rig, low, high float64) (float64, float64, bool) {
	for _, e := range exclusions {
		above, below, holds := math.Inf(-1), math.Inf(1), true // the speeds it cuts out lie between
		for _, c := range e {
			if c.Input.Key != "fan_speed" {
				v := c.Input.Get(&challenger)
				holds = holds && (v > c.Above || v < c.Below)
				continue
			}
			if !math.IsInf(c.Above, 1) {
				above = max(above, c.Above)
			}
			if !math.IsInf(c.Below, -1) {
				below = min(below, c.Below)
			}
		}
		switch {
		case !holds:
		case math.IsInf(below, 1):
			high = min(high, above)
		case math.IsInf(above, -1):
			low = max(low, below)
		}
	}
	return low, high, low <= high
}

// slope returns the slope of the difference at a speed by central difference, or
// one-sided where a neighbour has no value or lies outside the search.
func slope(difference func(float64) float64, speed, low, high float64) float64 {
	step := 1e-5 * speed
	a, b := max(speed-step, low), min(speed+step, high)
	fa, fb := difference(a), difference(b)
	if math.IsInf(fa, 1) {
		a, fa = speed, difference(speed)
	}
	if math.IsInf(fb, 1) {
		b, fb = speed, difference(speed)
	}
	if b <= a || math.IsInf(fa, 1) || math.IsInf(fb, 1) {
		return 0
	}
	return (fb - fa) / (b - a)
}

// status reads the crossings; better is whether the challenger is better anywhere.
func status(crossings []Crossing, better bool) Status {
	switch {
	case len(crossings) == 0 && better:
		return Always
	case len(crossings) == 0:
		return None
	}
	for _, c := range crossings {
		if !c.Falling {
			return Band
		}
	}
	return One
}

// limit names the budget term in which the challenger loses most.
func limit(challenger, reference *model.State) Limit {
	var l Limit
	for _, key := range model.BudgetTerms {
		output, _ := model.OutputOf(key)
		if excess := output.Get(challenger) - output.Get(reference); excess > l.Excess {
			l = Limit{Term: key, Excess: excess}
		}
	}
	return l
}
