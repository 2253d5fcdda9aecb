package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"

	"github.com/spf13/cobra"

	"finduel/sweep/study"
)

// version of finduel; part of what a run's bytes depend on.
const version = "0.2.0"

// run executes the command line and returns the exit code. The product goes to
// stdout; everything else goes to stderr.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	root := &cobra.Command{
		Use:   "finduel",
		Short: "find the fan speed at which a small core equals a large, quiet one",
		Long: `finduel finds the fan speed at which a small, dense core equals a large, quiet
one - or says that there is none, and why - and what it costs in noise and watts.`,
		Example: `  finduel new bench.yaml          write a commented study to start from
  finduel check bench.yaml        read it, count its points, name its faults
  finduel run bench.yaml          compute it; charts and workbook go to out/<study name>`,
		Version:       version,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          noSuchCommand,

		SuggestionsMinimumDistance: 2, // letters to change
		RunE:                       func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.SetArgs(args)
	root.SetOut(stdout)
	root.SetErr(stderr)
	root.SetVersionTemplate("finduel {{.Version}}\n")
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		text, _, _ := strings.Cut(err.Error(), ": strconv.")
		return usage(text, "see "+c.CommandPath()+" --help")
	})
	root.AddCommand(newCommand(), checkCommand(), pointCommand(), runCommand(), mergeCommand(), drawCommand(), breakevenCommand(), inputsTopic())
	return report(stderr, root.ExecuteContext(ctx))
}

// noSuchCommand refuses what is no command, and says what was probably meant.
func noSuchCommand(root *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	hint := "finduel --help lists the commands"
	if near := root.SuggestionsFor(args[0]); len(near) > 0 {
		hint = "did you mean finduel " + strings.Join(near, " or finduel ") + "? " + hint
	}
	return usage(fmt.Sprintf("unknown command %q", args[0]), hint)
}

// load reads a study. It says how to come by one if the file is not there.
func load(path string) (*study.Study, error) {
	s, err := study.Load(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, &failure{exitUnfinished, err.Error(), "check the name and the folder; finduel new " + path + " would write a study to start from"}
	}
	return s, err
}

// studyArgument accepts exactly one argument, the study file.
func studyArgument(c *cobra.Command, args []string) error {
	switch {
	case len(args) == 0:
		return usage("which study? "+c.CommandPath()+" needs the name of a study file", "finduel new bench.yaml writes one to start from")
	case len(args) > 1 && c.Flags().Lookup("set") != nil:
		return usage("one study, got "+quoted(args), `a setting that has a space is written in quotes, --set "fan_speed=9000 rpm"; a setup follows --setup`)
	case len(args) > 1:
		return usage("one study at a time, got "+quoted(args), "run finduel once for each")
	}
	return nil
}
