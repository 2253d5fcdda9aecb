package chart

import (
	"reflect"
	"strings"
	"testing"

	"finduel/model/quantity"
)

func TestPrintable(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"slab 2 – µ Ω é ß", "slab 2 – µ Ω é ß"},
		{"冷却", "□□"},
		{"W m⁻¹", "W m□¹"},
		{"a\nb\x07", "a b□"},
		{"\xff", "□"},
	} {
		if got := printable(c.in); got != c.want {
			t.Errorf("printable(%q) = %q, want %q", c.in, got, c.want)
		}
	}
}

// Every text of the table of quantities must have its glyphs.
func TestTheFontHasOurWords(t *testing.T) {
	for _, q := range quantity.Table {
		for _, s := range []string{q.Title(), q.Shown.Symbol} {
			if got := printable(s); got != s {
				t.Errorf("%s: the font lacks glyphs of %q", q.Key, s)
			}
		}
	}
	for _, s := range []string{ellipsis, string(noGlyph), "×", "²"} {
		if got := printable(s); got != s {
			t.Errorf("the font lacks %q", s)
		}
	}
}

func TestFit(t *testing.T) {
	style := letters(textSize, false, ink)
	for _, c := range []struct{ in, room, want string }{
		{"short", "short", "short"},
		{"a long name", "a long na", "a long…"},
		{strings.Repeat("i", 5000), "iiii…", "iiii…"},
		{"wide", "", "…"},
	} {
		if got := fit(style, c.in, style.Width(c.room)+0.1); got != c.want {
			t.Errorf("fit(%.20q) = %q, want %q", c.in, got, c.want)
		}
	}
}

func TestWrap(t *testing.T) {
	style := letters(textSize, false, ink)
	for _, c := range []struct {
		in, room string
		most     int
		want     []string
	}{
		{"", "x", 3, nil},
		{"one two three", "one two thr", 3, []string{"one two", "three"}},
		{"at 12 500 rpm it", "at 12 500", 3, []string{"at", "12 500 rpm", "it"}},
		{"2 × calm", "2 × cal", 2, []string{"2 ×…"}},
		{"one two three four", "three m", 2, []string{"one", "two…"}},
		{"one two mmmmmmm four", "one twom", 2, []string{"one two", "mmmm…"}},
		{"unbreakable", "unbrea", 2, []string{"unbr…"}},
	} {
		room := style.Width(c.room) + 0.1
		if c.in == "at 12 500 rpm it" {
			room = style.Width("12 500 rpm") + 0.1
		}
		got := wrap(style, c.in, room, c.most)
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("wrap(%q) = %q, want %q", c.in, got, c.want)
		}
		for _, line := range got {
			if style.Width(line) > room {
				t.Errorf("wrap(%q): %q is too wide", c.in, line)
			}
		}
	}
}

func TestNamed(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{" cube ", "cube"},
		{strings.Repeat("x", longestName), strings.Repeat("x", longestName)},
		{strings.Repeat("x", longestName+1), strings.Repeat("x", longestName-1) + "…"},
	} {
		if got := named(c.in); got != c.want {
			t.Errorf("named(%q) = %q, want %q", c.in, got, c.want)
		}
	}
}
