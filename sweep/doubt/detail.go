package doubt

import (
	"context"
	"fmt"
	"math"
	"slices"

	"golang.org/x/sync/errgroup"

	"finduel/model"
	"finduel/model/quantity"
)

const (
	indexRows   = 1024 // rows of the pick-freeze design
	rankBlocks  = 16   // blocks of draws that the ranking is read from
	curveBlocks = 4    // blocks of draws for the band over the speeds
)

// detail computes what is known of the study's own design alone beyond its result, as many
// parts of it at a time as there are workers. It returns what ctx says if ctx ends first.
func (w *work) detail(ctx context.Context, own searched, into *Detail) error {
	own.upper = false
	c := w.comparison(own)
	why := c.failure
	if why == "" && len(w.variables) == 0 {
		why = "nothing is in doubt"
	}
	if why != "" {
		into.Indices = []Sensitivity{{Of: "difference", Refused: why}, {Of: "breakeven_speed", Refused: why}}
		into.Ranking.Refused = why
		return nil
	}
	pool, inner := errgroup.WithContext(ctx)
	pool.SetLimit(w.options.Workers)
	for _, part := range []func(*comparison, *Detail){(*comparison).indices, (*comparison).rank, (*comparison).parity, (*comparison).curve, (*comparison).apart} {
		pool.Go(func() error {
			if inner.Err() == nil {
				part(w.comparison(own), into) // a search of its own
			}
			return inner.Err()
		})
	}
	return pool.Wait()
}

// indices computes the sensitivity indices of the difference and of the break-even
// speed, and how many of its draws, which have no part in the intervals, lie in them.
func (c *comparison) indices(into *Detail) {
	seed := c.work.options.Seed
	a := hypercube(c.work.shapes, indexRows, source(seed, streamIndices, 0))
	b := hypercube(c.work.shapes, indexRows, source(seed, streamIndices, 1))
	rows := newRows(c)
	designs := pick(a, b, 2, func(z []float64, changed int, results []float64) {
		o := rows.outcome(z, changed)
		results[0], results[1] = o.difference(), o.breakeven
	})
	r := &into.Result
	for i, of := range []string{"difference", "breakeven_speed"} {
		s := Sensitivity{Of: of}
		into.Coverage = append(into.Coverage, coverageOf(of, []Band{r.Difference, r.Breakeven}[i], designs[i].a, designs[i].b))
		if i == 1 && r.Breakeven.closed() {
			for _, speeds := range append([][]float64{designs[i].a, designs[i].b}, designs[i].mixed...) {
				s.Outside += c.clamp(speeds)
				s.Draws += len(speeds)
			}
		}
		x, err := designs[i].indices(source(seed, streamBootstrap, uint64(i)))
		if s.Indices = x; err != nil {
			s.Refused = err.Error()
		}
		into.Indices = append(into.Indices, s)
	}
}

// measurable is something that could be measured: what it would show is a number that
// follows from the errors of a draw.
type measurable struct {
	action string
	shows  func(*shown) float64
}

// shown is what a draw has to show.
type shown struct {
	z                     []float64
	challenger, reference model.Measured
}

