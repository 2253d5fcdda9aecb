package chart

import (
	"math"
	"strings"
	"testing"

	"finduel/model"
	"finduel/model/fan"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
	"finduel/testdata/reports"
)

// factsOf returns the facts of a report, one a line.
func factsOf(rep *render.Report, drawn ...int) string {
	var b strings.Builder
	for _, f := range facts(rep, drawn...) {
		b.WriteString(f.word + ": " + f.text + "\n")
	}
	return b.String()
}

func TestFacts(t *testing.T) {
	const large = "Reference: large: core slab (286 × 134 mm face, fins 26 mm deep, 11 fpi, louvered), 2 × calm 140 pushing, at 600 rpm\n"
	const about = "About: a workstation that must stay silent beside a microphone (invented)\n"
	pulling := reports.Alone()
	pulling.Study.Setups[0].Rig.Placing = fan.Pull
	pulling.Study.About = " \n"
	for _, c := range []struct {
		name  string
		rep   *render.Report
		drawn []int
		want  string
	}{
		{"all held", reports.Booth(), nil, "Challenger: small: core cube (louvered), 1 × dense 92 pushing\n" + large +
			"Conditions: heat load 210 W, plate resistance 0.045 K/W, pump heat 9 W, 3.2 L/min of water, room air 23 °C, humidity 45 %, altitude 180 m, listener at 1 m\n" +
			"Held: fin density 20 fpi, fin depth 36 mm (34 mm in the study), face area 81 cm² (80.96 cm² in the study)\n" + about},
		{"two drawn", reports.Booth(), []int{1, 2}, "Challenger: small: core cube (louvered), 1 × dense 92 pushing\n" + large +
			"Conditions: heat load 210 W, plate resistance 0.045 K/W, pump heat 9 W, 3.2 L/min of water, room air 23 °C, humidity 45 %, altitude 180 m, listener at 1 m\n" +
			"Held: face area 81 cm² (80.96 cm² in the study)\n" + about},
		{"a group held", reports.Grouped(), []int{1}, "Challenger: small: core cube (92 × 88 mm face, louvered), 1 × dense 92 pushing\n" + large +
			"Conditions: heat load 210 W, plate resistance 0.045 K/W, pump heat 9 W, 3.2 L/min of water, humidity 45 %, altitude 180 m, listener at 1 m\n" +
			"Held: fin density 20 fpi, fin depth 20 mm (34 mm in the study)\n" + about},
		{"a group drawn", reports.Grouped(), []int{0}, "Challenger: small: core cube (92 × 88 mm face, louvered), 1 × dense 92 pushing\n" + large +
			"Conditions: heat load 210 W, plate resistance 0.045 K/W, pump heat 9 W, 3.2 L/min of water, room air 23 °C, humidity 45 %, altitude 180 m, listener at 1 m\n" +
			"Held: room air temperature 23 °C\n" + about},
		{"nothing else", pulling, nil, "Challenger: small: core cube (92 × 88 mm face, fins 34 mm deep, 20 fpi, louvered), 1 × dense 92 pulling\n" + large +
			"Conditions: heat load 210 W, plate resistance 0.045 K/W, pump heat 9 W, 3.2 L/min of water, room air 23 °C, humidity 45 %, altitude 180 m, listener at 1 m\n"},
	} {
		if got := factsOf(c.rep, c.drawn...); got != c.want {
			t.Errorf("%s:\n%swant\n%s", c.name, got, c.want)
		}
	}
}

// What is estimated, and what cannot be written, must be told.
func TestFactsTellWhatIsUncertain(t *testing.T) {
	rep := reports.Alone()
	rep.Study.Setups[1].Estimated = []string{"fin_depth"}
	if got, want := factsOf(rep), "(286 × 134 mm face, fins about 26.0 mm deep (estimated), 11 fpi, louvered)"; !strings.Contains(got, want) {
		t.Errorf("%q is not in\n%s", want, got)
	}
	const note = "Note: □ stands for a character that the type of this chart does not have\n"
	if got := factsOf(rep); strings.Contains(got, note) {
		t.Errorf("a note without a reason in\n%s", got)
	}
	rep.Study.Setups[0].Fan = "風 92"
	if got := factsOf(rep); !strings.Contains(got, "1 × □ 92 pushing") || !strings.HasSuffix(got, note) {
		t.Errorf("the glyph that is missing is not told in\n%s", got)
	}
}

