package chart

import (
	"math"
	"slices"
	"testing"

	"finduel/model"
	"finduel/render"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
	"finduel/sweep/study"
	"finduel/testdata/reports"
)

// A lane has the intervals that were drawn of its design, and the break-evens of its answer;
// a design that was not drawn has none.
func TestLanesHaveTheIntervals(t *testing.T) {
	rep := reports.Sure()
	f := familyOf(rep)
	open := &rep.Doubt.Results[f.curves[0].answer.Design].Breakeven
	open.High = math.Inf(1)
	never := &rep.Doubt.Results[f.curves[1].answer.Design].Breakeven
	never.Low, never.Median, never.High = math.Inf(1), math.Inf(1), math.Inf(1)
	lanes := lanesOf(rep, &f)
	if len(lanes) != len(f.curves) || len(lanes) != 4 {
		t.Fatalf("%d lanes of %d lines", len(lanes), len(f.curves))
	}
	for i, v := range lanes {
		r, _ := rep.Doubt.Of(f.curves[i].answer.Design)
		if v.curve != &f.curves[i] || len(v.marks) != len(f.curves[i].crossings(rep.Metric())) {
			t.Errorf("lane %d is of another line, or has %d marks", i, len(v.marks))
		}
		want := []laneBar{{r.Breakeven.Low, r.Breakeven.High, false, i == 0, false}}
		words := ""
		if i == 1 {
			want, words = nil, "never"
		}
		if !slices.Equal(v.bars, want) || v.words != words {
			t.Errorf("lane %d has the bars %v and says %q, want %v and %q", i, v.bars, v.words, want, words)
		}
	}
	rep.Doubt.Results = rep.Doubt.Results[:f.curves[1].answer.Design+1]
	if lanes := lanesOf(rep, &f); len(lanes) != 2 {
		t.Errorf("%d lanes of two designs that were drawn", len(lanes))
	}
	two := reports.Alone() // better in a band of speeds
	two.Doubt = reports.Assess(two)
	f = familyOf(two)
	r := &two.Doubt.Own.Result
	r.Upper.Undecided[2] = true
	two.Doubt.Results[0] = *r
	want := []laneBar{{r.Breakeven.Low, r.Breakeven.High, false, false, false}, {r.Upper.Low, r.Upper.High, false, true, true}}
	if lanes := lanesOf(two, &f); len(lanes) != 1 || !slices.Equal(lanes[0].bars, want) || len(lanes[0].marks) != 2 || lanes[0].marks[0].ends || !lanes[0].marks[1].ends {
		t.Errorf("the lane of a band: %+v, want the bars %v", lanes, want)
	}
	still := reports.Study()
	still.Axes = []study.Axis{reports.Axis("fin_density", 12, 16, 20)}
	one := reports.Report(still)
	one.Doubt = reports.Assess(one)
	f = familyOf(one)
	if lanes := lanesOf(one, &f); lanes != nil || len(one.Doubt.Results) != 3 {
		t.Errorf("%d lanes along no speeds", len(lanes))
	}
	rep.Doubt = nil
	f = familyOf(rep)
	if lanes := lanesOf(rep, &f); lanes != nil {
		t.Errorf("%d lanes without draws", len(lanes))
	}
}

// Sound is straight between the points of a curve that have one, and level beyond them.
func TestSoundAlongACurve(t *testing.T) {
	c := curve{}
	for _, p := range [][2]float64{{1000, 30}, {2000, 40}, {3000, math.NaN()}, {4000, 50}, {4000, 50}, {6000, 60}} {
		c.points = append(c.points, point{speed: p[0], state: &model.State{Sound: p[1]}})
	}
	c.needSound()
	for rpm, want := range map[float64]float64{500: 30, 1000: 30, 1250: 32.5, 2000: 40, 3000: 45, 4000: 50, 5000: 55, 9000: 60, math.Inf(1): 60, math.Inf(-1): 30} {
		if got := c.soundAt(rpm / 60); !(math.Abs(got-want) < 1e-9) {
			t.Errorf("at %v rpm %v dBA, want %v", rpm, got, want)
		}
	}
	if got := (&curve{}).soundAt(10); !math.IsNaN(got) {
		t.Errorf("a curve without points has %v dBA", got)
	}
	for rpm, want := range map[float64]float64{500: 1000, 2500: 2500, math.Inf(1): 6000} {
		if got := c.nearest(rpm / 60); math.Abs(got-want) > 1e-9 {
			t.Errorf("%v rpm is drawn at %v, want %v", rpm, got, want)
		}
	}
}

