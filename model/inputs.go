package model

import (
	"math"

	"finduel/model/coolant"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/hazard"
	"finduel/model/quantity"
	"finduel/model/sound"
)

// Input is one number of a Rig that a study may set or sweep.
type Input struct {
	quantity.Quantity
	Low, High float64             // allowed range, SI, both ends included
	Shared    bool                // a condition of the room, the heat or the coolant: both setups always share it
	Whole     bool                // only whole numbers
	Part      string              // inputs of one Part set the same thing and exclude each other
	Get       func(*Rig) float64  // SI
	Set       func(*Rig, float64) // SI; the value must be within the range
}

// InputOf returns the input with the key, and false if there is none.
func InputOf(key string) (Input, bool) {
	for _, in := range Inputs {
		if in.Key == key {
			return in, true
		}
	}
	return Input{}, false
}

// Check returns a *quantity.RangeError if v, SI, is not allowed for the input.
func (in Input) Check(v float64) error {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return &quantity.RangeError{Key: in.Key, Value: v, Low: in.Low, High: in.High, Rule: "must be a finite number"}
	case v < in.Low || v > in.High:
		return &quantity.RangeError{Key: in.Key, Value: v, Low: in.Low, High: in.High, Rule: "is outside its range"}
	case in.Whole && v != math.Trunc(v):
		return &quantity.RangeError{Key: in.Key, Value: v, Low: in.Low, High: in.High, Rule: "must be a whole number"}
	}
	return nil
}

// Unused reports whether the input plays no part in a rig: what belongs to the pump
// and its loop where the coolant flow is given, and the flow where the pump makes it.
// Setting the flow puts it in the place of the pump's.
func (in Input) Unused(r *Rig) bool {
	switch in.Key {
	case "coolant_flow":
		return r.Coolant.Flow == 0
	case "series_loss":
		return r.Placing != fan.PushPull
	case "room_surface", "room_absorption", "room_directivity":
		return r.Room.Surroundings.Field != sound.Room
	case "curve_exponent":
		return r.Fans.Fan.Curve != nil || r.Fans.Fan.Pitch > 0
	case "free_air_flow", "shut_off_pressure", "rated_power":
		return r.Fans.Fan.Pitch > 0
	case "thrust_coefficient", "power_coefficient", "pitch":
		return r.Fans.Fan.Pitch == 0
	case "motor_efficiency", "electronics_loss":
		return r.Fans.Fan.Brushless.SpeedConstant > 0
	case "winding_resistance", "no_load_current", "motor_most_current", "controller_efficiency", "controller_idle_power", "controller_most_current", "speed_constant":
		return r.Fans.Fan.Brushless.SpeedConstant == 0
	case "pump_head", "pump_free_flow", "pump_exponent", "loop_drop", "loop_drop_flow":
		return r.Coolant.Flow != 0
	}
	return false
}

// Unknown reports whether 0 means that the input is not known: what is said of how a
// setup is built, the number of blades, and what a motor and its controller may carry.
func (in Input) Unknown() bool {
	switch in.Key {
	case "hub_ratio", "fragment_mass", "wire_gauge", "wire_area", "wire_length", "connector_rating", "supply_rating", "fuse_rating",
		"guard_opening", "guard_distance", "blades", "motor_most_current", "controller_most_current":
		return true
	}
	return false
}

// condition, rotor and metal make an Input of the room, the heat or the coolant, of
// the setup (fans and how they are installed), and of the core.
func condition(key string, low, high float64, at func(*Rig) *float64) Input {
	in := number(key, low, high, at)
	in.Shared = true
	return in
}

func number(key string, low, high float64, at func(*Rig) *float64) Input {
	return Input{
		Quantity: quantity.Must(key), Low: low, High: high,
		Get: func(r *Rig) float64 { return *at(r) },
		Set: func(r *Rig, v float64) { *at(r) = v },
	}
}

func metal(key string, low, high float64, at func(*core.Geometry) *float64) Input {
	return number(key, low, high, func(r *Rig) *float64 { return at(&r.Core) })
}

