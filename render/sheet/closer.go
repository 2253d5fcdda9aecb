package sheet

import (
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
)

// ties adds to a table of places what only break-evens have: the speeds between which
// the margin leaves them, and the slope.
func (t *terminal) ties(tab *table, places []render.Place, a *breakeven.Answer) {
	speed := quantity.Must("fan_speed")
	row := func(head string, of func(c *breakeven.Crossing) string) {
		cells := []string{head}
		any := false
		for _, p := range places {
			cell := ""
			if p.Crossing != nil && !p.Crossing.Jump {
				cell = of(p.Crossing)
			}
			any = any || cell != ""
			cells = append(cells, cell)
		}
		if any {
			tab.rows = append(tab.rows, cells)
		}
	}
	open := func(v float64, is bool) string {
		if is {
			t.open = true
			return render.Number(speed, v) + "*"
		}
		return render.Number(speed, v)
	}
	bounds := func(margin string, of func(c *breakeven.Crossing) breakeven.Interval) {
		row("within "+margin+" from", func(c *breakeven.Crossing) string { return open(of(c).Low, of(c).OpenLow) })
		row("to", func(c *breakeven.Crossing) string { return open(of(c).High, of(c).OpenHigh) })
	}
	bounds(render.Margin(a), func(c *breakeven.Crossing) breakeven.Interval { return c.Tie })
	if a.Margin != study.DefaultMargin {
		bounds(given("margin", study.DefaultMargin), func(c *breakeven.Crossing) breakeven.Interval { return c.DefaultTie })
	}
	slope := quantity.Must("slope")
	row("slope, "+slope.Shown.Symbol, func(c *breakeven.Crossing) string { return render.Number(slope, c.Slope) })
}

// openNote explains the mark of open ties, if there is one.
func (t *terminal) openNote() string {
	if !t.open {
		return ""
	}
	return " *: the searched speeds end there, the tie may go on."
}

// closer shows what is worked out of a few designs: of all of them if nothing else was
// computed, else of the design nearest to the study's challenger.
func (t *terminal) closer() {
	any := false
	for _, d := range t.rep.Worked() {
		a := d.Answer
		own := t.digest.Base != nil && d.Design == t.digest.Base.Design
		if t.digest.Ran && !own {
			continue
		}
		any = true
		t.b.WriteByte('\n')
		head := "Closer look at " + d.Chosen
		if held := t.rep.Design(d.Design); held != "" && !own {
			head += ": " + held
		}
		t.say("", head+".")
		if !own {
			t.say("  answer      ", render.Sentence(a.Reason))
			if text := render.Thrift(a); text != "" {
				t.say("  sensible    ", text)
			}
		}
		if text := t.rep.Blocked(a); text != "" {
			t.say("  why none    ", text)
		}
		t.changes(d.Changes)
		t.say("  parity      ", t.rep.ParityBetween(d.Detail))
		t.say("  same sound  ", t.rep.Match(&d.Sound))
		t.say("  same power  ", t.rep.Match(&d.Power))
	}
	if text := t.rep.CloserDrawn(); any && text != "" {
		t.say("  doubt       ", text)
	}
}

// changes lists what was changed, one at a time, and what came of it.
func (t *terminal) changes(list []breakeven.Change) {
	if len(list) == 0 {
		return
	}
	if !render.AnyWorks(list) {
		t.say("  changes     ", render.NoChange)
	}
	for i := range list {
		what, comes := t.rep.Change(&list[i])
		head := "  changes     "
		if i > 0 || !render.AnyWorks(list) {
			head = "              "
		}
		t.say(head, what+": "+comes)
	}
}
