package sound

import "math"

// Levels of the three rules, dB(A).
const (
	NIOSHLimit   = 85.0  // recommended exposure limit over 8 h [3] 1.1.1
	NIOSHCeiling = 140.0 // no exposure above it [3]; a draft of 1996 has 115
	OSHALimit    = 90.0  // permissible exposure over 8 h [4] Table G-16
	OSHAAction   = 85.0  // action level over 8 h, half of the dose that is permitted [4] (c)
	OSHACeiling  = 115.0 // where Table G-16 ends [4]
	EULower      = 80.0  // lower exposure action value over 8 h [5]
	EUUpper      = 85.0  // upper exposure action value over 8 h [5]
	EULimit      = 87.0  // exposure limit value over 8 h, with hearing protection counted [5]
)

// CountedFrom is the level, dB(A), from which a dose counts sound: [3] 1.3.3 and, for the
// action level, [4] (d)(2).
const CountedFrom = 80.0

// workingDay is the day to which all three rules refer, s.
const workingDay = 8 * 3600.0

// Dose returns the dose, 1 for 100 %, of a level in dB(A) that is borne for a duration
// where a time is permitted, both in s and above 0: duration over permitted time, and 0
// below 80 dB(A), which is not counted.                               [3] 1.3.3, [4] (d)(2)
//
// For OSHA that is the dose of the action level, half of 100 %; the permissible exposure
// counts 90 dB(A) and more only.                                      [4] Table G-16
//
// Check: 1 h of 95 dB(A), permitted for 4 h, is 25 %.
func Dose(level, duration, permitted float64) float64 {
	if level < CountedFrom {
		return 0
	}
	return duration / permitted
}

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
	return workingDay * math.Exp2((NIOSHLimit-level)/3)
}

// PermittedOSHA returns how long, in s a day, a level in dB(A) may be borne after
// OSHA:
//
//	T = 8 h / 2^((L − 90)/5)                                           [4] Appendix A
//
// Check: 90 dB(A) may be borne for 8 h, 100 dB(A) for 2 h.
func PermittedOSHA(level float64) float64 {
	return workingDay * math.Exp2((OSHALimit-level)/5)
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
	return level + 10*math.Log10(duration/workingDay)
}

// PermittedEU returns how long, in s a day, a level in dB(A) may be borne until the
// daily exposure level reaches a value in dB(A): EULower, EUUpper or EULimit:
//
//	T = 8 h · 10^((L_EX − L)/10)                                       [5] Art. 3
//
// Check: 100 dB(A) reach 85 dB(A) in 15.2 min.
func PermittedEU(level, value float64) float64 {
	return workingDay * math.Exp((value-level)*(math.Ln10/10))
}

// ActionTimes returns PermittedEU of a level in dB(A) for EULower, EUUpper and EULimit.
//
// Check: 100 dB(A) reach them in 4.80, 15.2 and 24.1 min.
func ActionTimes(level float64) (lower, upper, limit float64) {
	upper = PermittedEU(level, EUUpper)
	return upper * lowerOverUpper, upper, upper * limitOverUpper
}

// Of the times of the directive's values over that of the upper action value.
var (
	lowerOverUpper = math.Pow(10, (EULower-EUUpper)/10)
	limitOverUpper = math.Pow(10, (EULimit-EUUpper)/10)
)

// AverageNIOSH returns the 8-hour average level, dB(A), of a dose, 1 for 100 %,
// above 0:
//
//	TWA = 10.0 log10 D + 85                                            [3] Table 1-2
//
// with the constant as printed; 3/log10 2 = 9.966 would agree with PermittedNIOSH.
//
// Check: 200 % are 88.0 dB(A).
func AverageNIOSH(dose float64) float64 { return 10*math.Log10(dose) + NIOSHLimit }

// AverageOSHA returns the 8-hour average level, dB(A), of a dose, 1 for 100 %,
// above 0:
//
//	TWA = 16.61 log10 D + 90                                           [4] Appendix A
//
// Check: 50 % are 85.0 dB(A), the action level.
func AverageOSHA(dose float64) float64 { return 16.61*math.Log10(dose) + OSHALimit }
