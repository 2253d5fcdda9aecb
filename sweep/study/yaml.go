package study

import (
	"bytes"
	"errors"
	"io"
	"regexp"
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

// addYAMLError reports what the parser says, at the line from which on the file cannot be
// read: the parser names the line at which the section began, or the one before it.
func addYAMLError(data []byte, f *findings, err error) {
	text := strings.TrimPrefix(err.Error(), "yaml: ")
	said := 1
	if rest, ok := strings.CutPrefix(text, "line "); ok {
		if number, rule, ok := strings.Cut(rest, ": "); ok {
			if n, err := strconv.Atoi(number); err == nil {
				said, text = n, rule
			}
		}
	}
	line := unreadable(data, said)
	lines := bytes.Split(data, []byte("\n"))
	f.add(place{line: line}, "", "", "is not YAML: "+text, yamlHint(text, strings.TrimSuffix(string(lines[min(line, len(lines))-1]), "\r")))
}

// unreadable returns the first line, from 1, from which on no part of the data that
// begins with its first line is YAML: where a bracket or a quote opens that nothing
// closes, or where an indent does not fit. It returns what the parser said of a text
// without lines, and of one of which too much would have to be read.
func unreadable(data []byte, said int) int {
	left := 4 << 20 // bytes to be read
	last := 1 + bytes.Count(bytes.TrimSpace(data), []byte("\n"))
	said = min(max(said, 1), last)
	if last == 1 {
		return said
	}
	lines := bytes.SplitAfter(data, []byte("\n"))
	size := len(data)
	for n := last - 1; n > 0; n-- {
		if left -= size; left < 0 {
			return said
		}
		size -= len(lines[n])
		documents := yaml.NewDecoder(bytes.NewReader(bytes.Join(lines[:n], nil)))
		var err error
		for err == nil {
			err = documents.Decode(&yaml.Node{})
		}
		if errors.Is(err, io.EOF) {
			return n + 1
		}
	}
	return 1
}

// keyWithoutSpace is a key whose value follows at once.
var keyWithoutSpace = regexp.MustCompile(`^[ -]*([a-z_]+):([^\s:/][^\r]{0,40})$`)

// yamlHint says what to look for in a line that is not YAML.
func yamlHint(rule, line string) string {
	whole := strings.TrimLeft(line, " ")
	key := keyWithoutSpace.FindStringSubmatch(line)
	switch {
	case strings.HasPrefix(whole, "\t"):
		return "indent with spaces: the line starts with a tab, which YAML does not take"
	case strings.HasPrefix(whole, "```"):
		return "leave the lines of ``` out: they are not of the study"
	case key != nil:
		return "put a space behind the colon: " + key[1] + ": " + key[2]
	case strings.HasPrefix(rule, "mapping values"):
		return "a text that has a colon and a space in it stands in quotes"
	case strings.ContainsAny(line, "{[") && strings.Contains(line, " #"):
		return "close the bracket before the #: all that follows it is a comment"
	}
	return "look for a missing bracket, quote or colon, or a wrong indent, here or just above"
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
