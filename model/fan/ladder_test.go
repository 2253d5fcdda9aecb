package fan_test

import (
	"math"
	"testing"

	"finduel/model/fan"
)

// Every limit is met at the speed at which it alone is used up, in rising order, behind
// them those that are not met and those that are not stated.
func TestLadderMeetsEveryLimit(t *testing.T) {
	d := small()
	rungs := fan.Ladder(d, cube, 10, 900)
	seen, last := fan.Limit(0), 0.0
	for _, r := range rungs {
		seen |= r.Limit
		if !r.Stated || !(r.Speed > last) {
			t.Errorf("%v at %g rev/s, stated %v, after %g", r.Limit, r.Speed, r.Stated, last)
		}
		last = r.Speed
		for side, exceeded := range map[float64]bool{1 - 1e-9: false, 1 + 1e-9: true} {
			if c := d.At(r.Speed*side, cube(r.Speed*side)); (c.Exceeded&r.Limit != 0) != exceeded {
				t.Errorf("%v at %.12g of %g rev/s: exceeded are %v", r.Limit, side, r.Speed, c.Exceeded)
			}
		}
	}
	if seen != 1<<5-1 || len(rungs) != 5 {
		t.Errorf("limits %v", seen)
	}
	first := fan.Reach(d, cube, 10, 900)
	if rungs[0].Limit != first.Limit || math.Abs(rungs[0].Speed/first.Chain.Speed-1) > 1e-9 {
		t.Errorf("the first is %v at %g rev/s, Reach has %v at %g", rungs[0].Limit, rungs[0].Speed, first.Limit, first.Chain.Speed)
	}

	d.Supply.MostCurrent, d.WireResistance, d.Motor.MostCurrent, d.Controller.MostCurrent = 0, 0, 1e4, 1
	rungs = fan.Ladder(d, cube, 100, 500)
	want := []fan.Rung{
		{Limit: fan.ControllerCurrent, Stated: true, Speed: 100}, // exceeded before
		{Limit: fan.SupplyVoltage, Stated: true, Speed: rungs[1].Speed},
		{Limit: fan.MotorCurrent, Stated: true},
		{Limit: fan.SupplyCurrent},
		{Limit: fan.SupplyCollapse},
	}
	for i, r := range rungs {
		if r != want[i] {
			t.Errorf("rung %d is %+v, want %+v", i, r, want[i])
		}
	}
	if !(rungs[1].Speed > 100 && rungs[1].Speed < 500) {
		t.Errorf("the voltage ends at %g rev/s", rungs[1].Speed)
	}
}
