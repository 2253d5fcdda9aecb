package sheet

import (
	"io"
	"math"
	"strings"

	"finduel/model"
	"finduel/model/core"
	"finduel/model/quantity"
	"finduel/model/solve"
	"finduel/render"
	"finduel/sweep/study"
)

// part is a group of outputs under a title, and what is said behind them.
type part struct {
	title string
	keys  []string
	words func(t *terminal, s *study.Setup, state *model.State, d Drive)
}

// parts puts the outputs of a state in the order in which a bench asks for them. The
// temperature budget stands alone.
var parts = []part{
	{"Temperatures", []string{
		"coolant_over_air", "coolant_mean_over_air", "chip_over_air", "coolant_inlet_temperature", "coolant_outlet_temperature",
		"core_air_temperature", "air_outlet_temperature", "chip_temperature", "heat_rejected", "conductance", "air_capacity"}, nil},
	{"Fan sheet: operating point", []string{
		"airflow", "air_mass_flow", "face_velocity", "core_pressure_drop", "free_flow_share", "stall_onset", "stall_margin", "hanging_airflow", "highest_hanging_airflow",
		"fan_doubt_low", "fan_doubt_high", "tip_speed", "tip_mach", "rotor_reynolds"}, (*terminal).blades},
	{"Fan sheet: power, from supply to air", []string{
		"fan_power", "drive_current", "wire_drop", "throttle", "motor_voltage", "motor_current", "motor_power", "shaft_power", "shaft_torque", "air_power"}, (*terminal).reach},
	{"Fan sheet: sound and exposure", []string{
		"sound", "operator_sound", "stall_sound", "sound_doubt_low", "sound_doubt_high", "blade_passing_frequency", "exposure_limit", "exposure_limit_osha", "lower_action_time", "upper_action_time", "limit_value_time",
		"niosh_dose", "osha_dose", "daily_exposure"}, (*terminal).sound},
	{"Core", []string{
		"air_reynolds", "air_film", "fin_efficiency", "coolant_reynolds", "coolant_film", "loop_flow", "coolant_pressure_drop",
		"core_conductance", "ntu", "capacity_ratio", "effectiveness",
		"film_doubt_low", "film_doubt_high", "friction_doubt_low", "friction_doubt_high", "coolant_viscosity_doubt"}, (*terminal).ranges},
}

// Point writes one setup in one state: what it is, every number of the state with the
// fan sheet, the temperature budget, warnings and cautions; d is zero if the fans'
// motors are not known. Lines are at most width characters wide where words allow it.
// It returns the error of w.
func Point(w io.Writer, s *study.Setup, state *model.State, d Drive, width int) error {
	t := terminal{width: max(width, narrow)}
	t.say("  setup       ", setup(s)+" at "+render.Computed("fan_speed", s.Rig.Speed))
	t.say("  conditions  ", conditions(&s.Rig))
	if lent := render.Lent(&s.Rig); lent != "" {
		t.say("  propeller   ", lent)
	}
	for _, note := range s.Notes {
		t.say("  note        ", note)
	}
	for _, p := range parts {
		t.b.WriteString("\n" + p.title + "\n")
		for _, key := range p.keys {
			o, _ := model.OutputOf(key)
			t.line(o, state)
		}
		if p.words != nil {
			p.words(&t, s, state, d)
		}
	}
	t.b.WriteString("\nTemperature budget: what coolant over air is made of\n")
	for _, key := range model.BudgetTerms {
		o, _ := model.OutputOf(key)
		t.line(o, state)
	}
	total, _ := model.OutputOf("coolant_over_air")
	t.line(total, state)

	if list := state.Warnings.List(); len(list) > 0 {
		t.b.WriteString("\nWarnings\n")
		for _, warning := range list {
			t.say("  - ", render.Sentence(warning.Text))
		}
	}
	t.b.WriteByte('\n')
	t.caution(render.CautionsFor(s, state))
	_, err := io.WriteString(w, t.b.String())
	return err
}

// motor is how well a known motor works in a state.
type motor struct {
	efficiency, best float64 // shaft power over electrical power, as it is and at best at its voltage
	bestCurrent      float64 // A; 0: a motor that takes nothing without load, which is the better the less it does
}

func motorOf(s *study.Setup, state *model.State) motor {
	m, volts := &s.Rig.Fans.Fan.Brushless, state.MotorVoltage
	return motor{m.Efficiency(volts, state.MotorCurrent), m.BestEfficiency(volts), m.BestCurrent(volts)}
}

// reaches reports whether the drive turns at the lowest speed that was looked at.
func (d *Drive) reaches() bool { return d.Reached.Outcome == solve.Converged }

