package study

import (
	"fmt"
	"slices"
	"strings"

	"finduel/model/quantity"
)

// DefaultMargin is the difference, K, that a careful bench cannot tell from nothing
// (common practice, no source: probes matched to 0.1 K).
const DefaultMargin = 0.1

// The margins that a study may have, K: below, no bench can tell; above, all setups
// would be alike (common practice, no source).
const (
	leastMargin = 0.001
	mostMargin  = 10
)

// margin returns the margin of the comparison, K.
func (b *builder) margin() float64 {
	l := b.doc.Sweep.Margin
	m, ok := b.measure(l, quantity.TemperatureDifference)
	if !ok {
		return DefaultMargin
	}
	if m.si < leastMargin || m.si > mostMargin {
		b.fault(l, "is not a margin that a bench can have", fmt.Sprintf("write a value from %g K to %d K", leastMargin, mostMargin))
	}
	return m.si
}

// maps returns the pairs of axes over which maps are drawn, as indices into axes.
func (b *builder) maps(axes []Axis) [][2]int {
	var list [][2]int
	for i, pair := range b.doc.Sweep.Maps {
		at := itemPath("sweep.maps", i)
		if len(pair) != 2 {
			if !b.touched[at] {
				b.add(b.places[at], at, "", "does not name two inputs", "write it like this: [fin_density, fin_depth], across and up")
			}
			continue
		}
		across, okAcross := b.mapped(pair[0], axes)
		up, okUp := b.mapped(pair[1], axes)
		switch {
		case !okAcross || !okUp:
		case across == up || axes[across].Group != "" && axes[across].Group == axes[up].Group:
			b.fault(pair[1], "does not vary beside the other", "name two inputs that are swept independently")
		default:
			list = append(list, [2]int{across, up})
		}
	}
	return list
}

// mapped returns the axis that a leaf names by its input. It reports what is none
// that a map can have; axes that have faults themselves leave nothing to check.
func (b *builder) mapped(l *leaf, axes []Axis) (int, bool) {
	in, ok := b.input(l)
	if !ok || len(axes) == 0 {
		return 0, false
	}
	i := slices.IndexFunc(axes, func(a Axis) bool { return a.Input.Key == in.Key })
	if i >= 0 && len(axes[i].Values) > 1 && in.Key != "fan_speed" {
		return i, true
	}
	var names []string
	for _, a := range axes {
		if a.Input.Key != "fan_speed" && len(a.Values) > 1 {
			names = append(names, a.Input.Key)
		}
	}
	hint := "a map needs two swept inputs beside the fan speed"
	if len(names) > 1 {
		hint = "name two of " + strings.Join(names, ", ")
	}
	b.fault(l, "is not swept over several values beside the fan speed", hint)
	return 0, false
}
