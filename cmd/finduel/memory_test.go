//go:build linux

package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
)

// mostResident is how much memory a run may have resident at most, in kB, as the README says,
// however many points it has; mostGrowth is by how much the peaks of two runs may differ,
// as the collector happens to come: two million points would be more than a gigabyte.
const (
	mostResident = 300_000
	mostGrowth   = 50_000
)

// peak runs a command and prints how much memory it had resident at most, in kB. It is a
// program of its own for tests: a process begins with the memory of the one that starts
// it, as the kernel counts, and a test has much.
func peak() {
	c := exec.Command(os.Args[1], os.Args[2:]...)
	c.Stderr = os.Stderr
	if err := c.Run(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Println(c.ProcessState.SysUsage().(*syscall.Rusage).Maxrss)
}

func init() { programs["peak"] = peak }

// Memory does not grow with the points: of a million and of three, and with everything
// that is made of a million.
func TestMemoryDoesNotGrowWithThePoints(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes millions of points")
	}
	resident := func(thousands int, more ...string) int {
		t.Helper()
		study := studyOf(t, thousands)
		source, err := os.ReadFile(study)
		if err == nil {
			err = os.WriteFile(study, []byte(strings.Replace(string(source), "draws: 1000", "draws: 1000, designs: own", 1)), 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
		out := filepath.Join(t.TempDir(), "out")
		said, err := exec.Command("peak", append([]string{"finduel", "run", study, "--quiet", "--out", out}, more...)...).Output()
		kB, none := strconv.Atoi(strings.TrimSpace(string(said)))
		if err != nil || none != nil {
			t.Fatalf("%v: %q", err, said)
		}
		if _, err := os.Stat(filepath.Join(out, "points.csv")); (err == nil) != slices.Contains(more, "--csv") {
			t.Errorf("with %d thousand points and %v: points.csv: %v", thousands, more, err)
		}
		if err := os.RemoveAll(out); err != nil { // hundreds of megabytes
			t.Fatal(err)
		}
		return kB
	}
	one, three := resident(1000, "--shard", "1/1"), resident(3000, "--shard", "1/1")
	all := resident(1001, "--csv")
	t.Logf("resident at most: %d kB with a million points, %d kB with three; %d kB with all that is made of a million", one, three, all)
	if three > one+mostGrowth {
		t.Errorf("memory grows with the points: %d kB with a million, %d kB with three", one, three)
	}
	if most := max(one, three, all); most > mostResident || one < 10_000 {
		t.Errorf("%d, %d and %d kB are resident at most, more than %d kB or too few to be true", one, three, all, mostResident)
	}
}
