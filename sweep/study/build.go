package study

import (
	"strings"

	"finduel/model"
	"finduel/model/hazard"
)

// Words of a build that are no numbers.
type (
	rotorKind string // whether a rotor runs in the frame that it was sold in
)

// String returns the word.
func (r rotorKind) String() string { return string(r) }

const (
	framedRotor rotorKind = "framed"
	bareRotor   rotorKind = "bare"
)

// build sets what is known of how a setup is built. Of a propeller the rotor is bare.
func (b *builder) build(part buildPart, rig *model.Rig) {
	if l := part.WireGauge; l != nil {
		l.text = gaugeText(l.text)
	}
	b.set(part, rig)
	build := &rig.Build
	b.materials(build, part.BladeMaterial, part.ShroudMaterial)
	if part.Running != nil {
		build.Running = choice(b.findings, part.Running, hazard.Attended, hazard.Unattended)
	}
	build.Improvised = rig.Fans.Fan.Pitch > 0
	if part.Rotor != nil {
		build.Improvised = choice(b.findings, part.Rotor, framedRotor, bareRotor) == bareRotor
	}
	build.GuardShape = choice(b.findings, part.GuardShape, hazard.Openings...)
	if part.WireGauge != nil && part.WireArea != nil {
		b.fault(part.WireArea, "stands for wire_gauge, which is given too", "keep one of the two")
	}
	b.thinOrThick(part.WireGauge, part.WireArea, build)
	b.unwantedWithout(part.GuardOpening, "guard_opening", part.GuardShape, part.GuardDistance)
}

// gaugeText returns a gauge as it is written on the wire without its AWG.
func gaugeText(text string) string {
	return strings.TrimSpace(strings.TrimSuffix(strings.TrimPrefix(text, "AWG"), "AWG"))
}

// materials sets what blades and shroud are made of, as far as it is given.
func (f *findings) materials(build *hazard.Build, blade, shroud *leaf) {
	if blade != nil {
		build.Blade = choice(f, blade, hazard.Materials()...)
	}
	if shroud != nil {
		build.Shroud = choice(f, shroud, hazard.Materials()...)
	}
}

// thinOrThick reports a wire thinner or thicker than those that are known.
func (f *findings) thinOrThick(gauge, area *leaf, build *hazard.Build) {
	in, _ := model.InputOf("wire_gauge")
	if gauge != nil && !gauge.bad && area == nil && build.WireGauge < leastGauge {
		f.fault(gauge, "is no wire gauge that is known here", "write a whole number from "+show(leastGauge, in.Shown)+" to "+show(in.High, in.Shown)+", or wire_area")
	}
	if area != nil && !area.bad && build.WireArea < leastArea {
		f.fault(area, "is thinner than any wire that is known here", "write at least 0.081 mm2")
	}
}

// The ends of the gauges.
const (
	leastGauge = 6
	leastArea  = 8.1e-8 // m²
)

// unwantedWithout reports what means nothing without another key.
func (b *builder) unwantedWithout(needed *leaf, key string, leaves ...*leaf) {
	if needed == nil {
		b.unwanted("means nothing without "+key, "add "+key+": 8 mm, or remove it", leaves...)
	}
}
