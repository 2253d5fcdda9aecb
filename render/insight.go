package render

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
)

// Tie says the speeds between which the margin leaves a break-even: "6 203 to 6 398
// rpm".
func Tie(v breakeven.Interval) string { return v.String() + " rpm" }

// PlusMinus says a break-even speed, in rpm but without its unit, with how far the
// margin moves it, to whichever side is further: "6 298 ±98"; "±4 800+" if it is moved
// to the end of the search.
func PlusMinus(c *breakeven.Crossing) string {
	q := quantity.Must("fan_speed")
	text := Number(q, c.Speed)
	if c.Jump || !finite(c.Tie.Width()) || c.Tie == (breakeven.Interval{}) {
		return text
	}
	text += " ±" + Number(q, math.Max(c.Tie.High-c.Speed, c.Speed-c.Tie.Low))
	if c.Tie.OpenLow || c.Tie.OpenHigh {
		text += "+"
	}
	return text
}

// Moved says a break-even speed as PlusMinus does, with its unit, but in words where the
// margin moves it to the end of the search: "2 000 rpm (2 000 or less to 2 004 within the
// margin)".
func Moved(c *breakeven.Crossing) string {
	if c.Jump || !(c.Tie.OpenLow || c.Tie.OpenHigh) {
		return PlusMinus(c) + " rpm"
	}
	return Computed("fan_speed", c.Speed) + " (" + c.Tie.String() + " within the margin)"
}

// costing says a break-even speed with what it costs: "6 000 ±180 rpm (60.0 dBA, 20.0 W)";
// "2 000 rpm (41.1 dBA, 0.510 W; 2 000 or less to 2 004 within the margin)".
func costing(c *breakeven.Crossing) string {
	costs := Computed("sound", c.State.Sound) + ", " + Computed("fan_power", c.State.FanPower)
	if speed, tie, open := strings.Cut(Moved(c), " ("); open {
		return speed + " (" + costs + "; " + tie
	}
	return Moved(c) + " (" + costs + ")"
}

// Margin says the margin of an answer with its unit.
func Margin(a *breakeven.Answer) string {
	q := quantity.Must("margin")
	return WithUnit(q, Given(q, a.Margin))
}

// wholeSpeed is the share of the best speed from which a sensible speed counts as the
// best one: in whole percent they are the same.
const wholeSpeed = 0.995

// thrifty reports whether the sensible speed of an answer saves anything.
func thrifty(a *breakeven.Answer) bool { return a.Sensible.Speed < wholeSpeed*a.Best.Speed }

// Thrift says the sensible speed of an answer and what it saves; empty if it is the
// best speed itself or next to it, or if there is none.
func Thrift(a *breakeven.Answer) string {
	if !Answered(a) || !thrifty(a) {
		return ""
	}
	text := fmt.Sprintf("%s, %s of the best speed, is within %s of the best", Computed("fan_speed", a.Sensible.Speed),
		percent(a.Sensible.Speed/a.Best.Speed), Margin(a))
	if share := a.Sensible.State.FanPower / a.Best.State.FanPower; finite(share) {
		text += " with " + percent(share) + " of the fan power"
	}
	if quieter := a.Best.State.Sound - a.Sensible.State.Sound; finite(quieter) {
		text += " and " + decibels(quieter) + " less"
	}
	return text + "."
}

// percent says a share in percent: whole, or with a decimal below ten.
func percent(share float64) string {
	if share < 0.0995 {
		return fixed(100*share, 1) + " %"
	}
	return fixed(100*share, 0) + " %"
}

// decibels says a difference of levels.
func decibels(v float64) string { return fixed(v, 1) + " dB" }

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// Worked lists the designs that are worked out, each with its answer.
func (rep *Report) Worked() []Worked {
	var list []Worked
	for i := range rep.Details {
		d := &rep.Details[i]
		if a, ok := rep.AnswerOf(d.Design); ok {
			list = append(list, Worked{d, a})
		}
	}
	return list
}

// Worked is a design that is worked out, with its answer.
type Worked struct {
	*breakeven.Detail
	Answer *breakeven.Answer
}

