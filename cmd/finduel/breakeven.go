package main

import (
	"os"

	"github.com/spf13/cobra"

	"finduel/render"
	"finduel/render/sheet"
	"finduel/sweep"
	"finduel/sweep/archive"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
)

func breakevenCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:        "breakeven STUDY",
		SuggestFor: []string{"compare", "answers", "break-even", "equal"},
		Short:      "print the break-even answers only; write nothing",
		Long: `breakeven finds the break-even speeds of all designs and how sure they are, as run
does, and prints them. It keeps no points and writes no file.`,
		Example: `  finduel breakeven bench.yaml
  finduel breakeven bench.yaml --json`,
		Args: studyArgument,
		RunE: func(c *cobra.Command, args []string) error {
			s, err := load(args[0])
			if err != nil {
				return err
			}
			plan := sweep.Lay(s)
			answers, err := archive.KeepAnswers(c.Context(), "", plan, sweep.Options{})
			if err != nil {
				return ofDisk(err, "the answers wait in "+os.TempDir()+" until they are printed: make room there, or name another folder in the variable TMPDIR (Windows: TMP)")
			}
			defer answers.Close()
			sure, err := doubt.Assess(c.Context(), plan, answers, doubt.Options{Seed: defaultSeed})
			if err != nil {
				return err
			}
			details, err := breakeven.Details(c.Context(), plan, answers, sweep.Options{})
			if err != nil {
				return err
			}
			rep := &render.Report{Study: s, Results: &sweep.Results{Plan: plan}, Kept: answers, Details: details, Doubt: sure, Seed: defaultSeed, Version: version}
			show := func() error { return sheet.Terminal(c.OutOrStdout(), rep, terminalWidth) }
			if asJSON {
				show = func() error { return sheet.BreakevenJSON(c.OutOrStdout(), rep) }
			}
			if err := show(); err != nil {
				return err
			}
			return rep.Err()
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return c
}
