package sweep

import (
	"finduel/model"
	"finduel/sweep/study"
)

// Plan lays out the points of a study. A point is computable from its number
// alone: nothing is listed, nothing depends on what was computed before.
//
// Axes in a group run in step and count as one dimension; dimensions are
// crossed. Points are numbered like an odometer, the last dimension fastest. The
// fan speed of the challenger, if swept alone, is always made the last dimension,
// so that the points of one design lie side by side.
type Plan struct {
	Study *study.Study

	dims  []dimension
	order []int // axes in the order in which they are set: that of model.Inputs, since some inputs take others along
	total int
}

// dimension is one axis, or the axes of one group, stepping together.
type dimension struct {
	axes  []int // indices into Study.Axes
	steps int
}

// Lay returns the plan of a study.
func Lay(s *study.Study) *Plan {
	p := &Plan{Study: s, total: 1}
	group := map[string]int{}
	for i, a := range s.Axes {
		if d, ok := group[a.Group]; ok && a.Group != "" {
			p.dims[d].axes = append(p.dims[d].axes, i)
			continue
		}
		group[a.Group] = len(p.dims)
		p.dims = append(p.dims, dimension{axes: []int{i}, steps: len(a.Values)})
	}
	for i, d := range p.dims {
		if len(d.axes) == 1 && s.Axes[d.axes[0]].Input.Key == "fan_speed" {
			copy(p.dims[i:], p.dims[i+1:])
			p.dims[len(p.dims)-1] = d
			break
		}
	}
	for _, d := range p.dims {
		p.total *= d.steps
	}
	for _, in := range model.Inputs {
		for i, a := range s.Axes {
			if a.Input.Key == in.Key {
				p.order = append(p.order, i)
			}
		}
	}
	return p
}

// Points returns the number of points, excluded ones included.
func (p *Plan) Points() int { return p.total }

// SpeedAxis returns the index in Study.Axes of the challenger's fan speed, and
// false if it is not swept on its own.
func (p *Plan) SpeedAxis() (int, bool) {
	if len(p.dims) == 0 {
		return 0, false
	}
	last := p.dims[len(p.dims)-1]
	if len(last.axes) == 1 && p.Study.Axes[last.axes[0]].Input.Key == "fan_speed" {
		return last.axes[0], true
	}
	return 0, false
}

// speeds returns how many points lie side by side in one design.
func (p *Plan) speeds() int {
	if a, ok := p.SpeedAxis(); ok {
		return len(p.Study.Axes[a].Values)
	}
	return 1
}

// Designs returns the number of designs: combinations of all dimensions but the
// fan speed. Points d·n to d·n + n - 1 belong to design d, n being the number of
// speeds.
func (p *Plan) Designs() int { return p.total / p.speeds() }

// Design returns the design of point k and the place of k in it.
func (p *Plan) Design(k int) (design, speed int) { return k / p.speeds(), k % p.speeds() }

// Point returns the point at a place in a design.
func (p *Plan) Point(design, speed int) int { return design*p.speeds() + speed }

// Step returns which of an axis's values point k has.
func (p *Plan) Step(k, axis int) int {
	for i := len(p.dims) - 1; i >= 0; i-- {
		step := k % p.dims[i].steps
		for _, a := range p.dims[i].axes {
			if a == axis {
				return step
			}
		}
		k /= p.dims[i].steps
	}
	return 0
}

// Nearest returns the value of an axis, by its step, that lies nearest to what
// the challenger has in the study: the level at which charts hold the axis.
func (p *Plan) Nearest(axis int) int {
	a := p.Study.Axes[axis]
	base := a.Input.Get(&p.Study.Setups[p.Study.Challenger].Rig)
	best := 0
	for i, v := range a.Values {
		if abs(v-base) < abs(a.Values[best]-base) {
			best = i
		}
	}
	return best
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}

// Challenger returns the challenger's rig at point k.
func (p *Plan) Challenger(k int) model.Rig {
	rig := p.Study.Setups[p.Study.Challenger].Rig
	for _, i := range p.order {
		a := &p.Study.Axes[i]
		a.Input.Set(&rig, a.Values[p.Step(k, i)])
	}
	return rig
}

// Reference returns the reference's rig at point k: the same conditions of room,
// heat and coolant as the challenger has there, all else as in the study.
func (p *Plan) Reference(k int) model.Rig {
	rig := p.Study.Setups[p.Study.Reference].Rig
	for _, i := range p.order {
		if a := &p.Study.Axes[i]; a.Input.Shared {
			a.Input.Set(&rig, a.Values[p.Step(k, i)])
		}
	}
	return rig
}

// Excluded reports whether the study leaves point k out.
func (p *Plan) Excluded(k int) bool {
	if len(p.Study.Exclusions) == 0 {
		return false
	}
	rig := p.Challenger(k)
	return p.Study.Excludes(&rig)
}

// ExcludesDesign reports whether the study leaves a design out at every speed.
func (p *Plan) ExcludesDesign(design int) bool {
	for i := range p.speeds() {
		if !p.Excluded(p.Point(design, i)) {
			return false
		}
	}
	return true
}
