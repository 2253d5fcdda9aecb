package sweep

import (
	"context"
	"fmt"
	"runtime"
	"slices"
	"sync/atomic"
	"time"

	"golang.org/x/sync/errgroup"

	"finduel/model"
)

// Model answers what a rig does. Any may be used; finduel's own is Physics.
type Model func(model.Rig) (AtSpeed, error)

// AtSpeed is a rig made ready for any fan speed, in rev/s.
type AtSpeed interface {
	At(speed float64) (model.State, error)
}

// Physics is the thermal model.
func Physics(rig model.Rig) (AtSpeed, error) {
	ready, err := model.Prepare(rig)
	if err != nil {
		return nil, err
	}
	return &ready, nil
}

// Options says how to run a plan; the zero value is good.
type Options struct {
	Workers int           // how many chunks are evaluated at a time; 0: one a processor
	Model   Model         // nil: Physics
	Done    *atomic.Int64 // if not nil, counts evaluated points as the run goes on
	Failed  *atomic.Int64 // if not nil, counts those of them that have no value
}

// WithDefaults returns the options with what is not given filled in.
func (o Options) WithDefaults() Options {
	if o.Workers <= 0 {
		o.Workers = runtime.GOMAXPROCS(0)
	}
	if o.Model == nil {
		o.Model = Physics
	}
	if o.Done == nil {
		o.Done = new(atomic.Int64)
	}
	if o.Failed == nil {
		o.Failed = new(atomic.Int64)
	}
	return o
}

// patience is how long a stretch of points may still take once the run is asked to
// stop, before it is given up.
const patience = 2 * time.Second

// pointsPerCount is how many points a worker evaluates before it says so.
const pointsPerCount = 64

// Run evaluates stretches of a plan's points, several at a time, and hands the rows
// of each stretch to keep, excluded points left out. keep is called from several
// goroutines and must not hold on to the rows. What it is handed for a stretch does
// not depend on the number of workers or on which other stretches there are.
//
// If ctx ends, no further stretch is begun; those under way are finished and kept,
// unless that takes more than two seconds. Run then returns what ctx says. If keep
// fails, Run stops likewise and returns keep's error.
func Run(ctx context.Context, p *Plan, o Options, spans []Span, keep func(Span, []Row) error) error {
	o = o.WithDefaults()
	pool, inner := errgroup.WithContext(ctx)
	given, giveUp := context.WithCancel(context.WithoutCancel(ctx))
	defer giveUp()
	defer context.AfterFunc(inner, func() {
		select {
		case <-time.After(patience):
		case <-given.Done():
		}
		giveUp()
	})()

	next := make(chan Span)
	pool.Go(func() error {
		defer close(next)
		for _, span := range spans {
			select {
			case next <- span:
			case <-inner.Done():
				return inner.Err()
			}
		}
		return nil
	})
	for range min(o.Workers, len(spans)) {
		pool.Go(func() error {
			var rows []Row
			for span := range next {
				if inner.Err() != nil {
					return inner.Err()
				}
				e := newEvaluator(p, o.Model)
				rows = slices.Grow(rows[:0], span.To-span.From)
				done, failed := 0, 0
				for k := span.From; k < span.To; k++ {
					if given.Err() != nil {
						return ctx.Err()
					}
					if !e.excluded(k) {
						rows = rows[:len(rows)+1]
						if !e.fill(&rows[len(rows)-1], k) {
							failed++
						}
					}
					if done++; done == pointsPerCount || k == span.To-1 {
						o.Done.Add(int64(done))
						o.Failed.Add(int64(failed))
						done, failed = 0, 0
					}
				}
				if err := keep(span, rows); err != nil {
					return err
				}
			}
			return nil
		})
	}
	return pool.Wait()
}

// evaluator evaluates consecutive points and keeps what they share: a design is
// made ready once for all its speeds, and walked along them; the reference is asked
// once for all points under the same conditions. What it answers for a point depends
// on those before it in its stretch, by less than 1e-9, relative; see model.Walk.
type evaluator struct {
	plan   *Plan
	model  Model
	speeds []float64 // of each design; empty if the speed is not swept on its own

	rigOf      int       // the design whose rig is at hand; -1: none
	first      int       // the first point of that design
	rig        model.Rig // its rig, at the speed that was looked at last
	design     int       // the design that is ready; -1: none
	ready      AtSpeed
	walk       *model.Walk // along its speeds; nil if the model has none
	failure    string      // why the design has no value at any speed
	conditions int         // the design whose conditions reference was asked under; -1: none

	reference        float64
	referenceFailure string
}

func newEvaluator(p *Plan, m Model) *evaluator {
	e := &evaluator{plan: p, model: m, rigOf: -1, design: -1, conditions: -1}
	if axis, ok := p.SpeedAxis(); ok {
		e.speeds = p.Study.Axes[axis].Values
	}
	return e
}

