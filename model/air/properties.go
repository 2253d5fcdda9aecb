package air

import "math"

// Properties are those of moist air at one temperature and pressure.
type Properties struct {
	Density      float64 // kg/m³
	Viscosity    float64 // dynamic, Pa s
	Conductivity float64 // W/(m K)
	SpecificHeat float64 // at constant pressure, J/(kg K), per kg of moist air
}

// How far the properties of At may be off either way, relative to them.
//
// The density follows from the pressure that an altitude has on average; the weather
// moves it between 0.98 and 1.02 of that (993 to 1034 hPa at sea level) on most days
// (common practice, no source). Viscosity and conductivity follow measurements of dry
// air within 1 % [4]; vapour, which is neglected, takes up to as much away in a room of
// 22 °C, where half of VapourLimit is saturated air. The specific heat is taken as
// constant: see SpecificHeat; below 330 K that is 0.2 %, and the humidity of a room is
// known to a tenth of vapour, which is 0.1 % more (own estimate).
const (
	DensityDoubt      = 0.02
	ViscosityDoubt    = 0.02
	ConductivityDoubt = 0.02
	SpecificHeatDoubt = 0.005
)

// Prandtl returns the Prandtl number, dimensionless:
//
//	Pr = μ cp/k
//
// Check: dry air at 300 K gives 0.707 (Incropera & DeWitt, table A.4).
func (p Properties) Prandtl() float64 { return p.Viscosity * p.SpecificHeat / p.Conductivity }

// At returns the properties of the air at temperature t, in K, at the pressure
// and humidity ratio of a:
//
//	ρ  as Density
//	μ = 1.458e-6 t^1.5/(t + 110.4)                             [1] eq. (51)
//	k = 2.64638e-3 t^1.5/(t + 245.4·10^(-12/t))                [1] eq. (53)
//	cp as SpecificHeat
//
// each times what the correction of a says. t must be positive; μ and k follow the
// measurements of dry air within 1 % between 200 K and 400 K (0.4 % low at 300 K against [4]) and are smooth up to
// 1000 K, where a solver may pass on its way. Outside, nothing is clamped. Vapour
// is neglected in μ and k: see VapourLimit.
//
// Check: dry air at 288.15 K and 101325 Pa gives 1.2250 kg/m³, 1.78938e-5 Pa s
// and 0.025326 W/(m K).
func (a Atmosphere) At(t float64) Properties {
	return Properties{a.Density(t), a.Viscosity(t), a.Conductivity(t), a.SpecificHeat()}
}

// Conductivity returns the conductivity alone, in W/(m K); see At.
func (a Atmosphere) Conductivity(t float64) float64 {
	return 2.64638e-3 * t * math.Sqrt(t) / (t + 245.4*math.Exp(-12*math.Ln10/t)) * (1 + a.Correction.Conductivity)
}

// Viscosity returns the viscosity alone, in Pa s; see At.
func (a Atmosphere) Viscosity(t float64) float64 {
	return 1.458e-6 * t * math.Sqrt(t) / (t + 110.4) * (1 + a.Correction.Viscosity)
}

// Density returns the density of the moist air, in kg/m³, at temperature t, in K:
//
//	ρ = p (1 + W)/(287.042 t (1 + 1.607858 W))           [2] eqs. (11), (26)
//
// as an ideal gas; t must be positive. At 25 °C and 101325 Pa that is 0.04 % below
// the real gas of [2] table 2.
//
// Check: 303.15 K, W = 0.02, 95461 Pa gives 1.08412 kg/m³.
func (a Atmosphere) Density(t float64) float64 {
	w := a.HumidityRatio
	return a.Pressure * (1 + w) / (gasConstant * t * (1 + airPerVapour*w)) * (1 + a.Correction.Density)
}

// SpecificHeat returns the specific heat at constant pressure, in J/(kg K), per
// kg of moist air:
//
//	cp = (1006 + 1860 W)/(1 + W)                               [2] eq. (30)
//
// It takes the specific heats of dry air and of vapour as constant, which makes
// the heat that an air stream takes up exactly ṁ cp ΔT. Dry air has 1006 J/(kg K)
// at 300 K, 1009 at 350 K and 1014 at 400 K (Incropera & DeWitt, table A.4, from
// memory), so the error is below 1 % for air that stays below 400 K.
//
// Check: W = 0.02 gives 1022.745 J/(kg K).
func (a Atmosphere) SpecificHeat() float64 {
	w := a.HumidityRatio
	return (1006 + 1860*w) / (1 + w) * (1 + a.Correction.SpecificHeat)
}
