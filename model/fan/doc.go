// Package fan models a fan by what its data sheet says: free-air flow, shut-off
// pressure, power and sound at one rated speed.
//
// Between the two ends of its curve the fan is taken to follow
//
//	p = p_0 [1 − (V/V_0)^m]
//
// a straight line for m = 1, which is the default: real curves of axial fans lie
// on either side of it, with a saddle at about half of the free-air flow that a
// data sheet of two points does not show. The affinity laws [1] carry the curve to
// other speeds and air densities.
//
// A propeller that is put to work as a fan has no data sheet but coefficients,
// measured without a shroud: momentum theory makes a curve of them, and a brushless
// motor on its controller, wires and supply turns it.
//
//	propeller.go, propellertable.go  the rotor's curve and its doubt; measured propellers
//	brushless.go, drive.go           the motor; supply to shaft, and what limits the speed
//	disc.go                          how much of the swept disc lies over the face
//	similarity.go                    Reynolds and Mach numbers, where the affinity laws end
//
// Not modelled: the saddle itself and stall (the share of free-air flow tells
// when to expect them), losses at grilles and between fan and core, the power's
// change along the curve, losses of the motor's electronics at low speed, and
// compressibility.
//
// References
//
//	[1] ASHRAE Handbook, HVAC Systems and Equipment, chapter on fans, fan laws.
//	[2] ISO 5801:2017, definitions of fan pressure, flow and rating density
//	    1.2 kg/m³ (from memory).
//	[3] J. Brandt, R. Deters, G. Ananda, O. Dantsker, M. Selig, UIUC Propeller Data
//	    Site, volume 2, University of Illinois.
//	[4] M. Drela, First-Order DC Electric Motor Model, MIT 2007.
//	[5] R. Deters, G. Ananda, M. Selig, Reynolds number effects on the performance
//	    of small-scale propellers, AIAA 2014-2151: performance improves with the
//	    Reynolds number.
package fan
