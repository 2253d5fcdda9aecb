package workbook

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"finduel/model"
	"finduel/model/fan"
	"finduel/model/pump"
	"finduel/model/quantity"
	"finduel/model/sound"
	"finduel/render"
	"finduel/sweep/doubt"
	"finduel/sweep/study"
	"finduel/testdata/reports"
)

// fewRows cuts the tables for tests that look at other things.
const fewRows = 60

func bytesOf(t *testing.T, rep *render.Report, most int) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b, rep, most); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func open(t *testing.T, data []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := f.Close(); err != nil {
			t.Error(err)
		}
	})
	return f
}

// rowsOf returns the raw values of a sheet.
func rowsOf(t *testing.T, f *excelize.File, sheet string) [][]string {
	t.Helper()
	rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

func partOf(t *testing.T, data []byte, name string) string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	f, err := z.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	content, err := io.ReadAll(f)
	if err != nil {
		t.Fatal(err)
	}
	return string(content)
}

func name(column, row int) string {
	at, err := excelize.CoordinatesToCellName(column, row)
	if err != nil {
		panic(err)
	}
	return at
}

// head returns the place of each column of a table by its head.
func head(t *testing.T, rows [][]string) map[string]int {
	t.Helper()
	if len(rows) < headRow {
		t.Fatal("no head")
	}
	place := map[string]int{}
	for i, h := range rows[headRow-1] {
		if _, twice := place[h]; twice || h == "" {
			t.Errorf("head %q twice or empty", h)
		}
		place[h] = i
	}
	return place
}

func at(row []string, column int) string {
	if column >= len(row) {
		return ""
	}
	return row[column]
}

var sheets = []string{sheetSummary, sheetDesigns, sheetParity, sheetPoints, sheetStudy, sheetCurve}

// No sheet of any report may hold a formula, an error, or a number that is a text.
func TestCellsAreSound(t *testing.T) {
	for _, c := range reports.Cases() {
		rep := c.Report()
		sheets := sheets
		if rep.Doubt != nil {
			sheets = append(slices.Clone(sheets), sheetDoubt)
		}
		f := open(t, bytesOf(t, rep, fewRows))
		if got := f.GetSheetList(); fmt.Sprint(got) != fmt.Sprint(sheets) {
			t.Errorf("%s: sheets %v, want %v", c.Name, got, sheets)
		}
		numbers := 0
		for _, sheet := range sheets {
			for r, row := range rowsOf(t, f, sheet) {
				for i, value := range row {
					cell := name(i+1, r+1)
					if formula, err := f.GetCellFormula(sheet, cell); err != nil || formula != "" {
						t.Errorf("%s: %s!%s has the formula %q (%v)", c.Name, sheet, cell, formula, err)
					}
					kind, err := f.GetCellType(sheet, cell)
					if err != nil {
						t.Fatal(err)
					}
					switch kind {
					case excelize.CellTypeUnset, excelize.CellTypeNumber:
						if value == "" {
							continue
						}
						v, err := strconv.ParseFloat(value, 64)
						if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
							t.Errorf("%s: %s!%s is %q", c.Name, sheet, cell, value)
						}
						numbers++
					case excelize.CellTypeInlineString, excelize.CellTypeSharedString:
						if v, err := strconv.ParseFloat(value, 64); err == nil && value != "7" { // the random numbers of a run are named by a number
							t.Errorf("%s: %s!%s has the number %g as a text", c.Name, sheet, cell, v)
						}
					default:
						t.Errorf("%s: %s!%s is of type %d: %q", c.Name, sheet, cell, kind, value)
					}
				}
			}
		}
		if numbers < 60 {
			t.Errorf("%s: only %d numbers", c.Name, numbers)
		}
	}
}

