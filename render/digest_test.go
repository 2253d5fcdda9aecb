package render_test

import (
	"context"
	"errors"
	"io/fs"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"finduel/model"
	"finduel/model/hazard"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
	"finduel/testdata/reports"
)

// Every row and every answer must be counted once.
func TestDigestCountsAddUp(t *testing.T) {
	for _, c := range reports.Cases() {
		rep := c.Report()
		d := rep.Digest()
		if d.Evaluated+d.Failed+d.LeftOut != d.Points {
			t.Errorf("%s: %d with a value, %d without, %d left out, but %d points", c.Name, d.Evaluated, d.Failed, d.LeftOut, d.Points)
		}
		sum := 0
		for _, n := range d.Statuses {
			sum += n
		}
		if sum != len(rep.Answers) || d.Designs != len(rep.Answers) {
			t.Errorf("%s: statuses of %d designs, %d designs, %d answers", c.Name, sum, d.Designs, len(rep.Answers))
		}
		failures := 0
		for i, f := range d.Failures {
			failures += f.Points
			if i > 0 && f.Points > d.Failures[i-1].Points {
				t.Errorf("%s: a rarer failure comes first", c.Name)
			}
		}
		if failures != d.Failed {
			t.Errorf("%s: reasons for %d of %d failures", c.Name, failures, d.Failed)
		}
	}
}

// Every status that a comparison can have must have a place in the lists, and the
// invented reports must show each of them.
func TestStatusesAreComplete(t *testing.T) {
	seen := map[breakeven.Status]bool{}
	for _, c := range reports.Cases() {
		for _, a := range c.Report().Answers {
			seen[a.Status] = true
		}
	}
	for s := breakeven.None; s <= breakeven.Excluded; s++ {
		if render.StatusWords(s) == "" {
			t.Errorf("status %s has no words", s)
		}
		if !slices.Contains(render.Statuses, s) {
			t.Errorf("status %s is not in Statuses", s)
		}
		if !seen[s] {
			t.Errorf("no invented report has the status %s", s)
		}
	}
}

func TestBaseIsNearest(t *testing.T) {
	rep := reports.Booth()
	d := rep.Digest()
	if d.Base == nil {
		t.Fatal("no base design")
	}
	want := map[string]float64{"fin_density": 20, "fin_depth": 36, "face_area": 81}
	for _, i := range rep.DesignAxes() {
		in := rep.Study.Axes[i].Input
		if got := render.Given(in.Quantity, rep.DesignValue(d.Base.Design, i)); got != render.Given(in.Quantity, in.Shown.SI(want[in.Key])) {
			t.Errorf("base design: %s is %s, want %g", in.Key, got, want[in.Key])
		}
	}
	if n := len(rep.HeldDesigns(rep.FreeAxes()[:2]...)); n != 4*3 {
		t.Errorf("%d designs over the first two axes, want 12", n)
	}
}

func TestAxesOfDesigns(t *testing.T) {
	rep := reports.Grouped()
	if got := rep.DesignAxes(); !slices.Equal(got, []int{0, 1, 2}) {
		t.Errorf("design axes %v, want 0 1 2", got)
	}
	if got := rep.FreeAxes(); !slices.Equal(got, []int{0, 1}) {
		t.Errorf("free axes %v, want 0 1: the third steps with the first", got)
	}
}

func TestExtremes(t *testing.T) {
	rep := reports.Booth()
	d := rep.Digest()
	lowest, _ := d.Lowest.Lower()
	highest, _ := d.Highest.Lower()
	for i := range rep.Answers {
		a := &rep.Answers[i]
		if !render.Answered(a) {
			continue
		}
		if speed, ok := a.Lower(); ok && (speed < lowest || speed > highest) {
			t.Errorf("design %d breaks even at %g rev/s, outside %g to %g", a.Design, speed, lowest, highest)
		}
		if a.Best.Difference < d.Coolest.Best.Difference {
			t.Errorf("design %d gets cooler than the coolest", a.Design)
		}
	}
	if hopeless := reports.Hopeless().Digest(); hopeless.Lowest != nil || hopeless.Highest != nil || hopeless.Coolest != nil {
		t.Error("a report without any value has extremes")
	}
}

