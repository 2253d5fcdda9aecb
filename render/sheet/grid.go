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
	type shown struct {
		answer [2]string
		sure   sure
	}
	cells := map[[2]int]shown{}
	lines := thin(len(first.Values), rowsShown)
	for _, design := range t.rep.HeldDesigns(down, across) {
		if i := t.rep.DesignStep(design, down); slices.Contains(lines, i) {
			if a, ok := t.rep.AnswerOf(design); ok {
				cells[[2]int{i, t.rep.DesignStep(design, across)}] = shown{cell(a), t.sure(a)}
			}
		}
	}
	// The intervals go first where there is no room, then values of the second axis.
	for most := min(len(second.Values), t.width); most > 0; most-- {
		columns := thin(len(second.Values), most)
		for _, detail := range []int{intervals95, existence} {
			tab := table{heads: []string{first.Input.Title()}, left: 0}
			for _, j := range columns {
				tab.heads = append(tab.heads, given(second.Input.Key, second.Values[j]))
			}
			drawn := false
			for _, i := range lines {
				rows := [3][]string{{render.Given(first.Input.Quantity, first.Values[i])}, {""}, {""}}
				for _, j := range columns {
					c := cells[[2]int{i, j}]
					drawn = drawn || c.sure.exists != ""
					rows[0], rows[1], rows[2] = append(rows[0], c.answer[0]), append(rows[1], c.answer[1]), append(rows[2], c.sure.within(detail))
				}
				for k, row := range rows {
					if k == 0 || strings.Join(row, "") != "" {
						tab.rows = append(tab.rows, row)
					}
				}
			}
			if (most > 1 || detail == intervals95) && tab.fits(t.width, 0) < len(tab.heads) {
				continue
			}
			text := "Break-even speed, rpm (±: as far as " + t.margin() + " moves it), over " + first.Input.Label + " (down) and " + second.Input.Label + " (across)"
			if held := t.held(down, across); held != "" {
				text += ", with " + held
			}
			if len(lines) < len(first.Values) || most < len(second.Values) {
				text += fmt.Sprintf("; %d × %d of %d × %d values are shown", len(lines), most, len(first.Values), len(second.Values))
			}
			text += "."
			switch {
			case drawn && detail == intervals95:
				text += " Below each its 95 % interval, and in how many of the draws there is one."
			case drawn:
				text += " Below each in how many of the draws there is one."
			}
			t.say("", text+tab.plusNote())
			tab.write(&t.b, len(tab.heads))
			return
		}
	}
}

// How much of how sure an answer is a map shows.
const (
	intervals95 = iota
	existence
)

// sure is how sure the break-even of a design is, in short; empty if it was not drawn.
type sure struct{ interval, exists string }

func (t *terminal) sure(a *breakeven.Answer) sure {
	interval, exists, _ := t.rep.Surely(a)
	return sure{interval, exists}
}

// within says how sure a break-even is in the cell of a map: "4 200 to 10 000; 99 %", or
// its end alone; empty if it was not drawn.
func (s sure) within(detail int) string {
	if s.interval == "" || detail == existence || s.interval == "never" || s.interval == "lowest speed" {
		return s.exists
	}
	return s.interval + "; " + s.exists
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
