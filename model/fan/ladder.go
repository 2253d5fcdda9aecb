package fan

import (
	"math"

	"finduel/model/solve"
)

// Rung is one limit of a drive, and the speed at which it is met.
type Rung struct {
	Limit  Limit   // one
	Stated bool    // whether it is known; else Speed is 0
	Speed  float64 // lowest speed at which the limit is exceeded, each limit by itself, rev/s; 0: not up to the highest looked at
}

// Ladder returns every limit of a drive in the order in which a rising speed meets them,
// looked for from low to high in rev/s, 0 < low < high: first those that are met, then
// those that are not, last those that are not stated. One that is exceeded at low is met
// there. From the rotor's shaft power in W, by speed in rev/s, must come a torque that
// rises with speed. The blades may turn at the speed borne, rev/s; 0: not known.
//
// Check: the first rung that stops a drive is what Reach names, at the speed that it
// reaches.
func Ladder(d *Drive, power func(speed float64) float64, borne, low, high float64) []Rung {
	stated := [...]bool{
		true, d.Supply.MostCurrent > 0, d.Motor.MostCurrent > 0, d.Controller.MostCurrent > 0, d.WireResistance > 0,
		d.Fuse > 0, d.Connector > 0,
	}
	var rungs []Rung
	for i := range stated {
		rung := Rung{Limit: 1 << i, Stated: stated[i]}
		if rung.Stated {
			rung.Speed = d.met(i, power, low, high)
		}
		rungs = place(rungs, rung)
	}
	blades := Rung{Limit: BladeStrength, Stated: borne > 0}
	if blades.Stated && borne <= high {
		blades.Speed = math.Max(borne, low)
	}
	return place(rungs, blades)
}

// place puts a limit where it belongs in a Ladder.
func place(rungs []Rung, rung Rung) []Rung {
	at := len(rungs)
	for at > 0 && rung.before(rungs[at-1]) {
		at--
	}
	rungs = append(rungs, Rung{})
	copy(rungs[at+1:], rungs[at:])
	rungs[at] = rung
	return rungs
}

// met returns the lowest speed, rev/s, at which one limit, by its place, is exceeded; 0
// if it is not up to high.
func (d *Drive) met(limit int, power func(speed float64) float64, low, high float64) float64 {
	room := func(speed float64) float64 {
		c := d.At(speed, power(speed))
		return 1 - d.loads(&c)[limit]
	}
	atLow, atHigh := room(low), room(high)
	switch {
	case atLow < 0:
		return low
	case atHigh >= 0:
		return 0
	}
	return solve.RootFrom(room, low, atLow, high, atHigh, speedTolerance*high).X
}

// before reports whether a limit stands before another in a Ladder.
func (r Rung) before(other Rung) bool {
	at := func(r Rung) float64 {
		if r.Speed == 0 {
			return math.Inf(1)
		}
		return r.Speed
	}
	return r.Stated && !other.Stated || r.Stated == other.Stated && at(r) < at(other)
}