func TestEnds(t *testing.T) {
	rep := reports.Alone()
	a := &rep.Answers[0]
	lower, upper := render.Ends(a)
	if lower == nil || upper == nil || lower == upper {
		t.Fatalf("a band has the ends %v and %v", lower, upper)
	}
	if !(lower.Slope < 0 && upper.Slope > 0 && lower.Speed < upper.Speed) {
		t.Errorf("ends %g (slope %g) and %g (slope %g)", lower.Speed, lower.Slope, upper.Speed, upper.Slope)
	}
	// States of an answer without a value mean nothing and must not be shown.
	a.Status = breakeven.Unknown
	if lower, upper := render.Ends(a); lower != nil || upper != nil {
		t.Error("an unknown answer has ends")
	}
}

func TestWarningsAreCounted(t *testing.T) {
	rep := reports.Few()
	points, answers, references := 0, 0, 0
	for _, r := range rep.Results.Rows {
		if r.Failure == "" && r.State.Warnings.Has(model.StallRegion) {
			points++
		}
	}
	for _, a := range rep.Answers {
		if a.Best.State.Warnings.Has(model.StallRegion) || slices.ContainsFunc(a.Crossings, func(c breakeven.Crossing) bool {
			return c.State.Warnings.Has(model.StallRegion)
		}) {
			answers++
		}
		if a.Reference.Warnings.Has(model.AirReynoldsLow) {
			references++
		}
	}
	if points == 0 || answers == 0 || references == 0 {
		t.Fatal("the invented report carries no warnings")
	}
	for _, w := range rep.Digest().Warnings {
		switch w.Bit {
		case model.StallRegion:
			if w.Points != points || w.Answers != answers {
				t.Errorf("stall region: %d points, %d answers; want %d, %d", w.Points, w.Answers, points, answers)
			}
		case model.AirReynoldsLow:
			if w.References != references {
				t.Errorf("low Reynolds number: %d references, want %d", w.References, references)
			}
		default:
			t.Errorf("a warning that no state carries: %s", w.Key)
		}
	}

	// One that only a break-even carries.
	rep.Answers[2].Crossings[0].State.Warnings |= model.Compressible
	for _, w := range rep.Digest().Warnings {
		if w.Bit == model.Compressible {
			if w.Points != 0 || w.Answers != 1 || w.References != 0 {
				t.Errorf("a break-even's own warning: %d points, %d answers, %d references", w.Points, w.Answers, w.References)
			}
			return
		}
	}
	t.Error("the warning of a break-even is not counted")
}

func TestComparedBeginsWithMetric(t *testing.T) {
	rep := reports.Alone()
	rep.Study.Metric = "chip_over_air"
	if got := rep.Compared()[0].Key; got != "chip_over_air" {
		t.Errorf("compared first: %s", got)
	}
	rep.Study.Metric = ""
	if got := rep.Compared()[0].Key; got != "coolant_over_air" {
		t.Errorf("compared first without a metric: %s", got)
	}
}

