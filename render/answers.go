package render

import (
	"slices"

	"finduel/sweep/breakeven"
)

// answers returns where the answers are.
func (rep *Report) answers() breakeven.Answers {
	if rep.Kept != nil {
		return rep.Kept
	}
	return breakeven.List(rep.Answers)
}

// CountAnswers returns how many designs were compared.
func (rep *Report) CountAnswers() int { return rep.answers().Len() }

// EachAnswer hands over the answer of every design, in plan order, until yield returns
// false: range over it. If answers cannot be read it ends early; see Err.
func (rep *Report) EachAnswer(yield func(*breakeven.Answer) bool) {
	if err := rep.answers().Each(yield); err != nil && rep.err == nil {
		rep.err = err
	}
}

// AnswerOf returns the answer of a design, and false if the report has none or it cannot
// be read; see Err.
func (rep *Report) AnswerOf(design int) (*breakeven.Answer, bool) {
	if design < 0 || design >= rep.CountAnswers() {
		return nil, false
	}
	a, err := rep.answers().Of(design)
	if err != nil && rep.err == nil {
		rep.err = err
	}
	return a, err == nil
}

// Err returns the first error met while reading points or answers. Whoever shows a
// report asks for it at the end: what was made of what could not be read is not whole.
func (rep *Report) Err() error {
	if rep.err != nil {
		return rep.err
	}
	return rep.Results.Err()
}

// BaseAnswer returns the answer of the base design: every free axis at the value nearest
// to what the challenger has in the study. It reports false if there is none.
func (rep *Report) BaseAnswer() (*breakeven.Answer, bool) {
	if held := rep.HeldDesigns(); len(held) > 0 {
		return rep.AnswerOf(held[0])
	}
	return nil, false
}

// HeldDesigns returns the designs in which every free axis but those named is at the
// value nearest to what the challenger has in the study, in plan order. With none named
// that is the base design alone.
func (rep *Report) HeldDesigns(but ...int) []int {
	var fixed []int
	for _, i := range rep.FreeAxes() {
		if !slices.Contains(but, i) {
			fixed = append(fixed, i)
		}
	}
	nearest := make([]int, len(fixed))
	for i, axis := range fixed {
		nearest[i] = rep.plan().Nearest(axis)
	}
	var list []int
next:
	for design := range rep.CountAnswers() {
		for i, axis := range fixed {
			if rep.DesignStep(design, axis) != nearest[i] {
				continue next
			}
		}
		list = append(list, design)
	}
	return list
}