// The headline of the budget must say who wins, and by what.
func TestBudgetLead(t *testing.T) {
	for _, c := range []struct {
		metric     string
		difference float64
		term       string
		want       string
	}{
		{"coolant_over_air", -2, "budget_fin", "At its best speed, 6 000 rpm, small is 2.00 K cooler than large; the largest part of its own budget is capacity, 5.00 of 8.00 K."},
		{"chip_over_air", -2, "", "At its best speed, 6 000 rpm, small is 2.00 K cooler than large in chip over air; the largest part of its own budget is capacity, 5.00 of 8.00 K."},
		{"coolant_over_air", 2, "budget_fan_heat", "At its best speed, 6 000 rpm, small loses most against large in fan heat: 0.50 K more."},
		{"coolant_over_air", 2, "", "a reason."},
		{"coolant_over_air", math.NaN(), "budget_fan_heat", "a reason."},
	} {
		rep := reports.Alone()
		rep.Study.Metric = c.metric
		a, _ := baseAnswer(rep)
		a.Reason, a.Best.Speed, a.Best.Difference = "a reason", 100, c.difference
		a.Best.State.Budget = model.Budget{AirFilm: 2, Capacity: 5, FanHeat: 1}
		a.Limit = breakeven.Limit{Term: c.term, Excess: 0.5}
		if got := budgetLead(rep, a); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	for metric, want := range map[string]string{
		"coolant_over_air": "", "coolant_mean_over_air": "half the coolant's fall", "chip_over_air": "plate resistance",
	} {
		rep := reports.Alone()
		rep.Study.Metric = metric
		if got := splitNote(rep); !strings.Contains(got, want) || (got == "") != (want == "") {
			t.Errorf("%s: %q", metric, got)
		}
	}
}

// The sentence under the title must be that of the answer, with what it costs in
// noise beside the sound.
func TestLeads(t *testing.T) {
	rep := reports.Alone()
	if got, want := leadOf(rep), "small equals large at 7 356 rpm (7 069 to 7 685 within 0.1 K) and is cooler up to 15 200 rpm (14 684 to 15 672 within 0.1 K); above it the fans heat the air faster than the core gains."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := soundLead(rep), "Where small breaks even, at 7 356 ±329 rpm, it makes 63.6 dBA against 6.1 dBA of large at 600 rpm, 57.5 dB more."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	a, _ := baseAnswer(rep)
	a.Crossings[0].State.Sound, a.Reference.Sound = 20, 30
	if got, want := soundLead(rep), "20.0 dBA against 30.0 dBA of large at 600 rpm, 10.0 dB less."; !strings.HasSuffix(got, want) {
		t.Errorf("%q, want %q at its end", got, want)
	}
	// The difference is that of the numbers shown, not 0.2 dB.
	a.Crossings[0].State.Sound, a.Reference.Sound = 20.249, 20.051
	if got, want := soundLead(rep), "20.2 dBA against 20.1 dBA of large at 600 rpm, 0.1 dB more."; !strings.HasSuffix(got, want) {
		t.Errorf("%q, want %q at its end", got, want)
	}
	a.Crossings[0].State.Sound = 20.051
	if got, want := soundLead(rep), "20.1 dBA against 20.1 dBA of large at 600 rpm, as much."; !strings.HasSuffix(got, want) {
		t.Errorf("%q, want %q at its end", got, want)
	}
	single := reports.Ahead()
	one, _ := baseAnswer(single)
	one.From = one.To
	if got, want := soundLead(single), "At 9 000 rpm, the one speed searched, small is cooler and makes"; !strings.HasPrefix(got, want) {
		t.Errorf("%q, want %q at its beginning", got, want)
	}
	for _, c := range []struct {
		rep  *render.Report
		want string
	}{
		{reports.Ahead(), "small is cooler at every speed; at its best one, 9 000 rpm,"},
		{reports.OnePoint(), "small stays warmer; at its best speed, 6 000 rpm,"},
		{reports.Hopeless(), "no answer:"},
	} {
		if got := soundLead(c.rep); !strings.HasPrefix(got, c.want) {
			t.Errorf("%q, want %q at its beginning", got, c.want)
		}
	}
	long := strings.Repeat("n", 60)
	rep.Study.Setups[0].Name, a.Reason = long, long+" equals large"
	if got, want := leadOf(rep), strings.Repeat("n", longestName-1)+"… equals large."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestMapLead(t *testing.T) {
	rep := reports.Few()
	cells, _, _, _ := cellsOf(rep, 0, 1)
	if got, want := mapLead(rep, cells, 0, 1), "11 of 12 designs break even with large within the searched speeds, the earliest at 5 906 ±202 rpm: fin density 12 fpi, fin depth 27 mm; 1 ties within the margin."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	for i := range rep.Answers[1:] {
		rep.Answers[i+1].Crossings = nil
	}
	if got, want := mapLead(rep, cells, 0, 1), "1 of 12 designs breaks even with large"; !strings.HasPrefix(got, want) {
		t.Errorf("%q, want %q at its beginning", got, want)
	}
	rep.Answers[0].Crossings = nil
	if got, want := mapLead(rep, cells[:1], 0, 1), "0 of 1 design breaks even with large within the searched speeds."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	rep.Answers[1].Status, rep.Answers[2].Status = breakeven.Excluded, breakeven.Always
	if got, want := mapLead(rep, cells, 0, 1), "0 of 11 designs break even with large within the searched speeds; 1 is cooler from the lowest speed on; 1 ties within the margin."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := mapLead(rep, cells[1:2], 0, 1), "Every design of the map is left out by the study."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	grouped := reports.Grouped()
	if got, want := stepWords(grouped, 0, 1), "fin density 16 fpi, fin depth 27 mm"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	for n, want := range map[float64]string{1: "1 fan", 2: "2 fans"} {
		if got := inWords(quantity.Must("fans"), n); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
