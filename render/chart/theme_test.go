package chart

import (
	"image/color"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/plot/vg"

	"finduel/model"
)

// Text must reach the contrast that WCAG 2.1 asks for, success criterion 1.4.3
// (AA): a ratio of 4.5 to 1. That of black and white is 21, of two equal colours 1.
func TestTextReadsOnItsGround(t *testing.T) {
	ratio := func(a, b color.NRGBA) float64 {
		l, m := luminance(a), luminance(b)
		return (max(l, m) + 0.05) / (min(l, m) + 0.05)
	}
	if r := ratio(black, paper); math.Abs(r-21) > 1e-12 {
		t.Errorf("contrast of black and white is %g, want 21", r)
	}
	if r := ratio(blue, blue); r != 1 {
		t.Errorf("contrast of equal colours is %g, want 1", r)
	}
	const least = 4.5
	for _, l := range looks {
		if r := ratio(l.lettering(), paper); r < least {
			t.Errorf("labels of %v: contrast %.2f", l.colour, r)
		}
	}
	for _, c := range []color.NRGBA{ink, quiet, darker(vermillion)} {
		if r := ratio(c, paper); r < least {
			t.Errorf("%v: contrast %.2f", c, r)
		}
	}
	grounds := []color.NRGBA{blank, paper}
	for _, l := range budgetLooks {
		grounds = append(grounds, l.fill)
	}
	for i := range 101 {
		grounds = append(grounds, viridis(float64(i)/100))
	}
	for _, c := range grounds {
		if r := ratio(inkOn(c), c); r < least {
			t.Errorf("text on %v: contrast %.2f", c, r)
		}
	}
}

// Colours of viridis as published, rows 51, 102, 153, 204 of the 256 that are
// numbered from 0, and the last one: none of them but the last is an anchor.
func TestViridisAsPublished(t *testing.T) {
	for _, c := range []struct {
		row     int
		r, g, b float64
	}{
		{51, 0.253935, 0.265254, 0.529983}, {102, 0.163625, 0.471133, 0.558148},
		{153, 0.134692, 0.658636, 0.517649}, {204, 0.477504, 0.821444, 0.318195}, {255, 0.993248, 0.906157, 0.143936},
	} {
		got := viridis(float64(c.row) / 255)
		for _, v := range [][2]float64{{float64(got.R), c.r * 255}, {float64(got.G), c.g * 255}, {float64(got.B), c.b * 255}} {
			if math.Abs(v[0]-v[1]) > 1.5 {
				t.Errorf("row %d: got %v, want %.0f %.0f %.0f", c.row, got, c.r*255, c.g*255, c.b*255)
				break
			}
		}
	}
	for _, out := range []float64{-1, 2} {
		if got := viridis(out); got != viridis(min(max(out, 0), 1)) {
			t.Errorf("viridis(%g) = %v", out, got)
		}
	}
}

// Viridis must get lighter all the way, so that it also reads in grey.
func TestViridisGetsLighter(t *testing.T) {
	for i := 1; i <= 255; i++ {
		if a, b := luminance(viridis(float64(i-1)/255)), luminance(viridis(float64(i)/255)); b < a-5e-4 {
			t.Errorf("row %d is darker than the one before: %g, %g", i, b, a)
		}
	}
}

// No two lines may be told apart by colour alone.
func TestLooksDifferWithoutColour(t *testing.T) {
	for i, a := range looks {
		if a.shape == diamond {
			t.Errorf("look %d has the marker of break-evens", i)
		}
		for j, b := range looks[:i] {
			if a.shape == b.shape || slices.Equal(a.dashes, b.dashes) && a.colour == b.colour {
				t.Errorf("looks %d and %d differ too little", j, i)
			}
		}
	}
}

// No two terms of the budget may be told apart by colour alone, and each has its
// look and its words.
func TestBudgetLooks(t *testing.T) {
	if len(budgetLooks) != len(model.BudgetTerms) || len(meaning) != len(model.BudgetTerms) {
		t.Fatalf("%d looks and %d meanings of %d terms", len(budgetLooks), len(meaning), len(model.BudgetTerms))
	}
	for i, a := range budgetLooks {
		if meaning[model.BudgetTerms[i]] == "" {
			t.Errorf("%s has no meaning", model.BudgetTerms[i])
		}
		for j, b := range budgetLooks[:i] {
			if a.hatch == b.hatch || a.fill == b.fill {
				t.Errorf("%s and %s look alike", model.BudgetTerms[j], model.BudgetTerms[i])
			}
		}
	}
}

// The sheet must be at least 1600 by 1000 pixels, its smallest type 22 pixels.
func TestSizes(t *testing.T) {
	dots := func(l vg.Length) float64 { return l.Dots(dotsPerInch) }
	if dots(sheetWidth) < 1600 || dots(sheetHeight) < 1000 {
		t.Errorf("sheet of %g by %g pixels", dots(sheetWidth), dots(sheetHeight))
	}
	for _, size := range []vg.Length{titleSize, leadSize, textSize} {
		if dots(size) < 22 {
			t.Errorf("type of %g pixels", dots(size))
		}
	}
}
