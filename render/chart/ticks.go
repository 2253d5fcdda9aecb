package chart

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/plot"

	"finduel/model/quantity"
	"finduel/render"
)

// span is a range of numbers in the unit shown. Numbers that are not finite never
// get into it.
type span struct{ low, high float64 }

// nothing is the span that holds no number.
var nothing = span{math.Inf(1), math.Inf(-1)}

// with returns the span widened to hold more numbers.
func (s span) with(numbers ...float64) span {
	for _, v := range numbers {
		if finite(v) {
			s.low, s.high = min(s.low, v), max(s.high, v)
		}
	}
	return s
}

// empty reports whether the span holds no number.
func (s span) empty() bool { return s.low > s.high }

// padded returns the span with room at both ends: a share of its width, and never
// so narrow that ticks could not be told apart.
func (s span) padded(share float64) span {
	if s.empty() {
		return span{0, 1}
	}
	room := (s.high - s.low) * share
	least := max(math.Abs(s.low), math.Abs(s.high)) * 1e-3
	if least == 0 {
		least = 1
	}
	if s.high-s.low < least {
		room = least
	}
	return span{s.low - room, s.high + room}
}

// wide reports whether the span is one for a logarithmic axis: above zero, and so
// wide that half of its values would crowd in a quarter of a linear axis.
func (s span) wide() bool { return s.low > 0 && s.high/s.low > 4 }

// stretched returns the span with room at both ends of a logarithmic axis.
func (s span) stretched(share float64) span {
	factor := math.Pow(s.high/s.low, share)
	return span{s.low / factor, s.high * factor}
}

// whole is a whole number without a unit.
var whole = quantity.Quantity{Kind: quantity.Count, Shown: quantity.Unit{Times: 1, Over: 1}}

// tickLabel returns the text at a tick, to six significant digits and no more of
// them than it needs: enough to tell the ticks of a narrow range apart.
func tickLabel(v float64) string {
	const digits = 6
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	a := math.Abs(rounded)
	if a >= 1e9 || a > 0 && a < 1e-4 {
		return strconv.FormatFloat(rounded, 'g', -1, 64)
	}
	text := render.Number(whole, math.Floor(a))
	if _, decimals, ok := strings.Cut(strconv.FormatFloat(a, 'f', -1, 64), "."); ok {
		text += "." + decimals
	}
	if rounded < 0 {
		text = "-" + text
	}
	return text
}

// linearTicks places ticks at 1, 2 or 5 times a power of ten, at most most of them
// with labels and smaller ones between.
type linearTicks struct{ most int }

// Ticks returns the ticks of an axis from low to high; none if that is no range.
func (t linearTicks) Ticks(low, high float64) []plot.Tick {
	if !finite(low, high, high-low) || high <= low {
		return nil
	}
	mantissa, power := step(high-low, t.most)
	parts := map[float64]float64{1: 5, 2: 4, 5: 5}[mantissa]
	var ticks []plot.Tick
	const slack = 1e-9
	first := math.Ceil(scaled(low, power)/mantissa*parts - slack)
	last := math.Floor(scaled(high, power)/mantissa*parts + slack)
	if math.Abs(first) > 1e12 || last-first > 1e4 {
		return nil
	}
	for i := first; i <= last; i++ {
		tick := plot.Tick{Value: scaled(i*mantissa/parts, -power)}
		if i == 0 {
			tick.Value = 0 // Ceil leaves a negative zero
		}
		if math.Mod(i, parts) == 0 {
			tick.Label = tickLabel(tick.Value)
		}
		ticks = append(ticks, tick)
	}
	return ticks
}

// step returns the smallest of 1, 2 or 5 times a power of ten that goes into a width
// at most so many times.
func step(width float64, most int) (mantissa float64, power int) {
	least := width / float64(most)
	power = int(math.Floor(math.Log10(least)))
	for _, m := range []float64{1, 2, 5} {
		if scaled(m, -power) >= least*(1-1e-9) {
			return m, power
		}
	}
	return 1, power + 1
}

// scaled returns v over ten to a power, without the error of a power below one.
func scaled(v float64, power int) float64 {
	if power < 0 {
		return v * math.Pow(10, float64(-power))
	}
	return v / math.Pow(10, float64(power))
}

// logTicks places ticks at 1 to 9 times powers of ten. Labels stand at 1, 2 and 5,
// over less than two decades at some more, over more than three at powers of ten
// alone, and over more than most of those only at every so many.
type logTicks struct{ most int }

// Ticks returns the ticks of an axis from low to high, both above zero; none if
// that is no range.
func (t logTicks) Ticks(low, high float64) []plot.Tick {
	if !finite(low, high, high/low) || low <= 0 || high <= low {
		return nil
	}
	mantissas, labelled := []float64{1, 2, 3, 4, 5, 6, 7, 8, 9}, []float64{1, 2, 5}
	first, last := int(math.Floor(math.Log10(low))), int(math.Ceil(math.Log10(high)))
	every := 1
	switch decades := math.Log10(high / low); {
	case decades < 1:
		mantissas, labelled = []float64{1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9}, []float64{1, 1.5, 2, 3, 4, 5, 6, 8}
	case decades < 2:
		labelled = []float64{1, 2, 3, 5, 7}
	case decades > 3:
		labelled = []float64{1}
		every = (last - first + t.most - 1) / t.most
	}
	var ticks []plot.Tick
	for power := first; power <= last; power++ {
		for _, m := range mantissas {
			v := scaled(m, -power)
			if v < low*(1-1e-9) || v > high*(1+1e-9) || m > 1 && every > 1 {
				continue
			}
			tick := plot.Tick{Value: v}
			if slices.Contains(labelled, m) && (power-first)%every == 0 {
				tick.Label = tickLabel(v)
			}
			ticks = append(ticks, tick)
		}
	}
	return ticks
}
