package archive

import (
	"context"
	"errors"
	"fmt"
	"io/fs"

	"finduel/sweep"
)

// Merge joins the shards of a run, each in a folder of its own, into one folder. It
// looks at all of them first and returns a *Refusal with every cause if one is not
// finished, of another run, cut otherwise, damaged or missing, or if a chunk is there
// twice and differs. A shard that is there twice and equal is no matter. begin is called
// once the shards fit, before anything is written.
func Merge(ctx context.Context, disk FileSystem, folders []string, into string, plan *sweep.Plan, id Identity, begin func() error) (*Store, error) {
	refusal := &Refusal{}
	refuse := func(format string, values ...any) {
		refusal.Causes = append(refusal.Causes, fmt.Sprintf(format, values...))
	}
	merged, err := Open(ctx, disk, into, plan, id, nil)
	if err != nil {
		return nil, err
	}
	of := 0
	seen := map[int]bool{}
	from := make([]*Store, len(merged.chunks)) // where each chunk is taken from
	take := func(s *Store, chunk int) {
		m := s.chunks[chunk]
		for _, other := range []*Store{from[chunk], merged} {
			if other != nil && other.chunks[chunk] != nil && other.chunks[chunk].SHA256 != m.SHA256 {
				refuse("%s and %s conflict: they are the same chunk and differ", dataPath(other.folder, chunk), dataPath(s.folder, chunk))
				return
			}
		}
		from[chunk] = s
	}
	for _, folder := range folders {
		record, err := ReadRecord(disk, folder)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			refuse("%s has no %s: it is no shard, or its run did not finish", folder, RecordFile)
			continue
		case errors.Is(err, errDamaged):
			refuse("%v", err)
			continue
		case err != nil:
			return nil, fmt.Errorf("cannot read a shard: %w", err)
		}
		shard, err := ParseShard(record.Shard)
		if err != nil {
			refuse("%s is no shard but a whole run", folder)
			continue
		}
		if other := record.identity(id); other != id {
			refuse("%v", (&Store{folder: folder, id: id}).other(other))
			continue
		}
		if of == 0 {
			of = shard.Of
		}
		if shard.Of != of {
			refuse("%s is cut otherwise: it is shard %s, others are of %d", folder, shard, of)
			continue
		}
		seen[shard.Number] = true
		s, err := Open(ctx, disk, folder, plan, id, nil)
		if other := (*Refusal)(nil); errors.As(err, &other) {
			refusal.Causes = append(refusal.Causes, other.Causes...)
			continue
		}
		if err != nil {
			return nil, err
		}
		refusal.Causes = append(refusal.Causes, s.Found.Damaged...)
		for i, m := range s.chunks {
			switch {
			case m != nil:
				take(s, i)
			case shard.Has(i) && !s.damaged[i]:
				refuse("%s is missing, of shard %s", dataPath(folder, i), shard)
			}
		}
	}
	for k := 1; k <= of; k++ {
		if !seen[k] {
			refuse("shard %d/%d is missing", k, of)
		}
	}
	if len(refusal.Causes) > 0 {
		return nil, refusal
	}
	if err := begin(); err != nil {
		return nil, err
	}
	for i, s := range from {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if merged.chunks[i] != nil {
			continue
		}
		data, err := readData(disk, s.folder, s.chunks[i])
		if err != nil {
			return nil, fmt.Errorf("cannot read a shard: %w", err)
		}
		if err := merged.refuseTaken(i); err != nil {
			return nil, err
		}
		if err := writeChunk(disk, into, s.chunks[i], data); err != nil {
			return nil, err
		}
		merged.chunks[i] = s.chunks[i]
	}
	return merged, nil
}

// identity returns the identity of the run that a record is of; what a record does
// not tell is taken to be as in like.
func (r *Record) identity(like Identity) Identity {
	return Identity{Study: r.Study, Hash: r.Hash, Seed: r.Seed, Version: r.Version, Points: r.Points, Chunk: like.Chunk}
}
