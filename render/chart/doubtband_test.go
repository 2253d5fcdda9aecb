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
	pixels := func(rep *render.Report) (n, lowest, highest int) {
		for _, p := range draw(t, rep).Pictures {
			if p.Name != "coolant-over-air.png" {
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
	if n, low, high := pixels(reports.Sure()); n < 150_000 || low-high < 600 {
		t.Errorf("%d pixels of the band, from %d down to %d", n, high, low)
	}
	if n, _, _ := pixels(reports.Few()); n > 100 { // edges of lines have any colour
		t.Errorf("%d pixels of a band that nobody knows", n)
	}
}
