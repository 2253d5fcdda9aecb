//go:build linux

package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// longStudy writes a study of 120 000 points into a folder and returns its path: it
// has longChunks chunks of longChunk points, the last one apart.
func longStudy(t *testing.T) string {
	t.Helper()
	return studyOf(t, 120)
}

const longChunk, longChunks = 2048, 59

// studyOf writes a study of so many thousand points into a folder.
func studyOf(t *testing.T, thousands int) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "long.yaml")
	if err := os.WriteFile(path, []byte(`study: long
heat: {load: 200 W}
doubt: {draws: 1000}
cores:
  - {name: cube, face: [90 mm, 90 mm], fin_depth: 34 mm, fin_density: 20 fpi}
  - {name: slab, face: [270 mm, 120 mm], fin_depth: 20 mm}
fans:
  - {name: fierce, rated_speed: 9000 rpm, free_air_flow: 250 m3/h, shut_off_pressure: 520 Pa, rated_power: 40 W, rated_sound: 68 dBA}
  - {name: calm, rated_speed: 1200 rpm, free_air_flow: 110 m3/h, shut_off_pressure: 14 Pa, rated_power: 1.5 W, rated_sound: 22 dBA}
setups: [{name: small, core: cube, fan: fierce}, {name: large, core: slab, fan: calm, fans: 2, speed: 900 rpm}]
sweep:
  challenger: small
  reference: large
  axes:
    - {input: fan_speed, from: 3000 rpm, to: 9000 rpm, steps: 1000}
    - {input: fin_density, from: 10 fpi, to: 24 fpi, steps: `+strconv.Itoa(thousands)+`}
`), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// program starts finduel as a process of its own, stderr collected.
func program(t *testing.T, args ...string) (*exec.Cmd, *bytes.Buffer) {
	t.Helper()
	c := exec.Command("finduel", args...)
	stderr := new(bytes.Buffer)
	c.Stderr = stderr
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	return c, stderr
}

// signalled returns the signal that ended a process; 0 if it ended by itself.
func signalled(c *exec.Cmd) syscall.Signal {
	if status := c.ProcessState.Sys().(syscall.WaitStatus); status.Signaled() {
		return status.Signal()
	}
	return 0
}

// shardRun are the arguments of a run of points alone.
func shardRun(study, out string) []string {
	return []string{"run", study, "--shard", "1/1", "--out", out}
}

// uninterrupted returns the files of a run that nothing disturbs.
func uninterrupted(t *testing.T, study string) []string {
	t.Helper()
	out := filepath.Join(t.TempDir(), "out")
	c, stderr := program(t, shardRun(study, out)...)
	if err := c.Wait(); err != nil {
		t.Fatal(err, stderr)
	}
	list, err := sums(out)
	if err != nil || len(list) < 10 {
		t.Fatalf("%d files (%v)", len(list), err)
	}
	return list
}

// manifests returns name and time of every manifest of a chunk in a folder.
func manifests(t *testing.T, out string) map[string]time.Time {
	t.Helper()
	all := map[string]time.Time{}
	paths, _ := filepath.Glob(filepath.Join(out, "manifests", "[0-9]*.json"))
	for _, path := range paths {
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		all[path] = info.ModTime()
	}
	return all
}

// chunksLater waits until so many more chunks are whole than before, or the run is done:
// moments are told by what is done, since machines differ in how fast they are.
func chunksLater(t *testing.T, out string, before, more int) {
	t.Helper()
	for len(manifests(t, out)) < min(before+more, longChunks) {
		if _, err := os.Stat(filepath.Join(out, "run.json")); err == nil {
			return
		}
		time.Sleep(time.Millisecond)
	}
}

// The program is killed with kill -9 at random moments, and each time goes on where it
// was: no chunk that was whole is written again, and the end is that of a run that
// nothing disturbed.
func TestKilledAtRandomMoments(t *testing.T) {
	study := longStudy(t)
	want := uninterrupted(t, study)
	random := rand.New(rand.NewPCG(3, 4))
	kills, partly := 0, 0
	for range 2 {
		out := filepath.Join(t.TempDir(), "out")
		for range 12 {
			before := manifests(t, out)
			c, stderr := program(t, shardRun(study, out)...)
			if more := random.IntN(10); more > 0 { // else before there is anything
				chunksLater(t, out, len(before), more)
			}
			time.Sleep(time.Duration(random.IntN(3000)) * time.Microsecond) // somewhere within a chunk
			c.Process.Kill()
			if err := c.Wait(); err == nil {
				break // it was done before
			}
			if signalled(c) != syscall.SIGKILL {
				t.Fatalf("it was not killed: %v: %s", c.ProcessState, stderr)
			}
			kills++
			after := manifests(t, out)
			if len(after) > 0 && len(after) < longChunks {
				partly++
			}
			for path, when := range before {
				if after[path] != when {
					t.Fatalf("%s was whole and was written again", path)
				}
			}
		}
		c, stderr := program(t, shardRun(study, out)...)
		if err := c.Wait(); err != nil {
			t.Fatal(err, stderr)
		}
		if got, err := sums(out); err != nil || !slices.Equal(got, want) {
			t.Fatalf("the end differs from that of a run that nothing disturbed (%v)", err)
		}
	}
	if kills < 10 || partly == 0 {
		t.Errorf("only %d kills, %d of them when some chunks were whole and some were not", kills, partly)
	}
}

// The second Ctrl-C ends the program at once; what was kept before is whole.
func TestCtrlCTwice(t *testing.T) {
	study := longStudy(t)
	want := uninterrupted(t, study)
	once, twice := 0, 0
	for try := 0; try < 100 && (once == 0 || twice == 0); try++ {
		out := filepath.Join(t.TempDir(), "out")
		c, stderr := program(t, shardRun(study, out)...)
		chunksLater(t, out, 0, 2)
		c.Process.Signal(os.Interrupt)
		if try%2 == 1 {
			time.Sleep(time.Duration(try%16) * 100 * time.Microsecond) // the program may be nearly done, or not yet have seen the first
			c.Process.Signal(os.Interrupt)
		}
		err := c.Wait()
		switch {
		case err == nil:
			continue // it was done before
		case signalled(c) == syscall.SIGINT:
			twice++
		case c.ProcessState.ExitCode() == exitInterrupted:
			once++
			if !strings.Contains(stderr.String(), "finduel: error: interrupted: ") {
				t.Errorf("it says %q", stderr)
			}
		default:
			t.Fatalf("%v: %s", c.ProcessState, stderr)
		}
		c, stderr = program(t, shardRun(study, out)...)
		if err := c.Wait(); err != nil {
			t.Fatal(err, stderr)
		}
		if got, err := sums(out); err != nil || !slices.Equal(got, want) {
			t.Fatalf("the end differs from that of a run that nothing disturbed (%v)", err)
		}
	}
	if once == 0 || twice == 0 {
		t.Errorf("stopped %d times in order and %d times at once: both are wanted", once, twice)
	}
}

// A disk that is full in truth: the program says so, exit code 1, keeps what is whole,
// and goes on when there is room.
func TestDiskFull(t *testing.T) {
	study := longStudy(t)
	want := uninterrupted(t, study)
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=6m"); err != nil {
		t.Skipf("no file system of its own can be made here: %v", err)
	}
	t.Cleanup(func() { syscall.Unmount(dir, 0) })
	out := filepath.Join(dir, "out")
	c, stderr := program(t, shardRun(study, out)...)
	if c.Wait(); c.ProcessState.ExitCode() != exitUnfinished || !strings.Contains(stderr.String(), "no space left on device") || !strings.Contains(stderr.String(), out) {
		t.Fatalf("%v: %s", c.ProcessState, stderr)
	}
	whole := len(manifests(t, out))
	if whole == 0 || whole == longChunks {
		t.Errorf("%d chunks are whole", whole)
	}
	if _, err := os.Stat(filepath.Join(out, "run.json")); err == nil {
		t.Error("there is a record of a run that was not finished")
	}
	if err := syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_REMOUNT, "size=200m"); err != nil {
		t.Fatal(err)
	}
	c, stderr = program(t, shardRun(study, out)...)
	if err := c.Wait(); err != nil || !strings.Contains(stderr.String(), fmt.Sprintf(" %s reused, 0 of these failed, 0 missing", grouped(int64(whole*longChunk)))) {
		t.Fatal(err, stderr)
	}
	if got, err := sums(out); err != nil || !slices.Equal(got, want) {
		t.Errorf("the end differs from that of a run that had room (%v)", err)
	}
}

