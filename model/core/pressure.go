package core

// PressureDrop returns the pressure drop of the core, Pa, at an air mass flow, kg/s,
// densities before and behind it, kg/m³, and the viscosity at its mean temperature,
// Pa s. See PressureDropWith.
func (c *Core) PressureDrop(massFlow, inlet, outlet, viscosity float64) float64 {
	return c.PressureDropWith(c.Friction(c.Reynolds(massFlow, viscosity)), massFlow, inlet, outlet)
}

// PressureDropWith returns the pressure drop of the core, Pa, with a given Fanning
// friction factor, after Kays & London:
//
//	Δp = G²/(2ρ₁) {(K_c + 1 − σ²) + 2(ρ₁/ρ₂ − 1) + f (A/A_c)(ρ₁/ρ_m) − (1 − σ² − K_e)(ρ₁/ρ₂)}
//
// with 1/ρ_m = (1/ρ₁ + 1/ρ₂)/2 [8]. The losses at entrance and exit are those of
// flat profiles, K_c = 0.4 (1 − σ²) and K_e = (1 − σ)², which fit the curves of [8]
// for infinite Reynolds number within 0.005: louvers break the profile up, and the
// apparent friction of plain passages holds its development already. Each further
// core behind the first adds its surface to A, and entrance and exit once more, at
// the mean density.
func (c *Core) PressureDropWith(f, massFlow, inlet, outlet float64) float64 {
	g := massFlow / c.flowArea
	s, ratio := c.sigma, inlet/outlet
	contraction, expansion := 0.4*(1-s*s), (1-s)*(1-s)
	return g * g / (2 * inlet) * ((contraction + 1 - s*s) + 2*(ratio-1) +
		(f*c.airArea/c.flowArea+float64(c.geometry.Further)*(contraction+expansion))*(1+ratio)/2 - (1-s*s-expansion)*ratio)
}
