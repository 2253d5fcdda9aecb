package model

// Measured is what a bench would read of a rig at a known airflow, with fans and core
// each by itself: not where they are in balance.
type Measured struct {
	FanPressure  float64 // static, of all fans in room air, Pa; negative beyond free air
	PressureDrop float64 // of the core alone, in air of the room's temperature, Pa
	Conductance  float64 // of the core, from coolant to air, W/K; NaN where a pump meets no flow
	CoolantFlow  float64 // m³/s; NaN likewise
}

// Measure returns what a bench would read at a fan speed in rev/s and a volume flow of
// room air through the core in m³/s, both above 0. Nothing is searched for: coolant and
// air film have the temperatures of air that takes up the heat at this flow.
//
// Check: at the airflow of a State, FanPressure is the state's to what warm air changes.
func (p *Ready) Measure(speed, airflow float64) Measured {
	s := stream{massFlow: airflow * p.room, inlet: p.rig.Room.Temperature, outlet: p.rig.Room.Temperature}
	if p.rig.Placing.Before() {
		s.front = p.bankAt(&p.rig.Fans, speed, s.massFlow, p.room)
	}
	if p.rig.Placing.Behind() {
		s.behind = p.bankAt(&p.behind, speed, s.massFlow, p.room)
	}
	drop := p.core.PressureDrop(s.massFlow, p.room, p.room, p.air.Viscosity(s.inlet)) * (1 + p.rig.Correction.AirFriction)
	s.outlet += p.heat / (s.massFlow * p.specificHeat)
	var e exchange
	p.airExchange(&e, &s)
	p.coolantExchange(&e, &s, s.outlet)
	return Measured{p.pressure(&s), drop, e.conductance, e.coolantFlow}
}
