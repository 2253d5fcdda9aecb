// Package model answers what a setup does: a finned core, its fans, the coolant
// and the heat, put together into one steady state.
//
// Evaluate takes a Rig and returns a State. On the way
//
//  1. the room air, the core's geometry and the fans are made ready,
//  2. the fans' pressure-flow curve at the given speed meets the core's
//     resistance: the airflow, with the densities of the air where it is (in a
//     push setup the fans breathe room air and warm it before the core; in a pull
//     setup they breathe what leaves the core),
//  3. the air film, the fins, the tube wall and the coolant film add up to the
//     core's conductance UA; the coolant's flow is given, or where its pump meets
//     core, plate and hoses,
//  4. the effectiveness of the core's arrangement (crossflow, both streams unmixed,
//     exact, unless the core says otherwise), of its passes and of what is stacked
//     behind it turns UA and the two capacity rates into the coolant temperature that
//     carries the heat away,
//  5. the temperature budget splits coolant over air into its causes, and
//     sound, exposure, power, current and tip speed say what it costs.
//
// As installed, a setup loses pressure at a grille, air past the core, and a part of
// the core to dust and behind fan hubs; see Installed.
//
// Properties of air and coolant are those at the film temperatures, which are
// part of the solution.
//
// Not modelled: natural draught and radiation (the fans are assumed to move far
// more), heat through the housing, uneven airflow over the face but for a part of it
// that gets none, and anything that changes in time.
//
// Sources of the formulas are named in the packages that hold them: air,
// coolant, core, fan, pump, sound. That all shaft power ends as heat in the air stream,
// and all electrical power if the motor sits in it, is the steady-flow energy
// balance; see ASHRAE Handbook, HVAC Systems and Equipment (2016), chapter on
// fans.
//
// The package needs nothing but arithmetic: it knows no file, no flag, no
// goroutine and no picture.
package model
