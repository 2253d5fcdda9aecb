package sweep

import "finduel/model"

// Row is one point of a plan, evaluated.
type Row struct {
	Point     int         // its number
	State     model.State // the challenger's; meaningful if Failure is empty
	Reference float64     // the reference's metric under the same conditions, K; meaningful if Failure is empty
	Failure   string      // why the point has no value; empty if it has one
}

// Results are the evaluated points of a plan.
type Results struct {
	Plan *Plan
	Rows []Row // by point number, excluded points left out

	// ReferenceCurve is the reference over its own fan speeds under the study's own
	// conditions, rising, from two fifths of its top speed to the top.
	ReferenceCurve []SpeedState
}

// SpeedState is a setup at one fan speed.
type SpeedState struct {
	Speed float64 // rev/s
	State model.State
}

// Failed returns how many rows have no value.
func (r *Results) Failed() int {
	n := 0
	for i := range r.Rows {
		if r.Rows[i].Failure != "" {
			n++
		}
	}
	return n
}

// Row returns the row of point k, and false if k was excluded.
func (r *Results) Row(k int) (*Row, bool) {
	lo, hi := 0, len(r.Rows)
	for lo < hi {
		if mid := (lo + hi) / 2; r.Rows[mid].Point < k {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	if lo == len(r.Rows) || r.Rows[lo].Point != k {
		return nil, false
	}
	return &r.Rows[lo], true
}
