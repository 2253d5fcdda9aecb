package sheet

import (
	"io"
	"strings"

	"finduel/model"
	"finduel/model/core"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/study"
)

// Point writes one setup in one state: what it is, every number of the state, the
// temperature budget and the warnings. Lines are at most width characters wide
// where words allow it. It returns the error of w.
func Point(w io.Writer, s *study.Setup, state *model.State, width int) error {
	t := terminal{width: max(width, narrow)}
	t.say("  setup       ", setup(s)+" at "+render.Computed("fan_speed", s.Rig.Speed))
	t.say("  conditions  ", conditions(&s.Rig))

	budget := map[string]bool{}
	for _, key := range model.BudgetTerms {
		budget[key] = true
	}
	t.b.WriteByte('\n')
	for _, o := range model.Outputs {
		if !budget[o.Key] {
			t.line(o, state)
		}
	}
	t.ranges(s, state)
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
	t.caution(render.CautionsFor(s.Name, s.Rig.Speed, state))
	_, err := io.WriteString(w, t.b.String())
	return err
}

// ranges says where the correlations of the core hold, and where the state lies.
func (t *terminal) ranges(s *study.Setup, state *model.State) {
	c, err := core.New(s.Rig.Core)
	if err != nil {
		return // a core without a state has no range either
	}
	t.say(padded("range of the correlations ("+s.Rig.Core.Surface.String()+")", 46), inRange(&c, state.AirReynolds))
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

// line writes an output and its number.
func (t *terminal) line(o model.Output, state *model.State) {
	t.b.WriteString(padded(o.Label, 46) + render.WithUnit(o.Quantity, render.Number(o.Quantity, o.Get(state))) + "\n")
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
}

// PointJSON writes one setup in one state as JSON: keys of numbers end in their
// unit; a number that is not finite, or a permitted exposure over 24 h, is null. It
// returns the error of w.
func PointJSON(w io.Writer, studyName, version string, s *study.Setup, state *model.State) error {
	out := pointJSON{Format: format, Study: studyName, Version: version, Setup: setupOf(s), State: numbers{}, Warnings: []string{}}
	for _, o := range model.Outputs {
		out.State.put(o.Quantity, o.Get(state))
	}
	for _, warning := range state.Warnings.List() {
		out.Warnings = append(out.Warnings, warning.Key)
	}
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
