package study

import (
	"strings"

	"finduel/model"
)

// Apply sets inputs of a rig from texts like "fan_speed=9000 rpm": the key of an
// input, an equals sign, and a number with its unit as in a study file. It returns
// the changed rig, or Faults that name every text that cannot be understood; where
// stands for a file in them. A coolant flow that is set takes the place of a pump's.
func Apply(rig model.Rig, where string, settings []string) (model.Rig, error) {
	f := newFindings(where)
	keys := make([]string, len(model.Inputs))
	for i, in := range model.Inputs {
		keys[i] = in.Key
	}
	for _, text := range settings {
		key, value, found := strings.Cut(text, "=")
		key = strings.TrimSpace(key)
		l := &leaf{path: key, text: strings.TrimSpace(value), kind: words}
		if !found {
			f.add(l.at, "", text, "is no setting", "write input=value, e.g. fan_speed=9000 rpm")
			continue
		}
		in, ok := model.InputOf(key)
		if !ok {
			f.add(l.at, "", key, "is not an input", choiceHint(key, "use one of", keys))
			continue
		}
		if m, ok := f.number(l, in); ok {
			in.Set(&rig, m.si)
		}
		if in.Unused(&rig) {
			f.fault(l, flowGiven, "give pump_head and pump_free_flow in the study, instead of flow")
		}
	}
	if faults := f.sorted(); len(faults) > 0 {
		return model.Rig{}, faults
	}
	return rig, nil
}
