package chart

import (
	"reflect"
	"slices"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"

	"finduel/model"
	"finduel/testdata/reports"
)

// row makes a curve with points 10 apart from a word: '-' in range, 'o' outside,
// ' ' missing, '+' in range between the points of the plan.
func row(word string) *curve {
	c := &curve{look: looks[0]}
	for i, r := range word {
		c.points = append(c.points, point{
			speed: float64(i) * 10, state: &model.State{},
			outside: r == 'o', missing: r == ' ', between: r == '+',
		})
	}
	return c
}

// strokes returns the lines that a curve is drawn with: from, to and width.
func strokes(c *curve) [][3]float64 {
	r, canvas := canvas(1000, 100)
	c.trace(&canvas, func(p *point) vg.Point { return vg.Point{X: vg.Length(p.speed), Y: 50} }, newLabels(&canvas))
	var list [][3]float64
	width := 0.0
	for _, a := range r.Actions {
		switch a := a.(type) {
		case *recorder.SetLineWidth:
			width = a.Width.Points()
		case *recorder.Stroke:
			first, last := a.Path[0].Pos, a.Path[len(a.Path)-1].Pos
			if first.Y == 50 && last.Y == 50 { // markers end above or below
				list = append(list, [3]float64{first.X.Points(), last.X.Points(), width})
			}
		}
	}
	return list
}

func TestGapsAndRanges(t *testing.T) {
	for _, c := range []struct {
		word string
		want [][3]float64
	}{
		{"----", [][3]float64{{0, 30, normal}}},
		{"-- --", [][3]float64{{0, 10, normal}, {30, 40, normal}}},
		{" -- ", [][3]float64{{10, 20, normal}}},
		{"oo--", [][3]float64{{0, 20, thin}, {20, 30, normal}}},
		{"-o-", [][3]float64{{0, 20, thin}}},
		{"-+-", [][3]float64{{0, 20, normal}}},
		{"- -", nil},
		{"-", nil},
		{"", nil},
	} {
		if got := strokes(row(c.word)); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%q is drawn as %v, want %v", c.word, got, c.want)
		}
	}
	base := row("--")
	base.base = true
	if got := strokes(base); len(got) != 1 || got[0][2] != strong {
		t.Errorf("the base design is drawn as %v", got)
	}
}

func TestMarked(t *testing.T) {
	for _, c := range []struct {
		word  string
		shift float64
		want  []int
	}{
		{"---", 0, []int{0, 1, 2}},
		{"- +-", 0.9, []int{0, 3}},
		{"-+-", 0, []int{0, 2}},
		{"--------------------------", 0, []int{0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24}},
		{"--------------------------", 0.5, []int{1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25}},
		{"-------------- - ----------", 0.5, []int{1, 4, 7, 10, 13, 15, 19, 22, 25}},
	} {
		curve := row(c.word)
		curve.shift = c.shift
		if got := curve.marked(); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%q shifted by %g: markers at %v, want %v", c.word, c.shift, got, c.want)
		}
	}
}

func TestRangeNote(t *testing.T) {
	c := row("-o-")
	if got := rangeNote(*c); got != "" {
		t.Errorf("no warnings give %q", got)
	}
	c.points[1].state.Warnings = model.AirReynoldsHigh | model.CoreOutsideRange | model.StallRegion
	if got, want := rangeNote(*row("-"), *c), "outside the correlations' range (high air flow; a dimension of the core)"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	c.points[1].missing = true
	if got := rangeNote(*c); got != "" {
		t.Errorf("a missing point gives %q", got)
	}
}

// Every warning of range must have its words, or its points would be hollow without
// a key.
func TestRangeWordsAreComplete(t *testing.T) {
	var all model.Warnings
	for _, w := range rangeWords {
		all |= w.bit
	}
	if all != beyond {
		t.Errorf("words for %b, warnings of range %b", all, beyond)
	}
}

// Points without a value are counted, those left out or between the plan's are not.
func TestGapNote(t *testing.T) {
	curves := []curve{{points: []point{{}, {missing: true}, {missing: true, leftOut: true}, {between: true}}}, {points: []point{{}, {}}}}
	if got, want := gapNote(curves), "1 of 4 points has no value."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	curves[1].points[0].missing = true
	if got, want := gapNote(curves), "2 of 4 points have no value."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := gapNote(nil); got != "" {
		t.Errorf("%q without curves", got)
	}
	rep := reports.Alone()
	rep.Results.Rows = slices.Delete(rep.Results.Rows, 5, 6)
	if points := familyOf(rep).curves[0].points; !points[5].leftOut || points[4].leftOut {
		t.Error("the point without a row is not the one that is left out")
	}
}
