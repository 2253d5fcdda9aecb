package hazard

// Disclaimer ends every list of cautions, also an empty one.
const Disclaimer = "Local codes and licensed practice decide. No caution does not mean safe."

// Severity says what is at stake. The words are the usual signal words of safety
// signs; their meaning here is what stands beside them.
type Severity int

// The severities, the gravest first.
const (
	Danger  Severity = iota // as it stands it can maim, deafen or start a fire
	Warning                 // it can injure, or breaks a rule made against injury
	Notice                  // something to mend or to find out
)

// String returns the word.
func (s Severity) String() string {
	switch s {
	case Danger:
		return "danger"
	case Warning:
		return "warning"
	}
	return "notice"
}

// Rule is one thing that is looked for. The rules are in order of severity, and those
// of one severity in an order that never changes: a Rule is its own rank.
type Rule int

// The rules.
const (
	PrintedRotor Rule = iota
	BladeStress
	FragmentBeyondGoggles
	WithinReach
	UnattendedRotor
	WireOverheats
	FuseTooLarge
	ConnectorOverload
	ShroudSoftens
	SoundCeiling
	OSHAPermissible

	SoundAboveTable
	TipMach
	TipSpeed
	FragmentBeyondSpectacles
	GuardOpening
	WireOverRated
	FuseOpens
	SupplyLoad
	FanHeader
	VoltageDropHigh
	ShroudCreeps
	NIOSHDose
	OSHAAction
	EULimit
	EUAction
	Loud

	MayBeLoud
	SoundNotKnown
	VoltageDropNotable
	NotSaidAttended
	BladeNotKnown
	GuardNotKnown
	WireNotKnown
	SupplyNotKnown
	FuseNotKnown
	ShroudNotKnown

	RuleCount = iota
)

// Thresholds of the rules, SI.
const (
	tipSpeedFrom     = 60.0         // m/s; common practice, no source
	tipMachFrom      = 0.7          // from memory
	stressShare      = 0.25         // of the tensile strength; common practice, no source
	spectacles       = 0.84         // J [6] F
	goggles          = 6.2          // J [6] B
	widestFanGuard   = 0.0127       // m, half an inch [5]
	supplyShare      = 0.8          // of the rated current; common practice, no source
	headerCurrent    = 1.0          // A; from memory
	askFrom          = 5.0          // A, from which wiring must be known; common practice, no source
	dropNotable      = 0.03         // [3], informational notes; from memory
	dropHigh         = 0.10         // common practice, no source
	creepBelow       = 10.0         // K below softening; common practice, no source (45 °C for printed PLA)
	shroudAskFrom    = 45 + celsius // K, what the weakest common shroud bears
	loudFrom         = 85.0         // dB(A) [7] 1.1.1
	wholeDose        = 1.0          // [7]
	actionDose       = 0.5          // [8] (c)(1)
	upperAction      = 85.0         // dB(A) over 8 h [9] Art. 3
	euLimit          = 87.0         // dB(A) over 8 h at the ear [9] Art. 3
	permissibleFrom  = 90.0         // dB(A): the permissible exposure counts nothing below [8] (d)(2)
	soundTableEnds   = 115.0        // dB(A) [8] Table G-16
	soundCeilingFrom = 140.0        // dB(A) [7]
)

// Words that several rules share.
const (
	noSource      = "common practice, no source"
	fromMemory    = "common practice, from memory"
	wireCode      = "NEC Table 310.16 (60 °C, copper) and 240.4(D), transcriptions; below 18 AWG our own extension"
	eyeClasses    = "EN 166, from memory"
	keepClear     = "put it behind a guard that holds the pieces, keep everybody out of the plane of rotation, start and stop from a distance"
	ofAssumedMass = "its mass is assumed and may be out by a factor of 2"
	boltedToCore  = "that of the coolant entering the core, to which the shroud is bolted; the air that leaves the core is no hotter"
	wearHearing   = "wear hearing protection, shorten the session or go farther away"
)

// Caution is one rule that holds, in words and numbers. It informs; it is no safety
// assessment.
type Caution struct {
	Rule       Rule
	Key        string // for tables: letters and underscores
	Severity   Severity
	Quantity   string  // key of the quantity that Number and Threshold are of
	Number     float64 // SI
	Threshold  float64 // SI; 0 where any number is too much
	Below      bool    // Number falls short of Threshold, instead of reaching it
	Source     string  // where the threshold comes from
	Precaution string  // what to do, a clause without capital and full stop
	Assumption string  // what Number takes for granted, since nobody says it, a clause; empty: nothing
}