// A disk that has no room for the break-even answers, in truth: the program says so, exit
// code 1, says what is kept and what to do, leaves the points alone, and ends as it should
// when there is room. The folder of temporary files, which breakeven takes, likewise.
func TestDiskFullOfAnswers(t *testing.T) {
	source, err := os.ReadFile(studyOf(t, 200))
	if err != nil {
		t.Fatal(err)
	}
	study := filepath.Join(t.TempDir(), "designs.yaml")
	text := strings.NewReplacer("steps: 1000", "steps: 4", "draws: 1000", "draws: 1000, designs: own").Replace(string(source))
	if err := os.WriteFile(study, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=50m"); err != nil {
		t.Skipf("no file system of its own can be made here: %v", err)
	}
	t.Cleanup(func() { syscall.Unmount(dir, 0) })
	out := filepath.Join(dir, "out")
	c, stderr := program(t, "run", study, "--out", out)
	if err := c.Wait(); err != nil {
		t.Fatal(err, stderr)
	}
	want, err := sums(out)
	if err != nil {
		t.Fatal(err)
	}
	var disk syscall.Statfs_t
	if err := syscall.Statfs(dir, &disk); err != nil {
		t.Fatal(err)
	}
	used := (disk.Blocks - disk.Bfree) * uint64(disk.Bsize)
	if err := syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_REMOUNT, fmt.Sprintf("size=%d", used)); err != nil {
		t.Fatal(err)
	}
	full := func(c *exec.Cmd, stderr *bytes.Buffer, hint string) {
		t.Helper()
		c.Wait()
		said := stderr.String()
		for _, part := range []string{"finduel: error: cannot keep the break-even answers: ", "no space left on device", "finduel: hint: " + hint} {
			if !strings.Contains(said, part) {
				t.Errorf("%v without %q: %s", c.Args, part, said)
			}
		}
		if c.ProcessState.ExitCode() != exitUnfinished {
			t.Errorf("%v: %v", c.Args, c.ProcessState)
		}
	}
	c, stderr = program(t, "draw", out)
	full(c, stderr, "what is computed is kept in "+out+"; once there is room")
	t.Setenv("TMPDIR", dir)
	c, stderr = program(t, "breakeven", study)
	full(c, stderr, "the answers wait in "+dir+" until they are printed: make room there, or name another folder in the variable TMPDIR")
	if left, err := filepath.Glob(filepath.Join(dir, ".answers*")); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v (%v)", left, err)
	}
	if got, err := sums(out); err != nil || !slices.Equal(got, want) {
		t.Errorf("what was there is not as it was (%v)", err)
	}
	if err := syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_REMOUNT, "size=50m"); err != nil {
		t.Fatal(err)
	}
	c, stderr = program(t, "draw", out)
	if err := c.Wait(); err != nil {
		t.Fatal(err, stderr)
	}
	if got, err := sums(out); err != nil || !slices.Equal(got, want) {
		t.Errorf("the end differs from that of a run that had room (%v)", err)
	}
}

