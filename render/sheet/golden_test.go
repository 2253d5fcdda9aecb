package sheet

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
	"finduel/testdata/reports"
)

var update = flag.Bool("update", false, "write the golden files anew")

const goldens = "../../testdata/golden/sheet"

// renderers are what this package offers, with the ending of their golden files.
var renderers = []struct {
	ending string
	write  func(io.Writer, *render.Report) error
}{
	{".txt", func(w io.Writer, rep *render.Report) error { return Terminal(w, rep, 80) }},
	{".csv", Breakeven},
	{".json", Summary},
	{"-breakeven.json", BreakevenJSON},
}

func written(t *testing.T, write func(io.Writer, *render.Report) error, rep *render.Report) string {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b, rep); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The golden files are regression checks of the form: their numbers are invented.
func TestGoldens(t *testing.T) {
	for _, c := range reports.Cases() {
		for _, r := range renderers {
			if c.Name != "few" && c.Name != "odd" && c.Name != "sure" && strings.HasSuffix(r.ending, ".json") {
				continue // the three show every part of the form
			}
			path := filepath.Join(goldens, c.Name+r.ending)
			got := written(t, r.write, c.Report())
			if *update {
				if err := os.MkdirAll(goldens, 0o755); err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
				continue
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Errorf("%v; go test -update writes it", err)
				continue
			}
			if line := firstDifference(coarse(got), coarse(string(want))); line > 0 {
				t.Errorf("%s differs at line %d; got\n%s", path, line, got)
			}
		}
	}
}

// firstDifference returns the first line in which two texts differ, from 1; 0 if
// they are the same.
func firstDifference(a, b string) int {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range max(len(x), len(y)) {
		if i >= len(x) || i >= len(y) || x[i] != y[i] {
			return i + 1
		}
	}
	return 0
}

var long = regexp.MustCompile(`-?[0-9]+\.[0-9]{7,}(e[+-][0-9]+)?`)

// coarse rounds long numbers to nine digits: processors that fuse multiplication
// and addition differ in the last of seventeen.
func coarse(s string) string {
	return long.ReplaceAllStringFunc(s, func(n string) string {
		v, err := strconv.ParseFloat(n, 64)
		if err != nil {
			return n
		}
		return strconv.FormatFloat(v, 'g', 9, 64)
	})
}

func TestSameReportSameBytes(t *testing.T) {
	for _, r := range renderers {
		first := written(t, r.write, reports.Booth())
		for range 3 {
			if written(t, r.write, reports.Booth()) != first {
				t.Errorf("%s is not the same twice", r.ending)
			}
		}
	}
}

func TestTerminalKeepsWidth(t *testing.T) {
	for _, c := range reports.Cases() {
		var b bytes.Buffer
		if err := Terminal(&b, c.Report(), 0); err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(b.String(), "\n") {
			if n := utf8.RuneCountInString(line); n > 80 {
				t.Errorf("%s: %d characters: %s", c.Name, n, line)
			}
			if strings.TrimRight(line, " ") != line {
				t.Errorf("%s: spaces at the end of %q", c.Name, line)
			}
		}
	}
}

func TestTerminalSteersNothing(t *testing.T) {
	for _, r := range written(t, renderers[0].write, reports.Odd()) {
		if r < ' ' && r != '\n' || r >= 0x7f && r < 0xa0 || r == '\u202e' {
			t.Errorf("the text contains %U", r)
		}
	}
}

func TestTerminalSaysWhatMatters(t *testing.T) {
	for name, want := range map[string][]string{
		"alone":     {"7 356 rpm", "15 200 rpm", "upper end", "wear hearing protection", render.Disclaimer},
		"few":       {"All designs (±", "highest searched: more may be better still"},
		"one-point": {"6 000 rpm only", render.Disclaimer},
		"hopeless":  {"no answer: the reference has no value: the coolant would boil", "4 points of 4 without a value.", "4 points, e.g. at 1 500 rpm, fin density 12 fpi: the coolant would boil"},
		"booth":     {"lowest break-even", "3 left out by the study.", "33 points of 1 485 without a value; the others are complete.", "best of all"},
		"many":      {"24 of the 45 designs"},
		"sure":      {"95 % interval", "Measure first", "falls from ±1 900 to about ±850 rpm", "with a probability of 25 %"},
		"unsure":    {"lowest speed to never", "31 for small at that speed", "What to measure first cannot be said"},
	} {
		text := ""
		for _, c := range reports.Cases() {
			if c.Name == name {
				text = written(t, renderers[0].write, c.Report())
			}
		}
		flat := strings.Join(strings.Fields(text), " ")
		for _, w := range want {
			if !strings.Contains(flat, strings.Join(strings.Fields(w), " ")) {
				t.Errorf("%s does not say %q", name, w)
			}
		}
	}
}

