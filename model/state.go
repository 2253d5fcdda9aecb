package model

import "finduel/model/core"

// State is what Evaluate answers for one Rig. Every field is finite.
type State struct {
	// Temperatures.
	CoolantOverAir           float64 // coolant entering the core minus room air, K
	CoolantMeanOverAir       float64 // mean of coolant entering and leaving minus room air, K
	ChipOverAir              float64 // coolant leaving the core + load · plate resistance, minus room air, K
	CoolantInletTemperature  float64 // coolant entering the core, K
	CoolantOutletTemperature float64 // coolant leaving the core, K
	CoreAirTemperature       float64 // air entering the core, K: room air, in push warmed by the fans
	AirOutletTemperature     float64 // mixed air leaving the core, K; in pull before leakage and fans
	ChipTemperature          float64 // K
	HeatRejected             float64 // load + pump heat, W
	Conductance              float64 // heat rejected over coolant over air (inlet), W/K
	AirCapacity              float64 // ṁ·cp of the air, W/K: no core can conduct more

	// Air, through the core; what leaks past it is the fans' alone.
	Airflow          float64 // volume flow at room density, m³/s
	AirMassFlow      float64 // kg/s
	FaceVelocity     float64 // airflow over face area, m/s
	CorePressureDrop float64 // Pa; the fans make that of a grille too
	FreeFlowShare    float64 // volume flow of a fan, leakage included, over its free-air flow at this speed, 0 to 1; in push-pull that of the side nearer to stall
	StallOnset       float64 // free-flow share below which a fan is in stall, or without data, see fan.Stall; 0: no stall known
	StallMargin      float64 // free-flow share above that, negative in stall; without meaning if no stall is known
	HangingAirflow   float64 // lowest airflow at which the fans may hang in stall instead, m³/s; 0: nowhere
	HighestHanging   float64 // highest of several, m³/s; 0: one or none. A curve of three saddles may have more between
	AirReynolds      float64 // of the air passages; length: louver pitch (louvered), hydraulic diameter (all others)

	// Coolant.
	CoolantFlow         float64 // volume flow, given or where the pump meets the loop, m³/s
	CoolantPressureDrop float64 // of the core, from port to port, Pa

	// Exchange.
	AirFilm         float64 // W/(m² K)
	FinEfficiency   float64 // 0 to 1
	CoolantFilm     float64 // W/(m² K)
	CoolantReynolds float64 // on the hydraulic diameter of the tube bore
	CoreConductance float64 // UA, W/K
	NTU             float64 // UA over the smaller capacity rate
	CapacityRatio   float64 // smaller over larger capacity rate, 0 to 1
	Effectiveness   float64 // heat over the smaller capacity rate times the inlet temperature difference, 0 to 1

	// What it costs.
	FanPower      float64 // electrical power of all fans, W
	MotorPower    float64 // of it, what goes into the motors, W
	ShaftPower    float64 // of it, what goes into the rotors, W
	ShaftTorque   float64 // between the motor and the rotor of one fan, N m; in push-pull that of the side that takes more
	AirPower      float64 // of it, static pressure times volume flow, leakage included, W
	DriveCurrent  float64 // of all fans at the drive voltage, A
	TipSpeed      float64 // m/s
	TipMach       float64 // tip speed over the speed of sound in room air
	RotorReynolds float64 // of the rotor, on its diameter and tip speed, in room air
	BladePassing  float64 // blade passing frequency, Hz; 0: number of blades not known
	Sound         float64 // of all fans at the listener, dB(A)
	OperatorSound float64 // of all fans at the operator, dB(A)
	WireDrop      float64 // voltage lost in the wires, whose copper is at hazard.HotWire, V; in push-pull of known motors as for the side that takes more; 0: wires not known

	StallSound     float64 // by how much stall makes both louder, dB; see sound.StallPenalty
	SoundDoubtLow  float64 // how far both may be out, dB; low end, negative; wider in stall, see sound.StallDoubt
	SoundDoubtHigh float64 // high end

	// Of a fan whose motor is known, in push-pull that of the side that takes more; else 0.
	Throttle     float64 // duty of its controller; above 1 out of reach
	MotorVoltage float64 // V
	MotorCurrent float64 // A

	// The operator's exposure; see sound.Dose.
	ExposureLimit   float64 // permitted a day after NIOSH 98-126, s
	OSHALimit       float64 // permitted a day after 29 CFR 1910.95, s
	LowerActionTime float64 // a day to the lower action value of 2003/10/EC, s
	UpperActionTime float64 // a day to its upper action value, s
	LimitValueTime  float64 // a day to its exposure limit value, s; nothing taken off by hearing protection
	NIOSHDose       float64 // of the session, over what is permitted
	OSHADose        float64 // of the session, over what is permitted
	DailyExposure   float64 // level of the session over 8 h, dB(A)

	FanDoubtLow  float64    // how far the fans' static pressure may be out, as a share, see fan.Fan.PressureDoubt; low end, negative
	FanDoubtHigh float64    // high end
	Doubt        core.Doubt // how far the air film and the friction may be out, for a core of unknown make

	CoolantViscosityDoubt float64 // how far the coolant's viscosity may be out either way, relative, 0 to 1
	Budget                Budget
	Warnings              Warnings // what a reader must know before trusting the numbers; none if zero
}

// Budget splits coolant over air (inlet) into the steps of temperature that make
// it up. All terms are in K and none is negative. The exchange terms carry the
// heat load; what the pump adds to them all is its own term.
type Budget struct {
	FanHeat     float64 // air warmed by the fans before the core; 0 in pull
	AirFilm     float64 // between air and fin surface, were the fins all at root temperature
	Fin         float64 // because the fins are cooler away from their roots
	Wall        float64 // through the tube wall
	CoolantFilm float64 // between tube wall and coolant
	Capacity    float64 // because the air warms up and the coolant cools down on their way
	PumpHeat    float64 // because the core must also carry the pump's heat
}

// Sum returns the sum of all terms, K: coolant over air (inlet).
func (b Budget) Sum() float64 {
	return b.FanHeat + b.AirFilm + b.Fin + b.Wall + b.CoolantFilm + b.Capacity + b.PumpHeat
}
