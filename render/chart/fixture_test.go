package chart_test

import (
	"math"
	"strings"

	"finduel/model"
	"finduel/model/fan"
	"finduel/render"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
	"finduel/testdata/reports"
)

// fixture is an invented report with a name.
type fixture struct {
	name   string
	report func() *render.Report
}

// fixtures returns every invented report that the charts are tried on.
func fixtures() []fixture {
	list := []fixture{
		{"statuses", statuses}, {"field", field}, {"heat", heat}, {"dozen", dozen}, {"gaps", gaps},
		{"poisoned", poisoned}, {"unsorted", unsorted}, {"long-names", longNames}, {"still", still}, {"one-speed", oneSpeed}, {"chip", compared},
		{"tiny", func() *render.Report { return scaled(1e-7) }},
		{"huge", func() *render.Report { return scaled(1e12) }},
		{"flat", flat}, {"silent", silent}, {"hanging", hanging}, {"propeller", propeller}, {"left-out", leftOut}, {"doubtful", doubtful}, {"sure-field", sureField}, {"no-answers", noAnswers},
	}
	for _, c := range reports.Cases() {
		list = append(list, fixture{c.Name, c.Report})
	}
	return list
}

// statuses has a map with every kind of answer.
func statuses() *render.Report {
	s := reports.Study()
	s.Axes = []study.Axis{
		reports.Axis("fin_density", 12, 16, 20), reports.Axis("fin_depth", 18, 27, 34),
		reports.Axis("fan_speed", reports.Even(1500, 20000, 12)...),
	}
	rep := reports.Report(s)
	for i, set := range map[int]breakeven.Status{
		0: breakeven.None, 1: breakeven.Always, 2: breakeven.Unknown, 3: breakeven.Excluded,
	} {
		rep.Answers[i].Status, rep.Answers[i].Crossings = set, nil
	}
	rep.Answers[4].Crossings = rep.Answers[4].Crossings[1:]
	rep.Answers[5].Crossings, rep.Answers[5].Status = rep.Answers[5].Crossings[:1], breakeven.One
	return rep
}

// field has a map of more cells than can be written in.
func field() *render.Report {
	s := reports.Study()
	s.Axes = []study.Axis{
		reports.Axis("fin_density", reports.Even(8, 36, 29)...), reports.Axis("fin_depth", reports.Even(10, 60, 26)...),
		reports.Axis("fan_speed", 3000, 20000),
	}
	return reports.Report(s)
}

// doubtful has lines with two break-evens, one and none, and says how sure each is.
func doubtful() *render.Report {
	s := reports.Study()
	s.Axes = []study.Axis{
		reports.Axis("fin_density", 12, 16, 20, 24), reports.Axis("fan_speed", reports.Even(1500, 20000, 38)...),
	}
	rep := reports.Report(s)
	rep.Answers[0].Status, rep.Answers[0].Crossings, rep.Answers[0].Best.Difference = breakeven.None, nil, 0.97
	rep.Answers[1].Status, rep.Answers[1].Crossings = breakeven.One, rep.Answers[1].Crossings[:1]
	rep.Answers[3].Crossings = rep.Answers[3].Crossings[1:]
	rep.Doubt = reports.Assess(rep)
	never := &rep.Doubt.Results[3].Breakeven
	never.Low, never.Median, never.High = math.Inf(-1), math.Inf(-1), math.Inf(-1)
	rep.Doubt.Results[1].Breakeven.High = math.Inf(1)
	return rep
}

// sureField is field with how sure each design is: the later the break-even, the less
// probable it is that there is one.
func sureField() *render.Report {
	rep := field()
	rep.Doubt = reports.Assess(rep)
	for i := range rep.Doubt.Results {
		r := &rep.Doubt.Results[i]
		if low, ok := rep.Answers[r.Design].Lower(); ok {
			r.Exists = max(0.4, min(1, 1.5-low/200))
			if r.Exists < 0.975 {
				r.Breakeven.High = math.Inf(1)
			}
		}
	}
	return rep
}

