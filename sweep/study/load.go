package study

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"unicode"
)

// formats tells the format of a file by its extension.
var formats = map[string]string{".yaml": "yaml", ".yml": "yaml", ".json": "json", ".toml": "toml"}

// Load reads a study from a file, whose format its extension tells: .yaml, .yml,
// .json or .toml. If the study is not in order it returns all its Faults; any
// other error says why the file cannot be read.
func Load(path string) (*Study, error) {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return nil, Faults{{File: path, Rule: "is a directory, not a study", Hint: "give the file with the study in it"}}
	}
	format, ok := formats[strings.ToLower(filepath.Ext(path))]
	if !ok {
		return nil, Faults{{File: path, Rule: "is not a study by its name", Hint: "name it with the extension .yaml, .toml or .json"}}
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("cannot read the study: %w", err)
	}
	data, err := io.ReadAll(io.LimitReader(file, maxBytes+1))
	if err != nil {
		file.Close()
		return nil, fmt.Errorf("cannot read the study: %w", err)
	}
	if err := file.Close(); err != nil {
		return nil, fmt.Errorf("cannot read the study: %w", err)
	}
	return Read(path, data, format)
}

// Read reads a study from data in a format: "yaml", "json" or "toml". The name
// stands for the file in the Faults that it returns if the study is not in order.
func Read(name string, data []byte, format string) (*Study, error) {
	f := newFindings(name)
	d, places, ok, err := decode(data, format, f)
	if err != nil {
		return nil, fmt.Errorf("cannot read the study %s: %w", name, err)
	}
	var s *Study
	if ok {
		b := builder{findings: f, doc: d, places: places}
		s = b.study()
		s.Source, s.Format = data, format
	}
	if faults := f.sorted(); len(faults) > 0 {
		return nil, faults
	}
	return s, nil
}

// study returns the study, in order if there is no fault.
func (b *builder) study() *Study {
	s := &Study{File: b.file}
	s.Name, _ = b.folderName(b.doc.Study)
	s.About = b.about()
	tolerances := b.splitTolerances()
	setups, fans, sound := b.setups()
	s.Setups, s.Fans = setups, fans
	names := b.directory("a setup", nameLeaves(b.doc.Setups, func(p setupPart) *leaf { return p.Name }))
	for i, name := range names.names {
		s.Setups[i].Name = name
	}
	challenger, okChallenger := b.find(names, b.doc.Sweep.Challenger)
	reference, okReference := b.find(names, b.doc.Sweep.Reference)
	if okChallenger && okReference && challenger == reference {
		b.fault(b.doc.Sweep.Reference, "is the challenger too", "a study compares two setups")
	}
	s.Challenger, s.Reference = challenger, reference
	s.Metric = choice(b.findings, b.doc.Sweep.Metric, metrics...).String()
	s.Margin = b.margin()
	var challenging Setup
	if okChallenger {
		challenging = setups[challenger]
	}
	s.Axes = b.axes(challenging, okChallenger && sound[challenger])
	s.Maps = b.maps(s.Axes)
	s.Exclusions = b.exclusions()
	s.Doubt = b.doubt(s, tolerances, names)
	if len(b.list) == 0 && !s.leavesAnyPoint() {
		b.add(b.places["sweep.exclude"], "sweep.exclude", "", "leaves out every point", "a point is left out if all conditions of one combination hold: move above and below")
	}
	if len(b.list) == 0 {
		s.Hash = s.hash()
	}
	return s
}

// longestAbout is how many characters fit under the title of a chart.
const longestAbout = 300

// about returns the line that says what the study is about.
func (b *builder) about() string {
	s, _ := b.word(b.doc.About)
	s = strings.TrimSpace(s)
	switch {
	case strings.IndexFunc(s, func(r rune) bool { return !unicode.IsPrint(r) }) >= 0:
		b.fault(b.doc.About, "has a line break or another character that cannot be printed", "write it on one line")
	case len([]rune(s)) > longestAbout:
		b.fault(b.doc.About, "is too long", fmt.Sprintf("use at most %d characters", longestAbout))
	}
	return s
}
