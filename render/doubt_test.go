package render_test

import (
	"math"
	"strings"
	"testing"

	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/doubt"
	"finduel/testdata/reports"
)

func TestRoundedToWhatIsStable(t *testing.T) {
	speed, kelvin := quantity.Must("fan_speed"), quantity.Must("difference")
	for _, c := range []struct {
		q        quantity.Quantity
		si, step float64
		want     string
	}{
		{speed, 6298. / 60, 200. / 60, "6 200"},
		{speed, 6298. / 60, 50. / 60, "6 300"},
		{speed, 6298. / 60, 0, "6 298"},
		{kelvin, -1.2345, 0.2, "-1.2"},
		{kelvin, -1.2345, 0.05, "-1.25"},
		{kelvin, -0.04, 0.1, "0.0"},
		{kelvin, 12.6, 5, "15"},
		{kelvin, math.Inf(1), 0.1, ""},
		{kelvin, math.NaN(), 0.1, ""},
	} {
		if got := render.Rounded(c.q, c.si, c.step); got != c.want {
			t.Errorf("%v to %v: %q, want %q", c.si, c.step, got, c.want)
		}
	}
}

func TestIntervalsSayWhatIsOpen(t *testing.T) {
	speed := quantity.Must("breakeven_speed")
	inf, step := math.Inf(1), [3]float64{100. / 60, 100. / 60, 100. / 60}
	for _, c := range []struct {
		low, median, high float64
		interval, middle  string
	}{
		{60, 100, 150, "3 600 to 9 000", "6 000"},
		{60, inf, inf, "3 600 to never", "never"},
		{-inf, -inf, 150, "lowest speed to 9 000", "lowest speed"},
		{inf, inf, inf, "never", "never"},
		{-inf, -inf, -inf, "lowest speed", "lowest speed"},
		{100, 100, 100, "6 000", "6 000"},
		{math.NaN(), math.NaN(), math.NaN(), "", ""},
	} {
		b := doubt.Band{Low: c.low, Median: c.median, High: c.high, Steps: step}
		if got := render.Interval(speed, b); got != c.interval {
			t.Errorf("%+v: %q, want %q", b, got, c.interval)
		}
		if got := render.Middle(speed, b); got != c.middle {
			t.Errorf("median of %+v: %q, want %q", b, got, c.middle)
		}
	}
}

func TestPercentHidesNothing(t *testing.T) {
	for share, want := range map[float64]string{0: "0 %", 0.0001: "under 1 %", 0.006: "1 %", 0.5: "50 %", 0.994: "99 %", 0.9999: "over 99 %", 1: "100 %"} {
		if got := render.Percent(share); got != want {
			t.Errorf("%v: %q, want %q", share, got, want)
		}
	}
}

