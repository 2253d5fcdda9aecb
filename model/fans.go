package model

import (
	"math"

	"finduel/model/fan"
	"finduel/model/hazard"
	"finduel/model/sound"
)

// fans fills in what the fans of a state do and cost, those before and behind the core
// together, and returns what their drives cannot do.
func (p *Ready) fans(speed float64, s *stream, st *State) (exceeded fan.Limit) {
	fans := &p.rig.Fans
	st.FreeFlowShare = p.freeFlowShare(s)
	level, free := math.Inf(-1), math.Inf(-1) // with stall and without
	side := func(b *bank, several float64) {
		d, c := p.draw(speed, b)
		n := b.turning
		st.FanPower += n * d.Supply
		st.MotorPower += n * d.Motor
		st.ShaftPower += n * d.Shaft
		st.ShaftTorque = math.Max(st.ShaftTorque, fan.Torque(d.Shaft, speed))
		exceeded |= c.Exceeded
		if c.MotorCurrent >= st.MotorCurrent {
			st.Throttle, st.MotorVoltage, st.MotorCurrent, st.WireDrop = c.Throttle, c.MotorVoltage, c.MotorCurrent, c.WireDrop
		}
		st.AirPower += n * b.pressure * b.share * fans.Fan.FreeFlow(speed) * p.moving
		one, stall := fans.Fan.Sound(speed, b.share, b.density)+several, fans.Fan.StallPenalty(b.share)
		if math.IsInf(level, -1) {
			level, free, st.StallSound = one, one-stall, stall
		} else {
			level, free = sound.Sum(level, one), sound.Sum(free, one-stall)
			st.StallSound = math.Max(level-free, 0)
		}
	}
	if p.rig.Placing.Before() {
		side(&s.front, p.frontSeveral)
	}
	if p.rig.Placing.Behind() {
		side(&s.behind, p.behindSeveral)
	}
	st.StallOnset, st.StallMargin = p.stall.Onset, st.FreeFlowShare-p.stall.Onset
	if n := len(s.hanging); n > 0 {
		st.HangingAirflow = s.hanging[n-1] / p.room
		if n > 1 {
			st.HighestHanging = s.hanging[0] / p.room
		}
	}
	st.DriveCurrent = st.FanPower / fans.Fan.DriveVoltage
	if b := &p.rig.Build; !p.driven() && b.Area() > 0 {
		st.WireDrop = hazard.VoltageDrop(st.DriveCurrent, b.WireLength, b.Area(), hazard.HotWire)
	}
	st.TipSpeed = fans.Fan.TipSpeed(speed)
	st.TipMach = fan.TipMach(st.TipSpeed, p.soundSpeed)
	st.RotorReynolds = fan.Reynolds(st.TipSpeed, fans.Fan.Diameter(), p.viscosity)
	st.BladePassing = sound.BladePassing(fans.Fan.Blades, speed)
	st.Sound, st.OperatorSound = level+p.toListener, level+p.toOperator
	st.SoundDoubtLow, st.SoundDoubtHigh = sound.StallDoubt(fans.Fan.SoundDoubt, st.StallSound)
	st.ExposureLimit, st.OSHALimit = sound.PermittedNIOSH(st.OperatorSound), sound.PermittedOSHA(st.OperatorSound)
	st.LowerActionTime, st.UpperActionTime, st.LimitValueTime = sound.ActionTimes(st.OperatorSound)
	st.NIOSHDose, st.OSHADose = sound.Dose(st.OperatorSound, p.rig.Room.Session, st.ExposureLimit), sound.Dose(st.OperatorSound, p.rig.Room.Session, st.OSHALimit)
	st.DailyExposure = st.OperatorSound + p.overDay
	low, high := p.pressureDoubt(speed, s)
	pressure := p.pressure(s)
	st.FanDoubtLow, st.FanDoubtHigh = low/pressure, high/pressure
	return exceeded
}

// pressureDoubt returns how far the pressure of all fans may be out, Pa, low end
// negative.
func (p *Ready) pressureDoubt(speed float64, s *stream) (low, high float64) {
	side := func(b *bank) (low, high float64) {
		f := &p.rig.Fans.Fan
		return f.PressureDoubt(p.rotor, b.pressure, speed, b.share*f.FreeFlow(speed), b.density)
	}
	if p.rig.Placing.Before() {
		low, high = side(&s.front)
	}
	if p.rig.Placing.Behind() {
		l, h := side(&s.behind)
		low, high = low+l, high+h
	}
	return p.together(low), p.together(high)
}

// lawsPressure is the pressure of a fan, Pa, below which ISO 5801 neglects compression
// (from memory).
const lawsPressure = 2000

// Limits of what is known of propellers.
const (
	measuredSpeed = 10000. / 60 // rev/s: none of the table was measured faster
	sameRotor     = 0.05        // distance up to which a propeller of the table counts as the one that is meant
)

// narrows reports whether a duct joins discs to a face that is smaller than all of them;
// an estimated disc counts for none.
func (r *Rig) narrows() bool {
	d := r.Fans.Fan.RotorDiameter
	return r.Installed.Shroud == Ducted && math.Pi/4*d*d*float64(r.Fans.Count) > r.Core.FaceLength*r.Core.FaceWidth
}

// fanWarnings returns what a reader must know of the fans, whose drives cannot do what
// is exceeded.
func (p *Ready) fanWarnings(speed float64, s *stream, st *State, exceeded fan.Limit) Warnings {
	var w Warnings
	add := func(is bool, bit Warnings) {
		if is {
			w |= bit
		}
	}
	share, fans := st.FreeFlowShare, &p.rig.Fans.Fan
	stalled := share < p.stall.Onset
	deep := share < p.stall.Deep
	partly := stalled && !deep
	switch {
	case p.rotor != nil:
		add(partly, BladesStalled)
		add(speed > measuredSpeed, RotorExtrapolated)
		add(p.rotor.Extent == fan.AboveMeasured, RotorLentFastest)
		add(p.rotor.Extent == fan.BelowMeasured || p.rotor.Lent(speed) == fan.BelowMeasured, RotorTooSlow)
		add(fans.ThrustCoefficient == 0 && p.rotor.Coefficients.Distance > sameRotor, RotorBorrowed)
	case fans.Curve != nil:
		add(deep, BelowValley)
		add(fans.Curve.Saddle(share), InsideSaddle)
	default:
		add(deep, StalledDeep)
		add(partly, StallRegion)
	}
	add(p.narrows, DuctNarrows)
	add(fans.Readings != nil && fans.Readings.Extrapolated(speed), SoundExtrapolated)
	add(st.RotorReynolds < fan.AffinityReynolds, RotorSlow)
	add(exceeded&fan.SupplyVoltage != 0, SupplyVoltageExceeded)
	add(exceeded&fan.SupplyCurrent != 0, SupplyCurrentExceeded)
	add(exceeded&fan.MotorCurrent != 0, MotorCurrentExceeded)
	add(exceeded&fan.ControllerCurrent != 0, ControllerCurrentExceeded)
	add(exceeded&fan.SupplyCollapse != 0, SupplyCollapses)
	add(s.hanging != nil, MayHang)
	add(speed > fans.TopSpeed, AboveTopSpeed)
	add(st.AirPower > st.ShaftPower, AirPowerHigh)
	add(st.TipMach > fan.AffinityMach, TipMachHigh)
	add(s.resistance > lawsPressure, Compressible)
	return w
}
