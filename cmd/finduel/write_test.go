package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"finduel/render"
	"finduel/sweep"
	"finduel/sweep/archive"
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
	dir := t.TempDir()
	store, err := compute(context.Background(), &stderr, s, archive.Shard{}, runFlags{out: dir, seed: defaultSeed})
	if err != nil {
		t.Fatal(err)
	}
	f := finishing{seed: defaultSeed}
	rep, answers, err := reportOf(context.Background(), &stderr, dir, s, store, f)
	if err != nil {
		t.Fatal(err)
	}
	defer answers.Close()
	files, err := writeAll(context.Background(), &stderr, dir, rep, store, f)
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files { // what is not named there, --fresh would leave
		if file != archive.RecordFile && !slices.ContainsFunc(outputs, func(o string) bool { ok, _ := path.Match(o, file); return ok }) {
			t.Errorf("%s is none of the outputs", file)
		}
	}
	before, err := os.ReadFile(filepath.Join(dir, "points.csv"))
	if err != nil {
		t.Fatal(err)
	}

	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err = writeAll(ctx, &stderr, dir, rep, store, f)
	var stopped *failure
	if !errors.As(err, &stopped) || stopped.code != exitInterrupted {
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

// counted are rows of which nothing is known but how many they are.
type counted struct {
	sweep.Rows
	n int
}

func (c counted) Len() int { return c.n }

// points.csv is written of a million rows, and of more if it is asked for.
func TestPointsCSVUpToAMillion(t *testing.T) {
	for _, c := range []struct {
		rows        int
		asked, want bool
	}{{0, false, true}, {1_000_000, false, true}, {1_000_001, false, false}, {1_000_001, true, true}} {
		rep := &render.Report{Results: &sweep.Results{Kept: counted{n: c.rows}}}
		if got := hasCSV(rep, finishing{csv: c.asked}); got != c.want {
			t.Errorf("of %d rows, asked for is %v: %v", c.rows, c.asked, got)
		}
	}
}

// Another study whose points come into the folder while files are written is named as
// the cause, exit code 4; there is no record.
func TestAnotherRunWhileWriting(t *testing.T) {
	dir := t.TempDir()
	mine, err := study.Load("../../configs/booth.yaml")
	if err != nil {
		t.Fatal(err)
	}
	theirs, err := study.Load("../../configs/booth.yaml")
	if err != nil {
		t.Fatal(err)
	}
	theirs.Hash = strings.Repeat("ab", 32)
	ctx, plan := context.Background(), sweep.Lay(theirs)
	other, err := archive.Open(ctx, archive.Disk{}, dir, plan, archive.IdentityOf(plan, defaultSeed, version), nil)
	if err != nil {
		t.Fatal(err)
	}
	var stderr bytes.Buffer
	store, err := compute(ctx, &stderr, mine, archive.Shard{}, runFlags{out: dir, seed: defaultSeed})
	if err != nil {
		t.Fatal(err)
	}
	f := finishing{seed: defaultSeed}
	rep, answers, err := reportOf(ctx, &stderr, dir, mine, store, f)
	if err != nil {
		t.Fatal(err)
	}
	defer answers.Close()
	if err := archive.Clear(archive.Disk{}, dir, nil); err != nil { // as with --fresh
		t.Fatal(err)
	}
	if err := sweep.Run(ctx, plan, sweep.Options{}, other.Missing(archive.Shard{}), other.Keep); err != nil {
		t.Fatal(err)
	}
	_, err = writeAll(ctx, &stderr, dir, rep, store, f)
	var refused *failure
	if !errors.As(err, &refused) || refused.code != exitRefused || !strings.Contains(err.Error(), theirs.Hash[:12]) {
		t.Errorf("it is told as: %v", err)
	}
	if _, err := os.Stat(filepath.Join(dir, archive.RecordFile)); err == nil {
		t.Error("there is a record")
	}
}

// A run that begins in the folder while another one computes is found out before it has
// any points, also if it differs in its seed alone.
func TestAnotherRunBegins(t *testing.T) {
	s, err := study.Load("../../configs/booth.yaml")
	if err != nil {
		t.Fatal(err)
	}
	plan := sweep.Lay(s)
	mine, theirs := archive.IdentityOf(plan, 1, version), archive.IdentityOf(plan, 2, version)
	for _, joins := range []archive.Identity{mine, theirs} {
		dir := t.TempDir()
		var stderr bytes.Buffer
		store, err := compute(context.Background(), &stderr, s, archive.Shard{}, runFlags{out: dir, seed: mine.Seed})
		if err != nil {
			t.Fatal(err)
		}
		if err := begin(dir, s, joins); err != nil {
			t.Fatal(err)
		}
		var refusal *archive.Refusal
		switch err := store.Recheck(); {
		case joins == mine:
			if err != nil {
				t.Errorf("a run of the same is refused: %v", err)
			}
		case !errors.As(err, &refusal) || !strings.Contains(err.Error(), "holds another run: with the seed 2; this one has 1"):
			t.Errorf("it is told as: %v", err)
		}
	}
}
