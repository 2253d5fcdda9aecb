package render

import (
	"slices"
	"testing"

	"finduel/model"
	"finduel/model/hazard"
	"finduel/sweep"
	"finduel/sweep/study"
)

// Of a number that falls short of its threshold the least is the gravest, of one that
// reaches it the greatest.
func TestTheGravestNumberIsKept(t *testing.T) {
	w := watch{setup: "small"}
	for _, c := range []struct{ speed, distance, sound float64 }{{100, 0.012, 90}, {200, 0.004, 95}, {300, 0.009, 92}} {
		rig := model.Rig{Build: hazard.Build{GuardShape: hazard.Slot, GuardOpening: 0.008, GuardDistance: c.distance}}
		w.take(own, &rig, 0, c.speed, &model.State{OperatorSound: c.sound})
	}
	seen := 0
	for _, c := range w.cautions(func(int) string { return "" }) {
		want, known := map[hazard.Rule]float64{hazard.WithinReach: 0.004, hazard.Loud: 95}[c.Rule]
		if !known {
			continue
		}
		if seen++; c.Number != want || c.At != 200 || c.From != 100 {
			t.Errorf("%s: %g at %g rev/s from %g on, want %g at 200 from 100 on", c.Key, c.Number, c.At, c.From, want)
		}
	}
	if seen != 2 {
		t.Errorf("%d cautions of two", seen)
	}
}

// Of a plan that is too large the base design is walked, and those that have the gravest
// numbers; else all are.
func TestWhichDesignsAreWalked(t *testing.T) {
	s, err := study.Load("../configs/rotor.yaml")
	if err != nil {
		t.Fatal(err)
	}
	rep := &Report{Study: s, Results: &sweep.Results{Plan: sweep.Lay(s)}}
	var w watch
	for rule, of := range map[hazard.Rule]int{hazard.Loud: 11, hazard.TipSpeed: own, hazard.FuseOpens: 3, hazard.SupplyLoad: 11} {
		w.any.found[rule].Holds, w.any.of[rule] = true, of
	}
	w.any.of[hazard.TipMach] = 5 // does not hold
	points := rep.plan().Points()
	if got := rep.walked(8, &w, points-1); !slices.Equal(got, []int{3, 8, 11}) {
		t.Errorf("of too many %v are walked", got)
	}
	if got := rep.walked(own, &w, points-1); !slices.Equal(got, []int{3, 11}) {
		t.Errorf("without a base design %v are walked", got)
	}
	if got := rep.walked(8, &w, points); len(got) != rep.plan().Designs() || got[0] != 0 {
		t.Errorf("of few %v are walked", got)
	}
}
