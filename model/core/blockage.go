package core

// Block closes a share of the core's air passages, 0 to below 1, as a mat of dust on
// the face closes them: the air goes through the rest, faster. Cores behind one another
// are all taken to be as dusty.
// Free-flow area, air-side surface and σ shrink by the share; the tubes stay as they
// are, since the passages that are left lie along all of them.
//
// The surface behind a closed passage is lost: with the area alone smaller, dust
// would help, since faster air exchanges more. (At equal airflow it still may where it
// drives plain passages from laminar to turbulent flow.) What dust does to the film on
// fins that it covers is not modelled.
func (c *Core) Block(share float64) {
	open := 1 - share
	c.flowArea *= open
	c.airArea *= open
	c.finArea *= open
	c.sigma *= open
}

// Shadow puts a share of the core's face, 0 to below 1, into the shadow of fan hubs
// and frame corners. Behind the shadow no air flows and nothing is
// exchanged; the rest takes all the air. That part of the core is then as if it were
// cut off, for the air, the walls and the coolant's surface alike; the coolant still
// passes through it, with its pressure drop. The shadow is taken to lie evenly along
// and across the tubes.
//
// It is the worst that an uneven flow of that kind can do: in truth some air spreads
// behind the fan. Radiators in a wind tunnel lost little to uneven flow unless it was
// severe [15].
func (c *Core) Shadow(share float64) {
	lit := 1 - share
	c.flowArea *= lit
	c.airArea *= lit
	c.finArea *= lit
	c.tube.inside *= lit
	c.tube.wall /= lit
}
