package chart

import (
	"slices"
	"testing"

	"finduel/testdata/reports"
)

// A line must go through its best speed also where that lies between two points of
// the plan, as it does here: 10 797 rpm between 10 500 and 11 000.
func TestCurveGoesThroughItsBestSpeed(t *testing.T) {
	rep := reports.Alone()
	c := familyOf(rep).curves[0]
	b, ok := c.best(rep.Metric())
	if !ok {
		t.Fatal("no best speed")
	}
	if !slices.ContainsFunc(c.points, func(p point) bool {
		return p.between && p.speed == shownSpeed(b.Speed) && p.value == rep.Results.Plan.Metric()(&b.State)
	}) {
		t.Errorf("the line does not go through its best speed, %g rpm", shownSpeed(b.Speed))
	}
}
