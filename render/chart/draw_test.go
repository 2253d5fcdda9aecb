package chart_test

import (
	"bytes"
	"flag"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"gonum.org/v1/plot/cmpimg"

	"finduel/render"
	"finduel/render/chart"
	"finduel/testdata/reports"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

// golden is where the pictures lie that were looked at and found good. They are
// our own: comparing with them shows that a picture has changed, never that it is
// right.
const golden = "../../testdata/golden/charts"

// difference is by how much the colour of a pixel may differ, as a share of the
// distance from black to white: other processors round the edges of lines otherwise.
const difference = 0.1

// The pictures that are compared: each chart once in full, and what is special.
var pictures = []struct{ fixture, chart string }{
	{"booth", "coolant-over-air.png"}, {"booth", "against-sound.png"},
	{"booth", "temperature-budget.png"}, {"statuses", "breakeven-map.png"},
	{"field", "breakeven-map.png"}, {"heat", "coolant-over-air.png"}, {"dozen", "coolant-over-air.png"},
	{"gaps", "coolant-over-air.png"}, {"long-names", "temperature-budget.png"}, {"one-point", "against-sound.png"},
	{"chip", "temperature-budget.png"}, {"booth", "breakeven-map-2.png"}, {"booth", "parity.png"}, {"tied", "breakeven-map.png"},
	{"sure", "coolant-over-air.png"}, {"sure", "breakeven-map.png"},
	{"doubtful", "coolant-over-air.png"}, {"doubtful", "against-sound.png"}, {"doubtful", "parity.png"}, {"sure-field", "breakeven-map.png"},
	{"booth", "fan-curve.png"}, {"hanging", "fan-curve.png"}, {"propeller", "fan-curve.png"},
}

func TestGolden(t *testing.T) {
	if underRace {
		t.Skip("compared without the race detector")
	}
	reports := map[string]func() *render.Report{}
	for _, f := range fixtures() {
		reports[f.name] = f.report
	}
	drawn := map[string]map[string][]byte{}
	for _, p := range pictures {
		if drawn[p.fixture] == nil {
			drawn[p.fixture] = map[string][]byte{}
			for _, picture := range draw(t, reports[p.fixture]()).Pictures {
				drawn[p.fixture][picture.Name] = picture.PNG
			}
		}
		got := drawn[p.fixture][p.chart]
		if got == nil {
			t.Errorf("%s: no %s", p.fixture, p.chart)
			continue
		}
		compare(t, p.fixture+"-"+p.chart, got)
	}
}

// compare compares a picture with its golden, or writes it.
func compare(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join(golden, name)
	if *update {
		if err := os.MkdirAll(golden, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Error(err)
		return
	}
	same, err := cmpimg.EqualApprox("png", got, want, difference)
	if err != nil || !same {
		beside := path[:len(path)-len(".png")] + ".got.png"
		if err := os.WriteFile(beside, got, 0o644); err != nil {
			t.Error(err)
		}
		t.Errorf("%s has changed (%v); what was drawn is in %s", name, err, beside)
	}
}

func draw(t *testing.T, rep *render.Report) chart.Set {
	t.Helper()
	set, err := chart.Draw(rep)
	if err != nil {
		t.Fatal(err)
	}
	return set
}

// Any report must give every chart or a reason, each picture whole and of its size.
func TestEveryReportIsDrawn(t *testing.T) {
	skipped := map[string]int{}
	list := fixtures()
	if underRace {
		list = slices.DeleteFunc(list, func(f fixture) bool { return f.name != "poisoned" && f.name != "hopeless" })
	}
	for _, f := range list {
		set := draw(t, f.report())
		if n := len(set.Pictures) + len(set.Skipped); n != 6 && !(n == 7 && f.name == "booth") {
			t.Errorf("%s: %d charts drawn or skipped, want 6, and 7 of the booth", f.name, n)
		}
		for _, s := range set.Skipped {
			skipped[s.Name]++
			if s.Name == "" || s.Why == "" {
				t.Errorf("%s: skipped without name or reason: %+v", f.name, s)
			}
		}
		for _, p := range set.Pictures {
			if p.Caption == "" {
				t.Errorf("%s: %s has no caption", f.name, p.Name)
			}
			check(t, f.name+" "+p.Name, p.PNG)
		}
	}
	if len(skipped) != 6 {
		t.Errorf("only %v were ever skipped", skipped)
	}
}

// check checks the size of a picture, that its rim is clear, so that nothing runs
// off the sheet, and that there is something on it.
func check(t *testing.T, name string, data []byte) {
	t.Helper()
	decoded, err := png.Decode(bytes.NewReader(data))
	img, ok := decoded.(*image.RGBA)
	if err != nil || !ok {
		t.Errorf("%s: %T, %v", name, decoded, err)
		return
	}
	if img.Bounds() != image.Rect(0, 0, 1920, 1200) {
		t.Errorf("%s: size %v, want 1920 by 1200", name, img.Bounds())
	}
	if x, y, ok := inked(img, img.Bounds().Inset(24), false); ok {
		t.Errorf("%s: something is drawn in the rim, at %d, %d", name, x, y)
	}
	if _, _, ok := inked(img, image.Rect(300, 400, 1300, 1000), true); !ok {
		t.Errorf("%s: the panel is empty", name)
	}
}

// inked returns a pixel inside or outside of a rectangle that is not white.
func inked(img *image.RGBA, r image.Rectangle, inside bool) (x, y int, ok bool) {
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			if image.Pt(x, y).In(r) == inside && img.RGBAAt(x, y) != (color.RGBA{255, 255, 255, 255}) {
				return x, y, true
			}
		}
	}
	return 0, 0, false
}

