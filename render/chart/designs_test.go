package chart

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"finduel/model"
	"finduel/render"
	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
	"finduel/testdata/reports"
)

func TestSpread(t *testing.T) {
	for _, c := range []struct {
		n, most, keep int
		want          []int
	}{
		{3, 8, -1, []int{0, 1, 2}},
		{0, 8, -1, []int{}},
		{1, 8, 0, []int{0}},
		{9, 3, -1, []int{0, 4, 8}},
		{9, 3, 5, []int{0, 5, 8}},
		{9, 3, 8, []int{0, 4, 8}},
		{9, 1, 7, []int{7}},
		{45, 8, 24, []int{0, 6, 12, 18, 24, 31, 37, 44}},
	} {
		if got := spread(c.n, c.most, c.keep); !reflect.DeepEqual(got, c.want) {
			t.Errorf("spread(%d, %d, %d) = %v, want %v", c.n, c.most, c.keep, got, c.want)
		}
	}
}

// names returns what the lines of a family are called, the base design starred.
func names(f family) []string {
	var list []string
	for _, c := range f.curves {
		if c.base {
			c.name += "*"
		}
		list = append(list, c.name)
	}
	return list
}

func TestFamily(t *testing.T) {
	with := func(axes ...study.Axis) *render.Report {
		s := reports.Study()
		s.Axes = axes
		return reports.Report(s)
	}
	speeds := reports.Axis("fan_speed", 9000, 3000, 6000)
	for _, c := range []struct {
		name string
		rep  *render.Report
		axis string
		want []string
		more int
	}{
		{"fin density though it comes second", with(reports.Axis("fin_depth", 18, 34), reports.Axis("fin_density", 20, 12), speeds), "fin_density", []string{"12 fpi", "20 fpi*"}, 0},
		{"the first axis", with(speeds, reports.Axis("fin_depth", 34, 18), reports.Axis("face_area", 60, 81)), "fin_depth", []string{"18 mm", "34 mm*"}, 0},
		{"no axis", with(speeds), "", []string{"small*"}, 0},
		{"a group", reports.Grouped(), "fin_density", []string{"12 fpi, 36 mm", "16 fpi, 27 mm", "20 fpi, 20 mm*"}, 0},
		{"too many", reports.Many(), "fin_density", []string{"8 fpi", "11 fpi", "14 fpi", "17 fpi", "20 fpi*", "23.5 fpi", "26.5 fpi", "30 fpi"}, 37},
	} {
		f := familyOf(c.rep)
		axis := ""
		if f.axis >= 0 {
			axis = c.rep.Study.Axes[f.axis].Input.Key
		}
		if got := names(f); axis != c.axis || !reflect.DeepEqual(got, c.want) || f.more != c.more {
			t.Errorf("%s: lines of %q: %q and %d more, want %q: %q and %d more", c.name, axis, got, f.more, c.axis, c.want, c.more)
		}
		for _, x := range f.curves {
			if !slices.IsSortedFunc(x.points, func(a, b point) int { return int(a.speed - b.speed) }) {
				t.Errorf("%s: the points of %s do not rise in speed", c.name, x.name)
			}
		}
		for i, x := range f.baseLast() {
			if x.base != (i == len(f.curves)-1) {
				t.Errorf("%s: the base design is not last", c.name)
			}
		}
	}
}

// A line must go through its own marks, and everything else on it must be the
// plan's points.
func TestCurveGoesThroughItsMarks(t *testing.T) {
	rep := reports.Few()
	metric := rep.Metric()
	crossings := 0
	for _, c := range familyOf(rep).curves {
		planned := 0
		for _, p := range c.points {
			if !p.between {
				planned++
			}
		}
		if planned != 16 {
			t.Errorf("%s: %d points of the plan, want 16", c.name, planned)
		}
		for _, x := range c.crossings(metric) {
			crossings++
			if !slices.ContainsFunc(c.points, func(p point) bool {
				return p.between && p.speed == shownSpeed(x.Speed) && p.value == metric.Get(&x.State)
			}) {
				t.Errorf("%s does not go through its break-even at %g rpm", c.name, shownSpeed(x.Speed))
			}
		}
		if b, ok := c.best(metric); !ok || !slices.ContainsFunc(c.points, func(p point) bool { return p.speed == shownSpeed(b.Speed) }) {
			t.Errorf("%s does not go through its best speed", c.name)
		}
	}
	if crossings == 0 {
		t.Error("no break-even was looked at")
	}
}

func TestMissingPoints(t *testing.T) {
	rep := reports.Alone()
	rep.Results.Rows[3].Failure = "invented"
	rep.Results.Rows = slices.Delete(rep.Results.Rows, 5, 6)
	for i, p := range familyOf(rep).curves[0].points[:7] {
		if want := i == 3 || i == 5; p.missing != want {
			t.Errorf("point %d is missing: %v", i, p.missing)
		}
	}
	if f := familyOf(reports.Hopeless()); f.hasValue() {
		t.Error("a report without values has one")
	}
}