// rank says what to measure first.
func (c *comparison) rank(into *Detail) {
	things := c.measurables()
	n := rankBlocks * blockSize
	differences, speeds := make([]float64, 0, n), make([]float64, 0, n)
	readings := make([][]float64, len(things))
	atChallenger, atReference := c.challenger.benched(c.speed), c.reference.benched(c.reference.rig.Speed)
	z := make([]float64, len(c.work.variables))
	var d, dr drawn
	for b := range rankBlocks {
		cube := c.work.block(b, &c.reference).cube
		for i := range blockSize {
			for j := range z {
				z[j] = cube[j][i]
			}
			o := c.row(z, &d, &dr)
			differences, speeds = append(differences, o.difference()), append(speeds, o.breakeven)
			seen := shown{z, d.measure(c.speed, atChallenger), dr.measure(c.reference.rig.Speed, atReference)}
			for k := range things {
				readings[k] = append(readings[k], things[k].shows(&seen))
			}
		}
	}
	r := &into.Ranking
	y, band := speeds, into.Result.Breakeven
	if band.closed() && count(speeds, math.IsNaN) == 0 {
		r.Of, r.Outside = "breakeven_speed", c.clamp(speeds)
	} else {
		r.Of, r.Why = "difference", "not every draw has a break-even speed"
		y, band = differences, into.Result.Difference
	}
	r.Half = (band.High - band.Low) / 2
	var showing [][]float64 // of the steps
	for k := range things {
		if !same(readings[k]) { // else it shows nothing that is in doubt
			r.Steps, showing = append(r.Steps, Step{Action: things[k].action}), append(showing, readings[k])
		}
	}
	all, err := left(y, showing, source(c.work.options.Seed, streamMeasured, 0))
	if err != nil {
		r.Steps, r.Refused = nil, err.Error()
		return
	}
	for k, l := range all {
		r.Steps[k].Left, r.Steps[k].Half = l, l.Value*r.Half
	}
	slices.SortStableFunc(r.Steps, func(a, b Step) int {
		switch {
		case a.Left.Value < b.Left.Value:
			return -1
		case a.Left.Value > b.Left.Value:
			return 1
		}
		return 0
	})
}

// clamp puts break-even speeds that are infinite at the ends of the searched speeds, and
// returns how many those are. An interval with two ends does not depend on how far outside
// they are.
func (c *comparison) clamp(speeds []float64) int {
	outside := 0
	for i, v := range speeds {
		outside += b2i(math.IsInf(v, 0))
		speeds[i] = math.Min(math.Max(v, c.answer.from), c.answer.to)
	}
	return outside
}

func count(values []float64, is func(float64) bool) int {
	n := 0
	for _, v := range values {
		n += b2i(is(v))
	}
	return n
}

// same reports whether all numbers are one, or have no value.
func same(values []float64) bool {
	return !slices.ContainsFunc(values, func(v float64) bool { return v != values[0] && !math.IsNaN(v) })
}

// measurables lists what could be measured: every input that is in doubt, and of each setup
// what shows a product of several: a point of its fans' curve, its core's air pressure drop
// and conductance at a known airflow, and the coolant flow that a pump makes. They are taken
// as they are set and built, at the airflow that the setup has nominally where it is
// compared, and show no part of the product by itself.
func (c *comparison) measurables() []measurable {
	var list []measurable
	challenger, reference := names(c.work.plan.Study)
	name := map[Side]string{Challenger: challenger.Name, Reference: reference.Name}
	for j, v := range c.work.variables {
		if v.part == noPart && !slices.Contains(throughProducts, v.Key) {
			list = append(list, measurable{actionFor(&v, name[v.Of]), func(s *shown) float64 { return s.z[j] }})
		}
	}
	for _, s := range []struct {
		subject *subject
		side    Side
		of      func(*shown) *model.Measured
	}{
		{&c.challenger, Challenger, func(s *shown) *model.Measured { return &s.challenger }},
		{&c.reference, Reference, func(s *shown) *model.Measured { return &s.reference }},
	} {
		add := func(action string, reading func(*model.Measured) float64) {
			list = append(list, measurable{fmt.Sprintf(action, name[s.side]), func(x *shown) float64 { return reading(s.of(x)) }})
		}
		fans := "measure a point of %s's fan curve between its ends"
		if s.subject.rig.Fans.Fan.Pitch > 0 {
			fans = "measure a point of the curve of %s's propeller in its shroud"
		}
		add(fans, func(m *model.Measured) float64 { return m.FanPressure })
		add("measure the air pressure drop of %s's core at one flow", func(m *model.Measured) float64 { return m.PressureDrop })
		add("measure the conductance of %s's core at one known airflow", func(m *model.Measured) float64 { return m.Conductance })
		if s.subject.rig.Coolant.Flow == 0 {
			add("measure the coolant flow through %s's core", func(m *model.Measured) float64 { return m.CoolantFlow })
		}
	}
	return list
}

// throughProducts are the inputs that only a product shows.
var throughProducts = []string{"air_film_correction", "air_friction_correction", "fan_pressure_correction"}

