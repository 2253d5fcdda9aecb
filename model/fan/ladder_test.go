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
	d.Fuse, d.Connector = 27, 32
	rungs := fan.Ladder(d, cube, 390, 10, 900)
	seen, last := fan.Limit(0), 0.0
	const onTheWay = fan.FuseRating | fan.ConnectorRating
	for _, r := range rungs {
		seen |= r.Limit
		if !r.Stated || !(r.Speed > last) {
			t.Errorf("%v at %g rev/s, stated %v, after %g", r.Limit, r.Speed, r.Stated, last)
		}
		last = r.Speed
		c := d.At(r.Speed, cube(r.Speed))
		if rating := map[fan.Limit]float64{fan.FuseRating: d.Fuse, fan.ConnectorRating: d.Connector}[r.Limit]; rating > 0 && math.Abs(c.SupplyCurrent/rating-1) > 1e-9 {
			t.Errorf("%v is met at %g A, rated %g A", r.Limit, c.SupplyCurrent, rating)
		}
		if c.Exceeded&(onTheWay|fan.BladeStrength) != 0 {
			t.Errorf("%v stops the drive", c.Exceeded)
		}
		if r.Limit&onTheWay != 0 {
			continue
		}
		if r.Limit == fan.BladeStrength {
			if r.Speed != 390 {
				t.Errorf("the blades bear %g rev/s", r.Speed)
			}
			continue
		}
		for side, exceeded := range map[float64]bool{1 - 1e-9: false, 1 + 1e-9: true} {
			if c := d.At(r.Speed*side, cube(r.Speed*side)); (c.Exceeded&r.Limit != 0) != exceeded {
				t.Errorf("%v at %.12g of %g rev/s: exceeded are %v", r.Limit, side, r.Speed, c.Exceeded)
			}
		}
	}
	if seen != 1<<8-1 || len(rungs) != 8 {
		t.Errorf("limits %v", seen)
	}
	first := fan.Reach(d, cube, 10, 900)
	d.Fuse = 1
	if with := fan.Reach(d, cube, 10, 900); with != first {
		t.Errorf("with a fuse it reaches %+v, without %+v", with, first)
	}
	d.Fuse = 0
	if rungs[0].Limit != first.Limit || math.Abs(rungs[0].Speed/first.Chain.Speed-1) > 1e-9 {
		t.Errorf("the first is %v at %g rev/s, Reach has %v at %g", rungs[0].Limit, rungs[0].Speed, first.Limit, first.Chain.Speed)
	}

	d.Supply.MostCurrent, d.WireResistance, d.Motor.MostCurrent, d.Controller.MostCurrent = 0, 0, 1e4, 1
	d.Connector = 0
	rungs = fan.Ladder(d, cube, 50, 100, 500)
	want := []fan.Rung{
		{Limit: fan.ControllerCurrent, Stated: true, Speed: 100}, // exceeded before
		{Limit: fan.BladeStrength, Stated: true, Speed: 100},     // likewise
		{Limit: fan.SupplyVoltage, Stated: true, Speed: rungs[2].Speed},
		{Limit: fan.MotorCurrent, Stated: true},
		{Limit: fan.SupplyCurrent},
		{Limit: fan.SupplyCollapse},
		{Limit: fan.FuseRating},
		{Limit: fan.ConnectorRating},
	}
	if len(rungs) != len(want) {
		t.Fatalf("%+v", rungs)
	}
	for i, r := range rungs {
		if r != want[i] {
			t.Errorf("rung %d is %+v, want %+v", i, r, want[i])
		}
	}
	for _, r := range fan.Ladder(d, cube, 501, 100, 500) {
		if r.Limit == fan.BladeStrength && r != (fan.Rung{Limit: fan.BladeStrength, Stated: true}) {
			t.Errorf("blades that bear more than was looked at: %+v", r)
		}
	}
	if !(rungs[2].Speed > 100 && rungs[2].Speed < 500) {
		t.Errorf("the voltage ends at %g rev/s", rungs[2].Speed)
	}
}
