package render

import (
	"testing"

	"finduel/model"
	"finduel/model/hazard"
)

// Of a number that falls short of its threshold the least is the gravest, of one that
// reaches it the greatest.
func TestTheGravestNumberIsKept(t *testing.T) {
	w := watch{setup: "small"}
	for _, c := range []struct{ speed, distance, sound float64 }{{100, 0.012, 90}, {200, 0.004, 95}, {300, 0.009, 92}} {
		rig := model.Rig{Build: hazard.Build{GuardShape: hazard.Slot, GuardOpening: 0.008, GuardDistance: c.distance}}
		w.take(&rig, 0, c.speed, &model.State{OperatorSound: c.sound})
	}
	seen := 0
	for _, c := range w.cautions() {
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