func TestDrawTwiceGivesTheSameBytes(t *testing.T) {
	list := []func() *render.Report{reports.Booth, statuses}
	if underRace {
		list = list[:1]
	}
	for _, f := range list {
		a, b := draw(t, f()), draw(t, f())
		if len(a.Pictures) != len(b.Pictures) || len(a.Pictures) == 0 {
			t.Fatalf("%d pictures, then %d", len(a.Pictures), len(b.Pictures))
		}
		for i, p := range a.Pictures {
			if !bytes.Equal(p.PNG, b.Pictures[i].PNG) {
				t.Errorf("%s differs when drawn again", p.Name)
			}
		}
	}
}

func TestDrawRefusesHalfAReport(t *testing.T) {
	whole := reports.Alone()
	for name, rep := range map[string]*render.Report{
		"nothing": nil, "no study": {Results: whole.Results}, "no results": {Study: whole.Study},
	} {
		if set, err := chart.Draw(rep); err == nil || len(set.Pictures) > 0 {
			t.Errorf("%s: %d pictures, error %v", name, len(set.Pictures), err)
		}
	}
}

// Which charts apply must follow from what the study sweeps and has.
func TestSkippedCharts(t *testing.T) {
	if underRace {
		t.Skip("looked at without the race detector")
	}
	for _, c := range []struct {
		report func() *render.Report
		want   []string
	}{
		{reports.Booth, nil},
		{reports.Alone, []string{"breakeven-map.png"}},
		{still, []string{"coolant-over-air.png"}},
		{oneSpeed, []string{"coolant-over-air.png", "breakeven-map.png", "parity.png"}},
		{silent, []string{"breakeven-map.png", "against-sound.png"}},
		{leftOut, []string{"breakeven-map.png", "temperature-budget.png", "fan-curve.png"}},
		{noAnswers, []string{"coolant-over-air.png", "breakeven-map.png", "parity.png", "against-sound.png", "temperature-budget.png", "fan-curve.png"}},
		{reports.Hopeless, []string{"coolant-over-air.png", "breakeven-map.png", "parity.png", "against-sound.png", "temperature-budget.png", "fan-curve.png"}},
	} {
		var got []string
		for _, s := range draw(t, c.report()).Skipped {
			got = append(got, s.Name)
		}
		if len(got) != len(c.want) {
			t.Errorf("skipped %v, want %v", got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("skipped %v, want %v", got, c.want)
			}
		}
	}
}
