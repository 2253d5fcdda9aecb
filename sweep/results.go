package sweep

import (
	"sort"

	"finduel/model"
)

// Row is one point of a plan, evaluated.
type Row struct {
	Point     int         // its number
	State     model.State // the challenger's; meaningful if Failure is empty
	Reference float64     // the reference's metric under the same conditions, K; meaningful if Failure is empty
	Failure   string      // why the point has no value; empty if it has one
}

// Rows is where the rows of a run are kept, by point number, excluded points left
// out.
type Rows interface {
	// Each hands over every row until yield returns false. A row may be changed by
	// nobody and is only there until yield returns. The error says why rows could not
	// be read.
	Each(yield func(*Row) bool) error
	// Row returns the row of point k, and false if the study leaves the point out.
	Row(k int) (*Row, bool, error)
	// Len returns how many rows there are, Failed how many of them have no value.
	Len() int
	Failed() int
}

// Results are the evaluated points of a plan.
type Results struct {
	Plan *Plan

	// Kept is where the rows are. If it is nil they are in Rows, in memory.
	Kept Rows
	Rows []Row

	// ReferenceCurve is the reference over its own fan speeds under the study's own
	// conditions, rising, from two fifths of its top speed to the top.
	ReferenceCurve []SpeedState

	err error
}

// SpeedState is a setup at one fan speed.
type SpeedState struct {
	Speed float64 // rev/s
	State model.State
}

// Ran reports whether there are results at all: a plan may be looked at without.
func (r *Results) Ran() bool { return r.Kept != nil || r.Rows != nil }

func (r *Results) rows() Rows {
	if r.Kept != nil {
		return r.Kept
	}
	return memory(r.Rows)
}

// Each hands over every row, by point number, until yield returns false: range over
// it. A row is only there until the next one. If rows cannot be read it ends early;
// see Err.
func (r *Results) Each(yield func(*Row) bool) {
	if err := r.rows().Each(yield); err != nil && r.err == nil {
		r.err = err
	}
}

// Row returns the row of point k, and false if the study leaves the point out or it
// cannot be read; see Err.
func (r *Results) Row(k int) (*Row, bool) {
	row, ok, err := r.rows().Row(k)
	if err != nil && r.err == nil {
		r.err = err
	}
	return row, ok && err == nil
}

// Len returns how many rows there are.
func (r *Results) Len() int { return r.rows().Len() }

// Failed returns how many rows have no value.
func (r *Results) Failed() int { return r.rows().Failed() }

// Err returns the first error met while reading rows. Whoever shows results asks
// for it at the end: what was made of rows that could not be read is not whole.
func (r *Results) Err() error { return r.err }

// memory is rows held in memory.
type memory []Row

func (m memory) Each(yield func(*Row) bool) error {
	for i := range m {
		if !yield(&m[i]) {
			break
		}
	}
	return nil
}

func (m memory) Row(k int) (*Row, bool, error) {
	i := sort.Search(len(m), func(i int) bool { return m[i].Point >= k })
	if i == len(m) || m[i].Point != k {
		return nil, false, nil
	}
	return &m[i], true, nil
}

func (m memory) Len() int { return len(m) }

func (m memory) Failed() int {
	n := 0
	for i := range m {
		if m[i].Failure != "" {
			n++
		}
	}
	return n
}