// benched returns the airflow, m³/s, at which a setup's parts are measured: its nominal one
// at a fan speed; NaN if it has none.
func (s *subject) benched(speed float64) float64 {
	ready, err := model.Prepare(s.rig)
	if err != nil {
		return math.NaN()
	}
	state, err := ready.At(speed)
	if err != nil {
		return math.NaN()
	}
	return state.Airflow
}

// measure returns what a bench would read of the thermal model's setup with the errors of
// the draw, at a fan speed as it is set, rev/s, and an airflow; numbers are NaN where the
// setup has no value.
func (d *drawn) measure(speed, airflow float64) model.Measured {
	nothing := model.Measured{FanPressure: math.NaN(), PressureDrop: math.NaN(), Conductance: math.NaN(), CoolantFlow: math.NaN()}
	turned := speed*d.scale + d.shift
	rig := d.rig
	rig.Correction = d.corrected(turned)
	ready, err := model.Prepare(rig)
	if err != nil || math.IsNaN(airflow) || !(turned > 0) {
		return nothing
	}
	return ready.Measure(turned, airflow)
}

// CurveSpeeds is how many of the swept speeds the band over them has at most: each takes a
// thousand draws, and the memory of their numbers.
const CurveSpeeds = 500

// spread returns some of the values, from the least to the greatest as evenly as their
// order allows, at most so many.
func spread(values []float64, most int) []float64 {
	values = slices.Sorted(slices.Values(values))
	if len(values) <= most {
		return values
	}
	some := make([]float64, most)
	for i := range some {
		some[i] = values[i*(len(values)-1)/(most-1)]
	}
	return some
}

// curve computes the bands of the challenger and of the difference over the swept speeds,
// and at those that the answer names.
func (c *comparison) curve(into *Detail) {
	p := c.work.plan
	speeds := append(slices.Clone(c.answer.named), c.speed)
	if axis, swept := p.SpeedAxis(); swept {
		speeds = append(speeds, spread(p.Study.Axes[axis].Values, CurveSpeeds)...)
	}
	slices.Sort(speeds)
	speeds = slices.Compact(speeds)
	speeds = slices.DeleteFunc(speeds, func(v float64) bool { return v < c.answer.from || v > c.answer.to })
	unit := quantity.Must("difference").Shown
	bands := make([][2]collector, len(speeds)) // challenger, difference
	for i := range bands {
		bands[i] = [2]collector{{perSI: unit.Over / unit.Times}, {perSI: unit.Over / unit.Times}}
	}
	missing := make([][2]int, len(speeds)) // challenger, difference
	z := make([]float64, len(c.work.variables))
	var d, dr drawn
	for n := range curveBlocks {
		cube := c.work.block(n, &c.reference).cube
		for i := range blockSize {
			for j := range z {
				z[j] = cube[j][i]
			}
			level := math.NaN()
			if c.reference.draw(z, &dr) == nil {
				level, _ = dr.over(c.reference.rig.Speed)
			}
			bad := c.challenger.draw(z, &d) != nil
			for k, speed := range speeds {
				v, err := math.NaN(), error(nil)
				if !bad {
					v, err = d.over(speed)
				}
				none := bad || err != nil
				missing[k][0] += b2i(none)
				missing[k][1] += b2i(none || math.IsNaN(level))
				if !none {
					bands[k][0].add(v)
					if !math.IsNaN(level) {
						bands[k][1].add(v - level)
					}
				}
			}
		}
		for k := range bands {
			bands[k][0].close()
			bands[k][1].close()
		}
	}
	for k, speed := range speeds {
		point := CurvePoint{Speed: speed, Challenger: bands[k][0].band(), Difference: bands[k][1].band(),
			Draws: curveBlocks * blockSize, NoChallenger: missing[k][0], NoValue: missing[k][1]}
		if r := &into.Result; speed == c.speed { // drawn more often already
			point.Challenger, point.Difference = r.Challenger, r.Difference
			point.Draws, point.NoChallenger, point.NoValue = r.Draws, r.NoChallenger, r.WithoutValue()
		}
		into.Curve = append(into.Curve, point)
	}
}
