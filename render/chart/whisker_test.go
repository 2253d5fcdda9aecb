package chart

import (
	"math"
	"testing"

	"finduel/model/quantity"
	"finduel/render"
	"finduel/testdata/reports"
)

// Every bar of the budget has the interval of what it shows, or none where nothing was
// drawn; and the panel reaches beyond all of them.
func TestBarsHaveTheirInterval(t *testing.T) {
	rep := reports.Sure()
	bars := barsOf(rep)
	a, _ := baseAnswer(rep)
	if len(bars) < 3 {
		t.Fatalf("%d bars", len(bars))
	}
	_, across := termsOf(bars, true)
	if _, without := termsOf(bars, false); without.high >= across.high {
		t.Errorf("the panel ends at %v, without intervals at %v", across.high, without.high)
	}
	for i, b := range bars {
		if b.band == nil {
			t.Errorf("%s has no interval", b.what())
			continue
		}
		want := b.state.CoolantOverAir // the middle of the invented intervals of the challenger
		if i == 0 {
			r, _ := rep.Doubt.Of(a.Design)
			want = r.Reference.Median
		}
		// At the study's speed the curve has what was drawn more often.
		if math.Abs(b.band.Median-want) > 1e-9 {
			t.Errorf("%s: interval %+v, want it about %v", b.what(), b.band, want)
		}
		if across.high < b.band.High*1.1 {
			t.Errorf("%s: the panel ends at %v, the interval at %v", b.what(), across.high, b.band.High)
		}
		if text := render.Interval(quantity.Must("coolant_over_air"), *b.band); text == "" {
			t.Errorf("%s: no words for %+v", b.what(), b.band)
		}
	}
	for _, b := range barsOf(reports.Few()) {
		if b.band != nil {
			t.Errorf("%s has an interval that nobody drew", b.what())
		}
	}
}
