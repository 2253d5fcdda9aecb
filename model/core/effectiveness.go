package core

// ofOne returns the effectiveness of one whole core, 0 to 1, heat over the
// smaller capacity rate times the inlet temperature difference, from its
// conductance UA, 0 or more, and the capacity rates of air and coolant, above 0,
// all in W/K. Each pass is crossflow of the core's Arrangement.
//
// Passes side by side each have their share of the conductance and of the air,
// fresh, and all of the coolant, one pass after the other. Every pass takes the
// same share x of what is left of the coolant's excess temperature over the air,
// so p passes take 1 − (1 − x)^p:
//
//	Q = C_c [1 − (1 − x)^p] (T_c − T_a),  x = ε₁ C_min,1/C_c
//
// Passes behind one another each have their share of the conductance and all of
// both streams; the coolant's last pass meets the fresh air, and both streams are
// mixed between passes. They add up as exchangers in counterflow.             [9]
//
// Check: N = 2, C = 0.5, both unmixed, behind one another: 1 to 4 passes give
// 0.73240925, 0.75913558, 0.76673785 and 0.76986986.
func (c *Core) ofOne(ua, airCapacity, coolantCapacity float64) float64 {
	g := &c.geometry
	passes := float64(g.Passes)
	air := airCapacity
	if g.Routing == SideBySide {
		air /= passes
	}
	least, most := min(air, coolantCapacity), max(air, coolantCapacity)
	one := g.Arrangement.effectiveness(ua/passes/least, least/most, air <= coolantCapacity)
	if g.Passes == 1 {
		return one
	}
	if g.Routing == CrossCounterflow {
		all := one
		for range g.Passes - 1 {
			all = inCounterflow(all, one, least/most)
		}
		return all
	}
	share, taken := one*least/coolantCapacity, 0.0
	for range g.Passes {
		taken += share * (1 - taken)
	}
	return coolantCapacity * taken / min(airCapacity, coolantCapacity)
}
