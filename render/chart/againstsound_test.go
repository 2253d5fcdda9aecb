package chart

import (
	"testing"

	"gonum.org/v1/plot/vg"

	"finduel/testdata/reports"
)

// The line of a warning is drawn at once, its text is left until the curves are traced:
// then it keeps clear of them, as here of a curve that lies where it would stand first.
func TestWarningOfSoundKeepsClearOfCurves(t *testing.T) {
	looked := 0
	for _, c := range reports.Cases() {
		rep := c.Report()
		r, canvas := canvas(600, 300)
		place := newLabels(&canvas)
		x := func(level float64) vg.Length { return vg.Length(6 * level) }
		list := warnOfSound(rep, &canvas, x, place)
		if got := texts(r); len(got) > 0 {
			t.Errorf("%s: %v is written before the curves are traced", c.Name, got)
		}
		for _, w := range list {
			looked++
			top := w.spots[0].Y
			for y := top - 30; y < top+10; y += 2 {
				place.blockLine([]vg.Point{{X: 0, Y: y}, {X: 600, Y: y}})
			}
			place.put(&canvas, letters(textSize, false, ink), w.text, 6, must, w.spots...)
			if at, ok := texts(r)[w.text]; !ok || at.Y > top-30 {
				t.Errorf("%s: %q stands at %v, across a curve from %v on", c.Name, w.text, at, top-30)
			}
		}
	}
	if looked == 0 {
		t.Error("no report warns of sound")
	}
}