// heat tells its lines apart by a condition that both setups share.
func heat() *render.Report {
	s := reports.Study()
	s.Setups[0].Rig.Heat.Load, s.Setups[1].Rig.Heat.Load = 200, 200
	s.Axes = []study.Axis{
		reports.Axis("heat_load", 100, 200, 300), reports.Axis("fan_speed", reports.Even(3000, 20000, 18)...),
	}
	return reports.Report(s)
}

// dozen has more lines than are drawn.
func dozen() *render.Report {
	s := reports.Study()
	s.Axes = []study.Axis{
		reports.Axis("fin_density", reports.Even(9, 31, 12)...), reports.Axis("fan_speed", reports.Even(2000, 20000, 40)...),
	}
	return reports.Report(s)
}

// gaps has points without a value among others.
func gaps() *render.Report {
	rep := reports.Alone()
	for i := range rep.Results.Rows {
		if i%9 == 4 || i == 16 || i == 18 {
			rep.Results.Rows[i].State, rep.Results.Rows[i].Failure = model.State{}, "invented"
		}
	}
	return rep
}

// poisoned has numbers in it that are none.
func poisoned() *render.Report {
	rep := reports.Few()
	for i := range rep.Results.Rows {
		s := &rep.Results.Rows[i].State
		switch i % 7 {
		case 0:
			s.CoolantOverAir = math.NaN()
		case 1:
			s.Sound = math.Inf(1)
		case 2:
			s.CoolantOverAir = math.Inf(-1)
		case 3:
			rep.Results.Rows[i].Reference = math.NaN()
		}
	}
	for i := range rep.Answers {
		a := &rep.Answers[i]
		for j := range a.Crossings {
			a.Crossings[j].Speed = math.NaN()
		}
		a.Best.State.Sound = math.NaN()
		a.Reference.CoolantOverAir = math.Inf(1)
		a.Reference.Budget.AirFilm = math.NaN()
		a.Best.State.Budget.FanHeat = math.Inf(1)
	}
	rep.Results.ReferenceCurve[0].State.Sound = math.NaN()
	rep.Results.ReferenceCurve[1].Speed = math.Inf(1)
	return rep
}

// unsorted lists the values of its axes in no order.
func unsorted() *render.Report {
	s := reports.Study()
	s.Axes = []study.Axis{
		reports.Axis("fan_speed", 12000, 3000, 9000, 20000, 6000, 1500, 16000), reports.Axis("fin_density", 20, 12, 24, 16),
		reports.Axis("fin_depth", 27, 36, 18),
	}
	return reports.Report(s)
}

// longNames has names and a remark that fit nowhere.
func longNames() *render.Report {
	s := reports.Study()
	s.About = strings.Repeat("an invented remark that goes on and on, ", 40) + strings.Repeat("x", 5000)
	s.Setups[0].Name = "the small one with the very dense core that stands on the bench beside the window " + strings.Repeat("y", 300)
	s.Setups[0].Core, s.Setups[0].Fan = strings.Repeat("cube ", 60), strings.Repeat("d", 400)
	s.Setups[1].Name = "the large one 冷却 with two calm fans that hangs on the wall of the room next door"
	s.Axes = []study.Axis{reports.Axis("fin_density", 12, 20), reports.Axis("fan_speed", reports.Even(1500, 20000, 20)...)}
	return reports.Report(s)
}

// still sweeps no fan speed.
func still() *render.Report {
	s := reports.Study()
	s.Axes = []study.Axis{reports.Axis("fin_density", 12, 16, 20), reports.Axis("fin_depth", 18, 34)}
	return reports.Report(s)
}

// oneSpeed sweeps one fan speed only.
func oneSpeed() *render.Report {
	s := reports.Study()
	s.Axes = []study.Axis{reports.Axis("fan_speed", 6000)}
	return reports.Report(s)
}

