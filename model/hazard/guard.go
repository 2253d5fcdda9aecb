package hazard

// Opening is the shape of the openings in a guard.
type Opening int

// The shapes.
const (
	Slot   Opening = iota // longer than wide; the size is its width
	Square                // the size is its side
	Round                 // the size is its diameter
)

// Openings lists every shape, in the order of the constants.
var Openings = []Opening{Slot, Square, Round}

// String returns the shape as written in studies.
func (o Opening) String() string {
	switch o {
	case Square:
		return "square"
	case Round:
		return "round"
	}
	return "slot"
}

// LargestOpening is the size, m, at which the table of GuardDistance ends.
const LargestOpening = 0.12

// guardDistances is Table 4 of [4], m: up to which size of opening, what distance for
// a slot, a square and a circle.
var guardDistances = [...]struct{ upTo, slot, square, round float64 }{
	{0.004, 0.002, 0.002, 0.002},
	{0.006, 0.010, 0.005, 0.005},
	{0.008, 0.020, 0.015, 0.005},
	{0.010, 0.080, 0.025, 0.020},
	{0.012, 0.100, 0.080, 0.080},
	{0.020, 0.120, 0.120, 0.120},
	{0.030, 0.850, 0.120, 0.120},
	{0.040, 0.850, 0.200, 0.120},
	{0.120, 0.850, 0.850, 0.850},
}

// GuardDistance returns how far, m, a guard must stand off the blades so that fingers
// and arms of people of 14 years and above do not reach them, by the shape and size of
// its openings, size in m above 0: Table 4 of [4]. A slot of 20 to 30 mm needs 0.2 m
// only, if it is no longer than 65 mm; here its length is not known. It reports false
// for openings above LargestOpening, through which more than an arm passes.
//
// Check: slots of 8 mm need 20 mm.
func GuardDistance(shape Opening, size float64) (float64, bool) {
	for _, row := range guardDistances {
		if size <= row.upTo {
			switch shape {
			case Square:
				return row.square, true
			case Round:
				return row.round, true
			}
			return row.slot, true
		}
	}
	return 0, false
}
