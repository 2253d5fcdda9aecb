package study

import (
	"math"
	"slices"

	"finduel/model"
)

// exclusions returns the combinations that are left out.
func (b *builder) exclusions() []Exclusion {
	var list []Exclusion
	for i, combination := range b.doc.Sweep.Exclude {
		var e Exclusion
		for j, part := range combination {
			path := itemPath(itemPath("sweep.exclude", i), j)
			if c, ok := b.condition(part, path); ok {
				e = append(e, c)
			}
		}
		list = append(list, e)
	}
	return list
}

// condition returns one condition of a combination: an input above or below a
// value. The value need not be one that the input can have.
func (b *builder) condition(part conditionPart, path string) (Condition, bool) {
	in, ok := b.input(part.Input)
	c := Condition{Input: in, Above: math.Inf(1), Below: math.Inf(-1)}
	above, below := part.Above != nil, part.Below != nil
	switch {
	case above && below:
		b.fault(part.Below, "is given beside above", "give one of the two; a second combination can have the other")
		return c, false
	case !above && !below:
		if !b.sectionSpoilt(path) && !b.meant[keyPath(path, "above")] && !b.meant[keyPath(path, "below")] {
			b.add(b.places[path], path, "", "has neither above nor below", "add above or below, and a value")
		}
		return c, false
	case !ok:
		return c, false
	case above:
		m, ok := b.measure(part.Above, in.Kind)
		c.Above = m.si
		return c, ok
	}
	m, ok := b.measure(part.Below, in.Kind)
	c.Below = m.si
	return c, ok
}

// leavesAnyPoint reports whether a study has a point that is not left out.
func (s *Study) leavesAnyPoint() bool {
	if len(s.Exclusions) == 0 {
		return true
	}
	lead := make([]int, len(s.Axes)) // the first axis of the group that an axis is in
	for i, a := range s.Axes {
		lead[i] = i
		if a.Group != "" {
			lead[i] = slices.IndexFunc(s.Axes, func(b Axis) bool { return b.Group == a.Group })
		}
	}
	var order []int // in which axes are set: some inputs take others along
	for _, in := range model.Inputs {
		if i := slices.IndexFunc(s.Axes, func(a Axis) bool { return a.Input.Key == in.Key }); i >= 0 {
			order = append(order, i)
		}
	}
	step := make([]int, len(s.Axes))
	for {
		rig := s.Setups[s.Challenger].Rig
		for _, i := range order {
			s.Axes[i].Input.Set(&rig, s.Axes[i].Values[step[lead[i]]])
		}
		if !s.Excludes(&rig) {
			return true
		}
		i := 0
		for ; i < len(step); i++ {
			if lead[i] != i {
				continue
			}
			if step[i]++; step[i] < len(s.Axes[i].Values) {
				break
			}
			step[i] = 0
		}
		if i == len(step) {
			return false
		}
	}
}
