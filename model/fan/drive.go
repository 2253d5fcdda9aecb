package fan

import (
	"errors"
	"math"

	"finduel/model/solve"
)

// Controller is the electronic speed controller of a brushless motor.
type Controller struct {
	Efficiency  float64 // power to the motor over power taken for it, above 0, to 1; 0.90 to 0.97 at full duty, less at part duty (common practice, no source)
	IdlePower   float64 // taken at any speed, by the controller and what sets it, W, 0 or more
	MostCurrent float64 // current to the motor that it may carry, A; 0: not stated
}

// TypicalController returns what is taken where nothing is known: 95 %, and 7 W at
// idle, since hobby electronics idle at 7 to 8 W (common practice, no source).
func TypicalController() Controller { return Controller{Efficiency: 0.95, IdlePower: 7} }

// Supply is a source of direct current whose voltage does not sag below its most
// current.
type Supply struct {
	Voltage     float64 // at its terminals, V, above 0
	MostCurrent float64 // A; 0: not stated
}

// Drive turns a rotor: supply, wires, controller and motor.
type Drive struct {
	Supply         Supply
	WireResistance float64 // of both wires from supply to controller, with plugs, Ω, 0 or more
	Controller     Controller
	Motor          Brushless

	// Ratings of what the supply's current passes, for Ladder alone: neither stops a
	// drive at once, a fuse opens in its time and a connector burns in its own.
	Fuse      float64 // A, 0 or more; 0: not stated
	Connector float64 // A, 0 or more; 0: not stated
}

// Check returns joined *quantity.RangeError for what no drive can be.
func (d *Drive) Check() error {
	return errors.Join(
		within(d.Supply.Voltage, 0.5, 1000, "supply_voltage", "must lie between 0.5 and 1000 V"),
		within(d.Supply.MostCurrent, 0, 1e4, "supply_most_current", "must lie between 0 and 10000 A"),
		within(d.WireResistance, 0, 1e3, "wire_resistance", "must lie between 0 and 1000 ohm"),
		within(d.Controller.Efficiency, 0.1, 1, "controller_efficiency", "must lie between 10 % and 100 %"),
		within(d.Controller.IdlePower, 0, 1e4, "controller_idle_power", "must lie between 0 and 10000 W"),
		within(d.Controller.MostCurrent, 0, 1e4, "controller_most_current", "must lie between 0 and 10000 A"),
		within(d.Fuse, 0, 1e4, "fuse_rating", "must lie between 0 and 10000 A"),
		within(d.Connector, 0, 1e4, "connector_rating", "must lie between 0 and 10000 A"),
		d.Motor.Check(),
	)
}

// Limit is a set of what a drive can run into; 0 is none.
type Limit uint8

// The limits. The first five stop a drive; the others are those of a Ladder alone.
const (
	SupplyVoltage     Limit = 1 << iota // more than full throttle: the motor needs more voltage than there is
	SupplyCurrent                       // more current than the supply may give
	MotorCurrent                        // more current than the motor may draw
	ControllerCurrent                   // more current to the motor than the controller may carry
	SupplyCollapse                      // more power than the wires pass at this voltage, at any current
	FuseRating                          // more current than the fuse is rated for
	ConnectorRating                     // more current than the connector is rated for
	BladeStrength                       // more stress than the blades may bear
)

// stopping is how many limits stop a drive, the first ones.
const stopping = 5

var limitWords = [...]string{
	"the supply's voltage",
	"the supply's current",
	"the motor's current",
	"the controller's current",
	"the wires' resistance",
	"the fuse's rating",
	"the connector's rating",
	"what the blades may bear",
}

// String returns the limits in words, with commas between them, "none" for none.
func (l Limit) String() string {
	text := ""
	for i, words := range limitWords {
		if l&(1<<i) == 0 {
			continue
		}
		if text != "" {
			text += ", "
		}
		text += words
	}
	if text == "" {
		return "none"
	}
	return text
}

// Chain is where the power of a drive goes, from the supply to the shaft. The
// balance holds to rounding:
//
//	SupplyPower = WireLoss + ControllerLoss + MotorHeat + ShaftPower
type Chain struct {
	Speed          float64 // rev/s
	Torque         float64 // on the shaft, N m
	Throttle       float64 // duty of the controller, motor voltage over its own; above 1 if out of reach
	MotorVoltage   float64 // mean, V
	MotorCurrent   float64 // mean, A
	MotorPower     float64 // electrical, W
	ShaftPower     float64 // W
	MotorHeat      float64 // W
	ControllerLoss float64 // idle power included, W
	WireLoss       float64 // W
	WireDrop       float64 // voltage lost in the wires, V
	SupplyCurrent  float64 // A
	SupplyPower    float64 // at the supply's terminals, W
	Exceeded       Limit   // what this asks too much of, of the limits that stop a drive
}

// Torque returns the torque on a shaft, N m, from the power that it passes in W, 0 or
// more, and its speed in rev/s, above 0:
//
//	M = P/(2π N)
//
// by definition.
//
// Check: 92.1 W at 17 570 rpm are 50.06 mN m.
func Torque(power, speed float64) float64 { return power / (2 * math.Pi * speed) }

