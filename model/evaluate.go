package model

import (
	"errors"
	"math"

	"finduel/model/air"
	"finduel/model/coolant"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/pump"
	"finduel/model/quantity"
	"finduel/model/solve"
	"finduel/model/sound"
)

// Reasons why a Rig has no State.
var (
	ErrBoils   = errors.New("the coolant would boil: the setup cannot carry the heat below the boiling point")
	ErrFreezes = errors.New("the coolant would freeze")
	ErrNoMotor = errors.New("the fans' motors are not known")
)

// SearchError says that a search inside the model gave up, and how it ended.
type SearchError struct {
	What    string        // what was not found
	Outcome solve.Outcome // anything but Converged
}

// Error returns what was not found and how the search ended.
func (e *SearchError) Error() string { return e.What + " was not found: " + e.Outcome.String() }

// Evaluate returns the steady state of a rig. It returns joined
// *quantity.RangeError if the rig is impossible, ErrBoils or ErrFreezes if the
// coolant would leave its liquid range, and a *SearchError if a search gives up.
func Evaluate(r Rig) (State, error) {
	ready, err := Prepare(r)
	if err != nil {
		return State{}, err
	}
	return ready.At(r.Speed)
}

// Ready is a Rig made ready for any fan speed: what does not depend on the speed
// is computed once. It is a plain value; Correct alone changes it.
type Ready struct {
	rig  Rig
	core core.Core // as installed: dust and shadow taken off
	air  air.Atmosphere
	heat float64 // load and pump heat, W
	room float64 // density of room air, kg/m³

	specificHeat float64 // of the air, J/(kg K)
	viscosity    float64 // of room air, kinematic, m²/s

	share   float64 // of what the fans' curve says that goes through the core
	moving  float64 // of the fans' discs that moves air
	through float64 // of the air that the fans move that goes through the core

	turns []fan.Turn // where the fans' curve rises with flow
	dip   float64    // least pressure before the last of them ends, over shut-off pressure

	uneven bool // whether the fans' power changes with flow

	stall      fan.Stall
	behind     fan.Bank            // the bank behind the core: in push-pull fans that stand still do so before it
	rotor      *fan.Characteristic // of a propeller, else nil
	drive      fan.Drive           // of a fan whose motor is known
	soundSpeed float64             // in room air, m/s
	narrows    bool                // whether a duct narrows from the fans' discs to the face

	frontSeveral  float64 // level of all turning fans before the core less that of one, dB
	behindSeveral float64 // likewise behind it

	toListener float64 // level there less that at 1 m in a free field, dB
	toOperator float64 // likewise
	overDay    float64 // daily exposure level less that of the session, dB

	grille float64 // pressure drop of the grille over the square of the core's air mass flow, Pa s²/kg²
}

