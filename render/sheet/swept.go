package sheet

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"finduel/render"
	"finduel/sweep/study"
)

// Swept writes which inputs a study sweeps: a few values as they are, many as how far
// they reach and, in parentheses, how many there are. It returns the error of w.
func Swept(w io.Writer, s *study.Study) error {
	const few = 6
	var axes []string
	for _, a := range s.Axes {
		q := a.Input.Quantity
		var values []string
		for _, v := range a.Values {
			values = append(values, render.Given(q, v))
		}
		text := render.WithUnit(q, strings.Join(values, ", "))
		if len(values) > few {
			low, high := slices.Min(a.Values), slices.Max(a.Values)
			text = fmt.Sprintf("%s to %s (%s)", render.Given(q, low), render.WithUnit(q, render.Given(q, high)), render.Whole(len(values)))
		}
		axes = append(axes, a.Input.Key+" "+text)
	}
	_, err := io.WriteString(w, wrap("axes        ", strings.Join(axes, "; "), 80))
	return err
}
