package doubt

import (
	"cmp"
	"math"
	"slices"

	"finduel/model"
)

// Result is how sure the comparison of one design is.
type Result struct {
	Design int     // number of the design in the plan
	Speed  float64 // of the challenger where the two are compared, as it is set, rev/s
	Draws  int
	Capped bool // whether the draws ended at their cap, before all printed digits were stable

	// Draws without a value, which no band below has in it, and the commonest reason.
	NoChallenger int // the challenger has none at the compared speed
	NoReference  int // the reference has none: neither the difference nor a break-even speed then
	NoBreakeven  int // the challenger has none at any searched speed, or the reference has none
	Failure      string

	Challenger Band // metric of the challenger at the compared speed, K
	Reference  Band // metric of the reference, K
	Difference Band // challenger minus reference, K

	// Shares of all draws; with NoValue they add up to 1.
	Win     float64 // the challenger is cooler by more than the margin
	Tie     float64 // they are within the margin
	Lose    float64 // the challenger is warmer by more than the margin
	NoValue float64 // one of the two has no value

	// Break-even: the lowest of the searched speeds at which a challenger that was worse
	// becomes better, rev/s, as it is set. An end of −Inf says that it may be better from
	// the lowest searched speed on, one of +Inf that it may never be.
	Breakeven Band
	Exists    float64 // share of all draws that have one
	FromStart float64 // share that is better from the lowest searched speed on
	Never     float64 // share that is better at no searched speed

	// Upper end of the band of speeds at which the challenger is better, rev/s, as it is
	// set: above it, it stays worse. Of the draws in which it is better at some speed; +Inf
	// says that it may be better up to the highest searched speed. Looked for where the
	// nominal answer has one, and for the study's own design.
	HasUpper bool
	Upper    Band
	Again    float64 // share of all draws that have one
}

// WithoutValue returns how many of the draws have no difference: the number behind the
// share NoValue, 0 to Draws.
func (r *Result) WithoutValue() int { return int(math.Round(r.NoValue * float64(r.Draws))) }

// StepOf returns to what a share of the draws, 0 to 1, is worth printing: 0.01 where the
// draws settled, or where the last digit of whole percent is off by one at most, else 0.05,
// 0.1 and so on. Draws of a hypercube scatter by no more than independent ones (McKay and
// others 1979 [3] for what is monotonic), √(p(1 − p)/n).
//
// Check: 0.05 for a half of 2 000 draws, 0.01 of 20 000.
func (r *Result) StepOf(share float64) float64 {
	step := holds(math.Sqrt(share * (1 - share) / float64(r.Draws)))
	if !r.Capped || !(step > shareStep) {
		return 0.01
	}
	return step
}

// Detail is what is known beyond its Result of the study's own design.
type Detail struct {
	Result  Result
	Indices []Sensitivity // of the difference, then of the break-even speed
	Ranking Ranking
	Curve   []CurvePoint  // at the swept speeds, CurveSpeeds of them at most, and at those that the answer names, rising
	Parity  []ParityPoint // by the reference's speed, rising

	// Coverage checks the intervals of the difference and of the break-even speed, in this
	// order, on draws of their own; none if nothing was drawn.
	Coverage []Coverage

	// Apart is how many times as wide the 95 % interval of the difference would be if no
	// error were common and every one were drawn for each setup on its own, with what the
	// draws leave open; the zero Index if no error is common, or a draw has no difference.
	Apart Index
}

// ParityPoint is how sure the challenger's break-even speed is at one speed of the
// reference: a place of the parity line, see breakeven.ParityPoint.
type ParityPoint struct {
	Speed     float64 // of the reference, as it is set, rev/s
	Breakeven Band    // as Result.Breakeven, rev/s
	Exists    float64 // share of all draws that have one, 0 to 1
	FromStart float64 // share that is better from the lowest searched speed on, 0 to 1
	Never     float64 // share that is better at no searched speed, 0 to 1
	Upper     Band    // as Result.Upper, rev/s
	Again     float64 // share of all draws that have one, 0 to 1
	Draws     int     // made at this speed
	NoValue   int     // of them, without a value of the reference, or of the challenger at any speed
}

// Sensitivity says which sources the variance of a result is from.
type Sensitivity struct {
	Of      string  // "difference" or "breakeven_speed"
	Indices Indices // by source, in the order of Assessment.Sources; empty if refused
	Refused string  // why there are none; empty if there are

	// Draws that the indices of the break-even speed are from, and those of them without
	// one, which count at the ends of the searched speeds; 0 of the difference, and where
	// the interval of the break-even speed is open: then any such draw refuses the indices.
	Draws, Outside int
}

// Ranking says what to measure first.
type Ranking struct {
	Of      string // "breakeven_speed", or "difference" where more than 2.5 % of the draws have none
	Why     string // why it is not of the break-even speed; empty if it is
	Half    float64
	Outside int    // draws without a break-even speed, which count at the end of the searched speeds
	Steps   []Step // the most useful first
	Refused string // why there is no ranking; empty if there is
}

// Step is one thing that could be measured.
type Step struct {
	Action string // what to do, a verb first
	Left   Index  // share of the doubt that stays if it were known exactly
	Half   float64
}

// At returns the point of the curve at a speed, rev/s, and false if it has none there.
func (d *Detail) At(speed float64) (*CurvePoint, bool) {
	i, found := slices.BinarySearchFunc(d.Curve, speed, func(x CurvePoint, speed float64) int { return cmp.Compare(x.Speed, speed) })
	if !found {
		return nil, false
	}
	return &d.Curve[i], true
}

// CurvePoint is a challenger at one speed.
type CurvePoint struct {
	Speed      float64 // as it is set, rev/s
	Challenger Band    // metric of the challenger, K
	Difference Band    // challenger minus reference, K

	// Draws made at this speed, and those of them that a band above does not have in it.
	Draws        int
	NoChallenger int // without a value of the challenger
	NoValue      int // without one of either, so without a difference; NoChallenger or more
}

// Assessment is how sure a whole study is.
type Assessment struct {
	Seed    uint64
	Margin  float64  // K
	Sources []Source // what was drawn
	Results []Result // by rising design; all that were asked for
	Own     *Detail  // of the study's own design; nil if it has no answer
	Base    int      // number of the study's own design
	All     bool     // whether Results has every design that the study does not leave out
}

// Of returns the result of a design, and false if there is none.
func (a *Assessment) Of(design int) (*Result, bool) {
	if a == nil {
		return nil, false
	}
	low, high := 0, len(a.Results)
	for low < high {
		if middle := (low + high) / 2; a.Results[middle].Design < design {
			low = middle + 1
		} else {
			high = middle
		}
	}
	if low == len(a.Results) || a.Results[low].Design != design {
		return nil, false
	}
	return &a.Results[low], true
}

// metric is what a state is compared in, K.
type metric = func(*model.State) float64
