package model

import (
	"errors"

	"finduel/model/coolant"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/hazard"
	"finduel/model/pump"
	"finduel/model/sound"
)

// Rig is one setup under its conditions: all that Evaluate needs. It is a plain
// value: copying it copies everything.
type Rig struct {
	Room      Room
	Heat      Heat
	Coolant   Coolant
	Core      core.Geometry
	Fans      fan.Bank     // equal fans side by side, before the core, behind it, or as many again on either side
	Placing   fan.Placing  // on which side
	Speed     float64      // fan speed, rev/s, above 0
	Build     hazard.Build // what is known of how it is built; the zero value is nothing
	Installed Installed    // grille, leakage, shadow, dust; the zero value is none of them

	Correction Correction // what is known better than the correlations; the zero value is nothing
}

// Room is the air around the rig and the place of the listener.
type Room struct {
	Temperature      float64 // air temperature, K, 233.15 to 353.15
	Altitude         float64 // above sea level, m, -500 to 5000
	Humidity         float64 // relative humidity, 0 to 1
	ListenerDistance float64 // from the fans, m, 0.1 to 100
	OperatorDistance float64 // of who runs them, from the fans, m, 0.1 to 100; 0: as far as the listener
	Session          float64 // how long the operator stays with them a day, s, up to a day; 0: a working day of 8 h

	Surroundings sound.Surroundings // what stands around the fans; the zero value is a free field
}

// operator returns the distance of the operator, m.
func (r *Room) operator() float64 {
	if r.OperatorDistance == 0 {
		return r.ListenerDistance
	}
	return r.OperatorDistance
}

// Nearer returns by how much the operator hears the fans louder than the listener, dB.
func (r *Room) Nearer() float64 {
	return r.Surroundings.Level(0, r.operator()) - r.Surroundings.Level(0, r.ListenerDistance)
}

// Heat is what the core must get rid of.
type Heat struct {
	Load            float64 // heat of the chip, W, above 0
	PlateResistance float64 // chip to the coolant that leaves the core and enters the plate, K/W, 0 or more
	PumpPower       float64 // electrical power of the pump, all of which ends in the coolant, W, 0 or more
}

// Coolant is the liquid and how much of it flows.
type Coolant struct {
	Liquid coolant.Liquid
	Flow   float64   // volume flow at the film temperature of the coolant, m³/s, above 0; 0: where Pump meets the core and Loop
	Pump   pump.Pump // matters only if Flow is 0
	Loop   pump.Loop // plate and hoses; matters only if Flow is 0
}

// Check returns joined *quantity.RangeError for a coolant that neither flows nor has
// a pump, and for a pump or a loop that cannot be.
func (c *Coolant) Check() error {
	if c.Flow != 0 || c.Pump == (pump.Pump{}) {
		return above(c.Flow, 0, "coolant_flow")
	}
	return errors.Join(c.Pump.Check(), c.Loop.Check())
}
