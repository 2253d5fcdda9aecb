package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"finduel/render"
	"finduel/render/chart"
	"finduel/render/sheet"
	"finduel/render/workbook"
	"finduel/sweep"
	"finduel/sweep/archive"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
	"finduel/sweep/study"
)

// terminalWidth is how wide the text on stdout may be.
const terminalWidth = 80

// defaultSeed is the seed that is recorded unless another is given.
const defaultSeed = 1

func runCommand() *cobra.Command {
	var out string
	var workers int
	var seed uint64
	c := &cobra.Command{
		Use:   "run STUDY",
		Short: "compute a study: points, break-even answers, charts and workbook",
		Long: `run computes every point of a study, finds the break-even speeds and how sure they are, prints the
answers and writes points.csv, breakeven.csv, report.xlsx, charts, summary.json
and run.json. The same study, seed and version give the same bytes, whatever the
number of workers. Exit code 3 says that some points have no value.`,
		Example: `  finduel run configs/booth.yaml
  finduel run bench.yaml --out /tmp/bench --workers 1`,
		Args: studyArgument,
		RunE: func(c *cobra.Command, args []string) error {
			if workers < 0 {
				return usage(fmt.Sprintf("--workers %d: must be 0 or more", workers), "0 takes one worker a processor")
			}
			return runStudy(c.Context(), c.OutOrStdout(), c.ErrOrStderr(), args[0], out, workers, seed)
		},
	}
	c.Flags().StringVar(&out, "out", "", "folder to write to (default out/<study name>)")
	c.Flags().IntVar(&workers, "workers", 0, "points evaluated at a time (default one a processor)")
	c.Flags().Uint64Var(&seed, "seed", defaultSeed, "seed of the draws that say how sure the answers are")
	return c
}

func runStudy(ctx context.Context, stdout, stderr io.Writer, path, out string, workers int, seed uint64) error {
	s, err := study.Load(path)
	if err != nil {
		return err
	}
	if out == "" {
		out = filepath.Join("out", s.Name)
	}
	rep, err := compute(ctx, stderr, s, workers, seed)
	if err != nil {
		return err
	}
	files, err := writeAll(ctx, stderr, out, rep)
	if err != nil {
		return err
	}
	if err := sheet.Terminal(stdout, rep, terminalWidth); err != nil {
		return fmt.Errorf("cannot print the answers: %w", err)
	}
	fmt.Fprintf(stdout, "\n%d files in %s: report.xlsx and charts/ to look at, points.csv to compute with\n", len(files), out)
	if n := rep.Results.Failed(); n > 0 {
		return &failure{exitPartly, fmt.Sprintf("%d of %d points without a value", n, len(rep.Results.Rows)), "points.csv names the reason of each, in its last column"}
	}
	return nil
}

// compute runs a study: its points, then the answers.
func compute(ctx context.Context, stderr io.Writer, s *study.Study, workers int, seed uint64) (*render.Report, error) {
	plan := sweep.Lay(s)
	bar := watch(stderr, plan.Points())
	options := sweep.Options{Workers: workers, Done: bar.done}
	results, err := sweep.Run(ctx, plan, options)
	bar.stop()
	if errors.Is(err, context.Canceled) {
		return nil, &failure{exitInterrupted, fmt.Sprintf("interrupted: %d of %d points were complete; nothing was written", len(results.Rows), plan.Points()), ""}
	}
	if err != nil {
		return nil, err
	}
	answers, err := breakeven.All(ctx, plan, options)
	var details []breakeven.Detail
	if err == nil {
		details, err = breakeven.Details(ctx, plan, answers, options)
	}
	if errors.Is(err, context.Canceled) {
		return nil, &failure{exitInterrupted, fmt.Sprintf("interrupted: all %d points were complete, the break-even answers were not; nothing was written", plan.Points()), ""}
	}
	if err != nil {
		return nil, err
	}
	options.Done = nil
	sure, err := doubt.Assess(ctx, plan, answers, doubt.Options{Options: options, Seed: seed})
	if errors.Is(err, context.Canceled) {
		return nil, &failure{exitInterrupted, fmt.Sprintf("interrupted: all %d points and the answers were complete, their doubt was not; nothing was written", plan.Points()), ""}
	}
	if err != nil {
		return nil, err
	}
	return &render.Report{Study: s, Results: results, Answers: answers, Details: details, Doubt: sure, Seed: seed, Version: version}, nil
}