// Inputs lists every number of a Rig that a study may set or sweep. The ranges
// are those in which the number can be meant at all (common practice, no
// source); where a correlation holds is another matter and makes a warning.
var Inputs = []Input{
	condition("air_temperature", 233.15, 353.15, func(r *Rig) *float64 { return &r.Room.Temperature }),
	condition("altitude", -500, 5000, func(r *Rig) *float64 { return &r.Room.Altitude }),
	condition("humidity", 0, 1, func(r *Rig) *float64 { return &r.Room.Humidity }),
	condition("listener_distance", 0.1, 100, func(r *Rig) *float64 { return &r.Room.ListenerDistance }),
	condition("operator_distance", 0.1, 100, func(r *Rig) *float64 { return &r.Room.OperatorDistance }),
	condition("session_duration", 1, 24*3600, func(r *Rig) *float64 { return &r.Room.Session }),
	condition("room_surface", 1, 1e6, func(r *Rig) *float64 { return &r.Room.Surroundings.Surface }),
	condition("room_absorption", 0.01, 1, func(r *Rig) *float64 { return &r.Room.Surroundings.Absorption }),
	condition("room_directivity", 1, 8, func(r *Rig) *float64 { return &r.Room.Surroundings.Directivity }),
	condition("heat_load", 0.1, 1e5, func(r *Rig) *float64 { return &r.Heat.Load }),
	condition("plate_resistance", 0, 10, func(r *Rig) *float64 { return &r.Heat.PlateResistance }),
	condition("pump_power", 0, 1e4, func(r *Rig) *float64 { return &r.Heat.PumpPower }),
	condition("coolant_flow", 1e-7, 1e-2, func(r *Rig) *float64 { return &r.Coolant.Flow }),
	condition("glycol_share", 0, coolant.MostGlycol, func(r *Rig) *float64 { return &r.Coolant.Liquid.GlycolShare }),
	condition("pump_head", 1, 1e6, func(r *Rig) *float64 { return &r.Coolant.Pump.ShutOffPressure }),
	condition("pump_free_flow", 1e-7, 1e-2, func(r *Rig) *float64 { return &r.Coolant.Pump.FreeFlow }),
	condition("pump_exponent", 1, 3, func(r *Rig) *float64 { return &r.Coolant.Pump.CurveExponent }),
	condition("loop_drop", 0, 1e6, func(r *Rig) *float64 { return &r.Coolant.Loop.Drop }),
	condition("loop_drop_flow", 1e-7, 1e-2, func(r *Rig) *float64 { return &r.Coolant.Loop.DropFlow }),
	withPart("face", metal("face_length", 0.005, 5, func(g *core.Geometry) *float64 { return &g.FaceLength })),
	withPart("face", metal("face_width", 0.005, 5, func(g *core.Geometry) *float64 { return &g.FaceWidth })),
	faceArea,
	withPart("depth", metal("fin_depth", 0.001, 1, func(g *core.Geometry) *float64 { return &g.FinDepth })),
	overallThickness,
	metal("fin_density", 40, 4000, func(g *core.Geometry) *float64 { return &g.FinDensity }),
	finHeight,
	metal("fin_thickness", 1e-5, 1e-3, func(g *core.Geometry) *float64 { return &g.FinThickness }),
	metal("fin_conductivity", 1, 3000, func(g *core.Geometry) *float64 { return &g.FinConductivity }),
	metal("louver_pitch", 1e-4, 0.02, func(g *core.Geometry) *float64 { return &g.LouverPitch }),
	metal("louver_length", 1e-4, 0.1, func(g *core.Geometry) *float64 { return &g.LouverLength }),
	metal("louver_angle", math.Pi/180, math.Pi/3, func(g *core.Geometry) *float64 { return &g.LouverAngle }),
	metal("strip_length", 1e-4, 0.1, func(g *core.Geometry) *float64 { return &g.StripLength }),
	metal("tube_height", 2e-4, 0.05, func(g *core.Geometry) *float64 { return &g.TubeHeight }),
	metal("tube_wall", 2e-5, 0.01, func(g *core.Geometry) *float64 { return &g.TubeWall }),
	metal("tube_conductivity", 0.1, 3000, func(g *core.Geometry) *float64 { return &g.TubeConductivity }),
	metal("tube_roughness", 0, 1e-3, func(g *core.Geometry) *float64 { return &g.TubeRoughness }),
	metal("port_diameter", 0, 0.5, func(g *core.Geometry) *float64 { return &g.PortDiameter }),
	whole("passes", 1, 8, func(r *Rig) *int { return &r.Core.Passes }),
	stacked,
	number("fan_speed", 0.1, 5000, func(r *Rig) *float64 { return &r.Speed }),
	whole("fans", 1, 100, func(r *Rig) *int { return &r.Fans.Count }),
	whole("stopped_fans", 0, 99, func(r *Rig) *int { return &r.Fans.Stopped }),
	number("rated_speed", 0.1, 5000, func(r *Rig) *float64 { return &r.Fans.Fan.RatedSpeed }),
	number("free_air_flow", 1e-6, 50, func(r *Rig) *float64 { return &r.Fans.Fan.FreeAirFlow }),
	number("shut_off_pressure", 0.01, 2e4, func(r *Rig) *float64 { return &r.Fans.Fan.ShutOffPressure }),
	number("rated_power", 0.001, 1e5, func(r *Rig) *float64 { return &r.Fans.Fan.RatedPower }),
	number("electronics_loss", 0, 1e5, func(r *Rig) *float64 { return &r.Fans.Fan.ElectronicsLoss }),
	ratedSound,
	number("sound_exponent", sound.LowestExponent, sound.HighestExponent, func(r *Rig) *float64 { return &r.Fans.Fan.SoundExponent }),
	soundDoubt,
	number("rated_density", 0.3, 2, func(r *Rig) *float64 { return &r.Fans.Fan.RatedDensity }),
	number("top_speed", 0.1, 5000, func(r *Rig) *float64 { return &r.Fans.Fan.TopSpeed }),
	number("curve_exponent", 1, 2, func(r *Rig) *float64 { return &r.Fans.Fan.CurveExponent }),
	number("rotor_diameter", 0.005, 5, func(r *Rig) *float64 { return &r.Fans.Fan.RotorDiameter }),
	whole("blades", 0, 100, func(r *Rig) *int { return &r.Fans.Fan.Blades }),
	number("pitch", 0, 8, func(r *Rig) *float64 { return &r.Fans.Fan.Pitch }),
	number("thrust_coefficient", 0, 0.5, func(r *Rig) *float64 { return &r.Fans.Fan.ThrustCoefficient }),
	number("power_coefficient", 0, 1, func(r *Rig) *float64 { return &r.Fans.Fan.PowerCoefficient }),
	number("speed_constant", 0, 1e4, func(r *Rig) *float64 { return &r.Fans.Fan.Brushless.SpeedConstant }),
	number("winding_resistance", 0, 1e3, func(r *Rig) *float64 { return &r.Fans.Fan.Brushless.Resistance }),
	number("no_load_current", 0, 1e3, func(r *Rig) *float64 { return &r.Fans.Fan.Brushless.NoLoadCurrent }),
	number("motor_most_current", 0, 1e4, func(r *Rig) *float64 { return &r.Fans.Fan.Brushless.MostCurrent }),
	number("controller_efficiency", 0.1, 1, func(r *Rig) *float64 { return &r.Fans.Fan.Controller.Efficiency }),
	number("controller_idle_power", 0, 1e4, func(r *Rig) *float64 { return &r.Fans.Fan.Controller.IdlePower }),
	number("controller_most_current", 0, 1e4, func(r *Rig) *float64 { return &r.Fans.Fan.Controller.MostCurrent }),
	number("drive_voltage", 1, 1000, func(r *Rig) *float64 { return &r.Fans.Fan.DriveVoltage }),
	number("motor_efficiency", 0.001, 1, func(r *Rig) *float64 { return &r.Fans.Fan.MotorEfficiency }),
	number("grille_loss", 0, 1000, func(r *Rig) *float64 { return &r.Installed.GrilleLoss }),
	number("leakage", 0, mostShare, func(r *Rig) *float64 { return &r.Installed.Leakage }),
	number("hub_shadow", 0, mostShare, func(r *Rig) *float64 { return &r.Installed.HubShadow }),
	number("dust", 0, mostShare, func(r *Rig) *float64 { return &r.Installed.Dust }),
	number("series_loss", 0, mostShare, func(r *Rig) *float64 { return &r.Installed.SeriesLoss }),
	number("air_film_correction", lowestCorrection, highestCorrection, func(r *Rig) *float64 { return &r.Correction.AirFilm }),
	number("air_friction_correction", lowestCorrection, highestCorrection, func(r *Rig) *float64 { return &r.Correction.AirFriction }),
	number("coolant_film_correction", lowestCorrection, highestCorrection, func(r *Rig) *float64 { return &r.Correction.CoolantFilm }),
	number("coolant_viscosity_correction", lowestCorrection, highestCorrection, func(r *Rig) *float64 { return &r.Correction.CoolantViscosity }),
	number("coolant_conductivity_correction", lowestCorrection, highestCorrection, func(r *Rig) *float64 { return &r.Correction.CoolantConductivity }),
	number("coolant_specific_heat_correction", lowestCorrection, highestCorrection, func(r *Rig) *float64 { return &r.Correction.CoolantSpecificHeat }),
	number("air_density_correction", lowestCorrection, highestCorrection, func(r *Rig) *float64 { return &r.Correction.AirDensity }),
	number("air_viscosity_correction", lowestCorrection, highestCorrection, func(r *Rig) *float64 { return &r.Correction.AirViscosity }),
	number("air_conductivity_correction", lowestCorrection, highestCorrection, func(r *Rig) *float64 { return &r.Correction.AirConductivity }),
	number("air_specific_heat_correction", lowestCorrection, highestCorrection, func(r *Rig) *float64 { return &r.Correction.AirSpecificHeat }),
	number("fan_pressure_correction", lowestCorrection, highestCorrection, func(r *Rig) *float64 { return &r.Correction.FanPressure }),
	number("hub_ratio", 0, 0.9, func(r *Rig) *float64 { return &r.Build.HubRatio }),
	number("fragment_mass", 0, 1, func(r *Rig) *float64 { return &r.Build.FragmentMass }),
	wireGauge,
	wireArea,
	number("wire_length", 0, 100, func(r *Rig) *float64 { return &r.Build.WireLength }),
	number("connector_rating", 0, 1000, func(r *Rig) *float64 { return &r.Build.ConnectorRating }),
	number("supply_rating", 0, 1000, func(r *Rig) *float64 { return &r.Build.SupplyRating }),
	number("fuse_rating", 0, 1000, func(r *Rig) *float64 { return &r.Build.FuseRating }),
	number("guard_opening", 0, hazard.LargestOpening, func(r *Rig) *float64 { return &r.Build.GuardOpening }),
	number("guard_distance", 0, 10, func(r *Rig) *float64 { return &r.Build.GuardDistance }),
}

