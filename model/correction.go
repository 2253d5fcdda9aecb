package model

import (
	"errors"

	"finduel/model/quantity"
)

// Correction changes what correlations and data sheets say of one setup, each by a
// relative change: 0 leaves it, 0.1 makes it a tenth more. It carries what was
// measured on a setup into the model, and what may be wrong with it into its doubt.
// The zero value changes nothing. All from -0.9 to 9.
type Correction struct {
	AirFilm          float64 // of the air film coefficient
	AirFriction      float64 // of the core's pressure drop on the air side
	CoolantFilm      float64 // of the coolant film coefficient
	CoolantViscosity float64 // of the coolant's dynamic viscosity

	CoolantConductivity float64 // of the coolant's thermal conductivity
	CoolantSpecificHeat float64 // of the coolant's specific heat
	AirDensity          float64 // of the air's density, as by the weather's pressure
	AirViscosity        float64 // of the air's dynamic viscosity
	AirConductivity     float64 // of the air's thermal conductivity
	AirSpecificHeat     float64 // of the air's specific heat

	FanPressure float64 // of the fans' pressure at any flow; the free-air flow stays
}

// The range of a correction.
const (
	lowestCorrection  = -0.9
	highestCorrection = 9
)

// Check returns joined *quantity.RangeError for what is out of range.
func (c Correction) Check() error {
	return errors.Join(
		correction(c.AirFilm, "air_film_correction"),
		correction(c.AirFriction, "air_friction_correction"),
		correction(c.CoolantFilm, "coolant_film_correction"),
		correction(c.CoolantViscosity, "coolant_viscosity_correction"),
		correction(c.CoolantConductivity, "coolant_conductivity_correction"),
		correction(c.CoolantSpecificHeat, "coolant_specific_heat_correction"),
		correction(c.AirDensity, "air_density_correction"),
		correction(c.AirViscosity, "air_viscosity_correction"),
		correction(c.AirConductivity, "air_conductivity_correction"),
		correction(c.AirSpecificHeat, "air_specific_heat_correction"),
		correction(c.FanPressure, "fan_pressure_correction"),
	)
}

func correction(v float64, key string) error {
	if v >= lowestCorrection && v <= highestCorrection {
		return nil
	}
	return &quantity.RangeError{Key: key, Value: v, Low: lowestCorrection, High: highestCorrection, Rule: "must lie between -90 % and 900 %"}
}
