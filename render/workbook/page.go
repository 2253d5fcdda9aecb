package workbook

import (
	"fmt"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// book is a workbook on its way.
type book struct {
	file   *excelize.File
	styles map[look]int
	chart  []byte // the one chart, if drawn
}

// cell is a value with its look.
type cell struct {
	value any
	look  look
}

// page is a sheet whose rows are laid out one under the other before it is
// written.
type page struct {
	name   string
	widths []float64 // of the columns, in characters
	rows   []line
	merged [][2]int // row and last column of cells merged from the row's merge column on
	from   []int    // first column of each merge
	breaks []int    // rows that begin a page of paper
}

type line struct {
	cells  []cell
	height float64 // points; 0: as it comes
}

// add adds a row and returns its number, from 1.
func (p *page) add(cells ...cell) int {
	p.rows = append(p.rows, line{cells: cells})
	return len(p.rows)
}

// blank adds empty rows.
func (p *page) blank(n int) {
	for range n {
		p.add()
	}
}

// paragraph adds a text that runs over all columns and is as high as it needs.
func (p *page) paragraph(s string, l look) {
	l.wrapped = true
	row := p.add(cell{text(s), l})
	p.span(row, 1, len(p.widths))
}

// span merges the cells of a row from one column to another and makes the row high
// enough for the text in the first of them.
func (p *page) span(row, first, last int) {
	if last > first {
		p.merged, p.from = append(p.merged, [2]int{row, last}), append(p.from, first)
	}
	width := 0.0
	for _, w := range p.widths[first-1 : last] {
		width += w
	}
	p.grow(row, first, width)
}

// tallest is how high a row may be, in points (common practice, no source:
// spreadsheets refuse more).
const tallest = 409

// grow makes a row high enough for the text in one of its cells.
func (p *page) grow(row, column int, width float64) {
	r := &p.rows[row-1]
	c := r.cells[column-1]
	s, ok := c.value.(string)
	if !ok {
		return
	}
	// An average letter of the typeface is narrower than the digit that widths
	// count in, a bold one about as wide.
	each, high := 0.86, 13.5
	switch {
	case c.look.large:
		each, high = 1.6, 21
	case c.look.bold:
		each = 0.98
	}
	lines := float64(int(float64(utf8.RuneCountInString(s))*each/width) + 1)
	r.height = min(max(r.height, lines*high+1.5), tallest)
}

// section adds a head over the whole width.
func (p *page) section(title string) {
	p.blank(1)
	cells := make([]cell, len(p.widths))
	for i := range cells {
		cells[i].look = look{bold: true, filled: true}
	}
	cells[0].value = title
	p.rows[p.add(cells...)-1].height = 20
}

// setWidths sets the widths of columns. Charts take their size from it, so it comes
// before them.
func (b *book) setWidths(sheet string, widths []float64) error {
	for i, width := range widths {
		column, err := excelize.ColumnNumberToName(i + 1)
		if err != nil {
			return err
		}
		if err := b.file.SetColWidth(sheet, column, column, width); err != nil {
			return err
		}
	}
	return nil
}

// write writes the page to its sheet, which exists. Whatever is set for the whole
// sheet must be set before this.
func (b *book) write(p *page) error {
	last, err := excelize.CoordinatesToCellName(len(p.widths), max(1, len(p.rows)))
	if err != nil {
		return err
	}
	if err := b.file.SetSheetDimension(p.name, "A1:"+last); err != nil {
		return err
	}
	w, err := b.file.NewStreamWriter(p.name)
	if err != nil {
		return err
	}
	for i, r := range p.rows {
		if len(r.cells) == 0 && r.height == 0 {
			continue
		}
		values := make([]any, len(r.cells))
		for j, c := range r.cells {
			id, err := b.style(c.look)
			if err != nil {
				return err
			}
			values[j] = excelize.Cell{StyleID: id, Value: c.value}
		}
		at, err := excelize.CoordinatesToCellName(1, i+1)
		if err != nil {
			return err
		}
		if err := w.SetRow(at, values, excelize.RowOpts{Height: r.height}); err != nil {
			return err
		}
	}
	for i, m := range p.merged {
		first, err := excelize.CoordinatesToCellName(p.from[i], m[0])
		if err != nil {
			return err
		}
		last, err := excelize.CoordinatesToCellName(m[1], m[0])
		if err != nil {
			return err
		}
		if err := w.MergeCell(first, last); err != nil {
			return err
		}
	}
	for _, row := range p.breaks {
		if err := w.InsertPageBreak(fmt.Sprintf("A%d", row)); err != nil {
			return err
		}
	}
	return w.Flush()
}

// layout sets how a sheet prints: on A4 paper, upright or "landscape", as wide as
// a page.
func (b *book) layout(sheet, orientation string) error {
	const a4 = 9 // ECMA-376 part 1, 18.3.1.63
	size, wide, high, yes := a4, 1, 0, true
	if err := b.file.SetSheetProps(sheet, &excelize.SheetPropsOptions{FitToPage: &yes}); err != nil {
		return err
	}
	if err := b.file.SetPageLayout(sheet, &excelize.PageLayoutOptions{
		Size: &size, Orientation: &orientation, FitToWidth: &wide, FitToHeight: &high,
	}); err != nil {
		return err
	}
	return b.file.SetHeaderFooter(sheet, &excelize.HeaderFooterOptions{OddFooter: "&L&A&R&P of &N"})
}