// Prepare makes a rig ready. It returns joined *quantity.RangeError if the rig is
// impossible at any speed.
func Prepare(r Rig) (Ready, error) {
	atmosphere, errAir := air.NewAtmosphere(r.Room.Temperature, r.Room.Altitude, r.Room.Humidity)
	c, errCore := core.New(r.Core)
	var rotor *fan.Characteristic
	var errFan error
	if r.Fans.Fan, rotor, errFan = r.Fans.Fan.Resolved(); errFan == nil {
		errFan = r.Fans.Check()
	}
	if err := errors.Join(errAir, errCore, errFan, r.checkConditions()); err != nil {
		return Ready{}, err
	}
	narrows := r.narrows()
	r.Fans.Fan.RotorDiameter = r.Fans.Fan.Diameter() // asked for at every speed
	c.Block(r.Installed.Dust)
	c.Shadow(r.Installed.HubShadow)
	p := Ready{
		rig: r, core: c, air: atmosphere, rotor: rotor, narrows: narrows,
		heat: r.Heat.Load + r.Heat.PumpPower,
	}
	p.correct(r.Correction)
	p.rig.Room.OperatorDistance = p.rig.Room.operator()
	if p.rig.Room.Session == 0 {
		p.rig.Room.Session = workingDay
	}
	p.through = 1 - r.Installed.Leakage
	p.share, p.moving = p.through, 1
	if r.Installed.Shroud != Ducted {
		over := fan.DiscsOnFace(r.Fans.Fan.Diameter(), r.Core.FaceLength, r.Core.FaceWidth, r.Fans.Count)
		p.share *= over
		if r.Installed.Shroud == Open {
			p.through *= over
		} else {
			p.moving = over
		}
	}
	if curve := r.Fans.Fan.Curve; curve != nil {
		p.turns, p.dip, p.uneven = curve.Turns(), curve.Dip(), curve.Uneven()
	}
	if p.driven() {
		p.drive = driveOf(&p.rig)
		if err := p.drive.Check(); err != nil {
			return Ready{}, err
		}
	}
	if p.behind = r.Fans; r.Placing == fan.PushPull {
		p.behind.Stopped = 0
	}
	p.frontSeveral, p.behindSeveral = sound.SumOfEqual(0, r.Fans.Turning()), sound.SumOfEqual(0, p.behind.Turning())
	around := &p.rig.Room
	p.toListener, p.toOperator = around.Surroundings.Level(0, around.ListenerDistance), around.Surroundings.Level(0, around.OperatorDistance)
	p.overDay = sound.DailyExposure(0, around.Session)
	p.stall, p.soundSpeed = r.Fans.Fan.Stall(), air.SpeedOfSound(r.Room.Temperature)
	return p, nil
}

// Correct puts another correction in the place of the rig's, as if the rig had been prepared
// with it. It returns joined *quantity.RangeError for what is out of range, and changes
// nothing then.
func (p *Ready) Correct(c Correction) error {
	if err := c.Check(); err != nil {
		return err
	}
	p.correct(c)
	return nil
}

// correct sets the correction and what follows from it at any speed.
func (p *Ready) correct(c Correction) {
	p.rig.Correction = c
	p.air.Correction = air.Correction{Density: c.AirDensity, Viscosity: c.AirViscosity,
		Conductivity: c.AirConductivity, SpecificHeat: c.AirSpecificHeat}
	p.room = p.air.Density(p.rig.Room.Temperature)
	p.specificHeat = p.air.SpecificHeat()
	p.viscosity = p.air.Viscosity(p.rig.Room.Temperature) / p.room
	p.grille = p.rig.Installed.GrilleLoss / (2 * p.room * p.core.FaceArea() * p.core.FaceArea())
}

// workingDay is how long an operator stays where nothing is said, s.
const workingDay = 8 * 3600

// checkConditions checks what no other package owns: heat, the coolant, listener
// and how the setup is installed.
func (r *Rig) checkConditions() error {
	return errors.Join(
		r.Coolant.Liquid.Check(),
		above(r.Heat.Load, 0, "heat_load"),
		atLeast(r.Heat.PlateResistance, 0, "plate_resistance"),
		atLeast(r.Heat.PumpPower, 0, "pump_power"),
		r.Coolant.Check(),
		above(r.Room.ListenerDistance, 0, "listener_distance"),
		atLeast(r.Room.OperatorDistance, 0, "operator_distance"),
		atLeast(r.Room.Session, 0, "session_duration"),
		r.Room.Surroundings.Check(),
		r.Build.Check(),
		r.Installed.Check(),
		r.Correction.Check(),
		known(r.Placing >= fan.Push && r.Placing <= fan.PushPull, "placing", float64(r.Placing)),
	)
}

func above(v, low float64, key string) error {
	if v > low && v <= math.MaxFloat64 {
		return nil
	}
	return &quantity.RangeError{Key: key, Value: v, Low: low, High: math.MaxFloat64, Rule: "must be above zero and finite"}
}

func atLeast(v, low float64, key string) error {
	if v >= low && v <= math.MaxFloat64 {
		return nil
	}
	return &quantity.RangeError{Key: key, Value: v, Low: low, High: math.MaxFloat64, Rule: "must be zero or more and finite"}
}

func known(is bool, key string, v float64) error {
	if is {
		return nil
	}
	return &quantity.RangeError{Key: key, Value: v, Rule: "is none of those there are"}
}

