package sweep_test

import (
	"math"
	"testing"

	"finduel/model"
	"finduel/sweep"
	"finduel/sweep/study"
	"finduel/testdata/reports"
)

func axis(t testing.TB, key, group string, values ...float64) study.Axis {
	t.Helper()
	in, ok := model.InputOf(key)
	if !ok {
		t.Fatalf("no input %s", key)
	}
	return study.Axis{Input: in, Values: values, Group: group}
}

func TestPlanCrossesAxesAndKeepsSpeedsTogether(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = []study.Axis{
		axis(t, "fan_speed", "", 50, 100, 150, 200),
		axis(t, "fin_density", "", 600, 800),
		axis(t, "fin_depth", "", 0.02, 0.03, 0.04),
	}
	p := sweep.Lay(s)
	if p.Points() != 24 || p.Designs() != 6 {
		t.Fatalf("%d points in %d designs, want 24 in 6", p.Points(), p.Designs())
	}
	seen := map[[3]float64]bool{}
	for k := range p.Points() {
		r := p.Challenger(k)
		seen[[3]float64{r.Speed, r.Core.FinDensity, r.Core.FinDepth}] = true
		design, speed := p.Design(k)
		if p.Point(design, speed) != k {
			t.Errorf("point %d is speed %d of design %d, which is point %d", k, speed, design, p.Point(design, speed))
		}
		if want := s.Axes[0].Values[k%4]; r.Speed != want {
			t.Errorf("point %d has speed %v, want %v: speeds of a design lie side by side", k, r.Speed, want)
		}
		if ref := p.Reference(k); ref != s.Setups[1].Rig {
			t.Errorf("point %d changes the reference", k)
		}
	}
	if len(seen) != 24 {
		t.Errorf("%d different points of 24", len(seen))
	}
}

func TestPlanStepsGroupsTogether(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = []study.Axis{
		axis(t, "fin_density", "g", 600, 700, 800),
		axis(t, "fan_speed", "", 50, 100),
		axis(t, "fin_depth", "g", 0.04, 0.03, 0.02),
	}
	p := sweep.Lay(s)
	if p.Points() != 6 || p.Designs() != 3 {
		t.Fatalf("%d points in %d designs, want 6 in 3", p.Points(), p.Designs())
	}
	for k := range p.Points() {
		r := p.Challenger(k)
		if math.Abs(r.Core.FinDensity*1e-4+r.Core.FinDepth-0.1) > 1e-12 {
			t.Errorf("point %d: %v fins a metre with depth %v: not in step", k, r.Core.FinDensity, r.Core.FinDepth)
		}
	}
}

func TestConditionsApplyToBothSetups(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = []study.Axis{axis(t, "coolant_flow", "", 2e-5, 6e-5), axis(t, "fan_speed", "", 50, 100)}
	p := sweep.Lay(s)
	for k := range p.Points() {
		if c, r := p.Challenger(k), p.Reference(k); c.Coolant.Flow != r.Coolant.Flow {
			t.Errorf("point %d: challenger has %v, reference %v", k, c.Coolant.Flow, r.Coolant.Flow)
		}
	}
}

func TestFaceAreaKeepsTheShape(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = []study.Axis{axis(t, "face_area", "", 0.006, 0.012)}
	p := sweep.Lay(s)
	base := s.Setups[0].Rig.Core
	for k := range p.Points() {
		g := p.Challenger(k).Core
		if math.Abs(g.FaceLength/g.FaceWidth-base.FaceLength/base.FaceWidth) > 1e-12 || math.Abs(g.FaceLength*g.FaceWidth-s.Axes[0].Values[k]) > 1e-15 {
			t.Errorf("point %d: face %v by %v", k, g.FaceLength, g.FaceWidth)
		}
	}
}

func TestNearestHoldsAnAxisAtTheStudysOwnValue(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = []study.Axis{axis(t, "fin_depth", "", 0.01, 0.033, 0.05)}
	if got := sweep.Lay(s).Nearest(0); got != 1 {
		t.Errorf("nearest step %d, want 1", got)
	}
}

func TestExclusionsLeavePointsOut(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = []study.Axis{axis(t, "fin_density", "", 600, 800), axis(t, "fin_depth", "", 0.02, 0.04), axis(t, "fan_speed", "", 50, 100)}
	density, depth := s.Axes[0].Input, s.Axes[1].Input
	s.Exclusions = []study.Exclusion{{
		{Input: density, Above: 700, Below: math.Inf(-1)},
		{Input: depth, Above: 0.03, Below: math.Inf(-1)},
	}}
	p := sweep.Lay(s)
	for k := range p.Points() {
		r := p.Challenger(k)
		if want := r.Core.FinDensity > 700 && r.Core.FinDepth > 0.03; p.Excluded(k) != want {
			t.Errorf("point %d (%v, %v) excluded: %v", k, r.Core.FinDensity, r.Core.FinDepth, p.Excluded(k))
		}
	}
	for d := range p.Designs() {
		if want := d == 3; p.ExcludesDesign(d) != want {
			t.Errorf("design %d excluded: %v", d, p.ExcludesDesign(d))
		}
	}
}