// What reaches a threshold of hazard anywhere in a report is a caution of the setup that
// reaches it; just below there is none.
func TestCautions(t *testing.T) {
	quiet := func() *render.Report {
		rep := reports.OnePoint()
		rep.Results.ReferenceCurve = nil
		states := []*model.State{&rep.Results.Rows[0].State, &rep.Answers[0].Best.State, &rep.Answers[0].Reference}
		for _, s := range states {
			s.OperatorSound, s.TipSpeed, s.TipMach, s.DriveCurrent, s.NIOSHDose, s.OSHADose, s.DailyExposure = 20, 5, 0.02, 0.1, 0, 0, 11
			s.SoundDoubtHigh = 0
		}
		return rep
	}
	if got := render.Cautions(quiet()); len(got) != 0 {
		t.Fatalf("a quiet report has cautions: %+v", got)
	}
	for _, c := range []struct {
		rule      hazard.Rule
		set       func(*model.State, float64)
		threshold float64
	}{
		{hazard.Loud, func(s *model.State, v float64) { s.OperatorSound = v }, 85},
		{hazard.MayBeLoud, func(s *model.State, v float64) { s.OperatorSound, s.SoundDoubtHigh = v-5, 5 }, 85},
		{hazard.TipSpeed, func(s *model.State, v float64) { s.TipSpeed = v }, 60},
		{hazard.FanHeader, func(s *model.State, v float64) { s.DriveCurrent = v }, 1},
		{hazard.NIOSHDose, func(s *model.State, v float64) { s.NIOSHDose = v }, 1},
	} {
		below := quiet()
		c.set(&below.Results.Rows[0].State, c.threshold*0.999)
		if got := render.Cautions(below); len(got) != 0 {
			t.Errorf("rule %d: a caution below the threshold", c.rule)
		}
		places := map[string]func(*render.Report) *model.State{
			"a point":       func(r *render.Report) *model.State { return &r.Results.Rows[0].State },
			"the best":      func(r *render.Report) *model.State { return &r.Answers[0].Best.State },
			"the reference": func(r *render.Report) *model.State { return &r.Answers[0].Reference },
		}
		for where, state := range places {
			rep := quiet()
			c.set(state(rep), c.threshold)
			got := render.Cautions(rep)
			if len(got) == 0 || len(got) > 1 && got[1].Severity != hazard.Notice || got[0].Rule != c.rule || got[0].Number != c.threshold || got[0].Threshold != c.threshold {
				t.Errorf("rule %d at the threshold in %s: %+v", c.rule, where, got)
				continue
			}
			setup := map[string]string{"the reference": "large"}[where]
			if setup == "" {
				setup = "small"
			}
			if got[0].Setup != setup || got[0].Source == "" || got[0].Precaution == "" {
				t.Errorf("rule %d in %s: %+v", c.rule, where, got[0])
			}
		}
	}
}

// A caution names the greatest value of a setup, wherever it is, and the lowest speed at
// which it holds; one setup does not hide the other's.
func TestCautionNamesTheGreatestAndWhereItBegins(t *testing.T) {
	rep := reports.Booth()
	greatest, from := 0.0, math.Inf(1)
	for _, r := range rep.Results.Rows {
		if r.Failure == "" {
			greatest = max(greatest, r.State.TipSpeed)
			if r.State.TipSpeed >= 60 {
				from = min(from, rep.Speed(r.Point))
			}
		}
	}
	find := func(rule hazard.Rule, setup string) *render.Caution {
		list := render.Cautions(rep)
		for i := range list {
			if list[i].Rule == rule && list[i].Setup == setup {
				return &list[i]
			}
		}
		return &render.Caution{}
	}
	if c := find(hazard.TipSpeed, "small"); c.Number != greatest || c.From != from {
		t.Errorf("tips at %g m/s, from %g rev/s; want %g, from %g", c.Number, c.From, greatest, from)
	}
	if speed := quantity.Must("fan_speed").Shown.Shown(find(hazard.TipSpeed, "small").At); speed < 19999 || speed > 20001 {
		t.Errorf("the fastest tips at %g rpm, want 20000", speed)
	}
	rep.Results.ReferenceCurve[3].State.TipSpeed = greatest + 1
	if c := find(hazard.TipSpeed, "large"); c.Number != greatest+1 || c.From != rep.Results.ReferenceCurve[3].Speed {
		t.Errorf("the reference over its speeds is not looked at: %+v", c)
	}
	if c := find(hazard.TipSpeed, "small"); c.Number != greatest {
		t.Errorf("the challenger's caution is hidden: %+v", c)
	}
	// States without a value are no states.
	rep.Results.Rows[0].Failure, rep.Results.Rows[0].State.TipSpeed = reports.Boils, greatest+50
	if c := find(hazard.TipSpeed, "small"); c.Number != greatest {
		t.Errorf("a failed point is looked at: %+v", c)
	}
	list := render.Cautions(rep)
	for i := 1; i < len(list); i++ {
		if list[i].Severity < list[i-1].Severity || list[i].Rule < list[i-1].Rule {
			t.Errorf("%s stands behind %s", list[i].Key, list[i-1].Key)
		}
	}
}

