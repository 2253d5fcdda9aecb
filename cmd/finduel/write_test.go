package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"finduel/sweep/study"
)

// Ctrl-C while files are written: exit code 130, no record, and the record of an
// earlier run is gone too, since its files are no longer all there.
func TestInterruptWhileWriting(t *testing.T) {
	s, err := study.Load("../../configs/booth.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var stderr bytes.Buffer
	rep, err := compute(context.Background(), &stderr, s, 0, defaultSeed)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if _, err := writeAll(context.Background(), &stderr, dir, rep); err != nil {
		t.Fatal(err)
	}
	before, err := os.ReadFile(filepath.Join(dir, "points.csv"))
	if err != nil {
		t.Fatal(err)
	}

	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err = writeAll(ctx, &stderr, dir, rep)
	var f *failure
	if !errors.As(err, &f) || f.code != exitInterrupted {
		t.Errorf("got %v", err)
	}
	if _, err := os.Stat(filepath.Join(dir, "run.json")); err == nil {
		t.Error("there is a record of a run that was interrupted")
	}
	if after, err := os.ReadFile(filepath.Join(dir, "points.csv")); err != nil || !bytes.Equal(before, after) {
		t.Errorf("the whole file of the earlier run is damaged (%v)", err)
	}
	parts, _ := filepath.Glob(filepath.Join(dir, ".*.part"))
	if len(parts) > 0 {
		t.Errorf("left behind: %v", parts)
	}
}