func TestTerminalWithoutBase(t *testing.T) {
	rep := reports.Few()
	rep.Answers = nil
	if text := written(t, renderers[0].write, rep); !strings.Contains(text, "no answer for the design nearest") {
		t.Errorf("a report without answers says\n%s", text)
	}
}

func TestGridLeavesColumnsAway(t *testing.T) {
	var b bytes.Buffer
	if err := Terminal(&b, reports.Booth(), 44); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(strings.Join(strings.Fields(b.String()), " "), "4 × 1 of 4 × 3 values are shown") {
		t.Errorf("a narrow terminal shows\n%s", b.String())
	}
}

// How sure each break-even is stands below it in the map: its interval, or where there is no
// room for that in how many draws there is one, before values of the second axis are left out.
func TestGridSaysHowSure(t *testing.T) {
	for width, want := range map[int][]string{
		120: {"Below each its 95 % interval, and in how many of the draws there is one.", "4 200 to 8 000; all"},
		62:  {"Below each in how many of the draws there is one.", "all all all"},
		44:  {"4 × 1 of 4 × 3 values are shown", "4 200 to 8 000; all"},
	} {
		var b bytes.Buffer
		if err := Terminal(&b, reports.SureOfMany(), width); err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(b.String()), " ")
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("%d characters wide there is no %q in\n%s", width, w, b.String())
			}
		}
	}
}

