package model

import (
	"finduel/model/fan"
	"finduel/model/hazard"
)

// Cautions returns which rules of hazard hold for a rig at a fan speed in rev/s and in
// the state that it has there. A propeller counts as an improvised rotor whatever its
// build says.
func Cautions(r *Rig, speed float64, s *State) hazard.Found {
	f := hazard.Facts{
		Diameter: r.Fans.Fan.Diameter(), Speed: speed, TipSpeed: s.TipSpeed, TipMach: s.TipMach,
		Sound: s.OperatorSound, SoundHigh: s.OperatorSound + s.SoundDoubtHigh, Estimated: r.Fans.Fan.EstimatedSound && r.Fans.Fan.Readings == nil,
		NIOSHDose: s.NIOSHDose, OSHADose: s.OSHADose, Daily: s.DailyExposure,
		Current: s.DriveCurrent, Voltage: r.Fans.Fan.DriveVoltage, WireDrop: s.WireDrop,
		ShroudAir: s.CoreAirTemperature, Build: r.Build,
	}
	if r.Placing != fan.Push {
		f.ShroudAir = s.AirOutletTemperature
	}
	f.Build.Improvised = f.Build.Improvised || r.Fans.Fan.Pitch > 0
	return hazard.Cautions(&f)
}
