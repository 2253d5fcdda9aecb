package sheet

import (
	"errors"
	"strings"
	"testing"

	"finduel/sweep"
	"finduel/sweep/study"
	"finduel/testdata/reports"
)

// What a run would draw is said before it runs: how much, and every source once, with its
// limit and under its owner.
func TestDoubted(t *testing.T) {
	s := reports.TwoSetups()
	s.Axes = []study.Axis{reports.Axis("fin_density", 12, 16, 20)}
	said := func(designs int) string {
		var b strings.Builder
		if err := Doubted(&b, sweep.Lay(s), designs); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(b.String()) {
			if n := len([]rune(strings.TrimRight(line, "\n"))); n > 80 {
				t.Errorf("%d characters: %s", n, line)
			}
		}
		return strings.Join(strings.Fields(b.String()), " ")
	}
	all := said(3)
	challenger, reference, _ := strings.Cut(all[strings.Index(all, s.Setups[s.Challenger].Name+": "):], " "+s.Setups[s.Reference].Name+": ")
	for _, want := range []string{
		"doubt up to 2 000 draws of each of 3 designs, 20 000 of the study's own", "in doubt both alike: ", "heat load ±2 %", "air's density ±2 %",
		"beyond the correlation's range, more the slower the air",
	} {
		if strings.Count(all, want) == 0 || strings.Contains(challenger+reference, want) {
			t.Errorf("%q is not said of both in %q", want, all)
		}
	}
	for _, want := range []string{"fin depth ±3 %", "fin density ±5 %"} {
		if strings.Count(challenger, want) != 1 || strings.Count(reference, want) != 1 {
			t.Errorf("%q is not said once of each in %q", want, all)
		}
	}
	s.Doubt.Designs, s.Doubt.Draws = study.OwnDesign, 5000
	if own := said(3); !strings.HasPrefix(own, "doubt up to 50 000 draws of the study's own design, ") {
		t.Errorf("of the own design alone: %q", own)
	}
	if err := Doubted(full{}, sweep.Lay(s), 3); !errors.Is(err, errFull) {
		t.Errorf("a full disk: %v", err)
	}
}

var errFull = errors.New("full")

// full is a disk without room.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }
