package hazard

// Facts is what a state says of a setup, with how it is built. Every number is finite;
// 0 is not known, but for sound and doses, where it is silence.
type Facts struct {
	Diameter float64 // of the rotor, m
	Speed    float64 // of the rotor, rev/s
	TipSpeed float64 // m/s
	TipMach  float64 // tip speed over the speed of sound

	Sound     float64 // level where the operator is, dB(A)
	SoundHigh float64 // highest that it may be within its doubt, dB(A)
	Estimated bool    // whether the level is an estimate: neither rated nor read
	NIOSHDose float64 // of the planned session, 1 for 100 %
	OSHADose  float64 // of the planned session, 1 for 100 %
	Daily     float64 // daily exposure level of the planned session, dB(A)

	Current float64 // of all fans together at their voltage, A
	Voltage float64 // V

	WireDrop float64 // voltage that the wire loses at this current, out and back, V

	Shroud float64 // hottest that the shroud touches, air or core, K

	Build Build // must pass its Check
}

// Cautions returns which rules hold for a state. A number at its threshold counts,
// except where a rule permits it as such: a fuse or an opening of just the largest
// size, a current of just the fuse's rating, a guard at just the distance. Where one rule is the graver form of another
// (fragments, wire, voltage drop, shroud, a level that may be loud and one that is), only
// the graver holds; a dose, a daily exposure level and the level itself are told side by
// side.
//
// None that holds does not mean safe: what the facts do not say is not looked at. What
// must be known and is not is a notice of its own.
//
// Check: 20 A of which nothing else is known ask for wire, connector, supply and fuse.
func Cautions(f *Facts) Found {
	var found Found
	found.rotor(f)
	found.guard(f)
	found.wiring(f)
	found.shroud(f)
	found.noise(f)
	return found
}

// set notes a finding of a rule, if it holds.
func (found *Found) set(r Rule, number, threshold float64, holds bool) {
	if holds {
		found[r] = Finding{Number: number, Threshold: threshold, Holds: true}
	}
}

// reach notes a finding of a rule for a number at its threshold or above.
func (found *Found) reach(r Rule, number, threshold float64) {
	found.set(r, number, threshold, number >= threshold)
}

func (found *Found) rotor(f *Facts) {
	found.reach(TipSpeed, f.TipSpeed, tipSpeedFrom)
	found.reach(TipMach, f.TipMach, tipMachFrom)

	material := f.Build.Blade.Properties()
	found.set(PrintedRotor, f.TipSpeed, 0, material.Printed && f.TipSpeed > 0)
	if stress, borne := f.Build.BladeStress(f.TipSpeed); borne > 0 {
		found.reach(BladeStress, stress, borne)
	} else {
		found.reach(BladeNotKnown, f.TipSpeed, tipSpeedFrom)
	}

	energy, assumed := f.Build.FragmentEnergy(f.Diameter, f.Speed)
	found.reach(FragmentBeyondGoggles, energy, goggles)
	found.set(FragmentBeyondSpectacles, energy, spectacles, energy >= spectacles && energy < goggles)
	for _, r := range []Rule{FragmentBeyondGoggles, FragmentBeyondSpectacles} {
		found[r].Assumed = assumed && found[r].Holds
	}

	found.set(UnattendedRotor, f.Speed, 0, f.Build.Running == Unattended && f.Build.Improvised && f.Speed > 0)
	found.set(NotSaidAttended, f.Speed, 0, f.Build.Running == RunningNotKnown && f.Build.Improvised && f.Speed > 0)
}

func (found *Found) guard(f *Facts) {
	b := &f.Build
	if b.GuardOpening == 0 {
		from := tipSpeedFrom
		if b.Improvised {
			from = 0
		}
		found.set(GuardNotKnown, f.TipSpeed, from, f.TipSpeed > 0 && f.TipSpeed >= from)
		return
	}
	found.set(GuardOpening, b.GuardOpening, widestFanGuard, b.GuardOpening > widestFanGuard)
	distance, ok := GuardDistance(b.GuardShape, b.GuardOpening)
	found.set(WithinReach, b.GuardDistance, distance, ok && b.GuardDistance < distance)
}

func (found *Found) wiring(f *Facts) {
	b := &f.Build
	area := b.Area()
	if gauge := GaugeOf(area); gauge.AWG != 0 {
		found.reach(WireOverheats, f.Current, gauge.FreeAir)
		found.set(WireOverRated, f.Current, gauge.Rated, f.Current >= gauge.Rated && f.Current < gauge.FreeAir)
		found.set(FuseTooLarge, b.FuseRating, gauge.Rated, b.FuseRating > gauge.Rated)
		if f.Voltage > 0 {
			share := f.WireDrop / f.Voltage
			found.reach(VoltageDropHigh, share, dropHigh)
			found.set(VoltageDropNotable, share, dropNotable, share >= dropNotable && share < dropHigh)
		}
	}
	found.set(WireNotKnown, f.Current, askFrom, f.Current >= askFrom && (area == 0 || b.WireLength == 0))
	found.set(FuseNotKnown, f.Current, askFrom, f.Current >= askFrom && b.FuseRating == 0)
	found.set(FuseOpens, f.Current, b.FuseRating, b.FuseRating > 0 && f.Current > b.FuseRating)

	if b.ConnectorRating > 0 {
		found.reach(ConnectorOverload, f.Current, b.ConnectorRating)
	} else {
		found.reach(FanHeader, f.Current, headerCurrent)
	}
	if b.SupplyRating > 0 {
		found.reach(SupplyLoad, f.Current, supplyShare*b.SupplyRating)
	} else {
		found.reach(SupplyNotKnown, f.Current, askFrom)
	}
}

func (found *Found) shroud(f *Facts) {
	material := f.Build.Shroud.Properties()
	if material == (Properties{}) {
		found.set(ShroudNotKnown, f.Shroud, shroudAskFrom, f.Build.Improvised && f.Shroud >= shroudAskFrom)
		return
	}
	softens := material.Softening
	if softens == 0 {
		return
	}
	creeps := softens - creepBelow
	found.reach(ShroudSoftens, f.Shroud, softens)
	found.set(ShroudCreeps, f.Shroud, creeps, f.Shroud >= creeps && f.Shroud < softens)
	for _, r := range []Rule{ShroudSoftens, ShroudCreeps} {
		found[r].Assumed = found[r].Holds
	}
}

func (found *Found) noise(f *Facts) {
	found.reach(SoundCeiling, f.Sound, soundCeilingFrom)
	found.reach(SoundAboveTable, f.Sound, soundTableEnds)
	found.reach(Loud, f.Sound, loudFrom)
	found.set(SoundNotKnown, f.Sound, 0, f.Estimated && f.Build.Improvised)
	found.set(MayBeLoud, f.SoundHigh, loudFrom, f.SoundHigh >= loudFrom && f.Sound < loudFrom)
	found.reach(NIOSHDose, f.NIOSHDose, wholeDose)
	found.set(OSHAPermissible, f.OSHADose, wholeDose, f.OSHADose >= wholeDose && f.Sound >= permissibleFrom)
	found.reach(OSHAAction, f.OSHADose, actionDose)
	found.reach(EULimit, f.Daily, euLimit)
	found.reach(EUAction, f.Daily, upperAction)
}
