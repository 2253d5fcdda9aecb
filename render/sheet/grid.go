package sheet

import (
	"fmt"

	"finduel/model/quantity"
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
	cells := map[[2]int]string{}
	for _, a := range t.rep.Held(down, across) {
		cells[[2]int{t.rep.DesignStep(a.Design, down), t.rep.DesignStep(a.Design, across)}] = cell(a)
	}
	lines := thin(len(first.Values), rowsShown)
	for most := len(second.Values); most > 0; most-- {
		columns := thin(len(second.Values), most)
		tab := table{heads: []string{first.Input.Title()}, left: 0}
		for _, j := range columns {
			tab.heads = append(tab.heads, given(second.Input.Key, second.Values[j]))
		}
		for _, i := range lines {
			row := []string{render.Given(first.Input.Quantity, first.Values[i])}
			for _, j := range columns {
				row = append(row, cells[[2]int{i, j}])
			}
			tab.rows = append(tab.rows, row)
		}
		if most > 1 && tab.fits(t.width, 0) < len(tab.heads) {
			continue
		}
		text := "Break-even speed, rpm, over " + first.Input.Label + " (down) and " + second.Input.Label + " (across)"
		if held := t.held(down, across); held != "" {
			text += ", with " + held
		}
		if len(lines) < len(first.Values) || most < len(second.Values) {
			text += fmt.Sprintf("; %d × %d of %d × %d values are shown", len(lines), most, len(first.Values), len(second.Values))
		}
		t.say("", text+".")
		tab.write(&t.b, len(tab.heads))
		return
	}
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

// cell says an answer in a few characters.
func cell(a *breakeven.Answer) string {
	speed := quantity.Must("fan_speed")
	low, hasLower := a.Lower()
	high, hasUpper := a.Upper()
	switch {
	case !render.Answered(a) || !hasLower && !hasUpper:
		return a.Status.String()
	case !hasUpper:
		return render.Number(speed, low)
	case !hasLower:
		return "to " + render.Number(speed, high)
	}
	return render.Number(speed, low) + " to " + render.Number(speed, high)
}