func TestPointsSheet(t *testing.T) {
	rep := reports.Booth()
	rows := rowsOf(t, open(t, bytesOf(t, rep, maxRows)), sheetPoints)
	column := head(t, rows)
	if len(rows) != headRow+len(rep.Results.Rows) {
		t.Fatalf("%d rows for %d points", len(rows)-headRow, len(rep.Results.Rows))
	}
	failed, within := 0, 0
	for i := range rep.Results.Rows {
		r, row := &rep.Results.Rows[i], rows[headRow+i]
		number := func(head string) float64 {
			where, ok := column[head]
			if !ok {
				t.Fatalf("no column %q", head)
			}
			v, err := strconv.ParseFloat(at(row, where), 64)
			if err != nil {
				t.Fatalf("point %d, %s: %v", r.Point, head, err)
			}
			return v
		}
		near := func(head string, want float64) {
			if got := number(head); math.Abs(got-want) > 1e-8*math.Abs(want) {
				t.Errorf("point %d: %s is %v, want %v", r.Point, head, got, want)
			}
		}
		near("point", float64(r.Point))
		near("fan speed, rpm", rep.Speed(r.Point)*60)
		status := at(row, column["status"])
		if r.Failure != "" {
			failed++
			if status != "failed" || at(row, column["reason"]) != r.Failure || at(row, column["sound at the listener, dBA"]) != "" {
				t.Errorf("point %d without a value: %q", r.Point, row)
			}
			continue
		}
		if status != "ok" {
			t.Errorf("point %d has the status %q", r.Point, status)
		}
		for _, o := range model.Outputs {
			head, v := o.Title(), o.Get(&r.State)
			if o.Kind == quantity.Duration {
				head += " (blank: over 24\u00a0h)"
			}
			switch {
			case math.IsNaN(v) || o.Kind == quantity.Duration && v > 86400:
				if got := at(row, column[head]); got != "" {
					t.Errorf("point %d: %s is %q, want a blank", r.Point, head, got)
				}
			case o.Kind == quantity.Duration:
				within++
				fallthrough
			default:
				near(head, o.Shown.Shown(v))
			}
		}
		near("reference over air, K", r.Reference)
		near("challenger minus reference, K", r.State.CoolantOverAir-r.Reference)
		if got := at(row, column["warnings"]); got != r.State.Warnings.Keys() {
			t.Errorf("point %d: warnings %q, want %q", r.Point, got, r.State.Warnings.Keys())
		}
	}
	if failed == 0 {
		t.Error("no point without a value was looked at")
	}
	if over := len(rep.Results.Rows) - failed - within; within == 0 || over == 0 {
		t.Errorf("%d exposures within a day and %d over it were looked at, want both", within, over)
	}
}

func TestDesignsSheet(t *testing.T) {
	rep := reports.Booth()
	rows := rowsOf(t, open(t, bytesOf(t, rep, fewRows)), sheetDesigns)
	column := head(t, rows)
	if len(rows) != headRow+len(rep.Answers) {
		t.Fatalf("%d rows for %d designs", len(rows)-headRow, len(rep.Answers))
	}
	for i := range rep.Answers {
		a, row := &rep.Answers[i], rows[headRow+i]
		want := map[string]float64{}
		lower, upper := render.Ends(a)
		if lower != nil {
			want["break-even speed, rpm"] = lower.Speed * 60
			want["coolant over air at break-even, K"] = lower.State.CoolantOverAir
			want["sound at the listener at break-even, dBA"] = lower.State.Sound
			want["electrical power of the fans at break-even, W"] = lower.State.FanPower
			want["tip speed at break-even, m/s"] = lower.State.TipSpeed
			if lower.State.ExposureLimit <= 86400 {
				want["permitted daily exposure (NIOSH 98-126) at break-even, min (blank: over 24\u00a0h)"] = lower.State.ExposureLimit / 60
			}
		}
		if upper != nil {
			want["upper end of the break-even band, rpm"] = upper.Speed * 60
		}
		if render.Answered(a) {
			want["best speed, rpm"] = a.Best.Speed * 60
			want["best speed: challenger minus reference, K"] = a.Best.Difference
			want["coolant over air of the reference, K"] = a.Reference.CoolantOverAir
			want["its excess over the reference, K"] = a.Limit.Excess
		}
		if at(row, column["status"]) != a.Status.String() || at(row, column["reason"]) != a.Reason {
			t.Errorf("design %d: %q", i, row)
		}
		for head := range map[string]bool{
			"break-even speed, rpm": true, "coolant over air at break-even, K": true, "sound at the listener at break-even, dBA": true,
			"electrical power of the fans at break-even, W": true, "tip speed at break-even, m/s": true,
			"permitted daily exposure (NIOSH 98-126) at break-even, min (blank: over 24\u00a0h)": true, "upper end of the break-even band, rpm": true,
			"best speed, rpm": true, "best speed: challenger minus reference, K": true, "coolant over air of the reference, K": true,
			"its excess over the reference, K": true,
		} {
			where, ok := column[head]
			if !ok {
				t.Fatalf("no column %q", head)
			}
			w, has := want[head]
			text := at(row, where)
			if (text != "") != has {
				t.Errorf("design %d, %s: %q", i, head, text)
				continue
			}
			if v, err := strconv.ParseFloat(text, 64); has && (err != nil || math.Abs(v-w) > 1e-8*math.Abs(w)) {
				t.Errorf("design %d: %s is %q, want %v", i, head, text, w)
			}
		}
	}
}

// A table that is cut says so on its sheet.
func TestTablesAreCut(t *testing.T) {
	f := open(t, bytesOf(t, reports.Many(), 10))
	for sheet, file := range map[string]string{sheetPoints: "the folder points", sheetDesigns: "breakeven.csv"} {
		rows := rowsOf(t, f, sheet)
		if len(rows) != headRow+10 {
			t.Errorf("%s has %d rows, want 10", sheet, len(rows)-headRow)
		}
		if !strings.Contains(rows[0][0], "first 10") || !strings.Contains(rows[0][0], file) {
			t.Errorf("%s says %q", sheet, rows[0][0])
		}
	}
	whole := rowsOf(t, open(t, bytesOf(t, reports.Many(), maxRows)), sheetPoints)
	if strings.Contains(whole[0][0], "the folder points") {
		t.Errorf("a whole table says %q", whole[0][0])
	}
}

