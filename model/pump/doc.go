// Package pump models the pump of the coolant and the loop that it drives: where the
// pump's curve meets what core, plate and hoses take, there is the coolant flow.
//
// One mechanism a file:
//
//	pump.go  the pump's curve between shut-off pressure and free flow; hydraulic power
//	loop.go  what plate and hoses take; the flow at which the two meet
//
// Not modelled: the pump's change with speed, viscosity and air in the loop, static
// height (a closed loop has none), and what plate and hoses take as the coolant's
// viscosity changes: it is given for the coolant as warm as it runs.
//
// All quantities are in SI units. Pressures are those of the flow, so that a data
// sheet's head of 1 m of water is 9806.65 Pa.
//
// References
//
//	[1] H. Blasius, Das Ähnlichkeitsgesetz bei Reibungsvorgängen in Flüssigkeiten,
//	    VDI Forschungsheft 131 (1913): friction factor of turbulent flow in smooth
//	    pipes with Re^−1/4, so that the pressure drop goes with flow^1.75 (from memory).
package pump
