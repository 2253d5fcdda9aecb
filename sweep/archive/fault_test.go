package archive

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"strings"
	"syscall"
	"testing"

	"finduel/sweep"
)

// job is a run whose rows are known beforehand, so that it can be done again and
// again.
type job struct {
	plan *sweep.Plan
	id   Identity
	rows map[sweep.Span][]sweep.Row
}

func newJob(t testing.TB, points int) *job {
	j := &job{plan: planOf(t, points), rows: map[sweep.Span][]sweep.Row{}}
	j.id = IdentityOf(j.plan, 1, "v")
	for i := range j.plan.Chunks() {
		j.rows[j.plan.Chunk(i)] = rowsOf(t, j.plan, j.plan.Chunk(i))
	}
	return j
}

// do keeps the chunks that are missing, and returns those that were acknowledged.
func (j *job) do(disk FileSystem) (acknowledged []int, err error) {
	s, err := Open(context.Background(), disk, "run", j.plan, j.id, nil)
	if err != nil {
		return nil, err
	}
	for _, span := range s.Missing(Shard{}) {
		if err := s.Keep(span, j.rows[span]); err != nil {
			return acknowledged, err
		}
		acknowledged = append(acknowledged, j.plan.ChunkOf(span.From))
	}
	return acknowledged, s.Complete()
}

// whole returns what an undisturbed run leaves, and what it asked of the disk.
func (j *job) whole(t testing.TB) (contents map[string]string, operations []string) {
	t.Helper()
	disk := newMemory()
	if _, err := j.do(disk); err != nil {
		t.Fatal(err)
	}
	return disk.contents(), disk.operations
}

var errPower = errors.New("the power failed")

// cutAt makes every operation from the n-th on fail, and reports by its result
// whether that happened.
func cutAt(disk *memory, n int) (cut *bool) {
	cut = new(bool)
	disk.fault = func(string, string) error {
		if len(disk.operations) >= n {
			*cut = true
			return errPower
		}
		return nil
	}
	return cut
}

// The power fails at every operation. Whatever the disk holds then, every chunk that
// was acknowledged is there, nothing else is taken for one, and the run goes on to the
// same bytes.
func TestPowerFailure(t *testing.T) {
	j := newJob(t, 1100)
	want, operations := j.whole(t)
	cuts := 0
	for n := 1; n <= len(operations); n++ {
		for seed := range uint64(8) {
			disk := newMemory()
			cut := cutAt(disk, n)
			acknowledged, err := j.do(disk)
			if !errors.Is(err, errPower) || !*cut {
				t.Fatalf("operation %d (%s) did not fail: %v", n, operations[n-1], err)
			}
			cuts++
			after := disk.afterPowerFailure(rand.New(rand.NewPCG(uint64(n), seed)))
			s, err := Open(context.Background(), after, "run", j.plan, j.id, nil)
			if err != nil {
				t.Fatalf("power failure at %s: %v", operations[n-1], err)
			}
			for _, chunk := range acknowledged {
				if s.chunks[chunk] == nil {
					t.Fatalf("power failure at %s: chunk %d was acknowledged and is lost", operations[n-1], chunk)
				}
			}
			if _, err := j.do(after); err != nil {
				t.Fatalf("power failure at %s: the run does not go on: %v", operations[n-1], err)
			}
			if !maps.Equal(after.contents(), want) {
				t.Fatalf("power failure at %s: the run ends in other bytes", operations[n-1])
			}
		}
	}
	if cuts < 8*25 {
		t.Errorf("only %d power failures", cuts)
	}
}

// Were a file or a folder not flushed, the test above would find a loss: the file
// system of the test does forget.
func TestWithoutFlushingChunksAreLost(t *testing.T) {
	j := newJob(t, 2500)
	for what, deafen := range map[string]func(*memory){
		"files":   func(m *memory) { m.deafSync = true },
		"folders": func(m *memory) { m.deafFolder = true },
	} {
		lost := 0
		for seed := range uint64(40) {
			disk := newMemory()
			deafen(disk)
			acknowledged, err := j.do(disk)
			if err != nil {
				t.Fatal(err)
			}
			after := disk.afterPowerFailure(rand.New(rand.NewPCG(9, seed)))
			s, err := Open(context.Background(), after, "run", j.plan, j.id, nil)
			if err != nil {
				t.Fatal(err)
			}
			lost += len(acknowledged) - s.Found.Chunks
		}
		if lost == 0 {
			t.Errorf("without flushing %s nothing is lost: the test of power failures proves nothing", what)
		}
	}
}

