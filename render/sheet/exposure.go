package sheet

import (
	"slices"

	"finduel/model"
	"finduel/model/fan"
	"finduel/model/quantity"
	"finduel/model/sound"
	"finduel/render"
	"finduel/sweep/study"
)

// within says what the doubt of the level does to a permitted time, behind a space;
// nothing of any other output, and of a time that is more than a day in any case.
func within(o model.Output, state *model.State) string {
	r, ok := render.ExposureRuleOf(o)
	if !ok {
		return ""
	}
	least, most := r.Span(state)
	if _, some := render.Recorded(o.Quantity, least); !some {
		return ""
	}
	return " (" + render.Number(o.Quantity, least) + " to " + render.Number(o.Quantity, most) + ")"
}

// sound says where the level comes from and how sure it is, who hears it for how long,
// and what can be said of the blade tone.
func (t *terminal) sound(s *study.Setup, state *model.State, _ Drive) {
	room := &s.Rig.Room
	text := "The operator stays for " + render.Computed("session_duration", room.Session) + " a day."
	some := slices.ContainsFunc(render.ExposureRules, func(r render.ExposureRule) bool { o, _ := model.OutputOf(r.Key); return within(o, state) != "" })
	if some {
		text = "Times in brackets are those at the highest and at the lowest level within the doubt. " + text
	}
	t.say(gap, text)
	if some {
		t.say(gap, "2003/10/EC: "+render.EUValues()+".")
	}
	t.say(gap, "Doses: "+render.Doses(state)+".")
	t.say(gap, "Heard: "+render.Heard(room)+".")
	t.say(gap, "Level: "+render.SoundSource(&s.Rig)+".")
	if state.StallSound > 0 {
		t.say(gap, "Stalled fans are 3 to 8 dB louder; "+render.Computed("stall_sound", state.StallSound)+" is in the levels, the rest in their doubt.")
	}
	t.say(gap, "Tone: "+render.Tone(sound.ToneOf(s.Rig.Fans.Fan.Blades, s.Rig.Speed, state.TipMach))+".")
}

// Drive is how fast the motors of a setup turn its fans on their core. Its zero value is
// that of motors which are not known.
type Drive struct {
	Reached fan.Reached
	Limits  []fan.Rung
	To      float64 // highest speed up to which the limits were looked for, rev/s

	Throttled []fan.Chain // at some throttles, rising
}

// ladder says the speed at which each limit of a drive is met.
func (d *Drive) ladder() string {
	var met, far, unknown []string
	for _, r := range d.Limits {
		switch {
		case !r.Stated:
			unknown = append(unknown, r.Limit.String())
		case r.Speed == 0:
			far = append(far, r.Limit.String())
		default:
			met = append(met, r.Limit.String()+" at "+render.Computed("fan_speed", r.Speed))
		}
	}
	text := ""
	add := func(head string, list []string) {
		if list == nil {
			return
		}
		if text != "" {
			text += "; "
		}
		text += head + render.List(list)
	}
	add("", met)
	add("not met up to "+render.Computed("fan_speed", d.To)+": ", far)
	add("not stated: ", unknown)
	return text
}

// exposureJSON is what one of the limits of the three rules permits the operator.
type exposureJSON struct {
	Rule  string `json:"rule"`
	Time  number `json:"permitted_min"`            // null: over 24 h
	Least number `json:"permitted_at_highest_min"` // at the highest level within the doubt
	Most  number `json:"permitted_at_lowest_min"`
}

func exposuresOf(state *model.State) []exposureJSON {
	var list []exposureJSON
	for _, r := range render.ExposureRules {
		q := quantity.Must(r.Key)
		minutes := func(seconds float64) number {
			n := numbers{}
			n.put(q, seconds)
			return n[q.Column()]
		}
		least, most := r.Span(state)
		list = append(list, exposureJSON{r.Name, minutes(r.Permitted(state)), minutes(least), minutes(most)})
	}
	return list
}

// toneJSON is what can be said of the blade tone.
type toneJSON struct {
	Frequency *number `json:"blade_passing_frequency_Hz"` // null: not known
	Weight    *number `json:"a_weighting_dB"`
	Steep     bool    `json:"rises_steeply"`
	Words     string  `json:"in_words"`
}

func toneOf(s *study.Setup, state *model.State) toneJSON {
	tone := sound.ToneOf(s.Rig.Fans.Fan.Blades, s.Rig.Speed, state.TipMach)
	out := toneJSON{Steep: tone.Steep, Words: render.Tone(tone)}
	if tone.Frequency > 0 {
		frequency, weight := number(tone.Frequency), number(tone.Weight)
		out.Frequency, out.Weight = &frequency, &weight
	}
	return out
}

// driveJSON is how fast the motors of a setup turn its fans.
type driveJSON struct {
	Efficiency  number `json:"motor_efficiency_percent"`
	Best        number `json:"best_motor_efficiency_percent"` // at the motor's voltage
	BestCurrent number `json:"best_motor_current_A"`          // where it has that

	Reached *number     `json:"reached_fan_speed_rpm"` // null: not even the lowest speed looked at
	Stopped string      `json:"stopped_by,omitempty"`
	To      number      `json:"looked_up_to_rpm"`
	Limits  []limitJSON `json:"limits"`

	Throttled []throttledJSON `json:"throttled"` // at some throttles; those out of reach of the speeds looked at are left out
}

// throttledJSON is what a throttle does.
type throttledJSON struct {
	Throttle number `json:"throttle_percent"`
	Speed    number `json:"fan_speed_rpm"`
	Torque   number `json:"shaft_torque_mN_m"`
	Current  number `json:"motor_current_A"`
}

// limitJSON is a limit of a drive by itself.
type limitJSON struct {
	Limit  string  `json:"limit"`
	Stated bool    `json:"stated"`
	From   *number `json:"from_fan_speed_rpm"` // null: not met, or not stated
}

func driveOf(s *study.Setup, state *model.State, d *Drive) *driveJSON {
	if d.Limits == nil {
		return nil
	}
	rpm := func(v float64) *number {
		if v == 0 {
			return nil
		}
		n := number(quantity.Must("fan_speed").Shown.Shown(v))
		return &n
	}
	m, percent := motorOf(s, state), func(v float64) number { return number(quantity.Must("motor_efficiency").Shown.Shown(v)) }
	out := driveJSON{Efficiency: percent(m.efficiency), Best: percent(m.best), BestCurrent: number(m.bestCurrent), To: *rpm(d.To)}
	if d.reaches() {
		out.Reached = rpm(d.Reached.Chain.Speed)
	}
	if d.Reached.Limit != 0 {
		out.Stopped = d.Reached.Limit.String()
	}
	for _, r := range d.Limits {
		out.Limits = append(out.Limits, limitJSON{r.Limit.String(), r.Stated, rpm(r.Speed)})
	}
	for _, c := range d.Throttled {
		out.Throttled = append(out.Throttled, throttledJSON{number(quantity.Must("throttle").Shown.Shown(c.Throttle)), *rpm(c.Speed), number(quantity.Must("shaft_torque").Shown.Shown(c.Torque)), number(c.MotorCurrent)})
	}
	return &out
}