// The legend says of each kind of answer how sure it is.
func TestHowSureInTheLegend(t *testing.T) {
	at := func(rpm float64, slope float64) breakeven.Crossing {
		return breakeven.Crossing{Speed: rpm / 60, Falling: slope < 0, Slope: slope}
	}
	band := func(low, high float64) doubt.Band {
		return doubt.Band{Low: low / 60, Median: low / 60, High: high / 60}
	}
	for _, c := range []struct {
		answer breakeven.Answer
		result doubt.Result
		want   string
	}{
		{breakeven.Answer{Status: breakeven.None}, doubt.Result{Draws: 1000, Exists: 0.38, Breakeven: band(5000, math.Inf(1))}, "exists: 38 %"},
		{breakeven.Answer{Status: breakeven.Always}, doubt.Result{Draws: 1000, Exists: 0.004}, "exists: under 1 %"},
		{breakeven.Answer{Status: breakeven.One, Crossings: []breakeven.Crossing{at(6000, -1)}},
			doubt.Result{Draws: 1000, Exists: 1, Breakeven: band(5000, 7000), HasUpper: true, Again: 0.1, Upper: band(16000, 19000)}, "95 %: 5 000 to 7 000"},
		{breakeven.Answer{Status: breakeven.Band, Crossings: []breakeven.Crossing{at(6000, -1), at(9000, 1)}},
			doubt.Result{Draws: 1000, Exists: 1, Breakeven: band(5000, 7000), HasUpper: true, Again: 0.9, Upper: band(8000, math.Inf(1))}, "95 %: 5 000 to 7 000; end: 8 000 to highest speed"},
		{breakeven.Answer{Status: breakeven.Band, Crossings: []breakeven.Crossing{at(9000, 1)}},
			doubt.Result{Draws: 1000, Exists: 0.02, Breakeven: band(math.Inf(-1), math.Inf(-1)), HasUpper: true, Again: 0.9, Upper: band(8000, 11000)}, "exists: 2 %; end: 8 000 to 11 000"},
		{breakeven.Answer{Status: breakeven.Tie, Crossings: []breakeven.Crossing{at(6000, -1), at(9000, 1)}},
			doubt.Result{Draws: 1000, Exists: 0.6, HasUpper: true, Again: 0.5, Upper: band(8000, 11000)}, "exists: 60 %"},
		{breakeven.Answer{Status: breakeven.None}, doubt.Result{}, ""},
	} {
		rep := &render.Report{Doubt: &doubt.Assessment{Results: []doubt.Result{c.result}}}
		if got := sureLine(rep, &c.answer); got != c.want {
			t.Errorf("%s: %q, want %q", c.answer.Status, got, c.want)
		}
	}
	if got := sureLine(&render.Report{}, &breakeven.Answer{}); got != "" {
		t.Errorf("without draws: %q", got)
	}
}

// A band stretches a panel as far as it reaches, but not so far that the lines are lost.
func TestPanelShowsTheBand(t *testing.T) {
	rep := reports.Sure()
	f := familyOf(rep)
	base := slices.IndexFunc(f.curves, func(c curve) bool { return c.base })
	list := bandOf(rep, &f.curves[base])
	low, high := math.Inf(1), math.Inf(-1)
	for _, b := range list {
		low, high = min(low, b.low), max(high, b.high)
	}
	up := span{5, 20}
	if got := withBands(rep, &f, up); got.low != low || got.high != max(high, 20) || low > 5 {
		t.Errorf("the panel goes from %v to %v, the band from %v to %v", got.low, got.high, low, high)
	}
	for i := range rep.Doubt.Own.Curve {
		rep.Doubt.Own.Curve[i].Difference.Low = -1000
	}
	if got := withBands(rep, &f, span{4, 25}); math.Abs(got.low-1.6) > 1e-9 {
		t.Errorf("of a span from 4 to 25 with a logarithmic scale %v is left below, want 1.6", got.low)
	}
	if got := withBands(rep, &f, span{10, 20}); math.Abs(got.low-5) > 1e-9 {
		t.Errorf("of a span from 10 to 20 %v is left below, want 5", got.low)
	}
	rep.Doubt = nil
	if got := withBands(rep, &f, up); got != up {
		t.Errorf("a panel without a band goes from %v to %v", got.low, got.high)
	}
}
