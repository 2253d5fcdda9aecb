package breakeven

import (
	"fmt"
	"math"
	"strings"

	"finduel/model/quantity"
	"finduel/sweep"
)

// reason says an answer in one sentence, in the units that are shown.
func reason(p *sweep.Plan, a *Answer) string {
	challenger := p.Study.Setups[p.Study.Challenger].Name
	reference := p.Study.Setups[p.Study.Reference].Name
	switch lower, hasLower := a.Lower(); a.Status {
	case One:
		return fmt.Sprintf("%s equals %s at %s and is cooler above it, up to %s", challenger, reference, rpm(lower), rpm(a.To))
	case Band:
		upper, _ := a.Upper()
		if !hasLower {
			return fmt.Sprintf("%s is cooler than %s up to %s; above it the fans heat the air faster than the core gains", challenger, reference, rpm(upper))
		}
		return fmt.Sprintf("%s equals %s at %s and is cooler up to %s; above it the fans heat the air faster than the core gains", challenger, reference, rpm(lower), rpm(upper))
	case Always:
		return fmt.Sprintf("%s is cooler than %s at every speed from %s to %s, by %.2f K at best", challenger, reference, rpm(a.From), rpm(a.To), -a.Best.Difference)
	case None:
		return fmt.Sprintf("%s stays warmer than %s: closest at %s, by %s K%s%s", challenger, reference, rpm(a.Best.Speed), small(a.Best.Difference), where(a), cost(a))
	}
	return ""
}

// where says what lies beyond the closest approach.
func where(a *Answer) string {
	switch a.BestEnds {
	case 1:
		return ", the top of the searched speeds and still falling"
	case -1:
		return ", the low end of the searched speeds and rising from there"
	}
	return "; beyond it the fans heat the air faster than the core gains"
}

// cost names the budget term that the challenger loses by.
func cost(a *Answer) string {
	if a.Limit.Term == "" {
		return ""
	}
	return fmt.Sprintf("; it loses most in %s (%s K more)", quantity.Must(a.Limit.Term).Label, small(a.Limit.Excess))
}

// small prints a temperature difference with two decimals, or more where two
// would hide it.
func small(v float64) string {
	if math.Abs(v) < 0.005 {
		return fmt.Sprintf("%.2g", v)
	}
	return fmt.Sprintf("%.2f", v)
}

// rpm prints a speed in whole revolutions per minute, thousands set apart by a
// space.
func rpm(speed float64) string {
	digits := fmt.Sprintf("%.0f", quantity.Must("fan_speed").Shown.Shown(speed))
	var groups []string
	for len(digits) > 3 {
		groups = append([]string{digits[len(digits)-3:]}, groups...)
		digits = digits[:len(digits)-3]
	}
	return strings.Join(append([]string{digits}, groups...), " ") + " rpm"
}
