package chart

import (
	"math"
	"slices"
	"strings"
	"testing"

	"finduel/model"
	"finduel/model/fan"
	"finduel/render"
	"finduel/testdata/reports"
)

// panelsOf returns the panels of a report's fan curve.
func panelsOf(rep *render.Report) (small, large fanPanel) {
	a, _ := baseAnswer(rep)
	first := rep.Results.Plan.Point(a.Design, 0)
	rig, other := rep.Results.Plan.Challenger(first), rep.Results.Plan.Reference(first)
	return fanPanelOf(rep.Challenger(), &rig, speedsOf(rep), looks), fanPanelOf(rep.Reference(), &other, []fanLine{{speed: other.Speed}}, looks)
}

// Each speed that matters is drawn once, with all it is, in rising order.
func TestSpeedsOfAFanCurve(t *testing.T) {
	list := func(rep *render.Report) string {
		var words []string
		for _, l := range speedsOf(rep) {
			words = append(words, number("fan_speed", l.speed)+" "+strings.Join(l.what, " + "))
		}
		return strings.ReplaceAll(strings.Join(words, "; "), "\u00a0", " ")
	}
	rep := reports.Alone()
	a, _ := baseAnswer(rep)
	a.Best.Speed, a.Sensible.Speed, a.To = 200, 150, 200
	a.Crossings = a.Crossings[:1]
	a.Crossings[0].Speed = 110
	if got, want := list(rep), "6 000 rpm as in the study; 6 600 rpm break-even; 9 000 rpm sensible; 12 000 rpm best speed + top of the sweep"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	a.Sensible.Speed, a.Best.Speed, a.To = math.NaN(), math.Inf(1), 0
	if got, want := list(rep), "6 000 rpm as in the study; 6 600 rpm break-even"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := list(reports.Booth()); strings.Count(got, ";") != mostSpeeds-1 || !strings.Contains(got, near) {
		t.Errorf("%q", got)
	}
}

// The sentence says where both operate, and what is wrong with the place.
func TestFanLead(t *testing.T) {
	small, large := panelsOf(reports.Alone())
	got := strings.ReplaceAll(fanLead(&small, &large), "\u00a0", " ")
	if !strings.HasPrefix(got, "At 7 356 rpm (break-even) small moves ") || !strings.Contains(got, " of free-air flow, where stall is likely; at 600 rpm large moves ") {
		t.Errorf("%q", got)
	}
	l := small.told()
	l.Hanging = []model.FlowPoint{{Airflow: l.Operating.Airflow / 2}, {Airflow: l.Operating.Airflow / 4}}
	l.Stall.Airflow = 0
	small.lines, large.lines = small.lines[1:2], nil
	if got := strings.ReplaceAll(fanLead(&small, &large), "\u00a0", " "); !strings.Contains(got, "of free-air flow, and may hang at ") || !strings.Contains(got, " m³/h or ") || strings.Contains(got, "large") || !strings.HasSuffix(got, ".") {
		t.Errorf("%q", got)
	}
	kinds := []stallWords{wordsOfStall(&fan.Fan{}), wordsOfStall(&fan.Fan{Curve: &fan.Curve{}}), wordsOfStall(&fan.Fan{Pitch: 0.1, Curve: &fan.Curve{}})}
	for i, k := range kinds {
		if slices.Contains(kinds[:i], k) || k.region == "" || k.inside == "" || k.key == "" || !strings.HasSuffix(k.beside, " left of here") {
			t.Errorf("%+v", k)
		}
	}
	for want, s := range map[string]span{"±10 %": {-0.1, 0.1}, "-20.0 % to +31.0 % where they operate": {-0.2, 0.31}} {
		if got := strings.ReplaceAll(doubtWords(s), "\u00a0", " "); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A speed at which the coolant would boil has no curve, and is told.
func TestSpeedsWithoutOperatingPointAreTold(t *testing.T) {
	rep := reports.Alone()
	rig := rep.Challenger().Rig
	p := fanPanelOf(rep.Challenger(), &rig, []fanLine{{speed: 2}, {speed: 100}}, looks)
	if len(p.lines) != 1 || p.lines[0].speed != 100 || len(p.without) != 1 || !slices.Equal(p.lines[0].dashes, looks[0].dashes) {
		t.Errorf("%d lines, none at %v", len(p.lines), p.without)
	}
	rig.Heat.Load = -1
	if p := fanPanelOf(rep.Challenger(), &rig, []fanLine{{speed: 100}}, looks); len(p.lines) != 0 || len(p.without) != 1 {
		t.Errorf("an impossible rig has %d lines", len(p.lines))
	}
}

// Lines go through their marks.
func TestCutHasTheMarks(t *testing.T) {
	small, _ := panelsOf(reports.Alone())
	l := small.told()
	points := l.cut(l.Stall.Airflow, math.Inf(1))
	if points[0] != l.Stall || !slices.IsSortedFunc(points, byAirflow) {
		t.Errorf("begins at %+v, stall at %+v", points[0], l.Stall)
	}
	if all := l.cut(0, math.Inf(1)); !slices.Contains(all, l.Operating) || len(all) != fanPoints+2 {
		t.Errorf("%d points, operating point among them: %v", len(all), slices.Contains(all, l.Operating))
	}
}

func TestRootScale(t *testing.T) {
	for v, want := range map[float64]float64{0: 0, -1: 0, 25: 0.5, 100: 1} {
		if got := (rootScale{}).Normalize(0, 100, v); got != want {
			t.Errorf("%g stands at %g, want %g", v, got, want)
		}
	}
	for _, high := range []float64{0.003, 1, 7.9, 420, 1000, 2593, 1e7} {
		last, labels := math.Inf(-1), 0
		at := -1.0
		for _, tick := range (rootTicks{}).Ticks(0, high) {
			if tick.Value < 0 || tick.Value > high || tick.Value <= last {
				t.Errorf("to %g: a tick at %g after %g", high, tick.Value, last)
			}
			last = tick.Value
			if tick.Label == "" {
				continue
			}
			labels++
			place := math.Sqrt(tick.Value / high)
			if place-at < 0.0449 {
				t.Errorf("to %g: no room for %s", high, tick.Label)
			}
			at = place
		}
		if labels < 5 || labels > 10 || at < 0.6 {
			t.Errorf("to %g: %d labels, the last at %g of the axis", high, labels, at)
		}
	}
	for _, high := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if got := (rootTicks{}).Ticks(0, high); got != nil {
			t.Errorf("to %g: %v", high, got)
		}
	}
}