// reach says how sure the power is, how well motors work, how fast they turn, and what
// stops them there and elsewhere.
func (t *terminal) reach(s *study.Setup, state *model.State, d Drive) {
	if doubt, ok := render.PowerDoubt(&s.Rig, state.FreeFlowShare); ok {
		q := quantity.Must("fan_doubt_high")
		t.say(gap, "The shaft power of the propeller is known to ±"+render.WithUnit(q, render.Given(q, doubt))+", and torque and current with it.")
	}
	r := d.Reached
	if d.Limits == nil {
		return
	}
	if m := motorOf(s, state); m.bestCurrent > 0 {
		t.say(gap, "A motor passes "+render.Computed("motor_efficiency", m.efficiency)+" of its power on to its shaft; the most that it can pass on at its voltage is "+
			render.Computed("motor_efficiency", m.best)+", at "+render.Computed("motor_current", m.bestCurrent)+".")
	}
	var at []string
	throttle := quantity.Must("throttle")
	for _, c := range d.Throttled {
		at = append(at, render.WithUnit(throttle, render.Given(throttle, c.Throttle))+" makes "+render.Computed("fan_speed", c.Speed)+", "+render.Computed("shaft_torque", c.Torque)+" and "+render.Computed("motor_current", c.MotorCurrent)+" a motor")
	}
	if at != nil {
		t.say(gap, "Throttle on this core: "+strings.Join(at, "; ")+".")
	}
	speed := render.Computed("fan_speed", r.Chain.Speed)
	switch {
	case !d.reaches():
		t.say(gap, "The drive does not even reach "+speed+" on this core: "+r.Limit.String()+" stops it.")
	case r.Limit == 0:
		t.say(gap, "The drive reaches the top speed, "+speed+", on this core.")
	default:
		t.say(gap, "The drive reaches "+speed+" on this core; there "+r.Limit.String()+" stops it.")
	}
	t.say(gap, "Limits, each by itself: "+d.ladder()+".")
}

// ranges says where the correlations of the core hold, and where the state lies.
func (t *terminal) ranges(s *study.Setup, state *model.State, _ Drive) {
	c, err := core.New(s.Rig.Core)
	if err != nil {
		return // a core without a state has no range either
	}
	t.say(padded("range of the correlations ("+s.Rig.Core.Surface.String()+")", 50), inRange(&c, state.AirReynolds))
}

// inRange says where the correlations of a core hold, and where a Reynolds number of
// the air lies: "Re 100 to 3 000: air flow below it, outside by fin depth".
func inRange(c *core.Core, re float64) string {
	low, high := c.ReynoldsRange()
	reynolds := quantity.Must("air_reynolds")
	text := "Re " + render.Number(reynolds, low) + " to " + render.Number(reynolds, high)
	if low == 0 {
		text = "Re up to " + render.Number(reynolds, high)
	}
	in := c.InRange(re)
	var parts []string
	switch {
	case in.ReynoldsLow:
		parts = append(parts, "air flow below it")
	case in.ReynoldsHigh:
		parts = append(parts, "air flow above it")
	}
	if key := c.Outside(re); key != "" {
		parts = append(parts, "outside by "+quantity.Must(key).Label)
	}
	if parts == nil {
		return text + ": inside"
	}
	return text + ": " + strings.Join(parts, ", ")
}

// line writes an output and its number; nothing if it has no meaning for the setup.
func (t *terminal) line(o model.Output, state *model.State) {
	v := o.Get(state)
	if math.IsNaN(v) {
		return // it has no meaning here
	}
	t.b.WriteString(padded(o.Label, 50) + render.WithUnit(o.Quantity, render.Number(o.Quantity, v)) + within(o, state) + "\n")
}

// padded returns two spaces, a text, and spaces up to a width in characters.
func padded(text string, width int) string {
	text = gap + text
	for n := len([]rune(text)); n < width; n++ {
		text += " "
	}
	return text
}

// pointJSON is one setup in one state.
type pointJSON struct {
	Format   int       `json:"format"`
	Study    string    `json:"study"`
	Version  string    `json:"version"`
	Setup    setupJSON `json:"setup"`
	State    numbers   `json:"state"`
	Warnings []string  `json:"warnings"`

	Blades    *bladesJSON    `json:"blades,omitempty"` // left out if nothing is known of them
	Tone      *toneJSON      `json:"tone,omitempty"`
	Exposures []exposureJSON `json:"exposures,omitempty"`
	Drive     *driveJSON     `json:"drive,omitempty"` // left out if the motors are not known
	Cautions  []cautionJSON  `json:"cautions,omitempty"`
}

// PointJSON writes one setup in one state as JSON: keys of numbers end in their
// unit; a number that is not finite, or a permitted exposure over 24 h, is null; d is
// zero if the fans' motors are not known. It returns the error of w.
func PointJSON(w io.Writer, studyName, version string, s *study.Setup, state *model.State, d Drive) error {
	out := pointJSON{Format: format, Study: studyName, Version: version, Setup: setupOf(s), State: numbers{}, Warnings: []string{}}
	for _, o := range model.Outputs {
		out.State.put(o.Quantity, o.Get(state))
	}
	for _, warning := range state.Warnings.List() {
		out.Warnings = append(out.Warnings, warning.Key)
	}
	tone := toneOf(s, state)
	out.Blades = bladesOf(s, state)
	out.Tone, out.Exposures, out.Drive = &tone, exposuresOf(state), driveOf(s, state, &d)
	out.Cautions = cautionsOf(render.CautionsFor(s, state))
	speed := quantity.Must("fan_speed")
	out.State.put(speed, s.Rig.Speed)
	return write(w, out)
}

// FailureJSON writes a setup that has no state, with the reason, as JSON.
func FailureJSON(w io.Writer, studyName, version string, s *study.Setup, reason string) error {
	return write(w, struct {
		pointJSON
		State  *numbers `json:"state"`
		Reason string   `json:"reason"`
	}{
		pointJSON: pointJSON{Format: format, Study: studyName, Version: version, Setup: setupOf(s), Warnings: []string{}},
		Reason:    reason,
	})
}
