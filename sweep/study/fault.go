package study

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Fault is one thing that is wrong in a study file.
type Fault struct {
	File   string // as given
	Line   int    // from 1; 0 if the fault is the file itself
	Column int    // from 1, in characters; 0 if only the line is known
	Path   string // where in the study, e.g. "cores[0].fin_density"; empty for the file as a whole
	Value  string // what is written there; empty if the fault is not in a value
	Rule   string // what is wrong, to be read behind the path and the value: "is not a fin density"
	Hint   string // what would be right; may be empty
}

// Error returns the fault on one line, without the hint:
//
//	booth.yaml:12:14: cores[0].fin_density: "22 fip" is not a fin density
func (f Fault) Error() string {
	var b strings.Builder
	b.WriteString(f.File)
	for _, n := range []int{f.Line, f.Column} {
		if n == 0 {
			break
		}
		b.WriteString(":" + strconv.Itoa(n))
	}
	b.WriteString(": ")
	if f.Path != "" {
		b.WriteString(f.Path + ": ")
	}
	if f.Value != "" {
		b.WriteString(quote(f.Value) + " ")
	}
	b.WriteString(f.Rule)
	return b.String()
}

// Faults is all that is wrong in a study file, sorted by place. It is the error of
// Load and Read; errors.As finds it.
type Faults []Fault

// Error returns all faults, one a line.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i := range f {
		lines[i] = f[i].Error()
	}
	return strings.Join(lines, "\n")
}

// longestQuote is how many characters of a value a message shows.
const longestQuote = 60

// quote returns a text of the file in quotes and on one line, cut short if long.
func quote(s string) string {
	if r := []rune(s); len(r) > longestQuote {
		s = string(r[:longestQuote-1]) + "…"
	}
	return strconv.Quote(s)
}

// place is where something stands in the file, both from 1.
type place struct{ line, column int }

// findings collects faults while a file is read.
type findings struct {
	file string
	list Faults

	touched map[string]bool // paths that have a fault, or hold something that has one
	meant   map[string]bool // paths that a misspelt key was probably meant for
}

func newFindings(file string) *findings {
	return &findings{file: file, touched: map[string]bool{}, meant: map[string]bool{}}
}

// add reports a fault.
func (f *findings) add(at place, path, value, rule, hint string) {
	f.list = append(f.list, Fault{f.file, at.line, at.column, path, value, rule, hint})
	for path != "" {
		f.touched[path] = true
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
	}
}

// sorted returns all faults in the order of the file, each once; nil if there are
// none.
func (f *findings) sorted() Faults {
	slices.SortStableFunc(f.list, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column),
			cmp.Compare(a.Path, b.Path), cmp.Compare(a.Rule, b.Rule))
	})
	return slices.Compact(f.list)
}

// keyPath returns the path of a key in what is at a path.
func keyPath(parent, key string) string {
	if strings.Trim(key, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-") != "" || key == "" {
		key = quote(key)
	}
	if parent == "" {
		return key
	}
	return parent + "." + key
}

// itemPath returns the path of an item of the list at a path.
func itemPath(parent string, i int) string { return fmt.Sprintf("%s[%d]", parent, i) }
