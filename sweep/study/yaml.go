package study

import (
	"bytes"
	"errors"
	"io"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"
)

// readYAML reads a YAML document into a tree. It returns nil if there is none to
// go on with.
func readYAML(data []byte, f *findings) *node {
	documents := yaml.NewDecoder(bytes.NewReader(data))
	var first, second yaml.Node
	if err := documents.Decode(&first); err != nil {
		if errors.Is(err, io.EOF) {
			return &node{at: place{1, 1}, kind: nought}
		}
		addYAMLError(data, f, err)
		return nil
	}
	switch err := documents.Decode(&second); {
	case errors.Is(err, io.EOF):
	case err != nil:
		addYAMLError(data, f, err)
		return nil
	default:
		f.add(place{second.Line, second.Column}, "", "", "starts a second document", "one file is one study: remove what follows the line ---")
	}
	r := yamlReader{f: f, budget: newBudget(f)}
	return r.read(first.Content[0], "", 1)
}

// addYAMLError reports what the parser says. Its messages start with "yaml: " and
// mostly carry a line.
func addYAMLError(data []byte, f *findings, err error) {
	line := 1
	text := strings.TrimPrefix(err.Error(), "yaml: ")
	if rest, ok := strings.CutPrefix(text, "line "); ok {
		if number, rule, ok := strings.Cut(rest, ": "); ok {
			if n, err := strconv.Atoi(number); err == nil {
				line, text = n, rule
				if countedFromZero(rule) {
					line++
				}
			}
		}
	}
	last := 1 + bytes.Count(bytes.TrimSpace(data), []byte("\n"))
	line = min(line, last)
	hint := "look for a missing bracket, quote or colon, or a wrong indent, here or where this part starts"
	if lines := bytes.Split(data, []byte("\n")); line >= 1 && line <= len(lines) && bytes.HasPrefix(bytes.TrimLeft(lines[line-1], " "), []byte("\t")) {
		hint = "indent with spaces: the line starts with a tab, which YAML does not take"
	}
	f.add(place{line: line}, "", "", "is not YAML: "+text, hint)
}

// countedFromZero reports whether the parser's line is one too low: it adds one to
// the lines of its scanner only, not to those of its grammar, and the messages
// of the grammar are these.
func countedFromZero(rule string) bool {
	for _, s := range []string{
		"did not find expected '", "did not find expected key", "did not find expected <",
		"did not find expected node content", "found undefined tag handle", "found duplicate %",
	} {
		if strings.HasPrefix(rule, s) {
			return true
		}
	}
	return false
}

type yamlReader struct {
	f      *findings
	budget *budget
}

// read returns the tree of a YAML node, or nil if reading must not go on.
func (r *yamlReader) read(n *yaml.Node, path string, depth int) *node {
	at := place{n.Line, n.Column}
	if !r.budget.allow(at, depth) {
		return nil
	}
	switch {
	case n.Kind == yaml.AliasNode || n.Anchor != "":
		r.f.add(at, path, "", "has an anchor or an alias", "write the value itself: a study has no & and *")
		return &node{at: at, kind: nought}
	case n.Style&yaml.TaggedStyle != 0:
		r.f.add(at, path, "", "has the tag "+quote(n.Tag), "write the value alone: a study has no tags")
		return &node{at: at, kind: nought}
	case n.Kind == yaml.MappingNode:
		return r.mapping(n, path, depth)
	case n.Kind == yaml.SequenceNode:
		out := &node{at: at, kind: list}
		for i, item := range n.Content {
			read := r.read(item, itemPath(path, i), depth+1)
			if read == nil {
				return nil
			}
			out.items = append(out.items, read)
		}
		return out
	}
	kinds := map[string]nodeKind{"!!int": bare, "!!float": bare, "!!bool": truth, "!!null": nought, "!!timestamp": date}
	kind, ok := kinds[n.Tag]
	if !ok {
		kind = words
	}
	return &node{at: at, kind: kind, text: n.Value}
}

func (r *yamlReader) mapping(n *yaml.Node, path string, depth int) *node {
	out := &node{at: place{n.Line, n.Column}, kind: mapping}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		at := place{key.Line, key.Column}
		if key.Kind != yaml.ScalarNode || key.Anchor != "" || key.Style&yaml.TaggedStyle != 0 {
			r.f.add(at, path, "", "has a key that is not a word", "keys are lower-case words")
			continue
		}
		read := r.read(n.Content[i+1], keyPath(path, key.Value), depth+1)
		if read == nil {
			return nil
		}
		out.put(r.f, path, entry{key.Value, at, read})
	}
	return out
}
