package sound

import "math"

// PermittedNIOSH returns how long, in s a day, a level in dB(A) may be borne
// after NIOSH:
//
//	T = 480 min / 2^((L − 85)/3)                                       [3] 1.1.1
//
// The formula is given for 80 dB(A) and more; below, it returns more than the
// hours of a day. Sounds of any kind above 140 dB(A) are not permitted at all
// there; the formula then gives less than a tenth of a second.
//
// Check: 85 dB(A) may be borne for 8 h, 100 dB(A) for 15 min.
func PermittedNIOSH(level float64) float64 {
	return 480 * 60 * math.Exp2((85-level)/3)
}

// PermittedOSHA returns how long, in s a day, a level in dB(A) may be borne after
// OSHA:
//
//	T = 8 h / 2^((L − 90)/5)                                           [4] Appendix A
//
// Check: 90 dB(A) may be borne for 8 h, 100 dB(A) for 2 h.
func PermittedOSHA(level float64) float64 {
	return 8 * 3600 * math.Exp2((90-level)/5)
}

// DailyExposure returns the daily exposure level L_EX,8h, dB(A), of a level in
// dB(A) borne for a duration in s, above 0:
//
//	L_EX,8h = L + 10 log10(T / 8 h)                                    [5] Art. 3
//
// The directive's lower and upper action values are 80 and 85 dB(A), its limit
// 87 dB(A) with hearing protection counted.
//
// Check: 100 dB(A) for 15 min is 84.95 dB(A).
func DailyExposure(level, duration float64) float64 {
	return level + 10*math.Log10(duration/(8*3600))
}