// A caution says from which speed it holds, not only between which two of the sweep: the
// speed is the model's, on the safe side by half a per cent at most.
func TestCautionsSayFromWhichSpeed(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = []study.Axis{reports.Axis("fan_speed", 3000, 7000, 12000, 19000), reports.Axis("fin_density", 12, 20, 14)}
	for i := range s.Setups {
		s.Setups[i].Rig.Build = hazard.Build{WireGauge: 20, WireLength: 1}
	}
	s.Setups[s.Challenger].Rig.Fans.Fan.RotorDiameter = 0.1
	rep := computed(t, s)
	found := map[string]float64{}
	until, begins := map[hazard.Rule]render.Caution{}, map[hazard.Rule]float64{}
	for _, c := range render.Cautions(rep) {
		if c.Setup != "small" {
			continue
		}
		found[c.Key], begins[c.Rule] = c.Onset, c.Onset
		if c.Until > 0 {
			until[c.Rule] = c
		}
		if c.Not == 0 {
			if c.Onset != 0 || !strings.Contains(sentence(c), " or less: ") {
				t.Errorf("%s, which holds at the lowest speed: %s", c.Key, sentence(c))
			}
			continue
		}
		if !(c.Onset >= c.Not && c.Onset < c.From) || !strings.Contains(sentence(c), " from "+render.Computed("fan_speed", c.Onset)) {
			t.Errorf("%s begins at %g rev/s, between %g and %g: %s", c.Key, c.Onset, c.Not, c.From, sentence(c))
		}
		holds := func(speed float64) (any bool) {
			for _, density := range []float64{12, 20, 14} {
				rig := s.Setups[s.Challenger].Rig
				rig.Core.FinDensity = density / 0.0254
				rig.Speed = speed
				if state, err := model.Evaluate(rig); err == nil {
					any = any || model.Cautions(&rig, speed, &state)[c.Rule].Holds
				}
			}
			return any
		}
		if holds(c.Onset) || !holds(c.Onset*1.0052) {
			t.Errorf("%s is said to begin at %g rev/s: there it is %v, half a per cent above %v", c.Key, c.Onset, holds(c.Onset), holds(c.Onset*1.0052))
		}
	}
	rpm := quantity.Must("fan_speed").Shown
	if want := 11450.0; math.Abs(rpm.Shown(found["tip_speed"])-want) > 1e-6 { // 60 m/s of 100 mm at 11 459 rpm
		t.Errorf("tips of 100 mm reach 60 m/s at %g rpm, want %g", rpm.Shown(found["tip_speed"]), want)
	}
	for rule, c := range until {
		if by, _ := rule.Graver(); c.Until != begins[by] || c.At > c.Until*1.0052 || !strings.Contains(sentence(c), ", until a "+by.Caution(hazard.Finding{}).Severity.String()+" takes its place from "+render.Computed("fan_speed", c.Until)+": ") {
			t.Errorf("the graver one holds from %g rev/s: %s", begins[by], sentence(c))
		}
	}
	if len(until) < 2 {
		t.Errorf("only %d graver cautions take the place of others", len(until))
	}
	if len(found) < 5 {
		t.Errorf("only %v", found)
	}
	// What the model does not bear out is left to the speeds that were looked at.
	for i := range rep.Results.Rows {
		if row := &rep.Results.Rows[i]; rep.Speed(row.Point) > rpm.SI(6000) {
			row.State.TipSpeed = 100
		}
	}
	for _, c := range render.Cautions(rep) {
		if c.Rule == hazard.TipSpeed && (c.Onset != 0 || !strings.Contains(strings.ReplaceAll(sentence(c), "\u00a0", " "), " from between 3 000 and 7 000 rpm: ")) {
			t.Errorf("%s", sentence(c))
		}
	}
}

