package render

import (
	"cmp"
	"slices"

	"finduel/model"
	"finduel/sweep"
)

// survey is what is said of all rows together, gathered in one pass: a report may
// have more rows than fit into memory.
type survey struct {
	warned   map[model.Warnings]int // rows by their set of warnings
	failures []FailureCount         // most frequent first
	worst    []sweep.Row            // for each threshold the first row with the greatest value; by point number
}

// mostReasons is how many different reasons of failures are counted apart; rows with
// others are counted together.
const mostReasons = 1000

// otherReasons stands for reasons that are not counted apart.
const otherReasons = "other reasons"

// survey looks at all rows. Rows that are kept on a disk do not change: they are
// looked at once.
func (rep *Report) survey() *survey {
	if rep.surveyed != nil {
		return rep.surveyed
	}
	s := &survey{warned: map[model.Warnings]int{}}
	outputs := make([]model.Output, len(thresholds))
	worst := make([]*sweep.Row, len(thresholds))
	for i, t := range thresholds {
		outputs[i], _ = model.OutputOf(t.key)
	}
	failed := map[string]int{}
	for row := range rep.Results.Each {
		if row.Failure != "" {
			reason := row.Failure
			if failed[reason] == 0 && len(failed) >= mostReasons {
				reason = otherReasons
			}
			failed[reason]++
			continue
		}
		s.warned[row.State.Warnings]++
		for i, o := range outputs {
			if v := o.Get(&row.State); v >= thresholds[i].value && (worst[i] == nil || v > o.Get(&worst[i].State)) {
				kept := *row
				worst[i] = &kept
			}
		}
	}
	for _, row := range worst {
		if row != nil && !slices.ContainsFunc(s.worst, func(r sweep.Row) bool { return r.Point == row.Point }) {
			s.worst = append(s.worst, *row)
		}
	}
	slices.SortFunc(s.worst, func(a, b sweep.Row) int { return cmp.Compare(a.Point, b.Point) })
	for reason, n := range failed {
		s.failures = append(s.failures, FailureCount{Reason: reason, Points: n})
	}
	slices.SortFunc(s.failures, func(a, b FailureCount) int {
		return cmp.Or(cmp.Compare(b.Points, a.Points), cmp.Compare(a.Reason, b.Reason))
	})
	if rep.Results.Kept != nil {
		rep.surveyed = s
	}
	return s
}
