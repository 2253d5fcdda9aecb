package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"finduel/render"
	"finduel/sweep"
	"finduel/sweep/archive"
	"finduel/sweep/study"
)

// defaultSeed is the seed that is recorded unless another is given.
const defaultSeed = 1

// runFlags are what can be said of a run.
type runFlags struct {
	out, shard        string
	workers           int
	seed              uint64
	fresh, csv, quiet bool
}

func runCommand() *cobra.Command {
	var f runFlags
	c := &cobra.Command{
		Use:        "run STUDY",
		SuggestFor: []string{"compute", "calculate", "simulate", "solve", "sweep"},
		Short:      "compute a study: points, break-even answers, charts and workbook",
		Long: `run computes every point of a study, finds the break-even speeds and how sure they
are, prints the answers and writes points/ (Parquet), points.csv, breakeven.csv,
report.xlsx, charts, summary.json and run.json. The same study, seed and version
give the same bytes, whatever the number of workers. Exit code 3 says that some
points have no value.

A run that was stopped goes on where it was: the same command computes what is
missing or damaged and nothing else. A folder that holds another run is refused
(exit code 4); --fresh computes it anew. So is one that no run was in and whose files
a run would write over.

--shard K/N computes the K-th of N shares, counted from 1, into a folder of its own;
finduel merge joins them. In a job array of Slurm, Kubernetes (Indexed Job) or AWS
Batch the shard follows from the scheduler's variables, with FINDUEL_SHARDS for how
many there are where the scheduler does not say; the same goes for Nomad and GNU
parallel once FINDUEL_SHARDS is set. --shard none computes everything.`,
		Example: `  finduel run configs/booth.yaml
  finduel run bench.yaml --out /tmp/bench --workers 1
  finduel run bench.yaml --shard 3/8`,
		Args: studyArgument,
		RunE: func(c *cobra.Command, args []string) error {
			if f.workers < 0 {
				return usage(fmt.Sprintf("--workers %d: must be 0 or more", f.workers), "0 takes one worker a processor")
			}
			return runStudy(c.Context(), c.OutOrStdout(), c.ErrOrStderr(), args[0], f)
		},
	}
	c.Flags().StringVar(&f.out, "out", "", "folder to write to (default out/<study name>; of a shard out/<study name>/shard-K-of-N)")
	c.Flags().IntVar(&f.workers, "workers", 0, "chunks of points evaluated at a time (default one a processor)")
	c.Flags().Uint64Var(&f.seed, "seed", defaultSeed, "seed of the draws that say how sure the answers are")
	c.Flags().StringVar(&f.shard, "shard", "", "compute one share of the points, e.g. 3/8; none: everything")
	c.Flags().BoolVar(&f.fresh, "fresh", false, "remove the points that are in the folder and compute all of them")
	csvFlag(c, &f.csv)
	quietFlag(c, &f.quiet)
	return c
}

func csvFlag(c *cobra.Command, csv *bool) {
	c.Flags().BoolVar(csv, "csv", false, "write points.csv also if it has more than a million rows")
}

func quietFlag(c *cobra.Command, quiet *bool) {
	c.Flags().BoolVar(quiet, "quiet", false, "say nothing on stderr but errors")
}

func runStudy(ctx context.Context, stdout, stderr io.Writer, path string, f runFlags) error {
	shard, err := shardOf(f.shard, os.Getenv)
	if err != nil {
		return err
	}
	s, err := load(path)
	if err != nil {
		return err
	}
	if f.out == "" {
		f.out = filepath.Join("out", s.Name)
		if !shard.Whole() {
			f.out = filepath.Join(f.out, fmt.Sprintf("shard-%d-of-%d", shard.Number, shard.Of))
		}
	}
	store, err := compute(ctx, stderr, s, shard, f)
	if err != nil {
		return err
	}
	if !shard.Whole() {
		record := recordOf(s, f.seed, shard, store, []string{sourceName(s), archive.RecordFile})
		if err := archive.WriteFile(filepath.Join(f.out, archive.RecordFile), func(w io.Writer) error { return archive.WriteRecord(w, record) }); err != nil {
			return ofDisk(err, goesOn(f.out))
		}
		rows, failed := store.RowsOf(shard)
		fmt.Fprintf(stdout, "shard %s of %s: %s in %s, %s of them without a value\n", shard, s.Name, render.Counted(rows, "point"), f.out, render.Whole(failed))
		if chunks := store.Plan().Chunks(); store.ChunksOf(shard) == 0 {
			fmt.Fprintf(stdout, "This share is empty: the points of the study are %s, which shards have one by one from the first on. merge takes it all the same; %s would do.\n",
				render.Counted(chunks, "chunk"), render.Counted(chunks, "shard"))
		}
		return nil
	}
	return finish(ctx, stdout, stderr, f.out, s, store, finishing{seed: f.seed, workers: f.workers, csv: f.csv, quiet: f.quiet})
}

// otherStudy is what a folder may hold the run of.
const otherStudy = "another study, or of this one before it was changed,"

