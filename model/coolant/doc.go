// Package coolant models the liquid that carries heat from the cold plate to the
// core: its density, viscosity, conductivity and specific heat as functions of
// temperature.
//
// It models pure water. It does not model additives, dissolved gas, the effect of
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
package coolant
