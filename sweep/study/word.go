package study

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// word returns the text of a leaf. It reports a leaf that is not a text.
func (f *findings) word(l *leaf) (string, bool) {
	if l == nil || l.bad {
		return "", false
	}
	if l.kind != words {
		f.fault(l, "is "+l.kind.String()+", not a text", "write it in quotes")
		return "", false
	}
	return l.text, true
}

// longestName is how many characters a name may have, so that it fits into the
// title of a chart and the name of a folder.
const longestName = 80

// name returns the text of a leaf that names something.
func (f *findings) name(l *leaf) (string, bool) {
	s, ok := f.word(l)
	if !ok {
		return "", false
	}
	odd, isOdd := first(s, func(r rune) bool { return !unicode.IsPrint(r) })
	switch {
	case odd == '\n':
		f.fault(l, "has a line break", "write the name on one line; is the next line indented too far?")
	case isOdd:
		f.fault(l, fmt.Sprintf("has the character %U, which cannot be printed", odd), "remove it")
	case strings.TrimSpace(s) != s:
		f.fault(l, "starts or ends with a space", "write "+quote(strings.TrimSpace(s)))
	case len([]rune(s)) > longestName:
		f.fault(l, "is too long for a name", "a name has at most 80 characters")
	}
	return s, !l.bad
}

// first returns the first character of a text that is of a kind, and false if there
// is none.
func first(s string, is func(rune) bool) (rune, bool) {
	if i := strings.IndexFunc(s, is); i >= 0 {
		r, _ := utf8.DecodeRuneInString(s[i:])
		return r, true
	}
	return 0, false
}

// folderName returns the text of a leaf that names a folder, on any system.
func (f *findings) folderName(l *leaf) (string, bool) {
	s, ok := f.name(l)
	if !ok {
		return "", false
	}
	stem, _, _ := strings.Cut(s, ".")
	odd, isOdd := first(s, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune(" -_.", r)
	})
	switch {
	case isOdd:
		f.fault(l, "cannot name a folder: "+string(odd)+" is not a letter, digit, space, -, _ or .", "remove it, or write another character")
	case strings.HasPrefix(s, ".") || strings.HasPrefix(s, "-") || strings.HasSuffix(s, "."):
		f.fault(l, "cannot name a folder", "start with a letter or a digit, and do not end with a point")
	case reserved(strings.TrimSpace(stem)):
		f.fault(l, "cannot name a folder: some systems keep the name for a device", "choose another name")
	}
	return s, !l.bad
}

// reserved reports whether Windows keeps a name for a device, whatever its case
// and extension.
func reserved(stem string) bool {
	stem = strings.ToUpper(stem)
	switch stem {
	case "CON", "PRN", "AUX", "NUL":
		return true
	}
	number, ok := strings.CutPrefix(stem, "COM")
	if !ok {
		number, ok = strings.CutPrefix(stem, "LPT")
	}
	return ok && len([]rune(number)) == 1 && strings.Contains("0123456789¹²³", number)
}

// choice returns what the word of a leaf stands for: one of some values, each
// written as its String. Without a leaf it is the first.
func choice[T interface{ String() string }](f *findings, l *leaf, values ...T) T {
	if l == nil || l.bad {
		return values[0]
	}
	var names []string
	for _, v := range values {
		if l.kind == words && v.String() == l.text {
			return v
		}
		names = append(names, v.String())
	}
	f.fault(l, "is not a choice", choiceHint(l.text, "write one of", names))
	return values[0]
}

// longestList is how many names a hint lists; there are fewer inputs than that.
const longestList = 120

// choiceHint lists what could be written instead of s.
func choiceHint(s, lead string, names []string) string {
	times := map[string]int{}
	for _, name := range names {
		times[name]++
	}
	var listed []string // each name once
	for _, name := range names {
		switch n := times[name]; {
		case n == 1:
			listed = append(listed, name)
		case n > 1:
			listed = append(listed, fmt.Sprintf("%s (given %d times)", name, n))
		}
		times[name] = 0
	}
	hint := lead + ": " + strings.Join(listed[:min(len(listed), longestList)], ", ")
	if len(listed) > longestList {
		hint += ", …"
	}
	if near, ok := meant(s, names); ok {
		return "did you mean " + near + "? " + hint
	}
	return hint
}

// meant returns the name that s was probably meant to be: spelled like it, of the same
// words, or begun like it.
func meant(s string, names []string) (string, bool) {
	near, ok := nearest(s, names)
	if !ok {
		near, ok = kin(s, names)
	}
	if !ok {
		near, ok = begun(s, names)
	}
	return near, ok
}

// nearest returns the name that s was probably meant to be: the first with the
// fewest letters to change, if these are few.
func nearest(s string, names []string) (string, bool) {
	best, changes := "", 0
	s = strings.ToLower(s)
	for _, name := range names {
		few := max(1, utf8.RuneCountInString(name)/3)
		if longer := utf8.RuneCountInString(s) - utf8.RuneCountInString(name); max(longer, -longer) > few {
			continue
		}
		if n := distance(s, strings.ToLower(name)); n <= few && (best == "" || n < changes) {
			best, changes = name, n
		}
	}
	return best, best != ""
}

// kin returns the one name that shares a whole word with s, whatever its case, and false
// if none or several do: "printed PLA" for "PLA", "water" for "distilled water".
func kin(s string, names []string) (string, bool) {
	found := ""
	for _, name := range names {
		for _, word := range strings.Fields(name) {
			if !slices.ContainsFunc(strings.Fields(s), func(other string) bool { return strings.EqualFold(other, word) }) {
				continue
			}
			if found != "" && found != name {
				return "", false
			}
			found = name
		}
	}
	return found, found != ""
}

// begun returns the one name that begins with s, whatever its case, and false if none or
// several do, or s has fewer than three letters: "alu" for "aluminium".
func begun(s string, names []string) (string, bool) {
	found := ""
	for _, name := range names {
		if len(s) < 3 || !strings.HasPrefix(strings.ToLower(name), strings.ToLower(s)) {
			continue
		}
		if found != "" && found != name {
			return "", false
		}
		found = name
	}
	return found, found != ""
}

// distance returns how many letters must be added, removed, replaced or swapped
// with their neighbour to turn a into b (optimal string alignment; Damerau 1964,
// Communications of the ACM 7(3) 171-176, and Levenshtein 1966, Soviet Physics
// Doklady 10(8) 707-710).
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	before, last := make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range last {
		last[j] = j
	}
	for i := range s {
		row := make([]int, len(t)+1)
		row[0] = i + 1
		for j := range t {
			change := 1
			if s[i] == t[j] {
				change = 0
			}
			row[j+1] = min(last[j+1]+1, row[j]+1, last[j]+change)
			if i > 0 && j > 0 && s[i] == t[j-1] && s[i-1] == t[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last = last, row
	}
	return last[len(t)]
}
