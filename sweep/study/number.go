package study

import (
	"errors"
	"math"
	"math/big"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"finduel/model"
	"finduel/model/quantity"
)

// measure is a number of the file: its value in the SI unit of its kind, and the
// unit it was written in.
type measure struct {
	si   float64
	unit quantity.Unit
}

// number returns the value of a leaf for an input. It reports what is no number
// in a unit of the input's kind, and what is outside the input's range.
func (f *findings) number(l *leaf, in model.Input) (measure, bool) {
	m, ok := f.measure(l, in.Kind)
	if !ok {
		return m, false
	}
	return m, f.within(l, in, m)
}

// within reports whether a value is allowed for an input, and reports a leaf of
// which it is not.
func (f *findings) within(l *leaf, in model.Input, m measure) bool {
	var out *quantity.RangeError
	if !errors.As(in.Check(m.si), &out) {
		return true
	}
	hint := "write a value from " + show(in.Low, m.unit) + " to " + show(in.High, m.unit)
	if in.Whole {
		hint = "write a whole number from " + show(in.Low, m.unit) + " to " + show(in.High, m.unit)
	}
	if in.Kind == quantity.Ratio && m.unit.Symbol == "" && math.Abs(m.si) > 1 && in.Check(m.si/100) == nil {
		hint += "; did you mean " + strings.TrimSpace(l.text) + " %?"
	}
	f.fault(l, out.Rule, hint)
	return false
}

// measure returns the value of a leaf of a kind. It reports what is no finite
// number in a unit of the kind.
func (f *findings) measure(l *leaf, kind quantity.Kind) (measure, bool) {
	if l == nil || l.bad {
		return measure{}, false
	}
	no := func(rule, hint string) (measure, bool) {
		f.fault(l, rule, hint)
		return measure{}, false
	}
	if l.kind != words && l.kind != bare {
		return no("is "+l.kind.String()+", not "+kind.String(), unitHint(kind))
	}
	text := strings.TrimSpace(l.text)
	if rest, ok := strings.CutPrefix(text, "\u2212"); ok {
		text = "-" + rest // the sign of texts that are set with care
	}
	if _, _, tolerant := cutTolerance(text); tolerant {
		return no("has a tolerance, which is not taken here", "give it where the study gives the number, or under doubt: tolerances")
	}
	digits, rest := splitNumber(text)
	if word := strings.ToLower(strings.Trim(text, "+-.")); strings.HasPrefix(word, "nan") || strings.HasPrefix(word, "inf") {
		return no("is not a finite number", unitHint(kind))
	}
	if digits == "" {
		return no("is not "+kind.String(), unitHint(kind)+begin(text, kind))
	}
	if rule, hint := badNumber(digits, rest); rule != "" {
		return no(rule, hint)
	}
	if whole, thousandths, ok := strings.Cut(digits, "."); ok && kind == quantity.Speed && len(whole) <= 3 && len(thousandths) == 3 && strings.HasSuffix(thousandths, "0") {
		return no("has a point, which is a decimal point", "write nothing between thousands: "+whole+thousandths+rest+"; or, if it is meant, "+plain(digits)+rest)
	}
	symbol := strings.Join(strings.Fields(rest), " ")
	unit, ok := unitOf(kind, symbol)
	if !ok && slices.ContainsFunc(strings.Fields(rest), isSide) {
		return no("has a tolerance for each side", "a tolerance reaches as far to either side: write ± and the greater of the two")
	}
	if !ok {
		return no(wrongUnit(kind, digits, symbol))
	}
	si, ok := inSI(digits, unit)
	if !ok {
		return no("is not a number that can be computed with", "write fewer digits, or a smaller exponent")
	}
	return measure{si, unit}, true
}

// longestNumber is how many characters of a number are read: more than enough for
// every double.
const longestNumber = 40

