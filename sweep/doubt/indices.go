package doubt

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
)

// Index is the share of the variance of a result that belongs to a source, and how far
// the drawing leaves that share open.
type Index struct {
	Value     float64
	Low, High float64 // 95 % interval, by bootstrap; an estimate below zero has it reach below zero, and says no more than that the share is small
}

// Step returns to what value and ends of the index are worth printing, as of any number
// with this interval (see Band); 0 if the interval has no width.
func (i Index) Step() float64 { return resolution((i.High - i.Low) / 4) }

// Indices are the sensitivities of one result to its variables, in their order.
type Indices struct {
	First []Index // variance that goes on average if the variable alone were known
	Total []Index // variance that would stay if all but the variable were known
}

// design is what a pick-freeze computation of indices looked at: the result for the
// rows of two independent samples a and b, and for a with one variable after another
// taken from b.
type design struct {
	a, b  []float64
	mixed [][]float64 // by variable
}

// wholeRow is what changed of a row of its own: everything.
const wholeRow = -1

// pick evaluates designs, one for each of so many results: f for n rows of two Latin
// hypercubes that are independent of one another. f takes the values of the variables,
// which of them alone differs from the last whole row, or wholeRow, and writes the results.
func pick(cubeA, cubeB [][]float64, results int, f func(row []float64, changed int, into []float64)) []design {
	k, n := len(cubeA), len(cubeA[0])
	designs := make([]design, results)
	for r := range designs {
		d := design{a: make([]float64, n), b: make([]float64, n), mixed: make([][]float64, k)}
		for j := range d.mixed {
			d.mixed[j] = make([]float64, n)
		}
		designs[r] = d
	}
	row, into := make([]float64, k), make([]float64, results)
	ask := func(cube [][]float64, i int) {
		for j := range row {
			row[j] = cube[j][i]
		}
		f(row, wholeRow, into)
	}
	for i := range n {
		ask(cubeB, i)
		for r, v := range into {
			designs[r].b[i] = v
		}
		ask(cubeA, i)
		for r, v := range into {
			designs[r].a[i] = v
		}
		for j := range row {
			row[j] = cubeB[j][i]
			f(row, j, into)
			for r, v := range into {
				designs[r].mixed[j][i] = v
			}
			row[j] = cubeA[j][i]
		}
	}
	return designs
}

// errNoVariance is why a result that never changes has no indices.
var errNoVariance = errors.New("the result is the same in every draw: there is no variance to share out")

// check returns why a design has no indices: a share of the variance means nothing if
// part of the draws has no finite result.
func (d *design) check() error {
	if len(d.a) < 2 {
		return errors.New("fewer than two draws")
	}
	bad, all := 0, 0
	for _, column := range append([][]float64{d.a, d.b}, d.mixed...) {
		for _, v := range column {
			all++
			if math.IsNaN(v) || math.IsInf(v, 0) {
				bad++
			}
		}
	}
	if bad > 0 {
		return fmt.Errorf("%.3g %% of the draws have no such value: shares of a variance mean nothing then", 100*float64(bad)/float64(all))
	}
	if m := momentsOf(d.a, d.b); !(m.variance > 1e-24*m.mean*m.mean) {
		return errNoVariance
	}
	return nil
}

// moments are mean and variance of both samples together.
type moments struct{ mean, variance float64 }

func momentsOf(a, b []float64) moments {
	var m moments
	n := 0.0
	for _, column := range [][]float64{a, b} {
		for _, v := range column {
			n++
			d := v - m.mean
			m.mean += d / n
			m.variance += d * (v - m.mean)
		}
	}
	m.variance /= n
	return m
}

// shares returns first-order and total index of every variable from the rows picked:
//
//	S_j = mean(f_B (f_ABj − f_A)) / V       [4] Table 2 (b)
//	T_j = mean((f_A − f_ABj)²) / (2 V)      [5]
//
// f less its mean; V of both samples. Check: Ishigami's function [6] with a = 7,
// b = 0.1 has S 0.3139, 0.4424, 0 and T 0.5576, 0.4424, 0.2437.
func (d *design) shares(rows []int, first, total []float64) {
	mean, v := 0.0, 0.0
	for _, i := range rows {
		mean += d.a[i] + d.b[i]
	}
	mean /= 2 * float64(len(rows))
	for _, i := range rows {
		v += (d.a[i]-mean)*(d.a[i]-mean) + (d.b[i]-mean)*(d.b[i]-mean)
	}
	v /= 2
	for j, column := range d.mixed {
		s, t := 0.0, 0.0
		for _, i := range rows {
			change := column[i] - d.a[i]
			s += (d.b[i] - mean) * change
			t += change * change
		}
		first[j], total[j] = s/v, t/(2*v)
	}
}

// resamples is how often the rows are drawn again for an interval.
const resamples = 400

// indices returns the indices of a design with their intervals: percentiles of what
// rows drawn again with replacement give. It returns why there are none if the design
// is broken.
func (d *design) indices(src rand.Source) (Indices, error) {
	if err := d.check(); err != nil {
		return Indices{}, err
	}
	n, k := len(d.a), len(d.mixed)
	rows := make([]int, n)
	for i := range rows {
		rows[i] = i
	}
	first, total := make([]float64, k), make([]float64, k)
	d.shares(rows, first, total)
	again := rand.New(src)
	firsts, totals := make([][]float64, k), make([][]float64, k)
	f, t := make([]float64, k), make([]float64, k)
	for range resamples {
		for i := range rows {
			rows[i] = again.IntN(n)
		}
		d.shares(rows, f, t)
		for j := range k {
			firsts[j], totals[j] = append(firsts[j], f[j]), append(totals[j], t[j])
		}
	}
	var x Indices
	for j := range k {
		x.First = append(x.First, indexOf(first[j], firsts[j]))
		x.Total = append(x.Total, indexOf(total[j], totals[j]))
	}
	return x, nil
}

// indexOf returns an estimate with the 95 % interval of its resamples, widened to hold
// the estimate.
func indexOf(value float64, again []float64) Index {
	slices.Sort(again)
	at := func(p float64) float64 { return again[int(p*float64(len(again)-1)+0.5)] }
	return Index{Value: value, Low: math.Min(value, at(bandAt[0])), High: math.Max(value, at(bandAt[2]))}
}
