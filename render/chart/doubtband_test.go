package chart_test

import (
	"bytes"
	"image/color"
	"image/png"
	"testing"

	"finduel/render"
	"finduel/testdata/reports"
)

// The band is too pale for the comparison with the goldens: its pixels are counted. It
// fills a good part of the panel around the base design's line, third of the looks, and
// is not there where nothing was assessed.
func TestBandIsDrawn(t *testing.T) {
	pale := color.NRGBA{216, 240, 234, 255} // 15 % of the look's green on white
	pixels := func(rep *render.Report, picture string) (n, lowest, highest int) {
		for _, p := range draw(t, rep).Pictures {
			if p.Name != picture {
				continue
			}
			img, err := png.Decode(bytes.NewReader(p.PNG))
			if err != nil {
				t.Fatal(err)
			}
			lowest, highest = 0, img.Bounds().Max.Y
			for y := range img.Bounds().Max.Y {
				for x := range img.Bounds().Max.X * 2 / 3 { // the panel, not the legend
					if color.NRGBAModel.Convert(img.At(x, y)) == pale {
						n++
						lowest, highest = max(lowest, y), min(highest, y)
					}
				}
			}
		}
		return n, lowest, highest
	}
	for picture, least := range map[string]int{"coolant-over-air.png": 120_000, "against-sound.png": 40_000} {
		if n, low, high := pixels(reports.Sure(), picture); n < least || low-high < 400 {
			t.Errorf("%s: %d pixels of the band, from %d down to %d", picture, n, high, low)
		}
		if n, _, _ := pixels(reports.Few(), picture); n > 100 { // edges of lines have any colour
			t.Errorf("%s: %d pixels of a band that nobody knows", picture, n)
		}
	}
	// A line that is known at one speed alone has a bar there.
	for _, picture := range []string{"coolant-over-air.png", "against-sound.png"} {
		rep := reports.Sure()
		curve := rep.Doubt.Own.Curve
		rep.Doubt.Own.Curve = curve[len(curve)/2 : len(curve)/2+1]
		if n, low, high := pixels(rep, picture); n < 1000 || n > 20_000 || low-high < 60 {
			t.Errorf("%s: %d pixels of a bar, from %d down to %d", picture, n, high, low)
		}
	}
}