// inSI returns the value of a decimal number in a unit, in the SI unit, and false
// if it is too long or too large. It is what Unit.SI computes, rounded once and not
// at every step, so that 8.8 cm and 88 mm are the same number, and studies that
// say so have the same hash.
func inSI(digits string, u quantity.Unit) (float64, bool) {
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil || len(digits) > longestNumber {
		return 0, false
	}
	if v == 0 {
		return u.SI(0), true
	}
	exact, ok := new(big.Rat).SetString(digits)
	if !ok {
		return 0, false
	}
	exact.Add(exact, decimal(u.Offset)).Mul(exact, decimal(u.Times)).Quo(exact, decimal(u.Over))
	si, _ := exact.Float64()
	return si, !math.IsInf(si, 0)
}

// decimal returns a constant as the decimal number that it was written as.
func decimal(v float64) *big.Rat {
	r, _ := new(big.Rat).SetString(strconv.FormatFloat(v, 'g', -1, 64))
	return r
}

// splitNumber parts a text behind the decimal number it starts with: sign,
// digits, point, digits, and an exponent if one follows at once.
func splitNumber(s string) (number, rest string) {
	whole := signLength(s)
	end := whole + digitLength(s[whole:])
	digits := end - whole
	if end < len(s) && s[end] == '.' {
		part := digitLength(s[end+1:])
		digits, end = digits+part, end+1+part
	}
	if digits == 0 {
		return "", s
	}
	if end < len(s) && (s[end] == 'e' || s[end] == 'E') {
		power := end + 1 + signLength(s[end+1:])
		if n := digitLength(s[power:]); n > 0 {
			end = power + n
		}
	}
	return s[:end], s[end:]
}

func signLength(s string) int {
	if s != "" && (s[0] == '+' || s[0] == '-') {
		return 1
	}
	return 0
}

func digitLength(s string) int { return len(s) - len(strings.TrimLeft(s, "0123456789")) }

// begin says how a text is written that has something before its number, such as "about
// 34 mm"; nothing of any other.
func begin(text string, kind quantity.Kind) string {
	i := strings.IndexAny(text, "0123456789")
	if i < 0 {
		return ""
	}
	digits, rest := splitNumber(text[i:])
	symbol := strings.Join(strings.Fields(rest), " ")
	if _, ok := unitOf(kind, symbol); !ok || symbol == "" {
		return ""
	}
	return ", as in " + digits + " " + symbol + "; how far it may be out stands behind it, with ±"
}

// fraction returns the decimal number that a text stands for which starts with a fraction,
// "3/8 in" or "1 3/8 in", with what follows; and false if it does not.
func fraction(digits, rest string) (string, bool) {
	whole, over := "0", rest
	if part, tail := splitNumber(strings.TrimSpace(rest)); part != "" && part != strings.TrimSpace(rest) {
		whole, digits, over = digits, part, tail
	}
	under, tail := splitNumber(strings.TrimPrefix(over, "/"))
	if !strings.HasPrefix(over, "/") {
		return "", false
	}
	a, err := strconv.ParseFloat(whole, 64)
	b, err2 := strconv.ParseFloat(digits, 64)
	c, err3 := strconv.ParseFloat(under, 64)
	if errors.Join(err, err2, err3) != nil || !(c > 0) {
		return "", false
	}
	return strconv.FormatFloat(a+b/c, 'g', 6, 64) + tail, true
}

// badNumber says what is wrong with how a number is written, and what is right.
func badNumber(digits, rest string) (rule, hint string) {
	whole := strings.TrimLeft(digits, "+-")
	if len(whole) > 1 && whole[0] == '0' && '0' <= whole[1] && whole[1] <= '9' {
		return "starts with a zero", "write the number without it"
	}
	if rest == "" {
		return "", ""
	}
	if decimal, ok := fraction(digits, rest); ok {
		return "is a fraction", "write a decimal number: " + decimal
	}
	for _, sign := range []string{"-", "–", "to "} {
		if to, found := strings.CutPrefix(strings.TrimSpace(rest), sign); found {
			if high, tail := splitNumber(strings.TrimSpace(to)); high != "" {
				return "is a range", "write one value: several to compare are an axis of sweep, and how far one may be out stands behind it, with ±, as in " + digits + tail + " ± 5 %"
			}
		}
	}
	mark, size := utf8.DecodeRuneInString(rest)
	after, tail := splitNumber(rest[size:])
	if after == "" || !unicode.IsDigit(rune(after[0])) {
		if mark == '_' || mark == '\'' || mark == ',' {
			return "is not a number with its unit", "write digits, a decimal point if need be, a space and the unit"
		}
		return "", ""
	}
	switch {
	case mark == ',' && len(after) == 3 && !strings.Contains(digits, "."):
		return "has a comma", "write a decimal point, and nothing between thousands: " + plain(digits+"."+after) + tail + " or " + digits + after + tail
	case mark == ',':
		return "has a decimal comma", "write a decimal point: " + digits + "." + after + tail
	case mark == '_' || mark == '\'' || unicode.IsSpace(mark):
		return "has a gap in the number", "write nothing between thousands: " + digits + after + tail
	}
	return "", ""
}

