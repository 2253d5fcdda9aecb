package model

import (
	"math"

	"finduel/model/sound"
)

// fans fills in what the fans of a state do and cost, those before and behind the core
// together.
func (p *Ready) fans(speed float64, s *stream, st *State) {
	fans := &p.rig.Fans
	st.FreeFlowShare = math.Inf(1)
	level := math.Inf(-1)
	side := func(b *bank) {
		d := p.draw(speed, b)
		st.FanPower += d.Supply
		st.MotorPower += d.Motor
		st.ShaftPower += d.Shaft
		st.AirPower += b.pressure * b.share * fans.FreeFlow(speed)
		st.FreeFlowShare = math.Min(st.FreeFlowShare, b.share)
		one := fans.Sound(speed, b.share)
		if math.IsInf(level, -1) {
			level = one
		} else {
			level = sound.Sum(level, one)
		}
	}
	if p.rig.Placing.Before() {
		side(&s.front)
	}
	if p.rig.Placing.Behind() {
		side(&s.behind)
	}
	st.StallMargin = st.FreeFlowShare - p.stall.Onset
	st.HangingAirflow = s.hanging / p.room
	st.DriveCurrent = st.FanPower / fans.Fan.DriveVoltage
	st.TipSpeed = fans.Fan.TipSpeed(speed)
	st.TipMach = st.TipSpeed / p.soundSpeed
	st.BladePassing = sound.BladePassing(fans.Fan.Blades, speed)
	st.Sound = p.rig.Room.Surroundings.Level(level, p.rig.Room.ListenerDistance)
	st.OperatorSound = p.rig.Room.Surroundings.Level(level, p.rig.Room.OperatorDistance)
	exposure := sound.ExposureTo(st.OperatorSound, p.rig.Room.Session)
	st.ExposureLimit, st.OSHALimit, st.UpperActionTime = exposure.NIOSHTime, exposure.OSHATime, exposure.EUUpperTime
	st.NIOSHDose, st.OSHADose, st.DailyExposure = exposure.NIOSHDose, exposure.OSHADose, exposure.Daily
}

// Limits of what the fan laws were made for.
const (
	lawsMach     = 0.3  // tip Mach number beyond which air is compressed (common practice, no source)
	lawsPressure = 2000 // Pa; ISO 5801 neglects compression below (from memory)
)

// fanWarnings returns what a reader must know of the fans.
func (p *Ready) fanWarnings(speed float64, s *stream, st *State) Warnings {
	var w Warnings
	add := func(is bool, bit Warnings) {
		if is {
			w |= bit
		}
	}
	share, fans := st.FreeFlowShare, &p.rig.Fans.Fan
	stalled := share < p.stall.Onset
	add(share < p.stall.Deep, StalledDeep)
	add(stalled && share >= p.stall.Deep && fans.Curve == nil, StallRegion)
	add(stalled && share >= p.stall.Deep && fans.Curve != nil, InsideSaddle)
	add(s.hanging > 0, MayHang)
	add(speed > fans.TopSpeed, AboveTopSpeed)
	add(st.TipMach > lawsMach || s.resistance > lawsPressure, Compressible)
	return w
}
