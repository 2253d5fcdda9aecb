package reports

import (
	"math"

	"finduel/model"
	"finduel/render"
	"finduel/sweep/study"
)

// Booth returns a report with four axes, points without a value and left-out
// designs.
func Booth() *render.Report {
	s := Study()
	s.Axes = []study.Axis{
		Axis("fan_speed", Even(200, 20000, 45)...),
		Axis("fin_density", 12, 16, 20, 24),
		Axis("fin_depth", 18, 27, 36),
		Axis("face_area", 60, 81, 120),
	}
	density, _ := model.InputOf("fin_density")
	area, _ := model.InputOf("face_area")
	s.Exclusions = []study.Exclusion{{
		{Input: density, Above: density.Shown.SI(22), Below: math.Inf(-1)},
		{Input: area, Above: area.Shown.SI(100), Below: math.Inf(-1)},
	}}
	return Report(s)
}

// Few returns a report with two axes beside the speed and few designs.
func Few() *render.Report {
	s := Study()
	s.Axes = []study.Axis{
		Axis("fin_density", 12, 16, 20, 24),
		Axis("fin_depth", 18, 27, 36),
		Axis("fan_speed", Even(1500, 9000, 16)...),
	}
	return Report(s)
}

// Alone returns a report that sweeps nothing but the fan speed.
func Alone() *render.Report {
	s := Study()
	s.Axes = []study.Axis{Axis("fan_speed", Even(1500, 20000, 38)...)}
	return Report(s)
}

// Ahead returns a report whose challenger is better at every speed.
func Ahead() *render.Report {
	s := Study()
	s.Setups[s.Reference].Rig.Speed = 5
	s.Axes = []study.Axis{Axis("fan_speed", Even(7000, 9000, 3)...)}
	return Report(s)
}

// Tied returns a report whose margin is so wide that most designs tie.
func Tied() *render.Report {
	s := Study()
	s.Margin = 4
	s.Axes = []study.Axis{Axis("fin_density", 12, 20), Axis("fin_depth", 18, 36), Axis("fan_speed", Even(1500, 20000, 12)...)}
	return Report(s)
}

// OnePoint returns a report of a single point.
func OnePoint() *render.Report {
	s := Study()
	s.Axes = []study.Axis{Axis("fan_speed", 6000)}
	return Report(s)
}

// Hopeless returns a report in which no point has a value.
func Hopeless() *render.Report {
	s := Study()
	for i := range s.Setups {
		s.Setups[i].Rig.Heat.Load = 20000
	}
	s.Axes = []study.Axis{Axis("fin_density", 12, 16), Axis("fan_speed", 1500, 3000)}
	return Report(s)
}

// Odd returns a small report whose names do what names should not.
func Odd() *render.Report {
	s := Study()
	s.Name, s.About = "odd", "=HYPERLINK(\"x\") \x1b[31mred\nline"
	s.Setups[0].Name, s.Setups[0].Core, s.Setups[0].Fan = "=1+1", "+cube\x07", "_x0041_ fan"
	s.Setups[1].Name, s.Setups[1].Core, s.Setups[1].Fan = "@large", "-slab \u202egnp", "\xff<b>&\"'"
	s.Axes = []study.Axis{Axis("fin_density", 12, 20), Axis("fan_speed", Even(1500, 20000, 6)...)}
	rep := Report(s)
	rep.Answers[0].Reason = "=1+1 equals @large"
	rep.Results.Rows[0].State, rep.Results.Rows[0].Failure = model.State{}, "=cmd|' /C x'!A0"
	return rep
}

// Many returns a report with many designs over one axis.
func Many() *render.Report {
	s := Study()
	s.Axes = []study.Axis{Axis("fin_density", Even(8, 30, 45)...), Axis("fan_speed", Even(1500, 20000, 8)...)}
	return Report(s)
}

// Grouped returns a report whose density and depth step together, beside a
// condition of the room.
func Grouped() *render.Report {
	s := Study()
	density, depth := Axis("fin_density", 12, 16, 20), Axis("fin_depth", 36, 27, 20)
	density.Group, depth.Group = "shape", "shape"
	s.Axes = []study.Axis{density, Axis("air_temperature", 18, 23, 30), depth, Axis("fan_speed", Even(1500, 20000, 12)...)}
	return Report(s)
}

// Case is an invented report with a name.
type Case struct {
	Name   string
	Report func() *render.Report
}

// Cases lists the invented reports.
func Cases() []Case {
	return []Case{
		{"booth", Booth}, {"few", Few}, {"alone", Alone}, {"ahead", Ahead}, {"tied", Tied}, {"one-point", OnePoint},
		{"hopeless", Hopeless}, {"odd", Odd}, {"many", Many}, {"grouped", Grouped}, {"sure", Sure}, {"unsure", Unsure},
	}
}
