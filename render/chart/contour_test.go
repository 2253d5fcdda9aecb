package chart

import (
	"math"
	"testing"

	"finduel/sweep/breakeven"
	"finduel/testdata/reports"
)

// On a plane a contour is the straight line on which the plane has the level.
func TestContourOfAPlane(t *testing.T) {
	values := make([][]float64, 7)
	for i := range values {
		values[i] = make([]float64, 5)
		for j := range values[i] {
			values[i][j] = 2*float64(i) + 3*float64(j)
		}
	}
	for _, level := range []float64{1, 7.5, 12, 22.9} {
		list := contour(values, level)
		if len(list) == 0 {
			t.Errorf("no line at %v", level)
		}
		length := 0.0
		for _, s := range list {
			for _, p := range s {
				if v := 2*p[0] + 3*p[1]; math.Abs(v-level) > 1e-9 {
					t.Errorf("a line at %v runs through %v, where there is %v", level, p, v)
				}
			}
			length += math.Hypot(s[1][0]-s[0][0], s[1][1]-s[0][1])
		}
		// From where the line enters the grid to where it leaves it.
		low, high := math.Max(0, (level-12)/2), math.Min(6, level/2)
		if want := (high - low) * math.Hypot(1, 2./3); math.Abs(length-want) > 1e-9 {
			t.Errorf("the line at %v is %v long, want %v", level, length, want)
		}
	}
	if list := contour(values, 100); list != nil {
		t.Errorf("a line above everything: %v", list)
	}
}

// A saddle has two lines that do not cross; a square with a corner missing has none.
func TestContourOfASaddle(t *testing.T) {
	list := contour([][]float64{{0, 10}, {10, 4}}, 5)
	if len(list) != 2 {
		t.Fatalf("%d lines", len(list))
	}
	for _, s := range list {
		// The mean, 6, is above the level: each low corner is cut off on its own.
		near := func(x, y float64) bool {
			return math.Hypot(s[0][0]-x, s[0][1]-y) < 0.99 && math.Hypot(s[1][0]-x, s[1][1]-y) < 0.99
		}
		if !near(0, 0) && !near(1, 1) {
			t.Errorf("a line from %v to %v", s[0], s[1])
		}
	}
	if list := contour([][]float64{{0, 10}, {math.NaN(), 4}}, 5); list != nil {
		t.Errorf("a line beside a gap: %v", list)
	}
}

// The numbers of a map stand at their cells; where there are none there is nothing.
func TestGridOfCells(t *testing.T) {
	cells := []cell{{column: 0, row: 0}, {column: 2, row: 1}, {column: 1, row: 0}}
	values, scale := gridOf(cells, 3, 2, func(c cell) (float64, bool) { return float64(10*c.column + c.row), c.column != 1 })
	if scale != (span{0, 21}) {
		t.Errorf("from %v to %v", scale.low, scale.high)
	}
	for i, want := range [][]float64{{0, math.NaN()}, {math.NaN(), math.NaN()}, {math.NaN(), 21}} {
		for j := range want {
			if got := values[i][j]; got != want[j] && !(math.IsNaN(got) && math.IsNaN(want[j])) {
				t.Errorf("at %d, %d there is %v, want %v", i, j, got, want[j])
			}
		}
	}
}

// A map knows how probable each break-even is, and which designs were not drawn.
func TestChancesOfAMap(t *testing.T) {
	rep := reports.Sure()
	cells, _, _, _ := cellsOf(rep, 0, 1)
	if len(cells) != 12 || !drawnAll(rep, cells) {
		t.Fatalf("%d cells, all drawn: %v", len(cells), drawnAll(rep, cells))
	}
	for _, c := range cells {
		r, _ := rep.Doubt.Of(c.answer.Design)
		if got, ok := chanceOf(rep, c.answer); !ok || got != r.Exists {
			t.Errorf("design %d exists with %v, want %v", c.answer.Design, got, r.Exists)
		}
	}
	last := &rep.Doubt.Results[len(rep.Doubt.Results)-1]
	last.Draws = 0
	if _, ok := chanceOf(rep, &rep.Answers[last.Design]); ok {
		t.Error("a design that could not be drawn is probable")
	}
	first := rep.Doubt.Results[0].Design
	rep.Doubt.Results = rep.Doubt.Results[1:]
	if drawnAll(rep, cells) {
		t.Error("a design that was not drawn is not missed")
	}
	rep.Answers[first].Status = breakeven.Excluded
	if !drawnAll(rep, cells) {
		t.Error("a design that the study leaves out is missed")
	}
}