// Every operation fails once in every way a disk fails. The error says which file, and
// why; nothing half-done is taken for done; the run goes on to the same bytes.
func TestEveryOperationMayFail(t *testing.T) {
	j := newJob(t, 1100)
	want, operations := j.whole(t)
	causes := map[string][]error{
		"mkdir": {syscall.EACCES, syscall.EROFS}, "create": {syscall.EMFILE, syscall.ENOSPC, syscall.EROFS},
		"write": {syscall.ENOSPC, syscall.EDQUOT, syscall.EIO}, "sync": {syscall.EIO, syscall.ENOSPC}, "close": {syscall.EIO},
		"rename": {syscall.EACCES, syscall.EXDEV}, "syncfolder": {syscall.EIO}, "open": {syscall.EACCES}, "list": {syscall.EACCES},
	}
	tried := map[string]int{}
	for n, operation := range operations {
		kind, path, _ := strings.Cut(operation, " ")
		for _, cause := range causes[kind] {
			disk := newMemory()
			delivered := 0
			disk.fault = func(string, string) error {
				if len(disk.operations) == n+1 {
					delivered++
					return cause
				}
				return nil
			}
			acknowledged, err := j.do(disk)
			if delivered != 1 {
				t.Fatalf("%v at %s was delivered %d times", cause, operation, delivered)
			}
			tried[kind]++
			if kind == "open" {
				path = "run/manifests/" // chunks are looked at side by side
			}
			if !errors.Is(err, cause) || !strings.Contains(err.Error(), path) {
				t.Fatalf("%v at %s is told as: %v", cause, operation, err)
			}
			disk.fault = nil
			s, err := Open(context.Background(), disk, "run", j.plan, j.id, nil)
			if err != nil {
				t.Fatalf("after %v at %s: %v", cause, operation, err)
			}
			for _, chunk := range acknowledged {
				if s.chunks[chunk] == nil {
					t.Fatalf("after %v at %s chunk %d, which was acknowledged, is not there", cause, operation, chunk)
				}
			}
			if _, err := j.do(disk); err != nil || !maps.Equal(disk.contents(), want) {
				t.Fatalf("after %v at %s the run does not go on to the same bytes (%v)", cause, operation, err)
			}
		}
	}
	for kind := range causes {
		if tried[kind] == 0 {
			t.Errorf("no %s was tried: %v", kind, tried)
		}
	}
}

// A file that cannot be written leaves nothing behind under its temporary name.
func TestAFailedWriteLeavesNothingBehind(t *testing.T) {
	j := newJob(t, 1000)
	disk := newMemory()
	delivered := false
	disk.fault = func(operation, path string) error {
		if operation == "write" {
			delivered = true
			return syscall.ENOSPC
		}
		return nil
	}
	if _, err := j.do(disk); !errors.Is(err, syscall.ENOSPC) || !delivered {
		t.Fatalf("got %v", err)
	}
	if len(disk.names) != 0 {
		t.Errorf("left behind: %v", disk.names)
	}
}

// Two runs of one study in one folder, each chunk written by both, end in the same
// bytes; of two studies the second is refused, at the beginning or at the end.
func TestTwoRunsInOneFolder(t *testing.T) {
	j := newJob(t, 2500)
	want, _ := j.whole(t)
	disk := newMemory()
	var stores [2]*Store
	for i := range stores {
		s, err := Open(context.Background(), disk, "run", j.plan, j.id, nil)
		if err != nil {
			t.Fatal(err)
		}
		stores[i] = s
	}
	failures := make(chan error)
	for _, s := range stores {
		go func() {
			for _, span := range s.Missing(Shard{}) {
				if err := s.Keep(span, j.rows[span]); err != nil {
					failures <- err
					return
				}
			}
			failures <- s.Complete()
		}()
	}
	for range stores {
		if err := <-failures; err != nil {
			t.Error(err)
		}
	}
	if !maps.Equal(disk.contents(), want) {
		t.Error("two runs at a time end in other bytes than one")
	}

	other := j.id
	other.Hash = strings.Repeat("cd", 32)
	var refusal *Refusal
	if _, err := Open(context.Background(), disk, "run", j.plan, other, nil); !errors.As(err, &refusal) {
		t.Fatalf("another run is not refused: %v", err)
	}
	for _, hash := range []string{j.id.Hash, other.Hash} {
		if !strings.Contains(refusal.Error(), hash) {
			t.Errorf("the refusal does not say %s: %v", hash, refusal)
		}
	}

	// Both begin before either has written anything.
	disk = newMemory()
	a, errA := Open(context.Background(), disk, "run", j.plan, j.id, nil)
	b, errB := Open(context.Background(), disk, "run", j.plan, other, nil)
	if errA != nil || errB != nil {
		t.Fatal(errA, errB)
	}
	first, second := j.plan.Chunk(0), j.plan.Chunk(1)
	if err := errors.Join(a.Keep(first, j.rows[first]), b.Keep(second, j.rows[second])); err != nil {
		t.Fatal(err)
	}
	if errA, errB := a.Recheck(), b.Recheck(); !errors.As(errA, &refusal) || !errors.As(errB, &refusal) {
		t.Errorf("two studies in one folder are not found out: %v, %v", errA, errB)
	}
}

