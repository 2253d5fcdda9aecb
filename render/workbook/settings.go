package workbook

import (
	"fmt"
	"math"
	"strings"

	"finduel/model"
	"finduel/model/fan"
	"finduel/render"
	"finduel/sweep/study"
)

// settings writes the sheet of the study: all that was computed from.
func (b *book) settings(rep *render.Report) error {
	p := &page{name: sheetStudy, widths: []float64{44, 26, 26, 12, 24}}
	if err := b.setWidths(p.name, p.widths); err != nil {
		return err
	}
	if err := b.layout(p.name, "portrait"); err != nil {
		return err
	}
	s := rep.Study
	p.paragraph("The study as it was computed: defaults filled in, in the units shown.", lookQuiet)
	fact := func(label, value string) {
		row := p.add(cell{label, look{}}, cell{text(value), lookText})
		p.span(row, 2, len(p.widths))
	}
	fact("study", s.Name)
	fact("about", s.About)
	fact("compared", rep.Metric().Title())
	fact("SHA-256 of the study", s.Hash)
	fact("seed", fmt.Sprint(rep.Seed))
	fact("finduel version", rep.Version)

	p.section("Settings")
	challenger, reference := rep.Challenger(), rep.Reference()
	p.add(cell{"setting", lookHead}, cell{"challenger: " + text(challenger.Name), lookHead},
		cell{"reference: " + text(reference.Name), lookHead}, cell{"swept", lookHead}, cell{"key", lookHead})
	p.grow(len(p.rows), 2, p.widths[1])
	p.grow(len(p.rows), 3, p.widths[2])
	both := append([]word{{"coolant", func(s *study.Setup) string { return s.Rig.Coolant.Liquid.Fluid.String() }}}, words...)
	for _, w := range both {
		row := p.add(cell{w.label, look{}}, cell{text(w.of(challenger)), lookText}, cell{text(w.of(reference)), lookText})
		p.grow(row, 2, p.widths[1])
		p.grow(row, 3, p.widths[2])
	}
	for _, in := range model.Inputs {
		row := p.add(cell{in.Title(), look{}},
			cell{setting(in, challenger), look{left: true, wrapped: true}}, cell{setting(in, reference), look{left: true, wrapped: true}},
			cell{swept(s, in), look{}}, cell{in.Key, look{quiet: true}})
		p.grow(row, 2, p.widths[1])
		p.grow(row, 3, p.widths[2])
	}
	p.axes(s)
	if rep.Results != nil {
		if steps := render.Steps(rep.Results.Plan); steps != "" {
			p.paragraph(render.Clean(challenger.Name)+": "+steps, lookText)
		}
	}
	p.exclusions(s)
	return b.write(p)
}

// setting returns an input of a setup; in words if it is an estimate. A zero that
// no study could set, such as a rotor diameter of 0, means that the model estimates
// it.
func setting(in model.Input, s *study.Setup) any {
	if about, from, ok := render.Estimated(s, in); ok {
		return about + " " + from
	}
	v := in.Get(&s.Rig)
	switch {
	case in.Unused(&s.Rig) && in.Key == "coolant_flow":
		return "by the pump"
	case in.Unused(&s.Rig):
		return "not used"
	case read(&s.Rig.Fans.Fan, in.Key, v):
		return render.Number(in.Quantity, v) + ", from readings"
	case v == 0 && render.LentTo(&s.Rig, in.Key) != "":
		return render.LentTo(&s.Rig, in.Key)
	case v == 0 && in.Unknown():
		return "not known"
	case v == 0 && in.Check(v) != nil:
		return "estimated"
	}
	return shown(in.Quantity, v)
}

// read reports whether an input of a fan follows from readings of its sound: its level at
// rated speed does, and how it rises with speed if that is not as usual.
func read(f *fan.Fan, key string, v float64) bool {
	if f.Readings == nil {
		return false
	}
	usual := fan.Typical()
	return key == "rated_sound" || key == "sound_exponent" && v == f.Readings.Exponent && v != usual.SoundExponent
}

// swept says whether an input is an axis.
func swept(s *study.Study, in model.Input) any {
	for _, a := range s.Axes {
		switch {
		case a.Input.Key != in.Key:
		case in.Shared:
			return "both"
		default:
			return "challenger"
		}
	}
	return nil
}

// axes lists the axes and their values.
func (p *page) axes(s *study.Study) {
	p.section("Axes")
	if len(s.Axes) == 0 {
		p.paragraph("none", look{})
		return
	}
	p.add(cell{"input", lookHead}, cell{"lowest", lookHead}, cell{"highest", lookHead}, cell{"values", lookHead}, cell{"in step with group", lookHead})
	for _, a := range s.Axes {
		low, high := math.Inf(1), math.Inf(-1)
		for _, v := range a.Values {
			low, high = min(low, v), max(high, v)
		}
		var group any
		if a.Group != "" {
			group = text(a.Group)
		}
		p.add(cell{a.Input.Title(), look{}}, cell{shown(a.Input.Quantity, low), look{left: true}},
			cell{shown(a.Input.Quantity, high), look{left: true}}, cell{len(a.Values), look{left: true}}, cell{group, look{}})
		p.paragraph(values(a), lookQuiet)
	}
}

// values lists the values of an axis, or the first and last few of many.
func values(a study.Axis) string {
	const most = 60
	var parts []string
	for i, v := range a.Values {
		if n := len(a.Values); n > most && i >= most/2 && i < n-most/2 {
			if i == most/2 {
				parts = append(parts, "…")
			}
			continue
		}
		parts = append(parts, fmt.Sprint(shown(a.Input.Quantity, v)))
	}
	return strings.Join(parts, ", ") + unit(a.Input.Quantity)
}

// exclusions lists the combinations that the study leaves out.
func (p *page) exclusions(s *study.Study) {
	p.section("Left out: points for which all of this holds")
	if len(s.Exclusions) == 0 {
		p.paragraph("nothing", look{})
	}
	for _, e := range s.Exclusions {
		var parts []string
		for _, c := range e {
			side := func(word string, v float64) string {
				return c.Input.Label + " " + word + " " + render.WithUnit(c.Input.Quantity, fmt.Sprint(shown(c.Input.Quantity, v)))
			}
			var ways []string
			if !math.IsInf(c.Above, 0) {
				ways = append(ways, side("above", c.Above))
			}
			if !math.IsInf(c.Below, 0) {
				ways = append(ways, side("below", c.Below))
			}
			parts = append(parts, strings.Join(ways, " or "))
		}
		p.paragraph(strings.Join(parts, ", and "), look{})
	}
}