// rules holds what is the same in every Caution of a rule.
var rules = [RuleCount]Caution{
	PrintedRotor: {Key: "printed_rotor", Severity: Danger, Quantity: "tip_speed", Source: noSource,
		Precaution: "never run a printed rotor: layers part without notice; use a moulded one made for the speed"},
	BladeStress: {Key: "blade_stress", Severity: Danger, Quantity: "blade_stress", Source: "a quarter of the tensile strength, common practice; strength of the material from memory",
		Precaution: "turn slower or use blades of a stronger material; " + keepClear},
	FragmentBeyondGoggles: {Key: "fragment_beyond_goggles", Severity: Danger, Quantity: "fragment_energy", Source: eyeClasses + ", class B", Assumption: ofAssumedMass,
		Precaution: "goggles do not hold a piece of this energy: " + keepClear},
	WithinReach: {Key: "within_reach", Severity: Danger, Quantity: "guard_distance", Below: true, Source: "ISO 13857, Table 4, a transcription",
		Precaution: "move the guard away from the blades or take one with smaller openings: fingers reach the blades"},
	UnattendedRotor: {Key: "unattended_rotor", Severity: Danger, Quantity: "fan_speed", Source: noSource,
		Precaution: "never leave an improvised rotor running alone; have a switch on the supply within reach, away from the rotor"},
	WireOverheats: {Key: "wire_overheats", Severity: Danger, Quantity: "drive_current", Source: "single wire in free air, common practice, from memory",
		Precaution: "take thicker wire: this one overheats even alone in free air"},
	FuseTooLarge: {Key: "fuse_too_large", Severity: Danger, Quantity: "fuse_rating", Source: wireCode,
		Precaution: "fit a smaller fuse or thicker wire: the wire burns before this fuse opens"},
	ConnectorOverload: {Key: "connector_overload", Severity: Danger, Quantity: "drive_current", Source: "rating of the connector as stated",
		Precaution: "take a connector rated for more, and feel its temperature after the first minutes with the supply off"},
	ShroudSoftens: {Key: "shroud_softens", Severity: Danger, Quantity: "shroud_temperature", Source: "softening temperature of the material, from memory", Assumption: boltedToCore,
		Precaution: "make the shroud of something that bears the heat, or insulate it from the core: this one sags into the blades"},
	SoundCeiling: {Key: "sound_ceiling", Severity: Danger, Quantity: "operator_sound", Source: "NIOSH 98-126, ceiling for any kind of noise",
		Precaution: "nobody may be there, with hearing protection or without"},

	OSHAPermissible: {Key: "osha_permissible", Severity: Danger, Quantity: "osha_dose", Source: "29 CFR 1910.95, permissible exposure",
		Precaution: "no such session without hearing protection that brings it below: it deafens, day by day; shorten it or go farther away"},

	SoundAboveTable: {Key: "sound_above_table", Severity: Warning, Quantity: "operator_sound", Source: "29 CFR 1910.95, where Table G-16 ends",
		Precaution: "stay away while it runs, and wear plugs and muffs together where you cannot"},
	TipMach: {Key: "tip_mach", Severity: Warning, Quantity: "tip_mach", Source: fromMemory,
		Precaution: "turn slower: noise and load rise steeply, and fan laws and the level computed here fail"},
	TipSpeed: {Key: "tip_speed", Severity: Warning, Quantity: "tip_speed", Source: noSource,
		Precaution: keepClear},
	FragmentBeyondSpectacles: {Key: "fragment_beyond_spectacles", Severity: Warning, Quantity: "fragment_energy", Source: eyeClasses + ", class F", Assumption: ofAssumedMass,
		Precaution: "safety spectacles do not hold a piece of this energy: wear goggles or a visor of class B; " + keepClear},
	GuardOpening: {Key: "guard_opening", Severity: Warning, Quantity: "guard_opening", Source: "29 CFR 1910.212(a)(5)",
		Precaution: "take a guard with openings of half an inch (12.7 mm) at most"},
	WireOverRated: {Key: "wire_over_rated", Severity: Warning, Quantity: "drive_current", Source: wireCode,
		Precaution: "take thicker wire: in a bundle, under insulation or in hot air this one gets too warm"},
	FuseOpens: {Key: "fuse_opens", Severity: Warning, Quantity: "drive_current", Source: "rating of the fuse as stated",
		Precaution: "turn slower: the fuse opens in its time, and the cooling stops with the fans; take a larger one only with a wire that it protects, and never bridge it"},
	SupplyLoad: {Key: "supply_load", Severity: Warning, Quantity: "drive_current", Source: "80 % of the rating of the supply, common practice, no source",
		Precaution: "take a supply rated for more; fans draw two to three times their current at the start, and braking feeds current back"},
	FanHeader: {Key: "fan_header", Severity: Warning, Quantity: "drive_current", Source: fromMemory,
		Precaution: "never draw this from a fan header; state the connector that carries it"},
	VoltageDropHigh: {Key: "voltage_drop_high", Severity: Warning, Quantity: "voltage_drop_share", Source: noSource,
		Precaution: "take thicker or shorter wire: this much heat in a wire shows that it is too thin, and the motor controller may misbehave"},
	ShroudCreeps: {Key: "shroud_creeps", Severity: Warning, Quantity: "shroud_temperature", Source: "10 K below softening (45 °C for printed PLA), common practice, no source", Assumption: boltedToCore,
		Precaution: "insulate the shroud from the hot core and keep it out of its air, or watch the gap between blades and shroud: it creeps under load"},
	NIOSHDose: {Key: "niosh_dose", Severity: Warning, Quantity: "niosh_dose", Source: "NIOSH 98-126",
		Precaution: wearHearing},
	OSHAAction: {Key: "osha_action", Severity: Warning, Quantity: "osha_dose", Source: "29 CFR 1910.95, action level",
		Precaution: "at work a hearing conservation programme is due from here on; " + wearHearing},
	EULimit: {Key: "eu_limit", Severity: Warning, Quantity: "daily_exposure", Source: "Directive 2003/10/EC, exposure limit value",
		Precaution: "no ear may get this at work, what protection takes off counted; " + wearHearing},
	EUAction: {Key: "eu_action", Severity: Warning, Quantity: "daily_exposure", Source: "Directive 2003/10/EC, upper action value",
		Precaution: "at work hearing protection must be worn from here on; " + wearHearing},
	Loud: {Key: "sound", Severity: Warning, Quantity: "operator_sound", Source: "NIOSH 98-126",
		Precaution: "wear hearing protection, and more so nearer to the fans"},

	MayBeLoud: {Key: "may_be_loud", Severity: Notice, Quantity: "operator_sound_high", Source: "NIOSH 98-126, recommended limit over 8 h",
		Precaution: "the level computed is lower: measure it where the operator is, and wear hearing protection until then"},
	SoundNotKnown: {Key: "sound_not_known", Severity: Notice, Quantity: "operator_sound", Source: "a rotor of 127 mm read 20 dB more than such an estimate, common practice, no source",
		Precaution: "read the sound before staying near it, and wear hearing protection until then: this level is an estimate made for fans, and a bare rotor may be much louder"},
	VoltageDropNotable: {Key: "voltage_drop", Severity: Notice, Quantity: "voltage_drop_share", Source: "NEC, informational notes, from memory",
		Precaution: "the fans get less than the supply gives: take thicker or shorter wire, or measure at the fans"},
	NotSaidAttended: {Key: "running_not_known", Severity: Notice, Quantity: "fan_speed", Source: noSource,
		Precaution: "say whether somebody stays with the running rotor: an improvised one must never run alone, and needs a switch on the supply within reach, away from the rotor"},
	BladeNotKnown: {Key: "blade_not_known", Severity: Notice, Quantity: "tip_speed", Source: noSource,
		Precaution: "state the material of the blades: without it their stress is not looked at"},
	GuardNotKnown: {Key: "guard_not_known", Severity: Notice, Quantity: "tip_speed", Source: noSource,
		Precaution: "state the openings of the guard and its distance from the blades: none is known here"},
	WireNotKnown: {Key: "wire_not_known", Severity: Notice, Quantity: "drive_current", Source: noSource,
		Precaution: "state gauge and length of the wire: without both, its heat and its voltage drop are not looked at"},
	SupplyNotKnown: {Key: "supply_not_known", Severity: Notice, Quantity: "drive_current", Source: noSource,
		Precaution: "state the rated current of the supply: without it its load is not looked at"},
	FuseNotKnown: {Key: "fuse_not_known", Severity: Notice, Quantity: "drive_current", Source: noSource,
		Precaution: "fit a fuse that protects the wire, close to the supply, and state it: none is known here"},
	ShroudNotKnown: {Key: "shroud_not_known", Severity: Notice, Quantity: "shroud_temperature", Source: "10 K below the softening of printed PLA, common practice, no source",
		Precaution: "state the material of the shroud: without it the heat that it bears is not looked at"},
}

