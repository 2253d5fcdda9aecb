package breakeven

import (
	"fmt"
	"math"
	"strings"

	"finduel/model/quantity"
	"finduel/sweep"
)

// reason says an answer in one sentence, in the units that are shown; end is the
// challenger at the highest speed searched.
func reason(p *sweep.Plan, a *Answer, end Point) string {
	challenger := p.Study.Setups[p.Study.Challenger].Name
	reference := p.Study.Setups[p.Study.Reference].Name
	lower, hasLower := a.Lower()
	upper, hasUpper := a.Upper()
	var text string
	switch {
	case a.Status == None:
		return fmt.Sprintf("%s stays warmer than %s: closest at %s, by %s K%s%s", challenger, reference, rpm(a.Best.Speed), small(a.Best.Difference), where(a, end), cost(a))
	case a.Status == Always && a.From == a.To:
		text = fmt.Sprintf("%s is cooler than %s at %s, by %s K", challenger, reference, rpm(a.To), small(-a.Best.Difference))
	case a.Status == Always:
		text = fmt.Sprintf("%s is cooler than %s at every speed from %s to %s, by %s K at best", challenger, reference, rpm(a.From), rpm(a.To), small(-a.Best.Difference))
	case hasLower && hasUpper && lower < upper:
		text = fmt.Sprintf("%s equals %s at %s and is cooler up to %s; above it %s", challenger, reference, rpm(lower), rpm(upper), why(a, end))
	case hasUpper:
		text = fmt.Sprintf("%s is cooler than %s up to %s; above it %s", challenger, reference, rpm(upper), why(a, end))
	default:
		text = fmt.Sprintf("%s equals %s at %s and is cooler above it, up to %s", challenger, reference, rpm(lower), rpm(a.To))
	}
	for _, edge := range a.Edges {
		side := "below"
		if edge >= a.Best.Speed {
			side = "above"
		}
		text += fmt.Sprintf("; %s %s it has no value", side, rpm(edge))
	}
	return text
}

// where says what lies beyond the closest approach.
func where(a *Answer, end Point) string {
	switch a.BestEnds {
	case 1:
		return ", the top of the searched speeds and still falling"
	case -1:
		return ", the low end of the searched speeds and rising from there"
	}
	return "; beyond it " + why(a, end)
}

// why says why the challenger gets warmer again beyond its best speed: the fans'
// heat, if without it the challenger would not.
func why(a *Answer, end Point) string {
	rise := end.Difference - a.Best.Difference
	heat := end.State.Budget.FanHeat - a.Best.State.Budget.FanHeat
	if heat > 0 && heat >= rise && !math.IsInf(rise, 1) {
		return "the fans heat the air faster than the core gains"
	}
	return "it is warmer again"
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
