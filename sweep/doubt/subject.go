package doubt

import (
	"math"

	"finduel/model"
	"finduel/sweep"
)

// subject is one of the two setups, whose errors can be drawn.
type subject struct {
	rig       model.Rig
	model     sweep.Model // nil: the thermal model
	metric    func(*model.State) float64
	variables []variable
	mine      []int    // the variables that are inputs of this setup, in their order
	myParts   [][2]int // the part and the variable of those that are parts of its doubt

	// The widths of the parts over the logarithm of the fan speed, rising, as they
	// are at the nominal state of each speed; one for a setup at a single speed.
	at     []float64
	widths []widths
	steady bool // whether the widths are the same at every speed
}

// newSubject returns the setup that a side has, without widths.
func newSubject(rig model.Rig, side Side, m sweep.Model, metric func(*model.State) float64, variables []variable) subject {
	s := subject{rig: knowing(rig), model: m, metric: metric, variables: variables}
	for j, v := range variables {
		switch {
		case v.Of != Both && v.Of != side:
		case v.part == noPart:
			s.mine = append(s.mine, j)
		default:
			s.myParts = append(s.myParts, [2]int{v.part, j})
		}
	}
	return s
}

// know takes the doubt that the model states of the nominal setup at a fan speed, rev/s,
// faster than all before.
func (s *subject) know(speed float64, state *model.State) {
	w := widthsOf(state.Doubt)
	if s.rig.Fans.Fan.Pitch > 0 {
		w[rotorPressure] = [2]float64{state.FanDoubtLow, state.FanDoubtHigh}
	}
	s.steady = len(s.widths) == 0 || s.steady && w == s.widths[0]
	s.at, s.widths = append(s.at, math.Log(speed)), append(s.widths, w)
}

// factors are what film, friction and the fans' static pressure are multiplied by.
type factors struct{ film, friction, pressure float64 }

// factors returns the factors at a fan speed for the errors of a draw.
func (s *subject) factors(z []float64, speed float64) factors {
	low, high, share := 0, 0, 0.0
	if !s.steady {
		x := math.Log(speed)
		for high < len(s.at)-1 && s.at[high] < x {
			high++
		}
		if low = max(high-1, 0); s.at[high] > s.at[low] {
			share = math.Min(math.Max((x-s.at[low])/(s.at[high]-s.at[low]), 0), 1)
		}
	}
	a, b := &s.widths[low], &s.widths[high]
	var film, friction, pressure float64
	for _, p := range s.myParts {
		part, v := p[0], z[p[1]]
		end := 1
		if v < 0 {
			end = 0
		}
		change := math.Abs(v) * (a[part][end] + share*(b[part][end]-a[part][end]))
		switch {
		case isFilm(part):
			film += change
		case isFriction(part):
			friction += change
		default:
			pressure += change
		}
	}
	return factors{math.Exp(film), math.Exp(friction), 1 + pressure}
}

// drawn is a setup with the errors of one draw.
type drawn struct {
	subject      *subject
	z            []float64
	rig          model.Rig
	scale, shift float64          // of the fan speed: what is set to what is turned
	before       model.Correction // of the rig, before the parts of the doubt
	ready        sweep.AtSpeed
	*room
	asked int // evaluations
}

// room is what one draw after another is worked out in, without taking new memory.
type room struct {
	physics model.Ready // the thermal model's
	state   model.State // at the speed that was asked for last
}

// correct makes the rig of a draw ready with a correction; the thermal model's but for the
// correction only once.
func (d *drawn) correct(now model.Correction) (err error) {
	switch {
	case d.ready == nil || d.subject.model != nil && now != d.rig.Correction:
		d.rig.Correction = now
		d.ready, err = d.prepare()
	case now != d.rig.Correction:
		if err = d.physics.Correct(now); err == nil {
			d.rig.Correction = now
		}
	}
	return err
}

// prepare makes the rig of a draw ready, as the subject's model does.
func (d *drawn) prepare() (sweep.AtSpeed, error) {
	if d.subject.model != nil {
		return sweep.Ready(d.subject.model, d.rig)
	}
	return sweep.Ready(func(rig model.Rig) (sweep.AtSpeed, error) {
		ready, err := model.Prepare(rig)
		d.physics = ready
		return &d.physics, err
	}, d.rig)
}

// draw gives the setup the errors of a draw. It returns an error if a number leaves the
// range that its input allows.
func (s *subject) draw(z []float64, d *drawn) error {
	if d.room == nil {
		d.room = new(room)
	}
	*d = drawn{subject: s, z: z, rig: s.rig, scale: 1, room: d.room, asked: d.asked}
	for _, j := range s.mine {
		v := &s.variables[j]
		if v.input.Key == "fan_speed" {
			if v.relative {
				d.scale += v.within * z[j]
			} else {
				d.shift += v.within * z[j]
			}
			continue
		}
		x := v.off(v.input.Get(&d.rig), z[j])
		if err := v.input.Check(x); err != nil {
			return err
		}
		v.input.Set(&d.rig, x)
	}
	d.before = d.rig.Correction
	return nil
}

// corrected returns the corrections of the rig at a fan speed, rev/s, with the parts of the
// doubt in them.
func (d *drawn) corrected(speed float64) model.Correction {
	now, f := d.before, d.subject.factors(d.z, speed)
	now.AirFilm, now.AirFriction = (1+now.AirFilm)*f.film-1, (1+now.AirFriction)*f.friction-1
	now.FanPressure = (1+now.FanPressure)*f.pressure - 1
	return now
}

// over returns the metric, K, at a fan speed as it is set, rev/s, or why it has none.
func (d *drawn) over(speed float64) (float64, error) {
	speed = speed*d.scale + d.shift
	if d.ready == nil || !d.subject.steady {
		if err := d.correct(d.corrected(speed)); err != nil {
			return math.NaN(), err
		}
	}
	d.asked++
	var err error
	if d.state, err = d.ready.At(speed); err != nil {
		return math.NaN(), err
	}
	return d.subject.metric(&d.state), nil
}
