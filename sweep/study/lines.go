package study

import (
	"slices"
	"unicode/utf8"
)

// lineIndex finds the line and column of a byte of a text.
type lineIndex struct {
	data   []byte
	starts []int // offset of the first byte of each line
}

func indexLines(data []byte) lineIndex {
	starts := []int{0}
	for i, b := range data {
		if b == '\n' {
			starts = append(starts, i+1)
		}
	}
	return lineIndex{data, starts}
}

// place returns the place of the byte at an offset, the column in characters. An
// offset outside the text is taken for the nearest inside.
func (l lineIndex) place(offset int) place {
	offset = min(max(offset, 0), len(l.data))
	line, found := slices.BinarySearch(l.starts, offset)
	if !found {
		line--
	}
	return place{line + 1, utf8.RuneCount(l.data[l.starts[line]:offset]) + 1}
}
