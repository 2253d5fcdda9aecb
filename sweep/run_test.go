package sweep_test

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"strings"
	"sync/atomic"
	"testing"

	"finduel/model"
	"finduel/sweep"
	"finduel/testdata/reports"
)

// invented is a model of its own: its answer is a number made from the inputs, so
// that a row tells which point it belongs to.
type invented struct {
	rig   model.Rig
	calls *atomic.Int64
	hook  func(speed float64)
}

func (m invented) At(speed float64) (model.State, error) {
	m.calls.Add(1)
	if m.hook != nil {
		m.hook(speed)
	}
	if m.rig.Core.FinDensity == 700 && speed == 100 {
		return model.State{}, errors.New("no value here")
	}
	return model.State{CoolantOverAir: m.rig.Core.FinDensity*1e6 + m.rig.Core.FinDepth*1e4 + speed}, nil
}

func inventedModel(calls *atomic.Int64, hook func(float64)) sweep.Model {
	return func(r model.Rig) (sweep.AtSpeed, error) {
		if r.Core.FinDepth == 0.05 {
			return nil, errors.New("no such core")
		}
		return invented{r, calls, hook}, nil
	}
}

func bigPlan(t testing.TB) *sweep.Plan {
	s := reports.TwoSetups()
	var speeds []float64
	for i := range 50 {
		speeds = append(speeds, 51+float64(i))
	}
	s.Axes = append(s.Axes, axis(t, "fan_speed", "", speeds...))
	var densities []float64
	for i := range 40 {
		densities = append(densities, 600+10*float64(i))
	}
	s.Axes = append(s.Axes, axis(t, "fin_density", "", densities...), axis(t, "fin_depth", "", 0.02, 0.03, 0.05))
	return sweep.Lay(s)
}

func TestRowsBelongToTheirPoints(t *testing.T) {
	var calls atomic.Int64
	p := bigPlan(t)
	var first *sweep.Results
	for _, workers := range []int{1, 2, 7, 16} {
		r, err := sweep.Run(context.Background(), p, sweep.Options{Workers: workers, Model: inventedModel(&calls, nil)})
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Rows) != p.Points() {
			t.Fatalf("%d rows for %d points", len(r.Rows), p.Points())
		}
		for k, row := range r.Rows {
			rig := p.Challenger(k)
			switch {
			case rig.Core.FinDepth == 0.05:
				if row.Failure != "no such core" {
					t.Fatalf("point %d: failure %q", k, row.Failure)
				}
			case rig.Core.FinDensity == 700 && rig.Speed == 100:
				if row.Failure != "no value here" {
					t.Fatalf("point %d: failure %q", k, row.Failure)
				}
			default:
				if want := rig.Core.FinDensity*1e6 + rig.Core.FinDepth*1e4 + rig.Speed; row.State.CoolantOverAir != want || row.Failure != "" {
					t.Fatalf("point %d: %v (%s), want %v", k, row.State.CoolantOverAir, row.Failure, want)
				}
			}
			if row.Point != k {
				t.Fatalf("row %d is point %d", k, row.Point)
			}
		}
		if want := 40*50 + 2; r.Failed() != want {
			t.Errorf("%d failed, want %d", r.Failed(), want)
		}
		if first == nil {
			first = r
		} else if !reflect.DeepEqual(first.Rows, r.Rows) {
			t.Errorf("%d workers give other rows than one", workers)
		}
	}
	if calls.Load() == 0 {
		t.Error("the model was never asked")
	}
}

func TestAPanicInTheModelFailsOnePoint(t *testing.T) {
	var calls atomic.Int64
	p := bigPlan(t)
	r, err := sweep.Run(context.Background(), p, sweep.Options{Model: inventedModel(&calls, func(speed float64) {
		if speed == 77 {
			panic("broken at 77")
		}
	})})
	if err != nil {
		t.Fatal(err)
	}
	panicked := 0
	for _, row := range r.Rows {
		if strings.Contains(row.Failure, "broken at 77") {
			panicked++
		}
	}
	if panicked != 80 {
		t.Errorf("%d points carry the panic, want 80", panicked)
	}
}

func TestCancelStopsTheRun(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	var calls atomic.Int64
	p := bigPlan(t)
	r, err := sweep.Run(ctx, p, sweep.Options{Workers: 2, Model: inventedModel(&calls, func(float64) {
		if calls.Load() == 300 {
			cancel()
		}
	})})
	if !errors.Is(err, context.Canceled) {
		t.Fatalf("got %v", err)
	}
	if n := calls.Load(); n > 310 {
		t.Errorf("the model was asked %d times though the run was cancelled at 300", n)
	}
	if n := len(r.Rows); n == 0 || n >= p.Points() {
		t.Errorf("%d of %d rows", n, p.Points())
	}
}

func TestAReferenceWithoutValueIsTold(t *testing.T) {
	p := bigPlan(t)
	m := func(r model.Rig) (sweep.AtSpeed, error) {
		if r.Fans.Count == 2 {
			return nil, errors.New("too small")
		}
		return sweep.Physics(r)
	}
	r, err := sweep.Run(context.Background(), p, sweep.Options{Model: m})
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range r.Rows {
		if row.Failure != "the reference has no value: too small" {
			t.Fatalf("failure %q", row.Failure)
		}
	}
	if r.ReferenceCurve != nil {
		t.Errorf("a reference without value has a curve of %d points", len(r.ReferenceCurve))
	}
}

// Each row's reference stands under the conditions of that row.
func TestReferenceFollowsTheConditions(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = append(s.Axes, axis(t, "fan_speed", "", 80, 90), axis(t, "heat_load", "", 100, 200, 300))
	p := sweep.Lay(s)
	r, err := sweep.Run(context.Background(), p, sweep.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for k, row := range r.Rows {
		want, err := model.Evaluate(p.Reference(k))
		if err != nil {
			t.Fatal(err)
		}
		if row.Reference != want.CoolantOverAir {
			t.Errorf("point %d: reference %v K, alone %v K", k, row.Reference, want.CoolantOverAir)
		}
		alone, err := model.Evaluate(p.Challenger(k))
		if err != nil || alone != row.State {
			t.Errorf("point %d: %+v, alone %+v (%v)", k, row.State, alone, err)
		}
	}
}

func TestReferenceCurveRises(t *testing.T) {
	r, err := sweep.Run(context.Background(), bigPlan(t), sweep.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.ReferenceCurve) < 20 {
		t.Fatalf("only %d speeds", len(r.ReferenceCurve))
	}
	for i := 1; i < len(r.ReferenceCurve); i++ {
		if r.ReferenceCurve[i].Speed <= r.ReferenceCurve[i-1].Speed || r.ReferenceCurve[i].State.Sound <= r.ReferenceCurve[i-1].State.Sound {
			t.Errorf("speed or sound does not rise at %d", i)
		}
	}
}

func BenchmarkRun(b *testing.B) {
	p := bigPlan(b)
	for _, workers := range []int{1, 2} {
		b.Run(fmt.Sprintf("workers=%d", workers), func(b *testing.B) {
			for b.Loop() {
				if _, err := sweep.Run(context.Background(), p, sweep.Options{Workers: workers}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*p.Points()), "ns/point")
		})
	}
}