// Names of the setups as they stand in sentences.
func (rep *Report) challenger() string { return Clean(rep.Challenger().Name) }
func (rep *Report) reference() string  { return Clean(rep.Reference().Name) }

// Parity says the two ends of the parity line of a design; or that there is none, if
// the challenger equals the reference at no speed of it. It has no capital.
func (rep *Report) Parity(d *breakeven.Detail) string {
	return rep.parity(d, func(*breakeven.ParityPoint) string { return "" })
}

// ParityBetween is Parity with the 95 % intervals at both ends, or that none were drawn.
func (rep *Report) ParityBetween(d *breakeven.Detail) string {
	known := false
	text := rep.parity(d, func(p *breakeven.ParityPoint) string {
		between := rep.parityBetween(d.Design, p.Speed)
		known = known || between != ""
		return between
	})
	if rep.Doubt != nil && text != "" && !known {
		text += " No interval was drawn of this line."
	}
	return text
}

// parityBetween says the 95 % interval of the break-even speed of a design at the drawn speed
// of the reference that is nearest to one, rev/s; empty if there is none.
func (rep *Report) parityBetween(design int, speed float64) string {
	if rep.Doubt == nil || rep.Doubt.Own == nil || rep.Doubt.Own.Result.Design != design || len(rep.Doubt.Own.Parity) == 0 {
		return ""
	}
	near := slices.MinFunc(rep.Doubt.Own.Parity, func(a, b doubt.ParityPoint) int {
		return cmp.Compare(math.Abs(a.Speed-speed), math.Abs(b.Speed-speed))
	})
	interval := Interval(quantity.Must("breakeven_speed"), near.Breakeven)
	if interval == "" {
		return ""
	}
	at := ""
	if near.Speed != speed {
		at = " with " + rep.reference() + " at " + Number(quantity.Must("fan_speed"), near.Speed)
	}
	return " (95 %" + at + ", rpm: " + interval + "; in " + Often(&doubt.Result{Draws: near.Draws, Capped: true}, near.Exists) + " of the draws)"
}

func (rep *Report) parity(d *breakeven.Detail, between func(*breakeven.ParityPoint) string) string {
	first, last := -1, -1
	for i, p := range d.Parity {
		if p.Lower == nil {
			continue
		}
		if last = i; first < 0 {
			first = i
		}
	}
	if len(d.Parity) == 0 {
		return ""
	}
	if first < 0 {
		return fmt.Sprintf("none: %s equals %s at no speed of it from %s to %s.", rep.challenger(), rep.reference(),
			Number(quantity.Must("fan_speed"), d.Parity[0].Speed), Computed("fan_speed", d.Parity[len(d.Parity)-1].Speed))
	}
	at := func(p *breakeven.ParityPoint) string {
		return fmt.Sprintf("%s at %s (%s, %s) needs %s at %s",
			rep.reference(), Computed("fan_speed", p.Speed), Computed("sound", p.Reference.Sound), Computed("fan_power", p.Reference.FanPower),
			rep.challenger(), costing(p.Lower)) + between(p)
	}
	text := at(&d.Parity[first])
	if last > first {
		text += "; " + at(&d.Parity[last])
	}
	text += "."
	if last < len(d.Parity)-1 {
		text += fmt.Sprintf(" Beyond it %s cannot follow.", rep.challenger())
	}
	return text
}

