package study

import (
	"errors"
	"math"

	"finduel/model"
	"finduel/model/core"
	"finduel/model/quantity"
)

// relate reports what the model says about values that do not go together, each
// at the value that the model names: in the section, or as the section's default.
// remedy says what an input may be, or nothing.
func (b *builder) relate(err error, section any, path string, remedy func(key string) string) {
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
			b.fault(l, e.Rule, remedy(e.Key))
			continue
		}
		value := ""
		if in, ok := model.InputOf(e.Key); ok {
			value = show(e.Value, in.Shown)
		}
		hint := "this is the default: give " + e.Key
		if what := remedy(e.Key); what != "" {
			hint += "; " + what
		}
		b.add(b.places[path], keyPath(path, e.Key), value, e.Rule, hint)
	}
}

// remedy says what an input of a core may be so that it goes with the others, which
// it does not: the rules of core.Geometry.Check with numbers.
func remedy(g core.Geometry, key string) string {
	pitch := 1 / g.FinDensity
	switch key {
	case "face_width":
		tubePitch := g.FinHeight + g.TubeHeight
		if g.Routing == core.CrossCounterflow {
			return "write at least " + bound(key, tubePitch, math.Ceil) + ", fin_height + tube_height"
		}
		return "write at least " + bound(key, float64(g.Passes)*tubePitch, math.Ceil) + ", passes × (fin_height + tube_height)"
	case "face_length":
		return "write at least " + bound(key, 2*pitch, math.Ceil)
	case "fin_thickness":
		if most := min(pitch, g.FinHeight) / 2; g.FinThickness >= most {
			return "write less than " + bound(key, most, math.Floor)
		}
		return "write more than " + bound(key, 0.0105*pitch, math.Ceil)
	case "tube_wall":
		return "write less than " + bound(key, min(g.TubeHeight, g.FinDepth)/2, math.Floor)
	case "tube_height":
		if g.TubeHeight >= g.FinDepth {
			return "write less than " + bound(key, g.FinDepth, math.Floor)
		}
		return "write more than " + bound(key, g.FinHeight/49, math.Ceil)
	case "louver_pitch":
		return "write at most " + bound(key, g.FinDepth/2, math.Floor)
	case "strip_length":
		if g.StripLength > g.FinDepth {
			return "write at most " + bound(key, g.FinDepth, math.Floor)
		}
		return "write more than " + bound(key, g.FinThickness, math.Ceil)
	case "passes":
		if most := math.Ceil(g.FinDepth/g.TubeHeight) - 1; g.Routing == core.CrossCounterflow && most < 4 {
			return "write at most " + bound(key, math.Max(most, 1), math.Floor) + ", or routing: side by side"
		}
	case "louver_length":
		return "write at most " + bound(key, g.FinHeight, math.Floor)
	}
	return ""
}

// bound shows a limit of an input, SI, with three digits, rounded to the side that
// is allowed.
func bound(key string, limit float64, round func(float64) float64) string {
	in, _ := model.InputOf(key)
	v := in.Shown.Shown(limit)
	step := math.Pow(10, math.Floor(math.Log10(v))-2)
	if whole := math.Round(v / step); math.Abs(whole-v/step) > 1e-9 {
		v = round(v/step) * step
	}
	return show(in.Shown.SI(v), in.Shown)
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