// plain returns a number with a decimal point without the zeros at its end.
func plain(digits string) string { return strings.TrimRight(strings.TrimRight(digits, "0"), ".") }

// wrongUnit says why a symbol is no unit of a kind, and what is.
func wrongUnit(kind quantity.Kind, digits, symbol string) (rule, hint string) {
	hint = unitHint(kind)
	if symbol == "" {
		if v, err := strconv.ParseFloat(digits, 64); err == nil && math.Abs(v) >= 1 { // below 1 another unit is as likely
			hint += ", as in " + digits + " " + quantity.Units(kind)[0].Symbol
		}
		return "has no unit", hint
	}
	if kind == quantity.Voltage && strings.EqualFold(symbol, "s") {
		hint += cells(digits)
	}
	if others := kindsOf(symbol); len(others) > 0 {
		return "is " + others[0].String() + ", not " + kind.String(), hint
	}
	if near, ok := nearestUnit(kind, symbol); ok {
		hint += "; did you mean " + digits + " " + near + "?"
	}
	return "is not " + kind.String(), hint
}

// cells says the voltage of so many lithium cells in series: 3.7 V each nominally, 4.2 V
// charged (common practice, no source).
func cells(digits string) string {
	const most = 24 // more is no pack that drives a fan
	n, err := strconv.Atoi(digits)
	if err != nil || n < 1 || n > most {
		return "; of cells in series the sum: four of 3.7 V are 14.8 V"
	}
	volts := func(each float64) string { return strconv.FormatFloat(float64(n)*each, 'f', 1, 64) + " V" }
	return "; " + digits + " lithium cells in series are " + volts(3.7) + " nominally and " + volts(4.2) + " charged"
}

// unitHint says how a number of a kind is written.
func unitHint(kind quantity.Kind) string {
	switch kind {
	case quantity.Count:
		return "write a whole number"
	case quantity.Ratio:
		return "write a number, or a number and %"
	}
	return "write a number and one of: " + strings.Join(symbols(kind), ", ")
}

func symbols(kind quantity.Kind) []string {
	var list []string
	for _, u := range quantity.Units(kind) {
		if u.Symbol != "" {
			list = append(list, u.Symbol)
		}
	}
	return list
}

// show returns a value in SI units as a text in a unit.
func show(si float64, u quantity.Unit) string {
	return strings.TrimSpace(strconv.FormatFloat(u.Shown(si), 'g', 6, 64) + " " + u.Symbol)
}

// set sets what a section of the document gives of a rig. It reports values that
// their inputs do not allow, and leaves the rig as it is there.
func (f *findings) set(section any, rig *model.Rig) {
	v := reflect.ValueOf(section)
	for i := range v.NumField() {
		in, ok := model.InputOf(v.Type().Field(i).Tag.Get("input"))
		if !ok {
			continue
		}
		if l := v.Field(i).Interface().(*leaf); l != nil {
			if m, ok := f.number(l, in); ok {
				in.Set(rig, m.si)
			}
		}
	}
}

// leafOf returns the value that sets an input in a section, or nil.
func leafOf(section any, key string) *leaf {
	v := reflect.ValueOf(section)
	for i := range v.NumField() {
		if v.Type().Field(i).Tag.Get("input") == key {
			return v.Field(i).Interface().(*leaf)
		}
	}
	return nil
}

// isSide reports whether a word is one side of a tolerance: "+1", "-0".
func isSide(word string) bool {
	return len(word) > 1 && (word[0] == '+' || word[0] == '-') && '0' <= word[1] && word[1] <= '9'
}
