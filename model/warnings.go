package model

import "finduel/model/fan"

// Warnings is a set of facts about a State that its reader must know: the value
// stands, but on weaker ground. The zero value is the empty set.
type Warnings uint64

// The warnings, in order of weight.
const (
	AirReynoldsLow            Warnings = 1 << iota // air side below the range of the correlations
	AirReynoldsHigh                                // air side above the range of the correlations
	CoreOutsideRange                               // a dimension of the core outside the range of the correlations
	StalledDeep                                    // fan pushed back below 35 % of its free-air flow
	BelowValley                                    // fan pushed back below the valley of its measured curve
	StallRegion                                    // fan between 35 % and 60 % of its free-air flow
	AboveTopSpeed                                  // fan faster than its top speed
	TipMachHigh                                    // tip Mach number beyond the fan laws
	Compressible                                   // pressure beyond the fan laws
	CapacityLimited                                // air leaves nearly as warm as the coolant enters
	CoolantTransition                              // coolant between laminar and turbulent
	HumidAir                                       // more vapour than the air's viscosity and conductivity account for
	BoilsHere                                      // coolant above the boiling point of water at the room's pressure
	CoolantExtrapolated                            // coolant warmer than the data behind its formulas
	CoolantViscosity                               // viscosity of the coolant in doubt by coolant.ViscosityDoubt
	PumpPowerLow                                   // pump's power below what its flow and pressure take
	CoolantLimited                                 // coolant leaves nearly as cold as the air enters
	ChipCold                                       // chip colder than the coolant that leaves its plate
	InsideSaddle                                   // fan inside a saddle of its measured curve
	MayHang                                        // fan curve meets the core at a lower airflow too
	BladesStalled                                  // propeller left of its static point, where there are no data
	RotorExtrapolated                              // propeller faster than any that was measured
	RotorLentFastest                               // coefficients lent for a rated speed faster than their propeller was measured at
	RotorTooSlow                                   // propeller slower than the one that lends its coefficients was measured
	RotorBorrowed                                  // coefficients of another propeller
	DuctNarrows                                    // rotor discs larger than the face, with a duct between
	RotorSlow                                      // rotor Reynolds number below what the fan laws were seen to hold for
	AirPowerHigh                                   // fans make more air power than their shafts carry
	SoundExtrapolated                              // speed beyond those of the sound readings
	SupplyVoltageExceeded                          // drive: more than full throttle
	SupplyCurrentExceeded                          // drive: more than the supply may give
	MotorCurrentExceeded                           // drive: more than the motor may draw
	ControllerCurrentExceeded                      // drive: more than the controller may carry
	SupplyCollapses                                // drive: more than the wires pass
	allWarnings               = iota
)

// OutOfReach holds every warning of a speed that the fans' drive does not reach.
const OutOfReach = SupplyVoltageExceeded | SupplyCurrentExceeded | MotorCurrentExceeded | ControllerCurrentExceeded | SupplyCollapses

// Exceeded returns which limits of the fans' drive the set tells of.
func (s Warnings) Exceeded() fan.Limit {
	var l fan.Limit
	for _, pair := range []struct {
		bit   Warnings
		limit fan.Limit
	}{
		{SupplyVoltageExceeded, fan.SupplyVoltage}, {SupplyCurrentExceeded, fan.SupplyCurrent}, {MotorCurrentExceeded, fan.MotorCurrent},
		{ControllerCurrentExceeded, fan.ControllerCurrent}, {SupplyCollapses, fan.SupplyCollapse},
	} {
		if s.Has(pair.bit) {
			l |= pair.limit
		}
	}
	return l
}

