package main

import (
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"finduel/sweep"
	"finduel/sweep/study"
)

// timePerPoint is what one point and its share of the answers and files cost on
// one core of the machine named in the README, for the estimate.
const timePerPoint = 40 * time.Microsecond

func checkCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "check STUDY",
		Short: "read a study, name its faults or count what a run would compute",
		Args:  studyArgument,
		RunE: func(c *cobra.Command, args []string) error {
			s, err := study.Load(args[0])
			if err != nil {
				return err
			}
			plan := sweep.Lay(s)
			w := c.OutOrStdout()
			fmt.Fprintf(w, "%s is in order.\n", args[0])
			fmt.Fprintf(w, "study       %s\n", s.Name)
			for i, setup := range s.Setups {
				role := ""
				switch i {
				case s.Challenger:
					role = ", the challenger"
				case s.Reference:
					role = ", the reference"
				}
				fmt.Fprintf(w, "setup       %s: core %s, %d × fan %s, %s%s\n", setup.Name, setup.Core, setup.Rig.Fans.Count, setup.Fan, setup.Rig.Placing, role)
			}
			var axes []string
			for _, a := range s.Axes {
				axes = append(axes, fmt.Sprintf("%s (%d)", a.Input.Key, len(a.Values)))
			}
			fmt.Fprintf(w, "axes        %s\n", strings.Join(axes, ", "))
			fmt.Fprintf(w, "points      %d, in %d designs\n", plan.Points(), plan.Designs())
			fmt.Fprintf(w, "time        about %s on two cores\n", (time.Second + time.Duration(plan.Points())*timePerPoint/2).Round(time.Second))
			fmt.Fprintf(w, "would write points.csv, breakeven.csv, summary.json, report.xlsx, charts/*.png and\n            run.json to %s\n", filepath.Join("out", s.Name))
			return nil
		},
	}
}
