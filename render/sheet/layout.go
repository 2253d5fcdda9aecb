package sheet

import (
	"slices"
	"strings"
	"unicode/utf8"

	"finduel/render"
)

// wrap breaks a text into lines of at most width characters at its spaces; the
// first line begins with head, the others with as many spaces. A number stays with
// its next group of digits and with its unit. What is longer than a line gets a
// line of its own and is not broken.
func wrap(head, text string, width int) string {
	indent := strings.Repeat(" ", utf8.RuneCountInString(head))
	var b strings.Builder
	b.WriteString(head)
	column, fresh := len(indent), true
	for _, piece := range render.Pieces(text) {
		n := utf8.RuneCountInString(piece)
		switch {
		case fresh:
		case column+1+n > width:
			b.WriteString("\n" + indent)
			column = len(indent)
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(piece)
		column += n
		fresh = false
	}
	b.WriteByte('\n')
	return b.String()
}

// table is a text table. Its heads may be broken at spaces over several lines,
// unless they are whole; the first left columns are set flush left, all others
// flush right.
type table struct {
	heads []string
	rows  [][]string
	left  int
	whole bool
}

// gap stands between two columns, and before the first.
const gap = "  "

// columnWidths returns the width of each column: that of its widest cell or of the
// longest word of its head.
func (t *table) columnWidths() []int {
	widths := make([]int, len(t.heads))
	for i, head := range t.heads {
		words := strings.Fields(head)
		if t.whole {
			words = []string{head}
		}
		for _, word := range words {
			widths[i] = max(widths[i], utf8.RuneCountInString(word))
		}
	}
	for _, row := range t.rows {
		for i, cell := range row {
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	return widths
}

// fits returns how many columns fit in a width; the first keep of them are
// counted in any case.
func (t *table) fits(width, keep int) int {
	total := 0
	for i, w := range t.columnWidths() {
		total += len(gap) + w
		if total > width && i >= keep {
			return i
		}
	}
	return len(t.heads)
}

// dropEmpty removes the columns from the place first on that have no cell.
func (t *table) dropEmpty(first int) {
	for i := len(t.heads) - 1; i >= first; i-- {
		empty := true
		for _, row := range t.rows {
			empty = empty && row[i] == ""
		}
		if !empty {
			continue
		}
		t.heads = slices.Delete(t.heads, i, i+1)
		for r := range t.rows {
			t.rows[r] = slices.Delete(t.rows[r], i, i+1)
		}
	}
}

// write writes the first columns of the table.
func (t *table) write(b *strings.Builder, columns int) {
	widths := t.columnWidths()[:columns]
	heads := make([][]string, columns)
	lines := 0
	for i := range heads {
		heads[i] = strings.Split(strings.TrimSuffix(wrap("", t.heads[i], widths[i]), "\n"), "\n")
		lines = max(lines, len(heads[i]))
	}
	for line := range lines {
		cells := make([]string, columns)
		for i, h := range heads {
			if at := line - (lines - len(h)); at >= 0 {
				cells[i] = h[at]
			}
		}
		t.line(b, cells, widths)
	}
	for _, row := range t.rows {
		t.line(b, row[:columns], widths)
	}
}

// line writes one line of cells.
func (t *table) line(b *strings.Builder, cells []string, widths []int) {
	var s strings.Builder
	for i, cell := range cells {
		fill := strings.Repeat(" ", max(0, widths[i]-utf8.RuneCountInString(cell)))
		s.WriteString(gap)
		if i < t.left {
			s.WriteString(cell + fill)
		} else {
			s.WriteString(fill + cell)
		}
	}
	b.WriteString(strings.TrimRight(s.String(), " ") + "\n")
}

// thin returns which of n things to show if only so many may be: all, or places
// spread evenly from the first to the last.
func thin(n, most int) []int {
	if n <= most {
		most = n
	}
	places := make([]int, most)
	for i := range places {
		if most > 1 {
			places[i] = i * (n - 1) / (most - 1)
		}
	}
	return places
}
