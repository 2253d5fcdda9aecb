package sweep

// Span is a stretch of consecutive points: From and those after it, up to To, which
// is not part of it.
type Span struct{ From, To int }

// A chunk is what is computed and written as a whole. It is large enough that
// handing it out and writing it cost little beside its points, small enough that
// many workers' chunks fit into memory, and a plan has enough of them, wherever it
// has the points, that workers and shards are done at about the same time.
const (
	leastInChunk  = 1024
	mostInChunk   = 16384
	chunksOfAPlan = 64
)

// ChunkPoints returns how many points a chunk of the plan has, the last one apart:
// a power of two that follows from the number of points alone.
func (p *Plan) ChunkPoints() int {
	n := leastInChunk
	for n < mostInChunk && n*chunksOfAPlan < p.total {
		n *= 2
	}
	return n
}

// Chunks returns the number of chunks.
func (p *Plan) Chunks() int { return (p.total + p.ChunkPoints() - 1) / p.ChunkPoints() }

// Chunk returns the points of chunk i.
func (p *Plan) Chunk(i int) Span {
	n := p.ChunkPoints()
	return Span{From: i * n, To: min((i+1)*n, p.total)}
}

// ChunkOf returns the chunk that point k is in.
func (p *Plan) ChunkOf(k int) int { return k / p.ChunkPoints() }
