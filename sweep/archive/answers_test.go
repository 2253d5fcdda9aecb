package archive

import (
	"context"
	"errors"
	"os"
	"reflect"
	"strings"
	"testing"

	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
)

// Answers that are kept are those that are held in memory, all of them and one by one,
// whatever the number of workers; nothing of them is left behind.
func TestAnswersAreKeptAsTheyAre(t *testing.T) {
	p := planOf(t, 50*(2*answersInBlock+7))
	density := p.Study.Axes[0].Input
	p.Study.Exclusions = append(p.Study.Exclusions, study.Exclusion{{Input: density, Above: 850, Below: -1}})
	want, err := breakeven.All(context.Background(), p, sweep.Options{})
	if err != nil {
		t.Fatal(err)
	}
	statuses := map[breakeven.Status]int{}
	for i := range want {
		statuses[want[i].Status]++
	}
	if len(statuses) < 2 {
		t.Fatalf("all answers are alike: %v", statuses)
	}
	for _, workers := range []int{1, 3} {
		folder := t.TempDir()
		kept, err := KeepAnswers(context.Background(), folder, p, sweep.Options{Workers: workers})
		if err != nil {
			t.Fatal(err)
		}
		var got breakeven.List
		if err := kept.Each(func(a *breakeven.Answer) bool {
			got = append(got, *a)
			return true
		}); err != nil {
			t.Fatal(err)
		}
		if kept.Len() != len(want) || !reflect.DeepEqual(got, want) {
			t.Errorf("%d workers: %d of %d answers come back, or they differ", workers, len(got), len(want))
		}
		seen := 0
		if err := kept.Each(func(*breakeven.Answer) bool { seen++; return seen < 3 }); err != nil || seen != 3 {
			t.Errorf("whoever has seen 3 saw %d (%v)", seen, err)
		}
		for _, design := range []int{len(want) - 1, 0, answersInBlock, answersInBlock - 1, 5, 5} {
			if a, err := kept.Of(design); err != nil || !reflect.DeepEqual(*a, want[design]) {
				t.Errorf("design %d comes back otherwise (%v)", design, err)
			}
		}
		kept.Close()
		if left, _ := os.ReadDir(folder); len(left) > 0 {
			t.Errorf("left behind: %v", left)
		}
		if _, err := kept.Of(len(want) - 1); err == nil {
			t.Error("an answer that cannot be read is not told")
		}
		if err := kept.Each(func(*breakeven.Answer) bool { return true }); err == nil {
			t.Error("answers that cannot be read are not told")
		}
	}
}

// Answers that cannot be kept, and a run that is stopped, are told and leave nothing
// behind.
func TestAnswersThatCannotBeKept(t *testing.T) {
	p := planOf(t, 50*(2*answersInBlock))
	folder := t.TempDir()
	if _, err := KeepAnswers(context.Background(), folder+"/none", p, sweep.Options{}); err == nil || !strings.Contains(err.Error(), folder+"/none") {
		t.Errorf("a folder that is not there is told as: %v", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := KeepAnswers(ctx, folder, p, sweep.Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("a run that is stopped is told as: %v", err)
	}
	if left, _ := os.ReadDir(folder); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}