// warningTexts holds key and text of each warning, in the order of the
// constants.
var warningTexts = [allWarnings][2]string{
	{"air_reynolds_low", "air flow below the range of the correlations: the film and pressure drop rest on our own extension towards the channel limit"},
	{"air_reynolds_high", "air flow above the range of the correlations"},
	{"core_outside_range", "a dimension of the core lies outside the data behind the correlations, or behind our extension of them"},
	{"stalled_deep", "the fan is pushed back below 35 % of its free-air flow: expect stall, noise and less flow than computed"},
	{"below_valley", "the fan is pushed back below the valley of its measured curve: expect stall, noise and less flow than computed"},
	{"stall_region", "the fan works between 35 % and 60 % of its free-air flow, where axial fans often have a saddle"},
	{"above_top_speed", "the fan turns faster than its top speed"},
	{"tip_mach_high", "the blade tips turn beyond Mach 0.3: the fan laws begin to fail"},
	{"compressible", "the fans' pressure is beyond 2 kPa: the fan laws, which leave compression out, begin to fail"},
	{"capacity_limited", "the air leaves nearly as warm as the coolant enters: only more air would help"},
	{"coolant_transition", "the coolant flow is between laminar and turbulent: its film is interpolated"},
	{"humid_air", "the air holds more than 5 % vapour, which its viscosity and conductivity do not account for: both are a few per cent too high"},
	{"boils_here", "the coolant is hotter than water boils at this altitude: it stays liquid only in a closed loop under pressure"},
	{"coolant_extrapolated", "above 40 °C the formulas of glycol mixtures go beyond the data they were fitted to: the conductivity may be off by 1 % up to 60 °C, by 5 % at 100 °C"},
	{"coolant_viscosity", "the viscosity of glycol mixtures is known to ±6 %, below 30 °C less well: that is how far published tables differ"},
	{"pump_power_low", "the pump puts more power into the flow than the pump heat that is given: heat is missing from the balance"},
	{"coolant_limited", "the coolant leaves nearly as cold as the air enters: only more coolant would help"},
	{"chip_cold", "the chip would be colder than the coolant that leaves its plate: at this flow the plate resistance cannot be so small"},
	{"inside_saddle", "the fan works inside a saddle of its measured curve: it may hunt, and is louder"},
	{"may_hang", "the fan's curve meets the core at a lower airflow too, or at several: after a start or a gust it may hang there in stall"},
	{"blades_stalled", "the core holds the propeller back to less flow than it moves in the open: its blades stall, nothing was measured there, and the pressure may be a third lower or two fifths higher"},
	{"rotor_extrapolated", "the propeller turns faster than 10 000 rpm, the fastest that any was measured at"},
	{"rotor_lent_fastest", "the propeller's lent coefficients are those of the highest speed that their propeller was measured at: the rated speed, at equal Reynolds number, is higher"},
	{"rotor_too_slow", "the propeller turns slower, at equal Reynolds number, than the one whose coefficients it has was measured: slow propellers push less and take more power"},
	{"rotor_borrowed", "the coefficients are those of the nearest propeller that was measured, not of this one"},
	{"duct_narrows", "the discs of the fans are together larger than the core's face, and the duct between them is taken to lose nothing: expect less flow than computed, or state how it is with another shroud, blocked or open"},
	{"rotor_slow", "the rotor's Reynolds number is below 20 000, where the fan laws were not seen to hold: less flow than computed is likely"},
	{"air_power_high", "the fan would make more air power than its shaft carries: its flow, pressure or power is wrong, or its motor is better than motor_efficiency says"},
	{"sound_extrapolated", "the fan turns slower or faster, by more than a tenth, than where its sound was read: the level is carried on, and may be out by more than its doubt says"},
	{"supply_voltage_exceeded", "this speed is out of reach: the motor needs more voltage than the supply leaves it"},
	{"supply_current_exceeded", "this speed takes more current than the supply is rated for"},
	{"motor_current_exceeded", "this speed takes more current than the motor may draw"},
	{"controller_current_exceeded", "this speed takes more current than the controller may carry"},
	{"supply_collapses", "this speed is out of reach: the wires do not pass so much power at this voltage"},
}

// Warning is one warning in words.
type Warning struct {
	Bit  Warnings // one of the constants
	Key  string   // for tables: letters and underscores
	Text string   // a sentence without its full stop
}

// Has reports whether the set holds all of w.
func (s Warnings) Has(w Warnings) bool { return s&w == w }

// List returns the warnings of the set in words, in order of weight.
func (s Warnings) List() []Warning {
	var list []Warning
	for i, t := range warningTexts {
		if bit := Warnings(1) << i; s.Has(bit) {
			list = append(list, Warning{Bit: bit, Key: t[0], Text: t[1]})
		}
	}
	return list
}

// Keys returns the keys of the set joined by a semicolon, empty for the empty
// set.
func (s Warnings) Keys() string {
	keys := ""
	for _, w := range s.List() {
		if keys != "" {
			keys += ";"
		}
		keys += w.Key
	}
	return keys
}