func TestLevels(t *testing.T) {
	rep := reports.Few()
	f := familyOf(rep)
	if got := f.levels(); len(got) != 1 || got[0] != rep.Results.Rows[0].Reference {
		t.Errorf("levels %v, want one, %g", got, rep.Results.Rows[0].Reference)
	}
	s := reports.Study()
	s.Axes = []study.Axis{reports.Axis("heat_load", 100, 200, 300), reports.Axis("fan_speed", 6000, 9000)}
	f = familyOf(reports.Report(s))
	if got := f.levels(); len(got) != 3 || got[0] >= got[1] || got[1] >= got[2] {
		t.Errorf("levels %v, want three that rise with the heat", got)
	}
}

func TestVerdict(t *testing.T) {
	at := func(rpm, slope float64) breakeven.Crossing {
		return breakeven.Crossing{Speed: rpm / 60, Falling: slope < 0, Slope: slope}
	}
	for _, c := range []struct {
		a    breakeven.Answer
		want string
	}{
		{breakeven.Answer{Status: breakeven.One, Crossings: []breakeven.Crossing{at(6000, -1)}}, "from 6 000"},
		{breakeven.Answer{Status: breakeven.Band, Crossings: []breakeven.Crossing{at(6000, -1), at(9000, 1)}}, "6 000 to 9 000"},
		{breakeven.Answer{Status: breakeven.Band, Crossings: []breakeven.Crossing{at(9000, 1)}}, "up to 9 000"},
		{breakeven.Answer{Status: breakeven.Tie, Tie: breakeven.Interval{Low: 90, High: 120, OpenHigh: true}}, "a tie from 5 400 to 7 200 or more"},
		{breakeven.Answer{Status: breakeven.None, Best: breakeven.Point{Difference: 0.314}}, "never; 0.31 K short at best"},
		{breakeven.Answer{Status: breakeven.Always}, "cooler at every speed"},
		{breakeven.Answer{Status: breakeven.Unknown}, "no value"},
		{breakeven.Answer{Status: breakeven.Excluded}, "left out by the study"},
	} {
		if got := verdict(&c.a); got != c.want {
			t.Errorf("%s: %q, want %q", c.a.Status, got, c.want)
		}
	}
}

// The map takes fin density and depth, else what comes first, and sorts values.
func TestMap(t *testing.T) {
	s := reports.Study()
	s.Axes = []study.Axis{
		reports.Axis("face_area", 60, 81), reports.Axis("fin_depth", 34, 18), reports.Axis("fan_speed", 3000, 20000), reports.Axis("fin_density", 20, 12, 16),
	}
	rep := reports.Report(s)
	pairs, why := mapPairs(rep)
	if want := [][2]int{{3, 1}, {0, 3}}; why != "" || !slices.Equal(pairs, want) {
		t.Fatalf("axes %v (%v), want %v", pairs, why, want)
	}
	across, down := pairs[0][0], pairs[0][1]
	cells, columns, rows, _ := cellsOf(rep, across, down)
	if len(cells) != 6 || !slices.IsSorted(columns) || !slices.IsSorted(rows) {
		t.Errorf("%d cells over %v and %v", len(cells), columns, rows)
	}
	bases := 0
	for _, c := range cells {
		if rep.DesignValue(c.answer.Design, across) != columns[c.column] || rep.DesignValue(c.answer.Design, down) != rows[c.row] {
			t.Errorf("design %d is in the wrong cell", c.answer.Design)
		}
		if c.base {
			bases++
			if c.column != 2 || c.row != 1 {
				t.Errorf("the base design is in column %d, row %d", c.column, c.row)
			}
		}
	}
	if bases != 1 {
		t.Errorf("%d base designs", bases)
	}
	if pairs, why = mapPairs(reports.Grouped()); why != "" || !slices.Equal(pairs, [][2]int{{0, 1}}) {
		t.Errorf("axes of a group: %v (%v), want 0 and 1", pairs, why)
	}
	chosen := reports.Grouped()
	chosen.Study.Maps = [][2]int{{1, 2}}
	if pairs, why = mapPairs(chosen); why != "" || !slices.Equal(pairs, [][2]int{{1, 0}}) {
		t.Errorf("chosen axes: %v (%v), want 1 and 0, which leads 2", pairs, why)
	}
	for _, c := range []struct {
		axes []study.Axis
		want string
	}{
		{nil, "a map needs two swept inputs beside the fan speed; this study has none"},
		{[]study.Axis{reports.Axis("fin_density", 12, 20)}, "a map needs two swept inputs beside the fan speed; this study has one"},
		{[]study.Axis{reports.Axis("fin_density", 12, 20), reports.Axis("fin_depth", 18)}, "a map needs two swept inputs beside the fan speed with at least two values each"},
	} {
		s := reports.Study()
		s.Axes = append([]study.Axis{reports.Axis("fan_speed", 3000, 20000)}, c.axes...)
		if _, why := mapPairs(reports.Report(s)); why != c.want {
			t.Errorf("%d axes: %q, want %q", len(c.axes), why, c.want)
		}
	}
}

