package archive

import (
	"encoding/binary"
	"fmt"
	"maps"
	"math"
	"slices"

	"github.com/parquet-go/parquet-go"
	"github.com/parquet-go/parquet-go/deprecated"
	"github.com/parquet-go/parquet-go/encoding/bytestreamsplit"
	"github.com/parquet-go/parquet-go/encoding/delta"
	"github.com/parquet-go/parquet-go/encoding/rle"
	"github.com/parquet-go/parquet-go/encoding/thrift"
	"github.com/parquet-go/parquet-go/format"

	"finduel/sweep"
)

// magic begins and ends a Parquet file.
const magic = "PAR1"

// codec compresses the pages.
var codec = &parquet.Snappy

// encoder writes a chunk as a Parquet file: one row group, in which each column is one
// page, and the footer. The library's own writer takes rows apart into single values,
// which takes longer than the model takes to find them; here its parts, which are the
// encodings, the codec and the structures of the format, are handed a column at a time.
// Its buffers are used again for the next chunk.
type encoder struct {
	out     []byte
	columns []format.ColumnChunk
	size    int64 // of all pages and their headers, before compression

	// Of the column at hand.
	meta    format.ColumnMetaData
	levels  []byte // of each row: 1 where there is a value, 0 where there is none
	wholes  []int64
	numbers []float64
	words   map[string]int32 // each word's place in the dictionary
	list    []byte           // the dictionary
	indices []int32          // places

	encoded, page, packed []byte
}

// encode returns the rows of a chunk as a Parquet file. Its bytes depend on the rows
// and the run's identity alone, and are there until the encoder is used again.
func (e *encoder) encode(t *table, rows []sweep.Row) ([]byte, error) {
	e.out, e.columns, e.size = append(e.out[:0], magic...), e.columns[:0], 0
	footer := format.FileMetaData{
		Version: 2, NumRows: int64(len(rows)), CreatedBy: "finduel version " + t.metadata["finduel.version"],
		Schema: []format.SchemaElement{{Name: "points", NumChildren: thrift.New(int32(len(t.columns)))}},
	}
	for i := range t.columns {
		footer.Schema = append(footer.Schema, t.columns[i].element())
		footer.ColumnOrders = append(footer.ColumnOrders, format.ColumnOrder{Value: &format.TypeDefinedOrder{}})
	}
	for _, key := range slices.Sorted(maps.Keys(t.metadata)) {
		footer.KeyValueMetadata = append(footer.KeyValueMetadata, format.KeyValue{Key: key, Value: t.metadata[key]})
	}
	if len(rows) > 0 {
		for i := range t.columns {
			if err := e.column(&t.columns[i], rows); err != nil {
				return nil, fmt.Errorf("column %s: %w", t.columns[i].name, err)
			}
		}
		footer.RowGroups = []format.RowGroup{{
			Columns: e.columns, NumRows: int64(len(rows)), FileOffset: int64(len(magic)),
			TotalByteSize: e.size, TotalCompressedSize: int64(len(e.out) - len(magic)),
		}}
	}
	n, err := e.structure(&footer)
	if err != nil {
		return nil, err
	}
	e.out = append(binary.LittleEndian.AppendUint32(e.out, uint32(n)), magic...)
	return e.out, nil
}

// element is the column in the schema.
func (c *column) element() format.SchemaElement {
	el := format.SchemaElement{Name: c.name, RepetitionType: thrift.New(format.Optional)}
	switch {
	case c.whole != nil:
		el.Type, el.RepetitionType = thrift.New(format.Int64), thrift.New(format.Required)
	case c.word == nil:
		el.Type = thrift.New(format.Double)
	default:
		el.Type, el.ConvertedType = thrift.New(format.ByteArray), thrift.New(deprecated.UTF8)
		el.LogicalType.Value = &format.StringType{}
	}
	return el
}

// column writes a column.
func (e *encoder) column(c *column, rows []sweep.Row) (err error) {
	e.meta = format.ColumnMetaData{
		PathInSchema: []string{c.name}, Codec: codec.CompressionCodec(), NumValues: int64(len(rows)),
		DataPageOffset: int64(len(e.out)),
	}
	e.levels = e.levels[:0]
	switch {
	case c.whole != nil:
		err = e.wholeColumn(c, rows)
	case c.word == nil:
		err = e.numberColumn(c, rows)
	default:
		err = e.wordColumn(c, rows)
	}
	e.size += e.meta.TotalUncompressedSize
	e.columns = append(e.columns, format.ColumnChunk{MetaData: e.meta})
	return err
}

// wholeColumn writes a column of whole numbers, of which every row has one.
func (e *encoder) wholeColumn(c *column, rows []sweep.Row) (err error) {
	e.wholes = e.wholes[:0]
	for i := range rows {
		e.wholes = append(e.wholes, c.whole(&rows[i]))
	}
	e.meta.Type = format.Int64
	e.bounds(uint64(slices.Min(e.wholes)), uint64(slices.Max(e.wholes)))
	if e.encoded, err = new(delta.BinaryPackedEncoding).EncodeInt64(e.encoded, e.wholes); err != nil {
		return err
	}
	return e.data(len(rows), format.DeltaBinaryPacked)
}

