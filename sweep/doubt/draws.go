package doubt

import (
	"encoding/binary"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/stat/sampleuv"

	"finduel/sweep/study"
)

// standard returns the distribution of a shape in units of its half-width: from −1 to
// 1 for rectangular and triangular ones (GUM 4.3.7 and 4.3.9 [1]: limits that are not
// exceeded), with a standard deviation of ½ for normal ones (GUM 4.3.4: a stated
// interval of 95 %, with the usual factor 2).
//
// Check: standard deviations 1/√3, 1/√6 and ½.
func standard(s study.Shape) distuv.Quantiler {
	switch s {
	case study.Normal:
		return distuv.Normal{Mu: 0, Sigma: 0.5}
	case study.Triangular:
		return distuv.NewTriangle(-1, 1, 0, nil)
	}
	return distuv.Uniform{Min: -1, Max: 1}
}

// within returns a normal distribution, in units of a half-width, of which the share
// given, above 0 and below 1, lies within the half-width.
//
// Check: a share of 0.9545 has a standard deviation of ½.
func within(share float64) distuv.Quantiler {
	return distuv.Normal{Mu: 0, Sigma: 1 / distuv.UnitNormal.Quantile((1+share)/2)}
}

// blockSize is how many draws are made at a time. Each block is a Latin hypercube of
// its own, independent of the others, so that what blocks say of a result scatters as
// JCGM 101 7.9.4 [2] asks for.
const blockSize = 250

// The streams of random numbers that a seed has.
const (
	streamDraws uint64 = iota
	streamIndices
	streamBootstrap
	streamMeasured
)

// source returns a source of random numbers that depends on the seed, the stream and
// the number of a block alone.
func source(seed, stream, block uint64) rand.Source {
	var key [32]byte
	binary.LittleEndian.PutUint64(key[0:], seed)
	binary.LittleEndian.PutUint64(key[8:], stream)
	binary.LittleEndian.PutUint64(key[16:], block)
	return rand.NewChaCha8(key)
}

// hypercube returns a Latin hypercube of n draws [3] of independent variables, in
// units of their half-widths: of each variable, every n-th part of its distribution is
// drawn once. The first index is the variable's.
func hypercube(variables []distuv.Quantiler, n int, src rand.Source) [][]float64 {
	all := make([]float64, n*len(variables))
	cube := make([][]float64, len(variables))
	for i, q := range variables {
		cube[i] = all[i*n : (i+1)*n : (i+1)*n]
		sampleuv.LatinHypercube{Q: q, Src: src}.Sample(cube[i])
	}
	return cube
}
