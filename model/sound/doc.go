// Package sound adds up sound levels, carries them over speed, distance and
// surroundings, estimates them where no rating is known, and says how long they may
// be borne.
//
// A level here is an A-weighted sound pressure level in dB(A) unless said otherwise.
// The rated level of a fan means: sound pressure at 1 m in a free field.
//
// One mechanism a file:
//
//	level.go         sums, speed, density, distance
//	fit.go           level and exponent from readings
//	stall.go         how much louder a stalled fan is
//	surroundings.go  free field, half space, room
//	weighting.go     A-weighting of octaves
//	estimate.go      a fan's level from its flow and pressure
//	tone.go          blade passing frequency
//	exposure.go      permitted times and doses of three rules
//
// Not modelled: how strong tones are, beats between fans, guards and inlets close to
// the blades (3 to 8 dB more, common practice), sound that a wall or duct holds back.
// Expect ±5 dB with a rated level, ±10 dB without (common practice, no source): a
// fan's rating is taken in free air, and a core close by makes it louder.
//
// References
//
//	[1] ASHRAE Handbook, HVAC Systems and Equipment, fan laws: sound power rises
//	    with 50 log10 of the speed; pressure goes with the density.
//	[2] ISO 3744:2010, energetic mean and sum of levels, sound power over a surface.
//	[3] NIOSH, Criteria for a Recommended Standard: Occupational Noise Exposure,
//	    Publication 98-126 (1998), clauses 1.1 and 1.3.3, Tables 1-1 and 1-2.
//	[4] 29 CFR 1910.95 (OSHA), Tables G-16 and G-16a, Appendix A.
//	[5] Directive 2003/10/EC of the European Parliament and of the Council,
//	    Article 3.
//	[6] D. A. Bies, C. H. Hansen, C. Q. Howard, Engineering Noise Control, 5th ed.,
//	    CRC Press 2018.
//	[7] IEC 61672-1, frequency weighting A.
//	[8] TM 5-805-4 / UFC 3-450-01 (2003), Noise and Vibration Control, eq. C-5.
//	[9] M. Long, Architectural Acoustics, 2nd ed., Tables 13.5 and 13.7 (ASHRAE 1987).
package sound
