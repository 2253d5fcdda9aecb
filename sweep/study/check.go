package study

import (
	"errors"

	"finduel/model"
	"finduel/model/quantity"
)

// relate reports what the model says about values that do not go together, each
// at the value that the model names: in the section, or as the section's default.
func (b *builder) relate(err error, section any, path string) {
	for _, e := range rangeErrors(err) {
		l := leafOf(section, e.Key)
		if part, ok := section.(corePart); ok {
			switch {
			case e.Key == "face_length":
				l = part.Face[0]
			case e.Key == "face_width":
				l = part.Face[1]
			case e.Key == "fin_depth" && l == nil:
				l = part.OverallThickness
			}
		}
		if l != nil {
			b.fault(l, e.Rule, "")
			continue
		}
		value := ""
		if in, ok := model.InputOf(e.Key); ok {
			value = show(e.Value, in.Shown)
		}
		b.add(b.places[path], keyPath(path, e.Key), value, e.Rule, "this is the default: give "+e.Key)
	}
}

// rangeErrors returns every range error that an error joins.
func rangeErrors(err error) []*quantity.RangeError {
	if several, ok := err.(interface{ Unwrap() []error }); ok {
		var list []*quantity.RangeError
		for _, e := range several.Unwrap() {
			list = append(list, rangeErrors(e)...)
		}
		return list
	}
	var one *quantity.RangeError
	if errors.As(err, &one) {
		return []*quantity.RangeError{one}
	}
	return nil
}
