package chart

import (
	"math"
	"strings"
	"testing"

	"finduel/render"
	"finduel/sweep/doubt"
	"finduel/testdata/reports"
)

// Intervals over the reference's speed are those of the draws, in the unit shown; where
// hardly a draw is better there is none to draw, not even of the second branch.
func TestParityIntervals(t *testing.T) {
	inf := math.Inf(1)
	band := func(low, high float64) doubt.Band { return doubt.Band{Low: low / 60, High: high / 60} }
	list := []doubt.ParityPoint{
		{Speed: 10, Breakeven: band(-inf, -inf), Upper: band(9000, inf)},
		{Speed: 11, Breakeven: band(-inf, 4000), Upper: band(9000, 9500)},
		{Speed: 12, Breakeven: band(3000, 6000), Upper: band(inf, inf)},
		{Speed: 13, Breakeven: band(4000, inf), Upper: band(8000, inf)},
		{Speed: 14, Breakeven: band(inf, inf), Upper: band(8000, 9000)},
		{Speed: 15, Breakeven: band(math.NaN(), math.NaN()), Upper: band(math.NaN(), math.NaN())},
	}
	none := math.NaN()
	lower, upper := parityEnds(list, lowerOf), parityEnds(list, upperOf)
	for _, c := range []struct {
		got, want []ends
	}{
		{lower, []ends{{600, none, none}, {660, -inf, 4000}, {720, 3000, 6000}, {780, 4000, inf}, {840, none, none}, {900, none, none}}},
		{upper, []ends{{600, 9000, inf}, {660, 9000, 9500}, {720, none, none}, {780, 8000, inf}, {840, none, none}, {900, none, none}}},
	} {
		for i, want := range c.want {
			got := c.got[i]
			if got.drawn() != !math.IsNaN(want.low) || got.drawn() && !(alike(got.at, want.at) && alike(got.low, want.low) && alike(got.high, want.high)) {
				t.Errorf("interval %d: %v, want %v", i, got, want)
			}
		}
	}
	across, up := withEnds(lower, span{700, 1000}, span{3500, 5000})
	if across != (span{660, 1000}) || !alike(up.low, 3000) || !alike(up.high, 6000) {
		t.Errorf("the panel shows %v over %v", up, across)
	}
}

func alike(a, b float64) bool { return a == b || math.Abs(a-b) < 1e-9*math.Abs(b) }

// A parity line without intervals says why.
func TestWhyParityHasNoIntervals(t *testing.T) {
	rep := reports.Sure()
	base := rep.HeldDesigns()[0]
	var own, other render.Worked
	for _, w := range rep.Worked() {
		if w.Design == base {
			own = w
		} else {
			other = w
		}
	}
	if other.Detail == nil {
		t.Fatal("one design is worked out only")
	}
	list, why := parityDoubt(rep, own)
	if len(list) != len(own.Parity) || why != "" {
		t.Errorf("%d of %d places, %q", len(list), len(own.Parity), why)
	}
	check := func(d render.Worked, want string) {
		t.Helper()
		if list, why := parityDoubt(rep, d); list != nil || !strings.Contains(why, want) {
			t.Errorf("%d places, %q, want %q", len(list), why, want)
		}
	}
	check(other, "only the study's own design was drawn")
	rep.Doubt.Own.Parity = nil
	check(own, "nothing was drawn")
	rep.Doubt.Own.Ranking.Refused = "nothing is in doubt"
	check(own, "nothing is in doubt")
	rep.Doubt.Own = nil
	check(own, "was not computed")
	rep.Doubt = nil
	check(own, "was not computed")
}