// compute makes sure that the chunks of a shard are in the folder: those that are
// there and whole are used again, all others are computed.
func compute(ctx context.Context, stderr io.Writer, s *study.Study, shard archive.Shard, f runFlags) (*archive.Store, error) {
	if err := folder(f.out); err != nil {
		return nil, err
	}
	if err := ownFiles(f.out, s); err != nil {
		return nil, err
	}
	note := notes(stderr, f.quiet)
	disk := archive.Disk{}
	if f.fresh {
		record, none := archive.ReadRecord(disk, f.out)
		if err := archive.Clear(disk, f.out, outputs); err != nil {
			return nil, err
		}
		if none == nil && record.Hash != s.Hash {
			note("what was computed of " + otherStudy + " is removed from " + f.out)
		}
	}
	plan := sweep.Lay(s)
	id := archive.IdentityOf(plan, f.seed, version)
	store, err := archive.Open(ctx, disk, f.out, plan, id, sweep.Physics)
	if err != nil {
		return nil, ofDisk(refused(err, "--fresh computes this study in place of what is there; --out names another folder; another name behind study: has a folder of its own"), whereRead)
	}
	if err := tidy(note, f.out); err != nil {
		return nil, err
	}
	if err := begin(f.out, s, id); err != nil {
		return nil, ofDisk(err, goesOn(f.out))
	}
	spans := store.Missing(shard)
	toDo := pointsOf(spans)
	found := store.Found
	total := store.PointsOf(shard)
	bar := watch(stderr, f.quiet, "points", total, total-toDo)
	err = sweep.Run(ctx, plan, sweep.Options{Workers: f.workers, Done: bar.done, Failed: bar.failed}, spans, store.Keep)
	bar.stop()
	left := pointsOf(store.Missing(shard))
	_, failed := store.RowsOf(shard)
	tally := fmt.Sprintf("%s points computed, %s reused, %s of these failed, %s missing",
		grouped(int64(toDo-left)), grouped(int64(total-toDo)), grouped(int64(failed)), grouped(int64(left)))
	for _, text := range found.Damaged {
		note(text + "; computed again")
	}
	var refusal *archive.Refusal
	switch {
	case errors.As(err, &refusal):
		return nil, otherRun(store, err)
	case errors.Is(err, context.Canceled):
		return nil, &failure{exitInterrupted, "interrupted: " + tally, "what is computed is kept in " + f.out + "; the same command goes on from there"}
	case err != nil:
		return nil, &failure{exitUnfinished, err.Error() + " (" + tally + ")", goesOn(f.out)}
	}
	if err := store.Recheck(); err != nil {
		return nil, otherRun(store, err)
	}
	if found.Chunks > 0 || len(found.Damaged) > 0 {
		note(tally)
	}
	return store, nil
}

// mostNamed is how many files of somebody's own are named.
const mostNamed = 3

// ownFiles refuses a folder with files that a run would write over and no run left there.
// A text of this very study, which may be the study itself, is none.
func ownFiles(dir string, s *study.Study) error {
	list, err := archive.Strangers(archive.Disk{}, dir, outputs)
	if err != nil {
		return &failure{exitUnfinished, err.Error(), "name another folder with --out"}
	}
	list = slices.DeleteFunc(list, func(path string) bool {
		if path != filepath.Join(dir, sourceName(s)) {
			return false
		}
		text, err := os.ReadFile(path)
		return err == nil && bytes.Equal(text, s.Source)
	})
	if len(list) == 0 {
		return nil
	}
	named := strings.Join(list[:min(len(list), mostNamed)], ", ")
	if n := len(list) - mostNamed; n > 0 {
		named += fmt.Sprintf(" and %d more", n)
	}
	return &failure{exitRefused, "no run was in " + dir + ", and one would write over what is there: " + named,
		"nothing was written; name another folder with --out, or move the files away"}
}

// begin removes the record of an earlier run, whose files are about to change, marks the
// folder as that of this one, and puts a copy of the study beside the points.
func begin(dir string, s *study.Study, id archive.Identity) error {
	if err := os.Remove(filepath.Join(dir, archive.RecordFile)); err != nil && !errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("cannot replace the record of the earlier run: %w", err)
	}
	if err := archive.Begin(archive.Disk{}, dir, id); err != nil {
		return err
	}
	return archive.WriteFile(filepath.Join(dir, sourceName(s)), func(w io.Writer) error {
		_, err := w.Write(s.Source)
		return err
	})
}

// sourceName returns the name of the copy of a study.
func sourceName(s *study.Study) string { return "study." + s.Format }

func pointsOf(spans []sweep.Span) int {
	n := 0
	for _, span := range spans {
		n += span.To - span.From
	}
	return n
}

// refused gives a refusal of the archive its exit code and a hint.
func refused(err error, hint string) error {
	var r *archive.Refusal
	if !errors.As(err, &r) {
		return err
	}
	return &failure{exitRefused, strings.Join(r.Causes, "\n"), hint}
}

// folder makes sure that dir is a folder.
func folder(dir string) error {
	if info, err := os.Stat(dir); err == nil && !info.IsDir() {
		return &failure{exitUnfinished, dir + " is a file, not a folder to write to", "name another folder with --out"}
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return &failure{exitUnfinished, "cannot make the folder to write to: " + err.Error(), "name another folder with --out"}
	}
	return nil
}
