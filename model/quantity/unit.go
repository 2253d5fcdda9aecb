package quantity

import "math"

// Kind is what a number measures: its dimension, told apart further where the
// trade must not mix two things of one dimension (a temperature and a
// temperature difference, a length and nothing else, a fin density and a wave
// number).
type Kind int

// The kinds, each with its SI unit.
const (
	Ratio                 Kind = iota // a pure number
	Count                             // a whole number of things
	Temperature                       // K
	TemperatureDifference             // K
	Length                            // m
	Area                              // m²
	FinDensity                        // 1/m, fin legs per metre
	Speed                             // 1/s, revolutions per second
	Velocity                          // m/s
	VolumeFlow                        // m³/s
	MassFlow                          // kg/s
	Pressure                          // Pa
	Power                             // W
	Resistance                        // K/W
	Conductance                       // W/K
	FilmCoefficient                   // W/(m² K)
	Conductivity                      // W/(m K)
	Angle                             // rad
	SoundLevel                        // dB(A)
	LevelDifference                   // dB
	Voltage                           // V
	Current                           // A
	Density                           // kg/m³
	Frequency                         // Hz
	Energy                            // J
	Mass                              // kg
	Stress                            // Pa
	Torque                            // N m
	SpeedConstant                     // rad/s per V
	ElectricalResistance              // Ω
	Duration                          // s
	SpeedSlope                        // K s, kelvin per revolution per second
)

// Unit is one way to write a number of a Kind. Its value in SI units is
// (value + Offset)·Times/Over. Two whole numbers instead of one factor keep what
// people write exact: 26 mm is 26/1000 m, the double nearest to 0.026, where
// 26·0.001 is not.
type Unit struct {
	Symbol string  // as written in study files and shown to people, e.g. "m³/h"
	Name   string  // letters, digits and underscores only, for column headers, e.g. "m3_per_h"
	Kind   Kind    // what it measures
	Times  float64 // above 0
	Over   float64 // above 0
	Offset float64 // how far its zero is above that of the SI unit, in the unit itself; 0 for all but °C and °F
}

// SI returns the value v, in the unit u, in the SI unit of its kind.
func (u Unit) SI(v float64) float64 { return (v + u.Offset) * u.Times / u.Over }

// IsSI reports whether a number in the unit u is that in the SI unit of its kind.
func (u Unit) IsSI() bool { return u.Times == u.Over && u.Offset == 0 }

// Shown returns the value si, in the SI unit of its kind, in the unit u. A result
// within rounding of a number of at most 12 digits is that number: 2000 rpm, kept
// as 33.3… rev/s, comes back as 2000 and not as 2000.0000000000002.
func (u Unit) Shown(si float64) float64 {
	v := si*u.Over/u.Times - u.Offset
	size := math.Abs(v)
	if !(size >= 1e-9 && size < 1e12) {
		return v
	}
	scale := math.Pow(10, 11-math.Floor(math.Log10(size)))
	if short := math.Round(v*scale) / scale; math.Abs(short-v) <= 4e-15*max(size, math.Abs(u.Offset)) {
		return short
	}
	return v
}

