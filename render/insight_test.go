package render_test

import (
	"math"
	"strings"
	"testing"

	"finduel/model"
	"finduel/render"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
	"finduel/testdata/reports"
)

func TestThrift(t *testing.T) {
	a := breakeven.Answer{Status: breakeven.One, Margin: 0.1,
		Best:     breakeven.Point{Speed: 200, State: model.State{FanPower: 80, Sound: 70}},
		Sensible: breakeven.Point{Speed: 100, State: model.State{FanPower: 7.6, Sound: 55}},
	}
	if got, want := render.Thrift(&a), "6 000 rpm, 50 % of the best speed, is within 0.1 K of the best with 9.5 % of the fan power and 15.0 dB less."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	a.Sensible.Speed = 199.1 // of 200: nothing is saved
	if got := render.Thrift(&a); got != "" {
		t.Errorf("next to the best speed: %q", got)
	}
	a.Sensible.Speed = 198.9
	if got := render.Thrift(&a); got == "" {
		t.Error("less than the best speed is not sensible")
	}
	a.Sensible = a.Best
	if got := render.Thrift(&a); got != "" {
		t.Errorf("the best speed itself: %q", got)
	}
	a.Status = breakeven.Unknown
	a.Sensible.Speed = 1
	if got := render.Thrift(&a); got != "" {
		t.Errorf("without a value: %q", got)
	}
}

