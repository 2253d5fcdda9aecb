package sheet

import (
	"testing"

	"finduel/model/core"
)

func TestRangeInWords(t *testing.T) {
	made := func(surface core.Surface, depth float64) core.Core {
		g := core.TypicalGeometry(core.Copper, surface)
		g.FaceLength, g.FaceWidth, g.FinDepth = 0.1, 0.1, depth
		c, err := core.New(g)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	inside, deep, plain := made(core.Louvered, 0.03), made(core.Louvered, 0.08), made(core.Plain, 0.03)
	for _, c := range []struct {
		of   *core.Core
		re   float64
		want string
	}{
		{&inside, 300, "Re 100 to 3 000: inside"},
		{&inside, 50, "Re 100 to 3 000: air flow below it"},
		{&inside, 3500, "Re 100 to 3 000: air flow above it"},
		{&deep, 300, "Re 100 to 3 000: outside by fin depth"},
		{&deep, 50, "Re 100 to 3 000: air flow below it, outside by fin depth"},
		{&plain, 300, "Re up to 2 300: inside"},
		{&plain, 2500, "Re up to 2 300: air flow above it"},
	} {
		if got := inRange(c.of, c.re); got != c.want {
			t.Errorf("Re %v: %q, want %q", c.re, got, c.want)
		}
	}
}
