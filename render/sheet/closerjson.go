package sheet

import (
	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
)

// tieJSON is a stretch of speeds within the margin.
type tieJSON struct {
	From     number `json:"tie_from_rpm"`
	To       number `json:"tie_to_rpm"`
	OpenLow  bool   `json:"open_below"` // it ends only because the searched speeds do
	OpenHigh bool   `json:"open_above"`
}

func tieOf(v breakeven.Interval) tieJSON {
	speed := quantity.Must("fan_speed").Shown
	return tieJSON{number(speed.Shown(v.Low)), number(speed.Shown(v.High)), v.OpenLow, v.OpenHigh}
}

// crossingJSON is a speed of equality with all that belongs to it.
type crossingJSON struct {
	Speed      number     `json:"fan_speed_rpm"`
	CoolerOn   string     `json:"cooler"` // above or below it
	Jump       bool       `json:"jump,omitempty"`
	Difference number     `json:"difference_K"`
	Slope      number     `json:"slope_K_per_1000_rpm"`
	Determined bool       `json:"well_determined"`
	Tie        tieJSON    `json:"tie"`
	DefaultTie tieJSON    `json:"tie_at_default_margin"`
	State      *stateJSON `json:"state"`
}

func crossingOf(c *breakeven.Crossing, outputs []model.Output) crossingJSON {
	cooler := "below"
	if c.Falling {
		cooler = "above"
	}
	return crossingJSON{
		Speed: number(quantity.Must("fan_speed").Shown.Shown(c.Speed)), CoolerOn: cooler, Jump: c.Jump,
		Difference: number(c.Difference), Slope: number(quantity.Must("slope").Shown.Shown(c.Slope)),
		Determined: !c.IllDetermined(), Tie: tieOf(c.Tie), DefaultTie: tieOf(c.DefaultTie), State: stateOf(&c.State, outputs),
	}
}

func crossingIf(c *breakeven.Crossing, outputs []model.Output) *crossingJSON {
	if c == nil {
		return nil
	}
	out := crossingOf(c, outputs)
	return &out
}

// cheapestJSON holds the numbers of the designs whose break-even costs least; null
// where none breaks even.
type cheapestJSON struct {
	Sound *int `json:"quietest_design"`
	Power *int `json:"design_with_fewest_watts"`
}

func designOf(a *breakeven.Answer) *int {
	if a == nil {
		return nil
	}
	return &a.Design
}

// detailJSON is what is worked out for one design.
type detailJSON struct {
	Design  int          `json:"design"`
	Chosen  string       `json:"chosen"`
	Parity  []parityJSON `json:"parity_line"`
	Sound   matchJSON    `json:"equal_sound"`
	Power   matchJSON    `json:"equal_power"`
	Changes []changeJSON `json:"changes"` // what would give a break-even, if there is none
}

// parityJSON is a point of the parity line.
type parityJSON struct {
	Speed     number        `json:"reference_fan_speed_rpm"`
	Status    string        `json:"status"`
	Reference *stateJSON    `json:"reference,omitempty"`
	Lower     *crossingJSON `json:"breakeven,omitempty"`
	Upper     *crossingJSON `json:"upper,omitempty"`
	Tie       *tieJSON      `json:"tie,omitempty"`

	Bands map[string]bandJSON `json:"intervals_95_percent,omitempty"` // by column name; left out where nothing was drawn
}

// matchJSON compares at equal values of a quantity; its levels are in the named unit.
type matchJSON struct {
	By       string        `json:"by"` // column name
	From     *number       `json:"from,omitempty"`
	To       *number       `json:"to,omitempty"`
	Gap      *number       `json:"gap,omitempty"` // no level in common: the challenger's least above the reference's most; negative the other way round
	Why      string        `json:"why_not,omitempty"`
	Spans    []spanJSON    `json:"spans"`
	Meetings []meetingJSON `json:"meetings"`
	Words    string        `json:"in_words"`
}

type spanJSON struct {
	From   number `json:"from"`
	To     number `json:"to"`
	Winner string `json:"winner"`
	Least  number `json:"least_lead_K"`
	Lead   number `json:"greatest_lead_K"` // null where the other has no value
}

type meetingJSON struct {
	At         number     `json:"at"`
	TieFrom    number     `json:"tie_from"`
	TieTo      number     `json:"tie_to"`
	Difference number     `json:"difference_K"`
	Speed      number     `json:"challenger_fan_speed_rpm"`
	Other      number     `json:"reference_fan_speed_rpm"`
	Challenger *stateJSON `json:"challenger"`
	Reference  *stateJSON `json:"reference"`
}

