package coolant

import "finduel/model/quantity"

// Fluid names a kind of coolant. Its values are the constants below.
type Fluid int

// The fluids.
const (
	Water           Fluid = iota // pure water
	EthyleneGlycol               // ethylene glycol (1,2-ethanediol) and water
	PropyleneGlycol              // propylene glycol (1,2-propanediol) and water
)

// MostGlycol is the largest mass fraction of glycol that the formulas hold for.  [3]
const MostGlycol = 0.60

// fluids holds what tells one fluid from another, by Fluid. Without a mixture it is
// water.
var fluids = [...]struct {
	name   string
	glycol *mixture
}{
	Water:           {name: "water"},
	EthyleneGlycol:  {name: "ethylene glycol", glycol: &ethyleneGlycol},
	PropyleneGlycol: {name: "propylene glycol", glycol: &propyleneGlycol},
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
// none of the constants is a mistake of the program, and At and Freezing panic on
// it.
type Liquid struct {
	Fluid       Fluid   // one of the constants of this package
	GlycolShare float64 // mass of glycol over mass of mixture, 0 to MostGlycol; 0 for water
}

// Check returns a *quantity.RangeError with the key glycol_share unless the share
// of glycol lies between 0 and MostGlycol and, for water, is 0. A glycol with a
// share of 0 is allowed and is water.
func (l Liquid) Check() error {
	most, rule := MostGlycol, "must lie between 0 % and 60 % by mass"
	if l.Fluid == Water {
		most, rule = 0, "must be zero: water holds no glycol"
	}
	if l.GlycolShare >= 0 && l.GlycolShare <= most {
		return nil
	}
	return &quantity.RangeError{Key: "glycol_share", Value: l.GlycolShare, Low: 0, High: most, Rule: rule}
}

// At returns the properties of the liquid at temperature t, in K.
//
// Water follows [1] from 253.15 K to 383.15 K, its conductivity from 273.15 K,
// with the uncertainties that [1] claims: density 0.001 %, specific heat 0.1 %,
// viscosity 1 %, conductivity 2 % (from memory). Outside 232 K to 593 K the
// formulas have no value.
//
// Mixtures with glycol follow the polynomials of [3] from their freezing point to
// 373.15 K, which were fitted to data up to FitEnd. From there to 373.15 K they
// differ from the tables of [4] by up to 1 % in density and specific heat, 6 % in
// viscosity, and in conductivity by 1 % up to 333 K and 5 % at 373 K; below, by up
// to 2 % in specific heat and conductivity and in viscosity by what ViscosityDoubt
// says. Without glycol the polynomials miss water by up to 1.8 %: a mixture with a
// share of 0 follows [1], and the properties step by that much as glycol is added.
//
// Nothing is clamped and nothing is refused: the liquid ends at Freezing and
// Boiling, Check tells which shares of glycol there are, and the caller refuses
// what lies beyond.
//
// Check: water at 298.15 K gives 997.047 kg/m³, 8.89997e-4 Pa s, 0.606502 W/(m K)
// and 4181.446 J/(kg K); 31 % of ethylene glycol at 293.15 K gives 1039.44 kg/m³,
// 2.2241e-3 Pa s, 0.46079 W/(m K) and 3699.0 J/(kg K).
func (l Liquid) At(t float64) Properties {
	if m := l.mixture(); m != nil {
		return m.at(l.GlycolShare, t)
	}
	return water(t)
}

// mixture returns the mixture that the liquid is, or nil if there is no glycol in
// it.
func (l Liquid) mixture() *mixture {
	m := fluids[l.Fluid].glycol
	if l.GlycolShare == 0 {
		return nil
	}
	return m
}

// Freezing returns the temperature, in K, below which the liquid freezes: 273.15 K
// for water, and for mixtures that at which the first ice forms, after [3]. The
// freezing points of [4] are up to 0.5 K higher for ethylene glycol with a share of
// up to 0.30, 2.2 K for 0.50 and 2.9 K for 0.60; for propylene glycol they lie
// between 0.2 K higher and 1.5 K lower.
//
// Check: 31 % of ethylene glycol freezes at 257.775 K.
func (l Liquid) Freezing() float64 {
	if m := l.mixture(); m != nil {
		return m.freezes(l.GlycolShare)
	}
	return 273.15
}

// Boiling returns the temperature, in K, above which the liquid is refused:
// 373.15 K, where water boils at the pressure of sea level and the formulas of the
// mixtures end; these boil a few kelvin higher. That boiling points fall with
// altitude, by about 1 K in 300 m (common practice, no source), is not modelled.
func (l Liquid) Boiling() float64 { return 373.15 }

// FitEnd returns the temperature, in K, above which the formulas of the liquid were
// not fitted to data: 383.15 K for water, beyond its boiling point [1]; 313.15 K for
// mixtures with glycol [3].
func (l Liquid) FitEnd() float64 {
	if l.mixture() != nil {
		return 313.15
	}
	return 383.15
}

// ViscosityDoubt returns how far the viscosity of At may be off, relative to it and
// to either side: 0.01 for water [1] (from memory); 0.06 for mixtures with glycol,
// which is how far [3] and [4] differ from 303 K to 373 K. In the cold they
// differ by more: by 9 % at 293 K, 12 % at 283 K and 17 % at 273 K where there is
// little ethylene glycol, by 8 % with 60 % of propylene glycol.
func (l Liquid) ViscosityDoubt() float64 {
	if l.mixture() != nil {
		return 0.06
	}
	return 0.01
}

// ConductivityDoubt returns how far the conductivity of At may be off, relative to it
// and to either side, below 333 K: 0.02, for water [1] (from memory) and for mixtures
// with glycol, which is how far [3] and [4] differ.
func (l Liquid) ConductivityDoubt() float64 { return 0.02 }

// SpecificHeatDoubt returns how far the specific heat of At may be off, relative to it
// and to either side: 0.001 for water [1] (from memory); 0.02 for mixtures with glycol,
// which is how far [3] and [4] differ.
func (l Liquid) SpecificHeatDoubt() float64 {
	if l.mixture() != nil {
		return 0.02
	}
	return 0.001
}
