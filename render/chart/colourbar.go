package chart

import (
	"gonum.org/v1/plot/vg"
)

// Sizes of a colour bar.
const (
	barWidth = 18
	barSteps = 128
)

// colourBar draws the scale of a map of numbers from low to high, below a title,
// and moves the legend below it.
func (l *legend) colourBar(title string, s span, height vg.Length) {
	l.heading(title)
	top := l.baseline + l.size*capital - 3
	bar := vg.Rectangle{
		Min: vg.Point{X: l.c.Min.X, Y: top - height},
		Max: vg.Point{X: l.c.Min.X + barWidth, Y: top},
	}
	at := func(share float64) vg.Length { return pixel(bar.Min.Y + height*vg.Length(share)) }
	for i := range barSteps {
		step := bar
		step.Min.Y, step.Max.Y = at(float64(i)/barSteps), at(float64(i+1)/barSteps)
		l.c.FillPolygon(viridis((float64(i)+0.5)/barSteps), corners(step))
	}
	edge(&l.c, bar, plainLine(quiet, 0.8))

	style := letters(l.size, false, ink)
	for _, t := range (linearTicks{6}).Ticks(s.low, s.high) {
		y := bar.Min.Y + height*vg.Length((t.Value-s.low)/(s.high-s.low))
		if y < bar.Min.Y || y > bar.Max.Y {
			continue
		}
		reach := vg.Length(3)
		if !t.IsMinor() {
			reach = 5
			writeMiddle(&l.c, style, fromLeft, bar.Max.X+reach+4, y, t.Label)
		}
		l.c.StrokeLine2(plainLine(quiet, 0.9), bar.Max.X, y, bar.Max.X+reach, y)
	}
	l.baseline = bar.Min.Y - l.size*(0.6+capital)
}

// pixel returns the nearest edge of a pixel, so that areas meet without a seam.
func pixel(v vg.Length) vg.Length {
	const size = vg.Inch / dotsPerInch
	return vg.Length(int(v/size+0.5)) * size
}
