package sweep_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"finduel/model"
	"finduel/model/solve"
	"finduel/sweep"
	"finduel/sweep/study"
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

func bigPlan(t testing.TB) *sweep.Plan { return planOf(t, 40) }

// planOf returns a plan of so many fin densities at fifty fan speeds and three depths.
func planOf(t testing.TB, count int) *sweep.Plan {
	s := reports.TwoSetups()
	var speeds []float64
	for i := range 50 {
		speeds = append(speeds, 51+float64(i))
	}
	s.Axes = append(s.Axes, axis(t, "fan_speed", "", speeds...))
	var densities []float64
	for i := range count {
		densities = append(densities, 600+400*float64(i)/float64(count))
	}
	s.Axes = append(s.Axes, axis(t, "fin_density", "", densities...), axis(t, "fin_depth", "", 0.02, 0.03, 0.05))
	return sweep.Lay(s)
}

// spans cuts a plan into stretches of n points.
func spans(p *sweep.Plan, n int) []sweep.Span {
	var list []sweep.Span
	for from := 0; from < p.Points(); from += n {
		list = append(list, sweep.Span{From: from, To: min(from+n, p.Points())})
	}
	return list
}

// rowsOf runs a plan in stretches of n points and returns the rows in order.
func rowsOf(ctx context.Context, p *sweep.Plan, o sweep.Options, n int) ([]sweep.Row, error) {
	var mu sync.Mutex
	kept := map[int][]sweep.Row{}
	err := sweep.Run(ctx, p, o, spans(p, n), func(span sweep.Span, rows []sweep.Row) error {
		mu.Lock()
		defer mu.Unlock()
		kept[span.From] = slices.Clone(rows)
		return nil
	})
	var all []sweep.Row
	for _, span := range spans(p, n) {
		all = append(all, kept[span.From]...)
	}
	return all, err
}

func TestRowsBelongToTheirPoints(t *testing.T) {
	var calls atomic.Int64
	p := bigPlan(t)
	var first []sweep.Row
	for _, c := range []struct{ workers, stretch int }{{1, 256}, {2, 256}, {3, 256}, {7, 256}, {16, 256}, {2, 1}, {5, 33}, {2, 1 << 20}} {
		var done, failures atomic.Int64
		rows, err := rowsOf(context.Background(), p, sweep.Options{Workers: c.workers, Model: inventedModel(&calls, nil), Done: &done, Failed: &failures}, c.stretch)
		if err != nil {
			t.Fatal(err)
		}
		if len(rows) != p.Points() || done.Load() != int64(p.Points()) {
			t.Fatalf("%d rows, %d counted, for %d points", len(rows), done.Load(), p.Points())
		}
		for k, row := range rows {
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
		if want := 40*50 + 2; (&sweep.Results{Rows: rows}).Failed() != want || failures.Load() != int64(want) {
			t.Errorf("%d failed, %d counted, want %d", (&sweep.Results{Rows: rows}).Failed(), failures.Load(), want)
		}
		if first == nil {
			first = rows
		} else if !reflect.DeepEqual(first, rows) {
			t.Errorf("%d workers on stretches of %d give other rows than one", c.workers, c.stretch)
		}
	}
	if calls.Load() == 0 {
		t.Error("the model was never asked")
	}
}

// A run leaves out the points that the plan does, wherever a stretch begins.
func TestARunLeavesOutWhatThePlanDoes(t *testing.T) {
	var calls atomic.Int64
	p := bigPlan(t)
	condition := func(key string, above, below float64) study.Condition {
		in, ok := model.InputOf(key)
		if !ok {
			t.Fatalf("no input %s", key)
		}
		return study.Condition{Input: in, Above: above, Below: below}
	}
	never := math.Inf(1)
	p.Study.Exclusions = []study.Exclusion{
		{condition("fan_speed", 90, -never), condition("fin_depth", never, 0.03)},
		{condition("fin_density", 800, -never)},
	}
	var want []int
	for k := range p.Points() {
		if !p.Excluded(k) {
			want = append(want, k)
		}
	}
	if len(want) == 0 || len(want) == p.Points() {
		t.Fatalf("%d of %d points are left", len(want), p.Points())
	}
	for _, stretch := range []int{1, 33, 1 << 20} {
		rows, err := rowsOf(context.Background(), p, sweep.Options{Model: inventedModel(&calls, nil)}, stretch)
		if err != nil {
			t.Fatal(err)
		}
		var got []int
		for _, row := range rows {
			got = append(got, row.Point)
		}
		if !slices.Equal(got, want) {
			t.Errorf("in stretches of %d: %d points, want %d", stretch, len(got), len(want))
		}
	}
}

func TestAPanicInTheModelFailsOnePoint(t *testing.T) {
	var calls atomic.Int64
	p := bigPlan(t)
	rows, err := rowsOf(context.Background(), p, sweep.Options{Model: inventedModel(&calls, func(speed float64) {
		if speed == 77 {
			panic("broken at 77")
		}
	})}, 256)
	if err != nil {
		t.Fatal(err)
	}
	panicked := 0
	for _, row := range rows {
		if strings.Contains(row.Failure, "broken at 77") {
			panicked++
		}
	}
	if len(rows) != p.Points() || panicked != 80 {
		t.Errorf("%d points carry the panic, want 80", panicked)
	}
}

// A panic of finduel's own model, which is walked along the speeds of a design, fails the
// points of that design, and no other.
func TestAPanicOnAWalkFailsItsDesign(t *testing.T) {
	p := bigPlan(t)
	m := func(r model.Rig) (sweep.AtSpeed, error) {
		if r.Core.FinDensity == 700 {
			return (*model.Ready)(nil), nil // what asks it for a speed looks at what is not there
		}
		return sweep.Physics(r)
	}
	want, err := rowsOf(context.Background(), p, sweep.Options{Workers: 1}, 256)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := rowsOf(context.Background(), p, sweep.Options{Workers: 2, Model: m}, 256)
	if err != nil || len(rows) != len(want) {
		t.Fatalf("%d rows of %d (%v)", len(rows), len(want), err)
	}
	panicked := 0
	for k, row := range rows {
		switch {
		case p.Challenger(row.Point).Core.FinDensity != 700:
			if row != want[k] {
				t.Fatalf("point %d is another one", row.Point)
			}
		case !strings.Contains(row.Failure, "the model stopped: runtime error"):
			t.Fatalf("point %d: failure %q", row.Point, row.Failure)
		default:
			panicked++
		}
	}
	if panicked != 3*50 {
		t.Errorf("%d points carry the panic, want 150", panicked)
	}
}

// stopAt runs a plan and ends it when the model is asked for the n-th time.
func stopAt(t *testing.T, n int64) (rows []sweep.Row, asked int64, err error) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	var calls, turn atomic.Int64
	ended := make(chan struct{})
	rows, err = rowsOf(ctx, bigPlan(t), sweep.Options{Workers: 2, Model: inventedModel(&calls, func(float64) {
		switch i := turn.Add(1); {
		case i == n:
			cancel()
			close(ended)
		case i > n:
			<-ended // however late the one that ends it is
		}
	})}, 100)
	return rows, calls.Load(), err
}

