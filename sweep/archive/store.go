package archive

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"

	"golang.org/x/sync/errgroup"

	"finduel/sweep"
)

// Store is the chunks of one run in a folder.
type Store struct {
	disk   FileSystem
	folder string
	plan   *sweep.Plan
	id     Identity
	table  *table
	model  sweep.Model // whose answers are kept

	encoders sync.Pool // of *encoder

	mu      sync.Mutex
	chunks  []*Manifest // nil: the chunk is not there
	damaged []bool      // when the folder was opened
	loaded  int         // the chunk whose rows are held; -1: none
	rows    []sweep.Row
	Found   Found
}

// Found is what a folder held when it was opened.
type Found struct {
	Chunks  int      // whole chunks of this run
	Points  int      // their points, excluded ones included
	Damaged []string // chunks that are there and not what they should be, each with what is wrong; they are computed again
}

// Refusal says why the folder of a run is not used, each cause in a clause of its own.
type Refusal struct{ Causes []string }

// Error returns the causes.
func (r *Refusal) Error() string { return strings.Join(r.Causes, "; ") }

// Open looks at what is in a folder, which need not be there, and verifies every
// chunk of the run. If m is not nil it is the model whose answers are kept, else that is
// sweep.Physics; if it is not nil, a few points of every chunk are asked again, and a
// chunk whose model said otherwise counts as damaged. It returns a *Refusal if the folder
// holds another run.
func Open(ctx context.Context, disk FileSystem, folder string, plan *sweep.Plan, id Identity, m sweep.Model) (*Store, error) {
	s := &Store{
		disk: disk, folder: folder, plan: plan, id: id, table: tableOf(plan, id),
		chunks: make([]*Manifest, plan.Chunks()), damaged: make([]bool, plan.Chunks()), loaded: -1, model: m,
		encoders: sync.Pool{New: func() any { return new(encoder) }},
	}
	if s.model == nil {
		s.model = sweep.Physics
	}
	if err := s.refuseOther(); err != nil {
		return nil, err
	}
	damage := make([]string, len(s.chunks))
	pool, inner := errgroup.WithContext(ctx)
	pool.SetLimit(runtime.GOMAXPROCS(0))
	for i := range s.chunks {
		pool.Go(func() error {
			if err := inner.Err(); err != nil {
				return err
			}
			found, err := s.verify(i, m != nil)
			switch {
			case errors.Is(err, errDamaged):
				damage[i] = err.Error()
			case err != nil && !errors.Is(err, fs.ErrNotExist):
				return fmt.Errorf("cannot read a chunk: %w", err)
			}
			s.chunks[i] = found
			return nil
		})
	}
	if err := pool.Wait(); err != nil {
		return nil, err
	}
	for i, c := range s.chunks {
		if c != nil {
			span := plan.Chunk(i)
			s.Found.Chunks++
			s.Found.Points += span.To - span.From
		}
		if s.damaged[i] = damage[i] != ""; s.damaged[i] {
			s.Found.Damaged = append(s.Found.Damaged, damage[i])
		}
	}
	return s, nil
}

// refuseOther returns a *Refusal if the folder holds chunks of another run. What is
// not whole enough to tell whose it is counts as damaged.
func (s *Store) refuseOther() error {
	refuse := func(format string, values ...any) error {
		return &Refusal{Causes: []string{fmt.Sprintf(format, values...)}}
	}
	for _, sub := range []string{pointsFolder, manifestsFolder} {
		entries, err := s.disk.List(filepath.Join(s.folder, sub))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("cannot look into the folder: %w", err)
		}
		for _, e := range entries {
			path := filepath.Join(s.folder, sub, e.Name())
			var chunk int
			if n, _ := fmt.Sscanf(e.Name(), "%06d.", &chunk); n == 0 || path != dataPath(s.folder, chunk) && path != manifestPath(s.folder, chunk) {
				continue
			}
			if m, err := readManifest(s.disk, s.folder, chunk); err == nil && m.identity() != s.id {
				return s.other(m.identity())
			}
			if chunk >= len(s.chunks) {
				return refuse("%s is no chunk of this run, which has %d", path, len(s.chunks))
			}
		}
	}
	return nil
}