func TestTablesAreFramed(t *testing.T) {
	// Shrunk to one page, some eighty columns would be a line of dust.
	pages := map[string]int{sheetDesigns: 3, sheetPoints: 6, sheetParity: 1}
	data := bytesOf(t, reports.Few(), maxRows)
	f := open(t, data)
	for i, sheet := range sheets {
		if sheet != sheetDesigns && sheet != sheetPoints && sheet != sheetParity {
			continue
		}
		panes, err := f.GetPanes(sheet)
		if err != nil || !panes.Freeze || panes.YSplit != headRow || panes.XSplit < 2 {
			t.Errorf("%s: panes %+v (%v)", sheet, panes, err)
		}
		xml := partOf(t, data, fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1))
		for _, want := range []string{"<autoFilter ref=\"$A$2:", "<dimension ref=\"A1:", "<cols>", "fitToPage=\"true\"", fmt.Sprintf("fitToWidth=\"%d\"", pages[sheet]), "fitToHeight=\"0\"", "orientation=\"landscape\""} {
			if !strings.Contains(xml, want) {
				t.Errorf("%s has no %s", sheet, want)
			}
		}
	}
	titles := 0
	for _, n := range f.GetDefinedName() {
		if n.Name == "_xlnm.Print_Titles" {
			titles++
			if across := strings.Contains(n.RefersTo, "'!$A:$"); across != (pages[n.Scope] > 1) {
				t.Errorf("%s: titles %s", n.Scope, n.RefersTo)
			}
		}
	}
	if titles != 3 {
		t.Errorf("%d tables repeat their head on paper, want 3", titles)
	}
}

// Names that look like formulas, steer terminals or break XML must come out as
// texts.
func TestOddNames(t *testing.T) {
	data := bytesOf(t, reports.Odd(), maxRows)
	f := open(t, data)
	found := map[string]bool{}
	for _, sheet := range sheets {
		for r, row := range rowsOf(t, f, sheet) {
			for i, value := range row {
				found[value] = true
				for _, c := range value {
					if c < ' ' || c >= 0x7f && c < 0xa0 || c == '\u202e' {
						t.Errorf("%s!%s contains %U", sheet, name(i+1, r+1), c)
					}
				}
			}
		}
	}
	for _, want := range []string{
		"challenger: =1+1", "reference: @large", "+cube\ufffd", "-slab \ufffdgnp", "_x0041_ fan", "\ufffd<b>&\"'",
		"=HYPERLINK(\"x\") \ufffd[31mred line", "=cmd|' /C x'!A0", "=1+1 equals @large", "=1+1: coolant over air, K",
	} {
		if !found[want] {
			t.Errorf("no cell with %q", want)
		}
	}
	if chart := partOf(t, data, chartPart); !strings.Contains(chart, "=1+1 against @large") {
		t.Error("the chart does not name the setups")
	}
}

func TestSummarySaysWhatMatters(t *testing.T) {
	for name, want := range map[string][]string{
		"alone":    {"break-even", "upper end", "best speed", "reference", render.Disclaimer, "designs better in a band of speeds"},
		"hopeless": {"no answer: the reference has no value: " + reports.Boils + ".", reports.Boils, "Points without a value", "designs without an answer"},
		"booth":    {"lowest break-even speed, rpm", "designs left out by the study", "designs tied within the margin", "quietest at its break-even, dBA", "fewest watts at its break-even, W"},
		"ahead":    {"designs better at every searched speed"},
	} {
		for _, c := range reports.Cases() {
			if c.Name != name {
				continue
			}
			found := map[string]bool{}
			for _, row := range rowsOf(t, open(t, bytesOf(t, c.Report(), fewRows)), sheetSummary) {
				for _, value := range row {
					found[value] = true
				}
			}
			for _, w := range want {
				if !found[w] {
					t.Errorf("%s: no cell with %q", name, w)
				}
			}
		}
	}
}

// With a pump the study and the summary tell of the pump, not of a flow.
func TestPumpInTheWorkbook(t *testing.T) {
	rep := reports.Booth()
	for i := range rep.Study.Setups {
		c := &rep.Study.Setups[i].Rig.Coolant
		c.Flow, c.Loop = 0, pump.TypicalLoop()
		c.Pump = pump.Pump{ShutOffPressure: 40e3, FreeFlow: 1100 / 3.6e6, CurveExponent: pump.TypicalExponent}
	}
	file := open(t, bytesOf(t, rep, fewRows))
	told := map[string]string{}
	for _, sheet := range []string{sheetStudy, sheetSummary} {
		for _, row := range rowsOf(t, file, sheet) {
			told[sheet+at(row, 0)] = at(row, 1)
		}
	}
	flow, head := quantity.Must("coolant_flow").Title(), quantity.Must("pump_head").Title()
	if told[sheetStudy+flow] != "by the pump" || told[sheetStudy+head] != "40" || told[sheetSummary+head] != "40" {
		t.Errorf("flow %q, head %q and %q", told[sheetStudy+flow], told[sheetStudy+head], told[sheetSummary+head])
	}
	if v, there := told[sheetSummary+flow]; there {
		t.Errorf("the summary tells a flow of %q", v)
	}
}