func withPart(part string, in Input) Input {
	in.Part = part
	return in
}

func whole(key string, low, high float64, at func(*Rig) *int) Input {
	return Input{
		Quantity: quantity.Must(key), Low: low, High: high, Whole: true,
		Get: func(r *Rig) float64 { return float64(*at(r)) },
		Set: func(r *Rig, v float64) { *at(r) = int(v) },
	}
}

// A wire has a gauge or an area: setting one forgets the other.
var (
	wireGauge = Input{
		Quantity: quantity.Must("wire_gauge"), Low: 0, High: 28, Whole: true, Part: "wire",
		Get: func(r *Rig) float64 { return r.Build.WireGauge },
		Set: func(r *Rig, v float64) { r.Build.WireGauge, r.Build.WireArea = v, 0 },
	}
	wireArea = Input{
		Quantity: quantity.Must("wire_area"), Low: 0, High: 1e-4, Part: "wire",
		Get: func(r *Rig) float64 { return r.Build.WireArea },
		Set: func(r *Rig, v float64) { r.Build.WireArea, r.Build.WireGauge = v, 0 },
	}
)

// ratedSound is the level at rated speed wherever it comes from; setting it takes the
// place of readings and of an estimate. A level that an impossible propeller has not is
// NaN.
var ratedSound = Input{
	Quantity: quantity.Must("rated_sound"), Low: -20, High: 150,
	Get: func(r *Rig) float64 {
		f, _, err := r.Fans.Fan.Resolved()
		if err != nil {
			return math.NaN()
		}
		return f.RatedSound
	},
	Set: func(r *Rig, v float64) {
		f := &r.Fans.Fan
		f.RatedSound, f.Readings, f.EstimatedSound = v, nil, false
	},
}

