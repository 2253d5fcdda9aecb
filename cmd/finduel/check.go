package main

import (
	"fmt"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"finduel/render"
	"finduel/render/sheet"
	"finduel/sweep"
	"finduel/sweep/archive"
	"finduel/sweep/doubt"
)

// What a run costs on the clock of the two-core machine named in the README, for the
// estimate: once, for a point, for a row of points.csv, for a row of the workbook, for
// a design that is compared, for a draw of what is not known on two cores, and of the
// study's own design on one; and what a point takes on the disk.
const (
	timeForCharts = 2200 * time.Millisecond
	timeOfPoint   = 2500 * time.Nanosecond
	timeInCSV     = 5 * time.Microsecond
	timeInBook    = 60 * time.Microsecond
	timeOfDesign  = 400 * time.Microsecond
	timeOfDraw    = 8 * time.Microsecond
	timeOfOwnDraw = 14 * time.Microsecond
	rowsInBook    = 200_000
	bytesOfPoint  = 215
)

// estimate returns about how long a run of a plan takes.
func estimate(plan *sweep.Plan) time.Duration {
	points, designs := plan.Points(), plan.Designs()
	t := timeForCharts + time.Duration(points)*timeOfPoint
	if points <= rowsInCSV {
		t += time.Duration(points) * timeInCSV
	}
	t += time.Duration(min(points, rowsInBook)) * timeInBook
	t += time.Duration(designs) * timeOfDesign
	extent, drawn := doubt.ExtentOf(plan), 0
	if extent.All {
		drawn = designs
	}
	return t + time.Duration(drawn*extent.Draws)*timeOfDraw + time.Duration(extent.Own)*timeOfOwnDraw
}

func checkCommand() *cobra.Command {
	return &cobra.Command{
		Use:        "check STUDY",
		SuggestFor: []string{"validate", "verify", "lint", "test"},
		Short:      "read a study, name its faults or count what a run would compute",
		Long: `check reads a study and names all its faults at once, each with line, column and what
to write instead (exit code 2). If there are none it says which setups are compared,
how many points a run would compute and how long that takes, what is taken to be in
doubt and by how much, and which files would be written. It writes nothing itself.`,
		Example: "  finduel check bench.yaml",
		Args:    studyArgument,
		RunE: func(c *cobra.Command, args []string) error {
			s, err := load(args[0])
			if err != nil {
				return err
			}
			plan, folder := sweep.Lay(s), filepath.Join("out", s.Name)
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
				default:
					role = ", not compared: --setup shows it in finduel point"
				}
				fmt.Fprintf(w, "setup       %s: core %s, %d × fan %s, %s%s\n", setup.Name, setup.Core, setup.Rig.Fans.Count, setup.Fan, setup.Rig.Placing, role)
			}
			if err := sheet.Swept(w, s); err != nil {
				return err
			}
			points, designs := plan.Points(), plan.Designs()
			fmt.Fprintf(w, "points      %s, in %s and %s\n", render.Whole(points), render.Counted(designs, "design"), render.Counted(plan.Chunks(), "chunk"))
			fmt.Fprintf(w, "time        about %s on two cores\n", about(estimate(plan)))
			if err := sheet.Stepped(w, plan); err != nil {
				return err
			}
			if err := sheet.Doubted(w, plan, designs); err != nil {
				return err
			}
			files := "points/ (about " + size(points*bytesOfPoint) + "), "
			if points <= rowsInCSV {
				files += "points.csv, "
			}
			fmt.Fprintf(w, "would write %sbreakeven.csv, summary.json,\n            report.xlsx, charts/*.png and run.json to %s\n", files, folder)
			if record, err := archive.ReadRecord(archive.Disk{}, folder); err == nil && record.Hash != s.Hash {
				fmt.Fprintf(w, "            %s holds another run: of %s which run refuses to replace without --fresh\n", folder, otherStudy)
			}
			if err := ownFiles(folder, s); err != nil {
				fmt.Fprintf(w, "            refused as it is: %s\n", err)
			}
			return nil
		},
	}
}

// size says a number of bytes in the larger units.
func size(bytes int) string {
	switch {
	case bytes < 1_000_000:
		return fmt.Sprintf("%d kB", max(bytes/1000, 1))
	case bytes < 1_000_000_000:
		return fmt.Sprintf("%d MB", bytes/1_000_000)
	}
	return fmt.Sprintf("%.1f GB", float64(bytes)/1e9)
}
