package breakeven_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"finduel/model"
	"finduel/model/fan"
	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
	"finduel/testdata/reports"
)

// What the drive does not reach is not searched, and the answer says what stops it.
func TestSearchEndsWhereTheDriveDoes(t *testing.T) {
	s := reports.TwoSetups()
	rig := &s.Setups[s.Challenger].Rig
	f := &rig.Fans.Fan
	f.RatedSpeed, f.TopSpeed = 200, 400
	f.RotorDiameter, f.Pitch, f.Blades, f.ThrustCoefficient, f.PowerCoefficient = 0.11, 0.08, 3, 0.16, 0.1
	f.Brushless = fan.Brushless{SpeedConstant: 180, Resistance: 0.06, NoLoadCurrent: 1, MostCurrent: 7}
	f.DriveVoltage = 14
	s.Axes = []study.Axis{reports.Axis("fan_speed", reports.Even(3000, 24000, 9)...)}
	answer := func() breakeven.Answer {
		answers, err := breakeven.All(context.Background(), sweep.Lay(s), sweep.Options{})
		if err != nil {
			t.Fatal(err)
		}
		return answers[0]
	}
	a := answer()
	reached, err := model.Reach(*rig, 50, 400)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(a.To/reached.Chain.Speed-1) > 1e-9 || a.DriveEnd != "the motor's current" || !strings.Contains(a.Reason, "; its drive ends at ") {
		t.Errorf("searched to %g rev/s (%s), the drive reaches %g: %s", a.To, a.DriveEnd, reached.Chain.Speed, a.Reason)
	}
	if a.Best.Speed > a.To || a.Best.State.Warnings&model.OutOfReach != 0 || a.Sensible.Speed > a.To {
		t.Errorf("best %g, sensible %g, beyond %g", a.Best.Speed, a.Sensible.Speed, a.To)
	}
	f.Brushless.MostCurrent = 1.01
	if a := answer(); a.Status != breakeven.Unknown || !strings.Contains(a.Failure, "does not reach even the lowest searched speed, 3 000 rpm: the motor's current stops it") {
		t.Errorf("out of reach altogether: %v, %s", a.Status, a.Failure)
	}
	f.Brushless.MostCurrent = 0
	f.DriveVoltage = 60
	if a := answer(); a.To != 400 || a.DriveEnd != "" {
		t.Errorf("with nothing in the way it ends at %g, %q", a.To, a.DriveEnd)
	}
}
