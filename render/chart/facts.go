package chart

import (
	"fmt"
	"slices"
	"strings"

	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/fan"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/study"
)

// fact is one line under the title: a word and what it stands for.
type fact struct{ word, text string }

// number says a computed number with its unit.
func number(key string, si float64) string {
	q := quantity.Must(key)
	return render.WithUnit(q, render.Number(q, si))
}

// given says a number of the study with its unit.
func given(q quantity.Quantity, si float64) string {
	return render.WithUnit(q, render.Given(q, si))
}

// challenger and reference return the names of the setups as they can be drawn.
func challenger(rep *render.Report) string { return named(rep.Challenger().Name) }
func reference(rep *render.Report) string  { return named(rep.Reference().Name) }

// longestName is how many characters of a name are drawn.
const longestName = 40

// named returns a name as it can be drawn, cut if it is too long.
func named(s string) string {
	runes := []rune(strings.TrimSpace(printable(s)))
	if len(runes) <= longestName {
		return string(runes)
	}
	return strings.TrimSpace(string(runes[:longestName-1])) + ellipsis
}

// referenceAt names the reference with its speed.
func referenceAt(rep *render.Report) string {
	return reference(rep) + " at " + number("fan_speed", rep.Reference().Rig.Speed)
}

// facts returns what stands under the title of every chart. The axes named are
// drawn, all others are held.
func facts(rep *render.Report, drawn ...int) []fact {
	list := []fact{
		{"Challenger", challengerFact(rep)},
		{"Reference", referenceFact(rep)},
		{"Conditions", conditions(rep, drawn)},
	}
	if held := held(rep, drawn); held != "" {
		list = append(list, fact{"Held", held})
	}
	if about := strings.TrimSpace(printable(rep.Study.About)); about != "" {
		list = append(list, fact{"About", about})
	}
	if slices.ContainsFunc(list, func(f fact) bool { return strings.ContainsRune(f.text, noGlyph) }) {
		list = append(list, fact{"Note", string(noGlyph) + " stands for a character that the type of this chart does not have"})
	}
	return list
}

// swept reports whether an axis of the study sets one of the inputs of a part or
// the input of a key.
func swept(rep *render.Report, part, key string) bool {
	return slices.ContainsFunc(rep.Study.Axes, func(a study.Axis) bool {
		return part != "" && a.Input.Part == part || a.Input.Key == key
	})
}

func challengerFact(rep *render.Report) string { return setupFact(rep, rep.Challenger(), swept) }

func referenceFact(rep *render.Report) string {
	none := func(*render.Report, string, string) bool { return false }
	return setupFact(rep, rep.Reference(), none) + ", at " + number("fan_speed", rep.Reference().Rig.Speed)
}

// setupFact says what a setup is made of, leaving out the numbers that vary.
func setupFact(rep *render.Report, s *study.Setup, varies func(rep *render.Report, part, key string) bool) string {
	rig := &s.Rig
	said := func(part, key string) string {
		in, _ := model.InputOf(key)
		if varies(rep, part, key) {
			return ""
		}
		return given(in.Quantity, in.Get(rig))
	}
	var core []string
	if length, width := said("face", "face_length"), said("face", "face_width"); length != "" && width != "" {
		core = append(core, strings.TrimSuffix(length, " mm")+" × "+width+" face")
	}
	switch depth := said("depth", "fin_depth"); {
	case depth == "":
	case slices.Contains(s.Estimated, "fin_depth"):
		core = append(core, "fins about "+number("fin_depth", rig.Core.FinDepth)+" deep (estimated)")
	default:
		core = append(core, "fins "+depth+" deep")
	}
	if density := said("", "fin_density"); density != "" {
		core = append(core, density)
	}
	core = append(core, render.Fins(&rig.Core))
	fans := named(s.Fan)
	if !varies(rep, "", "fans") {
		fans = fmt.Sprintf("%d × %s", rig.Fans.Count, fans)
	}
	var swept []string
	for _, a := range rep.Study.Axes {
		swept = append(swept, a.Input.Key)
	}
	side := "pushing"
	switch rig.Placing {
	case fan.Pull:
		side = "pulling"
	case fan.PushPull:
		side = "pushing and as many pulling"
	}
	if n := rig.Fans.Stopped; n > 0 && !varies(rep, "", "stopped_fans") {
		side += fmt.Sprintf(", %d of those pushing standing still", n)
		if rig.Placing == fan.Pull {
			side = fmt.Sprintf("pulling, %d of them standing still", n)
		}
	}
	return fmt.Sprintf("%s: core %s (%s), %s %s", named(s.Name), named(s.Core), strings.Join(core, ", "), fans, side+render.Losses(rig, swept...))
}

