package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"finduel/sweep"
	"finduel/sweep/archive"
	"finduel/sweep/study"
)

func mergeCommand() *cobra.Command {
	var out string
	var f finishing
	c := &cobra.Command{
		Use:        "merge DIR... --out DIR",
		SuggestFor: []string{"join", "combine"},
		Short:      "join the shards of a run",
		Long: `merge joins shards that run --shard wrote, each in a folder of its own, and then
does what run does once all points are there: answers, tables, charts and workbook.
The result is the same, byte for byte, as that of a run on one machine.

It refuses (exit code 4) and names every cause if a shard is missing, not finished,
damaged, cut otherwise, of another run, or there twice and not equal.`,
		Example: `  finduel merge out/booth/shard-*-of-8 --out out/booth`,
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 || out == "" {
				return usage("merge needs the folders of all shards, and --out", "finduel merge out/booth/shard-*-of-8 --out out/booth")
			}
			for _, dir := range args {
				if sameFolder(dir, out) {
					return usage("--out "+out+" is the folder of a shard, "+dir+", which merge would make something else of", "name another folder with --out")
				}
			}
			return merge(c.Context(), c.OutOrStdout(), c.ErrOrStderr(), args, out, f)
		},
	}
	c.Flags().StringVar(&out, "out", "", "folder to write to")
	c.Flags().IntVar(&f.workers, "workers", 0, "designs compared at a time (default one a processor)")
	csvFlag(c, &f.csv)
	quietFlag(c, &f.quiet)
	return c
}

func merge(ctx context.Context, stdout, stderr io.Writer, shards []string, out string, f finishing) error {
	const hint = "nothing was merged; run the shards named again, or leave out those that do not belong"
	s, record, err := stored(shards)
	if err != nil {
		return err
	}
	f.seed = record.Seed
	plan := sweep.Lay(s)
	ours := absent(out)
	if err := folder(out); err != nil {
		return err
	}
	if err := ownFiles(out, s); err != nil {
		return err
	}
	id := archive.IdentityOf(plan, record.Seed, version)
	store, err := archive.Merge(ctx, archive.Disk{}, shards, out, plan, id, func() error { return begin(out, s, id) })
	if err != nil {
		for _, dir := range ours {
			os.Remove(dir) // empty, unless something was copied
		}
		return ofDisk(refused(err, hint), "what was copied is kept in "+out+"; once there is room, and all folders can be read and "+out+" written, the same command goes on from there")
	}
	return finish(ctx, stdout, stderr, out, s, store, f)
}

// sameFolder reports whether two paths lead to one folder that is there.
func sameFolder(a, b string) bool {
	infoA, errA := os.Stat(a)
	infoB, errB := os.Stat(b)
	return errA == nil && errB == nil && os.SameFile(infoA, infoB)
}

// absent returns the folders that are not there and that dir needs, itself first.
func absent(dir string) []string {
	var list []string
	for {
		if _, err := os.Stat(dir); !errors.Is(err, fs.ErrNotExist) {
			return list
		}
		list = append(list, dir)
		dir = filepath.Dir(dir)
	}
}

// stored returns the study and the record of the first of some folders that has both.
func stored(folders []string) (*study.Study, archive.Record, error) {
	for _, dir := range folders {
		record, err := archive.ReadRecord(archive.Disk{}, dir)
		if err != nil {
			continue
		}
		s, err := studyIn(dir)
		if err != nil {
			return nil, record, err
		}
		return s, record, nil
	}
	if _, err := os.Stat(folders[0]); errors.Is(err, fs.ErrNotExist) {
		return nil, archive.Record{}, &failure{exitRefused, "there is no folder " + folders[0], "give the folders that run --shard wrote"}
	}
	return nil, archive.Record{}, &failure{exitRefused, fmt.Sprintf("none of the folders has a %s: they are no shards, or their runs did not finish", archive.RecordFile), "give the folders that run --shard wrote"}
}

// studyIn reads the copy of the study in the folder of a run.
func studyIn(dir string) (*study.Study, error) {
	for _, format := range []string{"yaml", "toml", "json"} {
		s, err := study.Load(filepath.Join(dir, "study."+format))
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		return s, err
	}
	if _, err := os.Stat(dir); errors.Is(err, fs.ErrNotExist) {
		return nil, &failure{exitRefused, "there is no folder " + dir, "give the folder that run wrote"}
	}
	return nil, &failure{exitRefused, dir + " holds no run: there is no copy of a study in it", "give the folder that run wrote"}
}
