// Package fan models a fan by what its data sheet says (free-air flow, shut-off
// pressure, power and sound at one rated speed), by measured points of its curve, or as
// a propeller with its motor.
//
// Between the two ends of a data sheet's curve the fan is taken to follow
//
//	p = p_0 [1 − (V/V_0)^m]
//
// a straight line for m = 1, which is the default: real curves of axial fans lie
// on either side of it, with a saddle at about half of the free-air flow that a
// data sheet of two points does not show. Measured points keep theirs. The affinity
// laws [1] carry the curve to other speeds and air densities.
//
// A propeller that is put to work as a fan has no data sheet but coefficients,
// measured without a shroud: momentum theory makes a curve of them, and a brushless
// motor on its controller, wires and supply turns it.
//
//	fan.go, curve.go, points.go      a fan; its curve by two points or by several; stall
//	power.go, rotor.go, bank.go      what it draws; its size; equal fans side by side
//	sound.go                         its level, and where that comes from
//	improvised.go                    a propeller made a fan
//	propeller.go, propellertable.go  the rotor's curve and its doubt; measured propellers
//	brushless.go, drive.go           the motor; supply to shaft, and what limits the speed
//	ladder.go                        the speed at which each limit is met
//	disc.go                          how much of the swept disc lies over the face
//	similarity.go                    Reynolds and Mach numbers, where the affinity laws end
//
// Not modelled: the saddle where only two points are known (the share of free-air flow
// tells when to expect it), hunting in stall, losses at grilles and between fan and
// core, and compressibility.
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
//	[6] F. Fritsch, J. Butland, A method for constructing local monotone piecewise
//	    cubic interpolants, SIAM J. Sci. Stat. Comput. 5(2) 300-304, 1984 (from memory).
//	[7] The sources of package sound, constants RatedDoubt and EstimatedDoubt.
package fan
