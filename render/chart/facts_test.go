package chart

import (
	"strings"
	"testing"

	"finduel/model/fan"
	"finduel/render"
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
			"Conditions: heat load 210 W, pump heat 9 W, 3.2 L/min of water, room air 23 °C, altitude 180 m, listener at 1 m\n" +
			"Held: fin density 20 fpi, fin depth 36 mm (34 mm in the study), face area 81 cm² (80.96 cm² in the study)\n" + about},
		{"two drawn", reports.Booth(), []int{1, 2}, "Challenger: small: core cube (louvered), 1 × dense 92 pushing\n" + large +
			"Conditions: heat load 210 W, pump heat 9 W, 3.2 L/min of water, room air 23 °C, altitude 180 m, listener at 1 m\n" +
			"Held: face area 81 cm² (80.96 cm² in the study)\n" + about},
		{"a group held", reports.Grouped(), []int{1}, "Challenger: small: core cube (92 × 88 mm face, louvered), 1 × dense 92 pushing\n" + large +
			"Conditions: heat load 210 W, pump heat 9 W, 3.2 L/min of water, altitude 180 m, listener at 1 m\n" +
			"Held: fin density 20 fpi, fin depth 20 mm (34 mm in the study)\n" + about},
		{"a group drawn", reports.Grouped(), []int{0}, "Challenger: small: core cube (92 × 88 mm face, louvered), 1 × dense 92 pushing\n" + large +
			"Conditions: heat load 210 W, pump heat 9 W, 3.2 L/min of water, room air 23 °C, altitude 180 m, listener at 1 m\n" +
			"Held: room air temperature 23 °C\n" + about},
		{"nothing else", pulling, nil, "Challenger: small: core cube (92 × 88 mm face, fins 34 mm deep, 20 fpi, louvered), 1 × dense 92 pulling\n" + large +
			"Conditions: heat load 210 W, pump heat 9 W, 3.2 L/min of water, room air 23 °C, altitude 180 m, listener at 1 m\n"},
	} {
		if got := factsOf(c.rep, c.drawn...); got != c.want {
			t.Errorf("%s:\n%swant\n%s", c.name, got, c.want)
		}
	}
}

// The sentence under the title must be that of the answer, with what it costs in
// noise beside the sound.
func TestLeads(t *testing.T) {
	rep := reports.Alone()
	if got, want := leadOf(rep), "small equals large at 7 356 rpm and is cooler up to 15 200 rpm (invented)."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := soundLead(rep), "Where small breaks even, at 7 356 rpm, it makes 63.6 dBA against 6.1 dBA of large at 600 rpm, 57.5 dB more."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	a, _ := baseAnswer(rep)
	a.Crossings[0].State.Sound, a.Reference.Sound = 20, 30
	if got, want := soundLead(rep), "20.0 dBA against 30.0 dBA of large at 600 rpm, 10.0 dB less."; !strings.HasSuffix(got, want) {
		t.Errorf("%q, want %q at its end", got, want)
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
	cells, _, _ := cellsOf(rep, 0, 1)
	if got, want := mapLead(rep, cells, 0, 1), "12 of 12 designs become cooler than large within the searched speeds, the earliest at 5 906 rpm: 12 fpi and 27 mm."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	for i := range rep.Answers[1:] {
		rep.Answers[i+1].Crossings = nil
	}
	if got, want := mapLead(rep, cells, 0, 1), "1 of 12 designs becomes cooler than large"; !strings.HasPrefix(got, want) {
		t.Errorf("%q, want %q at its beginning", got, want)
	}
	rep.Answers[0].Crossings = nil
	if got, want := mapLead(rep, cells[:1], 0, 1), "0 of 1 designs become cooler than large within the searched speeds."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
