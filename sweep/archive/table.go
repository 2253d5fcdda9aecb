package archive

import (
	"bytes"
	"math"
	"strconv"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/sweep"
)

// Names of the columns beside those of quantities.
const (
	pointColumn    = "point"
	warningsColumn = "warnings" // their keys, joined by semicolons
	reasonColumn   = "reason"   // why there is no value; null where there is one
)

// table is the form of a chunk: the columns of a plan in their order. Numbers are in
// SI units, so that they come back as the doubles they were. Each column is named by
// its quantity; the unit of each stands in the metadata of the file.
type table struct {
	columns  []column
	metadata map[string]string
}

// column is one column: how to take it out of a row, and how to put it back. It holds
// whole numbers, numbers or words; which is told by the function that is set.
type column struct {
	name string

	whole    func(*sweep.Row) int64
	setWhole func(*sweep.Row, int64)

	number    func(*sweep.Row) float64  // NaN: none
	output    *model.Output             // instead of number: of the row's State
	setNumber func(*sweep.Row, float64) // nil: it follows from others

	word    func(*sweep.Row) (word string, ok bool) // false: none
	alike   func(a, b *sweep.Row) bool              // whether two rows have the same word; true only if they have
	setWord func(*sweep.Row, []byte)
}

// tableOf returns the form of the chunks of a run.
func tableOf(plan *sweep.Plan, id Identity) *table {
	t := &table{metadata: id.metadata()}
	add := func(c column) { t.columns = append(t.columns, c) }
	number := func(c column, q quantity.Quantity) {
		c.name = q.Key
		add(c)
		t.metadata["unit."+q.Key] = siUnit(q.Kind)
		t.metadata["label."+q.Key] = q.Label
	}
	add(column{
		name:     pointColumn,
		whole:    func(row *sweep.Row) int64 { return int64(row.Point) },
		setWhole: func(row *sweep.Row, v int64) { row.Point = int(v) },
	})
	for i, a := range plan.Study.Axes {
		number(column{number: func(row *sweep.Row) float64 { return a.Values[plan.Step(row.Point, i)] }}, a.Input.Quantity)
	}
	for i := range model.Outputs {
		o := &model.Outputs[i]
		number(column{output: o, setNumber: func(row *sweep.Row, v float64) { *o.At(&row.State) = v }}, o.Quantity)
	}
	number(column{
		number: func(row *sweep.Row) float64 {
			if row.Failure != "" {
				return math.NaN()
			}
			return row.Reference
		},
		setNumber: func(row *sweep.Row, v float64) { row.Reference = v },
	}, quantity.Must("reference_over_air"))
	metric := plan.Metric()
	number(column{number: func(row *sweep.Row) float64 {
		if row.Failure != "" {
			return math.NaN()
		}
		return metric(&row.State) - row.Reference
	}}, quantity.Must("difference"))
	add(column{
		name:    warningsColumn,
		word:    func(row *sweep.Row) (string, bool) { return row.State.Warnings.Keys(), row.Failure == "" },
		alike:   func(a, b *sweep.Row) bool { return a.State.Warnings == b.State.Warnings && a.Failure == b.Failure },
		setWord: func(row *sweep.Row, word []byte) { row.State.Warnings = warningsOf(word) },
	})
	add(column{
		name:    reasonColumn,
		word:    func(row *sweep.Row) (string, bool) { return row.Failure, row.Failure != "" },
		alike:   func(a, b *sweep.Row) bool { return a.Failure == b.Failure },
		setWord: func(row *sweep.Row, word []byte) { row.Failure = string(word) },
	})
	return t
}

// siUnit returns the SI unit of a kind as it is written; empty for a pure number.
func siUnit(kind quantity.Kind) string {
	switch kind { // no study writes these
	case quantity.FinDensity:
		return "1/m"
	case quantity.Angle:
		return "rad"
	case quantity.SpeedConstant:
		return "rad/(s V)"
	}
	for _, u := range quantity.Units(kind) {
		if u.Times == u.Over && u.Offset == 0 {
			return u.Symbol
		}
	}
	return ""
}

// warningsOf returns the set whose keys are written, joined by semicolons.
func warningsOf(keys []byte) model.Warnings {
	var set model.Warnings
	for len(keys) > 0 {
		key, rest, _ := bytes.Cut(keys, []byte{';'})
		set |= warningBits[string(key)]
		keys = rest
	}
	return set
}

// warningBits holds the warnings by their keys.
var warningBits = func() map[string]model.Warnings {
	bits := map[string]model.Warnings{}
	for _, w := range (^model.Warnings(0)).List() {
		bits[w.Key] = w.Bit
	}
	return bits
}()

// metadata returns what a chunk says of the run it belongs to.
func (id Identity) metadata() map[string]string {
	return map[string]string{
		"finduel.version": id.Version, "finduel.study": id.Study, "finduel.study_hash": id.Hash,
		"finduel.seed": strconv.FormatUint(id.Seed, 10), "finduel.points": strconv.Itoa(id.Points),
	}
}
