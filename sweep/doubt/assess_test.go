package doubt_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"finduel/model"
	"finduel/model/air"
	"finduel/model/core"
	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
	"finduel/sweep/study"
	"finduel/testdata/reports"
)

// bench returns an invented study of two setups with axes, and its answers.
func bench(t testing.TB, change func(*study.Study), axes ...study.Axis) (*sweep.Plan, breakeven.List) {
	t.Helper()
	s := reports.TwoSetups()
	s.Setups[s.Reference].Rig.Speed = 1000. / 60
	s.Axes = axes
	s.Margin, s.Doubt.Draws = 0.5, study.LeastDraws
	if change != nil {
		change(s)
	}
	p := sweep.Lay(s)
	answers, err := breakeven.All(context.Background(), p, sweep.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return p, answers
}

func assess(t testing.TB, p *sweep.Plan, answers breakeven.List, o doubt.Options) *doubt.Assessment {
	t.Helper()
	a, err := doubt.Assess(context.Background(), p, answers, o)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

var speeds = reports.Axis("fan_speed", reports.Even(2000, 20000, 37)...)

// atSpeed answers with a temperature for a speed.
type atSpeed func(speed float64) (float64, error)

func (f atSpeed) At(speed float64) (model.State, error) {
	v, err := f(speed)
	return model.State{CoolantOverAir: v}, err
}

// What a row of the design for indices yields is what it does by itself, though what one
// setup's own error leaves of the other is not asked again.
func TestRowsOfIndicesAreDraws(t *testing.T) {
	p, answers := bench(t, nil, speeds, reports.Axis("face_area", 40, 81))
	for i := range answers {
		changed, total, found := map[doubt.Side]int{}, 0.0, 0
		asked, again := doubt.Rows(p, &answers[i], 60, func(of doubt.Side, whole bool, got, want doubt.Drawn) {
			if !whole {
				changed[of]++
			}
			if got.Challenger != want.Challenger || got.Reference != want.Reference {
				t.Fatalf("design %d, an error of %v: %v and %v, by itself %v and %v", i, of, got.Challenger, got.Reference, want.Challenger, want.Reference)
			}
			for _, v := range [][2]float64{{got.Breakeven, want.Breakeven}, {got.Upper, want.Upper}} {
				switch off := math.Abs(v[0]/v[1] - 1); {
				case math.IsNaN(v[0]) && math.IsNaN(v[1]) || v[0] == v[1]:
				case !(off < 0.01):
					t.Errorf("design %d, an error of %v: a break-even of %v, by itself of %v", i, of, v[0], v[1])
				default:
					total, found = total+off, found+1
				}
			}
		})
		t.Logf("design %d: asked %d times, row by row %d; %d break-evens off by %.2g on average", i, asked, again, found, total/float64(max(found, 1)))
		if asked > again*17/20 {
			t.Errorf("design %d: asked %d times, row by row %d", i, asked, again)
		}
		for _, side := range []doubt.Side{doubt.Both, doubt.Challenger, doubt.Reference} {
			if changed[side] < 100 {
				t.Errorf("only %d rows in which an error of %v changed", changed[side], side)
			}
		}
	}
}

// The break-even speed of a draw, found with two or three evaluations, must be that of
// an independent search over all speeds, for designs of every kind.
func TestDrawsAgreeWithFullSearches(t *testing.T) {
	p, answers := bench(t, nil, speeds, reports.Axis("fin_density", 12, 20, 28), reports.Axis("fin_depth", 18, 34), reports.Axis("face_area", 25, 40, 60, 81, 120))
	draws, asked, searched, different := 0, 0, 0, 0
	kinds := map[string]int{}
	worst, total, found := 0.0, 0.0, 0
	for i := range answers {
		searched += doubt.Draw(p, &answers[i], 40, func(d doubt.Drawn) {
			asked += d.Asked
			draws++
			// The same draw for the search that all answers come from.
			one := *p.Study
			one.Axes = []study.Axis{{Input: speeds.Input, Values: []float64{answers[i].From, answers[i].To}}}
			full, err := breakeven.All(context.Background(), sweep.Lay(&one), sweep.Options{Workers: 1, Model: func(r model.Rig) (sweep.AtSpeed, error) {
				if r.Fans.Count == 2 {
					return atSpeed(func(float64) (float64, error) { return d.Reference, nil }), nil
				}
				return atSpeed(d.Over), nil
			}})
			if err != nil {
				t.Fatal(err)
			}
			want, kind := math.Inf(1), "never"
			switch low, ok := full[0].Lower(); {
			case full[0].Status == breakeven.Always || full[0].Status == breakeven.Band && !ok:
				want, kind = math.Inf(-1), "from the start"
			case ok:
				want, kind = low, full[0].Status.String()
			case full[0].Status == breakeven.Unknown:
				want, kind = math.NaN(), "unknown"
			}
			kinds[kind]++
			upper := math.NaN()
			if want < math.Inf(1) {
				upper = math.Inf(1)
				if n := len(full[0].Crossings); n > 0 && !full[0].Crossings[n-1].Falling {
					upper, kinds["again"] = full[0].Crossings[n-1].Speed, kinds["again"]+1
				}
			}
			switch {
			case math.IsNaN(upper) && math.IsNaN(d.Upper) || upper == d.Upper:
			case !(math.Abs(d.Upper/upper-1) < 0.01):
				different++
				t.Logf("design %d: worse again above %v, a full search finds %v (%v)", i, d.Upper, upper, full[0].Status)
			default:
				off := math.Abs(d.Upper/upper - 1)
				worst, total, found = max(worst, off), total+off, found+1
			}
			switch {
			case math.IsNaN(want) && math.IsNaN(d.Breakeven) || want == d.Breakeven:
			case math.IsInf(want, 0) || math.IsInf(d.Breakeven, 0) || math.IsNaN(want) || math.IsNaN(d.Breakeven):
				different++
				t.Logf("design %d: %v, a full search finds %v (%v; best %v K)", i, d.Breakeven, want, full[0].Status, full[0].Best.Difference)
			default:
				off := math.Abs(d.Breakeven/want - 1)
				worst, total, found = max(worst, off), total+off, found+1
			}
		})
	}
	t.Logf("%d draws: %v; %.2f evaluations a draw, %d searched in full; speeds off by %.2g at worst, %.2g on average", draws, kinds, float64(asked)/float64(draws), searched, worst, total/float64(found))
	if different > 0 {
		t.Errorf("%d of %d draws end otherwise", different, draws)
	}
	if worst > 0.01 || total/float64(found) > 3e-4 { // a step of what is printed is some hundredths of it
		t.Errorf("break-even speeds are off by %g at worst, %g on average", worst, total/float64(found))
	}
	for _, kind := range []string{"one", "band", "never", "again"} {
		if kinds[kind] == 0 {
			t.Errorf("no draw %q among %v: the test does not show what it should", kind, kinds)
		}
	}
}

func TestResultsDoNotDependOnWorkers(t *testing.T) {
	axes := []study.Axis{speeds, reports.Axis("fin_density", 12, 20), reports.Axis("coolant_flow", 2, 4)}
	p, answers := bench(t, nil, axes...)
	all := func(a *doubt.Assessment) string { // every number to its last digit; NaN, which equals nothing, too
		return fmt.Sprintf("%+v %+v %+v", a.Sources, a.Results, *a.Own)
	}
	first := assess(t, p, answers, doubt.Options{Seed: 3, Options: sweep.Options{Workers: 1}})
	if again := assess(t, p, answers, doubt.Options{Seed: 3, Options: sweep.Options{Workers: 5}}); all(first) != all(again) {
		t.Error("five workers get other results than one")
	}
	other := assess(t, p, answers, doubt.Options{Seed: 4, Options: sweep.Options{Workers: 5}})
	if all(first) == all(other) {
		t.Error("another seed gets the same results")
	}
	// What is stable is so under another seed.
	for i := range first.Results {
		a, b := &first.Results[i], &other.Results[i]
		for _, pair := range [][2]doubt.Band{{a.Challenger, b.Challenger}, {a.Difference, b.Difference}, {a.Breakeven, b.Breakeven}} {
			for k, v := range [][2]float64{{pair[0].Low, pair[1].Low}, {pair[0].Median, pair[1].Median}, {pair[0].High, pair[1].High}} {
				if math.Abs(v[0]-v[1]) > 1.5*max(pair[0].Steps[k], pair[1].Steps[k]) {
					t.Errorf("design %d: %v and %v, said to be stable to %v", a.Design, v[0], v[1], pair[0].Steps[k])
				}
			}
		}
		if math.Abs(a.Win-b.Win) > 0.05 {
			t.Errorf("design %d wins in %v and %v of the draws", a.Design, a.Win, b.Win)
		}
	}
}

// What the draws say about a design hangs together, whatever it says.
func TestResultsHangTogether(t *testing.T) {
	p, answers := bench(t, func(s *study.Study) { s.Setups[s.Reference].Rig.Speed = 1250. / 60 }, speeds, reports.Axis("fin_density", 12, 16, 24), reports.Axis("fin_depth", 18, 34))
	a := assess(t, p, answers, doubt.Options{Seed: 1})
	if len(a.Results) != p.Designs() || !a.All || a.Own == nil || a.Base != a.Own.Result.Design {
		t.Fatalf("%d results of %d designs, own %v", len(a.Results), p.Designs(), a.Own)
	}
	uppers, won, lost := 0, 0, 0
	for i := range a.Results {
		r := &a.Results[i]
		if sum := r.Win + r.Tie + r.Lose + r.NoValue; math.Abs(sum-1) > 1e-12 {
			t.Errorf("design %d: the shares add up to %v", r.Design, sum)
		}
		if sum := r.Exists + r.FromStart + r.Never + float64(r.NoBreakeven)/float64(r.Draws); math.Abs(sum-1) > 1e-12 {
			t.Errorf("design %d: the shares of break-evens add up to %v", r.Design, sum)
		}
		bands := []doubt.Band{r.Challenger, r.Reference, r.Difference, r.Breakeven}
		if _, has := answers[i].Upper(); has != r.HasUpper && r.Design != a.Base || !a.Own.Result.HasUpper {
			t.Errorf("design %d: the upper end is assessed: %v", r.Design, r.HasUpper)
		}
		if r.HasUpper && r.Again+r.Never < 1 {
			uppers++
			bands = append(bands, r.Upper)
			if r.Again > r.Exists+r.FromStart || r.Again > 0.1 && !(r.Upper.Low > r.Breakeven.Low) {
				t.Errorf("design %d: %+v", r.Design, r)
			}
		}
		for _, b := range bands {
			if !(b.Low <= b.Median && b.Median <= b.High) {
				t.Errorf("design %d: band %+v", r.Design, b)
			}
		}
		if r.Difference.High < -a.Margin {
			won++
			if r.Win < 0.97 || r.Lose > 0.03 {
				t.Errorf("design %d is cooler, %+v, and wins with %v, loses with %v", r.Design, r.Difference, r.Win, r.Lose)
			}
		}
		if r.Difference.Low > a.Margin {
			lost++
			if r.Lose < 0.97 || r.Win > 0.03 {
				t.Errorf("design %d is warmer, %+v, and wins with %v, loses with %v", r.Design, r.Difference, r.Win, r.Lose)
			}
		}
		// The nominal answer lies within the band that was drawn around it.
		if low, ok := answers[i].Lower(); ok && (low < r.Breakeven.Low || low > r.Breakeven.High) {
			t.Errorf("design %d: break-even %v outside its band %+v", r.Design, low, r.Breakeven)
		}
		if found, ok := a.Of(r.Design); !ok || found != r {
			t.Errorf("design %d is not found", r.Design)
		}
	}
	if lost == 0 {
		t.Error("no design surely loses: the test does not show what it should")
	}
	if uppers < 2 {
		t.Errorf("%d designs with an upper end: the test does not show what it should", uppers)
	}
	if _, ok := a.Of(99); ok {
		t.Error("design 99 is found")
	}
	// The band of the difference crosses zero where the break-even's ends are.
	own := a.Own.Result
	for i := 1; i < len(a.Own.Curve); i++ {
		before, after := a.Own.Curve[i-1], a.Own.Curve[i]
		if before.Difference.Low > 0 && after.Difference.Low <= 0 && (own.Breakeven.Low < before.Speed*0.97 || own.Breakeven.Low > after.Speed*1.03) {
			t.Errorf("the band reaches zero between %v and %v, the break-even's low end is %v", before.Speed, after.Speed, own.Breakeven.Low)
		}
	}
	// It has the swept speeds and those that the answer names; at the compared one it says
	// what the result does.
	named := append(slices.Clone(speeds.Values), answers[a.Base].Best.Speed, answers[a.Base].Sensible.Speed, own.Speed)
	if low, ok := answers[a.Base].Lower(); ok {
		named = append(named, low)
	}
	for _, speed := range named {
		at, ok := a.Own.At(speed)
		if !ok || !(at.Challenger.Low < at.Challenger.Median && at.Challenger.Median < at.Challenger.High) {
			t.Errorf("at %v the curve has %+v, %v", speed, at, ok)
		}
	}
	if at, ok := a.Own.At(own.Speed); !ok || at.Challenger != own.Challenger || at.Difference != own.Difference {
		t.Errorf("at the compared speed the curve has %+v", at)
	}
}

// Common errors cancel: drawn for each setup on its own, the same errors make the
// difference less sure than it is, while each setup by itself stays as sure.
func TestCommonErrorsCancel(t *testing.T) {
	// Both in the range of their correlation, so that nothing but its level is common.
	inRange := func(s *study.Study) {
		s.Setups[s.Reference].Rig.Speed = 15
		large := &s.Setups[s.Reference].Rig
		large.Fans.Fan.ShutOffPressure, large.Fans.Fan.FreeAirFlow = 60, 300./3600
	}
	p, answers := bench(t, inRange, speeds)
	common := assess(t, p, answers, doubt.Options{Seed: 1})
	separate := assess(t, p, answers, doubt.Options{Seed: 1, Separate: true})
	if len(separate.Sources) <= len(common.Sources) {
		t.Fatalf("%d sources, drawn apart %d", len(common.Sources), len(separate.Sources))
	}
	width := func(b doubt.Band) float64 { return b.High - b.Low }
	a, b := common.Own.Result, separate.Own.Result
	t.Logf("difference ±%.3f K, drawn apart ±%.3f K: %.0f %% more", width(a.Difference)/2, width(b.Difference)/2, 100*(width(b.Difference)/width(a.Difference)-1))
	// The report of the study itself says the same, from fewer draws.
	said, ratio := common.Own.Apart, width(b.Difference)/width(a.Difference)
	t.Logf("said to be %.2f (%.2f to %.2f) times as wide, is %.2f", said.Value, said.Low, said.High, ratio)
	if half := (said.High - said.Low) / 2; math.Abs(said.Value-ratio) > 1.5*half || half > 0.1 || said.Low < 1.05 {
		t.Errorf("apart %+v, want %v", said, ratio)
	}
	if separate.Own.Apart != (doubt.Index{}) {
		t.Errorf("with nothing in common: %+v", separate.Own.Apart)
	}
	if ratio < 1.10 {
		t.Errorf("drawn apart the difference is %v times as unsure, want more than a tenth", ratio)
	}
	for _, pair := range [][2]doubt.Band{{a.Challenger, b.Challenger}, {a.Reference, b.Reference}} {
		if ratio := width(pair[1]) / width(pair[0]); math.Abs(ratio-1) > 0.04 {
			t.Errorf("drawn apart a setup by itself is %v times as unsure, want 1", ratio)
		}
	}

	equal, least := 0.0, math.Inf(1) // where the two come nearest to each other
	for _, x := range common.Own.Curve {
		if d := math.Abs(x.Difference.Median); d < least {
			equal, least = x.Speed, d
		}
	}
	// Only errors that are common and act alike are left: the difference keeps a small part.
	only := func(s *study.Study) {
		inRange(s)
		for _, in := range model.Inputs {
			if !in.Shared {
				s.Doubt.Tolerances = append(s.Doubt.Tolerances, study.Tolerance{Input: in, Setup: study.BothSetups})
			}
		}
		in, _ := model.InputOf("heat_load")
		s.Doubt.Tolerances = append(s.Doubt.Tolerances, study.Tolerance{Input: in, Setup: study.BothSetups, Within: 0.1, Relative: true})
		s.Setups[s.Challenger].Rig.Speed = equal
	}
	p, answers = bench(t, only, speeds)
	r := assess(t, p, answers, doubt.Options{Seed: 1}).Own.Result
	if share := width(r.Difference) / width(r.Challenger); share > 0.2 {
		t.Errorf("near equality %v of the doubt in the heat stays in the difference", share)
	}
}

// The interval of the break-even speed holds what it says of draws that it does not know,
// and its indices are those of a speed that some draws do not reach: they are counted.
func TestTheBreakevenIsShared(t *testing.T) {
	faster := func(s *study.Study) { s.Setups[s.Reference].Rig.Speed = 1150. / 60 }
	p, answers := bench(t, faster, speeds)
	a := assess(t, p, answers, doubt.Options{Seed: 4})
	r, own := a.Own.Result, a.Own
	if r.Exists == 1 || math.IsInf(r.Breakeven.High-r.Breakeven.Low, 0) {
		t.Fatalf("all or too few draws have a break-even: %v, %+v", r.Exists, r.Breakeven)
	}
	s := own.Indices[1]
	if s.Refused != "" || s.Draws != 1024*(len(a.Sources)+2) {
		t.Fatalf("%d draws, refused: %s", s.Draws, s.Refused)
	}
	if share, want := float64(s.Outside)/float64(s.Draws), 1-r.Exists; s.Outside == 0 || math.Abs(share-want) > 0.005 {
		t.Errorf("%v of the draws are outside, want %v", share, want)
	}
	first, total := 0.0, 0.0
	for j := range s.Indices.First {
		first, total = first+s.Indices.First[j].Value, total+s.Indices.Total[j].Value
	}
	if first < 0.5 || first > 1.1 || total < first {
		t.Errorf("the indices add up to %v and %v", first, total)
	}
	if d := own.Indices[0]; d.Draws != 0 || d.Outside != 0 {
		t.Errorf("of the difference %d of %d are outside", d.Outside, d.Draws)
	}
	if len(own.Coverage) != 2 || own.Coverage[0].Of != "difference" || own.Coverage[1].Of != "breakeven_speed" {
		t.Fatalf("%+v", own.Coverage)
	}
	for _, c := range own.Coverage {
		t.Logf("%+v", c)
		if c.Draws != 2048 || c.Share.Value != float64(c.Inside)/2048 || c.Share.Low > 0.955 || c.Share.High < 0.945 {
			t.Errorf("%+v, want about 0.95", c)
		}
	}
}

// A tolerance that is given counts instead of the usual one; none at all leaves no doubt.
func TestGivenTolerances(t *testing.T) {
	in := func(key string) model.Input {
		i, ok := model.InputOf(key)
		if !ok {
			t.Fatal(key)
		}
		return i
	}
	none := func(s *study.Study) {
		for _, i := range model.Inputs {
			s.Doubt.Tolerances = append(s.Doubt.Tolerances, study.Tolerance{Input: i, Setup: study.BothSetups})
		}
	}
	p, answers := bench(t, none, speeds)
	a := assess(t, p, answers, doubt.Options{Seed: 1})
	if len(a.Sources) != 0 {
		t.Errorf("with nothing in doubt there are sources %+v", a.Sources)
	}
	low, _ := answers[0].Lower()
	if r := a.Own.Result; r.Draws != doubt.LeastDraws || r.Breakeven.Low != r.Breakeven.High || math.Abs(r.Breakeven.Median/low-1) > 1e-4 || r.Exists != 1 {
		t.Errorf("with nothing in doubt the result is %+v, the answer %v", r, low)
	}
	for _, s := range a.Own.Indices {
		if s.Refused == "" {
			t.Errorf("indices of a %s that never changes: %+v", s.Of, s)
		}
	}

	// One input in doubt, its effect in closed form: the speed as set.
	one := func(s *study.Study) {
		none(s)
		s.Doubt.Tolerances = append(s.Doubt.Tolerances, study.Tolerance{Input: in("fan_speed"), Setup: s.Challenger, Within: 0.04, Relative: true, Shape: study.Triangular})
	}
	p, answers = bench(t, one, speeds)
	a = assess(t, p, answers, doubt.Options{Seed: 1})
	if len(a.Sources) != 1 || a.Sources[0].Of != doubt.Challenger || a.Sources[0].Limit != "±4 %" || !a.Sources[0].Given {
		t.Fatalf("sources %+v", a.Sources)
	}
	// A triangular error of half-width a lies below −a (1 − √0.05) with 2.5 %.
	edge := 0.04 * (1 - math.Sqrt(0.05))
	r := a.Own.Result
	for _, c := range [][2]float64{{r.Breakeven.Low, low / (1 + edge)}, {r.Breakeven.High, low / (1 - edge)}, {r.Breakeven.Median, low}} {
		if math.Abs(c[0]/c[1]-1) > 2e-3 {
			t.Errorf("break-even %+v: %v, want %v", r.Breakeven, c[0], c[1])
		}
	}
	if s := a.Own.Indices[1]; s.Refused != "" || math.Abs(s.Indices.First[0].Value-1) > 0.05 || math.Abs(s.Indices.Total[0].Value-1) > 0.05 {
		t.Errorf("the only source has indices %+v (%s)", s.Indices, s.Refused)
	}
	// A point of the fan's curve is moved by the speed, too, and shows it.
	if steps := a.Own.Ranking.Steps; len(steps) != 2 || steps[0].Left.Value > 0.1 || steps[1].Left.Value > 0.1 || a.Own.Ranking.Of != "breakeven_speed" {
		t.Errorf("ranking %+v", a.Own.Ranking)
	}
}

// Draws without a value are counted and said, and no index is computed from the rest.
func TestFailuresAreCounted(t *testing.T) {
	hot := func(s *study.Study) {
		for i := range s.Setups {
			s.Setups[i].Rig.Heat.Load = 1080
		}
	}
	p, answers := bench(t, hot, speeds)
	a := assess(t, p, answers, doubt.Options{Seed: 1})
	r := a.Own.Result
	if r.NoReference+r.NoChallenger == 0 || r.NoReference == r.Draws || r.NoChallenger == r.Draws || r.Failure != model.ErrBoils.Error() {
		t.Fatalf("%d draws: %d without a challenger, %d without a reference, %q: the test does not show what it should", r.Draws, r.NoChallenger, r.NoReference, r.Failure)
	}
	if sum := r.Exists + r.FromStart + r.Never + float64(r.NoBreakeven)/float64(r.Draws); r.NoBreakeven < r.NoReference || math.Abs(sum-1) > 1e-12 {
		t.Errorf("of %d draws %d have no break-even to be sought; with the other shares %v", r.Draws, r.NoBreakeven, sum)
	}
	if r.NoValue <= 0 || math.Abs(r.Win+r.Tie+r.Lose+r.NoValue-1) > 1e-12 {
		t.Errorf("shares %+v", r)
	}
	most, named := 0.0, false
	for _, x := range a.Own.Curve {
		if x.NoChallenger > x.NoValue || x.NoValue > x.Draws || x.Draws < 1000 || (x.NoValue == x.Draws) != math.IsNaN(x.Difference.Median) {
			t.Errorf("at %v rpm: %+v", 60*x.Speed, x)
		}
		if x.Speed == r.Speed {
			named = true
			if x.Draws != r.Draws || x.NoChallenger != r.NoChallenger || x.NoValue != r.WithoutValue() || math.Abs(float64(x.NoValue)-r.NoValue*float64(r.Draws)) > 1e-6 {
				t.Errorf("at the compared speed %+v, the result has %+v", x, r)
			}
		}
		most = max(most, float64(x.NoValue)/float64(x.Draws))
	}
	if first := a.Own.Curve[0]; !named || most != float64(first.NoValue)/float64(first.Draws) || first.NoChallenger <= first.Draws/2 {
		t.Errorf("most boil at the lowest speed: %+v, a share of %v at most; compared speed seen: %v", first, most, named)
	}
	for _, s := range a.Own.Indices {
		if s.Refused == "" || s.Indices.First != nil {
			t.Errorf("indices of the %s of a broken design: %+v", s.Of, s)
		}
	}
	if a.Own.Ranking.Refused == "" || a.Own.Ranking.Steps != nil {
		t.Errorf("ranking of a broken design: %+v", a.Own.Ranking)
	}

	// Nothing to draw at all.
	p, answers = bench(t, func(s *study.Study) {
		for i := range s.Setups {
			s.Setups[i].Rig.Heat.Load = 1e5
		}
	}, speeds)
	a = assess(t, p, answers, doubt.Options{Seed: 1})
	if r := a.Own.Result; r.NoValue != 1 || r.Failure == "" || !math.IsNaN(r.Difference.Median) || a.Own.Ranking.Refused == "" {
		t.Errorf("a hopeless study: %+v", r)
	}
}

// The doubt that a ranking says would stay is what stays of the interval if the thing is
// known: of the break-even speed, and of the difference where too many draws have none.
func TestRankingForetellsWhatKnowingLeaves(t *testing.T) {
	half := func(b doubt.Band) float64 { return (b.High - b.Low) / 2 }
	for of, reference := range map[string]float64{"breakeven_speed": 1000, "difference": 1350} {
		at := func(known ...study.Tolerance) *doubt.Detail {
			p, answers := bench(t, func(s *study.Study) {
				s.Setups[s.Reference].Rig.Speed = reference / 60
				for _, key := range []string{"fin_density", "fin_depth", "fan_speed", "free_air_flow", "shut_off_pressure", "air_density_correction", "air_viscosity_correction"} {
					in, _ := model.InputOf(key) // so that the readings below are of one error each
					s.Doubt.Tolerances = append(s.Doubt.Tolerances, study.Tolerance{Input: in, Setup: study.BothSetups})
				}
				for _, k := range known {
					k.Setup = s.Reference
					s.Doubt.Tolerances = append(s.Doubt.Tolerances, k)
				}
			}, speeds)
			return assess(t, p, answers, doubt.Options{Seed: 1}).Own
		}
		interval := func(d *doubt.Detail) float64 {
			if of == "difference" {
				return half(d.Result.Difference)
			}
			return half(d.Result.Breakeven)
		}
		unknown := at()
		r := unknown.Ranking
		if r.Refused != "" || len(r.Steps) < 10 || r.Of != of || (r.Why == "") != (of == "breakeven_speed") || r.Half != interval(unknown) {
			t.Fatalf("of the %s: ranking %+v", of, r)
		}
		if inside := 1 - float64(r.Outside)/4000; of == "breakeven_speed" && math.Abs(inside-unknown.Result.Exists) > 0.005 {
			t.Errorf("%d draws of 4 000 have no break-even speed, of the result %v have one", r.Outside, unknown.Result.Exists)
		}
		for key, action := range map[string]string{
			"fan_pressure_correction": "measure a point of large's fan curve between its ends",
			"air_friction_correction": "measure the air pressure drop of large's core at one flow",
		} {
			in, _ := model.InputOf(key)
			left := interval(at(study.Tolerance{Input: in})) / interval(unknown)
			i := slices.IndexFunc(r.Steps, func(s doubt.Step) bool { return s.Action == action })
			if i < 0 {
				t.Fatalf("%q is not in the ranking", action)
			}
			said := r.Steps[i]
			t.Logf("%s, %s: said to leave %.3f, leaves %.3f", of, key, said.Left.Value, left)
			if math.Abs(left-said.Left.Value) > 0.05 || said.Left.Low > said.Left.Value || said.Left.High < said.Left.Value || said.Half != said.Left.Value*r.Half {
				t.Errorf("%s, %s: said to leave %+v, leaves %v", of, key, said, left)
			}
		}
		for i, s := range r.Steps {
			if i > 0 && s.Left.Value < r.Steps[i-1].Left.Value {
				t.Errorf("step %d leaves less than the one before", i)
			}
		}
	}
}

// linear answers the reference with 0 K, and the challenger with a temperature that is
// linear in the relative changes of some of its inputs and in the fan speed.
type linear struct {
	nominal model.Rig
	slopes  map[string]float64 // K for a change by all of the input; of a correction, by 1
}

func (l linear) of(rig model.Rig) (sweep.AtSpeed, error) {
	return atSpeed(func(speed float64) (float64, error) {
		if rig.Core.FaceLength != l.nominal.Core.FaceLength { // the reference's
			return 0, nil
		}
		y := 50 + l.slopes["fan_speed"]*(speed/l.nominal.Speed-1)
		for key, slope := range l.slopes {
			in, _ := model.InputOf(key)
			switch nominal := l.nominal; {
			case key == "fan_speed":
			case in.Get(&nominal) == 0:
				y += slope * in.Get(&rig)
			default:
				y += slope * (in.Get(&rig)/in.Get(&nominal) - 1)
			}
		}
		return y, nil
	}), nil
}

// What a measurement shows is the product of all errors in it. With normal errors e_j of
// standard deviations s_j, a result that is linear, Σ c_j e_j, and a reading whose logarithm
// is Σ b_j e_j to first order, a known reading leaves of the standard deviation
//
//	√(1 − (Σ c_j b_j s_j²)² / (Σ c_j² s_j² · Σ b_j² s_j²))
func TestMeasurementsShowProducts(t *testing.T) {
	const s = 0.01
	rig := reports.TwoSetups().Setups[0].Rig
	rig.Fans.Fan.CurveExponent = 1
	state, err := model.Evaluate(rig)
	if err != nil {
		t.Fatal(err)
	}
	// p = p_0 (N/N_0)² (1 − φ)(1 + f), φ = V N_0/(V_0 N)
	share := state.Airflow / rig.Fans.FreeFlow(rig.Speed)
	bend := share / (1 - share)
	drop := func(density float64) float64 {
		g := rig.Core
		g.FinDensity *= density
		c, err := core.New(g)
		if err != nil {
			t.Fatal(err)
		}
		room, _ := air.NewAtmosphere(rig.Room.Temperature, rig.Room.Altitude, rig.Room.Humidity)
		rho := room.Density(rig.Room.Temperature)
		return c.PressureDrop(state.Airflow*rho, rho, rho, room.Viscosity(rig.Room.Temperature))
	}
	for action, c := range map[string]struct{ result, reading map[string]float64 }{
		"measure a point of small's fan curve between its ends": {
			map[string]float64{"shut_off_pressure": 3, "free_air_flow": 2, "fan_pressure_correction": 1, "fan_speed": 1, "heat_load": 4},
			map[string]float64{"shut_off_pressure": 1, "free_air_flow": bend, "fan_pressure_correction": 1, "fan_speed": 2 + bend},
		},
		"measure the air pressure drop of small's core at one flow": {
			map[string]float64{"fin_density": 3, "air_friction_correction": 2, "heat_load": 1},
			map[string]float64{"fin_density": math.Log(drop(1+s)/drop(1-s)) / math.Log((1+s)/(1-s)), "air_friction_correction": 1},
		},
	} {
		p, answers := bench(t, func(st *study.Study) {
			st.Setups[0].Rig = rig
			for _, in := range model.Inputs {
				k := study.Tolerance{Input: in, Setup: study.BothSetups}
				st.Doubt.Tolerances = append(st.Doubt.Tolerances, k)
				if c.result[in.Key] != 0 {
					k.Setup, k.Within, k.Relative, k.Shape = 0, 2*s, !strings.HasSuffix(in.Key, "_correction"), study.Normal
					st.Doubt.Tolerances = append(st.Doubt.Tolerances, k)
				}
			}
		}, speeds)
		r := assess(t, p, answers, doubt.Options{Seed: 1, Options: sweep.Options{Model: linear{rig, c.result}.of}}).Own.Ranking
		var together, result, reading float64
		for key, slope := range c.result {
			together += slope * c.reading[key]
			result += slope * slope
			reading += c.reading[key] * c.reading[key]
		}
		want := math.Sqrt(1 - together*together/(result*reading))
		i := slices.IndexFunc(r.Steps, func(s doubt.Step) bool { return s.Action == action })
		if r.Of != "difference" || i < 0 {
			t.Fatalf("%s: ranking %+v", action, r)
		}
		got := r.Steps[i].Left
		t.Logf("%s: said to leave %.3f, leaves %.3f", action, got.Value, want)
		if math.Abs(got.Value-want) > 0.02 || got.Low > want+0.01 || got.High < want-0.01 {
			t.Errorf("%s leaves %+v, want %v", action, got, want)
		}
	}
}

func TestOnlyTheOwnDesignOfMany(t *testing.T) {
	for want, c := range map[int]study.Designs{1: study.OwnDesign, 3: study.AllDesigns} {
		p, answers := bench(t, func(s *study.Study) { s.Doubt.Designs = c }, speeds, reports.Axis("fin_density", 12, 16, 20))
		var done atomic.Int64
		a := assess(t, p, answers, doubt.Options{Options: sweep.Options{Done: &done}, Seed: 1})
		if len(a.Results) != want || a.Own == nil || a.All != (want == 3) || done.Load() != int64(want) {
			t.Errorf("%v: %d results, %d counted, want %d", c, len(a.Results), done.Load(), want)
		}
	}
}

func TestCancelled(t *testing.T) {
	p, answers := bench(t, nil, speeds, reports.Axis("fin_density", reports.Even(10, 28, 40)...))
	ctx, cancel := context.WithCancel(context.Background())
	var n atomic.Int64
	m := func(r model.Rig) (sweep.AtSpeed, error) {
		if n.Add(1) == 3000 {
			cancel()
		}
		return sweep.Physics(r)
	}
	if a, err := doubt.Assess(ctx, p, answers, doubt.Options{Options: sweep.Options{Model: m}}); !errors.Is(err, context.Canceled) || a != nil {
		t.Errorf("cancelled: %v, %v", a, err)
	}
}

// Of many speeds the band has some, from the first to the last, and those that the answer
// names: a hundred thousand would take gigabytes and minutes.
func TestBandOfManySpeeds(t *testing.T) {
	const most = doubt.CurveSpeeds
	p, answers := bench(t, nil, reports.Axis("fan_speed", reports.Even(2000, 20000, 3*most)...))
	all := p.Study.Axes[0].Values
	own := assess(t, p, answers, doubt.Options{Seed: 1}).Own
	if n := len(own.Curve); n < most || n > most+6 {
		t.Fatalf("the band has %d speeds of %d, want %d and those named", n, len(all), most)
	}
	widest, found := 0., 0
	for i, x := range own.Curve {
		if i > 0 {
			widest = max(widest, x.Speed-own.Curve[i-1].Speed)
		}
		if at, ok := own.At(x.Speed); !ok || at != &own.Curve[i] {
			t.Errorf("speed %v is not found", x.Speed)
		}
	}
	for _, speed := range all {
		if _, ok := own.At(speed); ok {
			found++
		}
	}
	if step := all[1] - all[0]; own.Curve[0].Speed != all[0] || own.Curve[len(own.Curve)-1].Speed != all[len(all)-1] || widest > 4.001*step {
		t.Errorf("the band goes from %v to %v in steps of up to %v, of a study from %v to %v in steps of %v", own.Curve[0].Speed, own.Curve[len(own.Curve)-1].Speed, widest, all[0], all[len(all)-1], step)
	}
	if found < most || found > most+6 {
		t.Errorf("%d swept speeds are found, want %d", found, most)
	}
}

// Memory is bounded whatever the number of draws: while twenty times as many are made, no
// more is alive than the levels that the samples of a few results then have, 64 KB each,
// where a number kept of every draw and result would be eight megabytes. The results are so
// wild that no digit settles.
func TestMemoryIsBounded(t *testing.T) {
	p, answers := bench(t, nil, speeds)
	heat := p.Study.Setups[p.Study.Challenger].Rig.Heat
	alive := func(draws int) (bytes uint64) {
		asked := 0
		wild := func(r model.Rig) (sweep.AtSpeed, error) {
			if asked++; asked%20_000 == 0 {
				var m runtime.MemStats
				runtime.GC()
				runtime.ReadMemStats(&m)
				bytes = max(bytes, m.HeapAlloc)
			}
			off := (r.Heat.Load/heat.Load-1)/0.02 - (r.Heat.PlateResistance/heat.PlateResistance-1)/0.2
			level := 20.
			if r.Fans.Count == 1 {
				level += 1e-3 / (off * off * off)
			}
			return atSpeed(func(speed float64) (float64, error) { return level - speed*float64(2-r.Fans.Count), nil }), nil
		}
		p.Study.Doubt.Designs, p.Study.Doubt.Draws = study.OwnDesign, draws
		r := assess(t, p, answers, doubt.Options{Seed: 1, Options: sweep.Options{Workers: 1, Model: wild}}).Own.Result
		if r.Draws != 10*draws || !r.Capped {
			t.Fatalf("%d draws of %d, capped %v", r.Draws, 10*draws, r.Capped)
		}
		return bytes
	}
	few, many := alive(1000), alive(20_000)
	t.Logf("%d KB alive with 10 000 draws, %d KB with 200 000", few>>10, many>>10)
	if few == 0 || many > few+2<<20 {
		t.Errorf("%d bytes are alive with 10 000 draws, %d with 200 000", few, many)
	}
}

func BenchmarkAssess(b *testing.B) {
	p, answers := bench(b, nil, speeds, reports.Axis("fin_density", reports.Even(12, 24, 10)...), reports.Axis("fin_depth", reports.Even(18, 36, 10)...))
	p.Study.Doubt.Designs, p.Study.Doubt.Draws = study.AllDesigns, study.DefaultDraws
	draws := 0
	for b.Loop() {
		for _, r := range assess(b, p, answers, doubt.Options{Seed: 1}).Results {
			draws += r.Draws
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(draws), "ns/draw")
}