// At returns the steady state at a fan speed in rev/s, which must be above 0;
// errors are those of Evaluate.
func (p *Ready) At(speed float64) (st State, err error) {
	err = p.at(&st, speed, &hint{})
	return st, err
}

// at is At with the searches beginning where h says. It leaves the state as it is after
// an error.
func (p *Ready) at(st *State, speed float64, h *hint) error {
	if err := above(speed, 0, "fan_speed"); err != nil {
		return err
	}
	var s stream
	var e exchange
	if err := p.airStream(&s, speed, h); err != nil {
		return err
	}
	if err := p.exchange(&e, &s, h); err != nil {
		return err
	}
	p.fill(st, speed, &s, &e)
	return nil
}

// exchange is the heat's way from the coolant into the air.
type exchange struct {
	airFilm, fins, wall, coolantFilm float64 // resistances, K/W: h·A, what the fins add, wall, coolant

	h               float64 // air film coefficient, W/(m² K)
	airReynolds     float64
	finEfficiency   float64
	coolantH        float64 // W/(m² K)
	coolantReynolds float64
	airCapacity     float64 // W/K
	coolantCapacity float64 // W/K
	conductance     float64 // UA, W/K
	effectiveness   float64
	inlet, outlet   float64 // coolant temperatures, K
	film            float64 // coolant film temperature that this state asks for, K

	coolant     coolant.Properties // at the film temperature
	coolantFlow float64            // m³/s
}

// exchange closes the heat balance and fills it in: it finds the coolant temperature at which
// the core rejects the heat. The coolant's film temperature is the unknown; the one
// that is assumed and the one that follows from it are brought together. The latter
// hardly depends on the former, so that it is a good guess itself.
//
// The search begins where h says, and h is told where it ended.
func (p *Ready) exchange(e *exchange, s *stream, h *hint) error {
	const enough = 2e-9 // K; viscosity, which changes most with it, is then good to 1e-9
	p.airExchange(e, s)
	e.coolantFlow = h.pumped
	at := 0.0
	residual := func(film float64) float64 {
		at = film
		p.coolantExchange(e, s, film)
		return e.film - film
	}
	film, slope := s.outlet, -1.0
	if h.slope < 0 {
		film, slope = h.film, h.slope
	}
	r := residual(film)
	h.slope = slope
	root := solve.RootNear(residual, 0, hottestFilm, film, r, film-r/slope, enough)
	if root.Outcome != solve.Converged {
		return &SearchError{"the coolant temperature", root.Outcome}
	}
	if at != root.X {
		residual(root.X)
	}
	if root.Slope != 0 {
		h.slope = root.Slope
	}
	h.film = root.X - root.F/h.slope
	if p.rig.Coolant.Flow == 0 {
		h.pumped = e.coolantFlow
	}
	return p.liquid(e, s.inlet)
}

// hottestFilm is above any film temperature at which the search ends, K.
const hottestFilm = 1e5

// liquid returns why the coolant cannot be as hot or cold as it must: where it
// enters, where its coldest branch leaves, and on the mean tube wall of that branch;
// air is the temperature of the air entering the core, K.
func (p *Ready) liquid(e *exchange, air float64) error {
	coldest := e.inlet - p.core.Coldest(e.effectiveness, e.airCapacity, e.coolantCapacity)*(e.inlet-air)
	wall := (e.inlet+coldest)/2 - (e.inlet-coldest)*e.coolantCapacity*e.coolantFilm
	switch l := p.rig.Coolant.Liquid; {
	case e.inlet >= l.Boiling():
		return ErrBoils
	case coldest <= l.Freezing() || wall <= l.Freezing():
		return ErrFreezes
	}
	return nil
}

