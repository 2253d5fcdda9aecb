package render

import (
	"fmt"
	"math"
	"slices"

	"finduel/model/quantity"
	"finduel/sweep/doubt"
)

// Shares says which sources the variance of a result of the study's own design is from.
type Shares struct {
	Quantity quantity.Quantity // of the result
	Refused  string            // a sentence: why there are none; empty if there are
	Counted  string            // which draws count otherwise than by their value, to go on a sentence with; empty if none
	Rows     []ShareRow        // the greatest total share first
}

// ShareRow is what a source is worth.
type ShareRow struct {
	Label        string // the source, and whose it is
	Limit, Why   string
	First, Total doubt.Index // first-order and total index
}

// Shares lists them, of the difference and of the break-even speed; none if nothing was
// assessed.
func (rep *Report) Shares() []Shares {
	if rep.Doubt == nil || rep.Doubt.Own == nil {
		return nil
	}
	var list []Shares
	for _, s := range rep.Doubt.Own.Indices {
		x := Shares{Quantity: quantity.Must(s.Of)}
		if s.Refused != "" {
			x.Refused = Sentence(s.Refused)
		}
		if s.Outside > 0 {
			x.Counted = fmt.Sprintf("; %s of %s draws have none and count at the ends of the searched speeds", Whole(s.Outside), Whole(s.Draws))
		}
		for j := range s.Indices.First {
			source := &rep.Doubt.Sources[j]
			x.Rows = append(x.Rows, ShareRow{rep.SourceLabel(source), Clean(source.Limit), Clean(source.Why), s.Indices.First[j], s.Indices.Total[j]})
		}
		slices.SortStableFunc(x.Rows, func(a, b ShareRow) int {
			switch {
			case a.Total.Value > b.Total.Value:
				return -1
			case a.Total.Value < b.Total.Value:
				return 1
			}
			return 0
		})
		list = append(list, x)
	}
	return list
}

// SourceLabel names a source and whose it is: "fin density of small", "heat load (common)".
func (rep *Report) SourceLabel(s *doubt.Source) string {
	switch label := Clean(s.Label); s.Of {
	case doubt.Both:
		return label + " (common)"
	case doubt.Challenger:
		return label + " of " + rep.challenger()
	default:
		return label + " of " + rep.reference()
	}
}

// IndexPercent says an index in percent with its interval, never without: "31 (28 to 34)".
// The last digit is worth no more than a quarter of the interval.
func IndexPercent(i doubt.Index) string {
	decimals := 0
	if quarter := 100 * (i.High - i.Low) / 4; quarter > 0 {
		decimals = max(0, int(math.Ceil(-math.Log10(quarter)-1e-9)))
	}
	percent := func(share float64) string { return fixed(100*share, decimals) }
	return percent(i.Value) + " (" + percent(i.Low) + " to " + percent(i.High) + ")"
}
