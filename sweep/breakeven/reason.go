package breakeven

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"finduel/model/quantity"
	"finduel/sweep"
)

// reason says an answer in one sentence, in the units that are shown; end is the
// challenger at the highest speed searched. A break-even never stands without the
// speeds between which the margin leaves it.
func reason(p *sweep.Plan, a *Answer, end Point) string {
	challenger := p.Study.Setups[p.Study.Challenger].Name
	reference := p.Study.Setups[p.Study.Reference].Name
	lower, upper := a.Ends()
	var text string
	switch {
	case a.Status == None:
		return fmt.Sprintf("%s stays warmer than %s: closest at %s, by %s K%s%s", challenger, reference, rpm(a.Best.Speed), small(a.Best.Difference), where(a, end), cost(a)) + driveEnd(a) + cut(a)
	case a.Status == Tie:
		text = fmt.Sprintf("a tie from %s rpm: %s and %s differ by no more than %s K there, and %s is nowhere cooler by more",
			a.Tie, challenger, reference, given(a.Margin), challenger)
		var equal []string
		for _, c := range a.Crossings {
			equal = append(equal, rpm(c.Speed))
		}
		if equal != nil {
			text += "; they are equal at " + strings.Join(equal, " and ")
		}
	case a.Status == Always && a.From == a.To:
		text = fmt.Sprintf("%s is cooler than %s at %s, by %s K", challenger, reference, rpm(a.To), small(-a.Best.Difference))
	case a.Status == Always:
		text = fmt.Sprintf("%s is cooler than %s at every speed from %s to %s, by %s K at best", challenger, reference, rpm(a.From), rpm(a.To), small(-a.Best.Difference))
	case lower != nil && upper != nil && lower.Speed < upper.Speed:
		text = fmt.Sprintf("%s equals %s at %s and is cooler up to %s; above it %s", challenger, reference, a.between(lower), a.between(upper), why(a, end))
	case upper != nil:
		text = fmt.Sprintf("%s is cooler than %s up to %s; above it %s", challenger, reference, a.between(upper), why(a, end))
	default:
		text = fmt.Sprintf("%s equals %s at %s and is cooler above it, up to %s", challenger, reference, a.between(lower), rpm(a.To))
	}
	text += illDetermined(a, lower, upper)
	for _, c := range a.Crossings {
		if c.Jump {
			text += fmt.Sprintf("; at %s the two are never equal: the difference jumps", rpm(c.Speed))
		}
	}
	for _, edge := range a.Edges {
		side := "below"
		if edge >= a.Best.Speed {
			side = "above"
		}
		text += fmt.Sprintf("; %s %s it has no value", side, rpm(edge))
	}
	return text + driveEnd(a) + cut(a)
}

// driveEnd says where the challenger's drive ends, and why.
func driveEnd(a *Answer) string {
	if a.DriveEnd == "" {
		return ""
	}
	return "; its drive ends at " + rpm(a.To) + ": " + a.DriveEnd + " stops it"
}

// Ends returns the crossings from which on the challenger is better and worse
// again; nil where there is none.
func (a *Answer) Ends() (lower, upper *Crossing) {
	for i := range a.Crossings {
		c := &a.Crossings[i]
		if c.Falling && lower == nil {
			lower = c
		}
		if !c.Falling {
			upper = c
		}
	}
	return lower, upper
}

// between says a break-even with the speeds between which the margin leaves it.
func (a *Answer) between(c *Crossing) string {
	if c.Jump {
		return rpm(c.Speed)
	}
	return fmt.Sprintf("%s (%s within %s K)", rpm(c.Speed), c.Tie, given(a.Margin))
}

// String says a tie in rpm: "6 203 to 6 398", with "or less" or "or more" where it
// is open.
func (v Interval) String() string {
	text := strings.TrimSuffix(rpm(v.Low), " rpm")
	if v.OpenLow {
		text += " or less"
	}
	text += " to " + strings.TrimSuffix(rpm(v.High), " rpm")
	if v.OpenHigh {
		text += " or more"
	}
	return text
}

// illDetermined says which ends of an answer the margin leaves open.
func illDetermined(a *Answer, lower, upper *Crossing) string {
	if a.Status == Tie {
		return ""
	}
	var list []string
	for _, c := range []*Crossing{lower, upper} {
		if c != nil && c.IllDetermined() {
			list = append(list, rpm(c.Speed))
		}
	}
	if list == nil {
		return ""
	}
	verb := " is"
	if len(list) > 1 {
		verb = " are"
	}
	return "; " + strings.Join(list, " and ") + verb + " ill-determined: the curve is flat there"
}

// cut says that the search gave up.
func cut(a *Answer) string {
	if a.Cut {
		return "; the curve is too rough to be sure that there are no more break-evens"
	}
	return ""
}

// given prints a number of the study.
func given(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }

// where says what lies beyond the closest approach.
func where(a *Answer, end Point) string {
	switch {
	case a.From == a.To:
		return ", the only speed searched"
	case a.BestEnds == 1:
		return ", the top of the searched speeds and still falling"
	case a.BestEnds == -1:
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
