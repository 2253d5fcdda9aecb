package study

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"

	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/core"
	"finduel/model/quantity"
)

// Limits of a sweep.
const (
	maxAxis   = 100_000       // values of one axis
	maxPoints = 1_000_000_000 // points of a study: some hours of computing and some hundred gigabytes
)

// spacing is how the values of an axis lie between its ends.
type spacing string

const (
	even      spacing = "even"      // equal steps
	geometric spacing = "geometric" // equal ratios
)

// String returns the word for the spacing.
func (s spacing) String() string { return string(s) }

// spaced returns n values from one end to the other, both exact.
func spaced(from, to float64, n int, s spacing) []float64 {
	values := make([]float64, n)
	for i := range values {
		t := float64(i) / float64(n-1)
		if s == geometric {
			values[i] = from * math.Pow(to/from, t)
		} else {
			values[i] = from + (to-from)*t
		}
	}
	values[0], values[n-1] = from, to
	return values
}

// input returns the input that a leaf names.
func (f *findings) input(l *leaf) (model.Input, bool) {
	key, ok := f.word(l)
	if !ok {
		return model.Input{}, false
	}
	if in, ok := model.InputOf(key); ok {
		return in, true
	}
	switch key {
	case "fluid", "fins", "metal", "arrangement", "routing", "motor", "placing", "stack_feed", "core", "fan":
		f.fault(l, "is not an input", "a choice, not a number: give a second setup")
	default:
		f.fault(l, "is not an input", inputHint(key, inputKeys()))
	}
	return model.Input{}, false
}

// inputKeys returns the keys of all inputs.
func inputKeys() []string {
	keys := make([]string, len(model.Inputs))
	for i, in := range model.Inputs {
		keys[i] = in.Key
	}
	return keys
}

// fewInputs is how many of the some ninety inputs a hint lists.
const fewInputs = 6

// inputHint says which key was probably meant instead of one that is no input, lists
// those that are spelled most like it, and says where all are.
func inputHint(key string, keys []string) string {
	key = key[strings.LastIndex(key, ".")+1:]
	meant, ok := sectionInput(key)
	if !ok {
		meant, ok = tradeWord(key, keys)
	}
	if !ok {
		meant, ok = nearest(key, keys)
	}
	hint := ""
	if ok {
		hint = "did you mean " + meant + "? "
	}
	if like := closest(key, keys, fewInputs); len(like) > 0 {
		hint += "nearest inputs: " + strings.Join(like, ", ") + "; "
	}
	return hint + "finduel help inputs lists all"
}

// closest returns the names most like a key, at most so many: those that share a word
// with it first, then those of which no more than half the letters must change.
func closest(key string, names []string, most int) []string {
	type candidate struct {
		name     string
		stranger bool // shares no word
		changes  int
	}
	key = strings.ToLower(key)
	own := strings.Split(key, "_")
	var list []candidate
	for _, name := range names {
		c := candidate{name: name, changes: distance(key, name)}
		c.stranger = !slices.ContainsFunc(strings.Split(name, "_"), func(word string) bool { return slices.Contains(own, word) })
		if !c.stranger || c.changes <= len(key)/2 {
			list = append(list, c)
		}
	}
	slices.SortStableFunc(list, func(a, b candidate) int {
		if a.stranger != b.stranger {
			if a.stranger {
				return 1
			}
			return -1
		}
		return a.changes - b.changes
	})
	var like []string
	for _, c := range list[:min(most, len(list))] {
		like = append(like, c.name)
	}
	return like
}

// sectionInput returns the input that a key of a section sets, or what comes near
// to a word of it, and false if the key is none.
func sectionInput(key string) (string, bool) {
	switch key {
	case "face":
		return "face_area, face_length or face_width", true
	case "thickness":
		return "overall_thickness, fin_depth or fin_thickness", true
	case "depth":
		return "fin_depth or overall_thickness", true
	}
	for _, section := range []any{roomPart{}, heatPart{}, coolantPart{}, setupPart{}} {
		t := reflect.TypeOf(section)
		for i := range t.NumField() {
			if tag := t.Field(i).Tag; tag.Get("mapstructure") == key && tag.Get("input") != "" {
				return tag.Get("input"), true
			}
		}
	}
	return "", false
}

// draft is an axis that is being read. Its values are laid out last, when it is
// known that they are not too many.
type draft struct {
	part     axisPart
	path     string
	input    model.Input
	group    string
	from, to measure
	spacing  spacing
	steps    int
	list     []float64 // nil for an axis with ends
}