func TestPlusMinus(t *testing.T) {
	for _, c := range []struct {
		c    breakeven.Crossing
		want string
	}{
		{breakeven.Crossing{Speed: 100, Tie: breakeven.Interval{Low: 98, High: 101}}, "6 000 ±120"},
		{breakeven.Crossing{Speed: 100, Tie: breakeven.Interval{Low: 98, High: 200, OpenHigh: true}}, "6 000 ±6 000+"},
		{breakeven.Crossing{Speed: 100, Jump: true, Tie: breakeven.Interval{Low: 100, High: 100}}, "6 000"},
	} {
		if got := render.PlusMinus(&c.c); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestTieEndsAndDetermined(t *testing.T) {
	for want, v := range map[string]breakeven.Interval{
		"closed": {}, "open": {OpenLow: true, OpenHigh: true}, "open below": {OpenLow: true}, "open above": {OpenHigh: true},
	} {
		if got := render.TieEnds(v); got != want {
			t.Errorf("%+v is %q, want %q", v, got, want)
		}
	}
	for want, c := range map[string]breakeven.Crossing{
		"well": {Speed: 100, Tie: breakeven.Interval{Low: 99, High: 101}},
		"ill":  {Speed: 100, Tie: breakeven.Interval{Low: 90, High: 101}},
		"jump": {Speed: 100, Jump: true},
	} {
		if got := render.Determined(&c); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestParityInWords(t *testing.T) {
	rep := reports.Alone()
	d := rep.Worked()[0]
	got := rep.Parity(d.Detail)
	for _, want := range []string{"large at 300 rpm (-8.9 dBA, 0.0352 W) needs small at ", "; large at ", "Beyond it small cannot follow."} {
		if !strings.Contains(got, want) {
			t.Errorf("%q does not say %q", got, want)
		}
	}
	for i := range d.Parity {
		d.Parity[i].Lower = nil
	}
	if got, want := rep.Parity(d.Detail), "none: small equals large at no speed of it from 300 to 1 500 rpm."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := rep.Parity(&breakeven.Detail{}); got != "" {
		t.Errorf("no line at all: %q", got)
	}
}

// Both ends of a parity line say how sure they are, at a drawn speed of the reference near by
// if not at their own; a line that was not drawn says so, and a study without doubt nothing.
func TestParityInWordsSaysHowSureItIs(t *testing.T) {
	rep := reports.Alone()
	d := rep.Worked()[0].Detail
	if got := rep.ParityBetween(d); got != rep.Parity(d) {
		t.Errorf("without doubt: %q", got)
	}
	rep.Doubt = reports.Assess(rep)
	own := rep.Doubt.Own
	own.Parity = []doubt.ParityPoint{
		{Speed: d.Parity[0].Speed, Draws: 1000, Exists: 0.5, Breakeven: doubt.Band{Low: math.Inf(-1), Median: 50, High: 100}},
		{Speed: 700. / 60, Draws: 1000, Exists: 0.25, Breakeven: doubt.Band{Low: 200, Median: 300, High: math.Inf(1)}},
	}
	got := rep.ParityBetween(d)
	for _, want := range []string{" (95 %, rpm: lowest speed to 6 000; in 50 % of the draws); large at ", " (95 % with large at 700, rpm: 12 000 to never; in 30 % of the draws). Beyond it"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q does not say %q", got, want)
		}
	}
	own.Result.Design++
	if got, want := rep.ParityBetween(d), rep.Parity(d)+" No interval was drawn of this line."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestMatchInWords(t *testing.T) {
	rep := reports.Alone()
	for _, c := range []struct {
		m    breakeven.Match
		want string
	}{
		{breakeven.Match{By: "sound", Gap: 9.31}, "nothing to compare: small at its quietest is 9.3 dB above large at its loudest."},
		{breakeven.Match{By: "fan_power", Gap: -0.5}, "nothing to compare: large at its least power is 0.500 W above small at its greatest power."},
		{breakeven.Match{By: "sound", Why: "the reference has no value at any speed"}, "nothing to compare: the reference has no value at any speed."},
		{breakeven.Match{By: "sound", From: 20, To: 30, Spans: []breakeven.Span{{From: 20, To: 30, Winner: breakeven.Neither}}}, "a tie from 20.0 dBA to 30.0 dBA."},
		{breakeven.Match{By: "sound", From: 28.31, To: 28.32, Spans: []breakeven.Span{{From: 28.31, To: 28.32, Winner: breakeven.Neither}}}, "a tie at 28.3 dBA."},
		{breakeven.Match{By: "sound", From: 28.31, To: 28.32, Spans: []breakeven.Span{{From: 28.31, To: 28.32, Winner: breakeven.Reference, Lead: 3, Least: 1}}},
			"large is cooler at 28.3 dBA, by 1.00 to 3.00 K."},
		{breakeven.Match{By: "sound", From: 20, To: 30, Spans: []breakeven.Span{
			{From: 20, To: 22, Winner: breakeven.Reference, Lead: math.Inf(1)},
			{From: 22, To: 25, Winner: breakeven.Reference, Lead: 2},
			{From: 25, To: 30, Winner: breakeven.Challenger, Lead: 3, Least: 1},
		}, Meetings: []breakeven.Meeting{{At: 25, TieFrom: 24.5, TieTo: 25.5, Challenger: breakeven.SpeedPoint{Speed: 100}, Reference: breakeven.SpeedPoint{Speed: 10}}}},
			"large is cooler from 20.0 dBA to 22.0 dBA: the other has no value; large is cooler from 22.0 dBA to 25.0 dBA, by up to 2.00 K; small is cooler from 25.0 dBA to 30.0 dBA, by 1.00 to 3.00 K; they are equal at 25.0 dBA (24.5 to 25.5 dBA within the margin), small at 6 000 rpm and large at 600 rpm."},
	} {
		if got := rep.Match(&c.m); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestChangesInWords(t *testing.T) {
	rep := reports.Alone()
	at := &breakeven.Crossing{Speed: 100, Tie: breakeven.Interval{Low: 98, High: 103}, State: model.State{Sound: 60, FanPower: 20}}
	for _, c := range []struct {
		c           breakeven.Change
		what, comes string
	}{
		{breakeven.Change{Key: "fin_density", Now: 12 / 0.0254, Needed: 13.7 / 0.0254, Works: true, At: at}, "fin density 13.7 fpi instead of 12 fpi", "equal at 6 000 ±180 rpm (60.0 dBA, 20.0 W)"},
		{breakeven.Change{Key: "face_area", Low: 0.004, High: 0.016, Closest: 0.423}, "face area from 40 to 160 cm²", "no: 0.42 K short at best"},
		{breakeven.Change{Key: "placing", NowIs: "push", NeededIs: "pull", Works: true}, "pull instead of push", "better at every searched speed"},
		{breakeven.Change{Key: "fan", NowIs: "dense", NeededIs: "calm", Closest: math.Inf(1)}, "fan calm instead of dense", "no value at any speed"},
	} {
		what, comes := rep.Change(&c.c)
		if what != c.what || comes != c.comes {
			t.Errorf("%q, %q; want %q, %q", what, comes, c.what, c.comes)
		}
	}
	if render.AnyWorks([]breakeven.Change{{}, {}}) || !render.AnyWorks([]breakeven.Change{{}, {Works: true}}) {
		t.Error("whether any change works")
	}
	none := breakeven.Answer{Status: breakeven.None, Best: breakeven.Point{Speed: 100, Difference: 0.3}, Limit: breakeven.Limit{Term: "budget_fan_heat", Excess: 1.2}}
	if got, want := rep.Blocked(&none), "It is 0.30 K short at best, at 6 000 rpm; what blocks it is the fan heat, 1.20 K more than in large."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	none.Status = breakeven.Tie
	if got := rep.Blocked(&none); got != "" {
		t.Errorf("a tie is blocked: %q", got)
	}
}

// The cheapest must be cheaper than every other design that breaks even.
func TestCheapest(t *testing.T) {
	rep := reports.Booth()
	cheap := rep.Digest().Cheap
	if cheap.Sound == nil || cheap.Power == nil {
		t.Fatal("no cheapest design")
	}
	quietest, _ := render.Ends(cheap.Sound)
	thriftiest, _ := render.Ends(cheap.Power)
	looked := 0
	for a := range rep.EachAnswer {
		lower, _ := render.Ends(a)
		if lower == nil || a.Status == breakeven.Tie {
			continue
		}
		looked++
		if lower.State.Sound < quietest.State.Sound || lower.State.FanPower < thriftiest.State.FanPower {
			t.Errorf("design %d is cheaper", a.Design)
		}
	}
	if looked < 10 {
		t.Errorf("only %d designs were looked at", looked)
	}
	if c := reports.Hopeless().Digest().Cheap; c.Sound != nil || c.Power != nil {
		t.Errorf("without break-evens: %+v", c)
	}
}

// An end that the margin moves out of the search is said in words.
func TestMovedInWords(t *testing.T) {
	rpm := func(v float64) float64 { return v / 60 }
	closed := breakeven.Crossing{Speed: rpm(6000), Tie: breakeven.Interval{Low: rpm(5820), High: rpm(6100)}}
	open := breakeven.Crossing{Speed: rpm(2000), Tie: breakeven.Interval{Low: rpm(2000), High: rpm(2004), OpenLow: true}}
	open.State.Sound, open.State.FanPower = 41.1, 0.51
	if got := render.Moved(&closed); got != "6 000 ±180 rpm" {
		t.Error(got)
	}
	if got := render.Moved(&open); got != "2 000 rpm (2 000 or less to 2 004 within the margin)" {
		t.Error(got)
	}
	rep := &render.Report{}
	_, got := rep.Change(&breakeven.Change{Key: "fin_density", Works: true, At: &open})
	if want := "equal at 2 000 rpm (41.1 dBA, 0.510 W; 2 000 or less to 2 004 within the margin)"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
