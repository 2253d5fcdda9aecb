package sheet

import (
	"slices"
	"strings"
	"testing"
)

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		head, text string
		width      int
		want       string
	}{
		{"", "one two three", 7, "one two\nthree\n"},
		{"- ", "one two three", 7, "- one\n  two\n  three\n"},
		{"", "from 1 500 rpm up", 9, "from\n1 500 rpm\nup\n"},
		{"", "load 210 W, pump", 9, "load\n210 W,\npump\n"},
		{"", "with 2 × calm", 8, "with\n2 × calm\n"},
		{"", "in 36 designs", 6, "in 36\ndesigns\n"},
		{"", "anunbreakableword a", 5, "anunbreakableword\na\n"},
		{"µ ", "äöü", 5, "µ äöü\n"},
		{"head  ", "", 20, "head  \n"},
	} {
		if got := wrap(c.head, c.text, c.width); got != c.want {
			t.Errorf("wrap(%q, %q, %d) = %q, want %q", c.head, c.text, c.width, got, c.want)
		}
	}
}

func TestThin(t *testing.T) {
	for _, c := range []struct {
		n, most int
		want    []int
	}{
		{3, 5, []int{0, 1, 2}},
		{10, 4, []int{0, 3, 6, 9}},
		{10, 1, []int{0}},
		{0, 4, []int{}},
		{1, 1, []int{0}},
	} {
		if got := thin(c.n, c.most); !slices.Equal(got, c.want) {
			t.Errorf("thin(%d, %d) = %v, want %v", c.n, c.most, got, c.want)
		}
	}
}

func TestTable(t *testing.T) {
	tab := table{heads: []string{"name", "far speed, rpm", "x", "wide one"}, left: 1, rows: [][]string{
		{"a", "10", "", "1"}, {"bbbbb", "2", "", "22"},
	}}
	var b strings.Builder
	tab.dropEmpty(1)
	tab.write(&b, tab.fits(80, 0))
	want := "            far\n" +
		"         speed,  wide\n" +
		"  name      rpm   one\n" +
		"  a          10     1\n" +
		"  bbbbb       2    22\n"
	if b.String() != want {
		t.Errorf("table\n%s\nwant\n%s", b.String(), want)
	}
	if got := tab.fits(18, 0); got != 2 {
		t.Errorf("%d columns fit in 18, want 2", got)
	}
	if got := tab.fits(3, 1); got != 1 {
		t.Errorf("%d columns are kept, want 1", got)
	}
	whole := table{heads: []string{"far speed"}, whole: true, rows: [][]string{{"1"}}}
	b.Reset()
	whole.write(&b, 1)
	if want := "  far speed\n          1\n"; b.String() != want {
		t.Errorf("whole head %q, want %q", b.String(), want)
	}
}
