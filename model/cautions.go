package model

import (
	"math"

	"finduel/model/hazard"
)

// BladeSpeed returns the fan speed, rev/s, at which rotation loads the blades of a rig's
// fans with what they may bear, see hazard.Build.BladeSpeed; 0 if their material is not
// known.
func BladeSpeed(r *Rig) float64 { return r.Build.BladeSpeed() / (math.Pi * r.Fans.Fan.Diameter()) }

// Cautions returns which rules of hazard hold for a rig at a fan speed in rev/s and in
// the state that it has there. A propeller counts as an improvised rotor whatever its
// build says. A shroud is bolted to the core, in push as in pull, and is as hot as that is
// where the coolant enters: no air that leaves the core is hotter, and where the fans stop,
// air that stands in a shroud before the core gets as hot.
func Cautions(r *Rig, speed float64, s *State) hazard.Found {
	f := hazard.Facts{
		Diameter: r.Fans.Fan.Diameter(), Speed: speed, TipSpeed: s.TipSpeed, TipMach: s.TipMach,
		Sound: s.OperatorSound, SoundHigh: s.OperatorSound + s.SoundDoubtHigh, Estimated: r.Fans.Fan.EstimatedSound && r.Fans.Fan.Readings == nil,
		NIOSHDose: s.NIOSHDose, OSHADose: s.OSHADose, Daily: s.DailyExposure,
		Current: s.DriveCurrent, Voltage: r.Fans.Fan.DriveVoltage, WireDrop: s.WireDrop,
		Shroud: s.CoolantInletTemperature, Build: r.Build,
	}
	f.Build.Improvised = f.Build.Improvised || r.Fans.Fan.Pitch > 0
	return hazard.Cautions(&f)
}
