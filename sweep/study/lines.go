package study

import (
	"slices"
	"unicode/utf8"
)

// lineIndex finds the line and column of a byte of a text. Places are asked for
// nearly in the order of the text, so it counts on from the last: a long line is
// not counted again for each of its values.
type lineIndex struct {
	data   []byte
	starts []int // offset of the first byte of each line

	offset int // of the last place
	last   place
}

func indexLines(data []byte) *lineIndex {
	starts := []int{0}
	for i, b := range data {
		if b == '\n' {
			starts = append(starts, i+1)
		}
	}
	return &lineIndex{data: data, starts: starts, last: place{1, 1}}
}

// place returns the place of the byte at an offset, the column in characters. An
// offset outside the text is taken for the nearest inside.
func (l *lineIndex) place(offset int) place {
	offset = min(max(offset, 0), len(l.data))
	line, found := slices.BinarySearch(l.starts, offset)
	if !found {
		line--
	}
	from, column := l.starts[line], 1
	if l.last.line == line+1 && l.offset <= offset {
		from, column = l.offset, l.last.column
	}
	l.offset, l.last = offset, place{line + 1, column + utf8.RuneCount(l.data[from:offset])}
	return l.last
}