// compared compares chip over air, with an estimated depth.
func compared() *render.Report {
	rep := reports.Alone()
	rep.Study.Metric = "chip_over_air"
	rep.Study.Setups[1].Estimated = []string{"fin_depth"}
	return rep
}

// scaled has every temperature difference times a factor.
func scaled(factor float64) *render.Report {
	rep := reports.Few()
	scale := func(s *model.State) {
		s.CoolantOverAir *= factor
		b := &s.Budget
		for _, term := range []*float64{&b.FanHeat, &b.AirFilm, &b.Fin, &b.Wall, &b.CoolantFilm, &b.Capacity, &b.PumpHeat} {
			*term *= factor
		}
	}
	for i := range rep.Results.Rows {
		scale(&rep.Results.Rows[i].State)
		rep.Results.Rows[i].Reference *= factor
	}
	for i := range rep.Answers {
		a := &rep.Answers[i]
		scale(&a.Reference)
		scale(&a.Best.State)
		for j := range a.Crossings {
			scale(&a.Crossings[j].State)
		}
	}
	for i := range rep.Results.ReferenceCurve {
		scale(&rep.Results.ReferenceCurve[i].State)
	}
	return rep
}

// flat has the same value everywhere, and it is zero.
func flat() *render.Report { return scaled(0) }

// silent has a sound level nowhere.
func silent() *render.Report {
	rep := reports.Alone()
	for i := range rep.Results.Rows {
		rep.Results.Rows[i].State.Sound = math.Inf(-1)
	}
	for i := range rep.Answers {
		a := &rep.Answers[i]
		a.Best.State.Sound = math.Inf(-1)
		for j := range a.Crossings {
			a.Crossings[j].State.Sound = math.Inf(-1)
		}
	}
	return rep
}

// leftOut has its base design left out by the study.
func leftOut() *render.Report {
	s := reports.Study()
	s.Axes = []study.Axis{reports.Axis("fin_density", 12, 20), reports.Axis("fan_speed", 3000, 9000, 15000)}
	density, _ := model.InputOf("fin_density")
	s.Exclusions = []study.Exclusion{{{Input: density, Above: density.Shown.SI(15), Below: math.Inf(-1)}}}
	return reports.Report(s)
}

// noAnswers has its answers taken away.
func noAnswers() *render.Report {
	rep := reports.Few()
	rep.Answers = nil
	return rep
}

// withFan has another fan in the place of one setup's.
func withFan(setup int, change func(*fan.Fan)) *render.Report {
	s := reports.Study()
	change(&s.Setups[setup].Rig.Fans.Fan)
	s.Axes = []study.Axis{reports.Axis("fan_speed", reports.Even(3000, 12000, 10)...)}
	return reports.Report(s)
}

// hanging has a challenger whose measured curve has so deep a saddle that it meets its
// core twice.
func hanging() *render.Report {
	return withFan(0, func(f *fan.Fan) {
		c, rating, err := fan.NewCurve([]fan.CurvePoint{
			{Flow: 0, Pressure: 520}, {Flow: 0.010, Pressure: 330}, {Flow: 0.018, Pressure: 110}, {Flow: 0.023, Pressure: 80},
			{Flow: 0.031, Pressure: 210}, {Flow: 0.036, Pressure: 290}, {Flow: 0.045, Pressure: 230}, {Flow: 0.070, Pressure: 0},
		})
		if err != nil {
			panic(err)
		}
		f.Curve, f.FreeAirFlow, f.ShutOffPressure = c, rating.FreeAirFlow, rating.ShutOffPressure
	})
}

// propeller has a challenger with a propeller for a fan, behind a grille.
func propeller() *render.Report {
	rep := withFan(0, func(f *fan.Fan) {
		f.RotorDiameter, f.Pitch, f.Blades = 0.140, 0.105, 3
		f.ThrustCoefficient, f.PowerCoefficient = 0.17, 0.11
	})
	rep.Study.Setups[0].Rig.Installed = model.Installed{GrilleLoss: 1, Shroud: model.Blocked}
	return rep
}