// axes returns the axes of the sweep of a challenger. sound says whether the
// challenger has no fault.
func (b *builder) axes(challenger Setup, sound bool) []Axis {
	if len(b.doc.Sweep.Axes) == 0 {
		if b.touched["sweep.axes"] || b.meant["sweep.axes"] || !sound {
			return nil
		}
		return b.defaultAxis(challenger.Rig.Fans.Fan.TopSpeed)
	}
	var drafts []draft
	for i, part := range b.doc.Sweep.Axes {
		d := draft{part: part, path: itemPath("sweep.axes", i)}
		in, ok := b.input(part.Input)
		if d.input = in; ok {
			b.conflicts(&d, drafts)
		}
		b.read(&d, ok)
		drafts = append(drafts, d)
	}
	if sound {
		b.effects(drafts, challenger)
	}
	if b.touched["sweep.axes"] || !b.counts(drafts) {
		return nil
	}
	axes := make([]Axis, len(drafts))
	for i := range drafts {
		axes[i] = b.axis(&drafts[i])
	}
	return axes
}

// defaultAxis returns the default axis of a fan with a top speed.
func (b *builder) defaultAxis(top float64) []Axis {
	axis := DefaultAxis(top)
	for _, v := range axis.Values {
		if axis.Input.Check(v) != nil {
			b.add(b.places["sweep"], "sweep.axes", "", "is missing, and the fan is too slow for the default", "give an axis with the input fan_speed")
			return nil
		}
	}
	return []Axis{axis}
}

// conflicts reports an axis that sets what an earlier one sets.
func (b *builder) conflicts(d *draft, earlier []draft) {
	for _, other := range earlier {
		switch {
		case other.input.Key == d.input.Key:
			b.fault(d.part.Input, "is swept twice: "+other.path+" has it too", "make one axis of the two")
			return
		case clash(other.input, d.input):
			b.fault(d.part.Input, "sets what "+other.input.Key+" of "+other.path+" sets", "sweep one of the two")
			return
		}
	}
}

// clash reports whether two inputs set the same. The two sides of the face share a
// part but do not.
func clash(a, b model.Input) bool {
	sides := a.Key == "face_length" && b.Key == "face_width" || a.Key == "face_width" && b.Key == "face_length"
	return a.Part != "" && a.Part == b.Part && !sides
}

// read reads what is written of an axis. known says whether its input is, so that
// its values can be judged.
func (b *builder) read(d *draft, known bool) {
	if d.part.Group != nil {
		d.group, _ = b.name(d.part.Group)
	}
	d.spacing = choice(b.findings, d.part.Spacing, even, geometric)
	listPath := keyPath(d.path, "list")
	ends := d.part.From != nil || d.part.To != nil || d.part.Steps != nil || d.part.Spacing != nil
	listed := d.part.List != nil || b.touched[listPath]
	switch {
	case listed && ends:
		b.add(b.places[listPath], listPath, "", "is given beside from, to, steps or spacing", "give a list, or from, to and steps")
	case listed:
		if d.steps = len(d.part.List); known {
			b.readList(d)
		}
	case ends:
		b.readEnds(d, known)
	case !b.meant[listPath] && !b.sectionSpoilt(d.path):
		b.add(b.places[d.path], d.path, "", "has no values", "add from, to and steps; or a list")
	}
}

// readList reads the values of a list.
func (b *builder) readList(d *draft) {
	seen := map[float64]bool{}
	for _, l := range d.part.List {
		m, ok := b.number(l, d.input)
		if !ok {
			continue
		}
		if seen[m.si] && d.part.Group == nil {
			b.fault(l, "is in the list twice", "remove one of the two")
		}
		seen[m.si] = true
		d.list = append(d.list, m.si)
	}
}

// readEnds reads the ends and the number of steps between them.
func (b *builder) readEnds(d *draft, known bool) {
	for _, l := range []struct {
		leaf *leaf
		key  string
	}{{d.part.From, "from"}, {d.part.To, "to"}, {d.part.Steps, "steps"}} {
		if at := keyPath(d.path, l.key); l.leaf == nil && !b.meant[at] {
			b.add(b.places[d.path], at, "", "is missing", "an axis has from, to and steps; or a list")
		}
	}
	if m, ok := b.measure(d.part.Steps, quantity.Count); ok {
		if d.steps = int(min(max(m.si, 0), maxAxis)); float64(d.steps) != m.si || d.steps < 2 {
			b.fault(d.part.Steps, "is not a number of steps", fmt.Sprintf("write a whole number from 2 to %d; for a single value: list", maxAxis))
		}
	}
	if !known {
		return
	}
	var okFrom, okTo bool
	d.from, okFrom = b.number(d.part.From, d.input)
	d.to, okTo = b.number(d.part.To, d.input)
	switch {
	case !okFrom || !okTo:
	case d.from.si == d.to.si:
		b.fault(d.part.To, "is the same as from", "for a single value: list")
	case d.spacing == geometric && !ratios(d):
		b.fault(d.part.Spacing, "needs values above zero of something that has a natural zero", "write spacing: even")
	}
}

// ratios reports whether the values of an axis can lie at equal ratios.
func ratios(d *draft) bool {
	return d.from.si > 0 && d.to.si > 0 && d.input.Kind != quantity.Temperature && d.input.Kind != quantity.SoundLevel
}

