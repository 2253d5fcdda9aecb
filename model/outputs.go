package model

import (
	"math"

	"finduel/model/quantity"
)

// Output is one number of a State, with its quantity.
type Output struct {
	quantity.Quantity
	At    func(*State) *float64 // where it stands in a State; SI
	Known func(*State) bool     // whether it has a meaning for a setup, as a blade passing frequency has with a number of blades alone; nil: always
}

// Get returns the number, SI; NaN where it has no meaning, so that tables leave its
// cell empty.
func (o *Output) Get(s *State) float64 {
	if o.Known != nil && !o.Known(s) {
		return math.NaN()
	}
	return *o.At(s)
}

func answer(key string, at func(*State) *float64) Output {
	return Output{Quantity: quantity.Must(key), At: at}
}

// known restricts an output to the states for which it has a meaning.
func (o Output) known(is func(*State) bool) Output {
	o.Known = is
	return o
}

// stalls reports whether it is known where the fans stall.
func (s *State) stalls() bool { return s.StallOnset > 0 }

// driven reports whether the fans' motors are known.
func (s *State) driven() bool { return s.Throttle > 0 }

// OutputOf returns the output with the key, and false if there is none.
func OutputOf(key string) (Output, bool) {
	for _, o := range Outputs {
		if o.Key == key {
			return o, true
		}
	}
	return Output{}, false
}

// Outputs lists every number of a State, in the order of tables.
var Outputs = []Output{
	answer("coolant_over_air", func(s *State) *float64 { return &s.CoolantOverAir }),
	answer("coolant_mean_over_air", func(s *State) *float64 { return &s.CoolantMeanOverAir }),
	answer("chip_over_air", func(s *State) *float64 { return &s.ChipOverAir }),
	answer("conductance", func(s *State) *float64 { return &s.Conductance }),
	answer("air_capacity", func(s *State) *float64 { return &s.AirCapacity }),
	answer("airflow", func(s *State) *float64 { return &s.Airflow }),
	answer("face_velocity", func(s *State) *float64 { return &s.FaceVelocity }),
	answer("core_pressure_drop", func(s *State) *float64 { return &s.CorePressureDrop }),
	answer("free_flow_share", func(s *State) *float64 { return &s.FreeFlowShare }),
	answer("stall_onset", func(s *State) *float64 { return &s.StallOnset }).known((*State).stalls),
	answer("stall_margin", func(s *State) *float64 { return &s.StallMargin }).known((*State).stalls),
	answer("hanging_airflow", func(s *State) *float64 { return &s.HangingAirflow }).known(func(s *State) bool { return s.HangingAirflow > 0 }),
	answer("highest_hanging_airflow", func(s *State) *float64 { return &s.HighestHanging }).known(func(s *State) bool { return s.HighestHanging > 0 }),
	answer("fan_power", func(s *State) *float64 { return &s.FanPower }),
	answer("motor_power", func(s *State) *float64 { return &s.MotorPower }),
	answer("shaft_power", func(s *State) *float64 { return &s.ShaftPower }),
	answer("shaft_torque", func(s *State) *float64 { return &s.ShaftTorque }),
	answer("air_power", func(s *State) *float64 { return &s.AirPower }),
	answer("drive_current", func(s *State) *float64 { return &s.DriveCurrent }),
	answer("sound", func(s *State) *float64 { return &s.Sound }),
	answer("operator_sound", func(s *State) *float64 { return &s.OperatorSound }),
	answer("stall_sound", func(s *State) *float64 { return &s.StallSound }),
	answer("sound_doubt_low", func(s *State) *float64 { return &s.SoundDoubtLow }),
	answer("sound_doubt_high", func(s *State) *float64 { return &s.SoundDoubtHigh }),
	answer("exposure_limit", func(s *State) *float64 { return &s.ExposureLimit }),
	answer("exposure_limit_osha", func(s *State) *float64 { return &s.OSHALimit }),
	answer("lower_action_time", func(s *State) *float64 { return &s.LowerActionTime }),
	answer("upper_action_time", func(s *State) *float64 { return &s.UpperActionTime }),
	answer("limit_value_time", func(s *State) *float64 { return &s.LimitValueTime }),
	answer("niosh_dose", func(s *State) *float64 { return &s.NIOSHDose }),
	answer("osha_dose", func(s *State) *float64 { return &s.OSHADose }),
	answer("daily_exposure", func(s *State) *float64 { return &s.DailyExposure }),
	answer("blade_passing_frequency", func(s *State) *float64 { return &s.BladePassing }).known(func(s *State) bool { return s.BladePassing > 0 }),
	answer("tip_speed", func(s *State) *float64 { return &s.TipSpeed }),
	answer("tip_mach", func(s *State) *float64 { return &s.TipMach }),
	answer("rotor_reynolds", func(s *State) *float64 { return &s.RotorReynolds }),
	answer("throttle", func(s *State) *float64 { return &s.Throttle }).known((*State).driven),
	answer("motor_voltage", func(s *State) *float64 { return &s.MotorVoltage }).known((*State).driven),
	answer("motor_current", func(s *State) *float64 { return &s.MotorCurrent }).known((*State).driven),
	answer("wire_drop", func(s *State) *float64 { return &s.WireDrop }).known(func(s *State) bool { return s.WireDrop > 0 }),
	answer("heat_rejected", func(s *State) *float64 { return &s.HeatRejected }),
	answer("coolant_inlet_temperature", func(s *State) *float64 { return &s.CoolantInletTemperature }),
	answer("coolant_outlet_temperature", func(s *State) *float64 { return &s.CoolantOutletTemperature }),
	answer("core_air_temperature", func(s *State) *float64 { return &s.CoreAirTemperature }),
	answer("air_outlet_temperature", func(s *State) *float64 { return &s.AirOutletTemperature }),
	answer("chip_temperature", func(s *State) *float64 { return &s.ChipTemperature }),
	answer("air_mass_flow", func(s *State) *float64 { return &s.AirMassFlow }),
	answer("air_reynolds", func(s *State) *float64 { return &s.AirReynolds }),
	answer("air_film", func(s *State) *float64 { return &s.AirFilm }),
	answer("fin_efficiency", func(s *State) *float64 { return &s.FinEfficiency }),
	answer("coolant_reynolds", func(s *State) *float64 { return &s.CoolantReynolds }),
	answer("coolant_film", func(s *State) *float64 { return &s.CoolantFilm }),
	answer("loop_flow", func(s *State) *float64 { return &s.CoolantFlow }),
	answer("coolant_pressure_drop", func(s *State) *float64 { return &s.CoolantPressureDrop }),
	answer("core_conductance", func(s *State) *float64 { return &s.CoreConductance }),
	answer("ntu", func(s *State) *float64 { return &s.NTU }),
	answer("capacity_ratio", func(s *State) *float64 { return &s.CapacityRatio }),
	answer("effectiveness", func(s *State) *float64 { return &s.Effectiveness }),
	answer("fan_doubt_low", func(s *State) *float64 { return &s.FanDoubtLow }),
	answer("fan_doubt_high", func(s *State) *float64 { return &s.FanDoubtHigh }),
	answer("film_doubt_low", func(s *State) *float64 { return &s.Doubt.FilmLow }),
	answer("film_doubt_high", func(s *State) *float64 { return &s.Doubt.FilmHigh }),
	answer("friction_doubt_low", func(s *State) *float64 { return &s.Doubt.FrictionLow }),
	answer("friction_doubt_high", func(s *State) *float64 { return &s.Doubt.FrictionHigh }),
	answer("coolant_viscosity_doubt", func(s *State) *float64 { return &s.CoolantViscosityDoubt }),
	answer("budget_fan_heat", func(s *State) *float64 { return &s.Budget.FanHeat }),
	answer("budget_air_film", func(s *State) *float64 { return &s.Budget.AirFilm }),
	answer("budget_fin", func(s *State) *float64 { return &s.Budget.Fin }),
	answer("budget_wall", func(s *State) *float64 { return &s.Budget.Wall }),
	answer("budget_coolant_film", func(s *State) *float64 { return &s.Budget.CoolantFilm }),
	answer("budget_capacity", func(s *State) *float64 { return &s.Budget.Capacity }),
	answer("budget_pump_heat", func(s *State) *float64 { return &s.Budget.PumpHeat }),
}

// BudgetTerms lists the keys of the temperature budget in the order in which
// heat meets them on its way from the chip to the room, the fan heat last.
var BudgetTerms = []string{
	"budget_pump_heat", "budget_coolant_film", "budget_wall", "budget_fin",
	"budget_air_film", "budget_capacity", "budget_fan_heat",
}
