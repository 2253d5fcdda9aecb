package render

import (
	"math"
	"strconv"

	"finduel/model/quantity"
	"finduel/sweep/doubt"
)

// Worth returns low end, median or high end of a band, counted from 0, in the unit in
// which q is shown and cut to the digits that other draws would give again (JCGM 101
// 7.9). An end that is infinite, or NaN, stays so.
func Worth(q quantity.Quantity, b doubt.Band, end int) float64 {
	v := q.Shown.Shown([...]float64{b.Low, b.Median, b.High}[end])
	return cut(v, Width(q, b.Steps[end]))
}

// Width returns a width in SI, such as a step, in the unit in which q is shown.
func Width(q quantity.Quantity, si float64) float64 { return si * q.Shown.Over / q.Shown.Times }

// Step returns a step of a band, in SI, in the unit in which q is shown: 1, 2 or 5 times a
// power of ten.
func Step(q quantity.Quantity, si float64) float64 {
	step, _ := strconv.ParseFloat(strconv.FormatFloat(Width(q, si), 'g', 3, 64), 64)
	return step
}

// cut returns a number rounded to a step, with no digits behind it; as it is if it is not
// finite or the step is none.
func cut(v, step float64) float64 {
	if !finite(v) || !(step > 0) || !finite(step) {
		return v
	}
	decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(math.Round(v/step)*step, 'f', decimals, 64), 64)
	return rounded + 0 // no minus in front of nothing
}

// WorthHalf returns half of an interval, in SI, in the unit in which q is shown, to two
// digits.
func WorthHalf(q quantity.Quantity, si float64) float64 {
	v := Width(q, si)
	return cut(v, twoDigits(v))
}

// twoDigits returns the step of the second digit of a number; 0 of none and of one that is
// not finite.
func twoDigits(v float64) float64 {
	if !(v > 0) || math.IsInf(v, 0) {
		return 0
	}
	return math.Pow(10, math.Floor(math.Log10(v))-1)
}

// WorthShare returns a share of the draws of a design, 0 to 1, cut to the digits that
// other draws would give again; half a percent from the ends where it is nearer to them
// and not there. NaN stays so.
func WorthShare(r *doubt.Result, share float64) float64 {
	switch {
	case share > 0 && share < 0.005:
		return 0.005
	case share < 1 && share > 0.995:
		return 0.995
	default:
		return cut(share, r.StepOf(share))
	}
}

// Chance returns a share of the draws of a design in percent, as WorthShare cuts it: "45 %",
// "under 1 %".
func Chance(r *doubt.Result, share float64) string {
	return Percent(WorthShare(r, share))
}

// Often returns how often something holds in the draws of a design, in few characters:
// "45 %", "<1 %", "all", "none".
func Often(r *doubt.Result, share float64) string {
	switch {
	case share == 0:
		return "none"
	case share == 1:
		return "all"
	}
	switch text := Chance(r, share); text {
	case "under 1 %":
		return "<1 %"
	case "over 99 %":
		return ">99 %"
	default:
		return text
	}
}

// WorthIndex returns value, low end and high end of an index, cut to a tenth of its
// interval or a little more.
func WorthIndex(i doubt.Index) (value, low, high float64) {
	step := i.Step()
	return cut(i.Value, step), cut(i.Low, step), cut(i.High, step)
}

// stable says whether the draws of a design settled, and to what the digits that are shown
// are stable.
func stable(r *doubt.Result) string {
	text := "The draws settled; the digits that are shown are stable"
	if r.Capped {
		text = "The draws ended at their cap; the digits that are shown are stable"
	}
	kelvin, speed := 0.0, 0.0
	for i := range 3 {
		speed = max(speed, r.Breakeven.Steps[i])
		for _, b := range []*doubt.Band{&r.Challenger, &r.Reference, &r.Difference} {
			kelvin = max(kelvin, b.Steps[i])
		}
	}
	var to []string
	for _, s := range []struct {
		what string
		q    quantity.Quantity
		step float64
	}{{"temperatures", quantity.Must("difference"), kelvin}, {"the break-even speed", quantity.Must("breakeven_speed"), speed}} {
		if s.step > 0 && finite(s.step) {
			to = append(to, s.what+" to "+WithUnit(s.q, Rounded(s.q, s.step, s.step))+" or better")
		}
	}
	if to == nil {
		return text + "."
	}
	return text + ": " + List(to) + "."
}