// other is the refusal of the chunks of another run.
func (s *Store) other(is Identity) error {
	what := fmt.Sprintf("%s holds another run: ", s.folder)
	switch {
	case is.Hash != s.id.Hash:
		what += fmt.Sprintf("of another study, or of this one before it was changed, whose hash begins with %s; this one's with %s", begin(is.Hash), begin(s.id.Hash))
	case is.Version != s.id.Version:
		what += fmt.Sprintf("by finduel %s; this is %s", is.Version, s.id.Version)
	case is.Seed != s.id.Seed:
		what += fmt.Sprintf("with the seed %d; this one has %d", is.Seed, s.id.Seed)
	default:
		what += fmt.Sprintf("of %d points in chunks of %d; this one has %d in chunks of %d", is.Points, is.Chunk, s.id.Points, s.id.Chunk)
	}
	return &Refusal{Causes: []string{what}}
}

// begin returns as much of a hash as tells two apart; run.json has all of it.
func begin(hash string) string { return hash[:min(len(hash), 12)] }

// verify returns the manifest of a chunk that is there and whole, and if asked that the
// model would make today.
func (s *Store) verify(chunk int, ask bool) (*Manifest, error) {
	found, err := readManifest(s.disk, s.folder, chunk)
	if err != nil {
		return nil, err
	}
	if _, err := readData(s.disk, s.folder, found); errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%s: %w: its data are not there", manifestPath(s.folder, chunk), errDamaged)
	} else if err != nil {
		return nil, err
	}
	if !ask {
		return found, nil
	}
	span := s.plan.Chunk(chunk)
	if found.Probe != s.probe(span, sweep.Stretch(s.plan, s.model, start(span))) {
		return nil, fmt.Errorf("%s: %w: the model says otherwise now", dataPath(s.folder, chunk), errDamaged)
	}
	return found, nil
}

// Plan returns the plan whose points the store holds.
func (s *Store) Plan() *sweep.Plan { return s.plan }

// PointsOf returns how many points a shard has, excluded ones included, ChunksOf how
// many chunks.
func (s *Store) PointsOf(shard Shard) int {
	n := 0
	for i := range s.chunks {
		if span := s.plan.Chunk(i); shard.Has(i) {
			n += span.To - span.From
		}
	}
	return n
}

// ChunksOf returns how many chunks a shard has.
func (s *Store) ChunksOf(shard Shard) int {
	n := 0
	for i := range s.chunks {
		if shard.Has(i) {
			n++
		}
	}
	return n
}

// Complete returns a *Refusal if a chunk is not there, or is not what it should be.
func (s *Store) Complete() error {
	missing := len(s.Missing(Shard{}))
	if missing == 0 {
		return nil
	}
	what := fmt.Sprintf("%s is not complete: missing or damaged chunks of points: %d of %d", s.folder, missing, len(s.chunks))
	return &Refusal{Causes: append([]string{what}, s.Found.Damaged...)}
}

// SeedOf returns the seed of the run whose chunks are in a folder: that of the first
// chunk that can be read. It returns a *Refusal if there is none.
func SeedOf(disk FileSystem, folder string) (uint64, error) {
	entries, err := disk.List(filepath.Join(folder, manifestsFolder))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return 0, fmt.Errorf("cannot look into the folder: %w", err)
	}
	for _, e := range entries {
		var chunk int
		if n, _ := fmt.Sscanf(e.Name(), "%06d.json", &chunk); n == 0 {
			continue
		}
		if m, err := readManifest(disk, folder, chunk); err == nil {
			return m.Seed, nil
		}
	}
	return 0, &Refusal{Causes: []string{folder + " holds no points of a run"}}
}

// Recheck returns a *Refusal if another run has written into the folder since it was
// opened, or has begun there, even if it has no chunk yet. Of two runs that Begin, keep
// their chunks and then ask this, in one folder, at most one is told that all is well: one
// that began when the other had kept a chunk cannot keep that chunk.
func (s *Store) Recheck() error {
	if err := s.refuseBegun(); err != nil {
		return err
	}
	return s.refuseOther()
}

// refuseBegun returns a *Refusal if another run was the last that began in the folder.
func (s *Store) refuseBegun() error {
	var begun Identity
	data, err := readFile(s.disk, filepath.Join(s.folder, manifestsFolder, identityName))
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return fmt.Errorf("cannot look into the folder: %w", err)
	case json.Unmarshal(data, &begun) == nil && begun != s.id:
		return s.other(begun)
	}
	return nil
}

// Missing returns the chunks of a shard that are not there.
func (s *Store) Missing(shard Shard) []sweep.Span {
	var spans []sweep.Span
	for i, c := range s.chunks {
		if c == nil && shard.Has(i) {
			spans = append(spans, s.plan.Chunk(i))
		}
	}
	return spans
}