// The first request to stop begins nothing new and keeps what is under way.
func TestCancelFinishesWhatIsUnderWay(t *testing.T) {
	rows, asked, err := stopAt(t, 350)
	if !errors.Is(err, context.Canceled) {
		t.Fatalf("got %v", err)
	}
	if asked > 350+2*100 {
		t.Errorf("the model was asked %d times though the run was cancelled at 350", asked)
	}
	if len(rows) < 300 || len(rows)%100 != 0 {
		t.Errorf("%d rows are kept of stretches of 100, want whole stretches and at least three", len(rows))
	}
}

// A stretch that would take for ever is given up. The model needs 100 ms a point once
// the run is asked to stop: the stretches under way would take a minute.
func TestCancelGivesUpWhatTakesTooLong(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	var calls, slow atomic.Int64
	rows, err := rowsOf(ctx, bigPlan(t), sweep.Options{Workers: 2, Model: inventedModel(&calls, func(float64) {
		if calls.Load() >= 350 {
			cancel()
			slow.Add(1)
			time.Sleep(100 * time.Millisecond)
		}
	})}, 1000)
	if !errors.Is(err, context.Canceled) {
		t.Fatalf("got %v", err)
	}
	if n := slow.Load(); n == 0 || n > 100 {
		t.Errorf("the slow model was asked %d times", n)
	}
	if len(rows) > 0 {
		t.Errorf("%d rows are kept of stretches that were given up", len(rows))
	}
}

// What cannot be kept stops the run, and is told. One worker alone can be held to the
// very point; two may be far apart when one of them is told.
func TestWhatCannotBeKeptStopsTheRun(t *testing.T) {
	full := errors.New("no space")
	for _, workers := range []int{1, 2} {
		var calls, done atomic.Int64
		p := bigPlan(t)
		err := sweep.Run(context.Background(), p, sweep.Options{Workers: workers, Model: inventedModel(&calls, nil), Done: &done}, spans(p, 100), func(span sweep.Span, _ []sweep.Row) error {
			if span.From == 500 {
				return full
			}
			return nil
		})
		if err != full {
			t.Errorf("%d workers: got %v", workers, err)
		}
		if n := done.Load(); workers == 1 && n != 600 {
			t.Errorf("%d points were evaluated though the disk was full after 600", n)
		}
	}
}