// changeJSON is one change that was tried.
type changeJSON struct {
	Key     string        `json:"key"` // column name of an input, placing or fan
	Now     *number       `json:"now,omitempty"`
	Needed  *number       `json:"needed,omitempty"`
	Low     *number       `json:"tried_from,omitempty"`
	High    *number       `json:"tried_to,omitempty"`
	NowIs   string        `json:"now_is,omitempty"`
	TriedIs string        `json:"tried_is,omitempty"`
	Works   bool          `json:"works"`
	Closest *number       `json:"short_by_K,omitempty"` // null: no value at any speed
	At      *crossingJSON `json:"breakeven,omitempty"`
}

func detailOf(rep *render.Report, d *breakeven.Detail) detailJSON {
	outputs := rep.Compared()
	speed := quantity.Must("fan_speed").Shown
	out := detailJSON{
		Design: d.Design, Chosen: d.Chosen, Parity: []parityJSON{}, Changes: []changeJSON{},
		Sound: matchOf(rep, &d.Sound, outputs), Power: matchOf(rep, &d.Power, outputs),
	}
	for i := range d.Parity {
		p := &d.Parity[i]
		point := parityJSON{
			Speed: number(speed.Shown(p.Speed)), Status: p.Status.String(),
			Lower: crossingIf(p.Lower, outputs), Upper: crossingIf(p.Upper, outputs),
		}
		if p.Status != breakeven.Unknown && p.Status != breakeven.Excluded {
			point.Reference = stateOf(&p.Reference, outputs)
		}
		if p.Status == breakeven.Tie {
			tie := tieOf(p.Tie)
			point.Tie = &tie
		}
		if x, ok := rep.ParityDoubt(d.Design, p.Speed); ok {
			lowest, highest := quantity.Must("breakeven_speed"), quantity.Must("breakeven_upper_speed")
			point.Bands = map[string]bandJSON{lowest.Column(): bandOf(lowest, x.Breakeven), highest.Column(): bandOf(highest, x.Upper)}
		}
		out.Parity = append(out.Parity, point)
	}
	for i := range d.Changes {
		out.Changes = append(out.Changes, changeOf(&d.Changes[i], outputs))
	}
	return out
}

func matchOf(rep *render.Report, m *breakeven.Match, outputs []model.Output) matchJSON {
	q := quantity.Must(m.By)
	speed := quantity.Must("fan_speed").Shown
	level := func(v float64) *number {
		n := number(q.Shown.Shown(v))
		return &n
	}
	out := matchJSON{By: q.Column(), Why: m.Why, Spans: []spanJSON{}, Meetings: []meetingJSON{}, Words: rep.Match(m)}
	switch {
	case m.Gap != 0:
		out.Gap = level(m.Gap)
	case m.Why == "":
		out.From, out.To = level(m.From), level(m.To)
	}
	for _, s := range m.Spans {
		out.Spans = append(out.Spans, spanJSON{*level(s.From), *level(s.To), s.Winner.String(), number(s.Least), number(s.Lead)})
	}
	for i := range m.Meetings {
		x := &m.Meetings[i]
		out.Meetings = append(out.Meetings, meetingJSON{
			At: *level(x.At), TieFrom: *level(x.TieFrom), TieTo: *level(x.TieTo), Difference: number(x.Difference),
			Speed: number(speed.Shown(x.Challenger.Speed)), Other: number(speed.Shown(x.Reference.Speed)),
			Challenger: stateOf(&x.Challenger.State, outputs), Reference: stateOf(&x.Reference.State, outputs),
		})
	}
	return out
}

func changeOf(c *breakeven.Change, outputs []model.Output) changeJSON {
	out := changeJSON{Key: c.Key, Works: c.Works, NowIs: c.NowIs, TriedIs: c.NeededIs, At: crossingIf(c.At, outputs)}
	if in, ok := model.InputOf(c.Key); ok {
		shown := func(v float64) *number {
			n := number(in.Shown.Shown(v))
			return &n
		}
		out.Key, out.Now, out.Low, out.High = in.Column(), shown(c.Now), shown(c.Low), shown(c.High)
		if c.Works {
			out.Needed = shown(c.Needed)
		}
	}
	if !c.Works {
		closest := number(c.Closest)
		out.Closest = &closest
	}
	return out
}