// bound is finduel as a process to whom modes of files mean something, which they do not to
// root.
func bound(t *testing.T, args ...string) *exec.Cmd {
	t.Helper()
	if os.Getuid() != 0 {
		return exec.Command("finduel", args...)
	}
	if _, err := exec.LookPath("setpriv"); err != nil {
		t.Skip(err)
	}
	return exec.Command("setpriv", append([]string{"--bounding-set=-all", "--inh-caps=-all", "--", "finduel"}, args...)...)
}

// A disk that may only be read, and a folder and files that belong to someone else.
func TestWithoutPermission(t *testing.T) {
	study := longStudy(t)
	refuses := func(t *testing.T, c *exec.Cmd, cause string) {
		t.Helper()
		var stdout, stderr bytes.Buffer
		c.Stdout, c.Stderr = &stdout, &stderr
		if c.Run(); c.ProcessState.ExitCode() != exitUnfinished || !strings.Contains(stderr.String(), cause) || !strings.Contains(stderr.String(), "finduel: hint: ") || stdout.Len() > 0 {
			t.Errorf("%v: %s%s", c.ProcessState, stderr.String(), stdout.String())
		}
	}
	t.Run("read only", func(t *testing.T) {
		dir := t.TempDir()
		if err := syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_RDONLY, ""); err != nil {
			t.Skipf("no file system of its own can be made here: %v", err)
		}
		t.Cleanup(func() { syscall.Unmount(dir, 0) })
		refuses(t, exec.Command("finduel", "run", study, "--out", dir), "read-only file system")
		refuses(t, exec.Command("finduel", "run", study, "--out", filepath.Join(dir, "out")), "read-only file system")
	})
	t.Run("permission", func(t *testing.T) {
		dir := t.TempDir()
		if err := os.Chmod(dir, 0o555); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { os.Chmod(dir, 0o755) })
		refuses(t, bound(t, "run", study, "--out", filepath.Join(dir, "out")), "permission denied")
	})
	t.Run("not to be read", func(t *testing.T) {
		out := filepath.Join(t.TempDir(), "out")
		c, stderr := program(t, shardRun(study, out)...)
		if err := c.Wait(); err != nil {
			t.Fatal(err, stderr)
		}
		chunk := filepath.Join(out, "points", "000003.parquet")
		if err := os.Chmod(chunk, 0); err != nil {
			t.Fatal(err)
		}
		for _, args := range [][]string{shardRun(study, out), {"draw", out}, {"merge", out, "--out", filepath.Join(t.TempDir(), "merged")}} {
			refuses(t, bound(t, args...), chunk+": permission denied")
		}
		if err := os.Chmod(study, 0); err != nil {
			t.Fatal(err)
		}
		refuses(t, bound(t, shardRun(study, out)...), study+": permission denied")
	})
}

