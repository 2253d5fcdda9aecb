package study

import (
	"fmt"
	"math"
	"reflect"
	"strings"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/model/thermometer"
)

// signs are the ways to write what stands between a number and its tolerance.
var signs = []string{"±", "+/-", "+-"}

// cutTolerance parts a text at its sign of tolerance, and reports whether it has one:
// "22 fpi ± 1 fpi".
func cutTolerance(text string) (number, tolerance string, ok bool) {
	for _, sign := range signs {
		if before, after, found := strings.Cut(text, sign); found && strings.TrimSpace(before) != "" {
			return strings.TrimSpace(before), strings.TrimSpace(after), true
		}
	}
	return text, "", false
}

// written is a tolerance as it stands behind a number.
type written struct {
	input  model.Input
	leaf   *leaf                            // the number, without it
	text   string                           // "1 fpi", "5 %", "1 fpi normal"
	setups func(i int, part setupPart) bool // whose number it is; nil: both setups share it
}

// sharedUnit returns the unit of a tolerance, behind a space, if the number before it has
// none and both can have the same, as in "38±1 mm"; else nothing.
func sharedUnit(kind quantity.Kind, number, tolerance string) string {
	_, bare := splitNumber(number)
	digits, rest := splitNumber(tolerance)
	symbol, _, _ := strings.Cut(strings.TrimSpace(rest), " ")
	absolute := kind == quantity.Temperature && !strings.HasPrefix(symbol, "°") // a difference
	if bare != "" || digits == "" || absolute {
		return ""
	}
	if unit, ok := unitOf(kind, symbol); !ok || unit.Kind == quantity.Ratio || unit.Kind == quantity.Count {
		return ""
	}
	return " " + symbol
}

// splitTolerances takes the tolerances off the numbers of the study's sections, before
// these are read, and returns them in the order of the document.
func (b *builder) splitTolerances() []written {
	var list []written
	take := func(l *leaf, key string, setups func(int, setupPart) bool) {
		in, ok := model.InputOf(key)
		if l == nil || l.kind != words || !ok {
			return
		}
		number, text, found := cutTolerance(l.text)
		if !found {
			return
		}
		l.text = number + sharedUnit(in.Kind, number, text)
		list = append(list, written{in, l, text, setups})
	}
	section := func(part any, setups func(int, setupPart) bool) {
		v := reflect.ValueOf(part)
		for i := range v.NumField() {
			if l, ok := v.Field(i).Interface().(*leaf); ok {
				take(l, v.Type().Field(i).Tag.Get("input"), setups)
			}
		}
	}
	section(b.doc.Room, nil)
	section(b.doc.Heat, nil)
	section(b.doc.Coolant, nil)
	for _, part := range b.doc.Cores {
		has := func(_ int, s setupPart) bool { return same(s.Core, part.Name) }
		section(part, has)
		for i, l := range part.Face {
			take(l, [...]string{"face_length", "face_width"}[min(i, 1)], has)
		}
	}
	for _, part := range b.doc.Fans {
		section(part, func(_ int, s setupPart) bool { return same(s.Fan, part.Name) })
	}
	for i, part := range b.doc.Setups {
		has := func(k int, _ setupPart) bool { return k == i }
		section(part, has)
		for k := range reflect.TypeOf(part).NumField() {
			if inner := reflect.ValueOf(part).Field(k); inner.Kind() == reflect.Struct {
				section(inner.Interface(), has)
			}
		}
	}
	return list
}

// otherShape returns the last word of a tolerance if what stands before it is complete:
// "gaussian" of "2 % gaussian".
func otherShape(text string, kind quantity.Kind) (word string, is bool) {
	at := strings.LastIndexByte(text, ' ')
	if at < 0 {
		return "", false
	}
	digits, rest := splitNumber(strings.TrimSpace(text[:at]))
	symbol := strings.TrimSpace(rest)
	if kind == quantity.Temperature && symbol != "°C" {
		kind = quantity.TemperatureDifference
	}
	_, known := unitOf(kind, symbol)
	_, whole := unitOf(kind, strings.TrimSpace(rest+text[at:]))
	return text[at+1:], digits != "" && symbol != "" && !whole && (known || symbol == "%")
}

// same reports whether two leaves are there and say the same.
func same(a, b *leaf) bool { return a != nil && b != nil && a.text == b.text }

// doubt returns what the study says of its doubt: the tolerances behind its numbers,
// then those of the section doubt.
func (b *builder) doubt(s *Study, behind []written, names directory) Doubt {
	part := b.doc.Doubt
	d := Doubt{Draws: DefaultDraws}
	if part.Draws != nil {
		if m, ok := b.measure(part.Draws, quantity.Count); ok {
			if d.Draws = int(min(max(m.si, 0), MostDraws+1)); float64(d.Draws) != m.si || d.Draws < LeastDraws || d.Draws > MostDraws {
				b.fault(part.Draws, "is not a number of draws", fmt.Sprintf("write a whole number from %d to %d", LeastDraws, MostDraws))
			}
		}
	}
	if part.Designs != nil {
		d.Designs = choice(b.findings, part.Designs, AllDesigns, OwnDesign)
	}
	for _, w := range behind {
		text, shape := w.text, Rectangular
		for _, other := range []Shape{Rectangular, Normal, Triangular} {
			if before, ok := strings.CutSuffix(text, " "+other.String()); ok {
				text, shape = strings.TrimSpace(before), other
			}
		}
		l := &leaf{at: w.leaf.at, path: w.leaf.path, text: text, kind: words}
		if word, is := otherShape(text, w.input.Kind); is {
			b.fault(l, "ends in "+word+", which is no shape", "write rectangular, normal or triangular, or nothing for rectangular")
			continue
		}
		t, ok := b.halfWidth(l, w.input, s)
		if t.Shape = shape; !ok {
			continue
		}
		if w.setups == nil {
			t.Setup = BothSetups
			d.Tolerances = append(d.Tolerances, t)
			continue
		}
		for i, setup := range b.doc.Setups {
			if w.setups(i, setup) {
				t.Setup = i
				d.Tolerances = append(d.Tolerances, t)
			}
		}
	}
	for _, part := range part.Tolerances {
		if t, ok := b.tolerance(part, s, names); ok {
			d.Tolerances = append(d.Tolerances, t)
		}
	}
	return d
}

