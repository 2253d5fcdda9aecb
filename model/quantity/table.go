package quantity

// Quantity is one thing that finduel reads or writes.
type Quantity struct {
	Key    string // letters, digits and underscores: the word in study files and column headers
	Symbol string // as in formulas, e.g. "ΔT"
	Kind   Kind   // what it measures; the number itself is kept in the SI unit of the kind
	Shown  Unit   // the unit it is shown in
	Label  string // in words, lower case, for axes and tables
}

// Column returns the header of the quantity's column in a table: its key and its
// shown unit, e.g. "coolant_over_air_K"; the key alone for a pure number.
func (q Quantity) Column() string {
	if q.Shown.Name == "" {
		return q.Key
	}
	return q.Key + "_" + q.Shown.Name
}

// Title returns the label with the shown unit behind it, e.g. "fan speed, rpm",
// for the axis of a chart or the head of a table.
func (q Quantity) Title() string {
	if q.Shown.Symbol == "" {
		return q.Label
	}
	return q.Label + ", " + q.Shown.Symbol
}

// Of returns the quantity with the key, and false if there is none.
func Of(key string) (Quantity, bool) {
	for _, q := range Table {
		if q.Key == key {
			return q, true
		}
	}
	return Quantity{}, false
}

// Must returns the quantity with the key. It is for keys written in code, where
// a missing one is a mistake of the programmer: it panics then.
func Must(key string) Quantity {
	q, ok := Of(key)
	if !ok {
		panic("quantity: no quantity " + key)
	}
	return q
}

// in returns the unit of the kind written as symbol, for the table below.
func in(kind Kind, symbol string) Unit {
	u, ok := Find(kind, symbol)
	if !ok {
		panic("quantity: no unit " + symbol)
	}
	return u
}

func entry(key, symbol string, kind Kind, shown, label string) Quantity {
	return Quantity{Key: key, Symbol: symbol, Kind: kind, Shown: in(kind, shown), Label: label}
}

