package air

import (
	"math"

	"finduel/model/quantity"
)

const (
	gasConstant  = 287.042  // of dry air, J/(kg K); [2] eq. (1)
	airPerVapour = 1.607858 // molar mass of dry air over that of water; [2] eq. (26)
)

// VapourLimit is the mole fraction of vapour up to which the properties of dry
// air may stand for those of moist air. At the limit the viscosity of dry air is
// 2.6 % and its conductivity 1.6 % too high, in proportion less below it (between
// 20 °C and 60 °C; mixture rule of [3], vapour as in the IAPWS releases R12-08 and
// R15-11). Saturated air passes it above 33 °C at sea level. Above the limit the
// caller warns.
const VapourLimit = 0.05

// Atmosphere is the air of a room: its pressure and how much vapour it carries.
// Both stay the same while the air is warmed. The zero value is no air at all.
type Atmosphere struct {
	Pressure      float64 // absolute, Pa
	HumidityRatio float64 // mass of vapour over mass of dry air
	Correction    Correction
}

// Correction changes the properties of the air, each by a relative change above -1: 0
// leaves it, 0.01 makes it a hundredth more.
type Correction struct {
	Density, Viscosity, Conductivity, SpecificHeat float64
}

// NewAtmosphere returns the air of a room at the given temperature, in K, the
// altitude above sea level, in m, and the relative humidity, 0 to 1. The pressure
// is that of PressureAtAltitude whatever the temperature of the room; the vapour
// pressure is the relative humidity times SaturationPressure, so below freezing
// relative humidity is over ice.
//
// It returns a *quantity.RangeError if the temperature is outside 233.15 K to
// 353.15 K, the altitude outside -500 m to 5000 m or the relative humidity outside
// 0 to 1, with the key air_temperature, altitude or humidity.
//
// Check: 298.15 K, sea level, saturated gives a humidity ratio of 0.0201; [2]
// table 2 has 0.020173 for a real gas.
func NewAtmosphere(temperature, altitude, relativeHumidity float64) (Atmosphere, error) {
	err := outside(temperature, 233.15, 353.15, "air_temperature", "must lie between -40 °C and 80 °C")
	if err == nil {
		err = outside(altitude, -500, 5000, "altitude", "must lie between -500 m and 5000 m")
	}
	if err == nil {
		err = outside(relativeHumidity, 0, 1, "humidity", "must lie between 0 and 100 %")
	}
	if err != nil {
		return Atmosphere{}, err
	}
	p := PressureAtAltitude(altitude)
	w, err := HumidityRatio(relativeHumidity*SaturationPressure(temperature), p)
	if err != nil {
		return Atmosphere{}, err
	}
	return Atmosphere{Pressure: p, HumidityRatio: w}, nil
}

// outside returns a *quantity.RangeError unless v lies between low and high; NaN
// lies nowhere.
func outside(v, low, high float64, key, rule string) error {
	if v >= low && v <= high {
		return nil
	}
	return &quantity.RangeError{Key: key, Value: v, Low: low, High: high, Rule: rule}
}

// PressureAtAltitude returns the pressure, in Pa, of the standard atmosphere at
// the geometric altitude, in m above sea level:
//
//	H = r z/(r + z),  r = 6356766 m                            [1] eq. (18)
//	p = 101325 (1 - 0.0065 H/288.15)^5.25588                   [1] eq. (33a)
//
// with the exponent g0 M/(R* L) = 9.80665·28.9644/(8314.32·0.0065). It holds from
// -5000 m to 11000 m; the weather moves the real pressure by about ±3 % (common
// practice, no source). Far above 11 km the formula has no value: the caller
// keeps the altitude in range, as NewAtmosphere does.
//
// Check: 1000 m gives 89876 Pa.
func PressureAtAltitude(altitude float64) float64 {
	const (
		earthRadius = 6356766.0
		exponent    = 9.80665 * 28.9644 / (8314.32 * 0.0065)
	)
	h := earthRadius * altitude / (earthRadius + altitude)
	return 101325 * math.Pow(1-0.0065*h/288.15, exponent)
}
