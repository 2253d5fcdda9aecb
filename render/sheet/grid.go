package sheet

import (
	"fmt"
	"slices"
	"strings"

	"finduel/render"
	"finduel/sweep/breakeven"
)

// rowsShown is how many lines the map has at most.
const rowsShown = 16

// grid writes the map of break-even speeds over two axes, all others held at what
// is nearest to the study's challenger. Where the axes have more values than can
// be shown, values spread evenly are.
func (t *terminal) grid(down, across int) {
	first, second := t.rep.Study.Axes[down], t.rep.Study.Axes[across]
	cells := map[[2]int][2]string{}
	lines := thin(len(first.Values), rowsShown)
	for _, design := range t.rep.HeldDesigns(down, across) {
		if i := t.rep.DesignStep(design, down); slices.Contains(lines, i) {
			if a, ok := t.rep.AnswerOf(design); ok {
				cells[[2]int{i, t.rep.DesignStep(design, across)}] = cell(a)
			}
		}
	}
	for most := min(len(second.Values), t.width); most > 0; most-- {
		columns := thin(len(second.Values), most)
		tab := table{heads: []string{first.Input.Title()}, left: 0}
		for _, j := range columns {
			tab.heads = append(tab.heads, given(second.Input.Key, second.Values[j]))
		}
		for _, i := range lines {
			row, second := []string{render.Given(first.Input.Quantity, first.Values[i])}, []string{""}
			for _, j := range columns {
				row = append(row, cells[[2]int{i, j}][0])
				second = append(second, cells[[2]int{i, j}][1])
			}
			tab.rows = append(tab.rows, row)
			if strings.Join(second, "") != "" {
				tab.rows = append(tab.rows, second)
			}
		}
		if most > 1 && tab.fits(t.width, 0) < len(tab.heads) {
			continue
		}
		text := "Break-even speed, rpm (±: as far as " + t.margin() + " moves it), over " + first.Input.Label + " (down) and " + second.Input.Label + " (across)"
		if held := t.held(down, across); held != "" {
			text += ", with " + held
		}
		if len(lines) < len(first.Values) || most < len(second.Values) {
			text += fmt.Sprintf("; %d × %d of %d × %d values are shown", len(lines), most, len(first.Values), len(second.Values))
		}
		t.say("", text+"."+tab.plusNote())
		tab.write(&t.b, len(tab.heads))
		return
	}
}

// plusNote explains the + behind a ± of a table, if there is one.
func (tab *table) plusNote() string {
	for _, row := range tab.rows {
		for _, cell := range row {
			if strings.Contains(cell, "±") && strings.HasSuffix(cell, "+") {
				return " +: and on beyond the searched speeds."
			}
		}
	}
	return ""
}

// held says at what the other axes are held.
func (t *terminal) held(but ...int) string {
	text := ""
	for _, i := range t.rep.FreeAxes() {
		if i == but[0] || i == but[1] {
			continue
		}
		if text != "" {
			text += ", "
		}
		a := t.rep.Study.Axes[i]
		text += a.Input.Label + " " + given(a.Input.Key, a.Values[t.rep.Results.Plan.Nearest(i)])
	}
	return text
}

// margin says the margin of the report.
func (t *terminal) margin() string { return given("margin", breakeven.Margin(t.rep.Study)) }

// cell says an answer in a few characters on one line or two.
func cell(a *breakeven.Answer) [2]string {
	if !render.Answered(a) || a.Status == breakeven.Tie {
		return [2]string{a.Status.String()}
	}
	switch lower, upper := render.Ends(a); {
	case lower == nil && upper == nil:
		return [2]string{a.Status.String()}
	case upper == nil:
		return [2]string{render.PlusMinus(lower)}
	case lower == nil:
		return [2]string{"to " + render.PlusMinus(upper)}
	default:
		return [2]string{render.PlusMinus(lower), "to " + render.PlusMinus(upper)}
	}
}