// Keep writes the rows of a chunk. It may be called for several chunks at a time. It
// returns a *Refusal if another run, begun at the same time, has written that chunk or
// begun later.
func (s *Store) Keep(span sweep.Span, rows []sweep.Row) error {
	e := s.encoders.Get().(*encoder)
	defer s.encoders.Put(e)
	data, err := e.encode(s.table, rows)
	if err != nil {
		return fmt.Errorf("cannot write points %d to %d: %w", span.From, span.To-1, err)
	}
	m := &Manifest{
		Version: s.id.Version, Study: s.id.Study, Hash: s.id.Hash, Seed: s.id.Seed, Points: s.id.Points, Size: s.id.Chunk,
		Chunk: s.plan.ChunkOf(span.From), First: span.From, Rows: len(rows),
		Bytes: int64(len(data)), SHA256: checksum(data),
	}
	for i := range rows {
		if rows[i].Failure != "" {
			m.Failed++
		}
	}
	first, _ := slices.BinarySearchFunc(rows, start(span).To, func(row sweep.Row, k int) int { return row.Point - k })
	m.Probe = s.probe(span, rows[:first])
	if err := s.refuseTaken(m.Chunk); err != nil { // as late as possible
		return err
	}
	if err := writeChunk(s.disk, s.folder, m, data); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.chunks[m.Chunk] = m
	return nil
}

// refuseTaken returns a *Refusal if a chunk is there and of another run, or another run
// was the last that began.
func (s *Store) refuseTaken(chunk int) error {
	if err := s.refuseBegun(); err != nil {
		return err
	}
	there, err := readManifest(s.disk, s.folder, chunk)
	switch {
	case err == nil && there.identity() != s.id:
		return s.other(there.identity())
	case err != nil && !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, errDamaged):
		return err
	}
	return nil
}

// Len returns how many rows the chunks hold.
func (s *Store) Len() int {
	rows, _ := s.RowsOf(Shard{})
	return rows
}

// Failed returns how many of them have no value.
func (s *Store) Failed() int {
	_, failed := s.RowsOf(Shard{})
	return failed
}

// RowsOf returns how many rows the chunks of a shard hold, and how many of them have no
// value. A folder may have chunks of other shards beside them.
func (s *Store) RowsOf(shard Shard) (rows, failed int) {
	for i, m := range s.chunks {
		if m != nil && shard.Has(i) {
			rows, failed = rows+m.Rows, failed+m.Failed
		}
	}
	return rows, failed
}

// read returns the rows of a chunk, appended to rows.
func (s *Store) read(chunk int, rows []sweep.Row) ([]sweep.Row, error) {
	m := s.chunks[chunk]
	if m == nil {
		return rows, nil
	}
	data, err := readData(s.disk, s.folder, m)
	if err != nil {
		return rows, fmt.Errorf("cannot read points back: %w", err)
	}
	if rows, err = s.table.decode(data, rows); err != nil {
		return rows, fmt.Errorf("cannot read %s back: %w", dataPath(s.folder, chunk), err)
	}
	return rows, nil
}

// Each hands over every row of the chunks that are there, by point number. While the
// rows of a chunk are looked at the next one is read.
func (s *Store) Each(yield func(*sweep.Row) bool) error {
	type read struct {
		rows []sweep.Row
		err  error
	}
	next := make(chan read)
	free := make(chan []sweep.Row, 2)
	free <- nil
	free <- nil
	over := make(chan struct{})
	defer close(over)
	go func() {
		defer close(next)
		for i := range s.chunks {
			select {
			case rows := <-free:
				rows, err := s.read(i, rows[:0])
				select {
				case next <- read{rows, err}:
				case <-over:
					return
				}
			case <-over:
				return
			}
		}
	}()
	for r := range next {
		if r.err != nil {
			return r.err
		}
		for i := range r.rows {
			if !yield(&r.rows[i]) {
				return nil
			}
		}
		free <- r.rows
	}
	return nil
}

// Row returns the row of point k, and false if it is left out or not there. The
// chunk it is in stays in memory until a row of another one is asked for.
func (s *Store) Row(k int) (*sweep.Row, bool, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if chunk := s.plan.ChunkOf(k); chunk != s.loaded {
		rows, err := s.read(chunk, s.rows[:0])
		s.loaded, s.rows = chunk, rows
		if err != nil {
			s.loaded = -1
			return nil, false, err
		}
	}
	row, ok := find(s.rows, k)
	if !ok {
		return nil, false, nil
	}
	kept := *row
	return &kept, true, nil
}

// find returns the row of point k among rows in order.
func find(rows []sweep.Row, k int) (*sweep.Row, bool) {
	i, ok := slices.BinarySearchFunc(rows, k, func(row sweep.Row, k int) int { return row.Point - k })
	if !ok {
		return nil, false
	}
	return &rows[i], true
}
