//go:build unix

package archive

import (
	"context"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"
	"time"

	"finduel/sweep"
)

// killVariable, set to n, makes the test program a run that is killed at its n-th
// operation on the disk, or at none if that is 0; killFolder is where it runs.
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
	if at == 0 {
		if err := goOn(planOf(new(testing.B), manyPoints)); err != nil {
			return 1
		}
		return 0
	}
	if _, err := newJob(new(testing.B), 1100).do(&deadly{at: at}); err != nil {
		return 1
	}
	return 0
}

// goOn computes what is missing of a plan, as a run does.
func goOn(p *sweep.Plan) error {
	s, err := Open(context.Background(), Disk{}, "run", p, IdentityOf(p, 1, "v"), sweep.Physics)
	if err != nil {
		return err
	}
	return sweep.Run(context.Background(), p, sweep.Options{Workers: 2}, s.Missing(Shard{}), s.Keep)
}

// manyPoints is how many points the run has that is killed at random moments: 24
// chunks.
const manyPoints = 24 * 1000

// killsAtRandom is how often it is killed.
const killsAtRandom = 200

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

// A real program on a real disk is killed with kill -9 at random moments, and goes on
// each time where it was. What it leaves can be read each time, no chunk that was whole
// is written again, and in the end there are the bytes of a run that nothing disturbed.
func TestKilledAtRandomMoments(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	p := planOf(t, manyPoints)
	t.Chdir(t.TempDir())
	if err := goOn(p); err != nil {
		t.Fatal(err)
	}
	want := onDisk(t, ".")
	whole := func() map[string]time.Time {
		all := map[string]time.Time{}
		paths, _ := filepath.Glob(filepath.Join("run", manifestsFolder, "*.json"))
		for _, path := range paths {
			if info, err := os.Stat(path); err == nil {
				all[path] = info.ModTime()
			}
		}
		return all
	}
	random := rand.New(rand.NewPCG(5, 6))
	kills, partly, finished := 0, 0, 0
	for dir := t.TempDir(); kills < killsAtRandom; {
		t.Chdir(dir)
		before := whole()
		victim := exec.Command(self)
		victim.Env = append(os.Environ(), killVariable+"=0", killFolder+"="+dir)
		if err := victim.Start(); err != nil {
			t.Fatal(err)
		}
		ended := make(chan error, 1)
		go func() { ended <- victim.Wait() }()
		// Moments are told by what is done, since machines differ in how fast they are:
		// so many chunks later, and somewhere within the next.
		more := random.IntN(4)
		for running := true; running && len(whole()) < min(len(before)+more, p.Chunks()); {
			select {
			case err := <-ended:
				ended <- err
				running = false
			case <-time.After(200 * time.Microsecond):
			}
		}
		time.Sleep(time.Duration(random.IntN(4000)) * time.Microsecond)
		victim.Process.Kill()
		if err := <-ended; err == nil || len(whole()) == p.Chunks() { // it was done before
			if finished++; !maps.Equal(onDisk(t, dir), want) {
				t.Fatalf("after %d kills the run ends in other bytes", kills)
			}
			dir = t.TempDir()
			continue
		}
		if status := victim.ProcessState.Sys().(syscall.WaitStatus); status.Signal() != syscall.SIGKILL {
			t.Fatalf("the victim was not killed but ended by itself: %v", victim.ProcessState)
		}
		kills++
		after := whole()
		if len(after) > 0 {
			partly++
		}
		for path, when := range before {
			if after[path] != when {
				t.Fatalf("%s was whole and was written again", path)
			}
		}
		s, err := Open(context.Background(), Disk{}, "run", p, IdentityOf(p, 1, "v"), nil)
		if err != nil || len(s.Found.Damaged) > 0 || s.Found.Chunks != len(after) {
			t.Fatalf("after a kill %d chunks have manifests; found: %+v (%v)", len(after), s.Found, err)
		}
	}
	if partly < killsAtRandom/2 || finished < 2 {
		t.Errorf("of %d kills %d hit a run that was partly done; %d runs came to their end", kills, partly, finished)
	}
}
