package main

import (
	"context"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"finduel/sweep"
	"finduel/sweep/archive"
)

func drawCommand() *cobra.Command {
	var f finishing
	c := &cobra.Command{
		Use:        "draw DIR",
		SuggestFor: []string{"plot", "chart", "render", "report", "show"},
		Short:      "write tables, charts and workbook again from the points of a run",
		Long: `draw makes everything but the points again from the points that run or merge left
in a folder; none of them is computed again. The break-even speeds, which are roots of
the model and not read off the points, are sought anew. It refuses (exit code 4) a
folder in which points are missing or damaged.`,
		Example: `  finduel draw out/booth`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) != 1 {
				return usage(fmt.Sprintf("draw needs the folder of one run, got %d", len(args)), "finduel draw out/booth")
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			return draw(c.Context(), c.OutOrStdout(), c.ErrOrStderr(), args[0], f)
		},
	}
	c.Flags().IntVar(&f.workers, "workers", 0, "designs compared at a time (default one a processor)")
	csvFlag(c, &f.csv)
	quietFlag(c, &f.quiet)
	return c
}

func draw(ctx context.Context, stdout, stderr io.Writer, dir string, f finishing) error {
	if isFile(dir) {
		return usage(dir+" is a file, not the folder of a run", "draw takes the folder that finduel run made, e.g. finduel draw out/booth; a study that was not computed yet: finduel run "+typed(dir))
	}
	s, err := studyIn(dir)
	if err != nil {
		return err
	}
	const hint = "finduel run computes what is missing; --fresh all of it"
	if f.seed, err = archive.SeedOf(archive.Disk{}, dir); err != nil {
		return ofDisk(refused(err, hint), whereRead)
	}
	plan := sweep.Lay(s)
	store, err := archive.Open(ctx, archive.Disk{}, dir, plan, archive.IdentityOf(plan, f.seed, version), nil)
	if err != nil {
		return ofDisk(refused(err, hint), whereRead)
	}
	if err := store.Complete(); err != nil {
		return refused(err, hint)
	}
	return finish(ctx, stdout, stderr, dir, s, store, f)
}
