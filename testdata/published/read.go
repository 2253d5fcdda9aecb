package published

import (
	"bytes"
	"embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
)

//go:embed *.csv
var tables embed.FS

var header = []string{"case", "inputs", "expected", "tolerance", "kind", "source", "why"}

// Row is one published value with what belongs to it.
type Row struct {
	Case      string             // name of the check
	Source    string             // publication, with table, equation or page
	Why       string             // reason for the tolerance
	Kind      string             // "rel" or "abs"
	In        map[string]float64 // inputs by name, in the unit that the name says, else SI
	Expected  float64            // published value
	Tolerance float64            // largest deviation allowed, relative or absolute by Kind
	Line      int                // line in the table, from 1

	inputs string // In as written
}

// Rows returns the rows of the table <subject>.csv in their order. It fails the
// test at once if there is no such table, or no rows in it, or if any row is not
// as the package comment says.
func Rows(t testing.TB, subject string) []Row {
	t.Helper()
	data, err := tables.ReadFile(subject + ".csv")
	if err != nil {
		t.Fatalf("published values of %q: %v", subject, err)
	}
	rows, err := parse(data)
	if err != nil {
		t.Fatalf("%s.csv: %v", subject, err)
	}
	return rows
}

// Arg returns the input called name; it fails the test at once if the row has
// none.
func (r Row) Arg(t testing.TB, name string) float64 {
	t.Helper()
	v, ok := r.In[name]
	if !ok {
		t.Fatalf("line %d: %s needs the input %q", r.Line, r.Case, name)
	}
	return v
}

// Check fails the test if got deviates from the published value by more than the
// tolerance, or is not a number.
func (r Row) Check(t testing.TB, got float64) {
	t.Helper()
	deviation := math.Abs(got - r.Expected)
	if r.Kind == "rel" {
		deviation /= math.Abs(r.Expected)
	}
	if !(deviation <= r.Tolerance) { // so written that NaN fails
		t.Errorf("line %d: %s %v = %.10g, published %.10g: deviation %.3g %s, allowed %.3g (%s)\nsource: %s",
			r.Line, r.Case, r.In, got, r.Expected, deviation, r.Kind, r.Tolerance, r.Why, r.Source)
	}
}

// Run checks every row of the table <subject>.csv, each in a subtest, against
// what the check of its case returns. It fails if a row names a case that checks
// does not have, and if checks has a case that no row names. What the checks give
// is kept as a table for readers, checks/<subject>.md; Run fails if that table is
// not up to date.
func Run(t *testing.T, subject string, checks map[string]func(t *testing.T, r Row) float64) {
	t.Helper()
	rows := Rows(t, subject)
	names := make([]string, 0, len(checks))
	for name := range checks {
		names = append(names, name)
	}
	if err := match(rows, names); err != nil {
		t.Fatalf("%s.csv: %v", subject, err)
	}
	given := collector{list: make([]checked, len(rows))}
	for i, r := range rows {
		t.Run(fmt.Sprintf("%s line %d", r.Case, r.Line), func(t *testing.T) {
			ours := checks[r.Case](t, r)
			given.add(i, r, ours)
			r.Check(t, ours)
		})
	}
	if subject != own && !t.Failed() && !given.partial() {
		compare(t, subject, tabulate(subject, given.list))
	}
}

// own is the table that tests this package and publishes nothing.
const own = "reader"

// match returns an error for the first row whose case is not among names, else
// for the first of names, sorted, that no row uses.
func match(rows []Row, names []string) error {
	used := map[string]bool{}
	for _, r := range rows {
		if !slices.Contains(names, r.Case) {
			return fmt.Errorf("line %d: nothing checks the case %q", r.Line, r.Case)
		}
		used[r.Case] = true
	}
	slices.Sort(names)
	for _, name := range names {
		if !used[name] {
			return fmt.Errorf("no row for the check %q", name)
		}
	}
	return nil
}

func parse(data []byte) ([]Row, error) {
	in := csv.NewReader(bytes.NewReader(data))
	in.Comment = '#'
	in.FieldsPerRecord = len(header)
	head, err := in.Read()
	if err != nil {
		return nil, fmt.Errorf("header: %w", err)
	}
	if !slices.Equal(head, header) {
		return nil, fmt.Errorf("header is %q, want %q", strings.Join(head, ","), strings.Join(header, ","))
	}
	var rows []Row
	for {
		record, err := in.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, err
		}
		line, _ := in.FieldPos(0)
		row, err := parseRow(record)
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", line, err)
		}
		row.Line = line
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		return nil, errors.New("no rows")
	}
	return rows, nil
}

func parseRow(record []string) (Row, error) {
	r := Row{Case: record[0], Kind: record[4], Source: record[5], Why: record[6], inputs: record[1]}
	for i, field := range record {
		if strings.TrimSpace(field) == "" && header[i] != "inputs" {
			return Row{}, fmt.Errorf("%s is blank", header[i])
		}
	}
	var err error
	if r.In, err = parseInputs(record[1]); err != nil {
		return Row{}, err
	}
	if r.Expected, err = finite(record[2]); err != nil {
		return Row{}, fmt.Errorf("expected: %w", err)
	}
	if r.Tolerance, err = finite(record[3]); err != nil {
		return Row{}, fmt.Errorf("tolerance: %w", err)
	}
	switch {
	case r.Kind != "rel" && r.Kind != "abs":
		return Row{}, fmt.Errorf("kind is %q, want rel or abs", r.Kind)
	case r.Tolerance < 0:
		return Row{}, errors.New("tolerance is negative")
	case r.Kind == "rel" && r.Expected == 0:
		return Row{}, errors.New("a relative tolerance around zero allows nothing: use abs")
	case r.Kind == "rel" && r.Tolerance >= 1:
		return Row{}, errors.New("a relative tolerance of 1 or more checks nothing")
	}
	return r, nil
}

func parseInputs(text string) (map[string]float64, error) {
	in := map[string]float64{}
	for _, pair := range strings.Fields(text) {
		name, number, ok := strings.Cut(pair, "=")
		if !ok || name == "" {
			return nil, fmt.Errorf("input %q is not name=value", pair)
		}
		if _, twice := in[name]; twice {
			return nil, fmt.Errorf("input %q is given twice", name)
		}
		v, err := finite(number)
		if err != nil {
			return nil, fmt.Errorf("input %q: %w", name, err)
		}
		in[name] = v
	}
	return in, nil
}

func finite(text string) (float64, error) {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return 0, fmt.Errorf("%q is not a number", text)
	}
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is not finite", text)
	}
	return v, nil
}
