package study

import (
	"errors"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// readTOML reads a TOML document into a tree. It returns nil if there is none to
// go on with.
//
// The tree comes from the expressions of the document, which know their places.
// Whether they may follow each other as they do (a table opened twice, a value
// extended like a table) is then asked of the library's own decoder.
func readTOML(data []byte, f *findings) *node {
	r := tomlReader{lines: indexLines(data), f: f, budget: newBudget(f)}
	r.parser.Reset(data)
	root := &node{at: place{1, 1}, kind: mapping}
	into, path, depth := root, "", 1
	for r.parser.NextExpression() {
		e := r.parser.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			into, path, depth = r.open(root, e)
		default:
			r.pair(into, path, depth, e)
		}
		if r.budget.spent || r.broken {
			return nil
		}
	}
	if err := r.parser.Error(); err != nil {
		at := place{line: len(r.lines.starts)}
		var parse *unstable.ParserError
		if errors.As(err, &parse) && len(parse.Highlight) > 0 {
			at = r.lines.place(int(r.parser.Range(parse.Highlight).Offset))
		}
		f.add(at, "", "", "is not TOML: "+err.Error(), "texts, and numbers with a unit, stand in quotes")
		return nil
	}
	var whole map[string]any
	if err := toml.Unmarshal(data, &whole); err != nil && len(f.list) == 0 {
		at := place{line: 1}
		var decode *toml.DecodeError
		if errors.As(err, &decode) {
			at.line, at.column = decode.Position()
		}
		f.add(at, "", "", "is not TOML: "+strings.TrimPrefix(err.Error(), "toml: "), "give every table and every key once")
		return nil
	}
	return root
}

type tomlReader struct {
	parser unstable.Parser
	lines  *lineIndex
	f      *findings
	budget *budget
	broken bool // a key goes through something that is no table; reported
}

// open returns the table that a header names, its path and its depth.
func (r *tomlReader) open(root *node, header *unstable.Node) (*node, string, int) {
	into, path, depth := root, "", 1
	for keys := header.Key(); keys.Next(); {
		key := keys.Node()
		if keys.IsLast() && header.Kind == unstable.ArrayTable {
			into, path = r.append(into, path, key)
			depth += 2
		} else {
			into, path = r.enter(into, path, key)
			depth++
		}
		if r.broken || !r.budget.allow(r.at(key), depth) {
			return root, "", 1
		}
	}
	return into, path, depth
}

// enter returns the table under a key, newly made if need be; of a list of
// tables, the last.
func (r *tomlReader) enter(into *node, path string, key *unstable.Node) (*node, string) {
	name := string(key.Data)
	parent, path := path, keyPath(path, name)
	value, ok := into.get(name)
	switch {
	case !ok:
		value = &node{at: r.at(key), kind: mapping}
		into.put(r.f, parent, entry{name, r.at(key), value})
	case value.kind == list && len(value.items) > 0 && value.items[len(value.items)-1].kind == mapping:
		return value.items[len(value.items)-1], itemPath(path, len(value.items)-1)
	case value.kind != mapping:
		r.clash(key, path, value)
	}
	return value, path
}

// append returns a new table at the end of the list of tables under a key.
func (r *tomlReader) append(into *node, path string, key *unstable.Node) (*node, string) {
	name := string(key.Data)
	parent, path := path, keyPath(path, name)
	value, ok := into.get(name)
	if !ok {
		value = &node{at: r.at(key), kind: list}
		into.put(r.f, parent, entry{name, r.at(key), value})
	} else if value.kind != list {
		r.clash(key, path, value)
	}
	item := &node{at: r.at(key), kind: mapping}
	value.items = append(value.items, item)
	return item, itemPath(path, len(value.items)-1)
}

func (r *tomlReader) clash(key *unstable.Node, path string, value *node) {
	r.broken = true
	r.f.add(r.at(key), path, "", "is given as "+value.kind.String()+" already", "give it once, in one way")
}

// pair adds a key and its value, the key possibly dotted, to a table.
func (r *tomlReader) pair(into *node, path string, depth int, e *unstable.Node) {
	for keys := e.Key(); keys.Next(); depth++ {
		key := keys.Node()
		if !keys.IsLast() {
			if into, path = r.enter(into, path, key); r.broken || !r.budget.allow(r.at(key), depth) {
				return
			}
			continue
		}
		name, at := string(key.Data), r.at(key)
		if value := r.value(e.Value(), at, keyPath(path, name), depth+1); value != nil {
			into.put(r.f, path, entry{name, at, value})
		}
	}
}

// value returns the tree of a value, or nil if reading must not go on. Lists have
// no place of their own and get that of their key.
func (r *tomlReader) value(n *unstable.Node, at place, path string, depth int) *node {
	if n.Raw.Length > 0 {
		at = r.lines.place(int(n.Raw.Offset))
	}
	if !r.budget.allow(at, depth) {
		return nil
	}
	out := &node{at: at, text: string(n.Data)}
	switch n.Kind {
	case unstable.Array:
		out.kind = list
		for items := n.Children(); items.Next(); {
			item := r.value(items.Node(), at, itemPath(path, len(out.items)), depth+1)
			if item == nil {
				return nil
			}
			out.items = append(out.items, item)
		}
	case unstable.InlineTable:
		out.kind = mapping
		for pairs := n.Children(); pairs.Next(); {
			if r.pair(out, path, depth, pairs.Node()); r.broken || r.budget.spent {
				return nil
			}
		}
	case unstable.String:
		out.kind = words
	case unstable.Integer, unstable.Float:
		out.kind = bare
	case unstable.Bool:
		out.kind = truth
	default:
		out.kind = date
	}
	return out
}

// at returns the place of a key.
func (r *tomlReader) at(key *unstable.Node) place { return r.lines.place(int(key.Raw.Offset)) }
