package breakeven

import (
	"math"

	"finduel/model"
	"finduel/model/fan"
	"finduel/model/solve"
	"finduel/sweep"
)

// Change is one thing about the challenger (or the coolant that both share), changed
// alone, so that a design without a break-even gets one.
type Change struct {
	Key             string    // of the input, or "placing" or "fan"
	Now, Needed     float64   // of an input, SI: as it is; the nearest value that gives a break-even, rounded away from what it is now
	NowIs, NeededIs string    // of a placing or a fan: as it is, as it was tried
	Low, High       float64   // of an input, SI: the range in which it was tried
	Works           bool      // whether it gives a break-even
	At              *Crossing // where the two are then equal, from which on the challenger is better; nil if it is better from the lowest speed on
	Best            Point     // the challenger at its best speed then
	Closest         float64   // where it does not work: the least difference that was found, K; +Inf if nothing had a value
}

// changed lists the inputs that are changed.
var changed = []string{"fin_density", "fin_depth", "face_area", "coolant_flow"}

const (
	// reach is how far an input is changed, at least: to its half and to its double.
	// Where the study sweeps it further, that range counts.
	reach = 2

	// changeSteps is how many steps of equal ratio the search takes to either end.
	changeSteps = 12
)

// changes tries every change by comparing the changed setups anew.
func (w *workbench) changes() []Change {
	var list []Change
	for _, key := range changed {
		in, _ := model.InputOf(key)
		if in.Unused(&w.challenger) {
			in, _ = model.InputOf("pump_free_flow")
		}
		list = append(list, w.changeInput(in))
	}
	if w.challenger.Placing == fan.Push {
		pulling := w.challenger
		pulling.Placing = fan.Pull
		list = append(list, w.tryOnce(Change{Key: "placing", NowIs: fan.Push.String(), NeededIs: fan.Pull.String()}, pulling, w.answer.From, w.answer.To))
	}
	own := w.plan.Study.Setups[w.plan.Study.Challenger].Fan
	for _, f := range w.plan.Study.Fans {
		if f.Name == own {
			continue
		}
		other := w.challenger
		other.Fans.Fan = f.Fan
		list = append(list, w.tryOnce(Change{Key: "fan", NowIs: own, NeededIs: f.Name}, other, f.Fan.TopSpeed*parityLow, f.Fan.TopSpeed))
	}
	return list
}

// tryOnce completes a change that is one changed challenger, over speeds in rev/s.
func (w *workbench) tryOnce(c Change, challenger model.Rig, from, to float64) Change {
	return c.judge(w.settle(challenger, w.reference, from, to))
}

// judge completes a change by the answer that it gives.
func (c Change) judge(a Answer) Change {
	if a.Status == Unknown || a.Status == Excluded {
		c.Closest = math.Inf(1)
		return c
	}
	if c.Works = a.Best.Difference <= 0; !c.Works {
		c.Closest = a.Best.Difference
		return c
	}
	c.At, _ = a.Ends()
	c.Best = a.Best
	return c
}

// with returns both setups with an input changed.
func (w *workbench) with(in model.Input, v float64) (challenger, reference model.Rig) {
	challenger, reference = w.challenger, w.reference
	in.Set(&challenger, v)
	if in.Shared {
		in.Set(&reference, v)
	}
	return challenger, reference
}

// changeInput looks for the nearest value of an input that gives a break-even.
func (w *workbench) changeInput(in model.Input) Change {
	now := in.Get(&w.challenger)
	c := Change{Key: in.Key, Now: now, Low: now / reach, High: now * reach, Closest: w.answer.Best.Difference}
	for _, a := range w.plan.Study.Axes {
		if a.Input.Key != in.Key {
			continue
		}
		for _, v := range a.Values {
			c.Low, c.High = math.Min(c.Low, v), math.Max(c.High, v)
		}
	}
	c.Low, c.High = math.Max(c.Low, in.Low), math.Min(c.High, in.High)
	best := c
	for _, end := range []float64{c.Low, c.High} {
		found := w.towards(c, in, end)
		switch {
		case found.Works && (!best.Works || math.Abs(math.Log(found.Needed/now)) < math.Abs(math.Log(best.Needed/now))):
			best = found
		case !found.Works && !best.Works:
			best.Closest = math.Min(best.Closest, found.Closest)
		}
	}
	return best
}

// towards changes an input step by step to one end of its range.
func (w *workbench) towards(c Change, in model.Input, end float64) Change {
	if end == c.Now {
		return c
	}
	const beyond = 1e6 // K; stands in where nothing has a value
	gap := func(v float64) float64 {
		challenger, reference := w.with(in, v)
		return math.Min(w.gap(challenger, reference), beyond)
	}
	last, lastGap := c.Now, w.answer.Best.Difference
	for i := 1; i <= changeSteps; i++ {
		v := c.Now * math.Pow(end/c.Now, float64(i)/changeSteps)
		g := gap(v)
		if g > 0 {
			if g < beyond {
				c.Closest = math.Min(c.Closest, g)
			}
			last, lastGap = v, g
			continue
		}
		r := solve.RootFrom(gap, last, lastGap, v, g, 1e-4*v)
		nearest := r.High
		if end < c.Now {
			nearest = r.Low
		}
		for _, needed := range []float64{rounded(in, nearest, c.Now, end), nearest, v} {
			challenger, reference := w.with(in, needed)
			if done := c.judge(w.settle(challenger, reference, w.answer.From, w.answer.To)); done.Works {
				done.Needed = needed
				return done
			}
		}
		last, lastGap = v, g
	}
	return c
}

// rounded rounds a value of an input, in the unit in which it is shown, to three
// digits, away from what it is now; but not beyond an end.
func rounded(in model.Input, v, now, end float64) float64 {
	shown := in.Shown.Shown(v)
	if shown <= 0 {
		return v
	}
	digit := math.Pow(10, math.Floor(math.Log10(shown))-2)
	count := math.Ceil(shown/digit - 1e-9)
	if end < now {
		count = math.Floor(shown/digit + 1e-9)
	}
	r := in.Shown.SI(math.Round(count*digit*1e9) / 1e9)
	if (r-end)*(end-now) > 0 {
		return v
	}
	return r
}

// gap returns the least difference between a challenger and a reference over the
// searched speeds, K; +Inf if there is none. It looks at a few speeds and follows
// the lowest: what counts in the end is settled anew.
func (w *workbench) gap(challenger, reference model.Rig) float64 {
	state, err := sweep.Evaluate(w.model, reference)
	if err != nil {
		return math.Inf(1)
	}
	metric := w.plan.Metric()
	level := metric(&state)
	ready, err := sweep.Ready(w.model, challenger)
	if err != nil {
		return math.Inf(1)
	}
	const looks, beyond = 32, 1e6
	difference := func(speed float64) float64 {
		challenger.Speed = speed
		s, err := ready.At(speed)
		if err != nil || w.plan.Study.Excludes(&challenger) {
			return beyond
		}
		return metric(&s) - level
	}
	low, high := w.answer.From, w.answer.To
	step := (high - low) / looks
	best, at := math.Inf(1), low
	for i := range looks + 1 {
		speed := low + step*float64(i)
		if d := difference(speed); d < best {
			best, at = d, speed
		}
	}
	if step > 0 {
		r := solve.Minimum(difference, math.Max(low, at-step), math.Min(high, at+step), 1e-6*high)
		best = math.Min(best, r.F)
	}
	if best >= beyond {
		return math.Inf(1)
	}
	return best
}