func TestKindOf(t *testing.T) {
	for status, want := range map[breakeven.Status]kind{
		breakeven.None: never, breakeven.Always: always, breakeven.Unknown: unknown, breakeven.Excluded: excluded,
	} {
		if got := kindOf(&breakeven.Answer{Status: status}); got != want {
			t.Errorf("%s is drawn as %q", status, got.word)
		}
	}
	if got := kindOf(&breakeven.Answer{Status: breakeven.Band, Crossings: []breakeven.Crossing{{Speed: 1, Slope: 1}}}); got != upTo {
		t.Errorf("a band from the lowest speed on is drawn as %q", got.word)
	}
}

// The bars of the budget stand in order and show the states of the answer.
func TestBars(t *testing.T) {
	rep := reports.Alone()
	a, _ := baseAnswer(rep)
	lower, upper := render.Ends(a)
	bars := barsOf(rep)
	row, _ := rep.Results.Row(9) // 6000 rpm
	for i, want := range []*model.State{&a.Reference, &row.State, &lower.State, &a.Best.State, &upper.State} {
		if i >= len(bars) || bars[i].state != want {
			t.Fatalf("bar %d of %d shows another state", i, len(bars))
		}
	}
	if got, want := bars[1].what(), "as in the study, 6 000 rpm"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	rep.Study.Setups[0].Rig.Speed = 6100. / 60
	if got, want := barsOf(rep)[1].what(), "nearest to the study's 6 100 rpm: 6 000 rpm"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	// One speed has one bar: one that is merely near gives way, others are joined.
	best := a.Best.Speed
	a.Best.Speed = 6000. / 60
	if got := barsOf(rep); len(got) != 4 || got[1].state != &lower.State || got[2].what() != "at its best, 6 000 rpm" {
		t.Errorf("%d bars, want the near one left away: %+v", len(got), got)
	}
	rep.Study.Setups[0].Rig.Speed = 6000. / 60
	if got := barsOf(rep); len(got) != 4 || got[1].what() != "as in the study and at its best, 6 000 rpm" || got[1].state != &a.Best.State {
		t.Errorf("%d bars, want two states joined: %+v", len(got), got)
	}
	a.Best.Speed = best
	rep.Results.Rows[9].Failure = "invented"
	if got := barsOf(rep); len(got) != 4 || got[1].state != &lower.State {
		t.Errorf("a failed point is shown, or %d bars", len(got))
	}
	terms, across := termsOf(bars, true)
	if len(terms) != 7 || math.Abs(across.high/max(bars[0].state.Budget.Sum(), bars[1].state.Budget.Sum())-1.12) > 1e-12 { // room for a number
		t.Errorf("%d terms up to %g", len(terms), across.high)
	}
	for i := range bars {
		s := *bars[i].state
		s.Budget.FanHeat = 0
		bars[i].state = &s
	}
	if terms, _ := termsOf(bars, true); len(terms) != 6 {
		t.Errorf("%d terms, though no bar has fan heat", len(terms))
	}
}

// Of axes with more values than a map has room for, values spread evenly are drawn, and
// what the challenger has in any case; the map says how many there are.
func TestAMapOfManyDesigns(t *testing.T) {
	s := reports.TwoSetups()
	density := reports.Axis("fin_density", 20)
	base := density.Values[0]
	for i := 1; i < 2*mostOnAxis+50; i++ {
		density.Values = append(density.Values, base*(0.41+float64(i)*0.0039))
	}
	s.Axes = []study.Axis{density, reports.Axis("fin_depth", 18, 34), reports.Axis("fan_speed", 3000, 20000)}
	rep := &render.Report{Study: s, Results: &sweep.Results{Plan: sweep.Lay(s)}}
	rep.Answers = make([]breakeven.Answer, rep.Results.Plan.Designs())
	for i := range rep.Answers {
		rep.Answers[i].Design = i
	}
	cells, columns, rows, more := cellsOf(rep, 0, 1)
	if len(columns) != mostOnAxis || len(rows) != 2 || len(cells) != 2*mostOnAxis || len(cells)+more != len(rep.Answers) {
		t.Fatalf("%d cells over %d × %d values, %d more", len(cells), len(columns), len(rows), more)
	}
	bases := 0
	for _, c := range cells {
		if c.base {
			bases++
		}
		if got := rep.DesignValue(c.answer.Design, 0); got != columns[c.column] {
			t.Errorf("column %d is at %g and has a design with %g", c.column, columns[c.column], got)
		}
	}
	if bases != 1 || !slices.IsSorted(columns) || !slices.Contains(columns, base) {
		t.Errorf("%d base designs; columns %v", bases, columns)
	}
}
