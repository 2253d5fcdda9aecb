package sound

import (
	"errors"
	"math"

	"finduel/model/quantity"
)

// Field says what sends sound back.
type Field int

// The fields.
const (
	FreeField Field = iota // nothing: outdoors, high above the ground, or a room without echo
	HalfSpace              // one plane below the source: a bench or floor outdoors
	Room                   // the walls of a room, as Surroundings describes it
)

// Fields lists every field, in the order of the constants.
var Fields = []Field{FreeField, HalfSpace, Room}

// String returns the field as written in studies.
func (f Field) String() string {
	switch f {
	case HalfSpace:
		return "half space"
	case Room:
		return "room"
	}
	return "free field"
}

// Surroundings is what stands around the fans. Its zero value is a free field.
type Surroundings struct {
	Field       Field
	Surface     float64 // of walls, floor and ceiling together, m², above 0; only for a room
	Absorption  float64 // mean absorption coefficient of that surface, 0.01 to 1; only for a room
	Directivity float64 // 1 amid the room, 2 on a plane, 4 on an edge, 8 in a corner; only for a room
}

// TypicalSurroundings returns what is taken where a study says no more than the field: a
// furnished room of 4 m by 3 m by 2.5 m, 59 m² that absorb a fifth, with the fans
// standing on a plane (common practice, no source).
func TypicalSurroundings() Surroundings {
	return Surroundings{Field: FreeField, Surface: 59, Absorption: 0.2, Directivity: 2}
}

// Check returns joined *quantity.RangeError, keys room_surface, room_absorption and
// room_directivity, for a room that cannot be. Without a room it checks nothing.
func (s Surroundings) Check() error {
	if s.Field != Room {
		return nil
	}
	err := errors.Join(
		within(s.Surface, 1, 1e6, "room_surface", "must lie between 1 and 1 000 000 m²"),
		within(s.Absorption, 0.01, 1, "room_absorption", "must lie between 1 % and 100 %"),
	)
	switch s.Directivity {
	case 1, 2, 4, 8:
		return err
	}
	return errors.Join(err, &quantity.RangeError{Key: "room_directivity", Value: s.Directivity, Low: 1, High: 8, Rule: "must be 1 (amid the room), 2 (on a plane), 4 (on an edge) or 8 (in a corner)"})
}

// RoomConstant returns R, m², of a room that passes Check:
//
//	R = S α/(1 − α)                                                    [6] eq. 6.43, 6.44
//
// It is infinite where nothing comes back: without a room, or where the walls absorb
// everything.
//
// Check: 85 m² that absorb a fifth have 21.25 m².
func (s Surroundings) RoomConstant() float64 {
	if s.Field != Room {
		return math.Inf(1)
	}
	return s.Surface * s.Absorption / (1 - s.Absorption)
}

// Level returns the level, dB(A), at a distance in m, above 0, of a source that has
// levelAt1m, dB(A), at 1 m in a free field. With L_W = L_1 + 10 log10(4π · 1 m²):
//
//	free field   L = L_1 − 20 log10 r                                  [2]
//	half space   L = L_1 − 20 log10 r + 10 log10 2                     [2]
//	room         L = L_W + 10 log10(Q/(4π r²) + 4/R)                   [6] eq. 6.43
//
// The room is taken to be filled evenly with echo: not so close to walls or in long,
// low rooms. The surroundings must pass Check.
//
// Check: in a room with R = 21.25 m² and Q = 2 the level is 4.59 dB below L_W at 1 m
// and 6.42 dB below it at 2 m.
func (s Surroundings) Level(levelAt1m, distance float64) float64 {
	switch s.Field {
	case HalfSpace:
		return AtDistance(levelAt1m, 1, distance) + 10*math.Log10(2)
	case Room:
		return levelAt1m + 10*math.Log10(s.Directivity/(distance*distance)+16*math.Pi/s.RoomConstant())
	}
	return AtDistance(levelAt1m, 1, distance)
}

// CriticalDistance returns the distance, m, at which the echo of the room is as loud
// as what comes straight from the source; going farther away helps little beyond it:
//
//	r_c = sqrt(Q R/(16π))                                              [6]
//
// It is infinite where nothing echoes. The surroundings must pass Check.
//
// Check: R = 21.25 m² and Q = 2 give 0.920 m.
func (s Surroundings) CriticalDistance() float64 {
	if s.Field != Room {
		return math.Inf(1)
	}
	return math.Sqrt(s.Directivity * s.RoomConstant() / (16 * math.Pi))
}