// Table lists every quantity: first what a setup is given, then what the model
// answers.
var Table = []Quantity{
	// The room.
	entry("air_temperature", "T_room", Temperature, "°C", "room air temperature"),
	entry("altitude", "z", Length, "m", "altitude"),
	entry("humidity", "φ", Ratio, "%", "relative humidity"),
	entry("listener_distance", "r", Length, "m", "distance of the listener"),
	entry("operator_distance", "r_o", Length, "m", "distance of the operator"),
	entry("session_duration", "t_s", Duration, "min", "duration of the session a day"),
	entry("room_surface", "S", Area, "m²", "surface of the room"),
	entry("room_absorption", "α", Ratio, "%", "share of the sound that the room's surface absorbs"),
	entry("room_directivity", "Q_d", Ratio, "", "directivity of the fans' place in the room"),
	// The heat.
	entry("heat_load", "Q", Power, "W", "heat load"),
	entry("plate_resistance", "R_plate", Resistance, "K/W", "plate resistance"),
	entry("pump_power", "P_pump", Power, "W", "pump heat"),
	// The coolant.
	entry("coolant_flow", "V_c", VolumeFlow, "L/min", "coolant flow"),
	entry("glycol_share", "x", Ratio, "%", "glycol share by mass"),
	entry("pump_head", "p_p0", Pressure, "kPa", "shut-off pressure of the pump"),
	entry("pump_free_flow", "V_p0", VolumeFlow, "L/h", "free flow of the pump"),
	entry("pump_exponent", "e", Ratio, "", "exponent of the pump curve"),
	entry("loop_drop", "Δp_l", Pressure, "kPa", "pressure drop of plate and hoses at their stated flow"),
	entry("loop_drop_flow", "V_l", VolumeFlow, "L/min", "stated flow of plate and hoses"),
	// The core.
	entry("face_length", "L", Length, "mm", "face length along the tubes"),
	entry("face_width", "W", Length, "mm", "face width across the tubes"),
	entry("face_area", "A_fr", Area, "cm²", "face area"),
	entry("fin_depth", "F_d", Length, "mm", "fin depth"),
	entry("overall_thickness", "t_all", Length, "mm", "overall thickness with housing"),
	entry("fin_density", "1/F_p", FinDensity, "fpi", "fin density"),
	entry("fin_height", "F_l", Length, "mm", "fin height between tubes"),
	entry("fin_thickness", "δ_f", Length, "mm", "fin thickness"),
	entry("fin_conductivity", "k_f", Conductivity, "W/(m K)", "fin conductivity"),
	entry("louver_pitch", "L_p", Length, "mm", "louver pitch"),
	entry("louver_length", "L_l", Length, "mm", "louver length"),
	entry("louver_angle", "θ", Angle, "deg", "louver angle"),
	entry("strip_length", "l", Length, "mm", "strip length"),
	entry("tube_height", "D_m", Length, "mm", "tube height across the air"),
	entry("tube_wall", "δ_w", Length, "mm", "tube wall"),
	entry("tube_conductivity", "k_w", Conductivity, "W/(m K)", "tube conductivity"),
	entry("tube_roughness", "k_s", Length, "mm", "roughness inside the tubes"),
	entry("port_diameter", "D_p", Length, "mm", "bore of the coolant ports"),
	entry("passes", "n_p", Count, "", "coolant passes"),
	entry("stacked", "n_s", Count, "", "cores behind one another"),
	// The fans.
	entry("fan_speed", "N", Speed, "rpm", "fan speed"),
	entry("fans", "n", Count, "", "number of fans"),
	entry("stopped_fans", "k", Count, "", "fans standing still"),
	entry("rated_speed", "N_0", Speed, "rpm", "rated speed"),
	entry("free_air_flow", "V_0", VolumeFlow, "m³/h", "free-air flow at rated speed"),
	entry("shut_off_pressure", "p_0", Pressure, "Pa", "shut-off pressure at rated speed"),
	entry("rated_power", "P_0", Power, "W", "power at rated speed"),
	entry("electronics_loss", "P_e", Power, "W", "fixed loss of the fan's electronics"),
	entry("rated_sound", "L_0", SoundLevel, "dBA", "sound at rated speed and 1 m"),
	entry("sound_exponent", "e_s", Ratio, "", "rise of sound over a tenfold speed in dB"),
	entry("sound_doubt", "ΔL_0", LevelDifference, "dB", "doubt of the fan's sound, either way"),
	entry("rated_density", "ρ_0", Density, "kg/m³", "air density of the rating"),
	entry("top_speed", "N_max", Speed, "rpm", "top speed"),
	entry("curve_exponent", "m", Ratio, "", "exponent of the fan curve"),
	entry("rotor_diameter", "D", Length, "mm", "rotor diameter"),
	entry("blades", "B", Count, "", "number of blades"),
	entry("pitch", "P_b", Length, "mm", "pitch of the propeller"),
	entry("thrust_coefficient", "CT0", Ratio, "", "static thrust coefficient"),
	entry("power_coefficient", "CP0", Ratio, "", "static power coefficient"),
	entry("speed_constant", "Kv", SpeedConstant, "rpm/V", "speed constant of the motor"),
	entry("winding_resistance", "R_m", ElectricalResistance, "mohm", "winding resistance of the motor"),
	entry("no_load_current", "I_0", Current, "A", "no-load current of the motor"),
	entry("motor_most_current", "I_m", Current, "A", "most current of the motor"),
	entry("controller_efficiency", "η_c", Ratio, "%", "efficiency of the controller"),
	entry("controller_idle_power", "P_i", Power, "W", "power of the controller at idle"),
	entry("controller_most_current", "I_e", Current, "A", "most current of the controller"),
	entry("drive_voltage", "U", Voltage, "V", "drive voltage"),
	entry("motor_efficiency", "η_m", Ratio, "%", "motor efficiency"),
	// How they are installed.
	entry("grille_loss", "K_g", Ratio, "", "loss of grille or filter in heads of face velocity"),
	entry("leakage", "λ", Ratio, "%", "share of the fans' air that misses the fins"),
	entry("hub_shadow", "s_h", Ratio, "%", "share of the face in the shadow of hubs and corners"),
	entry("dust", "s_d", Ratio, "%", "share of the air passages closed by dust"),
	entry("series_loss", "s_s", Ratio, "%", "share of the pressure lost in push-pull"),
	// What is known better than the correlations.
	entry("air_film_correction", "c_h", Ratio, "%", "correction of the air film"),
	entry("air_friction_correction", "c_f", Ratio, "%", "correction of the core's air pressure drop"),
	entry("coolant_film_correction", "c_c", Ratio, "%", "correction of the coolant film"),
	entry("coolant_viscosity_correction", "c_μ", Ratio, "%", "correction of the coolant's viscosity"),
	entry("coolant_conductivity_correction", "c_λ", Ratio, "%", "correction of the coolant's conductivity"),
	entry("coolant_specific_heat_correction", "c_cp", Ratio, "%", "correction of the coolant's specific heat"),
	entry("air_density_correction", "c_ρ", Ratio, "%", "correction of the air's density"),
	entry("air_viscosity_correction", "c_μa", Ratio, "%", "correction of the air's viscosity"),
	entry("air_conductivity_correction", "c_λa", Ratio, "%", "correction of the air's conductivity"),
	entry("air_specific_heat_correction", "c_cpa", Ratio, "%", "correction of the air's specific heat"),
	entry("fan_pressure_correction", "c_p", Ratio, "%", "correction of the fans' pressure"),
	// Readings of their sound.
	entry("reading_speed", "N_i", Speed, "rpm", "fan speed of a sound reading"),
	entry("reading_sound", "L_i", SoundLevel, "dBA", "sound reading"),
	// How the setup is built.
	entry("hub_ratio", "r_h/R", Ratio, "", "hub over rotor diameter"),
	entry("fragment_mass", "m_f", Mass, "g", "mass of a blade that may come off"),
	entry("wire_gauge", "AWG", Count, "", "wire gauge"),
	entry("wire_area", "A_w", Area, "mm²", "conductor area of the wire"),
	entry("wire_length", "l_w", Length, "m", "length of the wire one way"),
	entry("connector_rating", "I_c", Current, "A", "rated current of the connector"),
	entry("supply_rating", "I_s", Current, "A", "rated current of the supply"),
	entry("fuse_rating", "I_f", Current, "A", "rated current of the fuse"),
	entry("guard_opening", "e_g", Length, "mm", "opening of the guard"),
	entry("guard_distance", "s_r", Length, "mm", "distance from the guard to the blades"),
	// What the model answers: temperatures.
	entry("coolant_over_air", "ΔT", TemperatureDifference, "K", "coolant over air"),
	entry("coolant_mean_over_air", "ΔT_mean", TemperatureDifference, "K", "mean coolant over air"),
	entry("chip_over_air", "ΔT_chip", TemperatureDifference, "K", "chip over air"),
	entry("coolant_inlet_temperature", "T_c1", Temperature, "°C", "coolant entering the core"),
	entry("coolant_outlet_temperature", "T_c2", Temperature, "°C", "coolant leaving the core"),
	entry("core_air_temperature", "T_a1", Temperature, "°C", "air entering the core"),
	entry("air_outlet_temperature", "T_a2", Temperature, "°C", "air leaving the core"),
	entry("chip_temperature", "T_chip", Temperature, "°C", "chip temperature"),
	entry("heat_rejected", "Q_all", Power, "W", "heat rejected by the core"),
	entry("conductance", "G", Conductance, "W/K", "conductance, coolant inlet to room air"),
	entry("air_capacity", "C_a", Conductance, "W/K", "air capacity rate, a limit of conductance"),
	// Air.
	entry("airflow", "V_a", VolumeFlow, "m³/h", "airflow through the core, at room density"),
	entry("air_mass_flow", "m_a", MassFlow, "g/s", "air mass flow"),
	entry("face_velocity", "w", Velocity, "m/s", "face velocity"),
	entry("core_pressure_drop", "Δp", Pressure, "Pa", "pressure drop of the core"),
	entry("static_pressure", "p", Pressure, "Pa", "static pressure"),
	entry("free_flow_share", "V/V_0", Ratio, "%", "share of free-air flow"),
	entry("hanging_airflow", "V_h", VolumeFlow, "m³/h", "airflow at which the fans may hang in stall"),
	entry("highest_hanging_airflow", "V_h2", VolumeFlow, "m³/h", "highest airflow at which the fans may hang"),
	entry("stall_onset", "V_s/V_0", Ratio, "%", "share of free-air flow at which stall begins"),
	entry("stall_margin", "m_s", Ratio, "%", "margin to stall, as a share of free-air flow"),
	entry("air_power", "P_a", Power, "W", "air power, static pressure times flow"),
	entry("air_reynolds", "Re_a", Ratio, "", "Reynolds number of the air passages"),
	// Exchange.
	entry("air_film", "h_a", FilmCoefficient, "W/(m2 K)", "air film coefficient"),
	entry("fin_efficiency", "η_f", Ratio, "%", "fin efficiency"),
	entry("coolant_film", "h_c", FilmCoefficient, "W/(m2 K)", "coolant film coefficient"),
	entry("coolant_reynolds", "Re_c", Ratio, "", "Reynolds number in the tubes"),
	entry("loop_flow", "V_loop", VolumeFlow, "L/min", "coolant flow in the loop"),
	entry("coolant_pressure_drop", "Δp_c", Pressure, "kPa", "pressure drop of the coolant in the core"),
	entry("core_conductance", "UA", Conductance, "W/K", "conductance of the core's walls and films"),
	entry("ntu", "NTU", Ratio, "", "number of transfer units"),
	entry("capacity_ratio", "C", Ratio, "", "capacity ratio"),
	entry("effectiveness", "ε", Ratio, "", "effectiveness"),
	entry("fan_doubt_low", "Δp_low", Ratio, "%", "doubt of the fans' pressure, low end"),
	entry("fan_doubt_high", "Δp_high", Ratio, "%", "doubt of the fans' pressure, high end"),
	entry("film_doubt_low", "Δh_low", Ratio, "%", "doubt of the air film, low end"),
	entry("film_doubt_high", "Δh_high", Ratio, "%", "doubt of the air film, high end"),
	entry("friction_doubt_low", "Δf_low", Ratio, "%", "doubt of the friction in the core, low end"),
	entry("friction_doubt_high", "Δf_high", Ratio, "%", "doubt of the friction in the core, high end"),
	entry("coolant_viscosity_doubt", "δμ_c", Ratio, "%", "doubt of the coolant's viscosity, either way"),
	// What it costs.
	entry("fan_power", "P", Power, "W", "electrical power of the fans"),
	entry("motor_power", "P_m", Power, "W", "power into the fans' motors"),
	entry("shaft_power", "P_s", Power, "W", "shaft power of the fans"),
	entry("shaft_torque", "M", Torque, "mN·m", "torque on the shaft of a fan"),
	entry("drive_current", "I", Current, "A", "drive current of the fans"),
	entry("throttle", "d", Ratio, "%", "throttle of the controller"),
	entry("motor_voltage", "U_m", Voltage, "V", "voltage of a motor"),
	entry("motor_current", "I_m1", Current, "A", "current of a motor"),
	entry("wire_drop", "ΔU_w", Voltage, "V", "voltage lost in the wires, at 75 °C"),
	entry("rotor_reynolds", "Re_r", Ratio, "", "Reynolds number of the rotor"),
	entry("tip_speed", "u", Velocity, "m/s", "tip speed"),
	entry("sound", "L_A", SoundLevel, "dBA", "sound at the listener"),
	entry("blade_passing_frequency", "f_b", Frequency, "Hz", "blade passing frequency"),
	entry("operator_sound", "L_o", SoundLevel, "dBA", "sound at the operator"),
	entry("stall_sound", "ΔL_s", LevelDifference, "dB", "of the sound, added by stall"),
	entry("sound_doubt_low", "ΔL_low", LevelDifference, "dB", "doubt of the sound, low end"),
	entry("sound_doubt_high", "ΔL_high", LevelDifference, "dB", "doubt of the sound, high end"),
	entry("exposure_limit", "t_max", Duration, "min", "permitted daily exposure (NIOSH 98-126)"),
	entry("exposure_limit_osha", "t_OSHA", Duration, "min", "permitted daily exposure (29 CFR 1910.95)"),
	entry("lower_action_time", "t_80", Duration, "min", "time to the lower action value (2003/10/EC)"),
	entry("upper_action_time", "t_85", Duration, "min", "time to the upper action value (2003/10/EC)"),
	entry("limit_value_time", "t_87", Duration, "min", "time to the exposure limit value (2003/10/EC)"),
	entry("niosh_dose", "D_N", Ratio, "%", "dose of the session (NIOSH 98-126)"),
	entry("osha_dose", "D_O", Ratio, "%", "dose of the session (29 CFR 1910.95)"),
	entry("daily_exposure", "L_EX", SoundLevel, "dBA", "daily exposure level of the session"),
	// What it may do.
	entry("operator_sound_high", "L_o,high", SoundLevel, "dBA", "highest sound at the operator within its doubt"),
	entry("tip_mach", "Ma", Ratio, "", "tip Mach number"),
	entry("blade_stress", "σ_b", Stress, "MPa", "stress at the blade root from rotation"),
	entry("blade_load", "σ_b/σ_max", Ratio, "%", "of what the blades may bear"),
	entry("fragment_energy", "E_f", Energy, "J", "energy of a blade that comes off"),
	entry("shroud_temperature", "T_s", Temperature, "°C", "hottest that the shroud touches"),
	entry("voltage_drop", "ΔU", Voltage, "V", "voltage drop of the wire, out and back"),
	entry("voltage_drop_share", "ΔU/U", Ratio, "%", "voltage drop of the wire over the voltage"),
	// The temperature budget.
	entry("budget_fan_heat", "ΔT_fan", TemperatureDifference, "K", "fan heat"),
	entry("budget_air_film", "ΔT_air", TemperatureDifference, "K", "air film"),
	entry("budget_fin", "ΔT_fin", TemperatureDifference, "K", "fin"),
	entry("budget_wall", "ΔT_wall", TemperatureDifference, "K", "wall"),
	entry("budget_coolant_film", "ΔT_cool", TemperatureDifference, "K", "coolant film"),
	entry("budget_capacity", "ΔT_cap", TemperatureDifference, "K", "capacity"),
	entry("budget_pump_heat", "ΔT_pump", TemperatureDifference, "K", "pump heat"),
	// The comparison.
	entry("reference_over_air", "ΔT_ref", TemperatureDifference, "K", "reference over air"),
	entry("difference", "Δ", TemperatureDifference, "K", "challenger minus reference"),
	entry("breakeven_speed", "N_be", Speed, "rpm", "break-even speed"),
	entry("breakeven_upper_speed", "N_be2", Speed, "rpm", "upper end of the break-even band"),
	entry("best_speed", "N_best", Speed, "rpm", "best speed"),
	entry("sensible_speed", "N_s", Speed, "rpm", "sensible speed"),
	entry("tie_from", "N_t1", Speed, "rpm", "tie from"),
	entry("tie_to", "N_t2", Speed, "rpm", "tie to"),
	entry("margin", "δ", TemperatureDifference, "K", "margin"),
	entry("slope", "dΔ/dN", SpeedSlope, "K/1000rpm", "slope of the difference"),
}
