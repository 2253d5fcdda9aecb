package archive

import (
	"fmt"
	"strconv"
	"strings"
)

// Shard is a share of a run's chunks: those whose number, from 1, leaves Number when
// they are dealt out in turn to Of shards. The zero Shard is the whole run.
type Shard struct {
	Number int // from 1
	Of     int // 0: the run is not shared out
}

// Whole reports whether the shard is the whole run.
func (s Shard) Whole() bool { return s.Of == 0 }

// Has reports whether a chunk belongs to the shard. A shard may have none.
func (s Shard) Has(chunk int) bool { return s.Whole() || chunk%s.Of == s.Number-1 }

// String returns the shard as ParseShard reads it; empty for the whole run.
func (s Shard) String() string {
	if s.Whole() {
		return ""
	}
	return fmt.Sprintf("%d/%d", s.Number, s.Of)
}

// ParseShard reads a shard: "3/8" is the third of eight.
func ParseShard(text string) (Shard, error) {
	number, of, _ := strings.Cut(text, "/")
	k, err := strconv.Atoi(number)
	n, errOf := strconv.Atoi(of)
	switch {
	case err != nil || errOf != nil:
		return Shard{}, fmt.Errorf("%q is no shard: write the number of the shard and how many there are, e.g. 3/8", text)
	case n < 1:
		return Shard{}, fmt.Errorf("%q: there must be at least one shard", text)
	case k == 0:
		return Shard{}, fmt.Errorf("%q: shards count from 1, so that 1/%d is the first and %d/%d the last", text, n, n, n)
	case k < 1 || k > n:
		return Shard{}, fmt.Errorf("%q: of %d shards the first is 1/%d and the last %d/%d", text, n, n, n, n)
	}
	return Shard{Number: k, Of: n}, nil
}
