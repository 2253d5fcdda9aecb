package archive

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"strings"
	"syscall"
	"testing"

	"finduel/sweep"
)

// runInto computes a shard of a plan into a folder and leaves its record there.
func runInto(t *testing.T, disk FileSystem, folder string, p *sweep.Plan, id Identity, shard Shard, workers int) {
	t.Helper()
	s, err := Open(context.Background(), disk, folder, p, id, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := sweep.Run(context.Background(), p, sweep.Options{Workers: workers}, s.Missing(shard), s.Keep); err != nil {
		t.Fatal(err)
	}
	writeRecord(t, disk, folder, id, shard)
}

func writeRecord(t *testing.T, disk FileSystem, folder string, id Identity, shard Shard) {
	t.Helper()
	if err := writeFile(disk, folder+"/"+RecordFile, func(w io.Writer) error {
		return WriteRecord(w, Record{Version: id.Version, Study: id.Study, Hash: id.Hash, Seed: id.Seed, Points: id.Points, Shard: shard.String()})
	}); err != nil {
		t.Fatal(err)
	}
}

// sums returns the SHA-256 of every file in a folder but the record.
func sums(disk *memory, folder string) map[string]string {
	all := map[string]string{}
	for path, data := range disk.contents() {
		if name, in := strings.CutPrefix(path, folder+"/"); in && name != RecordFile {
			all[name] = checksum([]byte(data))
		}
	}
	return all
}

// Any number of workers and any number of shards give the same bytes.
func TestWorkersAndShardsGiveTheSameBytes(t *testing.T) {
	p := planOf(t, 20000)
	id := IdentityOf(p, 1, "v")
	disk := newMemory()
	runInto(t, disk, "alone", p, id, Shard{}, 1)
	want := sums(disk, "alone")
	if len(want) != 2*p.Chunks() || p.Chunks() < 16 {
		t.Fatalf("%d files of %d chunks", len(want), p.Chunks())
	}
	for _, n := range []int{1, 2, 3, 7, 16, 64} {
		workers := fmt.Sprintf("workers-%d", n)
		runInto(t, disk, workers, p, id, Shard{}, n)
		if !maps.Equal(sums(disk, workers), want) {
			t.Errorf("%d workers give other bytes than one", n)
		}
		var folders []string
		for k := n; k >= 1; k-- {
			folder := fmt.Sprintf("shard-%d-of-%d", k, n)
			runInto(t, disk, folder, p, id, Shard{k, n}, 1+k%3)
			folders = append(folders, folder)
		}
		merged := fmt.Sprintf("merged-%d", n)
		if _, err := Merge(context.Background(), disk, folders, merged, p, id, func() error { return nil }); err != nil {
			t.Fatal(err)
		}
		if !maps.Equal(sums(disk, merged), want) {
			t.Errorf("%d shards merge to other bytes than one run", n)
		}
		for _, folder := range append(folders, workers, merged) {
			maps.DeleteFunc(disk.names, func(path string, _ *content) bool { return strings.HasPrefix(path, folder+"/") })
		}
	}
}

// Two shards that are both whole and differ in a chunk conflict; so does a chunk that
// is in the merged folder already.
func TestConflictingShardsAreRefused(t *testing.T) {
	j := newJob(t, 2500)
	disk := newMemory()
	other := 3.0
	for folder, change := range map[string]float64{"a": 0, "b": other} {
		s, err := Open(context.Background(), disk, folder, j.plan, j.id, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, span := range s.Missing(Shard{}) {
			rows := append([]sweep.Row(nil), j.rows[span]...)
			if s.plan.ChunkOf(span.From) == 1 {
				rows[5].State.Sound += change
			}
			if err := s.Keep(span, rows); err != nil {
				t.Fatal(err)
			}
		}
		writeRecord(t, disk, folder, j.id, Shard{1, 1})
	}
	var refusal *Refusal
	_, err := Merge(context.Background(), disk, []string{"a", "b"}, "out", j.plan, j.id, func() error { return nil })
	if !errors.As(err, &refusal) || len(refusal.Causes) != 1 || refusal.Causes[0] != "a/points/000001.parquet and b/points/000001.parquet conflict: they are the same chunk and differ" {
		t.Errorf("got %v", err)
	}
	if len(sums(disk, "out")) != 0 {
		t.Error("something was merged")
	}
	if _, err := Merge(context.Background(), disk, []string{"a"}, "out", j.plan, j.id, func() error { return nil }); err != nil {
		t.Fatal(err)
	}
	if _, err := Merge(context.Background(), disk, []string{"b"}, "out", j.plan, j.id, func() error { return nil }); !errors.As(err, &refusal) {
		t.Errorf("a chunk that differs from what is merged already is not refused: %v", err)
	}
}

// A merge that cannot write says so, and goes on afterwards to the same bytes.
func TestAMergeMayFail(t *testing.T) {
	j := newJob(t, 2500)
	disk := newMemory()
	for k := 1; k <= 2; k++ {
		runInto(t, disk, fmt.Sprint(k), j.plan, j.id, Shard{k, 2}, 2)
	}
	want := map[string]string{}
	maps.Copy(want, sums(disk, "1"))
	maps.Copy(want, sums(disk, "2"))
	delivered := 0
	for n := 1; ; n++ {
		writes := 0
		disk.fault = func(operation, path string) error {
			if operation == "write" {
				if writes++; writes == n {
					delivered++
					return syscall.ENOSPC
				}
			}
			return nil
		}
		_, err := Merge(context.Background(), disk, []string{"1", "2"}, "out", j.plan, j.id, func() error { return nil })
		disk.fault = nil
		if err == nil {
			break
		}
		if !errors.Is(err, syscall.ENOSPC) {
			t.Fatal(err)
		}
	}
	if delivered == 0 || !maps.Equal(sums(disk, "out"), want) {
		t.Errorf("after %d failed merges the bytes differ", delivered)
	}
}
