package workbook

import (
	"math"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"finduel/model"
	"finduel/model/quantity"
)

// maxRows is how many rows a table has at most: more open slowly everywhere, and
// the machine forms have all of them.
const maxRows = 200_000

// column is a column of a table.
type column struct {
	head  string
	look  look
	width float64 // characters
}

// countColumn is a column of whole numbers that name a row.
func countColumn(head string) column {
	return column{head: head, look: look{right: true, indent: true}, width: 9}
}

// textColumn is a column of texts, numberColumn one of computed numbers,
// givenColumn one of numbers from the study.
func textColumn(head string, width float64) column {
	return column{head: head, look: look{indent: true}, width: width}
}

func numberColumn(head string, q quantity.Quantity) column {
	c := column{head: headOf(head, q), look: look{format: formatOf(q), right: true, indent: true}, width: 16}
	if utf8.RuneCountInString(c.head) > 36 {
		c.width = 24
	}
	return c
}

func outputColumn(o model.Output) column { return numberColumn(o.Title(), o.Quantity) }

func givenColumn(q quantity.Quantity) column {
	return column{head: q.Title(), look: look{right: true, indent: true}, width: 16}
}

// table is a sheet with one head and many rows, written row by row.
type table struct {
	name    string
	title   string // a sentence above the head
	columns []column
	frozen  int // columns that stay in sight, if they are not too many
	rows    int
	row     func(i int, into []any) // fills one row of values; nil stays blank
}

// headRow is the row of the head; the sentence stands above it.
const headRow = 2

// writeTable writes a table to its sheet, which exists.
func (b *book) writeTable(t *table) error {
	end, err := excelize.CoordinatesToCellName(len(t.columns), headRow+max(t.rows, 1))
	if err != nil {
		return err
	}
	if err := b.frame(t, end); err != nil {
		return err
	}
	w, err := b.file.NewStreamWriter(t.name)
	if err != nil {
		return err
	}
	title, err := b.style(look{quiet: true})
	if err != nil {
		return err
	}
	if err := w.SetRow("A1", []any{excelize.Cell{StyleID: title, Value: t.title}}); err != nil {
		return err
	}
	heads, styles := make([]any, len(t.columns)), make([]int, len(t.columns))
	height := 1
	for i, c := range t.columns {
		head, err := b.style(look{bold: true, filled: true, wrapped: true, ruled: true, right: c.look.right, indent: true})
		if err != nil {
			return err
		}
		heads[i] = excelize.Cell{StyleID: head, Value: c.head}
		height = max(height, 1+int(1.25*float64(utf8.RuneCountInString(c.head))/c.width))
		if styles[i], err = b.style(c.look); err != nil {
			return err
		}
	}
	if err := w.SetRow("A2", heads, excelize.RowOpts{Height: 13.5*float64(height) + 2}); err != nil {
		return err
	}
	values, cells := make([]any, len(t.columns)), make([]any, len(t.columns))
	for i := range t.rows {
		clear(values)
		t.row(i, values)
		for j, v := range values {
			cells[j] = nil
			if v != nil && v != "" {
				cells[j] = excelize.Cell{StyleID: styles[j], Value: v}
			}
		}
		at, err := excelize.CoordinatesToCellName(1, headRow+1+i)
		if err != nil {
			return err
		}
		if err := w.SetRow(at, cells); err != nil {
			return err
		}
	}
	return w.Flush()
}

// frame sets what holds for the whole sheet of a table.
func (b *book) frame(t *table, end string) error {
	if err := b.file.SetSheetDimension(t.name, "A1:"+end); err != nil {
		return err
	}
	const most = 6 // frozen columns beyond this leave no room to scroll in
	corner, err := excelize.CoordinatesToCellName(1, headRow+1)
	if err != nil {
		return err
	}
	pane, split := "bottomLeft", 0
	if t.frozen <= most {
		split, pane = t.frozen, "bottomRight"
		if corner, err = excelize.CoordinatesToCellName(split+1, headRow+1); err != nil {
			return err
		}
	}
	if err := b.file.SetPanes(t.name, &excelize.Panes{
		Freeze: true, XSplit: split, YSplit: headRow, TopLeftCell: corner, ActivePane: pane,
	}); err != nil {
		return err
	}
	widths := make([]float64, len(t.columns))
	for i, c := range t.columns {
		widths[i] = c.width
	}
	if err := b.setWidths(t.name, widths); err != nil {
		return err
	}
	if err := b.file.AutoFilter(t.name, "A2:"+end, nil); err != nil {
		return err
	}
	// The filter resets what the layout sets: it comes first.
	if err := b.layout(t.name, "landscape"); err != nil {
		return err
	}
	titles := "'" + t.name + "'!$1:$2"
	if pages := t.pagesAcross(); pages > 1 {
		if err := b.file.SetPageLayout(t.name, &excelize.PageLayoutOptions{FitToWidth: &pages}); err != nil {
			return err
		}
		if split > 0 {
			last, err := excelize.ColumnNumberToName(split)
			if err != nil {
				return err
			}
			titles = "'" + t.name + "'!$A:$" + last + "," + titles
		}
	}
	return b.file.SetDefinedName(&excelize.DefinedName{
		Name: "_xlnm.Print_Titles", RefersTo: titles, Scope: t.name,
	})
}

// pagesAcross returns on how many pages side by side a table is printed so that it can
// be read: a page takes 260 digits across, at about half the size on the screen.
func (t *table) pagesAcross() int {
	const page = 260.0
	var wide float64
	for _, c := range t.columns {
		wide += c.width
	}
	return max(1, int(math.Ceil(wide/page)))
}