// tolerance returns a tolerance of the section doubt.
func (b *builder) tolerance(part tolerancePart, s *Study, names directory) (Tolerance, bool) {
	in, okInput := b.input(part.Input)
	shape := choice(b.findings, part.Shape, Rectangular, Normal, Triangular)
	kind := AsUsual
	if part.Error != nil {
		kind = choice(b.findings, part.Error, Common, Separate)
	}
	setup := BothSetups
	if part.Setup != nil {
		i, ok := b.find(names, part.Setup)
		switch {
		case !ok:
		case i != s.Challenger && i != s.Reference:
			b.fault(part.Setup, "is neither challenger nor reference", "name one of the two, or leave setup away for both")
		case kind == Common:
			b.fault(part.Error, "goes with a tolerance of both setups", "leave setup away, or write error: separate")
		case in.Shared:
			b.fault(part.Setup, "cannot have "+in.Key+" by itself: both setups share it", "leave setup away")
		}
		setup = i
	}
	if !okInput {
		return Tolerance{}, false
	}
	t, ok := b.halfWidth(part.Within, in, s)
	t.Setup, t.Shape, t.Error = setup, shape, kind
	return t, ok
}

// halfWidth reads how far an input may be off: a number in a unit of the input, or a
// percentage of the number, which of a number that is a percentage itself is so many
// points; of a temperature, which has no percentage, also the thermometer that it was
// read with.
func (b *builder) halfWidth(l *leaf, in model.Input, s *Study) (Tolerance, bool) {
	t := Tolerance{Input: in, Setup: BothSetups}
	if l == nil || l.bad {
		return t, false
	}
	if in.Whole {
		b.fault(l, "is a tolerance of "+in.Key+", which is counted", "remove it")
		return t, false
	}
	if digits, rest := splitNumber(strings.TrimSpace(l.text)); l.kind == words && digits != "" && strings.TrimSpace(rest) == "%" && in.Shown.Symbol != "%" {
		if in.Kind == quantity.Temperature {
			b.fault(l, "is a share of a temperature, whose zero is chosen", "write how far it may be off in kelvins, as ± 2 K")
			return t, false
		}
		m, ok := b.measure(l, quantity.Ratio)
		t.Within, t.Relative = m.si, true
		if ok && !(m.si >= 0 && m.si < 1) {
			b.fault(l, "is no share of the number", "write 0 % or more, and less than 100 %")
			return t, false
		}
		return t, ok
	}
	kind := in.Kind
	switch kind {
	case quantity.Temperature:
		kind = quantity.TemperatureDifference
		if before, ok := strings.CutSuffix(strings.TrimSpace(l.text), "°C"); ok && l.kind == words {
			l.text = before + "K" // a difference is the same in both
		}
		var known []string
		for _, read := range thermometer.All() {
			if l.kind == words && strings.EqualFold(strings.TrimSpace(l.text), read.String()) {
				return b.limitOf(read, l, in, s)
			}
			known = append(known, read.String())
		}
		if digits, _ := splitNumber(strings.TrimSpace(l.text)); l.kind == words && digits == "" {
			b.fault(l, "is neither a number nor a thermometer", "write ± 0.5 K, or one of: "+strings.Join(known, ", "))
			return t, false
		}
	case quantity.SoundLevel:
		kind = quantity.LevelDifference
	}
	m, ok := b.measure(l, kind)
	if t.Within = math.Abs(m.si); ok && m.si < 0 {
		b.fault(l, "is below zero", "a tolerance reaches as far to either side: write it without the sign")
		return t, false
	}
	return t, ok
}

// limitOf returns the limit of error of the thermometer that a temperature was read with.
func (b *builder) limitOf(read thermometer.Thermometer, l *leaf, in model.Input, s *Study) (Tolerance, bool) {
	t := Tolerance{Input: in, Setup: BothSetups}
	if len(s.Setups) == 0 || in.Check(in.Get(&s.Setups[0].Rig)) != nil {
		return t, false // the temperature itself is at fault
	}
	limit, ok := read.Limit(in.Get(&s.Setups[0].Rig))
	if !ok {
		low, high := read.Range()
		b.fault(l, "has no stated limit of error at this temperature", "it is stated from "+show(low, in.Shown)+" to "+show(high, in.Shown)+": write the limit itself, as ± 0.5 K")
	}
	t.Within = limit
	return t, ok
}
