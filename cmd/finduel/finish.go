package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

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

// rowsInCSV is how many rows points.csv has at most unless more are asked for.
const rowsInCSV = 1_000_000

// outputs are the names of all files that are made of points, and of the copy of the
// study, in the folder of a run, as path.Match reads them.
var outputs = func() []string {
	list := []string{"study.yaml", "study.toml", "study.json", "points.csv", "breakeven.csv", "summary.json", "report.xlsx"}
	for _, name := range chart.Names {
		list = append(list, "charts/"+name)
	}
	return list
}()

// afterwards is how long after it was last written a half-written file is taken to be
// left by a run that was stopped.
const afterwards = 24 * time.Hour

// tidy removes half-written files that runs left in a folder long ago, and says which
// others there are.
func tidy(note func(string), dir string) error {
	removed, left, err := archive.Tidy(archive.Disk{}, dir, outputs, time.Now().Add(-afterwards))
	if err != nil {
		return err
	}
	files := func(n int) string {
		if n == 1 {
			return "1 half-written file"
		}
		return fmt.Sprintf("%d half-written files", n)
	}
	if n := len(removed); n > 0 {
		note(fmt.Sprintf("removed %s that a run left more than a day ago, e.g. %s", files(n), removed[0]))
	}
	if n := len(left); n > 0 {
		are := "are"
		if n == 1 {
			are = "is"
		}
		note(fmt.Sprintf("%s, which an earlier run left or another run is writing, %s left alone, e.g. %s; --fresh removes them, as does a run after a day", files(n), are, left[0]))
	}
	return nil
}

// notes returns how to say a note, which is not said if quiet is set.
func notes(stderr io.Writer, quiet bool) func(string) {
	return func(text string) {
		if !quiet {
			say(stderr, "note", text)
		}
	}
}

// finishing is what run, merge and draw have in common once the points are there.
type finishing struct {
	seed       uint64
	workers    int
	csv, quiet bool
}

// finish makes of the points in a folder all that is made of points: the answers on
// stdout, tables, charts and workbook in the folder.
func finish(ctx context.Context, stdout, stderr io.Writer, dir string, s *study.Study, store *archive.Store, f finishing) error {
	rep, answers, err := reportOf(ctx, stderr, dir, s, store, f)
	if err != nil {
		return ofDisk(err, goesOn(dir))
	}
	defer answers.Close()
	files, err := writeAll(ctx, stderr, dir, rep, store, f)
	if err != nil {
		return ofDisk(err, goesOn(dir))
	}
	if err := sheet.Terminal(stdout, rep, terminalWidth); err != nil {
		return fmt.Errorf("cannot print the answers: %w", err)
	}
	if err := rep.Err(); err != nil {
		return err
	}
	compute, reasons := "points.csv", "points.csv names the reason of each, in its last column"
	if !hasCSV(rep, f) {
		compute, reasons = "points/", "the column reason of the tables in points/ names the reason of each"
	}
	look := "report.xlsx and charts/"
	if !slices.ContainsFunc(files, func(name string) bool { return strings.HasPrefix(name, "charts/") }) {
		look = "report.xlsx"
	}
	fmt.Fprintf(stdout, "\n%d files in %s: %s to look at, %s to compute with\n", len(files), dir, look, compute)
	if n := rep.Results.Failed(); n > 0 {
		have := "have"
		if n == 1 {
			have = "has"
		}
		notes(stderr, f.quiet)(fmt.Sprintf("the run is complete; %s of %s %s no value: %s", render.Whole(n), render.Counted(rep.Results.Len(), "point"), have, reasons))
		return &failure{code: exitPartly}
	}
	return nil
}

// goesOn is what to do where a disk was full, or could not be read or written, once there
// are points.
func goesOn(dir string) string {
	return "what is computed is kept in " + dir + "; once there is room, and the folder can be written, the same command goes on from there"
}

// whereRead is what to do where what is in a folder could not be read.
const whereRead = "nothing was changed; once it can be read, the same command goes on from there"

// ofDisk gives an error of a disk its hint; any other stays as it is.
func ofDisk(err error, hint string) error {
	var path *fs.PathError
	var link *os.LinkError // of a file that could not be renamed
	if !errors.As(err, &path) && !errors.As(err, &link) {
		return err
	}
	return &failure{exitUnfinished, err.Error(), hint}
}