// A point whose search gives up is a failed point, with the reason.
func TestAPointThatNeverConvergesFails(t *testing.T) {
	p := bigPlan(t)
	asked := 0
	m := func(r model.Rig) (sweep.AtSpeed, error) {
		return atSpeed(func(speed float64) (model.State, error) {
			if speed != 60 {
				return model.State{CoolantOverAir: speed}, nil
			}
			asked++
			root := solve.Root(func(x float64) float64 { return math.NaN() }, 0, 1, 1e-9)
			return model.State{}, &model.SearchError{What: "the operating point", Outcome: root.Outcome}
		}), nil
	}
	rows, err := rowsOf(context.Background(), p, sweep.Options{Workers: 1, Model: m}, 256)
	if err != nil {
		t.Fatal(err)
	}
	failed := 0
	for _, row := range rows {
		if p.Challenger(row.Point).Speed == 60 {
			failed++
			if !strings.Contains(row.Failure, "the operating point was not found") {
				t.Fatalf("point %d: failure %q", row.Point, row.Failure)
			}
		} else if row.Failure != "" {
			t.Fatalf("point %d: failure %q", row.Point, row.Failure)
		}
	}
	if failed != 120 || asked == 0 {
		t.Errorf("%d points failed, want 120; asked %d times", failed, asked)
	}
}

// atSpeed is a rig that a function answers for.
type atSpeed func(float64) (model.State, error)

func (f atSpeed) At(speed float64) (model.State, error) { return f(speed) }

func TestAReferenceWithoutValueIsTold(t *testing.T) {
	p := bigPlan(t)
	m := func(r model.Rig) (sweep.AtSpeed, error) {
		if r.Fans.Count == 2 {
			return nil, errors.New("too small")
		}
		return sweep.Physics(r)
	}
	rows, err := rowsOf(context.Background(), p, sweep.Options{Model: m}, 256)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		if row.Failure != "the reference has no value: too small" {
			t.Fatalf("failure %q", row.Failure)
		}
	}
	if curve := sweep.ReferenceCurve(p, m); curve != nil {
		t.Errorf("a reference without value has a curve of %d points", len(curve))
	}
}

// Each row's reference stands under the conditions of that row.
func TestReferenceFollowsTheConditions(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = append(s.Axes, axis(t, "fan_speed", "", 80, 90), axis(t, "heat_load", "", 100, 200, 300))
	p := sweep.Lay(s)
	rows, err := rowsOf(context.Background(), p, sweep.Options{}, 256)
	if err != nil {
		t.Fatal(err)
	}
	for k, row := range rows {
		want, err := model.Evaluate(p.Reference(k))
		if err != nil {
			t.Fatal(err)
		}
		if row.Reference != want.CoolantOverAir {
			t.Errorf("point %d: reference %v K, alone %v K", k, row.Reference, want.CoolantOverAir)
		}
		alone, err := model.Evaluate(p.Challenger(k))
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range model.Outputs { // neighbours along fan speed are walked to
			if got, want := o.Get(&row.State), o.Get(&alone); math.Abs(got-want) > 1e-9*math.Max(math.Abs(want), 1) {
				t.Errorf("point %d: %s is %v, alone %v", k, o.Key, got, want)
			}
		}
	}
}

func TestReferenceCurveRises(t *testing.T) {
	curve := sweep.ReferenceCurve(bigPlan(t), sweep.Physics)
	if len(curve) < 20 {
		t.Fatalf("only %d speeds", len(curve))
	}
	for i := 1; i < len(curve); i++ {
		if curve[i].Speed <= curve[i-1].Speed || curve[i].State.Sound <= curve[i-1].State.Sound {
			t.Errorf("speed or sound does not rise at %d", i)
		}
	}
}

// The chunks of a plan are its points, each once; there are enough for workers and
// shards, and none is larger than memory allows.
func TestChunksCoverThePlan(t *testing.T) {
	for _, n := range []int{1, 2, 1023, 1024, 1025, 60000, 100000} {
		s := reports.TwoSetups()
		var values []float64
		for i := range n {
			values = append(values, 50+float64(i)/1000)
		}
		for _, depths := range [][]float64{{0.02}, {0.02, 0.03}, slices.Repeat([]float64{0.02}, 97)} {
			s.Axes = []study.Axis{axis(t, "fan_speed", "", values...), axis(t, "fin_depth", "", depths...)}
			p := sweep.Lay(s)
			next := 0
			for i := range p.Chunks() {
				span := p.Chunk(i)
				if span.From != next || span.To <= span.From || span.To-span.From > 16384 || p.ChunkOf(span.From) != i || p.ChunkOf(span.To-1) != i {
					t.Fatalf("%d points: chunk %d is %v after point %d", p.Points(), i, span, next)
				}
				next = span.To
			}
			if next != p.Points() {
				t.Errorf("%d points: the chunks end at %d", p.Points(), next)
			}
			if p.Points() > 64*1024 && p.Chunks() < 32 {
				t.Errorf("%d points are only %d chunks", p.Points(), p.Chunks())
			}
		}
	}
}

// BenchmarkRun evaluates a sweep along fan speed.
func BenchmarkRun(b *testing.B) {
	p := planOf(b, 400)
	for _, workers := range []int{1, 2} {
		b.Run(fmt.Sprintf("workers=%d", workers), func(b *testing.B) {
			for b.Loop() {
				if err := sweep.Run(context.Background(), p, sweep.Options{Workers: workers}, spans(p, 512), func(sweep.Span, []sweep.Row) error { return nil }); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*p.Points()), "ns/point")
		})
	}
}
