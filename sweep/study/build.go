package study

import (
	"strings"

	"finduel/model"
	"finduel/model/hazard"
)

// Words of a build that are no numbers.
type (
	attendance string // whether somebody stays with a running setup
	rotorKind  string // whether a rotor runs in the frame that it was sold in
)

// String returns the word.
func (a attendance) String() string { return string(a) }

// String returns the word.
func (r rotorKind) String() string { return string(r) }

const (
	attended    attendance = "attended"
	unattended  attendance = "unattended"
	framedRotor rotorKind  = "framed"
	bareRotor   rotorKind  = "bare"
)

// build sets what is known of how a setup is built. Of a propeller the rotor is bare.
func (b *builder) build(part buildPart, rig *model.Rig) {
	if l := part.WireGauge; l != nil { // as it is written on the wire
		l.text = strings.TrimSpace(strings.TrimSuffix(strings.TrimPrefix(l.text, "AWG"), "AWG"))
	}
	b.set(part, rig)
	build := &rig.Build
	if part.BladeMaterial != nil {
		build.Blade = choice(b.findings, part.BladeMaterial, hazard.Materials()...)
	}
	if part.ShroudMaterial != nil {
		build.Shroud = choice(b.findings, part.ShroudMaterial, hazard.Materials()...)
	}
	build.Unattended = choice(b.findings, part.Running, attended, unattended) == unattended
	build.Improvised = rig.Fans.Fan.Pitch > 0
	if part.Rotor != nil {
		build.Improvised = choice(b.findings, part.Rotor, framedRotor, bareRotor) == bareRotor
	}
	build.GuardShape = choice(b.findings, part.GuardShape, hazard.Openings...)
	if part.WireGauge != nil && part.WireArea != nil {
		b.fault(part.WireArea, "stands for wire_gauge, which is given too", "keep one of the two")
	}
	gauge, _ := model.InputOf("wire_gauge")
	if l := part.WireGauge; l != nil && !l.bad && part.WireArea == nil && build.WireGauge < leastGauge {
		b.fault(l, "is no wire gauge that is known here", "write a whole number from "+show(leastGauge, gauge.Shown)+" to "+show(gauge.High, gauge.Shown)+", or wire_area")
	}
	if l := part.WireArea; l != nil && !l.bad && build.WireArea < leastArea {
		b.fault(l, "is thinner than any wire that is known here", "write at least 0.081 mm2")
	}
	b.unwantedWithout(part.GuardOpening, "guard_opening", part.GuardShape, part.GuardDistance)
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