// reportOf finds the answers and puts them beside the points. The answers are in the
// folder until they are closed.
func reportOf(ctx context.Context, stderr io.Writer, dir string, s *study.Study, store *archive.Store, f finishing) (*render.Report, *archive.Answers, error) {
	plan := store.Plan()
	bar := watch(stderr, f.quiet, "designs", plan.Designs(), 0)
	answers, err := archive.KeepAnswers(ctx, dir, plan, sweep.Options{Workers: f.workers, Done: bar.done})
	var details []breakeven.Detail
	if err == nil {
		details, err = breakeven.Details(ctx, plan, answers, sweep.Options{Workers: f.workers})
	}
	bar.stop()
	var sure *doubt.Assessment
	if err == nil {
		drawn := 1
		if doubt.ExtentOf(plan).All {
			drawn = plan.Designs()
		}
		bar = watch(stderr, f.quiet, "designs assessed", drawn, 0)
		sure, err = doubt.Assess(ctx, plan, answers, doubt.Options{Options: sweep.Options{Workers: f.workers, Done: bar.done}, Seed: f.seed})
		bar.stop()
	}
	if err != nil && answers != nil {
		answers.Close()
	}
	if errors.Is(err, context.Canceled) {
		return nil, nil, &failure{exitInterrupted, fmt.Sprintf("interrupted: all %s points are there, the break-even answers, or how sure they are, are not", grouped(int64(plan.Points()))), "the same command goes on from there"}
	}
	if err != nil {
		return nil, nil, err
	}
	results := &sweep.Results{Plan: plan, Kept: store, ReferenceCurve: sweep.ReferenceCurve(plan, sweep.Physics)}
	return &render.Report{Study: s, Results: results, Kept: answers, Details: details, Doubt: sure, Seed: f.seed, Version: version}, answers, nil
}

// hasCSV reports whether points.csv is written.
func hasCSV(rep *render.Report, f finishing) bool { return f.csv || rep.Results.Len() <= rowsInCSV }

// writeAll writes every file that is made of the points into dir and returns the names
// of all files of the run. The record, run.json, comes last: a folder without it is not
// complete. If ctx ends, the files that are complete stay.
func writeAll(ctx context.Context, stderr io.Writer, dir string, rep *render.Report, store *archive.Store, f finishing) ([]string, error) {
	note := notes(stderr, f.quiet)
	set, err := chart.Draw(rep)
	if err != nil {
		return nil, fmt.Errorf("cannot draw the charts: %w", err)
	}
	for _, skip := range set.Skipped {
		note(fmt.Sprintf("no chart %s: %s", skip.Name, skip.Why))
	}
	if err := os.Remove(filepath.Join(dir, archive.RecordFile)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("cannot replace the record of the earlier run: %w", err)
	}

	files := []string{sourceName(rep.Study)}
	write := func(name string, f func(io.Writer) error) {
		if err == nil {
			err = archive.WriteFile(filepath.Join(dir, filepath.FromSlash(name)), func(w io.Writer) error { return f(stoppable{ctx, w}) })
			if err == nil {
				err = rep.Err()
			}
			if err == nil {
				files = append(files, name)
			}
		}
	}
	if hasCSV(rep, f) {
		write("points.csv", func(w io.Writer) error { return archive.WritePoints(w, rep.Results, sheet.PointBands(rep)...) })
	} else {
		note(fmt.Sprintf("no points.csv: %s rows are more than a million; points/ has them, and --csv writes it all the same", grouped(int64(rep.Results.Len()))))
	}
	write("breakeven.csv", func(w io.Writer) error { return sheet.Breakeven(w, rep) })
	write("summary.json", func(w io.Writer) error { return sheet.Summary(w, rep) })
	write("report.xlsx", func(w io.Writer) error { return workbook.Write(w, rep) })
	for _, p := range set.Pictures {
		write("charts/"+p.Name, func(w io.Writer) error {
			_, err := w.Write(p.PNG)
			return err
		})
	}
	if err == nil {
		err = store.Recheck()
	}
	if err == nil {
		files = append(files, archive.RecordFile)
		record := recordOf(rep.Study, rep.Seed, archive.Shard{}, store, files)
		err = archive.WriteFile(filepath.Join(dir, archive.RecordFile), func(w io.Writer) error { return archive.WriteRecord(stoppable{ctx, w}, record) })
	}
	if errors.Is(err, context.Canceled) {
		return nil, &failure{exitInterrupted, fmt.Sprintf("interrupted while writing: all points and %d files in %s are complete, the rest is not there", len(files), dir), "the same command goes on from there; a folder without run.json is not complete"}
	}
	return files, otherRun(store, err)
}

// otherRun returns an error as it is, unless another run has written into the folder
// meanwhile: then that is the cause.
func otherRun(store *archive.Store, err error) error {
	if err == nil {
		return nil
	}
	if other := store.Recheck(); other != nil {
		err = other
	}
	return refused(err, "two runs wrote into one folder: --fresh computes this study in place of what is there; --out names another folder")
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

// recordOf returns the record of a run, or of a shard of it, that wrote files.
func recordOf(s *study.Study, seed uint64, shard archive.Shard, store *archive.Store, files []string) archive.Record {
	rows, failed := store.RowsOf(shard)
	return archive.Record{
		Version: version, Study: s.Name, Hash: s.Hash, Seed: seed, Shard: shard.String(),
		Points: store.Plan().Points(), Excluded: store.PointsOf(shard) - rows,
		Computed: rows - failed, Failed: failed, Chunks: store.ChunksOf(shard), Files: files,
	}
}
