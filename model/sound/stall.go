package sound

// The sound of stall (common practice, no source: axial fans are 3 to 8 dB louder
// in their stalled region).
const (
	StallRise   = 6.0         // dB, of a fan that is stalled through
	stallLeast  = 3.0         // dB, of the quietest such fan
	stallMost   = 8.0         // dB, of the loudest such fan
	stalledFrom = 0.35 / 0.60 // of the flow at which stall begins: from here down the fan is stalled through
)

// StallPenalty returns by how much, in dB, a fan is louder than its level at the
// same speed, at a share of its free-air flow (0 to 1) and the share at which its
// stall begins (above 0, to 1):
//
//	0                     at that share and above it
//	6 dB                  at 0.35/0.60 of it and below
//	a straight line       between the two
//
// The two ends are those of an axial fan whose stall begins at 60 % of the free-air
// flow and is complete at 35 % (common practice, no source). Expect 3 to 8 dB; see StallDoubt.
//
// Check: with stall from 0.60 on, 0.475 is 3 dB louder.
func StallPenalty(share, stallShare float64) float64 {
	stalled := stalledFrom * stallShare
	switch {
	case share >= stallShare:
		return 0
	case share <= stalled:
		return StallRise
	}
	return StallRise * (stallShare - share) / (stallShare - stalled)
}

// StallDoubt returns how far a level that StallPenalty has raised by a rise, dB, 0 or
// more, may be out, in dB, low end negative, where it may be out by doubt either way
// without stall, dB, 0 or more:
//
//	low  = −doubt − rise (6 − 3)/6
//	high =  doubt + rise (8 − 6)/6
//
// since a fan that is stalled through is 3 to 8 dB louder where 6 dB are taken (common
// practice, no source). The two are added as they are: neither is known as a
// distribution.
//
// Check: with ±5 dB a fan that is stalled through is 8 dB quieter to 7 dB louder.
func StallDoubt(doubt, rise float64) (low, high float64) {
	return -doubt - rise*(StallRise-stallLeast)/StallRise, doubt + rise*(stallMost-StallRise)/StallRise
}
