package archive

import (
	"context"
	"fmt"
	"io"
	"testing"

	"finduel/sweep"
	"finduel/sweep/breakeven"
)

// BenchmarkSweep runs whole sweeps along fan speed into chunks on the disk: the cost of
// a point must not grow with their number, and must fall with the workers.
func BenchmarkSweep(b *testing.B) {
	for _, c := range []struct{ points, workers int }{{10_000, 1}, {100_000, 1}, {1_000_000, 1}, {1_000_000, 2}} {
		p := planOf(b, c.points)
		b.Run(fmt.Sprintf("points=%d/workers=%d", c.points, c.workers), func(b *testing.B) {
			for b.Loop() {
				sweepInto(b, p, b.TempDir(), c.workers)
			}
			perPoint(b, p)
		})
	}
}

// BenchmarkTables reads a million points back: as rows, and as points.csv.
func BenchmarkTables(b *testing.B) {
	p := planOf(b, 1_000_000)
	results := &sweep.Results{Plan: p, Kept: sweepInto(b, p, b.TempDir(), 2)}
	b.Run("rows", func(b *testing.B) {
		for b.Loop() {
			for range results.Each {
			}
		}
		perPoint(b, p)
	})
	b.Run("csv", func(b *testing.B) {
		for b.Loop() {
			if err := WritePoints(io.Discard, results); err != nil {
				b.Fatal(err)
			}
		}
		perPoint(b, p)
	})
	if err := results.Err(); err != nil {
		b.Fatal(err)
	}
}

// sweepInto computes a plan into a folder.
func sweepInto(b *testing.B, p *sweep.Plan, folder string, workers int) *Store {
	s, err := Open(context.Background(), Disk{}, folder, p, IdentityOf(p, 1, "v"), nil)
	if err != nil {
		b.Fatal(err)
	}
	if err := sweep.Run(context.Background(), p, sweep.Options{Workers: workers}, s.Missing(Shard{}), s.Keep); err != nil {
		b.Fatal(err)
	}
	return s
}

func perPoint(b *testing.B, p *sweep.Plan) {
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*p.Points()), "ns/point")
}

// BenchmarkEncode makes a file of the rows of one chunk.
func BenchmarkEncode(b *testing.B) {
	p := planOf(b, 1_000_000)
	rows := rowsOf(b, p, p.Chunk(3))
	table := tableOf(p, IdentityOf(p, 1, "v"))
	e := new(encoder)
	size := 0
	for b.Loop() {
		data, err := e.encode(table, rows)
		if err != nil {
			b.Fatal(err)
		}
		size = len(data)
	}
	n := float64(len(rows))
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/n, "ns/point")
	b.ReportMetric(float64(size)/n, "bytes/point")
}

// BenchmarkAnswers reads the answers of a thousand designs back.
func BenchmarkAnswers(b *testing.B) {
	p := planOf(b, 50_000)
	a, err := KeepAnswers(context.Background(), b.TempDir(), p, sweep.Options{})
	if err != nil {
		b.Fatal(err)
	}
	defer a.Close()
	for b.Loop() {
		if err := a.Each(func(*breakeven.Answer) bool { return true }); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*a.Len()), "ns/design")
	b.ReportMetric(float64(a.end)/float64(a.Len()), "bytes/design")
}
