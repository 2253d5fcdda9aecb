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

// Reading is what a meter shows beside a fan at one speed.
type Reading struct {
	Speed float64 // rev/s, 0.01 to 10 000
	Level float64 // dB(A), -50 to 200
}

// Fitted is what readings of a fan at several speeds say of it.
type Fitted struct {
	Speed    float64 // reference speed, rev/s
	Level    float64 // at the reference speed, dB(A), where the readings were taken
	Exponent float64 // dB for a tenfold speed
	Scatter  float64 // standard deviation of the readings about the fit, dB; 0 with two readings or one, which have none
	Slowest  float64 // speed of the slowest reading, rev/s
	Fastest  float64 // speed of the fastest reading, rev/s
}

// Extrapolated reports whether a speed in rev/s lies outside the speeds of the readings by
// more than a tenth (our own bound: the usual rise over a tenth is 2 dB).
func (f Fitted) Extrapolated(speed float64) bool {
	return speed > leastSpan*f.Fastest || speed < f.Slowest/leastSpan
}

// Unusual reports whether the exponent is one that fans do not have: outside
// LowestExponent to HighestExponent.
func (f Fitted) Unusual() bool {
	return !(f.Exponent >= LowestExponent && f.Exponent <= HighestExponent)
}

// Fit returns the level of a fan at a reference speed, and how it rises with speed,
// from readings at several speeds, all taken in one place; the reference speed is in
// rev/s, 0.01 to 10 000. It is the least squares fit of
//
//	L = L_ref + e log10(N/N_ref)
//
// with a scatter of n − 2 degrees of freedom (any text on linear regression). One
// reading gives the level with FanExponent.
//
// It returns joined *quantity.RangeError (keys reading_speed, reading_sound,
// rated_speed) for no reading at all, a speed or level outside its range, and for
// several readings whose speeds span less than a tenth.
//
// Check: 70, 82 and 99.5 dB(A) at 5000, 8000 and 20 000 rpm have the exponent 48.3,
// 99.9 dB(A) at 20 000 rpm and a scatter of 1.6 dB.
func Fit(readings []Reading, reference float64) (Fitted, error) {
	if len(readings) == 0 {
		return Fitted{}, &quantity.RangeError{Key: "reading_sound", Value: math.NaN(), Low: -50, High: 200, Rule: "must be given once at least"}
	}
	err := turning(reference, "rated_speed")
	slow, fast := math.Inf(1), 0.0
	for _, r := range readings {
		err = errors.Join(err, turning(r.Speed, "reading_speed"), within(r.Level, -50, 200, "reading_sound", "must lie between -50 and 200 dB(A)"))
		slow, fast = math.Min(slow, r.Speed), math.Max(fast, r.Speed)
	}
	if err != nil {
		return Fitted{}, err
	}
	if len(readings) == 1 {
		return Fitted{Speed: reference, Level: AtSpeed(readings[0].Level, readings[0].Speed, reference, FanExponent), Exponent: FanExponent, Slowest: slow, Fastest: fast}, nil
	}
	if !(fast/slow >= leastSpan) {
		return Fitted{}, &quantity.RangeError{Key: "reading_speed", Value: fast, Low: leastSpan * slow, High: math.Inf(1), Rule: "must span at least a tenth between the slowest and the fastest reading"}
	}
	n := float64(len(readings))
	var meanX, meanL float64
	for _, r := range readings {
		meanX += math.Log10(r.Speed/reference) / n
		meanL += r.Level / n
	}
	var xx, xl float64
	for _, r := range readings {
		x := math.Log10(r.Speed/reference) - meanX
		xx += x * x
		xl += x * (r.Level - meanL)
	}
	f := Fitted{Speed: reference, Exponent: xl / xx, Slowest: slow, Fastest: fast}
	f.Level = meanL - f.Exponent*meanX
	if len(readings) > 2 {
		squares := 0.0
		for _, r := range readings {
			off := r.Level - AtSpeed(f.Level, reference, r.Speed, f.Exponent)
			squares += off * off
		}
		f.Scatter = math.Sqrt(squares / (n - 2))
	}
	return f, nil
}

// MiddleSpeed returns the geometric mean of the speeds of readings, rev/s, of which
// there is one at least: about it the exponent of Fit turns their line.
func MiddleSpeed(readings []Reading) float64 {
	sum := 0.0
	for _, r := range readings {
		sum += math.Log(r.Speed)
	}
	return math.Exp(sum / float64(len(readings)))
}

// turning refuses what is no speed of a fan, rev/s.
func turning(v float64, key string) error {
	return within(v, 0.01, 1e4, key, "must lie between 0.6 and 600 000 rpm")
}

// within is false for NaN too.
func within(v, low, high float64, key, rule string) error {
	if v >= low && v <= high {
		return nil
	}
	return &quantity.RangeError{Key: key, Value: v, Low: low, High: high, Rule: rule}
}
