package sweep_test

import (
	"errors"
	"testing"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/sweep"
)

func TestReasonsCarryValueAndUnit(t *testing.T) {
	for _, c := range []struct {
		err  error
		want string
	}{
		{model.ErrFreezes, "the coolant would freeze"},
		{&quantity.RangeError{Key: "fin_thickness", Value: 0.0005, Rule: "must be below half the fin pitch"}, "fin_thickness 0.5 mm must be below half the fin pitch"},
		{&quantity.RangeError{Key: "passes", Value: 0, Rule: "must be one or more"}, "passes 0 must be one or more"},
		{&quantity.RangeError{Key: "vapour_pressure", Value: 1, Rule: "must be low"}, "vapour_pressure: must be low"},
		{errors.Join(model.ErrFreezes, errors.Join(nil, &quantity.RangeError{Key: "heat_load", Value: -1, Rule: "must be above zero"})),
			"the coolant would freeze; heat_load -1 W must be above zero"},
		{errors.New("two\nlines"), "two lines"},
	} {
		if got := sweep.Reason(c.err); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// The rule is the same whatever the value that broke it.
func TestRuleLeavesTheValueOut(t *testing.T) {
	of := func(v float64) error {
		return &quantity.RangeError{Key: "humidity", Value: v, Low: 0, High: 1, Rule: "must lie between 0 and 100 %"}
	}
	if a, b := sweep.Rule(of(1.1)), sweep.Rule(of(1.2)); a != b || a == "" || sweep.Reason(of(1.1)) == sweep.Reason(of(1.2)) {
		t.Errorf("%q and %q", a, b)
	}
}
