package published

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"runtime"
	"strconv"
	"strings"
	"testing"
)

const head = "case,inputs,expected,tolerance,kind,source,why\n"

func TestParseReadsEveryField(t *testing.T) {
	rows, err := parse([]byte(head + "# a remark\n" +
		"area,a=2 b_mm=-3.5e-1,6.25,1e-3,rel,\"Somebody 1999, eq. 4\",printed to 3 digits\n" +
		"area,,0,0.5,abs,s,w\n"))
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 2 {
		t.Fatalf("%d rows, want 2", len(rows))
	}
	r := rows[0]
	if r.Case != "area" || r.Source != "Somebody 1999, eq. 4" || r.Why != "printed to 3 digits" || r.Kind != "rel" ||
		r.Expected != 6.25 || r.Tolerance != 1e-3 || r.Line != 3 || len(r.In) != 2 || r.Arg(t, "a") != 2 || r.Arg(t, "b_mm") != -0.35 {
		t.Errorf("first row is %+v", r)
	}
	if rows[1].Kind != "abs" || rows[1].Line != 4 || len(rows[1].In) != 0 {
		t.Errorf("second row is %+v", rows[1])
	}
}

func TestParseRefusesTablesThatCheckNothing(t *testing.T) {
	for _, c := range []struct{ name, table, want string }{
		{"empty file", "", "header"},
		{"other header", "case,inputs,expected,tolerance,kind,source,reason\n", "header is"},
		{"no rows", head, "no rows"},
		{"only remarks", head + "# area,a=1,1,1e-3,rel,s,w\n", "no rows"},
		{"field missing", head + "area,a=1,1,1e-3,rel,s\n", "wrong number of fields"},
		{"case blank", head + ",a=1,1,1e-3,rel,s,w\n", "line 2: case is blank"},
		{"source blank", head + "area,a=1,1,1e-3,rel,s,w\narea,a=1,1,1e-3,rel, ,w\n", "line 3: source is blank"},
		{"why blank", head + "area,a=1,1,1e-3,rel,s,\n", "why is blank"},
		{"unknown kind", head + "area,a=1,1,1e-3,percent,s,w\n", "kind is \"percent\""},
		{"expected no number", head + "area,a=1,x,1e-3,rel,s,w\n", "expected: \"x\" is not a number"},
		{"expected not finite", head + "area,a=1,NaN,1e-3,rel,s,w\n", "expected: \"NaN\" is not finite"},
		{"tolerance no number", head + "area,a=1,1,1%,rel,s,w\n", "tolerance: \"1%\""},
		{"tolerance infinite", head + "area,a=1,1,inf,rel,s,w\n", "tolerance: \"inf\" is not finite"},
		{"tolerance negative", head + "area,a=1,1,-1,abs,s,w\n", "tolerance is negative"},
		{"tolerance of 1", head + "area,a=1,1,1,rel,s,w\n", "checks nothing"},
		{"relative to zero", head + "area,a=1,0,1e-3,rel,s,w\n", "around zero"},
		{"input without value", head + "area,a,1,1e-3,rel,s,w\n", "input \"a\" is not name=value"},
		{"input without name", head + "area,=1,1,1e-3,rel,s,w\n", "is not name=value"},
		{"input no number", head + "area,a=1mm,1,1e-3,rel,s,w\n", "input \"a\": \"1mm\""},
		{"input twice", head + "area,a=1 a=2,1,1e-3,rel,s,w\n", "input \"a\" is given twice"},
	} {
		rows, err := parse([]byte(c.table))
		if err == nil {
			t.Errorf("%s: accepted as %+v", c.name, rows)
		} else if !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %q does not say %q", c.name, err, c.want)
		}
	}
}

func TestMatchFindsCasesWithoutCheckAndChecksWithoutCase(t *testing.T) {
	rows := []Row{{Case: "a", Line: 2}, {Case: "b", Line: 3}}
	if err := match(rows, []string{"b", "a"}); err != nil {
		t.Errorf("all matched, yet %v", err)
	}
	for _, c := range []struct {
		names []string
		want  string
	}{
		{[]string{"a"}, `line 3: nothing checks the case "b"`},
		{[]string{"d", "a", "c", "b"}, `no row for the check "c"`},
	} {
		if err := match(rows, c.names); err == nil || err.Error() != c.want {
			t.Errorf("match with %v gives %v, want %q", c.names, err, c.want)
		}
	}
}

// recorder stands in for a test and keeps what it is told.
type recorder struct {
	testing.TB
	failed, fatal bool
	text          string
}

func (r *recorder) Helper() {}
func (r *recorder) Errorf(format string, args ...any) {
	r.failed, r.text = true, fmt.Sprintf(format, args...)
}
func (r *recorder) Fatalf(format string, args ...any) {
	r.Errorf(format, args...)
	r.fatal = true
	runtime.Goexit()
}

// told runs f with a recorder, in a goroutine because a fatal failure ends it.
func told(f func(t testing.TB)) *recorder {
	r := &recorder{}
	done := make(chan struct{})
	go func() {
		defer close(done)
		f(r)
	}()
	<-done
	return r
}

func TestCheckFailsOutsideTheToleranceOnly(t *testing.T) {
	for _, c := range []struct {
		kind     string
		expected float64
		tol      float64
		got      float64
		fails    bool
	}{
		{"rel", 200, 0.01, 201.9, false},
		{"rel", 200, 0.01, 198.1, false},
		{"rel", 200, 0.01, 202.1, true},
		{"rel", 200, 0.01, 197.9, true},
		{"rel", -200, 0.01, -201.9, false},
		{"rel", -200, 0.01, 200, true},
		{"abs", 200, 0.01, 200.0099, false},
		{"abs", 200, 0.01, 201.9, true},
		{"abs", 0, 0.01, -0.0099, false},
		{"abs", 0, 0, 0, false},
		{"rel", 200, 0.01, math.NaN(), true},
		{"abs", 200, 0.01, math.NaN(), true},
		{"rel", 200, 0.01, math.Inf(1), true},
	} {
		row := Row{Case: "x", Source: "Somebody 1999", Why: "2 digits", Kind: c.kind, Expected: c.expected, Tolerance: c.tol, Line: 7}
		r := told(func(t testing.TB) { row.Check(t, c.got) })
		if r.failed != c.fails {
			t.Errorf("%+v: failed = %v", c, r.failed)
		}
		if r.failed && !(strings.Contains(r.text, "Somebody 1999") && strings.Contains(r.text, "line 7")) {
			t.Errorf("message %q lacks source or line", r.text)
		}
	}
}

func TestMissingInputAndMissingTableStopTheTest(t *testing.T) {
	if r := told(func(t testing.TB) { Row{Case: "x", Line: 4}.Arg(t, "t_C") }); !r.fatal || !strings.Contains(r.text, `"t_C"`) {
		t.Errorf("missing input: %+v", r)
	}
	if r := told(func(t testing.TB) { Rows(t, "no such table") }); !r.fatal || !strings.Contains(r.text, "not exist") {
		t.Errorf("missing table: %+v", r)
	}
}

func TestRunHandsEveryRowToItsCheck(t *testing.T) {
	var lines []int
	Run(t, "reader", map[string]func(t *testing.T, r Row) float64{
		"sum": func(t *testing.T, r Row) float64 {
			lines = append(lines, r.Line)
			return r.Arg(t, "a") + r.Arg(t, "b")
		},
		"root": func(t *testing.T, r Row) float64 {
			lines = append(lines, r.Line)
			return math.Sqrt(r.Arg(t, "a"))
		},
	})
	if want := "[3 4 5]"; fmt.Sprint(lines) != want {
		t.Errorf("lines %v were checked, want %s", lines, want)
	}
}

// A row that deviates must fail the whole test: seen from outside, by running
// this test again in a process of its own.
func TestRunFailsOnARowThatDeviates(t *testing.T) {
	const again = "FINDUEL_TEST_DEVIATION"
	if text := os.Getenv(again); text != "" {
		deviation, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatal(err)
		}
		Run(t, "reader", map[string]func(t *testing.T, r Row) float64{
			"sum":  func(t *testing.T, r Row) float64 { return r.Arg(t, "a") + r.Arg(t, "b") },
			"root": func(t *testing.T, r Row) float64 { return math.Sqrt(r.Arg(t, "a")) + deviation },
		})
		return
	}
	for _, c := range []struct {
		deviation string
		fails     bool
	}{{"0", false}, {"1e-6", true}} {
		cmd := exec.Command(os.Args[0], "-test.run=^"+t.Name()+"$")
		cmd.Env = append(os.Environ(), again+"="+c.deviation)
		out, err := cmd.CombinedOutput()
		if (err != nil) != c.fails {
			t.Errorf("deviation %s: %v\n%s", c.deviation, err, out)
		}
		if c.fails && !strings.Contains(string(out), "source: arithmetic") {
			t.Errorf("deviation %s: no source in\n%s", c.deviation, out)
		}
	}
}

func TestEveryTableReads(t *testing.T) {
	entries, err := tables.ReadDir(".")
	if err != nil || len(entries) < 2 {
		t.Fatalf("tables: %v, %v", entries, err)
	}
	for _, e := range entries {
		t.Run(e.Name(), func(t *testing.T) { Rows(t, strings.TrimSuffix(e.Name(), ".csv")) })
	}
}