// At returns what it takes to turn a shaft at a speed in rev/s, above 0, against a
// shaft power in W, 0 or more. The drive must have passed Check.
//
// Torque makes the motor's current, speed and current its voltage [4]. The
// controller takes P_c = P_m/η + P_idle at what voltage the wires leave, of
// resistance r:
//
//	(U − I r) I = P_c,  I = 2 P_c/(U + √(U² − 4 r P_c))
//
// (the lower of the two currents, which a rising load reaches; energy balance).
// Above U²/(4r) there is none: SupplyCollapse is exceeded, and what stands on the
// supply's side is what the load would take at half of the voltage, where wires pass
// most, through wires that just pass it: less current than that cannot feed it here.
//
// Check: 8 V, no losses but those of a motor of 2400 rpm/V, 0.05 Ω and 1 A: at
// 17 570 rpm and 92.1 W the motor draws 13.58 A and 108.6 W, at full throttle.
func (d *Drive) At(speed, shaftPower float64) Chain {
	m := &d.Motor
	c := Chain{Speed: speed, Torque: Torque(shaftPower, speed), ShaftPower: shaftPower}
	c.MotorCurrent = m.Current(c.Torque)
	c.MotorVoltage = m.Voltage(speed, c.MotorCurrent)
	c.MotorPower = c.MotorVoltage * c.MotorCurrent
	c.MotorHeat = m.Heat(c.MotorVoltage, c.MotorCurrent)
	c.ControllerLoss = c.MotorPower*(1/d.Controller.Efficiency-1) + d.Controller.IdlePower
	u, power := d.Supply.Voltage, c.MotorPower+c.ControllerLoss
	c.SupplyCurrent = 2 * power / (u + math.Sqrt(math.Max(u*u-4*d.WireResistance*power, 0)))
	c.WireDrop = math.Min(c.SupplyCurrent*d.WireResistance, u/2)
	c.WireLoss = c.SupplyCurrent * c.WireDrop
	c.SupplyPower = c.SupplyCurrent * u
	c.Throttle = c.MotorVoltage / (u - c.WireDrop)
	loads := d.loads(&c)
	for i, load := range loads[:stopping] {
		if load > 1 {
			c.Exceeded |= 1 << i
		}
	}
	return c
}

// collapse returns a power at the controller, W, over the most that the wires pass.
func (d *Drive) collapse(power float64) float64 {
	return 4 * d.WireResistance * power / (d.Supply.Voltage * d.Supply.Voltage)
}

// loads returns how much of each limit of a drive is used, in the order of the limits;
// 0 where none is stated.
func (d *Drive) loads(c *Chain) [stopping + 2]float64 {
	return [...]float64{
		c.Throttle,
		share(c.SupplyCurrent, d.Supply.MostCurrent),
		share(c.MotorCurrent, d.Motor.MostCurrent),
		share(c.MotorCurrent, d.Controller.MostCurrent),
		d.collapse(c.MotorPower + c.ControllerLoss),
		share(c.SupplyCurrent, d.Fuse),
		share(c.SupplyCurrent, d.Connector),
	}
}

func share(current, most float64) float64 {
	if most == 0 {
		return 0
	}
	return current / most
}

// heaviest returns the most used limit of those that stop a drive, the first of equal
// ones, and how much of it is used; NaN, if that is among them.
func (d *Drive) heaviest(c *Chain) (Limit, float64) {
	limit, most := Limit(0), math.Inf(-1)
	loads := d.loads(c)
	for i, load := range loads[:stopping] {
		if load > most || load != load {
			limit, most = 1<<i, load
		}
	}
	return limit, most
}

// SpeedAt returns the chain at a throttle, 0 to 1, of a rotor whose shaft power in
// W, by speed in rev/s, rises with speed; sought between low and high in rev/s,
// 0 < low < high. It is an answer if the outcome is solve.Converged; with
// solve.NoSignChange the throttle turns the rotor slower than low or faster than
// high, and the chain is that of the nearer end.
func (d *Drive) SpeedAt(throttle float64, power func(speed float64) float64, low, high float64) (Chain, solve.Outcome) {
	r := solve.Root(func(speed float64) float64 {
		c := d.At(speed, power(speed))
		return c.Throttle - throttle
	}, low, high, speedTolerance*high)
	return d.At(r.X, power(r.X)), r.Outcome
}

// speedTolerance is how well a speed is found, as a share of the highest.
const speedTolerance = 1e-12

// Reached is the highest speed that a drive reaches.
type Reached struct {
	Chain   Chain         // at that speed
	Limit   Limit         // the one limit that stops it there, the first of equal ones; 0: none does up to the highest speed
	Outcome solve.Outcome // solve.Converged: reached; solve.NoSignChange: even the lowest speed exceeds a limit, and the chain is that one's
}

// Reach returns the highest speed, from low to high in rev/s, 0 < low < high, at
// which a drive turns a rotor with no limit exceeded. From the rotor's shaft power in
// W, by speed in rev/s, must come a torque that rises with speed.
//
// Check: a motor of 2400 rpm/V, 0.05 Ω and 1 A on 12 V turns a rotor of 127 mm and
// CP 0.0925 up to 25 500 rpm, where the supply's voltage ends.
func Reach(d *Drive, power func(speed float64) float64, low, high float64) Reached {
	room := func(speed float64) float64 {
		c := d.At(speed, power(speed))
		_, load := d.heaviest(&c)
		return 1 - load
	}
	atLow, atHigh := room(low), room(high)
	if atHigh >= 0 && atLow >= 0 {
		return Reached{Chain: d.At(high, power(high)), Outcome: solve.Converged}
	}
	r := solve.RootFrom(room, low, atLow, high, atHigh, speedTolerance*high)
	speed := r.X
	if r.Outcome == solve.NoSignChange {
		speed = low
	} else if r.F < 0 {
		speed = r.Low // the side of the bracket where no limit is exceeded
	}
	c := d.At(speed, power(speed))
	limit, _ := d.heaviest(&c)
	return Reached{Chain: c, Limit: limit, Outcome: r.Outcome}
}
