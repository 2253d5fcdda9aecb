package study

import (
	"fmt"
	"strings"
)

// node is one value of a study file, whatever the format.
type node struct {
	at    place
	kind  nodeKind
	text  string // of a scalar, as it is meant: quotes removed, escapes resolved
	keys  []entry
	items []*node

	index map[string]int // where in keys a key stands, by its lower-case spelling
}

// nodeKind tells values apart.
type nodeKind int

const (
	mapping nodeKind = iota
	list
	words  // a text
	bare   // a number without quotes
	truth  // true or false
	nought // null, or nothing behind the colon
	date   // a date or a time, which only some formats have
)

// String names the kind with its article.
func (k nodeKind) String() string {
	return [...]string{"a section", "a list", "a text", "a number", "true or false", "nothing", "a date"}[k]
}

// scalar reports whether the node is a single value.
func (n *node) scalar() bool { return n.kind >= words }

// entry is one key of a mapping.
type entry struct {
	name  string
	at    place
	value *node
}

// get returns the value under a key as spelled, and false if there is none.
func (n *node) get(name string) (*node, bool) {
	if i, ok := n.index[strings.ToLower(name)]; ok && n.keys[i].name == name {
		return n.keys[i].value, true
	}
	return nil, false
}

// put adds a key to a mapping. A second key of the same name is reported and left
// out, also if the two differ in case: whoever wrote both meant one of them.
func (n *node) put(f *findings, path string, e entry) {
	folded := strings.ToLower(e.name)
	if i, ok := n.index[folded]; ok {
		first := n.keys[i]
		rule := fmt.Sprintf("is given twice, first on line %d", first.at.line)
		if first.name != e.name {
			rule = fmt.Sprintf("is given twice, first as %s on line %d", first.name, first.at.line)
		}
		f.add(e.at, keyPath(path, e.name), "", rule, "remove one of the two; keys are lower case")
		return
	}
	if n.index == nil {
		n.index = map[string]int{}
	}
	n.index[folded] = len(n.keys)
	n.keys = append(n.keys, e)
}

// Limits of a study file. They are far above what a study needs and keep a broken
// or malicious file from eating memory and time.
const (
	maxBytes  = 4 << 20 // size
	maxDepth  = 32      // sections and lists inside each other
	maxValues = 200000  // keys, items and values together
)

// budget counts down what a reader may still read.
type budget struct {
	f      *findings
	values int
	spent  bool // a limit was passed, and reported
}

func newBudget(f *findings) *budget { return &budget{f: f, values: maxValues} }

// allow counts a value at a depth and reports whether reading may go on.
func (b *budget) allow(at place, depth int) bool {
	b.values--
	switch {
	case b.spent:
	case depth > maxDepth:
		b.spent = true
		b.f.add(at, "", "", fmt.Sprintf("is nested more than %d levels deep", maxDepth), "a study needs no more than six levels")
	case b.values < 0:
		b.spent = true
		b.f.add(at, "", "", fmt.Sprintf("has more than %d values", maxValues), "write long axes as from, to and steps")
	}
	return !b.spent
}
