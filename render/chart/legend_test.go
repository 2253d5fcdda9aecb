package chart

import (
	"math"
	"slices"
	"testing"

	"finduel/render"
	"finduel/sweep/doubt"
	"finduel/testdata/reports"
)

// What an interval does not have in it is written under its key, and nothing where all
// draws have a value.
func TestLegendSaysWhatABandLacks(t *testing.T) {
	for _, c := range []struct {
		name string
		rep  *render.Report
		want string
	}{
		{"unsure", reports.Unsure(), "up to 986 of 1 000 draws have no value: no interval has them in it"},
		{"sure", reports.Sure(), ""},
	} {
		record, wide := canvas(900, 300)
		l := legend{c: wide, size: textSize, baseline: wide.Max.Y}
		f := familyOf(c.rep)
		l.bandKey(c.rep, &f, -100)
		written := texts(record)
		if _, ok := written["base design; what both share cancels"]; !ok {
			t.Errorf("%s: no key of the band in %v", c.name, written)
		}
		if _, ok := written[c.want]; c.want != "" && !ok || c.want == "" && len(written) != 2 {
			t.Errorf("%s: %v, want %q", c.name, written, c.want)
		}
	}
	record, wide := canvas(900, 300)
	l := legend{c: wide, size: textSize, baseline: wide.Max.Y}
	l.absent(render.PlaceDoubt{Draws: 20000, Absent: 900}, render.PlaceDoubt{}, render.PlaceDoubt{Draws: 1000, Absent: 50}, render.PlaceDoubt{Draws: 1000, Absent: 49})
	if _, ok := texts(record)["up to 50 of 1 000 draws have no value: no interval has them in it"]; !ok {
		t.Errorf("of several: %v", texts(record))
	}
}

// A band that the panel cuts says so.
func TestLegendSaysThatABandGoesOn(t *testing.T) {
	rep := reports.Sure()
	f := familyOf(rep)
	for least, want := range map[float64]string{-100: "base design; what both share cancels", 6: "base design; what both share cancels; it goes on below"} {
		record, wide := canvas(900, 300)
		l := legend{c: wide, size: textSize, baseline: wide.Max.Y}
		l.bandKey(rep, &f, least)
		if _, ok := texts(record)[want]; !ok {
			t.Errorf("of a panel from %v: %v, want %q", least, texts(record), want)
		}
	}
}

