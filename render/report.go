package render

import (
	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
	"finduel/sweep/study"
)

// Report is the one input of every renderer: a study, what was computed and
// what was concluded.
type Report struct {
	Study   *study.Study
	Results *sweep.Results
	Answers []breakeven.Answer // one a design, in plan order
	Kept    breakeven.Answers  // if not nil, where the answers are instead
	Doubt   *doubt.Assessment  // how sure the answers are; nil: not assessed
	Details []breakeven.Detail // of the few designs that are worked out further; may be empty
	Seed    uint64
	Version string // of finduel

	surveyed *survey
	digested *Digest
	err      error
}
