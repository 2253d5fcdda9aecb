package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"finduel/sweep/study"
)

// version of finduel; part of what a run's bytes depend on.
const version = "0.3.0"

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
		return usage(text, flagHint(c, text)+numberHint(c, text)+"see "+c.CommandPath()+" --help")
	})
	root.SetHelpCommand(helpCommand(root))
	root.AddCommand(newCommand(), checkCommand(), pointCommand(), runCommand(), mergeCommand(), drawCommand(), breakevenCommand(), inputsTopic())
	return report(stderr, root.ExecuteContext(ctx))
}

// noSuchCommand refuses what is no command, and says what was probably meant.
func noSuchCommand(root *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	hint := "finduel --help lists the commands"
	near := root.SuggestionsFor(args[0])
	switch {
	case len(near) > 0:
		hint = "did you mean finduel " + strings.Join(near, " or finduel ") + "? " + hint
	case args[0] == "version":
		hint = "did you mean finduel --version? " + hint
	case isFile(args[0]):
		hint = "a command stands before the study: finduel check " + typed(args[0]) + " names its faults, finduel run " + typed(args[0]) + " computes it"
	}
	return usage(fmt.Sprintf("unknown command %q", args[0]), hint)
}

// isFile reports whether there is a file of that name.
func isFile(path string) bool {
	info, err := os.Stat(path)
	return err == nil && !info.IsDir()
}

// typed returns a path as it is typed behind a command: in quotes if it has a space.
func typed(path string) string {
	if strings.Contains(path, " ") {
		return `"` + path + `"`
	}
	return path
}

// isYAML reports whether a path is that of a YAML file, by its name.
func isYAML(path string) bool {
	ext := strings.ToLower(filepath.Ext(path))
	return ext == ".yaml" || ext == ".yml"
}

// flagHint says which flags a command has, and which was probably meant, if an error says
// that one is unknown.
func flagHint(c *cobra.Command, text string) string {
	wrong, unknown := strings.CutPrefix(text, "unknown flag: --")
	if !unknown {
		return ""
	}
	wrong, _, _ = strings.Cut(wrong, "=")
	hint := ""
	var has []string
	c.LocalFlags().VisitAll(func(f *pflag.Flag) {
		if f.Name == "help" {
			return
		}
		has = append(has, "--"+f.Name)
		if wrong != "" && (strings.HasPrefix(f.Name, wrong) || strings.HasPrefix(wrong, f.Name)) {
			hint = "did you mean --" + f.Name + "? "
		}
	})
	if has == nil {
		return c.CommandPath() + " takes no flags; "
	}
	return hint + c.CommandPath() + " has " + strings.Join(has, ", ") + "; "
}

// numberHint says what a flag takes whose value, as an error says, is not valid.
func numberHint(c *cobra.Command, text string) string {
	_, name, _ := strings.Cut(text, ` for "--`)
	f := c.Flags().Lookup(strings.TrimSuffix(name, `" flag`))
	switch {
	case f == nil:
		return ""
	case f.Value.Type() == "uint64":
		return "write a whole number, 0 or more; "
	case f.Value.Type() == "int":
		return "write a whole number; "
	}
	return ""
}

// helpCommand prints the help of a command or a topic, and refuses what is neither.
func helpCommand(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [command]",
		Short: "print the help of a command or a topic",
		RunE: func(_ *cobra.Command, args []string) error {
			about, left, err := root.Find(args)
			if err != nil || len(left) > 0 {
				return noSuchCommand(root, args)
			}
			about.InitDefaultHelpFlag()
			about.InitDefaultVersionFlag()
			return about.Help()
		},
	}
}

// load reads a study. It says how to come by one if the file is not there.
func load(path string) (*study.Study, error) {
	if path == "-" {
		return nil, usage("-: a study is read from a file, not from standard input", "write it into a file, e.g. bench.yaml, and name that")
	}
	s, err := study.Load(path)
	if errors.Is(err, fs.ErrNotExist) {
		if !isYAML(path) {
			path = "bench.yaml"
		}
		return nil, &failure{exitUnfinished, err.Error(), "check the name and the folder; finduel new " + typed(path) + " would write a study to start from"}
	}
	return s, ofDisk(err, "name a file that is a study and that you may read")
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
