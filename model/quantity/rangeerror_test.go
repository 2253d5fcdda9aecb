package quantity_test

import (
	"errors"
	"testing"

	"finduel/model/quantity"
)

func TestRangeErrorIsTypedAndSaysKeyAndRule(t *testing.T) {
	var err error = &quantity.RangeError{
		Key: "altitude", Value: 8848, Low: -500, High: 5000,
		Rule: "must lie between -500 m and 5000 m",
	}
	if got, want := err.Error(), "altitude: must lie between -500 m and 5000 m"; got != want {
		t.Errorf("Error() = %q, want %q", got, want)
	}
	var re *quantity.RangeError
	if !errors.As(err, &re) || re.Value != 8848 {
		t.Errorf("errors.As gives %+v, want the value 8848", re)
	}
}
