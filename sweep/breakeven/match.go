package breakeven

import (
	"math"
	"slices"

	"finduel/model"
	"finduel/model/solve"
	"finduel/sweep"
)

// Match compares challenger and reference at equal sound or equal fan power.
type Match struct {
	By       string    // key of the output in which they are equal: "sound" or "fan_power"
	From, To float64   // levels of it that both reach, SI; equal if there are none
	Gap      float64   // where there are none: by how much the challenger's least lies above the reference's most (or, negative, its most below the reference's least), SI
	Spans    []Span    // who is better over them, rising, without gaps
	Meetings []Meeting // levels at which both are equal, rising
	Why      string    // why there is nothing to compare, if not for a gap
}

// Winner says who is better.
type Winner int

// The winners.
const (
	Neither    Winner = iota // they differ by no more than the margin
	Challenger               //
	Reference                //
)

// String returns the winner as a word.
func (w Winner) String() string { return [...]string{"tie", "challenger", "reference"}[w] }

// Span is a range of levels over which one of the two is better.
type Span struct {
	From, To float64 // SI of Match.By
	Winner   Winner
	Least    float64 // by how much it is better at least, K, near the ends of the span; 0 for Neither
	Lead     float64 // by how much it is better at most, K; +Inf where the other has no value anywhere
}

// Meeting is a level of sound or power at which challenger and reference are equal
// in the metric, too.
type Meeting struct {
	At             float64    // SI of Match.By
	TieFrom, TieTo float64    // levels round it at which the two differ by no more than the margin, SI of Match.By
	Challenger     SpeedPoint // the challenger there
	Reference      SpeedPoint // the reference there
	Difference     float64    // challenger minus reference there, K
}

// SpeedPoint is a setup at a fan speed.
type SpeedPoint struct {
	Speed float64 // rev/s
	State model.State
}

// slowest is the lowest speed of a comparison at equal sound or power, over the top
// speed of the fan: slower fans than that do not start (common practice, no source).
const slowest = 0.05

// match compares the two at equal values of an output that grows with the speed. The
// challenger goes from a twentieth of its top speed, or from the lowest searched
// speed if that is lower, to the highest searched; the reference from a twentieth of
// its top speed to the top; both only from where they have a value.
func (w *workbench) match(by string) Match {
	output, _ := model.OutputOf(by)
	m := Match{By: by}
	top := w.challenger.Fans.Fan.TopSpeed
	ours, ok := w.ladder(w.challenger, output, math.Min(w.answer.From, slowest*top), w.answer.To)
	if !ok {
		m.Why = "the challenger has no value at any speed"
		return m
	}
	top = w.reference.Fans.Fan.TopSpeed
	theirs, ok := w.ladder(w.reference, output, slowest*top, top)
	if !ok {
		m.Why = "the reference has no value at any speed"
		return m
	}
	from, to := math.Max(ours.least, theirs.least), math.Min(ours.most, theirs.most)
	switch {
	case ours.least > theirs.most:
		m.Gap = ours.least - theirs.most
		return m
	case ours.most < theirs.least:
		m.Gap = ours.most - theirs.least
		return m
	case !(to > from):
		m.Why = "they have only one level in common"
		return m
	}
	m.From, m.To = from, to

	metric := w.plan.Metric()
	difference := func(speed float64) float64 {
		s, err := ours.ready.At(speed)
		if err != nil {
			return math.Inf(1)
		}
		r, err := theirs.ready.At(theirs.speed(output.Get(&s)))
		if err != nil {
			return math.Inf(1)
		}
		return metric(&s) - metric(&r)
	}
	f := search(difference, ours.speed(from), ours.speed(to))
	levelAt := func(speed float64) float64 {
		s, err := ours.ready.At(speed)
		if err != nil {
			return math.NaN()
		}
		return output.Get(&s)
	}
	bounds := []float64{f.curve.low}
	for _, t := range f.crossings {
		bounds = append(bounds, t.speed)
		if t.jump {
			continue
		}
		s, _ := ours.ready.At(t.speed)
		other := theirs.speed(output.Get(&s))
		r, _ := theirs.ready.At(other)
		tie := f.curve.around(t.speed, w.answer.Margin)
		m.Meetings = append(m.Meetings, Meeting{
			At: output.Get(&s), TieFrom: levelAt(tie.Low), TieTo: levelAt(tie.High),
			Challenger: SpeedPoint{t.speed, s}, Reference: SpeedPoint{other, r}, Difference: metric(&s) - metric(&r),
		})
	}
	bounds = append(append(bounds, f.edges...), f.curve.high)
	slices.Sort(bounds)
	for i := 1; i < len(bounds); i++ {
		span := Span{From: levelAt(bounds[i-1]), To: levelAt(bounds[i])}
		span.judge(&f.curve, bounds[i-1], bounds[i], w.answer.Margin)
		m.Spans = append(m.Spans, span)
	}
	return m
}

// judge says who is better between two speeds of the challenger, and by how much.
func (s *Span) judge(c *curve, from, to, margin float64) {
	least, lost := math.Inf(1), false
	for _, p := range c.samples {
		if p.speed < from || p.speed > to {
			continue
		}
		if p.missing() {
			lost = true
			continue
		}
		v := math.Abs(p.value)
		least = math.Min(least, v)
		if v > s.Lead {
			s.Lead, s.Winner = v, Challenger
			if p.value > 0 {
				s.Winner = Reference
			}
		}
	}
	switch {
	case lost:
		s.Winner, s.Lead, s.Least = Reference, math.Inf(1), least
		if math.IsInf(least, 1) {
			s.Least = 0
		}
	case s.Lead <= margin:
		s.Winner = Neither
	default:
		s.Least = least
	}
}

// ladder is a setup whose speed is told from an output that grows with it.
type ladder struct {
	ready       sweep.AtSpeed
	output      model.Output
	low, high   float64 // speeds with a value, rev/s
	least, most float64 // the output there, SI
}

// ladder makes a setup ready between two speeds, rev/s, from the lowest of them that
// has a value; false if none has.
func (w *workbench) ladder(rig model.Rig, output model.Output, low, high float64) (ladder, bool) {
	ready, err := sweep.Ready(w.model, rig)
	if err != nil {
		return ladder{}, false
	}
	c := curve{low: low, high: high, f: func(speed float64) float64 {
		s, err := ready.At(speed)
		if err != nil {
			return math.Inf(1)
		}
		return output.Get(&s)
	}}
	c.first()
	c.findEdges()
	l := ladder{ready: ready, output: output}
	any := false
	for _, s := range c.samples {
		if s.missing() {
			continue
		}
		if !any {
			l.low, l.least, any = s.speed, s.value, true
		}
		l.high, l.most = s.speed, s.value
	}
	return l, any
}

// speed returns the speed, rev/s, at which the output has a value that lies between
// its ends.
func (l *ladder) speed(value float64) float64 {
	switch {
	case value <= l.least:
		return l.low
	case value >= l.most:
		return l.high
	}
	return solve.RootFrom(func(speed float64) float64 {
		s, err := l.ready.At(speed)
		if err != nil {
			return l.least - value
		}
		return l.output.Get(&s) - value
	}, l.low, l.least-value, l.high, l.most-value, 1e-13*l.high).X
}
