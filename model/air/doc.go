// Package air models the air of the room as it flows through a core: a mixture
// of dry air and water vapour at the pressure of the place, as an ideal gas whose
// properties vary with temperature.
//
// It models the standard atmosphere up to 11 km, humidity, density, viscosity,
// conductivity, specific heat and the speed of sound. It does not model weather
// (the pressure of a place is that of its altitude), condensation (nothing in the
// air stream is colder than the room), or the effect of vapour on viscosity and
// conductivity, which are those of dry air: see VapourLimit.
//
// All quantities are in SI units; temperatures are absolute, in K.
//
// References:
//
//	[1] U.S. Standard Atmosphere, 1976. NOAA, NASA, USAF; NOAA-S/T 76-1562.
//	[2] ASHRAE Handbook - Fundamentals (SI), 2017, chapter 1, Psychrometrics.
//	[3] C. R. Wilke, A viscosity equation for gas mixtures,
//	    J. Chem. Phys. 18 (1950) 517-519.
//	[4] E. W. Lemmon, R. T Jacobsen, Viscosity and thermal conductivity equations
//	    for nitrogen, oxygen, argon, and air, Int. J. Thermophys. 25 (2004) 21-69.
package air
