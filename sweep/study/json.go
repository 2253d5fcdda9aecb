package study

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// readJSON reads a JSON text into a tree. It returns nil if there is none to go
// on with.
func readJSON(data []byte, f *findings) *node {
	if len(bytes.TrimSpace(data)) == 0 {
		return &node{at: place{1, 1}, kind: nought}
	}
	lines := indexLines(data)
	var whole json.RawMessage
	if err := json.Unmarshal(data, &whole); err != nil {
		at := lines.place(len(data) - 1)
		var syntax *json.SyntaxError
		if errors.As(err, &syntax) && syntax.Offset > 0 {
			at = lines.place(int(syntax.Offset) - 1)
		}
		f.add(at, "", "", "is not JSON: "+err.Error(), "look for a missing bracket, quote or comma, or one too many, up to here")
		return nil
	}
	r := jsonReader{data: data, lines: lines, tokens: json.NewDecoder(bytes.NewReader(data)), f: f, budget: newBudget(f)}
	r.tokens.UseNumber()
	n, err := r.read("", 1)
	if err != nil {
		f.add(lines.place(int(r.tokens.InputOffset())), "", "", "is not JSON: "+err.Error(), "")
		return nil
	}
	return n
}

// jsonReader walks the tokens of a text that is known to be JSON.
type jsonReader struct {
	data   []byte
	lines  *lineIndex
	tokens *json.Decoder
	f      *findings
	budget *budget
}

// next returns the next token and where it starts.
func (r *jsonReader) next() (json.Token, place, error) {
	from := int(r.tokens.InputOffset())
	for from < len(r.data) && bytes.IndexByte([]byte(" \t\r\n,:"), r.data[from]) >= 0 {
		from++
	}
	token, err := r.tokens.Token()
	if errors.Is(err, io.EOF) {
		err = io.ErrUnexpectedEOF
	}
	return token, r.lines.place(from), err
}

// read returns the next value, or nil if reading must not go on.
func (r *jsonReader) read(path string, depth int) (*node, error) {
	token, at, err := r.next()
	if err != nil || !r.budget.allow(at, depth) {
		return nil, err
	}
	switch v := token.(type) {
	case json.Delim:
		if v == '[' {
			return r.list(at, path, depth)
		}
		return r.mapping(at, path, depth)
	case string:
		return &node{at: at, kind: words, text: v}, nil
	case json.Number:
		return &node{at: at, kind: bare, text: v.String()}, nil
	case bool:
		return &node{at: at, kind: truth, text: fmt.Sprint(v)}, nil
	}
	return &node{at: at, kind: nought}, nil
}

func (r *jsonReader) list(at place, path string, depth int) (*node, error) {
	out := &node{at: at, kind: list}
	for r.tokens.More() {
		item, err := r.read(itemPath(path, len(out.items)), depth+1)
		if item == nil || err != nil {
			return nil, err
		}
		out.items = append(out.items, item)
	}
	_, _, err := r.next()
	return out, err
}

func (r *jsonReader) mapping(at place, path string, depth int) (*node, error) {
	out := &node{at: at, kind: mapping}
	for r.tokens.More() {
		token, keyAt, err := r.next()
		if err != nil {
			return nil, err
		}
		key := fmt.Sprint(token)
		value, err := r.read(keyPath(path, key), depth+1)
		if value == nil || err != nil {
			return nil, err
		}
		out.put(r.f, path, entry{key, keyAt, value})
	}
	_, _, err := r.next()
	return out, err
}
