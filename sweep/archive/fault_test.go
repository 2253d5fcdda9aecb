package archive

import (
	"bytes"
	"context"
	"errors"
	"io"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"finduel/model"
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
	for _, hash := range []string{j.id.Hash[:12], other.Hash[:12]} {
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
	before := disk.contents()
	if err := b.Keep(first, j.rows[first]); !errors.As(err, &refusal) || !maps.Equal(disk.contents(), before) {
		t.Errorf("a chunk of another run is written over: %v", err)
	}
	if errA, errB := a.Recheck(), b.Recheck(); !errors.As(errA, &refusal) || !errors.As(errB, &refusal) {
		t.Errorf("two studies in one folder are not found out: %v, %v", errA, errB)
	}
}

// Two runs of one study that differ in their seed alone begin in one folder before either
// has a chunk, and take turns at any of their operations: at most one is told that all is
// well.
func TestTwoSeedsInOneFolder(t *testing.T) {
	j := newJob(t, 1000)
	span := j.plan.Chunk(0)
	start := func(disk FileSystem, seed uint64, halt int) (p *paced, ended chan error) {
		p = &paced{FileSystem: disk, left: halt, turn: make(chan struct{}), back: make(chan struct{})}
		id := j.id
		id.Seed = seed
		s, err := Open(context.Background(), disk, "run", j.plan, id, nil)
		if err != nil {
			t.Fatal(err)
		}
		s.disk, ended = p, make(chan error, 1)
		go func() {
			<-p.turn
			err := Begin(p, "run", id)
			if err == nil {
				err = s.Keep(span, j.rows[span])
			}
			if err == nil {
				err = s.Recheck()
			}
			for p.left > 0 { // it was done before
				p.step()
			}
			ended <- err
		}()
		return p, ended
	}
	const operations = 20
	succeeded := 0
	for n := 1; n <= operations; n++ {
		for m := 1; m <= operations; m++ {
			disk := newMemory()
			a, endedA := start(disk, 1, n)
			b, endedB := start(disk, 2, m)
			for _, p := range []*paced{a, b} {
				p.turn <- struct{}{}
				<-p.back
			}
			var errs [2]error
			a.turn <- struct{}{}
			errs[0] = <-endedA
			b.turn <- struct{}{}
			errs[1] = <-endedB
			for i, err := range errs {
				refusal := (*Refusal)(nil)
				switch {
				case err == nil && errs[1-i] == nil:
					t.Errorf("taking turns at %d and %d both are told that all is well", n, m)
				case err == nil:
					succeeded++
				case !errors.As(err, &refusal) || !strings.Contains(err.Error(), "with the seed"):
					t.Errorf("taking turns at %d and %d: %v", n, m, err)
				}
			}
		}
	}
	if succeeded < operations {
		t.Errorf("only %d runs succeed", succeeded)
	}
}

// paced is the disk of a run that gives the turn back once, before an operation.
type paced struct {
	FileSystem
	left       int // operations until then
	turn, back chan struct{}
}

func (p *paced) step() {
	if p.left--; p.left == 0 {
		p.back <- struct{}{}
		<-p.turn
	}
}

func (p *paced) Create(folder, pattern string) (File, error) {
	p.step()
	return p.FileSystem.Create(folder, pattern)
}

func (p *paced) Open(path string) (io.ReadCloser, error) { p.step(); return p.FileSystem.Open(path) }

func (p *paced) List(folder string) ([]fs.DirEntry, error) {
	p.step()
	return p.FileSystem.List(folder)
}

func (p *paced) Rename(from, to string) error { p.step(); return p.FileSystem.Rename(from, to) }

func (p *paced) SyncFolder(path string) error { p.step(); return p.FileSystem.SyncFolder(path) }

// Clear removes all of a run that finished or did not, whole or half-written, and
// nothing of its owner's.
func TestClear(t *testing.T) {
	outputs := []string{"points.csv", "charts/parity.png", "charts/map-[0-9].png"}
	ours := []string{
		"run/points/.000001.parquet.77.part", "run/manifests/.000001.json.77.part", "run/.points.csv.5.part", "run/charts/.parity.png.5.part",
		"run/.run.json.5.part", "run/.answers.5.part", "run/points.csv", "run/charts/parity.png", "run/charts/map-3.png", "run/points/123456789.parquet",
	}
	mine := []string{
		"run/mine.txt", "run/points/mine.txt", "run/points/mine.parquet", "run/points/1.parquet", "run/manifests/000001.json.bak", "run/points/.mine.part",
		"run/.mine.csv.5.part", "run/charts/mine.png", "run/charts/map-.png", "run/charts/.mine.png.5.part", "run/parity.png", "outside",
	}
	for _, record := range []string{"", `{"files": ["points.csv", "of-old.txt", "../outside", "never/was"]}`, "{"} {
		j := newJob(t, 2500)
		disk := newMemory()
		if _, err := j.do(disk); err != nil {
			t.Fatal(err)
		}
		for _, path := range slices.Concat(ours, mine) {
			disk.put(path, []byte("x"))
		}
		if record != "" {
			disk.put("run/run.json", []byte(record))
		}
		if len(record) > 2 {
			disk.put("run/of-old.txt", []byte("x"))
		}
		s, err := Open(context.Background(), disk, "run", j.plan, j.id, nil)
		if err != nil || s.Found.Chunks != j.plan.Chunks() {
			t.Fatalf("found %+v (%v)", s, err)
		}
		if err := Clear(disk, "run", outputs); err != nil {
			t.Fatal(err)
		}
		left, want := slices.Sorted(maps.Keys(disk.names)), slices.Sorted(slices.Values(mine))
		if !slices.Equal(left, want) {
			t.Errorf("with the record %q left\n%v\nwant\n%v", record, left, want)
		}
	}
}

// What is in a folder that no run began in is somebody's own, chunks and the record of
// another program too; where one began, nothing is.
func TestStrangers(t *testing.T) {
	outputs := []string{"points.csv", "charts/parity.png"}
	mine := []string{"charts/parity.png", "points.csv", "points/000003.parquet", "run.json"}
	fill := func(record string) string {
		dir := t.TempDir()
		for _, name := range append([]string{"notes.txt", "points/mine.parquet", ".points.csv.5.part"}, mine...) {
			text := "x"
			if name == RecordFile {
				text = record
			}
			if err := WriteFile(filepath.Join(dir, filepath.FromSlash(name)), func(w io.Writer) error { _, err := io.WriteString(w, text); return err }); err != nil {
				t.Fatal(err)
			}
		}
		return dir
	}
	for _, record := range []string{"x", "{}", `{"program": "another"}`} {
		dir := fill(record)
		var want []string
		for _, name := range mine {
			want = append(want, filepath.Join(dir, filepath.FromSlash(name)))
		}
		got, err := Strangers(Disk{}, dir, outputs)
		if slices.Sort(got); err != nil || !slices.Equal(got, want) {
			t.Errorf("with the record %s: %v (%v), want %v", record, got, err, want)
		}
		if err := Begin(Disk{}, dir, Identity{}); err != nil {
			t.Fatal(err)
		}
		if got, err := Strangers(Disk{}, dir, outputs); err != nil || got != nil {
			t.Errorf("once a run has begun: %v (%v)", got, err)
		}
	}
	if got, err := Strangers(Disk{}, fill(`{"program": "finduel"}`), outputs); err != nil || got != nil {
		t.Errorf("with the record of a run: %v (%v)", got, err)
	}
	if got, err := Strangers(Disk{}, filepath.Join(t.TempDir(), "none"), outputs); err != nil || got != nil {
		t.Errorf("of a folder that is not there: %v (%v)", got, err)
	}
	disk := newMemory()
	disk.fault = func(operation, path string) error { return errors.New("no disk") }
	if _, err := Strangers(disk, "run", outputs); err == nil {
		t.Error("a disk that fails is not told")
	}
}

// What a stopped run left half-written is removed once nobody can be writing it any
// more; what may still be written, and what is the owner's, stays.
func TestTidy(t *testing.T) {
	dir := t.TempDir()
	now := time.Date(2030, 1, 2, 3, 4, 5, 0, time.UTC)
	put := func(name string, age time.Duration) string {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte("x"), 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(path, now.Add(-age), now.Add(-age)); err != nil {
			t.Fatal(err)
		}
		return path
	}
	const day = 24 * time.Hour
	old := []string{put(".points.csv.1.part", 2*day), put("points/.000001.parquet.2.part", 25*time.Hour), put("charts/.parity.png.3.part", 300*day)}
	young := []string{put(".points.csv.4.part", 23*time.Hour), put("manifests/.000001.json.5.part", 0)}
	others := []string{put("points.csv", 2*day), put("points/000001.parquet", 2*day), put(".mine.1.part", 2*day), put("charts/parity.png", 2*day)}
	removed, left, err := Tidy(Disk{}, dir, []string{"points.csv", "charts/parity.png"}, now.Add(-day))
	if err != nil || !slices.Equal(slices.Sorted(slices.Values(removed)), slices.Sorted(slices.Values(old))) || !slices.Equal(left, young) {
		t.Errorf("removed %v, left %v (%v)", removed, left, err)
	}
	for _, path := range old {
		if _, err := os.Stat(path); err == nil {
			t.Errorf("%s is still there", path)
		}
	}
	for _, path := range slices.Concat(young, others) {
		if _, err := os.Stat(path); err != nil {
			t.Errorf("%s is gone", path)
		}
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

// A panic in the model is a failed point whose row has its inputs, in the chunks and in
// points.csv; the points beside it are what they are.
func TestAPanicIsAFailedPointWithItsInputs(t *testing.T) {
	p := planOf(t, 1000)
	disk := newMemory()
	s, err := Open(context.Background(), disk, "run", p, IdentityOf(p, 1, "v"), nil)
	if err != nil {
		t.Fatal(err)
	}
	panics := 0
	m := func(r model.Rig) (sweep.AtSpeed, error) {
		ready, err := sweep.Physics(r)
		return panicking{ready, &panics}, err
	}
	if err := sweep.Run(context.Background(), p, sweep.Options{Workers: 1, Model: m}, s.Missing(Shard{}), s.Keep); err != nil {
		t.Fatal(err)
	}
	var table bytes.Buffer
	if err := WritePoints(&table, &sweep.Results{Plan: p, Kept: s}); err != nil {
		t.Fatal(err)
	}
	found := 0
	for line := range strings.Lines(table.String()) {
		if strings.Contains(line, "the model stopped: injected") {
			if cells := strings.Split(line, ","); cells[1] == "" || cells[2] != "18000" || cells[3] != "failed" {
				t.Errorf("a row without its inputs: %s", line)
			}
			found++
		}
	}
	if panics == 0 || found != panics || s.Failed() < found || s.Failed() > s.Len()/2 {
		t.Errorf("%d panics, %d rows tell of them, %d of %d points failed", panics, found, s.Failed(), s.Len())
	}
}

// panicking stops at the greatest fan speed.
type panicking struct {
	sweep.AtSpeed
	panics *int
}

func (m panicking) At(speed float64) (model.State, error) {
	if speed == 300 {
		*m.panics++
		panic("injected")
	}
	return m.AtSpeed.At(speed)
}
