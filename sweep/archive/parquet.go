package archive

import (
	"bytes"
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strconv"

	"github.com/parquet-go/parquet-go"
	"github.com/parquet-go/parquet-go/encoding"

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
	plan     *sweep.Plan
	schema   *parquet.Schema
	columns  []column
	metadata map[string]string
}

// column is one column: how to take it out of a row, and how to put it back.
type column struct {
	name  string
	value func(*sweep.Row) parquet.Value // null: none
	put   func(*sweep.Row, parquet.Value)
	set   func(*sweep.Row, float64) // for numbers, instead of put
}

// tableOf returns the form of the chunks of a run.
func tableOf(plan *sweep.Plan, id Identity) *table {
	t := &table{plan: plan, metadata: id.metadata()}
	group := ordered{Group: parquet.Group{}}
	add := func(c column, node parquet.Node) {
		t.columns = append(t.columns, c)
		group.Group[c.name] = node
		group.order = append(group.order, c.name)
	}
	number := func(c column, q quantity.Quantity, form encoding.Encoding) {
		c.name = q.Key
		add(c, parquet.Optional(parquet.Encoded(parquet.Leaf(parquet.DoubleType), form)))
		t.metadata["unit."+q.Key] = siUnit(q.Kind)
		t.metadata["label."+q.Key] = q.Label
	}
	ok := func(v float64, row *sweep.Row) parquet.Value {
		if row.Failure != "" || math.IsNaN(v) {
			return parquet.NullValue()
		}
		return parquet.DoubleValue(v)
	}

	add(column{
		name:  pointColumn,
		value: func(row *sweep.Row) parquet.Value { return parquet.Int64Value(int64(row.Point)) },
		put:   func(row *sweep.Row, v parquet.Value) { row.Point = int(v.Int64()) },
	}, parquet.Encoded(parquet.Leaf(parquet.Int64Type), &parquet.DeltaBinaryPacked))
	for i, a := range plan.Study.Axes {
		number(column{value: func(row *sweep.Row) parquet.Value {
			return parquet.DoubleValue(a.Values[plan.Step(row.Point, i)])
		}}, a.Input.Quantity, &parquet.RLEDictionary)
	}
	for i := range model.Outputs {
		o := &model.Outputs[i]
		number(column{
			value: func(row *sweep.Row) parquet.Value { return ok(o.Get(&row.State), row) },
			set:   func(row *sweep.Row, v float64) { *o.At(&row.State) = v },
		}, o.Quantity, &parquet.ByteStreamSplit)
	}
	metric := plan.Metric()
	number(column{
		value: func(row *sweep.Row) parquet.Value { return ok(row.Reference, row) },
		set:   func(row *sweep.Row, v float64) { row.Reference = v },
	}, quantity.Must("reference_over_air"), &parquet.ByteStreamSplit)
	number(column{
		value: func(row *sweep.Row) parquet.Value { return ok(metric(&row.State)-row.Reference, row) },
	}, quantity.Must("difference"), &parquet.ByteStreamSplit)
	word := parquet.Optional(parquet.Encoded(parquet.String(), &parquet.RLEDictionary))
	add(column{
		name: warningsColumn,
		value: func(row *sweep.Row) parquet.Value {
			if row.Failure != "" {
				return parquet.NullValue()
			}
			return parquet.ByteArrayValue([]byte(row.State.Warnings.Keys()))
		},
		put: func(row *sweep.Row, v parquet.Value) { row.State.Warnings = warningsOf(v.ByteArray()) },
	}, word)
	add(column{
		name: reasonColumn,
		value: func(row *sweep.Row) parquet.Value {
			if row.Failure == "" {
				return parquet.NullValue()
			}
			return parquet.ByteArrayValue([]byte(row.Failure))
		},
		put: func(row *sweep.Row, v parquet.Value) { row.Failure = string(v.ByteArray()) },
	}, word)
	t.schema = parquet.NewSchema("points", group)
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

// ordered is a group of columns in an order of their own; the library's is that of
// the alphabet.
type ordered struct {
	parquet.Group
	order []string
}

// Fields returns the columns in their order.
func (g ordered) Fields() []parquet.Field {
	fields := g.Group.Fields()
	slices.SortFunc(fields, func(a, b parquet.Field) int {
		return slices.Index(g.order, a.Name()) - slices.Index(g.order, b.Name())
	})
	return fields
}

// rowsAtATime is how many rows are taken apart into columns at a time: so many fit
// into the cache of a processor.
const rowsAtATime = 256

// encode returns the rows of a chunk as a Parquet file. Its bytes depend on the rows
// and the run's identity alone.
func (t *table) encode(rows []sweep.Row) ([]byte, error) {
	var b bytes.Buffer
	options := []parquet.WriterOption{
		t.schema, parquet.Compression(&parquet.Snappy), parquet.PageBufferSize(1 << 17),
		parquet.DataPageStatistics(false), parquet.CreatedBy("finduel", t.metadata["finduel.version"], ""),
	}
	for _, key := range slices.Sorted(maps.Keys(t.metadata)) {
		options = append(options, parquet.KeyValueMetadata(key, t.metadata[key]))
	}
	w := parquet.NewWriter(&b, options...)
	into := w.ColumnWriters()
	values := make([]parquet.Value, 0, rowsAtATime)
	for from := 0; from < len(rows); from += rowsAtATime {
		block := rows[from:min(from+rowsAtATime, len(rows))]
		for i := range t.columns {
			c := &t.columns[i]
			values = values[:0]
			for j := range block {
				v, defined := c.value(&block[j]), 0
				if c.name != pointColumn && !v.IsNull() {
					defined = 1
				}
				values = append(values, v.Level(0, defined, i))
			}
			if _, err := into[i].WriteRowValues(values); err != nil {
				return nil, err
			}
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// decode returns the rows in a Parquet file that encode made, appended to rows.
func (t *table) decode(data []byte, rows []sweep.Row) ([]sweep.Row, error) {
	f, err := parquet.OpenFile(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, err
	}
	from := len(rows)
	rows = append(rows, make([]sweep.Row, f.NumRows())...)
	all := rows[from:]
	for _, group := range f.RowGroups() {
		chunks := group.ColumnChunks()
		if len(chunks) != len(t.columns) {
			return nil, fmt.Errorf("it has %d columns, not %d", len(chunks), len(t.columns))
		}
		for i, chunk := range chunks {
			c := &t.columns[i]
			switch {
			case c.set != nil:
				err = numbers(c, chunk, all)
			case c.put != nil:
				err = words(c, chunk, all)
			}
			if err != nil {
				return nil, fmt.Errorf("column %s: %w", c.name, err)
			}
		}
	}
	return rows, nil
}

// words puts the values of a column that are not null into their rows.
func words(c *column, chunk parquet.ColumnChunk, rows []sweep.Row) error {
	pages := chunk.Pages()
	defer pages.Close()
	values := make([]parquet.Value, rowsAtATime)
	at := 0
	for {
		page, err := pages.ReadPage()
		if err == io.EOF {
			break
		}
		if err != nil {
			return err
		}
		reader := page.Values()
		for {
			n, err := reader.ReadValues(values)
			if at+n > len(rows) {
				return errLength
			}
			for _, v := range values[:n] {
				if !v.IsNull() {
					c.put(&rows[at], v)
				}
				at++
			}
			if err == io.EOF {
				break
			}
			if err != nil {
				return err
			}
		}
		parquet.Release(page)
	}
	if at != len(rows) {
		return errLength
	}
	return nil
}

// numbers sets the numbers of a column that are not null in their rows.
func numbers(c *column, chunk parquet.ColumnChunk, rows []sweep.Row) error {
	pages := chunk.Pages()
	defer pages.Close()
	for {
		page, err := pages.ReadPage()
		if err == io.EOF {
			break
		}
		if err != nil {
			return err
		}
		data := page.Data()
		values, levels := data.Double(), page.DefinitionLevels()
		if len(levels) > len(rows) {
			return errLength
		}
		for i, level := range levels {
			if level == 0 {
				continue
			}
			if len(values) == 0 {
				return errLength
			}
			c.set(&rows[i], values[0])
			values = values[1:]
		}
		rows = rows[len(levels):]
		parquet.Release(page)
	}
	if len(rows) > 0 {
		return errLength
	}
	return nil
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
