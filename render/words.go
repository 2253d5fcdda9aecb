package render

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"finduel/model"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/quantity"
	"finduel/model/sound"
)

// Number returns a computed number for people, without its unit: si, in the SI
// unit of q, in the unit in which q is shown, rounded to what is worth reading
// (speeds to 1 rpm, temperatures and sound to one decimal, differences to two, the
// rest to three significant digits), thousands set apart by a space. A duration is
// returned in words with its units. Numbers that are not finite have no words: the
// text is empty.
func Number(q quantity.Quantity, si float64) string {
	v := q.Shown.Shown(si)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	switch q.Kind {
	case quantity.Duration:
		return duration(si)
	case quantity.Speed, quantity.Count:
		return group(fixed(v, 0))
	case quantity.Temperature, quantity.SoundLevel, quantity.LevelDifference:
		return group(fixed(v, 1))
	case quantity.TemperatureDifference:
		if math.Abs(v) >= 0.005 || v == 0 {
			return group(fixed(v, 2))
		}
	}
	return significant(v, 3)
}

// Given returns a number that was given in a study for people, without its unit: to
// four significant digits and no more of them than it needs, but no digit before
// the decimal point is rounded.
func Given(q quantity.Quantity, si float64) string {
	v := q.Shown.Shown(si)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	const digits = 4
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	if math.Abs(v) >= 1000 {
		rounded = math.Round(v)
	}
	if a := math.Abs(rounded); a >= 1e9 || a > 0 && a < 1e-4 {
		return strconv.FormatFloat(rounded, 'g', -1, 64)
	}
	return group(strconv.FormatFloat(rounded, 'f', -1, 64))
}

// day is the longest exposure that means anything, s: a day has no more hours.
const day = 24 * 3600

// Recorded returns a number for files and numeric cells: si, in the SI unit of q,
// in the unit in which q is shown. It reports false where there is none to record:
// for a number that is not finite, and for a duration over 24 h, since durations
// are permitted exposures a day and the formula behind them is not meant for more.
func Recorded(q quantity.Quantity, si float64) (v float64, ok bool) {
	v = q.Shown.Shown(si)
	if math.IsNaN(v) || math.IsInf(v, 0) || q.Kind == quantity.Duration && si > day {
		return 0, false
	}
	return v, true
}

// Computed returns a computed number of the quantity with a key, in SI, with its
// unit.
func Computed(key string, si float64) string {
	q := quantity.Must(key)
	return WithUnit(q, Number(q, si))
}

// Whole returns a whole number.
func Whole(n int) string { return group(strconv.Itoa(n)) }

// Counted returns a number of things, named by a noun in the singular.
func Counted(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return Whole(n) + " " + noun
}

// WithUnit puts the shown unit of q behind a number's text. A duration carries its
// units already.
func WithUnit(q quantity.Quantity, number string) string {
	if q.Shown.Symbol == "" || number == "" || q.Kind == quantity.Duration {
		return number
	}
	return number + " " + q.Shown.Symbol
}

// fixed rounds to decimals and never says "-0".
func fixed(v float64, decimals int) string {
	if a := math.Abs(v); a >= 1e9 {
		return strconv.FormatFloat(v, 'g', 4, 64)
	}
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}

// significant rounds to so many significant digits, but never a digit before
// the decimal point.
func significant(v float64, digits int) string {
	a := math.Abs(v)
	if a > 0 && a < 1e-4 {
		return strconv.FormatFloat(v, 'g', digits, 64)
	}
	decimals := digits - 1
	if a >= 1e-4 {
		decimals = max(0, digits-1-int(math.Floor(math.Log10(a))))
	}
	return group(fixed(v, decimals))
}

// group sets thousands apart.
func group(s string) string {
	if strings.ContainsRune(s, 'e') {
		return s
	}
	whole, rest, point := strings.Cut(s, ".")
	sign := ""
	if strings.HasPrefix(whole, "-") {
		sign, whole = "-", whole[1:]
	}
	out := ""
	for len(whole) > 3 {
		out = " " + whole[len(whole)-3:] + out
		whole = whole[:len(whole)-3]
	}
	out = sign + whole + out
	if point {
		out += "." + rest
	}
	return out
}

// duration says a duration, in s, in hours, minutes or seconds. A day has 24
// hours, and a permitted exposure beyond it means no more than that.
func duration(seconds float64) string {
	switch {
	case seconds > day:
		return "over 24 h"
	case seconds < 1:
		return "under 1 s"
	case seconds < 59.5:
		return strconv.FormatFloat(seconds, 'f', 0, 64) + " s"
	case seconds < 3570:
		return strconv.FormatFloat(seconds/60, 'f', 0, 64) + " min"
	}
	minutes := int(math.Round(seconds / 60))
	if minutes%60 == 0 {
		return strconv.Itoa(minutes/60) + " h"
	}
	return strconv.Itoa(minutes/60) + " h " + strconv.Itoa(minutes%60) + " min"
}