// writeAll writes every file of a run into dir and returns their names. The
// record, run.json, comes last: a folder without it is not complete. Files that
// an earlier run left and this one does not write are removed, if that run's
// record names them. If ctx ends, the files that are complete stay.
func writeAll(ctx context.Context, stderr io.Writer, dir string, rep *render.Report) ([]string, error) {
	set, err := chart.Draw(rep)
	if err != nil {
		return nil, fmt.Errorf("cannot draw the charts: %w", err)
	}
	for _, skip := range set.Skipped {
		say(stderr, "note", fmt.Sprintf("no chart %s: %s", skip.Name, skip.Why))
	}
	if err := folder(dir); err != nil {
		return nil, err
	}
	record := filepath.Join(dir, "run.json")
	earlier := filesOf(record)
	if err := os.Remove(record); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("cannot replace the record of the earlier run: %w", err)
	}

	var files []string
	write := func(name string, f func(io.Writer) error) {
		if err == nil {
			err = archive.WriteFile(filepath.Join(dir, filepath.FromSlash(name)), func(w io.Writer) error { return f(stoppable{ctx, w}) })
			if err == nil {
				files = append(files, name)
			}
		}
	}
	write("points.csv", func(w io.Writer) error { return archive.WritePoints(w, rep.Results) })
	write("breakeven.csv", func(w io.Writer) error { return sheet.Breakeven(w, rep) })
	write("summary.json", func(w io.Writer) error { return sheet.Summary(w, rep) })
	write("report.xlsx", func(w io.Writer) error { return workbook.Write(w, rep) })
	for _, p := range set.Pictures {
		write("charts/"+p.Name, func(w io.Writer) error {
			_, err := w.Write(p.PNG)
			return err
		})
	}
	write("run.json", func(w io.Writer) error { return archive.WriteRecord(w, recordOf(rep, append(files, "run.json"))) })
	if errors.Is(err, context.Canceled) {
		return nil, &failure{exitInterrupted, fmt.Sprintf("interrupted while writing: %d files in %s are complete, the rest is not there", len(files), dir), "run again to get them all; a folder without run.json is not complete"}
	}
	if err != nil {
		return nil, err
	}
	return files, removeStale(dir, earlier, files)
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

// stoppable is a writer that fails once ctx has ended.
type stoppable struct {
	ctx context.Context
	w   io.Writer
}

func (s stoppable) Write(p []byte) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	return s.w.Write(p)
}

func recordOf(rep *render.Report, files []string) archive.Record {
	rows, failed := len(rep.Results.Rows), rep.Results.Failed()
	return archive.Record{
		Program: "finduel", Version: rep.Version, Study: rep.Study.Name, Hash: rep.Study.Hash, Seed: rep.Seed,
		Points: rep.Results.Plan.Points(), Excluded: rep.Results.Plan.Points() - rows,
		Computed: rows - failed, Failed: failed, Files: files,
	}
}

// filesOf returns the files that a record names; none if there is no record or it
// cannot be read.
func filesOf(path string) []string {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil
	}
	var r archive.Record
	if json.Unmarshal(data, &r) != nil {
		return nil
	}
	return r.Files
}

func removeStale(dir string, earlier, files []string) error {
	written := map[string]bool{}
	for _, f := range files {
		written[f] = true
	}
	for _, f := range earlier {
		if written[f] || !filepath.IsLocal(filepath.FromSlash(f)) {
			continue
		}
		if err := os.Remove(filepath.Join(dir, filepath.FromSlash(f))); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("cannot remove a file of the earlier run: %w", err)
		}
	}
	return nil
}