func TestStudySheet(t *testing.T) {
	rep := reports.Booth()
	rows := rowsOf(t, open(t, bytesOf(t, rep, fewRows)), sheetStudy)
	byKey := map[string][]string{}
	text := ""
	for _, row := range rows {
		if key := at(row, 4); key != "" {
			byKey[key] = row
		}
		text += strings.Join(row, "|") + "\n"
	}
	for _, in := range model.Inputs {
		row := byKey[in.Key]
		if row == nil || row[0] != in.Title() {
			t.Errorf("%s: row %q", in.Key, row)
			continue
		}
		if in.Key == "rotor_diameter" {
			if row[1] != "estimated" || row[2] != "estimated" {
				t.Errorf("rotor diameter: %q", row)
			}
			continue
		}
		for i, s := range []*model.Rig{&rep.Challenger().Rig, &rep.Reference().Rig} {
			if in.Unused(s) {
				if row[1+i] != "not used" {
					t.Errorf("%s: %q", in.Key, row)
				}
				continue
			}
			if in.Unknown() && in.Get(s) == 0 {
				if row[1+i] != "not known" {
					t.Errorf("%s: %q", in.Key, row)
				}
				continue
			}
			want := in.Shown.Shown(in.Get(s))
			if got, err := strconv.ParseFloat(row[1+i], 64); err != nil || math.Abs(got-want) > 1e-8*math.Abs(want) {
				t.Errorf("%s: %q, want %v", in.Key, row[1+i], want)
			}
		}
	}
	for _, want := range []string{rep.Study.Hash, rep.Version, "|7", "12, 16, 20, 24, fpi", "fin density above 22 fpi, and face area above 100 cm²"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
	if byKey["fan_speed"][3] != "challenger" || at(byKey["passes"], 3) != "" {
		t.Error("the swept column is wrong")
	}
	shared := rowsOf(t, open(t, bytesOf(t, reports.Grouped(), fewRows)), sheetStudy)
	for _, row := range shared {
		if at(row, 4) == "air_temperature" && row[3] != "both" {
			t.Errorf("a shared axis is swept for %q", row[3])
		}
	}
}

func TestEstimatesAreMarked(t *testing.T) {
	rep := reports.Few()
	s := rep.Challenger()
	s.Estimated, s.Rig.Core.FinDepth = []string{"fin_depth"}, 0.0185294
	f := open(t, bytesOf(t, rep, fewRows))
	for _, sheet := range []string{sheetSummary, sheetStudy} {
		found := false
		for _, row := range rowsOf(t, f, sheet) {
			if at(row, 0) == "fin depth, mm" && at(row, 1) != "" {
				found = found || at(row, 1) == "about 18.5 mm (estimated from the overall thickness)"
			}
		}
		if !found {
			t.Errorf("%s does not call the fin depth an estimate", sheet)
		}
	}
}

// Heads that stand side by side are kept apart by a line.
func TestHeadsAreRuled(t *testing.T) {
	f := open(t, bytesOf(t, reports.Few(), fewRows))
	for _, sheet := range []string{sheetDesigns, sheetPoints} {
		for i := range rowsOf(t, f, sheet)[headRow-1] {
			cell := name(i+1, headRow)
			id, err := f.GetCellStyle(sheet, cell)
			if err != nil {
				t.Fatal(err)
			}
			style, err := f.GetStyle(id)
			if err != nil {
				t.Fatal(err)
			}
			left := false
			for _, b := range style.Border {
				left = left || b.Type == "left" && b.Style > 0
			}
			if !left {
				t.Errorf("%s!%s has no line to its left", sheet, cell)
			}
		}
	}
}

// The chart is drawn from cells: what it repeats must be what they hold.
func TestChartIsDrawnFromCells(t *testing.T) {
	rep := reports.Booth()
	data := bytesOf(t, rep, fewRows)
	chart := partOf(t, data, chartPart)
	f := open(t, data)
	rows := rowsOf(t, f, sheetCurve)
	points := len(rep.Study.Axes[0].Values)
	for _, want := range []string{
		fmt.Sprintf("<c:f>Curve!$A$3:$A$%d</c:f>", headRow+points), fmt.Sprintf("<c:f>Curve!$B$3:$B$%d</c:f>", headRow+points),
		"<c:f>Curve!$L$5:$L$5</c:f>", "coolant over air, K", "fan speed, rpm",
		fmt.Sprintf("<c:pt idx=\"%d\"><c:v>%s</c:v></c:pt>", points-1, rows[headRow+points-1][1]),
	} {
		if !strings.Contains(chart, want) {
			t.Errorf("the chart has no %s", want)
		}
	}
	if n := strings.Count(chart, "<c:ser>"); n != 5 {
		t.Errorf("%d series, want 5: challenger, reference, two ends and the best", n)
	}
	if strings.Contains(chart, "NaN") || strings.Contains(chart, "Inf") {
		t.Error("the chart holds a number that is not finite")
	}
	// A point without a value is a gap: no value, and its place kept.
	if rows[headRow][7] != "failed" || rows[headRow][1] != "" {
		t.Fatalf("the first point of the curve is %q, want one without a value", rows[headRow])
	}
	values := chart[strings.Index(chart, "<c:f>Curve!$B$3"):]
	if strings.Index(values, `<c:pt idx="0">`) < strings.Index(values, "</c:numCache>") {
		t.Error("a point without a value is drawn")
	}
	speeds := 0.0
	for _, row := range rows[headRow : headRow+points] {
		v, err := strconv.ParseFloat(row[0], 64)
		if err != nil || v <= speeds {
			t.Errorf("speed %q after %g", row[0], speeds)
		}
		speeds = v
	}
}

// The chart draws how sure both lines are, from cells, and its legend says what that is once
// for each; without any interval it has no such lines.
func TestChartDrawsTheIntervals(t *testing.T) {
	rep := reports.SureOfMany()
	data := bytesOf(t, rep, fewRows)
	chart := partOf(t, data, chartPart)
	rows := rowsOf(t, open(t, data), sheetCurve)
	points := len(rep.Study.Axes[0].Values)
	known := 0
	for _, column := range []string{"R", "S", "T", "U"} {
		cells := fmt.Sprintf("<c:f>Curve!$%s$3:$%s$%d</c:f>", column, column, headRow+points)
		_, values, ok := strings.Cut(chart, cells)
		if !ok {
			t.Fatalf("the chart has no %s", cells)
		}
		values, _, _ = strings.Cut(values, "</c:numCache>")
		for i, row := range rows[headRow : headRow+points] {
			want := at(row, int(column[0]-'A'))
			if has := strings.Contains(values, fmt.Sprintf(`<c:pt idx="%d"><c:v>%s</c:v>`, i, want)); has != (want != "") {
				t.Errorf("%s%d is %q, drawn %v", column, headRow+1+i, want, has)
			}
			if want != "" {
				known++
			}
		}
	}
	if known < 2*points {
		t.Errorf("only %d ends of intervals in %d rows: the test does not show what it should", known, points)
	}
	for name, times := range map[string]int{"small: 95 % interval": 2, "large: 95 % interval": 2, `<c:delete val="1"/></c:legendEntry>`: 2 + strings.Count(chart, "<c:dLbls>")} {
		if n := strings.Count(chart, name); n != times {
			t.Errorf("%d times %q, want %d", n, name, times)
		}
	}
	if chart := partOf(t, bytesOf(t, reports.Booth(), fewRows), chartPart); strings.Contains(chart, "95 % interval") {
		t.Error("a report without any interval has one in its chart")
	}
}

func TestNoChartWithoutAnswer(t *testing.T) {
	for _, c := range []func() *render.Report{reports.Hopeless, func() *render.Report {
		rep := reports.Few()
		rep.Answers = nil
		return rep
	}} {
		data := bytesOf(t, c(), maxRows)
		z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range z.File {
			if f.Name == chartPart {
				t.Error("a chart without anything to draw")
			}
		}
	}
}

func TestAxisFor(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		want      axis
	}{
		{0, 20000, axis{0, 20000, 2000}},
		{0, 9540, axis{0, 10000, 1000}},
		{4.3, 11.2, axis{4, 12, 1}},
		{5, 5, axis{2, 8, 1}},
		{0, 0.012, axis{0, 0.012, 0.002}},
		{-3, 2, axis{-3, 2, 1}},
	} {
		got := axisFor(c.low, c.high)
		for _, pair := range [][2]float64{{got.low, c.want.low}, {got.high, c.want.high}, {got.step, c.want.step}} {
			if math.Abs(pair[0]-pair[1]) > 1e-9*math.Max(1, math.Abs(pair[1])) {
				t.Errorf("axisFor(%g, %g) = %+v, want %+v", c.low, c.high, got, c.want)
				break
			}
		}
	}
	for span := 1e-6; span < 1e6; span *= 1.37 {
		for _, low := range []float64{0, -1, 17.3} {
			a := axisFor(low, low+span)
			if n := (a.high - a.low) / a.step; a.low > low || a.high < low+span*(1-1e-9) || n < 4.9 || n > 14.1 {
				t.Errorf("axisFor(%g, %g) = %+v with %g steps", low, low+span, a, n)
			}
		}
	}
}

