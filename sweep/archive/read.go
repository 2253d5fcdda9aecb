package archive

import (
	"bytes"
	"fmt"
	"io"

	"github.com/parquet-go/parquet-go"

	"finduel/sweep"
)

// decode returns the rows in a Parquet file that an encoder made, appended to rows.
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
			case c.setNumber != nil:
				err = numbers(c, chunk, all)
			case c.setWhole != nil || c.setWord != nil:
				err = values(c, chunk, all)
			}
			if err != nil {
				return nil, fmt.Errorf("column %s: %w", c.name, err)
			}
		}
	}
	return rows, nil
}

// values puts the whole numbers or the words of a column into their rows.
func values(c *column, chunk parquet.ColumnChunk, rows []sweep.Row) error {
	pages := chunk.Pages()
	defer pages.Close()
	buffer := make([]parquet.Value, 256)
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
			n, err := reader.ReadValues(buffer)
			if at+n > len(rows) {
				return errLength
			}
			for _, v := range buffer[:n] {
				switch {
				case v.IsNull():
				case c.setWhole != nil:
					c.setWhole(&rows[at], v.Int64())
				default:
					c.setWord(&rows[at], v.ByteArray())
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
			c.setNumber(&rows[i], values[0])
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