// graver holds, for each rule that a graver form of it replaces, that rule.
var graver = map[Rule]Rule{
	FragmentBeyondSpectacles: FragmentBeyondGoggles,
	WireOverRated:            WireOverheats,
	VoltageDropNotable:       VoltageDropHigh,
	ShroudCreeps:             ShroudSoftens,
	MayBeLoud:                Loud,
}

// Graver returns the rule that holds in the place of this one where it is reached, and
// false if there is none.
func (r Rule) Graver() (Rule, bool) {
	g, ok := graver[r]
	return g, ok
}

// Finding says whether a rule holds, and by which numbers.
type Finding struct {
	Number    float64 // as in Caution
	Threshold float64 // as in Caution
	Holds     bool    // if not, the numbers are 0
	Assumed   bool    // whether Number rests on the rule's Assumption
}

// Caution returns the rule in words with the numbers of a finding. The rule must be
// one of the constants.
func (r Rule) Caution(f Finding) Caution {
	c := rules[r]
	c.Rule, c.Number, c.Threshold = r, f.Number, f.Threshold
	if !f.Assumed {
		c.Assumption = ""
	}
	return c
}

// Found holds a finding for each Rule.
type Found [RuleCount]Finding

// Ranked returns the cautions whose rules hold, the gravest first. An empty list does
// not mean safe.
func (found *Found) Ranked() []Caution {
	var list []Caution
	for r, f := range found {
		if f.Holds {
			list = append(list, Rule(r).Caution(f))
		}
	}
	return list
}