func TestSameReportSameBytes(t *testing.T) {
	first := bytesOf(t, reports.Booth(), fewRows)
	for range 4 {
		if !bytes.Equal(bytesOf(t, reports.Booth(), fewRows), first) {
			t.Fatal("the same report gave other bytes")
		}
	}
	z, err := zip.NewReader(bytes.NewReader(first), int64(len(first)))
	if err != nil {
		t.Fatal(err)
	}
	if z.File[0].Name != contentTypes {
		t.Errorf("the first part is %s", z.File[0].Name)
	}
	for i, f := range z.File {
		if i > 1 && f.Name < z.File[i-1].Name {
			t.Errorf("%s comes after %s", f.Name, z.File[i-1].Name)
		}
		if y := f.Modified.Year(); y > 1980 {
			t.Errorf("%s is dated %d", f.Name, y)
		}
	}
}

func TestSortTypes(t *testing.T) {
	const head = `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">`
	got, err := sortTypes([]byte(head + `<Override PartName="/b" ContentType="y"/><Default Extension="xml" ContentType="x"/>` +
		`<Override PartName="/a" ContentType="z"/><Default Extension="rels" ContentType="r"/></Types>`))
	if err != nil {
		t.Fatal(err)
	}
	last := 0
	for _, want := range []string{head, `Extension="rels" ContentType="r"`, `Extension="xml" ContentType="x"`, `PartName="/a" ContentType="z"`, `PartName="/b" ContentType="y"`} {
		at := strings.Index(string(got), want)
		if at < last {
			t.Errorf("%s is missing or out of order in %s", want, got)
		}
		last = at
	}
	if _, err := sortTypes([]byte("<broken")); err == nil {
		t.Error("a broken list gives no error")
	}
}

