package fan_test

import (
	"math"
	"testing"

	"finduel/model/fan"
)

// covered is the share of a disc within a rectangle around its middle, by strips
// whose borders are moved along the circle so that its ends are no worse than its
// middle.
func covered(diameter, length, width float64) float64 {
	const strips = 20000
	r, area := diameter/2, 0.0
	for i := range strips {
		a := math.Pi / 2 * (float64(i) + 0.5) / strips
		if x := r * math.Sin(a); x < length/2 {
			area += 4 * math.Min(r*math.Cos(a), width/2) * r * math.Cos(a) * math.Pi / 2 / strips
		}
	}
	return area / (math.Pi * r * r)
}

func TestDiscOnFaceIsTheIntegral(t *testing.T) {
	for _, d := range []float64{0.04, 0.1, 0.127, 0.2, 0.5} {
		for length := 0.02; length < 0.6; length *= 1.31 {
			for width := 0.02; width < 0.6; width *= 1.47 {
				got, want := fan.DiscOnFace(d, length, width), covered(d, length, width)
				if !(math.Abs(got-want) < 2e-4) {
					t.Errorf("%g m on %g by %g m: %.6f, integrated %.6f", d, length, width, got, want)
				}
				if turned := fan.DiscOnFace(d, width, length); math.Abs(turned-got) > 1e-14 {
					t.Errorf("%g m on %g by %g m: %.17g, turned %.17g", d, length, width, got, turned)
				}
				near(t, "in another unit", fan.DiscOnFace(1000*d, 1000*length, 1000*width), got)
				if !(got > 0 && got <= 1) {
					t.Errorf("%g m on %g by %g m: %g", d, length, width, got)
				}
			}
		}
	}
}

func TestDiscOnFaceLimits(t *testing.T) {
	near(t, "inside", fan.DiscOnFace(0.1, 0.1, 0.1), 1)
	near(t, "covering", fan.DiscOnFace(0.5, 0.3, 0.4), 0.12/(math.Pi*0.0625))
	// The cases join: just before the corners come inside the circle.
	before, after := fan.DiscOnFace(0.5*(1-1e-9), 0.3, 0.4), fan.DiscOnFace(0.5, 0.3, 0.4)
	if math.Abs(before-after) > 1e-8 {
		t.Errorf("%.12f and %.12f on the two sides of where the corners meet the circle", before, after)
	}
	// Cut by one pair of sides only, a far second pair does not matter.
	if a, b := fan.DiscOnFace(0.1, 0.06, 0.1), fan.DiscOnFace(0.1, 0.06, 9); a != b {
		t.Errorf("%g and %g on strips of different length", a, b)
	}
	last := 1.1
	for d := 0.05; d < 1; d += 0.01 {
		s := fan.DiscOnFace(d, 0.1, 0.08)
		if s > last || d > 0.08 && s == last {
			t.Errorf("%g m: %g of the disc, %g of a smaller one", d, s, last)
		}
		last = s
	}
}

// Where the rotors stand beside one another: every grid by hand.
func TestDiscsStandAsTheFaceAllows(t *testing.T) {
	for _, c := range []struct {
		length, width float64
		count         int
		want          float64
	}{
		{0.1, 0.1, 1, 1},
		{0.2, 0.2, 4, 1}, // two by two
		{0.4, 0.1, 4, 1}, // one behind another
		{0.1, 0.4, 4, 1}, // side by side
		{0.1, 0.4, 2, 1},
		{0.3, 0.2, 6, 1},
		{0.2, 0.3, 6, 1},
		{0.2, 0.2, 3, fan.DiscOnFace(0.1, 0.2/3, 0.2)},
		{0.16, 0.3, 4, fan.DiscOnFace(0.1, 0.08, 0.15)},
		{0.15, 0.15, 5, fan.DiscOnFace(0.1, 0.03, 0.15)},
	} {
		for scale := range 2 {
			k := 1 + 99*float64(scale)
			near(t, "on the face", fan.DiscsOnFace(0.1*k, c.length*k, c.width*k, c.count), c.want)
			near(t, "on the face turned", fan.DiscsOnFace(0.1*k, c.width*k, c.length*k, c.count), c.want)
		}
	}
}