// Where nothing was run, what the doubt is from is said too, with intervals, or why not.
func TestSharesOnTheTerminal(t *testing.T) {
	rep := reports.Sure()
	rep.Results = &sweep.Results{Plan: rep.Results.Plan}
	text := strings.Join(strings.Fields(written(t, renderers[0].write, rep)), " ")
	for _, want := range []string{
		"Where the doubt of the challenger minus reference is from: percent of its variance, with 95 % intervals first-order total source",
		"core's air pressure drop: this core of large", "heat load (common)",
		"Where the doubt of the break-even speed is from cannot be said: 12 of 30 720 draws have no such value (invented).",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	rep = reports.Sure()
	own := rep.Doubt.Own
	own.Indices[1] = doubt.Sensitivity{Of: "breakeven_speed", Indices: own.Indices[0].Indices, Draws: 30720, Outside: 1234}
	run := strings.Join(strings.Fields(written(t, renderers[0].write, rep)), " ")
	const want = "Where the doubt of the break-even speed is from: percent of its variance, with 95 % intervals; 1 234 of 30 720 draws have none and count at the ends of the searched speeds"
	if strings.Contains(run, "the challenger minus reference is from") || !strings.Contains(run, want) {
		t.Errorf("a run says more or less than the shares of the break-even speed:\n%s", run)
	}
}

func readCSV(t *testing.T, text string) [][]string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// Cells must say what the answers say, to the last bit.
func TestBreakevenCSV(t *testing.T) {
	rep := reports.Booth()
	rows := readCSV(t, written(t, Breakeven, rep))
	if len(rows) != 1+len(rep.Answers) {
		t.Fatalf("%d rows for %d designs", len(rows), len(rep.Answers))
	}
	column := map[string]int{}
	for i, head := range rows[0] {
		if _, twice := column[head]; twice || strings.ContainsAny(head, " ,()") {
			t.Errorf("bad header %q", head)
		}
		column[head] = i
	}
	number := func(row []string, head string) float64 {
		at, ok := column[head]
		if !ok {
			t.Fatalf("no column %q", head)
		}
		v, err := strconv.ParseFloat(row[at], 64)
		if err != nil {
			t.Fatalf("%s: %v", head, err)
		}
		return v
	}
	long, short := 0, 0
	for i, a := range rep.Answers {
		row := rows[1+i]
		if row[column["design"]] != strconv.Itoa(a.Design) || row[column["status"]] != a.Status.String() {
			t.Errorf("row %d is of design %s, %s", i, row[0], row[column["status"]])
		}
		if got, want := number(row, "fin_density_fpi"), rep.Study.Axes[1].Input.Shown.Shown(rep.DesignValue(a.Design, 1)); got != want {
			t.Errorf("design %d: fin density %v, want %v", i, got, want)
		}
		lower, upper := render.Ends(&a)
		for head, has := range map[string]bool{
			"breakeven_speed_rpm": lower != nil, "breakeven_sound_dBA": lower != nil, "breakeven_upper_speed_rpm": upper != nil,
			"best_speed_rpm": render.Answered(&a), "reference_coolant_over_air_K": render.Answered(&a), "best_difference_K": render.Answered(&a),
			"limit_excess_K": a.Limit.Term != "",
		} {
			if filled := row[column[head]] != ""; filled != has {
				t.Errorf("design %d: %s is %q", i, head, row[column[head]])
			}
		}
		if lower != nil {
			if got := number(row, "breakeven_speed_rpm"); got != lower.Speed*60 {
				t.Errorf("design %d: break-even at %v, want %v", i, got, lower.Speed*60)
			}
			if got := number(row, "breakeven_tip_speed_m_per_s"); got != lower.State.TipSpeed {
				t.Errorf("design %d: tip speed %v, want %v", i, got, lower.State.TipSpeed)
			}
		}
		if upper != nil && number(row, "upper_fan_power_W") != upper.State.FanPower {
			t.Errorf("design %d: fan power at the upper end", i)
		}
		for where, c := range map[string]*breakeven.Crossing{"breakeven_exposure_limit_min": lower, "upper_exposure_limit_min": upper} {
			switch {
			case c == nil || c.State.ExposureLimit > 86400:
				if got := row[column[where]]; got != "" {
					t.Errorf("design %d: %s is %q, want a blank", i, where, got)
				}
				if c != nil {
					long++
				}
			default:
				if got := number(row, where); got != c.State.ExposureLimit/60 {
					t.Errorf("design %d: %s is %v, want %v", i, where, got, c.State.ExposureLimit/60)
				}
				short++
			}
		}
	}
	if long == 0 || short == 0 {
		t.Errorf("%d exposures over a day and %d within were looked at, want both", long, short)
	}
}

// A text that a spreadsheet would run must not begin as it does; a negative
// number must.
func TestCSVRunsNothing(t *testing.T) {
	rows := readCSV(t, written(t, Breakeven, reports.Odd()))
	last := len(rows[0]) - 1
	if got := rows[1][last]; got != "'=1+1 equals @large" {
		t.Errorf("reason is %q", got)
	}
	negative := false
	for _, row := range rows[1:] {
		for _, cell := range row {
			if cell == "" || !strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
				continue
			}
			if _, err := strconv.ParseFloat(cell, 64); err != nil {
				t.Errorf("a cell begins like a formula: %q", cell)
			}
			negative = true
		}
	}
	if !negative {
		t.Error("no negative number was looked at")
	}
	for _, s := range []string{"=x", "+x", "-x", "@x", "\tx", "\rx"} {
		if got := text(s); got != "'"+s {
			t.Errorf("text(%q) = %q", s, got)
		}
	}
	if text("a=b") != "a=b" || text("") != "" {
		t.Error("a harmless text is changed")
	}
}

// spoil puts numbers that are not finite where a report must never have them.
func spoil(rep *render.Report) *render.Report {
	rep.Answers[0].Best.State.Airflow = math.NaN()
	rep.Answers[0].Reference.FanPower = math.Inf(1)
	rep.Answers[0].Best.Difference = math.Inf(-1)
	rep.Results.Rows[0].State.Sound = math.NaN()
	return rep
}

func TestNothingInfiniteIsWritten(t *testing.T) {
	for _, r := range renderers {
		got := written(t, r.write, spoil(reports.Alone()))
		for _, bad := range []string{"NaN", "Inf", "inf"} {
			if strings.Contains(strings.ReplaceAll(got, "info", ""), bad) {
				t.Errorf("%s contains %s:\n%s", r.ending, bad, got)
			}
		}
	}
}