// airExchange fills in the air's half of the exchange. The film temperature of the
// air lies halfway between its mean and the mean surface of the fins, which is
// warmer by heat/(h·A); h at the mean temperature of the air places it to within
// a few hundredths of a kelvin.
func (p *Ready) airExchange(e *exchange, s *stream) {
	mean := s.mean()
	film := mean + p.heat/(2*p.airFilm(s.massFlow, mean)*p.core.AirArea())
	e.h = p.airFilm(s.massFlow, film)
	e.airFilm = 1 / (e.h * p.core.AirArea())
	e.finEfficiency = p.core.FinEfficiency(e.h)
	e.fins = e.airFilm/p.core.WithFins(e.finEfficiency) - e.airFilm
	e.wall = p.core.WallResistance()
	e.airCapacity = s.massFlow * p.specificHeat
	e.airReynolds = p.core.Reynolds(s.massFlow, p.air.Viscosity(film))
}

// airFilm returns the film coefficient of the air, W/(m² K), with its properties at a
// film temperature, K.
func (p *Ready) airFilm(massFlow, film float64) float64 {
	properties := air.Properties{ // all that the film needs
		Viscosity: p.air.Viscosity(film), Conductivity: p.air.Conductivity(film), SpecificHeat: p.specificHeat,
	}
	return p.core.AirFilm(massFlow, properties) * (1 + p.rig.Correction.AirFilm)
}

// coolantExchange completes the exchange with the coolant's properties at a film
// temperature. While the search passes through temperatures outside the range of
// the property formulas these are held at its ends; liquid refuses such a result.
func (p *Ready) coolantExchange(e *exchange, s *stream, film float64) {
	l := p.rig.Coolant.Liquid
	c := l.At(min(max(film, l.Freezing()), l.Boiling()))
	c.Viscosity *= 1 + p.rig.Correction.CoolantViscosity
	c.Conductivity *= 1 + p.rig.Correction.CoolantConductivity
	c.SpecificHeat *= 1 + p.rig.Correction.CoolantSpecificHeat
	flow := p.rig.Coolant.Flow
	if flow == 0 {
		flow = p.pumpFlow(c, e.coolantFlow) // that of the look before is near
	}
	massFlow := flow * c.Density
	e.coolant, e.coolantFlow = c, flow
	e.coolantCapacity = massFlow * c.SpecificHeat
	e.coolantH, e.coolantReynolds = p.core.CoolantFilm(massFlow, c)
	e.coolantH *= 1 + p.rig.Correction.CoolantFilm
	e.coolantFilm = 1 / (e.coolantH * p.core.TubeInsideArea())
	e.conductance = 1 / (e.airFilm + e.fins + e.wall + e.coolantFilm)
	e.effectiveness = p.core.Effectiveness(e.conductance, e.airCapacity, e.coolantCapacity)
	e.inlet = s.inlet + p.heat/(e.effectiveness*min(e.airCapacity, e.coolantCapacity))
	e.outlet = e.inlet - p.heat/e.coolantCapacity
	e.film = (e.inlet+e.outlet)/2 - p.heat*e.coolantFilm/2
}

// pumpFlow returns the coolant flow, m³/s, at which the pump meets the core, the
// plate and the hoses, with the coolant's properties c; NaN if there is none, and
// then the exchange does not converge. The search begins at a guess of the flow; 0: at
// one of its own.
func (p *Ready) pumpFlow(c coolant.Properties, guess float64) float64 {
	drop := func(flow float64) float64 { return p.core.CoolantPressureDrop(flow*c.Density, c) }
	flow, ok := pump.Flow(p.rig.Coolant.Pump, p.rig.Coolant.Loop, drop, guess)
	if !ok {
		return math.NaN()
	}
	return flow
}