// The sheet on doubt says what the report says of it, and what is refused.
func TestDoubtSheet(t *testing.T) {
	for _, c := range []struct {
		report *render.Report
		sheet  string
		want   []string
	}{
		{reports.Sure(), sheetDoubt, []string{
			"measure the air pressure drop of large's core at one flow", "850", "0.45", "heat load (common)", "fin density of small", "-0.003", "-0.018", "0.007",
			"±1 fpi: the study, normal", "Where the doubt of the break-even speed is from: shares of its variance", "cannot be said: 12 of 30 720 draws have no such value (invented).",
		}},
		{reports.Sure(), sheetSummary, []string{"How sure that is", "break-even speed, rpm", "count the fins of small's core over 100 mm: to about ±1 800 rpm (92 % to 95 % of it is left)."}},
		{reports.Sure(), sheetDesigns, []string{"break-even speed, 95 % from, rpm", "probability that the challenger wins", "0.25", "4400", "draws", "2000", "20000", "draws without a value", "1"}},
		{reports.Unsure(), sheetCurve, []string{"draws", "1000", "draws without a value", "986"}},
		{reports.Sure(), sheetCurve, []string{"fan speed, 95 % from, rpm", "coolant over air, 95 % from, K", "small, 95 % from, K", "large, 95 % from, K", quantity.Must("difference").Label + ", 95 % from, K"}},
		{reports.Unsure(), sheetDoubt, []string{"warmer again above, rpm", "18 000 or highest speed", "lowest speed", "never", "cannot be said: some draws have no such value (invented).",
			"Draws without a value, in no interval above: 31 for small at that speed, 85 for large, 85 for the break-even. The commonest reason: " + reports.Boils + "."}},
	} {
		seen := map[string]bool{}
		for _, row := range rowsOf(t, open(t, bytesOf(t, c.report, maxRows)), c.sheet) {
			for _, v := range row {
				seen[v] = true
			}
		}
		for _, w := range c.want {
			if !seen[w] {
				t.Errorf("the sheet %s does not say %q", c.sheet, w)
			}
		}
	}
}

// Numbers that are not finite must leave a blank, not a text and not an error.
func TestNothingInfiniteIsWritten(t *testing.T) {
	rep := reports.Alone()
	rep.Answers[0].Best.State.Airflow = math.NaN()
	rep.Answers[0].Reference.FanPower = math.Inf(1)
	rep.Results.Rows[3].State.Sound = math.NaN()
	rep.Results.Rows[4].State.CoolantOverAir = math.Inf(1)
	rep.Results.Rows[5].Reference = math.NaN()
	f := open(t, bytesOf(t, rep, maxRows))
	for _, sheet := range sheets {
		for r, row := range rowsOf(t, f, sheet) {
			for i, value := range row {
				if strings.Contains(value, "NaN") || strings.Contains(value, "Inf") {
					t.Errorf("%s!%s is %q", sheet, name(i+1, r+1), value)
				}
			}
		}
	}
}

func TestRounding(t *testing.T) {
	o, _ := model.OutputOf("coolant_over_air")
	for _, c := range []struct{ in, want float64 }{
		{2.9999999999999996, 3}, {0.029999999999999995, 0.03}, {1. / 3, 0.333333333}, {123456789.4, 123456789}, {0, 0},
	} {
		if got := shown(o.Quantity, c.in); got != c.want {
			t.Errorf("shown(%v) = %v, want %v", c.in, got, c.want)
		}
	}
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if got := shown(o.Quantity, v); got != nil {
			t.Errorf("shown(%v) = %v, want a blank", v, got)
		}
	}
}