// counts reports groups whose axes have not equally many values, and more points
// than a study may have.
func (b *builder) counts(drafts []draft) bool {
	points := 1.0
	first := map[string]*draft{} // of each group
	for i := range drafts {
		d := &drafts[i]
		if lead := first[d.group]; d.group != "" && lead != nil {
			if lead.steps != d.steps {
				b.fault(d.part.Group, fmt.Sprintf("runs in step with %s, which has %d values; this axis has %d", lead.path, lead.steps, d.steps), "axes of a group have equally many values")
			}
			continue
		}
		first[d.group] = d
		points *= float64(d.steps)
	}
	if points > maxPoints {
		b.add(b.places["sweep.axes"], "sweep.axes", "", fmt.Sprintf("makes %.10g million points", points/1e6), fmt.Sprintf("a study has at most %d million: take fewer steps, or let axes run in step with a group", maxPoints/1_000_000))
	}
	return !b.touched["sweep.axes"]
}

// axis lays the values of an axis out.
func (b *builder) axis(d *draft) Axis {
	a := Axis{Input: d.input, Values: d.list, Group: d.group}
	if d.list != nil {
		return a
	}
	a.Values = spaced(d.from.si, d.to.si, d.steps, d.spacing)
	for _, v := range a.Values {
		if a.Input.Check(v) != nil {
			b.fault(d.part.Steps, "does not give whole numbers of "+a.Input.Key, "choose steps that do, or write a list")
			break
		}
	}
	return a
}

// What is said of a pump or its loop beside a coolant flow that is given.
const (
	flowGiven = "has no effect: the coolant flow is given"
	hintPump  = "remove it, or give pump_head and pump_free_flow instead of flow"
)

// unused reports a leaf that sets an input which plays no part in its setup.
func (f *findings) unused(l *leaf, in model.Input) {
	switch in.Key {
	case "pump_head", "pump_free_flow", "pump_exponent", "loop_drop", "loop_drop_flow":
		f.fault(l, flowGiven, hintPump)
	case "series_loss":
		f.fault(l, "has no effect: fans stand on one side only", "remove it, or write placing: push-pull")
	case "room_surface", "room_absorption", "room_directivity":
		f.fault(l, "has no effect: the sound is not in a room", "remove it, or write field: room")
	case "pitch", "thrust_coefficient", "power_coefficient":
		f.fault(l, "has no effect: the fan is no propeller", "remove it, or give the fan a pitch")
	case "free_air_flow", "shut_off_pressure", "rated_power":
		f.fault(l, "has no effect: a propeller's ratings follow from its blades", "remove it")
	case "curve_exponent":
		f.fault(l, "has no effect: the fan has a curve of its own", "remove it")
	case "motor_efficiency", "electronics_loss":
		f.fault(l, "has no effect: the motor's constants are known", "remove it")
	default:
		f.fault(l, "has no effect: the fan's motor is not known", "remove it, or give speed_constant")
	}
}

// effects reports axes that can have no effect, glycol in water among them, and fan
// speeds that the fan cannot turn.
func (b *builder) effects(drafts []draft, challenger Setup) {
	top := challenger.Rig.Fans.Fan.TopSpeed
	for _, d := range drafts {
		if d.input.Key == "top_speed" {
			top = max(top, d.from.si, d.to.si)
			for _, v := range d.list {
				top = max(top, v)
			}
		}
	}
	for _, d := range drafts {
		if d.input.Unused(&challenger.Rig) {
			if d.input.Key == "coolant_flow" {
				b.fault(d.part.Input, "follows from the pump", "sweep pump_head or pump_free_flow, or give flow instead of the pump")
			} else {
				b.unused(d.part.Input, d.input)
			}
		}
		if r := challenger.Rig.Fans.Fan.Readings; r != nil && (d.input.Key == "rated_sound" || d.input.Key == "sound_exponent") {
			b.fault(d.part.Input, "is what the challenger's sound_readings say", "remove the axis, or give the fan rated_sound in place of its readings")
		}
		needs := func(surface core.Surface) {
			if has := challenger.Rig.Core.Surface; has != surface {
				b.fault(d.part.Input, "has no effect: the challenger's fins are "+has.String(), "remove the axis, or write fins: "+surface.String())
			}
		}
		switch d.input.Key {
		case "louver_pitch", "louver_length", "louver_angle":
			needs(core.Louvered)
		case "strip_length":
			needs(core.OffsetStrip)
		case "glycol_share":
			if challenger.Rig.Coolant.Liquid.Fluid == coolant.Water && b.knowsFluid() {
				b.fault(d.part.Input, "cannot be swept: water holds no glycol", "remove the axis, or write "+glycols+" in the section coolant")
			}
		case "fan_speed":
			for _, l := range append([]*leaf{d.part.From, d.part.To}, d.part.List...) {
				if m, ok := b.measure(l, d.input.Kind); ok && m.si > top {
					b.fault(l, aboveTop("fan "+challenger.Fan, challenger.Rig.Fans.Fan.TopSpeed), lowerSpeed)
				}
			}
		}
	}
}
