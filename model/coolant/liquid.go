package coolant

// Fluid names a kind of coolant. Its values are the constants below.
type Fluid int

// The fluids.
const (
	Water Fluid = iota // pure water
)

// fluids holds what tells one fluid from another, by Fluid.
var fluids = [...]struct {
	name              string
	freezing, boiling float64 // K, at sea level
	at                func(t float64) Properties
}{
	Water: {name: "water", freezing: 273.15, boiling: 373.15, at: water},
}

// String returns the fluid's name as a study writes it, e.g. "water".
func (f Fluid) String() string {
	if f < 0 || int(f) >= len(fluids) {
		return "unknown fluid"
	}
	return fluids[f].name
}

// Properties are those of the liquid at one temperature.
type Properties struct {
	Density      float64 // kg/m³
	Viscosity    float64 // dynamic, Pa s
	Conductivity float64 // W/(m K)
	SpecificHeat float64 // at constant pressure, J/(kg K)
}

// Prandtl returns the Prandtl number, dimensionless:
//
//	Pr = μ cp/k
//
// Check: water at 293.15 K gives 7.01.
func (p Properties) Prandtl() float64 { return p.Viscosity * p.SpecificHeat / p.Conductivity }

// Liquid is the coolant in the loop. The zero value is pure water. A Fluid that is
// none of the constants is a mistake of the program, and the methods panic on it.
type Liquid struct {
	Fluid Fluid // one of the constants of this package
}

// At returns the properties of the liquid at temperature t, in K.
//
// Water follows [1] from 253.15 K to 383.15 K, its conductivity from 273.15 K,
// with the uncertainties that [1] claims: density 0.001 %, specific heat 0.1 %,
// viscosity 1 %, conductivity 2 % (from memory). Outside 232 K to 593 K the
// formulas have no value. Nothing is clamped and nothing is refused: water is
// liquid only between Freezing and Boiling, and the caller refuses states beyond.
//
// Check: 298.15 K gives 997.047 kg/m³, 8.89997e-4 Pa s, 0.606502 W/(m K) and
// 4181.446 J/(kg K).
func (l Liquid) At(t float64) Properties { return fluids[l.Fluid].at(t) }

// Freezing returns the temperature, in K, below which the liquid freezes: 273.15 K
// for water.
func (l Liquid) Freezing() float64 { return fluids[l.Fluid].freezing }

// Boiling returns the temperature, in K, above which the liquid boils at the
// pressure of sea level: 373.15 K for water. That it falls with altitude, by about
// 1 K in 300 m (common practice, no source), is not modelled.
func (l Liquid) Boiling() float64 { return fluids[l.Fluid].boiling }