// Two processes of one study in one folder at a time both succeed, and leave what one
// leaves; of two studies at most one does, and the other is refused.
func TestTwoProcessesInOneFolder(t *testing.T) {
	study := studyOf(t, 4)
	both := func(other string, more ...string) (out string, codes []int, said string) {
		out = filepath.Join(t.TempDir(), "out")
		a, stderrA := program(t, append([]string{"run", study, "--out", out}, more...)...)
		b, stderrB := program(t, append([]string{"run", other, "--out", out}, more...)...)
		a.Wait()
		b.Wait()
		return out, []int{a.ProcessState.ExitCode(), b.ProcessState.ExitCode()}, stderrA.String() + stderrB.String()
	}
	alone := filepath.Join(t.TempDir(), "out")
	c, stderr := program(t, "run", study, "--out", alone)
	if err := c.Wait(); err != nil {
		t.Fatal(err, stderr)
	}
	want, err := sums(alone)
	if err != nil || len(want) < 10 {
		t.Fatalf("%d files (%v)", len(want), err)
	}
	out, codes, said := both(study)
	if got, err := sums(out); codes[0] != 0 || codes[1] != 0 || err != nil || !slices.Equal(got, want) {
		t.Errorf("two of one study end with %v and %d files, not those of one (%v): %s", codes, len(got), err, said)
	}
	// One that stands still halfway while the other comes and goes: they meet for certain.
	out = filepath.Join(t.TempDir(), "out")
	a, stderrA := program(t, "run", study, "--out", out)
	chunksLater(t, out, 0, 1)
	a.Process.Signal(syscall.SIGSTOP)
	if _, err := os.Stat(filepath.Join(out, "run.json")); err == nil {
		t.Error("the first run was done before the second began")
	}
	b, stderrB := program(t, "run", study, "--out", out)
	errB := b.Wait()
	between, err := sums(out)
	if errB != nil || err != nil || !slices.Equal(between, want) {
		t.Errorf("the second run ends with %v and %d files, not those of one (%v): %s", errB, len(between), err, stderrB)
	}
	a.Process.Signal(syscall.SIGCONT)
	errA := a.Wait()
	if got, err := sums(out); errA != nil || err != nil || !slices.Equal(got, want) {
		t.Errorf("the first run ends with %v and %d files, not those of one (%v): %s", errA, len(got), err, stderrA)
	}
	// Of another study that has as many points, whatever the moment.
	source, err := os.ReadFile(study)
	if err != nil {
		t.Fatal(err)
	}
	other := filepath.Join(t.TempDir(), "other.yaml")
	if err := os.WriteFile(other, bytes.Replace(source, []byte("load: 200 W"), []byte("load: 190 W"), 1), 0o644); err != nil {
		t.Fatal(err)
	}
	out, codes, said = both(other, "--shard", "1/1")
	if !slices.Contains(codes, exitRefused) || !strings.Contains(said, "holds another run") {
		t.Errorf("two studies end with %v: %s", codes, said)
	}
	if _, err := os.Stat(filepath.Join(out, "run.json")); err == nil && !slices.Contains(codes, 0) {
		t.Error("neither run finished, and there is a record of one")
	}
}
