package model

import "finduel/model/quantity"

// Output is one number of a State, with its quantity.
type Output struct {
	quantity.Quantity
	Get func(*State) float64 // SI
}

func answer(key string, get func(*State) float64) Output {
	return Output{Quantity: quantity.Must(key), Get: get}
}

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
	answer("coolant_over_air", func(s *State) float64 { return s.CoolantOverAir }),
	answer("coolant_mean_over_air", func(s *State) float64 { return s.CoolantMeanOverAir }),
	answer("chip_over_air", func(s *State) float64 { return s.ChipOverAir }),
	answer("conductance", func(s *State) float64 { return s.Conductance }),
	answer("air_capacity", func(s *State) float64 { return s.AirCapacity }),
	answer("airflow", func(s *State) float64 { return s.Airflow }),
	answer("face_velocity", func(s *State) float64 { return s.FaceVelocity }),
	answer("core_pressure_drop", func(s *State) float64 { return s.CorePressureDrop }),
	answer("free_flow_share", func(s *State) float64 { return s.FreeFlowShare }),
	answer("fan_power", func(s *State) float64 { return s.FanPower }),
	answer("drive_current", func(s *State) float64 { return s.DriveCurrent }),
	answer("sound", func(s *State) float64 { return s.Sound }),
	answer("exposure_limit", func(s *State) float64 { return s.ExposureLimit }),
	answer("tip_speed", func(s *State) float64 { return s.TipSpeed }),
	answer("heat_rejected", func(s *State) float64 { return s.HeatRejected }),
	answer("coolant_inlet_temperature", func(s *State) float64 { return s.CoolantInletTemperature }),
	answer("coolant_outlet_temperature", func(s *State) float64 { return s.CoolantOutletTemperature }),
	answer("core_air_temperature", func(s *State) float64 { return s.CoreAirTemperature }),
	answer("air_outlet_temperature", func(s *State) float64 { return s.AirOutletTemperature }),
	answer("chip_temperature", func(s *State) float64 { return s.ChipTemperature }),
	answer("air_mass_flow", func(s *State) float64 { return s.AirMassFlow }),
	answer("air_reynolds", func(s *State) float64 { return s.AirReynolds }),
	answer("air_film", func(s *State) float64 { return s.AirFilm }),
	answer("fin_efficiency", func(s *State) float64 { return s.FinEfficiency }),
	answer("coolant_reynolds", func(s *State) float64 { return s.CoolantReynolds }),
	answer("coolant_film", func(s *State) float64 { return s.CoolantFilm }),
	answer("loop_flow", func(s *State) float64 { return s.CoolantFlow }),
	answer("coolant_pressure_drop", func(s *State) float64 { return s.CoolantPressureDrop }),
	answer("core_conductance", func(s *State) float64 { return s.CoreConductance }),
	answer("ntu", func(s *State) float64 { return s.NTU }),
	answer("capacity_ratio", func(s *State) float64 { return s.CapacityRatio }),
	answer("effectiveness", func(s *State) float64 { return s.Effectiveness }),
	answer("film_doubt_low", func(s *State) float64 { return s.Doubt.FilmLow }),
	answer("film_doubt_high", func(s *State) float64 { return s.Doubt.FilmHigh }),
	answer("friction_doubt_low", func(s *State) float64 { return s.Doubt.FrictionLow }),
	answer("friction_doubt_high", func(s *State) float64 { return s.Doubt.FrictionHigh }),
	answer("coolant_viscosity_doubt", func(s *State) float64 { return s.CoolantViscosityDoubt }),
	answer("budget_fan_heat", func(s *State) float64 { return s.Budget.FanHeat }),
	answer("budget_air_film", func(s *State) float64 { return s.Budget.AirFilm }),
	answer("budget_fin", func(s *State) float64 { return s.Budget.Fin }),
	answer("budget_wall", func(s *State) float64 { return s.Budget.Wall }),
	answer("budget_coolant_film", func(s *State) float64 { return s.Budget.CoolantFilm }),
	answer("budget_capacity", func(s *State) float64 { return s.Budget.Capacity }),
	answer("budget_pump_heat", func(s *State) float64 { return s.Budget.PumpHeat }),
}

// BudgetTerms lists the keys of the temperature budget in the order in which
// heat meets them on its way from the chip to the room, the fan heat last.
var BudgetTerms = []string{
	"budget_pump_heat", "budget_coolant_film", "budget_wall", "budget_fin",
	"budget_air_film", "budget_capacity", "budget_fan_heat",
}
