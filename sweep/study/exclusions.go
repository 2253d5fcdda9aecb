package study

import "math"

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