// fill puts the answer together, in its place: a State is large.
func (p *Ready) fill(st *State, speed float64, s *stream, e *exchange) {
	room, heat := p.rig.Room.Temperature, p.rig.Heat
	least := min(e.airCapacity, e.coolantCapacity)
	airflow := s.massFlow / p.room
	*st = State{}
	st.CoolantOverAir = e.inlet - room
	st.CoolantMeanOverAir = (e.inlet+e.outlet)/2 - room
	st.ChipOverAir = e.outlet - room + heat.Load*heat.PlateResistance
	st.CoolantInletTemperature = e.inlet
	st.CoolantOutletTemperature = e.outlet
	st.CoreAirTemperature = s.inlet
	st.AirOutletTemperature = s.outlet
	st.ChipTemperature = e.outlet + heat.Load*heat.PlateResistance
	st.HeatRejected = p.heat
	st.Conductance = p.heat / (e.inlet - room)
	st.AirCapacity = e.airCapacity

	st.Airflow = airflow
	st.AirMassFlow = s.massFlow
	st.FaceVelocity = airflow / p.core.FaceArea()
	st.CorePressureDrop = s.pressureDrop
	st.AirReynolds = e.airReynolds

	st.CoolantFlow = e.coolantFlow
	st.CoolantPressureDrop = p.core.CoolantPressureDrop(e.coolantFlow*e.coolant.Density, e.coolant)

	st.AirFilm = e.h
	st.FinEfficiency = e.finEfficiency
	st.CoolantFilm = e.coolantH
	st.CoolantReynolds = e.coolantReynolds
	st.CoreConductance = e.conductance
	st.NTU = e.conductance / least
	st.CapacityRatio = least / max(e.airCapacity, e.coolantCapacity)
	st.Effectiveness = e.effectiveness

	st.Doubt = p.core.Doubt(e.airReynolds)

	st.CoolantViscosityDoubt = p.rig.Coolant.Liquid.ViscosityDoubt()
	st.Budget = p.budget(s, e)

	exceeded := p.fans(speed, s, st)
	st.Warnings = p.warnings(s, e, st) | p.fanWarnings(speed, s, st, exceeded)
}

// budget splits coolant over air. Heat flows from coolant to air through the
// films, the fins and the wall; the inlet temperature difference exceeds the sum
// of those steps by what the two streams change on their way. The pump's heat
// takes its share of all of them.
func (p *Ready) budget(s *stream, e *exchange) Budget {
	load := p.rig.Heat.Load
	whole := e.inlet - s.inlet
	return Budget{
		FanHeat:     s.warming,
		AirFilm:     load * e.airFilm,
		Fin:         load * e.fins,
		Wall:        load * e.wall,
		CoolantFilm: load * e.coolantFilm,
		Capacity:    load/p.heat*whole - load/e.conductance,
		PumpHeat:    p.rig.Heat.PumpPower / p.heat * whole,
	}
}

// noticedPower is the power of a flow, W, below which it is nothing beside the heat.
const noticedPower = 1

// nearBoiling is below the boiling point of water at 5000 m, K.
const nearBoiling = 350

// warnings returns what a reader of the state must know.
func (p *Ready) warnings(s *stream, e *exchange, st *State) Warnings {
	liquid := p.rig.Coolant.Liquid
	var w Warnings
	add := func(is bool, bit Warnings) {
		if is {
			w |= bit
		}
	}
	in := p.core.InRange(st.AirReynolds)
	add(in.ReynoldsLow, AirReynoldsLow)
	add(in.ReynoldsHigh, AirReynoldsHigh)
	add(in.Geometry, CoreOutsideRange)
	add(s.outlet-s.inlet > 0.98*(st.CoolantInletTemperature-s.inlet), CapacityLimited)
	add(st.CoolantReynolds > core.LaminarEnd && st.CoolantReynolds < core.TurbulentStart, CoolantTransition)
	add(p.air.VapourFraction() > air.VapourLimit, HumidAir)
	add(st.CoolantInletTemperature > nearBoiling && air.SaturationPressure(st.CoolantInletTemperature) > p.air.Pressure, BoilsHere)
	add(e.film > liquid.FitEnd(), CoolantExtrapolated)
	add(liquid.GlycolShare > 0, CoolantViscosity)
	if c := &p.rig.Coolant; c.Flow == 0 {
		add(pump.HydraulicPower(c.Pump.Pressure(st.CoolantFlow), st.CoolantFlow) > p.rig.Heat.PumpPower, PumpPowerLow)
	} else {
		add(pump.HydraulicPower(st.CoolantPressureDrop, st.CoolantFlow) > max(p.rig.Heat.PumpPower, noticedPower), PumpPowerLow)
	}
	add(e.inlet-e.outlet > 0.98*(e.inlet-s.inlet), CoolantLimited)
	add(p.rig.Heat.PlateResistance*e.coolantCapacity < 1, ChipCold)
	return w
}
