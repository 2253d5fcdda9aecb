//go:build unix

package archive

import (
	"context"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"
)

// killVariable, set to n, makes the test program a run that is killed at its n-th
// operation on the disk; killFolder is where it runs.
const (
	killVariable = "FINDUEL_TEST_KILL_AT"
	killFolder   = "FINDUEL_TEST_KILL_IN"
)

func TestMain(m *testing.M) {
	if at, err := strconv.Atoi(os.Getenv(killVariable)); err == nil {
		os.Exit(victim(at))
	}
	os.Exit(m.Run())
}

// victim is a run that kills itself, as kill -9 does, at an operation.
func victim(at int) int {
	if err := os.Chdir(os.Getenv(killFolder)); err != nil {
		return 2
	}
	if _, err := newJob(new(testing.B), 1100).do(&deadly{at: at}); err != nil {
		return 1
	}
	return 0
}

// deadly is the disk of a program that is killed at an operation: before it, or in the
// middle of a write.
type deadly struct {
	Disk
	at, n int
}

func (d *deadly) step() {
	if d.n++; d.n == d.at {
		syscall.Kill(os.Getpid(), syscall.SIGKILL)
		select {}
	}
}

func (d *deadly) MakeFolder(path string) error { d.step(); return d.Disk.MakeFolder(path) }

func (d *deadly) Create(folder, pattern string) (File, error) {
	d.step()
	f, err := d.Disk.Create(folder, pattern)
	return &deadlyFile{f, d}, err
}

func (d *deadly) Rename(from, to string) error { d.step(); return d.Disk.Rename(from, to) }

func (d *deadly) SyncFolder(path string) error { d.step(); return d.Disk.SyncFolder(path) }

type deadlyFile struct {
	File
	d *deadly
}

func (f *deadlyFile) Write(p []byte) (int, error) {
	half := len(p) / 2
	if _, err := f.File.Write(p[:half]); err != nil {
		return 0, err
	}
	f.d.step()
	n, err := f.File.Write(p[half:])
	return half + n, err
}

func (f *deadlyFile) Sync() error  { f.d.step(); return f.File.Sync() }
func (f *deadlyFile) Close() error { f.d.step(); return f.File.Close() }

// onDisk returns the files in a folder that are not unfinished, by name.
func onDisk(t *testing.T, folder string) map[string]string {
	t.Helper()
	all := map[string]string{}
	if err := filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || partName.MatchString(e.Name()) {
			return err
		}
		data, err := os.ReadFile(path)
		name, _ := filepath.Rel(folder, path)
		all[name] = string(data)
		return err
	}); err != nil {
		t.Fatal(err)
	}
	return all
}

// A real program on a real disk is killed with kill -9 at every operation. Each time
// the folder is either incomplete or whole, and a run into it ends in the same bytes.
func TestKilledAtEveryOperation(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	j := newJob(t, 1100)
	want, _ := j.whole(t)
	kills := 0
	for at := 1; ; at++ {
		dir := t.TempDir()
		victim := exec.Command(self)
		victim.Env = append(os.Environ(), killVariable+"="+strconv.Itoa(at), killFolder+"="+dir)
		output, err := victim.CombinedOutput()
		if err == nil {
			break // there is no such operation any more
		}
		status := victim.ProcessState.Sys().(syscall.WaitStatus)
		if !status.Signaled() || status.Signal() != syscall.SIGKILL {
			t.Fatalf("operation %d: the victim was not killed but ended by itself: %v: %s", at, err, output)
		}
		kills++
		t.Chdir(dir)
		s, err := Open(context.Background(), Disk{}, "run", j.plan, j.id, nil)
		if err != nil {
			t.Fatalf("killed at operation %d: %v", at, err)
		}
		if missing := s.Complete() != nil; missing == maps.Equal(onDisk(t, dir), want) {
			t.Errorf("killed at operation %d: incomplete is %v, and the folder is not so", at, missing)
		}
		if len(s.Found.Damaged) > 0 {
			t.Errorf("killed at operation %d: damaged %v", at, s.Found.Damaged)
		}
		if _, err := j.do(Disk{}); err != nil {
			t.Fatalf("killed at operation %d: the run does not go on: %v", at, err)
		}
		if !maps.Equal(onDisk(t, dir), want) {
			t.Fatalf("killed at operation %d: the run ends in other bytes", at)
		}
	}
	if kills < 25 {
		t.Errorf("only %d kills", kills)
	}
}