// units lists every unit that a study may use, the preferred one of a kind first.
// Factors are exact by definition (inch 25.4 mm, US gallon 231 in³, litre
// 1/1000 m³; a degree Fahrenheit is 5/9 K and absolute zero is -459.67 °F) except
// inH2O, mmH2O and mH2O (conventional: 249.08891 Pa, 9.80665 Pa and 9806.65 Pa).
var units = []Unit{
	{"", "", Ratio, 1, 1, 0},
	{"%", "percent", Ratio, 1, 100, 0},
	{"", "", Count, 1, 1, 0},
	{"°C", "C", Temperature, 1, 1, 273.15},
	{"°F", "F", Temperature, 5, 9, 459.67},
	{"K", "K", Temperature, 1, 1, 0},
	{"K", "K", TemperatureDifference, 1, 1, 0},
	{"mm", "mm", Length, 1, 1000, 0},
	{"cm", "cm", Length, 1, 100, 0},
	{"m", "m", Length, 1, 1, 0},
	{"in", "in", Length, 254, 10000, 0},
	{"ft", "ft", Length, 3048, 10000, 0},
	{"cm2", "cm2", Area, 1, 10000, 0},
	{"cm²", "cm2", Area, 1, 10000, 0},
	{"mm2", "mm2", Area, 1, 1e6, 0},
	{"mm²", "mm2", Area, 1, 1e6, 0},
	{"m2", "m2", Area, 1, 1, 0},
	{"m²", "m2", Area, 1, 1, 0},
	{"in2", "in2", Area, 64516, 1e8, 0},
	{"fpi", "fpi", FinDensity, 10000, 254, 0},
	{"fins/in", "fpi", FinDensity, 10000, 254, 0},
	{"fins/cm", "fins_per_cm", FinDensity, 100, 1, 0},
	{"rpm", "rpm", Speed, 1, 60, 0},
	{"rev/s", "rev_per_s", Speed, 1, 1, 0},
	{"krpm", "krpm", Speed, 1000, 60, 0},
	{"m/s", "m_per_s", Velocity, 1, 1, 0},
	{"m3/h", "m3_per_h", VolumeFlow, 1, 3600, 0},
	{"m³/h", "m3_per_h", VolumeFlow, 1, 3600, 0},
	{"L/min", "L_per_min", VolumeFlow, 1, 60000, 0},
	{"L/h", "L_per_h", VolumeFlow, 1, 3.6e6, 0},
	{"L/s", "L_per_s", VolumeFlow, 1, 1000, 0},
	{"m3/min", "m3_per_min", VolumeFlow, 1, 60, 0},
	{"m³/min", "m3_per_min", VolumeFlow, 1, 60, 0},
	{"m3/s", "m3_per_s", VolumeFlow, 1, 1, 0},
	{"cfm", "cfm", VolumeFlow, 28316846592, 6e13, 0},
	{"gpm", "gpm", VolumeFlow, 3785411784, 6e13, 0},
	{"kg/s", "kg_per_s", MassFlow, 1, 1, 0},
	{"g/s", "g_per_s", MassFlow, 1, 1000, 0},
	{"Pa", "Pa", Pressure, 1, 1, 0},
	{"hPa", "hPa", Pressure, 100, 1, 0},
	{"kPa", "kPa", Pressure, 1000, 1, 0},
	{"mbar", "mbar", Pressure, 100, 1, 0},
	{"bar", "bar", Pressure, 100000, 1, 0},
	{"mmH2O", "mmH2O", Pressure, 980665, 100000, 0},
	{"mH2O", "mH2O", Pressure, 980665, 100, 0},
	{"inH2O", "inH2O", Pressure, 24908891, 100000, 0},
	{"W", "W", Power, 1, 1, 0},
	{"mW", "mW", Power, 1, 1000, 0},
	{"kW", "kW", Power, 1000, 1, 0},
	{"K/W", "K_per_W", Resistance, 1, 1, 0},
	{"W/K", "W_per_K", Conductance, 1, 1, 0},
	{"W/(m2 K)", "W_per_m2_K", FilmCoefficient, 1, 1, 0},
	{"W/(m K)", "W_per_m_K", Conductivity, 1, 1, 0},
	{"W/mK", "W_per_m_K", Conductivity, 1, 1, 0},
	{"rpm/V", "rpm_per_V", SpeedConstant, 3.141592653589793, 30, 0},
	{"mohm", "mohm", ElectricalResistance, 1, 1000, 0},
	{"ohm", "ohm", ElectricalResistance, 1, 1, 0},
	{"deg", "deg", Angle, 3.141592653589793, 180, 0},
	{"°", "deg", Angle, 3.141592653589793, 180, 0},
	{"dBA", "dBA", SoundLevel, 1, 1, 0},
	{"dB(A)", "dBA", SoundLevel, 1, 1, 0},
	{"dB", "dB", LevelDifference, 1, 1, 0},
	{"dBA", "dBA", LevelDifference, 1, 1, 0},
	{"dB(A)", "dBA", LevelDifference, 1, 1, 0},
	{"V", "V", Voltage, 1, 1, 0},
	{"A", "A", Current, 1, 1, 0},
	{"mA", "mA", Current, 1, 1000, 0},
	{"kg/m3", "kg_per_m3", Density, 1, 1, 0},
	{"kg/m³", "kg_per_m3", Density, 1, 1, 0},
	{"Hz", "Hz", Frequency, 1, 1, 0},
	{"J", "J", Energy, 1, 1, 0},
	{"g", "g", Mass, 1, 1000, 0},
	{"kg", "kg", Mass, 1, 1, 0},
	{"mg", "mg", Mass, 1, 1e6, 0},
	{"MPa", "MPa", Stress, 1e6, 1, 0},
	{"mN·m", "mN_m", Torque, 1, 1000, 0},
	{"N·m", "N_m", Torque, 1, 1, 0},
	{"min", "min", Duration, 60, 1, 0},
	{"s", "s", Duration, 1, 1, 0},
	{"h", "h", Duration, 3600, 1, 0},
	{"K/1000rpm", "K_per_1000_rpm", SpeedSlope, 60, 1000, 0},
}

// Find returns the unit of a kind that is written as symbol, exactly as spelled
// (units are case-sensitive: mW and MW differ). It reports false for a symbol
// that is no unit of that kind.
func Find(kind Kind, symbol string) (Unit, bool) {
	for _, u := range units {
		if u.Kind == kind && u.Symbol == symbol {
			return u, true
		}
	}
	return Unit{}, false
}

// Units returns the units in which a number of the kind may be written, the
// preferred one first.
func Units(kind Kind) []Unit {
	var list []Unit
	for _, u := range units {
		if u.Kind == kind {
			list = append(list, u)
		}
	}
	return list
}

// KindsOf returns every kind that has a unit written as symbol; none if the
// symbol is no unit at all.
func KindsOf(symbol string) []Kind {
	var list []Kind
	for _, u := range units {
		if u.Symbol == symbol {
			list = append(list, u.Kind)
		}
	}
	return list
}

// String names the kind in words, with its article: "a length".
func (k Kind) String() string {
	if k < 0 || int(k) >= len(kindNames) {
		return "an unknown kind"
	}
	return kindNames[k]
}

var kindNames = [...]string{
	Ratio: "a ratio", Count: "a count", Temperature: "a temperature",
	TemperatureDifference: "a temperature difference", Length: "a length", Area: "an area",
	FinDensity: "a fin density", Speed: "a rotational speed", Velocity: "a velocity",
	VolumeFlow: "a volume flow", MassFlow: "a mass flow", Pressure: "a pressure", Power: "a power",
	Resistance: "a thermal resistance", Conductance: "a conductance",
	FilmCoefficient: "a film coefficient", Conductivity: "a thermal conductivity", Angle: "an angle",
	SpeedConstant: "a speed constant", ElectricalResistance: "an electrical resistance",
	SoundLevel: "a sound level", LevelDifference: "a level difference", Voltage: "a voltage", Current: "a current", Density: "a density",
	Frequency: "a frequency", Energy: "an energy", Mass: "a mass", Stress: "a stress", Torque: "a torque", Duration: "a duration",
	SpeedSlope: "a slope over speed",
}
