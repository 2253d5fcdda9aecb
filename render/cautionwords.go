package render

import (
	"slices"
	"strings"

	"finduel/model/quantity"
)

// from says from which speed a caution holds: " from 9 000 rpm"; nothing if no speeds were
// swept.
func (c *Caution) from() string {
	switch from := Computed("fan_speed", c.From); {
	case c.Onset > 0:
		return " from " + Computed("fan_speed", c.Onset)
	case c.Not > 0:
		return " from between " + Number(quantity.Must("fan_speed"), c.Not) + " and " + from
	case c.From > 0:
		return " from " + from + " or less"
	}
	return ""
}

// subject says whose the caution is and from which speed: the name of the setup, and
// what is behind it.
func (c *Caution) subject() (name, where string) {
	name = Clean(c.Setup)
	here, there := inDesign(c.FromDesign), inDesign(c.Design)
	if c.FromDesign == c.Design || c.From == 0 {
		name, here = name+there, ""
	}
	where = c.from() + here
	if c.Until > 0 {
		where += ", until a " + c.Graver.String() + " takes its place from " + Computed("fan_speed", c.Until)
	}
	return name, where
}

// finding says the number and the threshold; nothing if the number is the fan speed.
func (c *Caution) finding() string {
	what := c.What()
	if what.Key == "fan_speed" {
		return ""
	}
	text := what.Label + " " + WithUnit(what, Number(what, c.Number))
	if c.At > 0 && (c.Onset > 0 || c.At != c.From) {
		text += " at " + Computed("fan_speed", c.At)
	}
	if c.FromDesign != c.Design && c.From > 0 {
		text += inDesign(c.Design)
	}
	if c.Assumption != "" {
		text += " (" + c.Assumption + ")"
	}
	if c.Threshold > 0 {
		text += ", threshold " + WithUnit(what, Given(what, c.Threshold))
	}
	return text
}

// CautionSentences says cautions in sentences, in their order: "Warning, small from
// 9 000 rpm: tip speed 133 m/s at 20 000 rpm, threshold 60 m/s: put it behind a guard
// (common practice, no source)." What several setups share is one sentence, and so is what
// several rules of one source ask for at the same number of the same setups.
func CautionSentences(list []Caution) []string {
	type sentence struct{ lead, precaution, source string }
	var sentences []sentence
	for i := range list {
		rule := list[i].Rule
		if slices.ContainsFunc(list[:i], func(c Caution) bool { return c.Rule == rule }) {
			continue // said with the first setup that has it
		}
		word := list[i].Severity.String()
		of := slices.DeleteFunc(slices.Clone(list[i:]), func(c Caution) bool { return c.Rule != rule })
		s := sentence{strings.ToUpper(word[:1]) + word[1:] + ", " + cautionLead(of), list[i].Precaution, list[i].Source}
		if j := slices.IndexFunc(sentences, func(other sentence) bool { return other.lead == s.lead && other.source == s.source }); j >= 0 {
			sentences[j].precaution += "; " + s.precaution
		} else {
			sentences = append(sentences, s)
		}
	}
	var texts []string
	for _, s := range sentences {
		texts = append(texts, s.lead+": "+s.precaution+" ("+s.source+").")
	}
	return texts
}

// cautionLead says whose cautions of one rule are and by which numbers: setups with the
// same number, or the same speed, are named together.
func cautionLead(list []Caution) string {
	name, where := list[0].subject()
	names, finding := name, list[0].finding()
	var parts []string
	part := func() {
		text := names + where
		if finding != "" {
			text += ": " + finding
		}
		parts = append(parts, text)
	}
	for i := range list[1:] {
		c := &list[1+i]
		name, at := c.subject()
		switch is := c.finding(); {
		case is == finding && at == where:
			names += " and " + name
		case is == finding:
			names, where = names+where+" and "+name, at
		default:
			part()
			names, where, finding = name, at, is
		}
	}
	part()
	return strings.Join(parts, "; ")
}

// inDesign says a design in brackets, behind a space; nothing of the base design.
func inDesign(design string) string {
	if design == "" {
		return ""
	}
	return " (" + design + ")"
}
