package doubt_test

import (
	"slices"
	"strings"
	"testing"

	"finduel/sweep/doubt"
	"finduel/testdata/reports"
)

// What to do about a source is a sentence about a thing, with its owner where it has one.
func TestActions(t *testing.T) {
	said := doubt.ActionsOf(reports.TwoSetups(), "small")
	for _, text := range said {
		if strings.Contains(text, "correction") || strings.Contains(text, "%") || strings.Contains(text, "  ") {
			t.Errorf("nobody can do %q", text)
		}
	}
	for _, want := range []string{
		"measure the heat load", "read a barometer", "measure the coolant film", "measure the air's viscosity", "count the fins of small's core over 100 mm",
		"measure the plate resistance",
	} {
		if !slices.Contains(said, want) {
			t.Errorf("%q is not among %q", want, said)
		}
	}
	same := reports.TwoSetups()
	same.Setups[0].Core, same.Setups[1].Core = "cube", "cube"
	if said := doubt.ActionsOf(same, "small"); !slices.Contains(said, "count the fins of the core over 100 mm") {
		t.Errorf("of the core that both have: %q", said)
	}
}
