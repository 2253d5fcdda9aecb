package sound

// The sound of stall (common practice, no source: axial fans are 3 to 8 dB louder
// in their stalled region).
const (
	StallRise   = 6.0         // dB, of a fan that is stalled through
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
// flow and is complete at 35 % (common practice, no source). Expect 3 to 8 dB.
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