// The keys of lanes and of the parity line say what is open, and what is missing.
func TestLegendSaysWhatIsOpen(t *testing.T) {
	rep := reports.Sure()
	f := familyOf(rep)
	inf := math.Inf(1)
	bar := func(low, high float64, ends bool) lane {
		return lane{bars: []laneBar{barOf(doubt.Band{Low: low, High: high}, ends)}}
	}
	point := func(low, high float64) doubt.ParityPoint {
		return doubt.ParityPoint{Breakeven: doubt.Band{Low: low, High: high}, Draws: 1000, NoValue: 3}
	}
	const interval, warmer, missing = "95 % interval of the break-even", "of the speed it is warmer above", "Without one: designs that were not assessed, or have no value; the study can ask for all (doubt: designs: all)."
	const equal, again, study, lacks = "95 % interval of the equal speed", "the same of equal again", "as in the study: 5 300 to 9 900", "up to 3 of 1 000 draws have no value: no interval has them in it"
	rep.Doubt.Own.Result.Breakeven = doubt.Band{Low: 5300. / 60, High: 9900. / 60}
	rep.Doubt.Own.Result.Upper, rep.Doubt.Own.Result.Again = doubt.Band{Low: 12000. / 60, High: inf}, 0.3
	whole := bar(1, 2, false)
	for name, c := range map[string]struct {
		write func(l *legend)
		want  []string
	}{
		"no lanes":     {func(l *legend) { l.laneKeys(nil, &f) }, nil},
		"closed lanes": {func(l *legend) { l.laneKeys([]lane{whole, whole, whole, whole}, &f) }, []string{interval}},
		"open lanes": {func(l *legend) { l.laneKeys([]lane{bar(1, inf, false), bar(-inf, 2, false), whole, whole}, &f) },
			[]string{interval, "arrow: perhaps cooler from the lowest speed on, or never"}},
		"a lane open above": {func(l *legend) { l.laneKeys([]lane{bar(1, inf, false), whole, whole, whole}, &f) }, []string{interval, "arrow: perhaps never"}},
		"a lane open below": {func(l *legend) { l.laneKeys([]lane{bar(-inf, 2, false), whole, whole, whole}, &f) }, []string{interval, "arrow: perhaps cooler from the lowest speed on"}},
		"an upper end":      {func(l *legend) { l.laneKeys([]lane{bar(1, 2, true), whole, whole, whole}, &f) }, []string{interval, warmer}},
		"an open upper end": {func(l *legend) { l.laneKeys([]lane{bar(1, inf, true), whole, whole, whole}, &f) },
			[]string{interval, warmer, "arrow: perhaps cooler up to the highest speed"}},
		"an end left open": {func(l *legend) {
			l.laneKeys([]lane{{bars: []laneBar{barOf(doubt.Band{Low: 1, High: 2, Undecided: [3]bool{2: true}}, false)}}, whole, whole, whole}, &f)
		}, []string{interval, "arrow: perhaps never"}},
		"one lane":        {func(l *legend) { l.laneKeys([]lane{whole}, &f) }, []string{interval, missing}},
		"no parity":       {func(l *legend) { l.parityKeys(rep, nil, "for a reason", true) }, []string{"No 95 % intervals: for a reason."}},
		"a closed parity": {func(l *legend) { l.parityKeys(rep, []doubt.ParityPoint{point(1, 2)}, "", false) }, []string{equal, study, lacks}},
		"a parity open above": {func(l *legend) { l.parityKeys(rep, []doubt.ParityPoint{point(1, 2), point(1, inf)}, "", false) },
			[]string{equal, study, lacks, "Open at the top: perhaps never."}},
		"a parity open below": {func(l *legend) { l.parityKeys(rep, []doubt.ParityPoint{point(1, 2), point(-inf, 2)}, "", false) },
			[]string{equal, study, lacks, "Open at the bottom: perhaps cooler from the lowest speed on."}},
		"two branches": {func(l *legend) { l.parityKeys(rep, []doubt.ParityPoint{point(1, 2)}, "", true) },
			[]string{equal, study, again, "as in the study: 12 000 to highest speed", lacks}},
	} {
		record, wide := canvas(1200, 300)
		l := legend{c: wide, size: textSize, baseline: wide.Max.Y}
		c.write(&l)
		var got []string
		for text := range texts(record) {
			got = append(got, text)
		}
		slices.Sort(got)
		slices.Sort(c.want)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// The keys of contours speak of intervals only where other designs than the base have one,
// and of probabilities only where they have lines.
func TestLegendOfContours(t *testing.T) {
	const speed, below, chance = "the same break-even speed, in rpm", "below it the 95 % interval of the design beside", "the same probability that there is one"
	for name, c := range map[string]struct {
		change func(rep *render.Report)
		want   []string
	}{
		"certain":  {func(*render.Report) {}, []string{speed, below}},
		"doubtful": {func(rep *render.Report) { rep.Doubt.Results[0].Exists = 0.3 }, []string{speed, below, chance}},
		"base alone": {func(rep *render.Report) {
			rep.Doubt.Results = slices.DeleteFunc(rep.Doubt.Results, func(r doubt.Result) bool { return r.Design != rep.Doubt.Base })
		}, []string{speed}},
	} {
		rep := reports.Sure()
		for i := range rep.Doubt.Results {
			rep.Doubt.Results[i].Exists = 1
		}
		c.change(rep)
		cells, _, _, _ := cellsOf(rep, 0, 1)
		record, wide := canvas(1200, 300)
		l := legend{c: wide, size: textSize, baseline: wide.Max.Y}
		l.contourKeys(rep, cells)
		got := texts(record)
		for _, text := range c.want {
			if _, ok := got[text]; !ok {
				t.Errorf("%s: no %q", name, text)
			}
		}
		if len(got) != len(c.want) {
			t.Errorf("%s: %v, want %q", name, got, c.want)
		}
	}
}
