package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/plot/cmpimg"
)

// TestDemo runs the demo study and compares its charts with the ones that were
// looked at; one of them stands in the README. A difference is a change, not a
// proof of anything: correctness is the model's tests.
func TestDemo(t *testing.T) {
	const golden, configs = "../../testdata/golden/booth", "../../configs/booth.yaml"
	dir := t.TempDir()
	var stdout, stderr bytes.Buffer
	code := run(context.Background(), []string{"run", configs, "--out", dir}, &stdout, &stderr)
	for _, word := range []string{"error: ", "hint: ", "note: "} { // a slow machine may have something to say of progress
		if code != exitDone || strings.Contains(stderr.String(), "finduel: "+word) {
			t.Fatalf("exit code %d: %s", code, stderr.String())
		}
	}

	seen := map[string]int{}
	f, err := os.Open(filepath.Join(dir, "breakeven.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		for _, cell := range row {
			seen[cell]++
		}
	}
	for _, status := range []string{"none", "one", "band"} {
		if seen[status] == 0 {
			t.Errorf("the demo shows no answer %q", status)
		}
	}

	pictures, err := filepath.Glob(filepath.Join(dir, "charts", "*.png"))
	if err != nil || len(pictures) != 7 {
		t.Fatalf("%d charts, want 7 (%v)", len(pictures), err)
	}
	for _, path := range pictures {
		got, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		kept := filepath.Join(golden, filepath.Base(path))
		if *update {
			if err := os.MkdirAll(golden, 0o777); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(kept, got, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(kept)
		if err != nil {
			t.Fatal(err)
		}
		if same, err := cmpimg.EqualApprox("png", got, want, 0.1); err != nil || !same {
			beside := kept[:len(kept)-len(".png")] + ".got.png"
			if err := os.WriteFile(beside, got, 0o644); err != nil {
				t.Error(err)
			}
			t.Errorf("%s has changed (%v); see %s", kept, err, beside)
		}
	}
}
