package sweep

import (
	"context"
	"fmt"
	"runtime"
	"sync/atomic"

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
	Workers int           // how many points are evaluated at a time; 0: one a processor
	Model   Model         // nil: Physics
	Done    *atomic.Int64 // if not nil, counts evaluated points as the run goes on
}

// pointsPerTask is how many points a worker takes at a time: enough that handing
// them out costs nothing, few enough that Ctrl-C is heard at once.
const pointsPerTask = 256

// Run evaluates every point of a plan that is not excluded, and the reference
// over its own speeds. If ctx ends first it returns what ctx says and the rows
// that were complete; ReferenceCurve is then empty.
func Run(ctx context.Context, p *Plan, o Options) (*Results, error) {
	if o.Workers <= 0 {
		o.Workers = runtime.GOMAXPROCS(0)
	}
	if o.Model == nil {
		o.Model = Physics
	}
	rows := make([]Row, p.Points())
	filled := make([]bool, p.Points())

	pool, inner := errgroup.WithContext(ctx)
	pool.SetLimit(o.Workers)
	for from := 0; from < len(rows) && inner.Err() == nil; from += pointsPerTask {
		to := min(from+pointsPerTask, len(rows))
		pool.Go(func() error {
			e := evaluator{plan: p, model: o.Model, design: -1, conditions: -1}
			for k := from; k < to; k++ {
				if err := inner.Err(); err != nil {
					return err
				}
				if !p.Excluded(k) {
					rows[k], filled[k] = e.row(k), true
				}
				if o.Done != nil {
					o.Done.Add(1)
				}
			}
			return nil
		})
	}
	err := pool.Wait()
	if err == nil {
		err = ctx.Err()
	}

	results := &Results{Plan: p, Rows: keep(rows, filled)}
	if err != nil {
		return results, err
	}
	results.ReferenceCurve = referenceCurve(p, o.Model)
	return results, nil
}

// keep returns the filled rows, in order.
func keep(rows []Row, filled []bool) []Row {
	kept := rows[:0]
	for k, row := range rows {
		if filled[k] {
			kept = append(kept, row)
		}
	}
	return kept
}

// evaluator evaluates consecutive points and keeps what they share: a design is
// made ready once for all its speeds, the reference is asked once for all points
// under the same conditions. What it answers for a point does not depend on
// which points it saw before.
type evaluator struct {
	plan  *Plan
	model Model

	design     int // the design that is ready; -1: none
	ready      AtSpeed
	failure    string // why the design has no value at any speed
	rig        model.Rig
	conditions int // the design whose conditions reference was asked under; -1: none

	reference        float64
	referenceFailure string
}

// row evaluates point k.
func (e *evaluator) row(k int) Row {
	row := Row{Point: k}
	design, _ := e.plan.Design(k)
	if design != e.design {
		e.prepare(design, k)
	}
	if row.Failure = e.failure; row.Failure == "" {
		row.Failure = e.referenceFailure
	}
	if row.Failure != "" {
		return row
	}
	speed := e.rig.Speed
	if axis, ok := e.plan.SpeedAxis(); ok {
		speed = e.plan.Study.Axes[axis].Values[e.plan.Step(k, axis)]
	}
	state, err := e.ready.At(speed)
	if err != nil {
		row.Failure = Reason(err)
		return row
	}
	row.State, row.Reference = state, e.reference
	return row
}

// prepare makes the design of point k ready, and the reference under its
// conditions.
func (e *evaluator) prepare(design, k int) {
	e.design, e.failure = design, ""
	e.rig = e.plan.Challenger(k)
	ready, err := Ready(e.model, e.rig)
	if e.ready = ready; err != nil {
		e.failure = Reason(err)
	}
	if e.conditions >= 0 && !e.plan.sharesSwept() {
		return
	}
	e.conditions, e.referenceFailure = design, ""
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

// referenceCurve returns the reference from two fifths of its top speed to the top,
// leaving out speeds without a value.
func referenceCurve(p *Plan, m Model) []SpeedState {
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