func TestSureness(t *testing.T) {
	if _, ok := reports.Few().Sureness(0); ok {
		t.Error("a report that was not assessed says how sure it is")
	}
	rep := reports.Sure()
	s, ok := rep.Sureness(rep.Doubt.Base)
	if !ok || len(s.Lines) != 4 || len(s.First) != 2 { // the third step takes nothing away
		t.Fatalf("%+v", s)
	}
	other, _ := rep.Sureness((rep.Doubt.Base + 1) % len(rep.Answers))
	if other.First != nil {
		t.Errorf("another design has something to measure first: %q", other.First)
	}
	// What is so in all draws, or in none, is said of the draws and is no certainty.
	r := &rep.Doubt.Results[rep.Doubt.Base]
	was := *r
	for _, c := range []struct {
		win, tie, lose, exists float64
		want                   string
	}{
		{1, 0, 0, 1, "in all 20 000 draws, within it in no draw, warmer in no draw. A break-even speed exists in all 20 000 draws"},
		{0, 0, 1, 0, "in no draw, within it in no draw, warmer in all 20 000 draws. A break-even speed exists in no draw; never better in all 20 000 draws"},
		{0.9999, 0.0001, 0, 0.9999, "with a probability of over 99 %, within it with under 1 %, warmer in no draw. A break-even speed exists with over 99 %"},
	} {
		r.Draws, r.Win, r.Tie, r.Lose, r.Exists, r.Never = 20000, c.win, c.tie, c.lose, c.exists, float64(int(1-c.exists))
		s, _ := rep.Sureness(rep.Doubt.Base)
		if said := strings.Join(s.Texts, " "); !strings.Contains(said, c.want) || strings.Contains(said, " 100 %") || strings.Contains(said, " 0 %") {
			t.Errorf("%+v: %s", c, said)
		}
	}
	// Where all but a few draws never break even there is no interval to explain or to check.
	r.Breakeven = doubt.Band{Low: math.Inf(1), Median: math.Inf(1), High: math.Inf(1)}
	own := rep.Doubt.Own
	ownWas := own.Result
	own.Result = *r
	never, _ := rep.Sureness(rep.Doubt.Base)
	if said := strings.Join(never.Texts, " "); strings.Contains(said, "±") || strings.Contains(said, "in that of the break-even speed") || !strings.Contains(said, "made as a check") {
		t.Errorf("never: %s", said)
	}
	*r, own.Result = was, ownWas
	rep.Doubt.All = false
	if one, _ := rep.Sureness(rep.Doubt.Base); len(one.Texts) != len(s.Texts)+1 || !strings.HasPrefix(one.Texts[len(one.Texts)-1], "Only this design was drawn") {
		t.Errorf("with one design drawn: %q", one.Texts)
	}
	// With nothing worth measuring, and with nothing to be said.
	for i := range rep.Doubt.Own.Ranking.Steps {
		rep.Doubt.Own.Ranking.Steps[i].Left.Value = 0.99
	}
	if s, _ := rep.Sureness(rep.Doubt.Base); len(s.First) != 1 || !strings.HasPrefix(s.First[0], "No single measurement takes away more than 2 %") {
		t.Errorf("%q", s.First)
	}
	own.Ranking.Refused = "some draws have no such value"
	if s, _ := rep.Sureness(rep.Doubt.Base); s.First != nil || !strings.Contains(strings.Join(s.Texts, " "), "What to measure first cannot be said: some draws") {
		t.Errorf("refused: %q, %q", s.First, s.Texts)
	}
	for i := range rep.Doubt.Results {
		r := &rep.Doubt.Results[i]
		r.Draws, r.Failure = 0, "the reference has no value: "+reports.Boils
	}
	if s, ok := rep.Sureness(rep.Doubt.Base); !ok || s.Lines != nil || len(s.Texts) != 1 {
		t.Errorf("nothing drawn: %+v", s)
	}
}

// A place says how many draws its interval does not have in it: the reference's own count
// beside the challenger's, and nothing of what was not drawn.
func TestDoubtAtAPlace(t *testing.T) {
	rep := reports.Unsure()
	a, _ := rep.BaseAnswer()
	places := rep.Places(a)
	for i := range places {
		d, ok := rep.DoubtAt(a, &places[i])
		want, share := 31, "3 %"
		if draws := 20000; places[i].State == &a.Reference {
			want, share = 85, "under 1 %"
			if d.Draws != draws {
				t.Errorf("%d draws of the reference, want %d", d.Draws, draws)
			}
		}
		if !ok || d.Absent != want || d.Share() != share {
			t.Errorf("%s: %+v, %q, want %d, %q", places[i].Name, d, d.Share(), want, share)
		}
	}
	if d, ok := rep.DoubtAt(a, &render.Place{Speed: 12345, State: &a.Best.State}); ok {
		t.Errorf("at a speed that was not drawn: %+v", d)
	}
	if d, ok := reports.Few().DoubtAt(a, &places[0]); ok {
		t.Errorf("of a report that was not assessed: %+v", d)
	}
	if all := (render.PlaceDoubt{Draws: 1000}); all.Share() != "" {
		t.Errorf("with a value in all draws: %q", all.Share())
	}
}
