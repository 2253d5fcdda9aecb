package published

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// update writes the tables of checks again; run the tests of the module's packages
// with -update behind them.
var update = flag.Bool("update", false, "write testdata/published/checks again")

// checked is one row and what our own check gave for it.
type checked struct {
	row  Row
	ours float64
}

// tabulate returns the checks of a subject as a table for readers.
func tabulate(subject string, list []checked) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# Published values: %s\n\n", subject)
	fmt.Fprintf(&b, "Written by the tests (see DEVELOPERS.md), not by hand: %d values of `%s.csv`, what finduel gives for them, and how far apart\nthey may lie.\n\n", len(list), subject)
	b.WriteString("| case | inputs | published | ours | deviation | allowed | source | why allowed |\n|---|---|---|---|---|---|---|---|\n")
	for _, c := range list {
		deviation, unit := c.ours-c.row.Expected, ""
		if c.row.Kind == "rel" {
			deviation, unit = 100*deviation/math.Abs(c.row.Expected), " %"
		}
		allowed := c.row.Tolerance
		if c.row.Kind == "rel" {
			allowed *= 100
		}
		fmt.Fprintf(&b, "| %s | %s | %.6g | %.6g | %s%s | %.2g%s | %s | %s |\n", c.row.Case, cell(c.row.inputs),
			c.row.Expected, c.ours, small(deviation), unit, allowed, unit, cell(c.row.Source), cell(c.row.Why))
	}
	return b.String()
}

// small prints a deviation to one digit, and rounding noise as 0, so that the
// table is the same on every processor.
func small(v float64) string {
	if math.Abs(v) < 1e-7 {
		return "0"
	}
	return fmt.Sprintf("%+.1g", v)
}

func cell(text string) string { return strings.ReplaceAll(text, "|", `\|`) }

// compare fails the test if the stored table of a subject is not this one; with
// -update it stores it.
func compare(t *testing.T, subject, table string) {
	t.Helper()
	root, err := module()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(root, "testdata", "published", "checks", subject+".md")
	if *update {
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o777), os.WriteFile(path, []byte(table), 0o644)); err != nil {
			t.Fatal(err)
		}
		return
	}
	stored, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v; go test -update writes it", err)
	}
	if string(stored) != table {
		t.Errorf("%s is not what the checks give; go test -update writes it again", path)
	}
}

// module returns the folder of go.mod, at or above the test's own.
func module() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", errors.New("no go.mod above the test")
		}
		dir = up
	}
}

// collector gathers what subtests give, in the order of the rows.
type collector struct {
	sync.Mutex
	list []checked
}

func (c *collector) add(i int, row Row, ours float64) {
	c.Lock()
	defer c.Unlock()
	c.list[i] = checked{row, ours}
}

// partial reports whether some rows were not run, as with -run.
func (c *collector) partial() bool {
	for _, one := range c.list {
		if one.row.Case == "" {
			return true
		}
	}
	return false
}
