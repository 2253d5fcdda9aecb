package render_test

import (
	"slices"
	"testing"

	"finduel/render"
	"finduel/sweep/study"
	"finduel/testdata/reports"
)

// A line shows all points of a design, or some of many: the ends, evenly spread.
func TestLine(t *testing.T) {
	for _, n := range []int{1, 2, 999, 1000, 1001, 5000} {
		s := reports.Study()
		speeds := []float64{1500}
		if n > 1 {
			speeds = reports.Even(1500, 20000, n)
		}
		s.Axes = []study.Axis{reports.Axis("fin_density", 12, 16), reports.Axis("fan_speed", speeds...)}
		rep := &render.Report{Study: s, Results: reports.Report(s).Results}
		line := rep.Line(1)
		if len(line) != min(n, 1000) || !slices.IsSorted(line) || line[0] != n || line[len(line)-1] != 2*n-1 {
			t.Errorf("of %d points: %d from %d to %d", n, len(line), line[0], line[len(line)-1])
		}
		for i := 1; i < len(line); i++ {
			if step := line[i] - line[i-1]; step < n/1000 || step > n/1000+1 {
				t.Errorf("of %d points: a step of %d", n, step)
			}
		}
	}
}