// Match says who is better at equal sound or equal power. It has no capital.
func (rep *Report) Match(m *breakeven.Match) string {
	q := quantity.Must(m.By)
	least, most := "quietest", "loudest"
	if m.By == "fan_power" {
		least, most = "least power", "greatest power"
	}
	level := func(v float64) string { return WithUnit(q, Number(q, v)) }
	over := func(from, to float64) string {
		if level(from) == level(to) {
			return "at " + level(from)
		}
		return "from " + level(from) + " to " + level(to)
	}
	difference := func(v float64) string {
		if m.By == "sound" {
			return decibels(math.Abs(v))
		}
		return level(math.Abs(v))
	}
	switch {
	case m.Why != "":
		return "nothing to compare: " + m.Why + "."
	case m.Gap > 0:
		return fmt.Sprintf("nothing to compare: %s at its %s is %s above %s at its %s.", rep.challenger(), least, difference(m.Gap), rep.reference(), most)
	case m.Gap < 0:
		return fmt.Sprintf("nothing to compare: %s at its %s is %s above %s at its %s.", rep.reference(), least, difference(m.Gap), rep.challenger(), most)
	}
	var parts []string
	for _, s := range m.Spans {
		who := rep.challenger()
		switch s.Winner {
		case breakeven.Neither:
			parts = append(parts, "a tie "+over(s.From, s.To))
			continue
		case breakeven.Reference:
			who = rep.reference()
		}
		text := who + " is cooler " + over(s.From, s.To)
		switch {
		case finite(s.Lead) && s.Least > 0.005:
			text += ", by " + Number(quantity.Must("difference"), s.Least) + " to " + Computed("difference", s.Lead)
		case finite(s.Lead):
			text += ", by up to " + Computed("difference", s.Lead)
		case s.Least > 0.005:
			text += ", by " + Computed("difference", s.Least) + " or more, or the other has no value"
		default:
			text += ": the other has no value"
		}
		parts = append(parts, text)
	}
	for _, x := range m.Meetings {
		parts = append(parts, fmt.Sprintf("they are equal at %s (%s to %s within the margin), %s at %s and %s at %s", level(x.At),
			Number(q, x.TieFrom), level(x.TieTo), rep.challenger(), Computed("fan_speed", x.Challenger.Speed), rep.reference(), Computed("fan_speed", x.Reference.Speed)))
	}
	return strings.Join(parts, "; ") + "."
}

// Change says one change that was tried: what it is, and what comes of it.
func (rep *Report) Change(c *breakeven.Change) (what, comes string) {
	in, isInput := model.InputOf(c.Key)
	switch {
	case c.Key == "placing":
		what = c.NeededIs + " instead of " + c.NowIs
	case c.Key == "fan":
		what = "fan " + Clean(c.NeededIs) + " instead of " + Clean(c.NowIs)
	case isInput && c.Works:
		what = fmt.Sprintf("%s %s instead of %s", in.Label, WithUnit(in.Quantity, Given(in.Quantity, c.Needed)), WithUnit(in.Quantity, Given(in.Quantity, c.Now)))
	case isInput:
		what = fmt.Sprintf("%s from %s to %s", in.Label, Given(in.Quantity, c.Low), WithUnit(in.Quantity, Given(in.Quantity, c.High)))
	}
	switch {
	case c.Works && c.At == nil:
		return what, "better at every searched speed"
	case c.Works:
		return what, "equal at " + costing(c.At)
	case math.IsInf(c.Closest, 1):
		return what, "no value at any speed"
	}
	return what, "no: " + Computed("difference", c.Closest) + " short at best"
}

// Blocked says what keeps a design without a break-even from one; empty for others.
func (rep *Report) Blocked(a *breakeven.Answer) string {
	if a.Status != breakeven.None {
		return ""
	}
	text := fmt.Sprintf("It is %s short at best, at %s", Computed("difference", a.Best.Difference), Computed("fan_speed", a.Best.Speed))
	if a.Limit.Term == "" {
		return text + "."
	}
	return text + fmt.Sprintf("; what blocks it is the %s, %s more than in %s.", LimitLabel(a), Computed("difference", a.Limit.Excess), rep.reference())
}

// NoChange is said where none of the changes works.
const NoChange = "No single change within its range gives a break-even."

// AnyWorks reports whether a change gives a break-even.
func AnyWorks(changes []breakeven.Change) bool {
	for i := range changes {
		if changes[i].Works {
			return true
		}
	}
	return false
}

// TieEnds says which ends of a tie lie within the searched speeds.
func TieEnds(v breakeven.Interval) string {
	switch {
	case v.OpenLow && v.OpenHigh:
		return "open"
	case v.OpenLow:
		return "open below"
	case v.OpenHigh:
		return "open above"
	}
	return "closed"
}

// Determined says in a word how well a break-even is determined: well, ill, or jump
// where the two are never equal.
func Determined(c *breakeven.Crossing) string {
	switch {
	case c.Jump:
		return "jump"
	case c.IllDetermined():
		return "ill"
	}
	return "well"
}