// numberColumn writes a column of numbers.
func (e *encoder) numberColumn(c *column, rows []sweep.Row) (err error) {
	e.numbers, e.levels = slices.Grow(e.numbers[:0], len(rows)), slices.Grow(e.levels, len(rows))
	low, high := math.Inf(1), math.Inf(-1)
	for i := range rows {
		row := &rows[i]
		var v float64
		switch o := c.output; {
		case o == nil:
			v = c.number(row)
		case row.Failure != "" || o.Known != nil && !o.Known(&row.State):
			v = math.NaN()
		default:
			v = *o.At(&row.State) // as Get would; there are some billions of these
		}
		if v != v {
			e.levels = append(e.levels, 0)
			continue
		}
		e.levels, e.numbers = append(e.levels, 1), append(e.numbers, v)
		if v < low {
			low = v
		}
		if v > high {
			high = v
		}
	}
	e.meta.Type = format.Double
	e.meta.Statistics.NullCount = int64(len(rows) - len(e.numbers))
	if len(e.numbers) > 0 {
		if low == 0 {
			low = math.Copysign(0, -1) // a zero among the numbers may have either sign
		}
		e.bounds(math.Float64bits(low), math.Float64bits(high+0))
	}
	if e.encoded, err = new(bytestreamsplit.Encoding).EncodeDouble(e.encoded, e.numbers); err != nil {
		return err
	}
	return e.data(len(rows), format.ByteStreamSplit)
}

// wordColumn writes a column of words: those that occur, in the order in which they
// do, and for each row the place of its own.
func (e *encoder) wordColumn(c *column, rows []sweep.Row) (err error) {
	if e.words == nil {
		e.words = map[string]int32{}
	}
	clear(e.words)
	e.list, e.indices = e.list[:0], e.indices[:0]
	place, there := int32(0), false
	for i := range rows {
		if i == 0 || !c.alike(&rows[i-1], &rows[i]) {
			var word string
			if word, there = c.word(&rows[i]); there {
				known := false
				if place, known = e.words[word]; !known {
					place = int32(len(e.words))
					e.words[word] = place
					e.list = append(binary.LittleEndian.AppendUint32(e.list, uint32(len(word))), word...)
				}
			}
		}
		if !there {
			e.levels = append(e.levels, 0)
			continue
		}
		e.levels, e.indices = append(e.levels, 1), append(e.indices, place)
	}
	e.meta.Type = format.ByteArray
	e.meta.Statistics.NullCount = int64(len(rows) - len(e.indices))
	e.meta.DictionaryPageOffset = int64(len(e.out))
	e.page = append(e.page[:0], e.list...)
	if err := e.write(format.PageHeader{Type: format.DictionaryPage, DictionaryPageHeader: thrift.New(format.DictionaryPageHeader{
		NumValues: int32(len(e.words)), Encoding: format.Plain,
	})}); err != nil {
		return err
	}
	e.meta.Encoding, e.meta.DataPageOffset = append(e.meta.Encoding, format.Plain), int64(len(e.out))
	if e.encoded, err = new(rle.DictionaryEncoding).EncodeInt32(e.encoded, e.indices); err != nil {
		return err
	}
	return e.data(len(rows), format.RLEDictionary)
}

// bounds says between which values those of the column lie.
func (e *encoder) bounds(low, high uint64) {
	e.meta.Statistics.MinValue = binary.LittleEndian.AppendUint64(nil, low)
	e.meta.Statistics.MaxValue = binary.LittleEndian.AppendUint64(nil, high)
}

// data writes the page of a column: which of its rows have a value, if some may have
// none, and the values as they were encoded.
func (e *encoder) data(rows int, encoding format.Encoding) error {
	e.page = e.page[:0]
	e.meta.Encoding = append(e.meta.Encoding, encoding)
	if len(e.levels) > 0 {
		levels, err := (&rle.Encoding{BitWidth: 1}).EncodeLevels(e.packed, e.levels)
		if err != nil {
			return err
		}
		e.packed = levels
		e.page = append(binary.LittleEndian.AppendUint32(e.page, uint32(len(levels))), levels...)
		e.meta.Encoding = append(e.meta.Encoding, format.RLE)
	}
	e.page = append(e.page, e.encoded...)
	return e.write(format.PageHeader{Type: format.DataPage, DataPageHeader: thrift.New(format.DataPageHeader{
		NumValues: int32(rows), Encoding: encoding, DefinitionLevelEncoding: format.RLE, RepetitionLevelEncoding: format.RLE,
	})})
}

// write compresses the page at hand and writes it behind its header.
func (e *encoder) write(header format.PageHeader) (err error) {
	if e.packed, err = codec.Encode(e.packed, e.page); err != nil {
		return err
	}
	header.UncompressedPageSize, header.CompressedPageSize = int32(len(e.page)), int32(len(e.packed))
	n, err := e.structure(&header)
	if err != nil {
		return err
	}
	e.out = append(e.out, e.packed...)
	e.meta.TotalUncompressedSize += int64(n + len(e.page))
	e.meta.TotalCompressedSize += int64(n + len(e.packed))
	return nil
}

// structure writes a structure of the format and returns its length.
func (e *encoder) structure(v any) (int, error) {
	data, err := thrift.Marshal(new(thrift.CompactProtocol), v)
	e.out = append(e.out, data...)
	return len(data), err
}
