package study

import (
	"reflect"
	"slices"
	"strings"
)

// shaper holds a tree against the document: which keys there may and must be, and
// what is a section, a list or a value. What fits comes out as the maps, lists
// and leaves that viper takes.
type shaper struct {
	f      *findings
	places map[string]place // of every section, list and value, by path

	listed map[reflect.Type]bool // sections whose keys a hint has listed
}

// field is a key that a section may have.
type field struct {
	key, input, need, like string // input is what the key sets, if it has one name only
	typ                    reflect.Type
}

var leafType = reflect.TypeFor[*leaf]()

// fieldsOf returns the keys of a section in the order of the document.
func fieldsOf(section reflect.Type) []field {
	fields := make([]field, section.NumField())
	for i := range fields {
		tag := section.Field(i).Tag
		fields[i] = field{tag.Get("mapstructure"), tag.Get("input"), tag.Get("need"), tag.Get("like"), section.Field(i).Type}
	}
	return fields
}

// shape returns what fits of a value. like says what it should look like, for the
// hint.
func (s *shaper) shape(n *node, t reflect.Type, path, like string) any {
	s.places[path] = n.at
	switch {
	case t == leafType:
		return s.leaf(n, path, like)
	case t.Kind() == reflect.Slice:
		return s.list(n, t, path, like)
	}
	return s.section(n, t, path, like)
}

func (s *shaper) leaf(n *node, path, like string) *leaf {
	hint := "write a value, or remove the key to have the default"
	if like != "" {
		hint = hintLike(like)
	}
	l := &leaf{at: n.at, path: path, text: n.text, kind: n.kind}
	switch {
	case s.f.touched[path]:
		l.bad = true // by the reader
	case n.kind == nought:
		l.text = ""
		s.f.fault(l, "has no value", hint)
	case !n.scalar():
		s.f.fault(l, "is "+n.kind.String()+", not a value", "write a single value")
	case n.kind == words && strings.TrimSpace(n.text) == "":
		s.f.fault(l, "is empty", hint)
	}
	return l
}

func (s *shaper) list(n *node, t reflect.Type, path, like string) []any {
	out := []any{}
	switch {
	case s.f.touched[path] && n.kind != list:
	case n.kind != list:
		s.f.add(n.at, path, shown(n), "is "+n.kind.String()+", not a list", hintLike(like))
	case len(n.items) == 0:
		s.f.add(n.at, path, "", "is an empty list", hintLike(like))
	default:
		for i, item := range n.items {
			out = append(out, s.shape(item, t.Elem(), itemPath(path, i), like))
		}
	}
	return out
}

func (s *shaper) section(n *node, t reflect.Type, path, like string) map[string]any {
	out := map[string]any{}
	if n.kind != mapping && n.kind != nought {
		s.f.add(n.at, path, shown(n), "is "+n.kind.String()+", not a section", hintLike(like))
		return out
	}
	if s.f.touched[path] && n.kind == nought {
		return out
	}
	fields := fieldsOf(t)
	for _, e := range n.keys {
		known := false
		for _, field := range fields {
			if field.key == e.name {
				known = true
				out[e.name] = s.shape(e.value, field.typ, keyPath(path, e.name), firstOf(field.need, field.like))
			}
		}
		if !known {
			s.unknown(n, e, t, path)
		}
	}
	for _, field := range fields {
		at := keyPath(path, field.key)
		if _, given := n.get(field.key); !given && field.need != "" && !s.f.meant[at] && !s.f.touched[at] {
			s.f.add(n.at, at, "", "is missing", "add "+field.need)
		}
	}
	return out
}

// unknown reports a key that the section does not have. The keys that it has are listed
// once for all sections of its kind.
func (s *shaper) unknown(n *node, e entry, section reflect.Type, path string) {
	fields := fieldsOf(section)
	var keys []string
	for _, f := range fields {
		keys = append(keys, f.key)
	}
	of := "a study"
	if path != "" {
		of = path
	}
	name := e.name
	if trade, ok := tradeWord(name, keys); ok {
		name = trade
	}
	for _, f := range fields {
		if f.input == e.name {
			name = f.key
		}
	}
	lead, home := "keys of "+of, ""
	if near, ok := nearest(name, keys); ok {
		s.f.meant[keyPath(path, near)] = true
	} else if name, home, ok = homeOf(name); ok {
		lead = name + " is a key of " + home + ". Keys of " + of
	}
	near, guessed := meant(name, keys)
	hint := choiceHint(name, lead, keys)
	whole, comma := decimalComma(n, e)
	key, value, colon := strings.Cut(e.name, ":")
	switch {
	case comma:
		hint = "write a decimal point: " + whole
	case colon && slices.Contains(keys, key):
		s.f.meant[keyPath(path, key)] = true
		hint = "put a space behind the colon: " + key + ": " + value
	case !s.listed[section]:
		s.listed[section] = true
	case guessed:
		hint = "did you mean " + near + "?"
	case home != "":
		hint = name + " is a key of " + home
	default:
		hint = "the keys of " + of + " are those listed above"
	}
	s.f.add(e.at, keyPath(path, e.name), "", "is not a key of "+of, hint)
}

// decimalComma returns how a number with a decimal comma is written, and true, if a key
// is what stands behind the comma: between braces a comma begins the next key.
func decimalComma(n *node, e entry) (string, bool) {
	i := slices.IndexFunc(n.keys, func(other entry) bool { return other == e })
	if i < 1 || e.value.kind != nought || e.name == "" || !isDigit(e.name[0]) {
		return "", false
	}
	before := n.keys[i-1]
	whole := before.value.text
	if !before.value.scalar() || whole == "" || !isDigit(whole[len(whole)-1]) || strings.Contains(whole, ".") {
		return "", false
	}
	return before.name + ": " + whole + "." + e.name, true
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// shown returns what a message shows of a node: the text of a scalar.
func shown(n *node) string {
	if n.scalar() {
		return n.text
	}
	return ""
}

func firstOf(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

func hintLike(like string) string {
	if like == "" {
		return ""
	}
	return "write it like this: " + like
}
