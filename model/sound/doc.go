// Package sound adds up sound levels, carries them over speed and distance, and
// says how long they may be borne.
//
// A level here is an A-weighted sound pressure level in dB(A). Not modelled:
// spectrum and tones, the room's echo, reflecting surfaces, the extra noise of a
// stalled fan. Expect ±5 dB with a rated level (common practice, no source): a
// fan's rating is taken in free air, and a core close by makes it louder.
//
// References
//
//	[1] ASHRAE Handbook, HVAC Systems and Equipment, fan laws: sound power rises
//	    with 50 log10 of the speed.
//	[2] ISO 3744:2010, energetic mean and sum of levels.
//	[3] NIOSH, Criteria for a Recommended Standard: Occupational Noise Exposure,
//	    Publication 98-126 (1998), clause 1.1.1 and Table 1-1.
//	[4] 29 CFR 1910.95 (OSHA), Appendix A and Table G-16a.
//	[5] Directive 2003/10/EC of the European Parliament and of the Council,
//	    Article 3.
package sound