// Clean returns a text of the study's author for showing: line breaks and tabs
// become spaces, and what would steer a terminal or turn the direction of writing
// (control and format characters, broken UTF-8) becomes U+FFFD.
func Clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r' || r == '\u2028' || r == '\u2029':
			return ' '
		case unicode.In(r, unicode.Cc, unicode.Cf, unicode.Co, unicode.Cs) || r == 0xFFFE || r == 0xFFFF:
			return unicode.ReplacementChar
		}
		return r
	}, strings.ToValidUTF8(s, string(unicode.ReplacementChar)))
}

// Pieces splits a text at the spaces where a line may end: a number stays with its
// next group of digits and with its unit, and a count with its "×".
func Pieces(text string) []string {
	var list []string
	for _, word := range strings.Fields(text) {
		if last := len(list) - 1; last >= 0 && together(list[last], word) {
			list[last] += " " + word
			continue
		}
		list = append(list, word)
	}
	return list
}

// together reports whether a word must stay on the line of the one before it.
func together(before, word string) bool {
	if end := before[len(before)-1]; end < '0' || end > '9' {
		return strings.HasSuffix(before, "×")
	}
	return word[0] >= '0' && word[0] <= '9' || word == "×" ||
		len(quantity.KindsOf(strings.TrimRight(word, ".,;:)"))) > 0
}

// Sentence returns a clause, such as a reason, ready to stand at the end of a
// sentence: cleaned and with a full stop. It gets no capital, since it may begin
// with a name. The lines of a joined error are put side by side. Empty stays
// empty.
func Sentence(clause string) string {
	s := strings.TrimSpace(Clean(strings.ReplaceAll(clause, "\n", "; ")))
	if s == "" || strings.HasSuffix(s, ".") {
		return s
	}
	return s + "."
}

// Fins says what fins a core has and, where that is not as usual, how its streams
// meet: "louvered"; "plain, cross-counterflow, both mixed, 2 cores behind one another
// in parallel".
func Fins(g *core.Geometry) string {
	text := g.Surface.String()
	if g.Routing != core.SideBySide {
		text += ", " + g.Routing.String()
	}
	if g.Arrangement != core.BothUnmixed {
		text += ", " + g.Arrangement.String()
	}
	if g.Further > 0 {
		text += ", " + strconv.Itoa(1+g.Further) + " cores behind one another in " + g.Feed.String()
	}
	return text
}

// Fans says how many fans of a name stand where: "2 × calm, push"; "1 × fierce on either
// side, push-pull"; "3 × calm, 1 of them standing still, pull";
// "3 × calm on either side, 1 of them before the core standing still, push-pull".
func Fans(rig *model.Rig, name string) string {
	text := strconv.Itoa(rig.Fans.Count) + " × " + Clean(name)
	if rig.Placing == fan.PushPull {
		text += " on either side"
	}
	if n := rig.Fans.Stopped; n > 0 {
		text += ", " + strconv.Itoa(n) + " of them" + inFront(rig) + " standing still"
	}
	return text + ", " + rig.Placing.String()
}

// inFront says on which side of the core fans stand still, if that is a question.
func inFront(rig *model.Rig) string {
	if rig.Placing == fan.PushPull {
		return " before the core"
	}
	return ""
}

// Surroundings says where sound is heard, unless listener and operator share one place
// in a free field: "listener at 2 m, operator at 0.6 m, in a room"; the listener alone
// otherwise.
func Surroundings(room *model.Room) string {
	length := quantity.Must("listener_distance")
	text := "listener at " + WithUnit(length, Given(length, room.ListenerDistance))
	if o := room.OperatorDistance; o > 0 && o != room.ListenerDistance {
		text += ", operator at " + WithUnit(length, Given(length, o))
	}
	for _, field := range Field(room) {
		text += ", " + field
	}
	return text
}

// Field says what stands around the fans; nothing for a free field.
func Field(room *model.Room) []string {
	switch room.Surroundings.Field {
	case sound.HalfSpace:
		return []string{"over a reflecting plane"}
	case sound.Room:
		return []string{"in a room"}
	}
	return nil
}

// Losses says what a setup loses as it is installed, behind a comma; nothing if it
// loses nothing: ", with grille loss 1, leakage 5 %". What is named in except, by key,
// is left out.
func Losses(rig *model.Rig, except ...string) string {
	var parts []string
	for _, key := range []string{"grille_loss", "leakage", "hub_shadow", "dust", "series_loss"} {
		in, ok := model.InputOf(key)
		if v := in.Get(rig); ok && v > 0 && !slices.Contains(except, key) && !in.Unused(rig) {
			parts = append(parts, strings.ReplaceAll(key, "_", " ")+" "+WithUnit(in.Quantity, Given(in.Quantity, v)))
		}
	}
	if rig.Installed.Shroud != model.Ducted {
		parts = append(parts, rig.Installed.Shroud.String()+" shroud")
	}
	if len(parts) == 0 {
		return ""
	}
	return ", with " + strings.Join(parts, ", ")
}
