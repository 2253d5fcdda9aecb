package sound

import (
	"errors"
	"math"

	"finduel/model/quantity"
)

// leastSpan is the ratio of the fastest to the slowest reading below which readings
// tell no exponent: a tenth in speed is 2 dB, as much as meters differ (common
// practice, no source).
const leastSpan = 1.1

// Fitted is what readings of a fan at several speeds say of it.
type Fitted struct {
	Level    float64 // at the reference speed, dB(A), where the readings were taken
	Exponent float64 // dB for a tenfold speed
	Scatter  float64 // standard deviation of the readings about the fit, dB; 0 with two readings or one, which have none
}

// Unusual reports whether the exponent is one that fans do not have: outside
// LowestExponent to HighestExponent.
func (f Fitted) Unusual() bool {
	return !(f.Exponent >= LowestExponent && f.Exponent <= HighestExponent)
}

// Fit returns the level of a fan at a reference speed, and how it rises with speed,
// from readings at several speeds in rev/s, all in one place, in dB(A). It is the
// least squares fit of
//
//	L = L_ref + e log10(N/N_ref)
//
// with a scatter of n − 2 degrees of freedom (any text on linear regression). One
// reading gives the level with FanExponent.
//
// It returns joined *quantity.RangeError (keys reading_speed, reading_sound,
// rated_speed) for no reading at all, not one level to each speed, a speed that is
// not finite and above 0, a level that is not finite, and for several readings whose
// speeds span less than a tenth.
//
// Check: 70, 82 and 99.5 dB(A) at 5000, 8000 and 20 000 rpm have the exponent 48.3,
// 99.9 dB(A) at 20 000 rpm and a scatter of 1.6 dB.
func Fit(speeds, levels []float64, reference float64) (Fitted, error) {
	n := float64(len(speeds))
	if len(speeds) == 0 || len(levels) != len(speeds) {
		return Fitted{}, &quantity.RangeError{Key: "reading_sound", Value: float64(len(levels)), Low: math.Max(n, 1), High: math.Max(n, 1), Rule: "needs one level for each speed, and one at least"}
	}
	err := positive(reference, "rated_speed")
	slow, fast := math.Inf(1), 0.0
	for i, v := range speeds {
		err = errors.Join(err, positive(v, "reading_speed"), within(levels[i], -50, 200, "reading_sound", "must lie between -50 and 200 dB(A)"))
		slow, fast = math.Min(slow, v), math.Max(fast, v)
	}
	if err != nil {
		return Fitted{}, err
	}
	if len(speeds) == 1 {
		return Fitted{Level: AtSpeed(levels[0], speeds[0], reference, FanExponent), Exponent: FanExponent}, nil
	}
	if !(fast/slow >= leastSpan) {
		return Fitted{}, &quantity.RangeError{Key: "reading_speed", Value: fast, Low: leastSpan * slow, High: math.Inf(1), Rule: "must span at least a tenth between the slowest and the fastest reading"}
	}
	var meanX, meanL float64
	for i, v := range speeds {
		meanX += math.Log10(v/reference) / n
		meanL += levels[i] / n
	}
	var xx, xl float64
	for i, v := range speeds {
		x := math.Log10(v/reference) - meanX
		xx += x * x
		xl += x * (levels[i] - meanL)
	}
	f := Fitted{Exponent: xl / xx}
	f.Level = meanL - f.Exponent*meanX
	if len(speeds) > 2 {
		squares := 0.0
		for i, v := range speeds {
			off := levels[i] - AtSpeed(f.Level, reference, v, f.Exponent)
			squares += off * off
		}
		f.Scatter = math.Sqrt(squares / (n - 2))
	}
	return f, nil
}

func positive(v float64, key string) error {
	return within(v, math.SmallestNonzeroFloat64, math.MaxFloat64, key, "must be above zero and finite")
}

// within is false for NaN too.
func within(v, low, high float64, key, rule string) error {
	if v >= low && v <= high {
		return nil
	}
	return &quantity.RangeError{Key: key, Value: v, Low: low, High: high, Rule: rule}
}
