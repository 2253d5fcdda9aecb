package thermometer

import "math"

// Thermometer is a sensor with a stated limit of error.
type Thermometer int

// The thermometers.
const (
	Pt100AA Thermometer = iota
	Pt100A
	Pt100B
	Pt100C
	TypeKClass1
	TypeKClass2
	TypeKSpecial
	TypeKStandard
	Thermistor // of 10 kΩ, 1 %
	Digital    // one wire, 12 bit
	count      = iota
)

const celsius = 273.15

// rounding is what the change between °C and K may take off, K.
const rounding = 1e-9

// stated is what is stated of a thermometer, by the temperature t in °C.
type stated struct {
	word      string
	low, high float64 // range in which it is stated, °C
	fixed     float64 // K
	share     float64 // of |t|
	greater   bool    // whether the greater of fixed and share counts, not their sum
}

// all holds what is stated of each thermometer. The limits were read, but for the
// thermistor's; the ranges are from memory, but for the digital one's.
var all = [count]stated{
	Pt100AA:       {"Pt100 class AA", -50, 250, 0.1, 0.0017, false}, // [1]
	Pt100A:        {"Pt100 class A", -100, 450, 0.15, 0.002, false}, // [1]
	Pt100B:        {"Pt100 class B", -196, 600, 0.3, 0.005, false},  // [1]
	Pt100C:        {"Pt100 class C", -196, 600, 0.6, 0.01, false},   // [1]
	TypeKClass1:   {"type K class 1", -40, 1000, 1.5, 0.004, true},  // [2]
	TypeKClass2:   {"type K class 2", -40, 1200, 2.5, 0.0075, true}, // [2]
	TypeKSpecial:  {"type K special", 0, 1260, 1.1, 0.004, true},    // [3]
	TypeKStandard: {"type K standard", 0, 1260, 2.2, 0.0075, true},  // [3]
	Thermistor:    {"thermistor", 0, 70, 0.5, 0, false},             // from memory
	Digital:       {"digital thermometer", -10, 85, 0.5, 0, false},  // data sheet
}

// All lists the thermometers.
func All() []Thermometer {
	list := make([]Thermometer, count)
	for i := range list {
		list[i] = Thermometer(i)
	}
	return list
}

// String returns the thermometer as written in studies. It must be one of the constants.
func (t Thermometer) String() string { return all[t].word }

// Range returns the temperatures, K, between which a limit is stated.
func (t Thermometer) Range() (low, high float64) {
	return all[t].low + celsius, all[t].high + celsius
}

// Limit returns how far the thermometer may be out either way, K, at a temperature in K,
// with any error within the limit as likely; false outside its Range.
//
//	platinum, class A    0.15 K + 0.002 |t|, t in °C                              [1]
//	type K, class 2      the greater of 2.5 K and 0.0075 |t|                      [2]
//
// Check: a Pt100 of class A may be out by 0.19 K at 20 °C.
func (t Thermometer) Limit(temperature float64) (limit float64, ok bool) {
	s := &all[t]
	at := temperature - celsius
	if !(at >= s.low-rounding && at <= s.high+rounding) {
		return 0, false
	}
	if share := s.share * math.Abs(at); s.greater {
		limit = math.Max(s.fixed, share)
	} else {
		limit = s.fixed + share
	}
	return limit, true
}