// at puts the rig of point k at hand. k is no less than it was before.
func (e *evaluator) at(k int) {
	if place := k - e.first; e.rigOf >= 0 && place < len(e.speeds) {
		e.rig.Speed = e.speeds[place]
		return
	}
	design, place := e.plan.Design(k)
	e.rigOf, e.first, e.rig = design, k-place, e.plan.Challenger(k)
}

// excluded is Plan.Excluded of point k.
func (e *evaluator) excluded(k int) bool {
	if len(e.plan.Study.Exclusions) == 0 {
		return false
	}
	e.at(k)
	return e.plan.Study.Excludes(&e.rig)
}

// fill evaluates point k into a row, whatever that held before, and returns whether the
// point has a value.
func (e *evaluator) fill(row *Row, k int) bool {
	e.at(k)
	if e.rigOf != e.design {
		e.prepare(k)
	}
	failure := e.failure
	if failure == "" {
		failure = e.referenceFailure
	}
	if failure == "" {
		err := e.ask(&row.State)
		if err == nil {
			row.Point, row.Reference, row.Failure = k, e.reference, ""
			return true
		}
		failure = Reason(err)
	}
	*row = Row{Point: k, Failure: failure}
	return false
}

// ask fills in the state of the rig at hand.
func (e *evaluator) ask(st *model.State) (err error) {
	if e.walk == nil {
		*st, err = e.ready.At(e.rig.Speed)
		return err
	}
	defer caught(&err)
	return e.walk.To(e.rig.Speed, st)
}

// Stretch evaluates a stretch of points one after another, to the same bits as Run
// evaluates a stretch that begins where it does, excluded points left out.
func Stretch(p *Plan, m Model, span Span) []Row {
	var rows []Row
	e := newEvaluator(p, m)
	for k := span.From; k < span.To; k++ {
		if !e.excluded(k) {
			rows = append(rows, Row{})
			e.fill(&rows[len(rows)-1], k)
		}
	}
	return rows
}

// prepare makes the design of point k, whose rig is at hand, ready, and the reference
// under its conditions.
func (e *evaluator) prepare(k int) {
	e.design, e.failure = e.rigOf, ""
	ready, err := Ready(e.model, e.rig)
	if e.ready, e.walk = ready, nil; err != nil {
		e.failure = Reason(err)
	} else if physics, ok := ready.(guarded).inner.(*model.Ready); ok {
		walk := physics.Walk()
		e.walk = &walk
	}
	if e.conditions >= 0 && !e.plan.sharesSwept() {
		return
	}
	e.conditions, e.referenceFailure = e.design, ""
	reference := e.plan.Reference(k)
	state, err := Evaluate(e.model, reference)
	if err != nil {
		e.referenceFailure = "the reference has no value: " + Reason(err)
		return
	}
	e.reference = e.plan.Metric()(&state)
}

// sharesSwept reports whether any axis is a condition that both setups share.
func (p *Plan) sharesSwept() bool {
	for _, a := range p.Study.Axes {
		if a.Input.Shared {
			return true
		}
	}
	return false
}

// Metric returns the output in which the study compares its setups.
func (p *Plan) Metric() func(*model.State) float64 {
	output, ok := model.OutputOf(p.Study.Metric)
	if !ok {
		output, _ = model.OutputOf("coolant_over_air")
	}
	return output.Get
}

// Ready asks a model to make a rig ready. A panic in the model, here or at any
// speed, becomes the error of this one rig: a batch must not die of one point.
func Ready(m Model, rig model.Rig) (ready AtSpeed, err error) {
	defer caught(&err)
	inner, err := m(rig)
	if err != nil {
		return nil, err
	}
	return guarded{inner}, nil
}

// Evaluate returns the state of a rig at its own speed.
func Evaluate(m Model, rig model.Rig) (model.State, error) {
	ready, err := Ready(m, rig)
	if err != nil {
		return model.State{}, err
	}
	return ready.At(rig.Speed)
}

// guarded turns a panic at a speed into an error.
type guarded struct{ inner AtSpeed }

// At asks the rig for one speed, in rev/s.
func (g guarded) At(speed float64) (state model.State, err error) {
	defer caught(&err)
	return g.inner.At(speed)
}

func caught(err *error) {
	if r := recover(); r != nil {
		*err = fmt.Errorf("the model stopped: %v", r)
	}
}

// ReferenceCurve returns the reference from two fifths of its top speed to the top,
// leaving out speeds without a value.
func ReferenceCurve(p *Plan, m Model) []SpeedState {
	const steps = 37
	rig := p.Study.Setups[p.Study.Reference].Rig
	ready, err := Ready(m, rig)
	if err != nil {
		return nil
	}
	var curve []SpeedState
	for i := range steps {
		share := 0.4 + 0.6*float64(i)/(steps-1)
		speed := share * rig.Fans.Fan.TopSpeed
		if state, err := ready.At(speed); err == nil {
			curve = append(curve, SpeedState{Speed: speed, State: state})
		}
	}
	return curve
}
