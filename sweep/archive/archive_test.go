package archive_test

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"finduel/model"
	"finduel/sweep"
	"finduel/sweep/archive"
	"finduel/sweep/study"
)

// nearlyRound is no number of twelve digits, but within rounding of one.
const nearlyRound = 9.804842693540024

func results(t *testing.T) *sweep.Results {
	t.Helper()
	in, ok := model.InputOf("fin_depth")
	if !ok {
		t.Fatal("no fin depth")
	}
	s := &study.Study{
		Name: "three", Metric: "coolant_over_air", Reference: 1,
		Setups: []study.Setup{{Name: "a"}, {Name: "b"}},
		Axes:   []study.Axis{{Input: in, Values: []float64{0.018, 0.026, 0.0341}}},
	}
	return &sweep.Results{Plan: sweep.Lay(s), Rows: []sweep.Row{
		{Point: 0, State: model.State{CoolantOverAir: 1.0 / 3, Sound: 40, ExposureLimit: 86401, Warnings: model.AirReynoldsLow | model.StallRegion}, Reference: 0.1},
		{Point: 1, Failure: `it "boils", they say`},
		{Point: 2, State: model.State{CoolantOverAir: 12, FanPower: nearlyRound, ExposureLimit: 3600}, Reference: 10},
	}}
}

// What stands beside is asked for the number of the point, not the row, and leaves a point
// without a value blank.
func TestColumnsBeside(t *testing.T) {
	var b bytes.Buffer
	own := archive.Beside{Column: "own_K", Of: func(point int) string { return strconv.Itoa(10 * point) }}
	if err := archive.WritePoints(&b, results(t), own, archive.Beside{Column: "none", Of: func(int) string { return "" }}); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	heads := rows[0]
	at := len(heads) - 4
	if want := []string{"own_K", "none", "warnings", "reason"}; !slices.Equal(heads[at:], want) {
		t.Fatalf("the last columns are %q, want %q", heads[at:], want)
	}
	for i, want := range []string{"0", "", "20"} {
		if row := rows[1+i]; row[at] != want || row[at+1] != "" {
			t.Errorf("point %d has %q and %q beside it, want %q", i, row[at], row[at+1], want)
		}
	}
}

func TestPointsReadBackExactly(t *testing.T) {
	r := results(t)
	var b bytes.Buffer
	if err := archive.WritePoints(&b, r); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 4 {
		t.Fatalf("%d lines", len(rows))
	}
	column := map[string]int{}
	for i, name := range rows[0] {
		if _, twice := column[name]; twice {
			t.Errorf("two columns %s", name)
		}
		column[name] = i
	}
	cell := func(row int, name string) string {
		i, ok := column[name]
		if !ok {
			t.Fatalf("no column %s in %v", name, rows[0])
		}
		return rows[row][i]
	}
	for _, c := range []struct {
		row        int
		name, want string
	}{
		{1, "point", "0"}, {1, "fin_depth_mm", "18"}, {1, "status", "ok"}, {1, "warnings", "air_reynolds_low;stall_region"}, {1, "reason", ""},
		{2, "status", "failed"}, {2, "reason", `it "boils", they say`}, {2, "coolant_over_air_K", ""}, {2, "difference_K", ""}, {2, "fin_depth_mm", "26"},
		{1, "exposure_limit_min", ""}, {3, "exposure_limit_min", "60"},
		{3, "coolant_over_air_K", "12"}, {3, "reference_over_air_K", "10"}, {3, "difference_K", "2"},
		{3, "fan_power_W", "9.804842693540024"},
	} {
		if got := cell(c.row, c.name); got != c.want {
			t.Errorf("line %d, %s: %q, want %q", c.row, c.name, got, c.want)
		}
	}
	if got, _ := strconv.ParseFloat(cell(1, "coolant_over_air_K"), 64); got != 1.0/3 {
		t.Errorf("a third comes back as %v", got)
	}
}

// fullDisk takes n bytes and no more.
type fullDisk struct{ n int }

func (d *fullDisk) Write(p []byte) (int, error) {
	if d.n -= len(p); d.n < 0 {
		return 0, errors.New("disk full")
	}
	return len(p), nil
}

func TestAWriteErrorIsTold(t *testing.T) {
	var whole bytes.Buffer
	if err := archive.WritePoints(&whole, results(t)); err != nil {
		t.Fatal(err)
	}
	for n := 0; n < whole.Len(); n += 97 {
		if err := archive.WritePoints(&fullDisk{n}, results(t)); err == nil {
			t.Errorf("disk full after %d bytes is not told", n)
		}
	}
}

func TestWriteFileIsAllOrNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new", "a.txt")
	write := func(text string, err error) error {
		return archive.WriteFile(path, func(w io.Writer) error {
			io.WriteString(w, text)
			return err
		})
	}
	if err := write("first", nil); err != nil {
		t.Fatal(err)
	}
	if err := write("half of the sec", errors.New("broken")); err == nil {
		t.Error("a broken write is not told")
	}
	data, err := os.ReadFile(path)
	if err != nil || string(data) != "first" {
		t.Errorf("after a broken write the file holds %q (%v)", data, err)
	}
	if err := write("second", nil); err != nil {
		t.Fatal(err)
	}
	if data, _ := os.ReadFile(path); string(data) != "second" {
		t.Errorf("the file holds %q", data)
	}
	entries, _ := os.ReadDir(filepath.Dir(path))
	if len(entries) != 1 {
		t.Errorf("%d files left in the folder, want one", len(entries))
	}
}

func TestWriteFileWhereNothingMayBeWritten(t *testing.T) {
	blocked := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(blocked, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := archive.WriteFile(filepath.Join(blocked, "x"), func(io.Writer) error { return nil }); err == nil {
		t.Error("a folder that is a file is not told")
	}
}

func TestRecordReadsBack(t *testing.T) {
	var b bytes.Buffer
	if err := archive.WriteRecord(&b, archive.Record{Program: "finduel", Study: "a <b> & c", Points: 3, Files: []string{"points.csv"}}); err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(b.Bytes(), []byte(`"study": "a <b> & c"`)) || !bytes.Contains(b.Bytes(), []byte(`"points": 3`)) {
		t.Errorf("record: %s", b.String())
	}
}
