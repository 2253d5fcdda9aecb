// Package coolant models the liquid that carries heat from the cold plate to the
// core: its density, viscosity, conductivity and specific heat as functions of
// temperature.
//
// It models pure water and mixtures of water with ethylene or propylene glycol. It
// does not model inhibitors and other additives, dissolved gas, the effect of
// pressure (2 bar more makes water 0.01 % denser), freezing or boiling: Freezing
// and Boiling say where the liquid ends, and the caller refuses states beyond.
//
// All quantities are in SI units; temperatures are absolute, in K.
//
// References:
//
//	[1] IAPWS SR6-08(2011), Revised Supplementary Release on Properties of Liquid
//	    Water at 0.1 MPa.
//	[2] J. Pátek, J. Hrubý, J. Klomfar, M. Součková, A. H. Harvey, Reference
//	    correlations for thermophysical properties of liquid water at 0.1 MPa,
//	    J. Phys. Chem. Ref. Data 38 (2009) 21-29.
//	[3] Å. Melinder, Properties of Secondary Working Fluids for Indirect Systems,
//	    International Institute of Refrigeration, Paris 2010. The coefficients were
//	    read in a copy.
//	[4] ASHRAE Handbook - Fundamentals (SI), 2001, chapter 21, Physical Properties of
//	    Secondary Coolants (number and title of the chapter from memory). The tables
//	    were read in a copy.
package coolant