// soundDoubt is as usual for where the level comes from, until it is set.
var soundDoubt = Input{
	Quantity: quantity.Must("sound_doubt"), Low: 0.1, High: 30,
	Get: func(r *Rig) float64 {
		f, _, _ := r.Fans.Fan.Resolved()
		return f.SoundDoubt
	},
	Set: func(r *Rig, v float64) { r.Fans.Fan.SoundDoubt = v },
}

// stacked counts the first core too.
var stacked = Input{
	Quantity: quantity.Must("stacked"), Low: 1, High: 8, Whole: true,
	Get: func(r *Rig) float64 { return float64(1 + r.Core.Further) },
	Set: func(r *Rig, v float64) { r.Core.Further = int(v) - 1 },
}

// faceArea is length times width; setting it keeps the shape of the face.
var faceArea = Input{
	Quantity: quantity.Must("face_area"), Low: 2.5e-5, High: 25, Part: "face",
	Get: func(r *Rig) float64 { return r.Core.FaceLength * r.Core.FaceWidth },
	Set: func(r *Rig, v float64) {
		scale := math.Sqrt(v / (r.Core.FaceLength * r.Core.FaceWidth))
		r.Core.FaceLength *= scale
		r.Core.FaceWidth *= scale
	},
}

// overallThickness stands for the fin depth inside it.
var overallThickness = Input{
	Quantity: quantity.Must("overall_thickness"), Low: 0.002, High: 1.2, Part: "depth",
	Get: func(r *Rig) float64 { return core.OverallThicknessOf(r.Core.FinDepth) },
	Set: func(r *Rig, v float64) { r.Core.FinDepth = core.FinDepthOf(v) },
}

// finHeight takes the louvers along: their share of the fin height stays.
var finHeight = Input{
	Quantity: quantity.Must("fin_height"), Low: 5e-4, High: 0.1,
	Get: func(r *Rig) float64 { return r.Core.FinHeight },
	Set: func(r *Rig, v float64) {
		r.Core.LouverLength *= v / r.Core.FinHeight
		r.Core.FinHeight = v
	},
}