// conditions says the room, the heat and the coolant, but for what is drawn; of a
// swept condition the value that is held.
func conditions(rep *render.Report, drawn []int) string {
	rig := rep.Reference().Rig
	var varied []string
	for i, a := range rep.Study.Axes {
		if !a.Input.Shared {
			continue
		}
		if isDrawn(rep, i, drawn) {
			varied = append(varied, a.Input.Key)
			continue
		}
		a.Input.Set(&rig, a.Values[rep.Results.Plan.Nearest(i)])
	}
	var list []string
	say := func(key, form string) {
		if slices.Contains(varied, key) {
			return
		}
		in, _ := model.InputOf(key)
		list = append(list, fmt.Sprintf(form, given(in.Quantity, in.Get(&rig))))
	}
	say("heat_load", "heat load %s")
	say("plate_resistance", "plate resistance %s")
	say("pump_power", "pump heat %s")
	fluid := rig.Coolant.Liquid.Fluid.String()
	if rig.Coolant.Flow > 0 {
		say("coolant_flow", "%s of "+fluid)
	} else {
		say("pump_head", fluid+" by a pump of %s shut-off pressure")
		say("pump_free_flow", "%s free flow")
		say("loop_drop", "plate and hoses taking %s")
		say("loop_drop_flow", "at %s")
	}
	if rig.Coolant.Liquid.Fluid != coolant.Water {
		say("glycol_share", "glycol share %s by mass")
	}
	say("air_temperature", "room air %s")
	say("humidity", "humidity %s")
	say("altitude", "altitude %s")
	say("listener_distance", "listener at %s")
	list = append(list, render.Field(&rig.Room)...)
	return strings.Join(list, ", ")
}

// isDrawn reports whether an axis is one of those drawn or steps with one.
func isDrawn(rep *render.Report, axis int, drawn []int) bool {
	group := rep.Study.Axes[axis].Group
	return slices.ContainsFunc(drawn, func(i int) bool {
		return i == axis || group != "" && rep.Study.Axes[i].Group == group
	})
}

// held says at what the axes of a design are held that are not drawn, and what the
// challenger has in the study where that differs.
func held(rep *render.Report, drawn []int) string {
	own := rep.Challenger().Rig
	var list []string
	for _, i := range rep.DesignAxes() {
		if isDrawn(rep, i, drawn) {
			continue
		}
		a := rep.Study.Axes[i]
		text := inWords(a.Input.Quantity, a.Values[heldStep(rep, i)])
		if value := a.Input.Get(&own); text != inWords(a.Input.Quantity, value) {
			text += " (" + given(a.Input.Quantity, value) + " in the study)"
		}
		list = append(list, text)
	}
	return strings.Join(list, ", ")
}

// heldStep returns the step at which an axis is held: the nearest to the study's
// own value, or the step of the axis that leads its group.
func heldStep(rep *render.Report, axis int) int {
	lead := axis
	if group := rep.Study.Axes[axis].Group; group != "" {
		lead = slices.IndexFunc(rep.Study.Axes, func(a study.Axis) bool { return a.Group == group })
	}
	return rep.Results.Plan.Nearest(lead)
}

// heading returns the label of an axis, with those of the axes that step with it.
func heading(rep *render.Report, axis int) string {
	text := rep.Study.Axes[axis].Input.Label
	for _, i := range followers(rep, axis) {
		text += ", with " + rep.Study.Axes[i].Input.Label
	}
	return text
}

// followers returns the other axes of an axis's group.
func followers(rep *render.Report, axis int) []int {
	var list []int
	for i, a := range rep.Study.Axes {
		if i != axis && a.Group != "" && a.Group == rep.Study.Axes[axis].Group {
			list = append(list, i)
		}
	}
	return list
}

// atStep says the value of an axis at a step, with those of the axes that step
// with it.
func atStep(rep *render.Report, axis, step int) string {
	text := ""
	for _, i := range append([]int{axis}, followers(rep, axis)...) {
		if text != "" {
			text += ", "
		}
		a := rep.Study.Axes[i]
		text += given(a.Input.Quantity, a.Values[step])
	}
	return text
}

// stepWords says the value of an axis at a step as atStep does, each with what it is
// of.
func stepWords(rep *render.Report, axis, step int) string {
	var list []string
	for _, i := range append([]int{axis}, followers(rep, axis)...) {
		a := rep.Study.Axes[i]
		list = append(list, inWords(a.Input.Quantity, a.Values[step]))
	}
	return strings.Join(list, ", ")
}

// inWords says a number of the study with what it is of: "fin depth 34 mm",
// "2 fans".
func inWords(q quantity.Quantity, si float64) string {
	if q.Key == "fans" {
		return plural(int(si), "fan", "fans")
	}
	return q.Label + " " + given(q, si)
}

// capitalised returns a text of our own with a capital.
func capitalised(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
