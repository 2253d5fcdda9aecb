package model

import (
	"finduel/model/fan"
	"finduel/model/hazard"
	"finduel/model/solve"
)

// driven reports whether the fans' motors are known.
func (p *Ready) driven() bool { return p.rig.Fans.Fan.Brushless.SpeedConstant > 0 }

// driveOf returns what drives each fan of a rig. All fans hang on one supply and one
// pair of wires, as warm as hazard.HotWire: each has its part of what the supply may
// give and fuse and connector are rated for, and the resistance that all of them together
// make of the wires.
func driveOf(r *Rig) fan.Drive {
	f, n := &r.Fans.Fan, float64(r.turning())
	d := fan.Drive{
		Supply:     fan.Supply{Voltage: f.DriveVoltage, MostCurrent: r.Build.SupplyRating / n},
		Controller: f.Controller, Motor: f.Brushless,
		Fuse: r.Build.FuseRating / n, Connector: r.Build.ConnectorRating / n,
	}
	if area := r.Build.Area(); area > 0 {
		d.WireResistance = n * hazard.WireResistance(area, 2*r.Build.WireLength, hazard.HotWire)
	}
	return d
}

// turning returns how many fans turn, on both sides of the core.
func (r *Rig) turning() int {
	n := r.Fans.Turning()
	if r.Placing == fan.PushPull {
		n += r.Fans.Count
	}
	return n
}

// draw returns what one turning fan draws, and of a known motor the chain of its drive.
func (p *Ready) draw(speed float64, b *bank) (fan.Draw, fan.Chain) {
	f := &p.rig.Fans.Fan
	return p.chain(speed, f.Draw(speed, b.share, b.density))
}

// leastFanHeat returns a heat, W, that the turning fans before the core give to the air
// at any mass flow, or less.
func (p *Ready) leastFanHeat(speed float64) float64 {
	d, _ := p.chain(speed, p.rig.Fans.Fan.LeastDraw(speed, p.room))
	return d.Heat * float64(p.rig.Fans.Turning())
}

// mostFanHeat is leastFanHeat for a heat that they give, or more.
func (p *Ready) mostFanHeat(speed float64) float64 {
	d, _ := p.chain(speed, p.rig.Fans.Fan.MostDraw(speed, p.room))
	return d.Heat * float64(p.rig.Fans.Turning())
}

// chain puts a known motor in the place of what a fan's efficiency makes of its shaft
// power. The controller sits beside the stream.
func (p *Ready) chain(speed float64, d fan.Draw) (fan.Draw, fan.Chain) {
	if !p.driven() {
		return d, fan.Chain{}
	}
	c := p.drive.At(speed, d.Shaft)
	d.Supply, d.Motor, d.Heat = c.SupplyPower, c.MotorPower, c.MotorPower
	if p.rig.Fans.Fan.Motor == fan.Outside {
		d.Heat = d.Shaft
	}
	return d, c
}

// Reach returns the highest fan speed, in rev/s from low to high, 0 < low < high, that
// the motors of a rig reach on its core, and what stops them there; see fan.Reach. It
// returns ErrNoMotor if the motors are not known, and the errors of Prepare. At a
// speed at which the core could not carry the heat, the shaft power is taken where
// stall begins.
func Reach(r Rig, low, high float64) (fan.Reached, error) {
	p, err := prepareDriven(r)
	if err != nil {
		return fan.Reached{}, err
	}
	return fan.Reach(&p.drive, p.shaftPower, low, high), nil
}

// Ladder returns every limit of the drive of a rig's fans on its core, those of its fuse,
// its connector and its blades among them, and the speed at which each is met by itself, looked for from low to high in rev/s, 0 < low < high; see
// fan.Ladder. Errors and shaft power are those of Reach.
func Ladder(r Rig, low, high float64) ([]fan.Rung, error) {
	p, err := prepareDriven(r)
	if err != nil {
		return nil, err
	}
	return fan.Ladder(&p.drive, p.shaftPower, BladeSpeed(&r), low, high), nil
}

// Throttled returns the drive's chain at a throttle of its controllers, 0 to 1, with which
// the motors of a rig turn its fans on its core at a speed from low to high, in rev/s,
// 0 < low < high; false if it is slower or faster than that. Errors and what is taken
// where the core could not carry the heat are those of Reach.
func Throttled(r Rig, throttle, low, high float64) (fan.Chain, bool, error) {
	p, err := prepareDriven(r)
	if err != nil {
		return fan.Chain{}, false, err
	}
	c, outcome := p.drive.SpeedAt(throttle, p.shaftPower, low, high)
	if outcome != solve.Converged {
		return c, false, nil
	}
	c.Throttle = throttle // which it is but for rounding
	return c, true, nil
}

// prepareDriven is Prepare for a rig whose motors must be known.
func prepareDriven(r Rig) (Ready, error) {
	p, err := Prepare(r)
	if err == nil && !p.driven() {
		err = ErrNoMotor
	}
	return p, err
}

// shaftPower returns the shaft power of one turning fan on the core, W, at a speed in
// rev/s; where stall begins if the core could not carry the heat.
func (p *Ready) shaftPower(speed float64) float64 {
	b := bank{density: p.room, share: p.stall.Onset}
	var s stream
	if p.airStream(&s, speed, &hint{}) == nil {
		b = s.front
		if !p.rig.Placing.Before() {
			b = s.behind
		}
	}
	return p.rig.Fans.Fan.Draw(speed, b.share, b.density).Shaft
}