// Files that a stopped run left under a temporary name are found and not taken for
// anything; Clear removes them, and all else of a run, and nothing more.
func TestClear(t *testing.T) {
	j := newJob(t, 2500)
	disk := newMemory()
	if _, err := j.do(disk); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{"run/points/.000001.parquet.77.part", "run/manifests/.000001.json.77.part", "run/mine.txt", "run/points/mine.txt", "run/points.csv"} {
		disk.put(path, []byte("x"))
	}
	s, err := Open(context.Background(), disk, "run", j.plan, j.id, nil)
	if err != nil || len(s.Found.Parts) != 2 || s.Found.Chunks != j.plan.Chunks() {
		t.Fatalf("found %+v (%v)", s.Found, err)
	}
	disk.put("run/run.json", []byte(`{"files": ["points.csv", "../outside", "never/was"]}`))
	disk.put("outside", []byte("x"))
	if err := Clear(disk, "run"); err != nil {
		t.Fatal(err)
	}
	if left := fmt.Sprint(disk.contents()); left != "map[outside:x run/mine.txt:x run/points/mine.txt:x]" {
		t.Errorf("left: %s", left)
	}
}

// What was read of a chunk that changes under a reader's hands is an error.
func TestAChunkThatChangesIsNotRead(t *testing.T) {
	j := newJob(t, 2500)
	disk := newMemory()
	if _, err := j.do(disk); err != nil {
		t.Fatal(err)
	}
	s, err := Open(context.Background(), disk, "run", j.plan, j.id, nil)
	if err != nil {
		t.Fatal(err)
	}
	path := dataPath("run", 1)
	data := append([]byte(nil), disk.bytes(path)...)
	data[len(data)/2] ^= 1
	disk.put(path, data)
	results := &sweep.Results{Plan: j.plan, Kept: s}
	rows := 0
	for range results.Each {
		rows++
	}
	if err := results.Err(); !errors.Is(err, errDamaged) || rows >= s.Len() {
		t.Errorf("%d rows were read, error %v", rows, err)
	}
	if _, ok := results.Row(j.plan.Chunk(1).From); ok {
		t.Error("a row of the damaged chunk is read")
	}
}

// Rows come back in order, one by one and all together, as they were kept.
func TestRowsOfAStore(t *testing.T) {
	j := newJob(t, 2500)
	disk := newMemory()
	if _, err := j.do(disk); err != nil {
		t.Fatal(err)
	}
	s, err := Open(context.Background(), disk, "run", j.plan, j.id, nil)
	if err != nil {
		t.Fatal(err)
	}
	var all []sweep.Row
	for i := range j.plan.Chunks() {
		all = append(all, j.rows[j.plan.Chunk(i)]...)
	}
	kept := &sweep.Results{Plan: j.plan, Kept: s}
	held := &sweep.Results{Plan: j.plan, Rows: all}
	if kept.Len() != held.Len() || kept.Failed() != held.Failed() || held.Failed() == 0 || kept.Len() == j.plan.Points() {
		t.Errorf("%d rows, %d failed; want %d and %d", kept.Len(), kept.Failed(), held.Len(), held.Failed())
	}
	i := 0
	for row := range kept.Each {
		if *row != all[i] {
			t.Fatalf("row %d differs", i)
		}
		i++
	}
	if i != len(all) {
		t.Errorf("%d rows of %d", i, len(all))
	}
	for range kept.Each {
		break // whoever has seen enough may leave
	}
	for k := range j.plan.Points() {
		a, okA := kept.Row(k)
		b, okB := held.Row(k)
		if okA != okB || okA && *a != *b {
			t.Fatalf("point %d differs", k)
		}
	}
	if kept.Err() != nil {
		t.Error(kept.Err())
	}
}
