package sheet

import (
	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/study"
)

// bladesKnown reports whether there is anything to say of the blades of a setup: of a bare
// rotor, and of blades of which something is stated.
func bladesKnown(s *study.Setup) bool {
	b := &s.Rig.Build
	return b.Improvised || s.Rig.Fans.Fan.Pitch > 0 || b.BladeSpeed() > 0 || b.FragmentMass > 0
}

// blades says what rotation does to the blades, how much they may bear, and what one that
// comes off carries along.
func (t *terminal) blades(s *study.Setup, state *model.State, _ Drive) {
	if !bladesKnown(s) {
		return
	}
	b, diameter := &s.Rig.Build, s.Rig.Fans.Fan.Diameter()
	number := func(key string, v float64) {
		t.b.WriteString(padded(quantity.Must(key).Label, 50) + render.Computed(key, v) + "\n")
	}
	text := ""
	if stress, borne := b.BladeStress(state.TipSpeed); borne > 0 {
		number("blade_stress", stress)
		number("blade_load", stress/borne)
		text = "Blades of " + b.Blade.String() + " may bear " + render.Computed("blade_stress", borne) + ", a quarter of their strength: they reach it at " +
			render.Computed("fan_speed", model.BladeSpeed(&s.Rig)) + ". "
	}
	energy, assumed := b.FragmentEnergy(diameter, s.Rig.Speed)
	mass, _ := b.Fragment(diameter)
	number("fragment_energy", energy)
	text += "A blade has " + render.Computed("fragment_mass", mass)
	if assumed {
		text += ", which is assumed, since fragment_mass is not stated, and may be out by a factor of 2"
	}
	t.say(gap, text+".")
}

// bladesJSON is what bladesKnown says of the blades.
type bladesJSON struct {
	Stress  *number `json:"blade_stress_MPa"` // null, as the next two: material not known
	Borne   *number `json:"may_bear_MPa"`
	Speed   *number `json:"borne_up_to_fan_speed_rpm"`
	Energy  number  `json:"fragment_energy_J"`
	Mass    number  `json:"fragment_mass_g"`
	Assumed bool    `json:"fragment_mass_is_assumed"`
}

func bladesOf(s *study.Setup, state *model.State) *bladesJSON {
	if !bladesKnown(s) {
		return nil
	}
	shown := func(key string, v float64) number { return number(quantity.Must(key).Shown.Shown(v)) }
	b, diameter := &s.Rig.Build, s.Rig.Fans.Fan.Diameter()
	energy, assumed := b.FragmentEnergy(diameter, s.Rig.Speed)
	mass, _ := b.Fragment(diameter)
	out := &bladesJSON{Energy: shown("fragment_energy", energy), Mass: shown("fragment_mass", mass), Assumed: assumed}
	if stress, borne := b.BladeStress(state.TipSpeed); borne > 0 {
		loaded, most, speed := shown("blade_stress", stress), shown("blade_stress", borne), shown("fan_speed", model.BladeSpeed(&s.Rig))
		out.Stress, out.Borne, out.Speed = &loaded, &most, &speed
	}
	return out
}