// walk visits every number of a JSON document with its key.
func walk(t *testing.T, key string, v any, visit func(key string, v float64)) {
	switch v := v.(type) {
	case map[string]any:
		for k, inner := range v {
			walk(t, k, inner, visit)
		}
	case []any:
		for _, inner := range v {
			walk(t, key, inner, visit)
		}
	case float64:
		visit(key, v)
	}
}

func decode(t *testing.T, text string) map[string]any {
	t.Helper()
	var v map[string]any
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		t.Fatal(err)
	}
	return v
}

func TestSummaryJSON(t *testing.T) {
	for _, c := range reports.Cases() {
		rep := c.Report()
		v := decode(t, written(t, Summary, rep))
		seen := 0
		walk(t, "", v, func(_ string, _ float64) { seen++ })
		if seen < 90 {
			t.Errorf("%s: only %d numbers", c.Name, seen)
		}
		for _, key := range []string{"study", "study_hash", "seed", "version", "format", "metric", "challenger", "reference", "counts", "base", "answers", "warnings", "failures", "cautions", "disclaimer"} {
			if _, ok := v[key]; !ok {
				t.Errorf("%s: no key %q", c.Name, key)
			}
		}
		if n := len(v["answers"].([]any)); n != len(rep.Answers) {
			t.Errorf("%s: %d of %d answers", c.Name, n, len(rep.Answers))
		}
		base := v["base"].(map[string]any)
		if best, ok := base["at_best"].(map[string]any); ok {
			outputs := best["outputs"].(map[string]any)
			for _, o := range model.Outputs {
				got, known := outputs[o.Column()]
				si := o.Get(&rep.Digest().Base.Best.State)
				var want any = o.Shown.Shown(si)
				if math.IsNaN(si) || o.Kind == quantity.Duration && si > 86400 {
					want = nil
				}
				if !known || got != want {
					t.Errorf("%s: base at best: %s is %v, want %v", c.Name, o.Column(), outputs[o.Column()], want)
				}
			}
		} else if render.Answered(rep.Digest().Base) {
			t.Errorf("%s: no best state", c.Name)
		}
	}
}

// The answers alone must be the answers of the summary.
func TestBreakevenJSONIsPartOfSummary(t *testing.T) {
	rep := reports.Booth()
	whole, part := decode(t, written(t, Summary, rep)), decode(t, written(t, BreakevenJSON, rep))
	for _, key := range []string{"format", "challenger", "reference", "counts", "base", "answers"} {
		if _, ok := part[key]; !ok {
			t.Errorf("no key %q", key)
		}
	}
	for key, v := range part {
		a, errA := json.Marshal(v)
		b, errB := json.Marshal(whole[key])
		if errA != nil || errB != nil || !bytes.Equal(a, b) {
			t.Errorf("%s differs from the summary", key)
		}
	}
}

// Without points nothing may be said of how many of them are what.
func TestReportWithoutPoints(t *testing.T) {
	rep := reports.Booth()
	rep.Results = &sweep.Results{Plan: rep.Results.Plan}
	text := written(t, renderers[0].write, rep)
	if lines := strings.Split(text, "\n"); lines[1] != "36 designs" {
		t.Errorf("the extent is %q, want 36 designs alone", lines[1])
	}
	if strings.Contains(text, "point") {
		t.Errorf("points are spoken of:\n%s", text)
	}
	counts := decode(t, written(t, BreakevenJSON, rep))["counts"].(map[string]any)
	if len(counts) != 2 || counts["designs"] != 36. {
		t.Errorf("the counts are %v, want those of the designs alone", counts)
	}
	counts = decode(t, written(t, BreakevenJSON, reports.Booth()))["counts"].(map[string]any)
	for key, want := range map[string]float64{"points": 1620, "excluded": 135, "computed": 1452, "failed": 33} {
		if counts[key] != want {
			t.Errorf("%s: %v points, want %v", key, counts[key], want)
		}
	}
}

