package render

import (
	"cmp"
	"slices"

	"finduel/model"
)

// survey is what is said of all rows together, gathered in one pass: a report may
// have more rows than fit into memory.
type survey struct {
	warned   map[model.Warnings]int // rows by their set of warnings
	failures []FailureCount         // most frequent first
	watch    watch                  // over the challenger
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
	s := &survey{warned: map[model.Warnings]int{}, watch: watch{setup: rep.Challenger().Name}}
	plan := rep.plan()
	base := rep.baseDesign()
	design, rig, before := -1, model.Rig{}, 0.0
	failed := map[string]FailureCount{}
	for row := range rep.Results.Each {
		if row.Failure != "" {
			reason := row.Failure
			count, known := failed[reason]
			if !known && len(failed) >= mostReasons {
				reason = otherReasons
				count, known = failed[reason]
			}
			if !known {
				count.Reason, count.First = reason, row.Point
			}
			count.Points++
			failed[reason] = count
			continue
		}
		s.warned[row.State.Warnings]++
		if d, _ := plan.Design(row.Point); d != design {
			design, rig, before = d, plan.Challenger(row.Point), 0
		}
		speed := rep.Speed(row.Point)
		if before > speed { // a list of speeds may fall
			before = 0
		}
		s.watch.look(ownIf(design, base), &rig, before, speed, &row.State)
		before = speed
	}
	for _, count := range failed {
		s.failures = append(s.failures, count)
	}
	slices.SortFunc(s.failures, func(a, b FailureCount) int {
		return cmp.Or(cmp.Compare(b.Points, a.Points), cmp.Compare(a.Reason, b.Reason))
	})
	if rep.Results.Kept != nil {
		rep.surveyed = s
	}
	return s
}