func TestLongTextsAreCutVisibly(t *testing.T) {
	rep := reports.OnePoint()
	rep.Study.About = strings.Repeat("long ", 10000)
	found := false
	for _, row := range rowsOf(t, open(t, bytesOf(t, rep, maxRows)), sheetSummary) {
		for _, value := range row {
			if n := len([]rune(value)); n > 32767 {
				t.Errorf("a cell of %d characters", n)
			} else if n > 30000 {
				found = strings.HasSuffix(value, " …")
			}
		}
	}
	if !found {
		t.Error("a text that was cut does not say so")
	}
}

func TestWriterErrors(t *testing.T) {
	rep := reports.Alone()
	size := len(bytesOf(t, rep, maxRows))
	for _, n := range []int{0, 1, 100, size / 2, size - 1} {
		if err := Write(&reports.Full{Left: n}, rep); !errors.Is(err, reports.ErrFull) {
			t.Errorf("full after %d bytes: error %v", n, err)
		}
	}
	if err := Write(&reports.Full{Left: size}, rep); err != nil {
		t.Errorf("%v though there is room", err)
	}
}

// Another program must open every workbook and find the same numbers.
func TestOpensElsewhere(t *testing.T) {
	office, err := exec.LookPath("soffice")
	if err != nil {
		t.Skip("no soffice on this machine: opening in another program is not tested")
	}
	if testing.Short() {
		t.Skip("opening in another program takes seconds")
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "odd.xlsx")
	rep := reports.Odd()
	if err := os.WriteFile(path, bytesOf(t, rep, maxRows), 0o644); err != nil {
		t.Fatal(err)
	}
	// Token 12 of the filter's options: -1 writes every sheet to a file of its own.
	cmd := exec.Command(office, "--headless", "-env:UserInstallation=file://"+filepath.Join(dir, "profile"),
		"--convert-to", "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1", "--outdir", dir, path)
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for _, sheet := range sheets {
		content, err := os.ReadFile(filepath.Join(dir, "odd-"+sheet+".csv"))
		if err != nil {
			t.Fatal(err)
		}
		text := string(content)
		for _, bad := range []string{"#NAME", "#VALUE", "#REF", "#DIV", "#N/A", "Err:", "NaN"} {
			if strings.Contains(text, bad) {
				t.Errorf("%s contains %s", sheet, bad)
			}
		}
		if sheet == sheetPoints && strings.Count(text, "\n") != headRow+len(rep.Results.Rows) {
			t.Errorf("%d lines of points, want %d", strings.Count(text, "\n"), headRow+len(rep.Results.Rows))
		}
		if sheet == sheetSummary && !strings.Contains(text, "challenger: =1+1") {
			t.Error("the challenger's name is not a text elsewhere")
		}
	}
}

// The parity sheet must say what the parity lines say.
func TestParitySheet(t *testing.T) {
	rep := reports.Booth()
	rows := rowsOf(t, open(t, bytesOf(t, rep, fewRows)), sheetParity)
	next := headRow
	equal := 0
	for _, d := range rep.Details {
		for _, p := range d.Parity {
			row := rows[next]
			next++
			if row[0] != fmt.Sprint(d.Design) || row[5] != p.Status.String() {
				t.Errorf("row %d is of design %s, %s; want %d, %s", next, row[0], row[5], d.Design, p.Status)
			}
			if (p.Lower != nil) != (at(row, 6) != "") || (p.Lower != nil) != (at(row, 12) != "") {
				t.Errorf("row %d: break-even %q, sound %q", next, at(row, 6), at(row, 12))
			}
			if p.Lower != nil {
				equal++
			}
		}
	}
	if equal < 20 || next != len(rows) {
		t.Errorf("%d rows of %d, %d with a break-even", next, len(rows), equal)
	}
}

// At the speeds of the reference at which the study's own design was drawn the parity sheet
// has the interval of the break-even speed, and elsewhere blanks.
func TestParitySheetHasIntervals(t *testing.T) {
	rep := reports.SureOfMany()
	own := rep.Doubt.Own
	kept := map[float64]doubt.ParityPoint{}
	for i := range own.Parity {
		if i%2 == 0 {
			kept[own.Parity[i].Speed] = own.Parity[i]
		}
	}
	own.Parity = slices.DeleteFunc(own.Parity, func(p doubt.ParityPoint) bool { _, ok := kept[p.Speed]; return !ok })
	rows := rowsOf(t, open(t, bytesOf(t, rep, fewRows)), sheetParity)
	place := head(t, rows)
	low, high, draws := place["break-even speed, 95 % from, rpm"], place["break-even speed, 95 % to, rpm"], place["draws"]
	next, drawn := headRow, 0
	for _, d := range rep.Details {
		for _, p := range d.Parity {
			row := rows[next]
			next++
			x, ok := kept[p.Speed]
			ok = ok && d.Design == own.Result.Design
			if ok != (at(row, draws) != "") || ok != (at(row, low) != "") {
				t.Fatalf("row %d: drawn %v, %q", next, ok, row)
			}
			if ok {
				drawn++
				q := quantity.Must("breakeven_speed")
				if want := render.End(q, x.Breakeven, 2); math.IsInf(x.Breakeven.High, 0) && at(row, high) != want {
					t.Errorf("row %d: %q, want %q", next, at(row, high), want)
				}
			}
		}
	}
	if drawn < 5 || drawn == next-headRow {
		t.Errorf("%d of %d rows are drawn", drawn, next-headRow)
	}
}

