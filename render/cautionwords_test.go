package render_test

import (
	"slices"
	"strings"
	"testing"

	"finduel/model/hazard"
	"finduel/model/quantity"
	"finduel/render"
)

// What several setups share is said once with the names of all, and what several rules of
// one source ask for at one number likewise; nothing is left out.
func TestCautionsThatShareASentence(t *testing.T) {
	rpm := quantity.Must("fan_speed").Shown
	of := func(setup string, rule hazard.Rule, number, onset float64) render.Caution {
		c := render.Caution{Caution: rule.Caution(hazard.Finding{Number: number, Threshold: 5, Holds: true}), Setup: setup, At: rpm.SI(9000)}
		c.From, c.Onset = rpm.SI(onset), rpm.SI(onset)
		return c
	}
	lead := func(c render.Caution) string { // all but what to do
		text, _, _ := strings.Cut(sentence(c), ": "+c.Precaution)
		return text
	}
	type list = []render.Caution
	for _, c := range []struct {
		name string
		list list
		want []string
	}{
		{"one", list{of("a", hazard.FanHeader, 7, 3000)}, []string{
			"Warning, a from 3 000 rpm: drive current of the fans 7.00 A at 9 000 rpm, threshold 5 A: never draw this from a fan header; state the connector that carries it (common practice, from memory)."}},
		{"twins", list{of("a", hazard.TipSpeed, 70, 3000), of("b", hazard.TipSpeed, 70, 3000), of("c", hazard.TipSpeed, 70, 4000)}, []string{
			"Warning, a and b from 3 000 rpm and c from 4 000 rpm: tip speed 70.0 m/s at 9 000 rpm, threshold 5 m/s: "}},
		{"brothers", list{of("a", hazard.TipSpeed, 70, 3000), of("b", hazard.TipSpeed, 80, 2000)}, []string{
			"Warning, a from 3 000 rpm: tip speed 70.0 m/s at 9 000 rpm, threshold 5 m/s; b from 2 000 rpm: tip speed 80.0 m/s at 9 000 rpm, threshold 5 m/s: "}},
		{"one number", list{of("a", hazard.WireNotKnown, 7, 3000), of("b", hazard.WireNotKnown, 7, 3000), of("a", hazard.SupplyNotKnown, 7, 3000),
			of("b", hazard.SupplyNotKnown, 7, 3000), of("a", hazard.FuseNotKnown, 7, 3000)}, []string{
			"Notice, a and b from 3 000 rpm: drive current of the fans 7.00 A at 9 000 rpm, threshold 5 A: state gauge and length of the wire: without both, its heat and its voltage drop are not looked at; state the rated current of the supply: without it its load is not looked at (common practice, no source).",
			"Notice, a from 3 000 rpm: drive current of the fans 7.00 A at 9 000 rpm, threshold 5 A: fit a fuse"}},
		{"other sources", list{of("a", hazard.WireOverRated, 7, 3000), of("a", hazard.FuseOpens, 7, 3000)}, []string{
			lead(of("a", hazard.WireOverRated, 7, 3000)) + ": take thicker wire", lead(of("a", hazard.FuseOpens, 7, 3000)) + ": turn slower"}},
		{"other severities", list{of("a", hazard.TipSpeed, 70, 3000), of("a", hazard.BladeNotKnown, 70, 3000)}, []string{
			"Warning, a from", "Notice, a from"}},
		{"no number", list{of("a", hazard.NotSaidAttended, 50, 3000), of("b", hazard.NotSaidAttended, 60, 3000)}, []string{
			"Notice, a and b from 3 000 rpm: say whether somebody stays"}},
	} {
		got := render.CautionSentences(c.list)
		for i := range got {
			got[i] = strings.ReplaceAll(got[i], "\u00a0", " ")
		}
		if len(got) != len(c.want) || !slices.EqualFunc(got, c.want, func(a, b string) bool { return strings.HasPrefix(a, strings.ReplaceAll(b, "\u00a0", " ")) }) {
			t.Errorf("%s: got\n%s", c.name, strings.Join(got, "\n"))
		}
		all := strings.Join(got, "\n")
		for _, one := range c.list {
			if !strings.Contains(all, one.Precaution) || !strings.Contains(all, one.Source) || !strings.Contains(all, one.Setup+" ") {
				t.Errorf("%s: %s of %s is not said in\n%s", c.name, one.Key, one.Setup, all)
			}
		}
	}
}
