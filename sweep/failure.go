package sweep

import (
	"errors"
	"strconv"
	"strings"

	"finduel/model/quantity"
)

// Reason says on one line why a rig has no state: numbers outside their range with
// their value and unit, reasons one after the other.
func Reason(err error) string {
	var parts []string
	for _, e := range flatten(err) {
		parts = append(parts, reason(e))
	}
	return strings.Join(parts, "; ")
}

// Rule says in one line why a point has no value, as Reason does but without the value that
// left a range: the same text for every point that breaks the same rules.
func Rule(err error) string {
	var parts []string
	for _, e := range flatten(err) {
		var out *quantity.RangeError
		if errors.As(e, &out) {
			parts = append(parts, out.Error())
			continue
		}
		parts = append(parts, reason(e))
	}
	return strings.Join(parts, "; ")
}

// flatten returns the errors joined in err, in order.
func flatten(err error) []error {
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return []error{err}
	}
	var all []error
	for _, e := range joined.Unwrap() {
		all = append(all, flatten(e)...)
	}
	return all
}

func reason(err error) string {
	var out *quantity.RangeError
	if !errors.As(err, &out) {
		return strings.ReplaceAll(err.Error(), "\n", " ")
	}
	q, ok := quantity.Of(out.Key)
	if !ok {
		return out.Error()
	}
	text := q.Key + " " + strconv.FormatFloat(q.Shown.Shown(out.Value), 'g', 6, 64)
	if q.Shown.Symbol != "" {
		text += " " + q.Shown.Symbol
	}
	return text + " " + out.Rule
}