// Beside every permitted time stands that at the highest level within its doubt: 15 200
// rpm of this invented report make 9 h 14 min by NIOSH, computed from 79.4 + 5 dB(A).
func TestPermittedTimesHaveTheirLoudEnd(t *testing.T) {
	for _, c := range reports.Cases() {
		if c.Name != "odd" {
			continue
		}
		rows := rowsOf(t, open(t, bytesOf(t, c.Report(), fewRows)), sheetSummary)
		for i, row := range rows {
			if strings.HasPrefix(at(row, 0), "permitted daily exposure (NIOSH") {
				minutes, err := strconv.ParseFloat(at(rows[i+1], 2), 64)
				if err != nil || at(row, 2) != "" || math.Abs(minutes-554) > 1 || at(rows[i+1], 0) != "  the same, at the loud end, min" {
					t.Errorf("%q below %q (%v), want 554 min below a blank", rows[i+1], row, err)
				}
				return
			}
		}
	}
	t.Error("no permitted time was looked at")
}

// A level that follows from readings is said to, and rounded; slopes have their digits.
func TestWhatReadingsSay(t *testing.T) {
	s := study.Setup{Rig: model.Rig{Fans: fan.Bank{Fan: fan.Typical()}}}
	f := &s.Rig.Fans.Fan
	f.RatedSpeed = 100
	f.Readings = &sound.Fitted{Speed: 100, Level: 83.5680836, Exponent: 52.123456}
	f.SoundExponent = f.Readings.Exponent
	for key, want := range map[string]any{"rated_sound": "83.6, from readings", "sound_exponent": "52.1, from readings"} {
		in, _ := model.InputOf(key)
		if got := setting(in, &s); got != want {
			t.Errorf("%s: %v, want %v", key, got, want)
		}
	}
	f.Readings, f.SoundExponent, f.RatedSound = nil, 48, 83.25
	for key, want := range map[string]any{"rated_sound": 83.25, "sound_exponent": 48.} {
		in, _ := model.InputOf(key)
		if got := setting(in, &s); got != want {
			t.Errorf("%s: %v, want %v", key, got, want)
		}
	}
	if got := formatOf(quantity.Must("slope")); got != "0.000" {
		t.Errorf("a slope has the format %q", got)
	}
}

// A coefficient that a measured propeller lends is no 0; the value is that of run 1121md
// at 7 440 rpm on the UIUC Propeller Data Site.
func TestLentCoefficientInTheStudySheet(t *testing.T) {
	s := study.Setup{Rig: model.Rig{Fans: fan.Bank{Fan: fan.Typical()}}}
	f := &s.Rig.Fans.Fan
	f.RotorDiameter, f.Pitch, f.Blades, f.RatedSpeed = 0.127, 0.09525, 2, 124
	in, _ := model.InputOf("thrust_coefficient")
	if got := setting(in, &s); got != "0.129, lent by 127 × 95.2 mm, 2 blades" {
		t.Errorf("%v", got)
	}
	f.ThrustCoefficient, f.PowerCoefficient = 0.155, 0.102
	if got := setting(in, &s); got != 0.155 {
		t.Errorf("%v, want the given 0.155", got)
	}
}

// The table of designs says the ends of an interval as the sheet on doubt does: to the
// digits that are stable, and in words where they are open.
func TestIntervalsOfDesignsAreToStableDigits(t *testing.T) {
	rep := reports.Sure()
	rpm := 1.0 / 60
	rep.Doubt.Results[0].Breakeven = doubt.Band{Low: 4321 * rpm, Median: 6543 * rpm, High: 9876 * rpm, Steps: [3]float64{100 * rpm, 100 * rpm, 500 * rpm}, Undecided: [3]bool{2: true}}
	rows := rowsOf(t, open(t, bytesOf(t, rep, maxRows)), sheetDesigns)
	heads, first := rows[headRow-1], rows[headRow]
	for head, want := range map[string]string{"break-even speed, 95 % from, rpm": "4300", "break-even speed, 95 % to, rpm": "10 000 or never"} {
		if i := slices.Index(heads, head); i < 0 || first[i] != want {
			t.Errorf("%q is not %q in %q", head, want, first)
		}
	}
}