// A shroud gets cooler with speed: the weaker caution holds above the graver one, which
// then does not take its place.
func TestAWeakerCautionAboveTheGraver(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = []study.Axis{reports.Axis("fan_speed", 3000, 7000, 12000, 19000)}
	s.Setups[s.Challenger].Rig.Build, s.Setups[s.Challenger].Rig.Room.Temperature = hazard.Build{Shroud: hazard.PrintedPLA}, 316
	seen := 0
	for _, c := range render.Cautions(computed(t, s)) {
		switch c.Rule {
		case hazard.ShroudSoftens:
			if seen++; c.From == 0 || c.Until != 0 || !strings.Contains(sentence(c), "to which the shroud is bolted") {
				t.Errorf("%s", sentence(c))
			}
		case hazard.ShroudCreeps:
			if seen++; c.Onset == 0 || c.Until != 0 {
				t.Errorf("%s", sentence(c))
			}
		}
	}
	if seen != 2 {
		t.Errorf("%d cautions of the shroud", seen)
	}
}

// computed returns a report of a study whose points are the model's own.
func computed(t *testing.T, s *study.Study) *render.Report {
	t.Helper()
	p := sweep.Lay(s)
	results := &sweep.Results{Plan: p}
	for k := range p.Points() {
		state, err := model.Evaluate(p.Challenger(k))
		row := sweep.Row{Point: k, State: state}
		if err != nil {
			row.Failure = err.Error()
		}
		results.Rows = append(results.Rows, row)
	}
	answers, err := breakeven.All(context.Background(), p, sweep.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return &render.Report{Study: s, Results: results, Answers: answers}
}

// A number that is not the base design's names whose it is, and so does a speed; what
// prints alike is the base design's.
func TestCautionsNameTheDesign(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = []study.Axis{reports.Axis("fin_density", 12, 20, 26), reports.Axis("fan_speed", 3000, 7000, 12000, 19000)}
	for i := range s.Setups {
		s.Setups[i].Rig.Build = hazard.Build{Shroud: hazard.PrintedPLA}
		s.Setups[i].Rig.Room.Temperature = 316 // so that the shroud gets hot
	}
	s.Setups[s.Challenger].Rig.Core.FinDensity = 20 / 0.0254
	named := 0
	for _, c := range render.Cautions(computed(t, s)) {
		if c.Setup != "small" {
			if c.Design != "" || c.FromDesign != "" {
				t.Errorf("the reference is that of no design: %s", sentence(c))
			}
			continue
		}
		own := s.Setups[s.Challenger].Rig
		own.Speed = c.At
		state, err := model.Evaluate(own)
		if err != nil {
			t.Fatal(err)
		}
		f := model.Cautions(&own, own.Speed, &state)[c.Rule]
		same := f.Holds && render.Number(c.What(), f.Number) == render.Number(c.What(), c.Number)
		if same != (c.Design == "") {
			t.Errorf("the base design has %g there: %s", f.Number, sentence(c))
		}
		if c.Design == "" {
			continue
		}
		named++
		if c.Design != "fin density 12 fpi" && c.Design != "fin density 26 fpi" || !strings.Contains(sentence(c), " ("+c.Design+")") {
			t.Errorf("design %q: %s", c.Design, sentence(c))
		}
	}
	if named == 0 {
		t.Error("all cautions are those of the base design")
	}
}

// Where the conditions that both share are swept, the reference's cautions name them,
// unless they are the study's own.
func TestCautionsNameTheReferencesConditions(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = []study.Axis{reports.Axis("altitude", 180, 4500), reports.Axis("fin_density", 12, 20), reports.Axis("air_temperature", 23, 55), reports.Axis("fan_speed", 7000, 12000, 19000)}
	reference := &s.Setups[s.Reference].Rig
	reference.Build = hazard.Build{Shroud: hazard.PrintedPLA, GuardShape: hazard.Slot, GuardOpening: 0.02, GuardDistance: 0.01}
	reference.Room.Altitude, reference.Room.Temperature = 180, 296.15
	s.Setups[s.Challenger].Rig.Room = reference.Room
	named := map[string]string{}
	for _, c := range render.Cautions(computed(t, s)) {
		if c.Setup == "large" {
			named[c.Key] = c.Design
		}
	}
	if of, is := named["within_reach"]; !is || of != "" {
		t.Errorf("a guard that is too near in any room is that of %q: %q", of, named)
	}
	if of := strings.ReplaceAll(named["shroud_softens"], "\u00a0", " "); !strings.Contains(of, "air temperature 55 °C") || strings.Contains(of, "fin density") {
		t.Errorf("a shroud that softens in hot air is that of %q: %q", of, named)
	}
}

// A setup that is not compared has the cautions that it would have as the challenger, up to
// its own top speed, each once and behind those of the compared.
func TestCautionsOfSetupsSetAside(t *testing.T) {
	s := reports.TwoSetups()
	s.Setups[0].Rig.Fans.Fan.RotorDiameter, s.Setups[0].Rig.Fans.Fan.TopSpeed = 0.1, 200
	s.Setups[0].Rig.Build = hazard.Build{WireGauge: 20, WireLength: 2, FuseRating: 3}
	aside := s.Setups[0]
	aside.Name = "aside"
	s.Setups = append(s.Setups, aside)
	s.Axes = []study.Axis{reports.Axis("fan_speed", 1500, 3000, 7000, 12000)}
	rep := computed(t, s)
	compared, set := map[hazard.Rule]render.Caution{}, map[hazard.Rule]render.Caution{}
	last := hazard.Rule(-1)
	for _, c := range render.Cautions(rep) {
		if c.Rule < last {
			t.Errorf("%s is out of order", sentence(c))
		}
		last = c.Rule
		of := compared
		if c.Setup == "aside" {
			of = set
		} else if _, seen := set[c.Rule]; seen {
			t.Errorf("%s stands behind that of a setup that is not compared", sentence(c))
		}
		if _, twice := of[c.Rule]; twice && c.Setup != "large" {
			t.Errorf("%s is there twice", sentence(c))
		}
		if c.Setup != "large" {
			of[c.Rule] = c
		}
	}
	if len(compared) < 8 || len(set) < len(compared) {
		t.Fatalf("%d cautions set aside, %d compared", len(set), len(compared))
	}
	for rule, c := range compared {
		a := set[rule]
		if a.Number != c.Number || a.At != c.At || math.Abs(a.Onset-c.Onset) > 0.01*c.Onset {
			t.Errorf("set aside %s\ncompared %s", sentence(a), sentence(c))
		}
	}
}

// Without points the cautions are those of the points.
func TestCautionsWithoutPoints(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = []study.Axis{reports.Axis("fin_density", 12, 20, 26), reports.Axis("fan_speed", 3000, 7000, 12000, 19000)}
	for i := range s.Setups {
		s.Setups[i].Rig.Build = hazard.Build{WireGauge: 20, WireLength: 2, FuseRating: 3}
	}
	with := computed(t, s)
	with.Results.ReferenceCurve = sweep.ReferenceCurve(with.Results.Plan, sweep.Physics)
	without := &render.Report{Study: s, Results: &sweep.Results{Plan: with.Results.Plan}, Answers: with.Answers}
	a, b := render.Cautions(with), render.Cautions(without)
	if len(a) < 8 || len(a) != len(b) {
		t.Fatalf("%d with points, %d without", len(a), len(b))
	}
	for i := range a {
		if sentence(a[i]) != sentence(b[i]) {
			t.Errorf("with points %s\nwithout %s", sentence(a[i]), sentence(b[i]))
		}
	}
}

// Break-evens and best speeds lie between the speeds of the sweep: one that reaches a
// threshold does not hide that the lower speed of the sweep does not.
func TestCautionBetweenTheSpeedsOfTheSweep(t *testing.T) {
	rep := reports.Booth()
	a := &rep.Answers[0]
	speed := math.Inf(1)
	for _, r := range rep.Results.Rows {
		if r.Failure == "" && r.State.TipSpeed >= 60 {
			speed = min(speed, rep.Speed(r.Point))
		}
	}
	a.Best.Speed = speed * 0.999
	a.Best.State.TipSpeed = 60
	for _, c := range render.Cautions(rep) {
		if c.Rule == hazard.TipSpeed && c.Setup == "small" && !(c.From == a.Best.Speed && c.Not > 0.5*speed && c.Not < c.From) {
			t.Errorf("from %g, not at %g, the sweep's first is %g", c.From, c.Not, speed)
		}
	}
}

// Points that were not evaluated are not points left out; if all are left out, that
// is something else.
func TestDigestWithoutPoints(t *testing.T) {
	rep := reports.Booth()
	if got, d := "1 620 points in 36 designs, 33 without a value, 135 left out by the study", rep.Digest(); d.Extent() != got {
		t.Errorf("extent %q, want %q", d.Extent(), got)
	}
	plan := rep.Results.Plan
	rep.Results = &sweep.Results{Plan: plan}
	if d := rep.Digest(); d.Ran || d.Points+d.Evaluated+d.Failed+d.LeftOut != 0 || d.Extent() != "36 designs" {
		t.Errorf("a report without points says %+v", d)
	}
	rep.Results = &sweep.Results{Plan: plan, Rows: []sweep.Row{}}
	if d := rep.Digest(); !d.Ran || d.LeftOut != 1620 {
		t.Errorf("a report whose points are all left out says %+v", d)
	}
}

func TestPlaces(t *testing.T) {
	for name, c := range map[string]struct {
		rep  *render.Report
		want []string
	}{
		"alone":    {reports.Alone(), []string{"break-even", "upper end", "sensible", "best speed", "reference"}},
		"ahead":    {reports.Ahead(), []string{"sensible", "best speed", "reference"}},
		"hopeless": {reports.Hopeless(), nil},
	} {
		var got []string
		for _, p := range c.rep.Places(&c.rep.Answers[0]) {
			got = append(got, p.Name)
			if p.Speed <= 0 || p.State == nil || p.State.CoolantOverAir <= 0 {
				t.Errorf("%s: %s is empty", name, p.Name)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: places %q, want %q", name, got, c.want)
		}
	}
}

func TestEstimated(t *testing.T) {
	s := reports.Few().Challenger()
	depth, _ := model.InputOf("fin_depth")
	density, _ := model.InputOf("fin_density")
	if _, _, ok := render.Estimated(s, depth); ok {
		t.Error("a depth that is given is called an estimate")
	}
	s.Estimated, s.Rig.Core.FinDepth = []string{"fin_depth", "fin_density"}, 0.0185294
	if about, from, ok := render.Estimated(s, depth); !ok || about+" "+from != "about 18.5 mm (estimated from the overall thickness)" {
		t.Errorf("the depth is %q %q", about, from)
	}
	if about, from, ok := render.Estimated(s, density); !ok || about+" "+from != "about 20.0 fpi (estimated)" {
		t.Errorf("the density is %q %q", about, from)
	}
}

// counted is answers that count how often they are looked at.
type counted struct {
	breakeven.List
	looks int
}

func (c *counted) Each(yield func(*breakeven.Answer) bool) error {
	c.looks++
	return c.List.Each(yield)
}

// Of answers that are kept the same is said as of those in memory, and they are looked
// at once; what cannot be read is told.
func TestDigestOfKeptAnswers(t *testing.T) {
	rep := reports.Booth()
	want := rep.Digest()
	kept := &counted{List: rep.Answers}
	rep.Answers, rep.Kept = nil, kept
	if got := rep.Digest(); !reflect.DeepEqual(got, want) || got.Base == nil || got.Cheap.Sound == nil {
		t.Errorf("of kept answers it is\n%+v\nwant\n%+v", got, want)
	}
	looks := kept.looks
	if rep.Digest(); looks == 0 || kept.looks != looks {
		t.Errorf("they are looked at %d times, then %d", looks, kept.looks)
	}
	if rep.Err() != nil {
		t.Error(rep.Err())
	}
	broken := reports.Booth()
	broken.Kept = unreadable{}
	broken.Digest()
	if _, ok := broken.AnswerOf(0); ok || !errors.Is(broken.Err(), fs.ErrClosed) {
		t.Errorf("answers that cannot be read are told as: %v", broken.Err())
	}
}

// unreadable is answers that cannot be read.
type unreadable struct{}

func (unreadable) Each(func(*breakeven.Answer) bool) error { return fs.ErrClosed }
func (unreadable) Of(int) (*breakeven.Answer, error)       { return nil, fs.ErrClosed }
func (unreadable) Len() int                                { return 36 }

// sentence says one caution.
func sentence(c render.Caution) string { return render.CautionSentences([]render.Caution{c})[0] }
