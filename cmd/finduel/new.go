package main

import (
	_ "embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"
)

// starter is the commented study that new writes.
//
//go:embed starter.yaml
var starter []byte

func newCommand() *cobra.Command {
	return &cobra.Command{
		Use:        "new FILE",
		SuggestFor: []string{"init", "create", "start", "example"},
		Short:      "write a commented study to start from",
		Long: `new writes a complete study with invented numbers: two cores, two fans, two setups and
what is swept, each line with its unit and a comment. A file that is there already is
left alone.`,
		Example: "  finduel new bench.yaml",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) != 1 {
				return usage("new needs the name of one file to write, got "+fmt.Sprint(len(args)), "finduel new bench.yaml")
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			if !isYAML(args[0]) {
				return usage(args[0]+": the starter is YAML", "name it with the extension .yaml, e.g. finduel new bench.yaml")
			}
			f, err := os.OpenFile(args[0], os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
			if errors.Is(err, fs.ErrExist) {
				return usage(args[0]+" is there already; nothing was written", "choose another name, or move the file away")
			}
			if errors.Is(err, fs.ErrNotExist) {
				return &failure{exitUnfinished, "cannot write the study: " + err.Error(), "make the folder " + filepath.Dir(args[0]) + " first"}
			}
			if err != nil {
				return fmt.Errorf("cannot write the study: %w", err)
			}
			_, err = f.Write(starter)
			if err := errors.Join(err, f.Close()); err != nil {
				return fmt.Errorf("cannot write the study: %w", err)
			}
			fmt.Fprintf(c.OutOrStdout(), "wrote %s; put in your own numbers, then: finduel check %s and finduel run %s\n", args[0], typed(args[0]), typed(args[0]))
			return nil
		},
	}
}
