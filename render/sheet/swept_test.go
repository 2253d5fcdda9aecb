package sheet

import (
	"errors"
	"strings"
	"testing"

	"finduel/sweep/study"
	"finduel/testdata/reports"
)

// A point that was written for thousands shows before a run: few values are listed, of
// many the ends, whatever their order, and how many they are.
func TestSwept(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = []study.Axis{
		reports.Axis("fan_speed", 9000, 8000, 7000, 6000, 5000, 4000, 3000),
		reports.Axis("fin_density", 12, 16.5, 20),
		reports.Axis("fans", 1, 2),
	}
	var b strings.Builder
	if err := Swept(&b, s); err != nil {
		t.Fatal(err)
	}
	const want = "axes        fan_speed 3 000 to 9 000 rpm (7); fin_density 12, 16.5, 20 fpi; fans\n            1, 2\n"
	if b.String() != want {
		t.Errorf("got  %q\nwant %q", b.String(), want)
	}
	if err := Swept(full{}, s); !errors.Is(err, errFull) {
		t.Errorf("a full disk: %v", err)
	}
}
