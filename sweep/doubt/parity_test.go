package doubt_test

import (
	"math"
	"slices"
	"testing"

	"finduel/sweep/doubt"
	"finduel/sweep/study"
	"finduel/testdata/reports"
)

// A place of the parity line is a study whose reference turns at that speed: the same
// draws of it, assessed by themselves, must say the same of the break-even speed.
func TestParityIsTheStudyAtAnotherSpeed(t *testing.T) {
	densities := reports.Axis("fin_density", 12, 20)
	p, answers := bench(t, nil, speeds, densities)
	own := assess(t, p, answers, doubt.Options{Seed: 5}).Own
	if len(own.Parity) != 17 { // its own speed, 1 000 rpm, in the place of 975
		t.Fatalf("%d places", len(own.Parity))
	}
	looked := map[string]int{}
	for _, i := range []int{0, 5, 16} {
		at := &own.Parity[i]
		if i > 0 && at.Speed <= own.Parity[i-1].Speed {
			t.Errorf("%v follows %v", at.Speed, own.Parity[i-1].Speed)
		}
		if got := at.Exists + at.FromStart + at.Never + float64(at.NoValue)/float64(at.Draws); math.Abs(got-1) > 1e-9 {
			t.Errorf("at %v the shares add up to %v", at.Speed, got)
		}
		if at.Speed == p.Study.Setups[p.Study.Reference].Rig.Speed {
			continue
		}
		// Drawn as often as a place only if it is not the study's own design.
		q, others := bench(t, func(s *study.Study) {
			s.Setups[s.Reference].Rig.Speed = at.Speed
			s.Setups[s.Challenger].Rig.Core.FinDensity = densities.Values[0]
		}, speeds, densities)
		r, ok := assess(t, q, others, doubt.Options{Seed: 5}).Of(own.Result.Design)
		if !ok || r.Draws != at.Draws {
			t.Fatalf("at %v: assessed %v with %d draws, want %d", at.Speed, ok, r.Draws, at.Draws)
		}
		numbers := [][2]float64{{at.Breakeven.Low, r.Breakeven.Low}, {at.Breakeven.Median, r.Breakeven.Median}, {at.Breakeven.High, r.Breakeven.High}}
		shares := [][2]float64{{at.Exists, r.Exists}, {at.FromStart, r.FromStart}, {at.Never, r.Never}, {float64(at.NoValue), float64(r.NoBreakeven)}}
		if r.HasUpper { // looked for only where the nominal answer has one
			numbers = append(numbers, [2]float64{at.Upper.Low, r.Upper.Low}, [2]float64{at.Upper.Median, r.Upper.Median}, [2]float64{at.Upper.High, r.Upper.High})
			shares = append(shares, [2]float64{at.Again, r.Again})
			looked["upper"]++
		}
		for k, pair := range numbers {
			switch got, want := pair[0], pair[1]; {
			case math.IsInf(want, 0) && got == want:
				looked["open"]++
			case !(math.Abs(got/want-1) < 0.01): // a draw more or less beyond the highest speed
				t.Errorf("at %v: number %d is %v, the study itself has %v", at.Speed, k, got, want)
			default:
				looked["number"]++
			}
		}
		for k, pair := range shares {
			if math.Abs(pair[0]-pair[1]) > 0.0051 {
				t.Errorf("at %v: share %d is %v, the study itself has %v", at.Speed, k, pair[0], pair[1])
			}
		}
	}
	if looked["open"] < 2 || looked["number"] < 5 || looked["upper"] < 1 {
		t.Errorf("looked at %v only", looked)
	}
}

// The places rise, from a fifth of the top speed to the top, with the own speed among them
// and no other near it but the ends.
func TestParityPlaces(t *testing.T) {
	for own, want := range map[float64]int{20: 17, 4.8: 18, 5.1: 18, 5: 17, 24.9: 18, 25: 17, 3: 18, 26: 18, 5 + 20./16: 17, 7: 17} {
		list := doubt.ParityPlaces(25, own)
		if len(list) != want || !slices.IsSorted(list) || !slices.Contains(list, own) || !slices.Contains(list, 5) || !slices.Contains(list, 25) {
			t.Errorf("around %v there are %d, want %d: %v", own, len(list), want, list)
		}
		for i, v := range list {
			if v != own && v != 5 && v != 25 && math.Abs(v-own) < 20./32-1e-9 || i > 0 && v == list[i-1] {
				t.Errorf("around %v: %v", own, list)
			}
		}
	}
}

// At the speed of the study itself the parity line has what was drawn more often there.
func TestParityAtTheOwnSpeed(t *testing.T) {
	p, answers := bench(t, nil, speeds)
	own := assess(t, p, answers, doubt.Options{}).Own
	found := false
	for _, at := range own.Parity {
		if at.Speed == p.Study.Setups[p.Study.Reference].Rig.Speed {
			r := &own.Result
			found = at.Draws == r.Draws && at.Breakeven == r.Breakeven && at.Exists == r.Exists && at.Upper == r.Upper && at.Again == r.Again
		}
	}
	if !found {
		t.Errorf("none of %d places is the study's own", len(own.Parity))
	}
}
