package chart

import (
	"image/color"
	"math"
)

// inkOn returns black or white, whichever reads better on a colour: that with the
// higher contrast ratio (l1 + 0.05) / (l2 + 0.05) of relative luminances [3]. One of
// the two ratios is never below the root of 21, 4.58.
func inkOn(c color.NRGBA) color.NRGBA {
	l := luminance(c)
	if (l+0.05)/0.05 >= 1.05/(l+0.05) {
		return black
	}
	return paper
}

// luminance returns the relative luminance of a colour, 0 for black to 1 for white:
//
//	L = 0.2126 R + 0.7152 G + 0.0722 B                                 [3]
//
// with the channels made linear.
func luminance(c color.NRGBA) float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.03928 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}