func TestEstimatesAreMarked(t *testing.T) {
	rep := reports.Few()
	s := rep.Challenger()
	s.Estimated, s.Rig.Core.FinDepth = []string{"fin_depth"}, 0.0185294
	flat := strings.Join(strings.Fields(written(t, renderers[0].write, rep)), " ")
	const want = "fins about 18.5 mm deep (estimated from the overall thickness)"
	if strings.Count(flat, want) != 1 || strings.Count(flat, "about 18.5") != 1 {
		t.Errorf("the challenger alone should say %q:\n%s", want, flat)
	}
	v := decode(t, written(t, BreakevenJSON, rep))
	if got := v["challenger"].(map[string]any)["estimated"]; !slices.Equal(got.([]any), []any{"fin_depth"}) {
		t.Errorf("estimated are %v", got)
	}
	if got, ok := v["reference"].(map[string]any)["estimated"]; ok {
		t.Errorf("estimated of the reference are %v", got)
	}
}

func TestPointJSON(t *testing.T) {
	rep := reports.Booth()
	state := rep.Answers[0].Best.State
	var b bytes.Buffer
	if err := PointJSON(&b, "booth", "0.0.0-test", rep.Challenger(), &state, Drive{}); err != nil {
		t.Fatal(err)
	}
	v := decode(t, b.String())
	if v["version"] != "0.0.0-test" || v["study"] != "booth" {
		t.Errorf("the document is of %v by %v", v["study"], v["version"])
	}
	outputs := v["state"].(map[string]any)
	if got, ok := outputs["exposure_limit_min"]; !ok || got != nil || state.ExposureLimit <= 86400 {
		t.Errorf("an exposure of %g s is %v, want null", state.ExposureLimit, got)
	}
	if want := quantity.Must("sound").Shown.Shown(state.Sound); outputs["sound_dBA"] != want {
		t.Errorf("sound is %v, want %v", outputs["sound_dBA"], want)
	}
}

func TestNumberJSON(t *testing.T) {
	for _, c := range []struct {
		v    float64
		want string
	}{
		{0.1, "0.1"}, {20, "20"}, {1e300, "1e+300"}, {math.NaN(), "null"}, {math.Inf(1), "null"}, {math.Inf(-1), "null"},
	} {
		got, err := json.Marshal(number(c.v))
		if err != nil || string(got) != c.want {
			t.Errorf("number %v is written %s (%v), want %s", c.v, got, err, c.want)
		}
	}
}

func TestWriterErrors(t *testing.T) {
	for _, r := range renderers {
		size := len(written(t, r.write, reports.Few()))
		for _, n := range []int{0, 1, size / 2, size - 1} {
			if err := r.write(&reports.Full{Left: n}, reports.Few()); !errors.Is(err, reports.ErrFull) {
				t.Errorf("%s, full after %d bytes: error %v", r.ending, n, err)
			}
		}
		if err := r.write(&reports.Full{Left: size}, reports.Few()); err != nil {
			t.Errorf("%s: %v though there is room", r.ending, err)
		}
	}
}

// Every column of the table and every key of a number must end in a unit that the
// quantity table names, or belong to a pure number.
func TestKeysCarryUnits(t *testing.T) {
	var known []string
	for _, o := range model.Outputs {
		known = append(known, o.Column())
	}
	for _, in := range model.Inputs {
		known = append(known, in.Column())
	}
	units := []string{"_rpm", "_K", "_K_per_1000_rpm"}
	plain := []string{"format", "seed", "design", "points", "computed", "failed", "designs",
		"designs_whose_answer_has_it", "designs_whose_reference_has_it", "number", "threshold", "none", "one", "band", "always", "tie", "unknown", "excluded", "crossing_speeds_rpm",
		"quietest_design", "design_with_fewest_watts",
		// Levels and changes: their unit stands beside them, in "by" and in "key".
		"from", "to", "at", "gap", "tie_from", "tie_to", "now", "needed", "tried_from", "tried_to"}
	v := decode(t, written(t, Summary, reports.Booth()))
	walk(t, "", v, func(key string, _ float64) {
		if slices.Contains(known, key) || slices.Contains(plain, key) {
			return
		}
		for _, u := range units {
			if strings.HasSuffix(key, u) {
				return
			}
		}
		t.Errorf("the key %q names no unit", key)
	})
}
