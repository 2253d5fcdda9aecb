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

// What a run costs on the clock of the two-core machine named in the README, for
// the estimate: once, for a point that the workbook shows, and for one beyond the
// workbook's rows.
const (
	timeForCharts = 800 * time.Millisecond
	timeInBook    = 50 * time.Microsecond
	timeBeyond    = 8 * time.Microsecond
	rowsInBook    = 200_000
)

// estimate returns about how long a run of so many points takes.
func estimate(points int) time.Duration {
	in := min(points, rowsInBook)
	t := timeForCharts + time.Duration(in)*timeInBook + time.Duration(points-in)*timeBeyond
	return max(t.Round(time.Second), time.Second)
}

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
			fmt.Fprintf(w, "time        about %s on two cores\n", estimate(plan.Points()))
			fmt.Fprintf(w, "would write points.csv, breakeven.csv, summary.json, report.xlsx, charts/*.png and\n            run.json to %s\n", filepath.Join("out", s.Name))
			return nil
		},
	}
}
