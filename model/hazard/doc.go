// Package hazard says what a setup of fans may do to people and wiring: each caution
// with its number, the threshold, where the threshold comes from, and the usual
// precaution.
//
// It gives no green light. It looks at what it is told and at nothing else; a build
// of which nothing is known has few cautions and may maim. Disclaimer belongs under
// every list of cautions, also an empty one.
//
// One mechanism a file:
//
//	build.go      how a setup is built, as far as its owner says
//	material.go   density, strength and softening of blades and shrouds
//	rotor.go      stress in the blades, energy of a piece that flies off
//	wire.go       gauges, resistance, voltage drop, what a wire carries
//	guard.go      how far a guard must stand off
//	caution.go    the rules in words, in order of severity
//	look.go       which rules hold for a state
//
// Not modelled: bending, fatigue, resonance, balance, hubs and screws, gyroscopic
// load (hence a quarter of the strength as limit); whether a guard stops what flies
// off; inrush, short circuits and braking currents; insulation, bundles and ambient
// heat; mains voltage; noise beyond what one level and one session say.
//
// References
//
//	[1]  Rotating beam and ring: any text on strength of materials (from memory).
//	[2]  ASTM B258, wire gauge; annealed copper of 100 % IACS.
//	[3]  NFPA 70 (NEC), Table 310.16 (60 °C, copper) and 240.4(D), read in
//	     transcriptions.
//	[4]  ISO 13857, Table 4, openings and safety distances, persons of 14 years and
//	     above, read in a transcription.
//	[5]  29 CFR 1910.212(a)(5): guards of fan blades within 7 feet of the floor.
//	[6]  EN 166:2001, impact of a steel ball of 6 mm: F 45 m/s, B 120 m/s. The energies
//	     0.84 J and 6.2 J that go with them are from memory; a ball of 0.86 g has
//	     0.87 J and 6.2 J.
//	[7]  NIOSH Publication 98-126 (1998).
//	[8]  29 CFR 1910.95 (OSHA).
//	[9]  Directive 2003/10/EC.
package hazard
