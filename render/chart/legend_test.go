package chart

import (
	"testing"

	"finduel/render"
	"finduel/testdata/reports"
)

// What an interval does not have in it is written under its key, and nothing where all
// draws have a value.
func TestLegendSaysWhatABandLacks(t *testing.T) {
	for _, c := range []struct {
		name string
		rep  *render.Report
		want string
	}{
		{"unsure", reports.Unsure(), "up to 986 of 1 000 draws have no value: no interval has them in it"},
		{"sure", reports.Sure(), ""},
	} {
		record, wide := canvas(900, 300)
		l := legend{c: wide, size: textSize, baseline: wide.Max.Y}
		f := familyOf(c.rep)
		l.bandKey(c.rep, &f)
		written := texts(record)
		if _, ok := written["base design; what both share cancels"]; !ok {
			t.Errorf("%s: no key of the band in %v", c.name, written)
		}
		if _, ok := written[c.want]; c.want != "" && !ok || c.want == "" && len(written) != 2 {
			t.Errorf("%s: %v, want %q", c.name, written, c.want)
		}
	}
	record, wide := canvas(900, 300)
	l := legend{c: wide, size: textSize, baseline: wide.Max.Y}
	l.absent(render.PlaceDoubt{Draws: 20000, Absent: 900}, render.PlaceDoubt{}, render.PlaceDoubt{Draws: 1000, Absent: 50}, render.PlaceDoubt{Draws: 1000, Absent: 49})
	if _, ok := texts(record)["up to 50 of 1 000 draws have no value: no interval has them in it"]; !ok {
		t.Errorf("of several: %v", texts(record))
	}
}
