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
package fan
