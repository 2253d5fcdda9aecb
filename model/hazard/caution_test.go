package hazard_test

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"finduel/model/hazard"
	"finduel/model/quantity"
	"finduel/model/sound"
)

const (
	mm2 = 1e-6
	mm  = 1e-3
)

// turning returns the facts of a 127 mm rotor at a tip speed in m/s.
func turning(tipSpeed float64) hazard.Facts {
	return hazard.Facts{Diameter: 0.127, Speed: tipSpeed / (math.Pi * 0.127), TipSpeed: tipSpeed, TipMach: tipSpeed / 343.2}
}

func ranked(f *hazard.Facts) []hazard.Caution {
	found := hazard.Cautions(f)
	return found.Ranked()
}

func holding(found hazard.Found) []hazard.Rule {
	var list []hazard.Rule
	for _, c := range found.Ranked() {
		list = append(list, c.Rule)
	}
	return list
}

// Each rule holds at its threshold, or just beyond where the threshold as such is
// permitted, and not just before it.
func TestEachRuleAtItsThreshold(t *testing.T) {
	const hair = 1e-9
	beyond, short := 1+hair, 1-hair
	energyAt := func(joule float64) func(f *hazard.Facts, k float64) {
		return func(f *hazard.Facts, k float64) {
			f.Diameter, f.Speed = 0.1, 400
			v := 2 * math.Pi * f.Speed * 0.25 * f.Diameter
			f.Build.FragmentMass = 2 * joule * k / (v * v)
		}
	}
	wire := func(gauge, amperes float64) func(f *hazard.Facts, k float64) {
		return func(f *hazard.Facts, k float64) { f.Build.WireGauge, f.Current = gauge, amperes*k }
	}
	fuse := func(gauge, amperes float64) func(f *hazard.Facts, k float64) {
		return func(f *hazard.Facts, k float64) { f.Build.WireGauge, f.Build.FuseRating = gauge, amperes*k }
	}
	drop := func(share float64) func(f *hazard.Facts, k float64) {
		return func(f *hazard.Facts, k float64) {
			f.Build.WireGauge, f.Build.WireLength, f.Voltage = 10, 1, 12
			f.WireDrop = share * 12 * k
		}
	}
	shroud := func(m hazard.Material, celsius float64) func(f *hazard.Facts, k float64) {
		return func(f *hazard.Facts, k float64) { f.Build.Shroud, f.Shroud = m, (celsius+273.15)*k }
	}
	stress := func(m hazard.Material, hub float64) func(f *hazard.Facts, k float64) {
		return func(f *hazard.Facts, k float64) {
			p := m.Properties()
			f.Build.Blade, f.Build.HubRatio = m, hub
			f.TipSpeed = k * math.Sqrt(2*p.Strength/4/p.Density/(1-hub*hub))
		}
	}
	sound := func(level float64) func(f *hazard.Facts, k float64) {
		return func(f *hazard.Facts, k float64) { f.Sound = level * k }
	}
	tip := func(f *hazard.Facts, k float64) { f.TipSpeed = 60 * k }
	with := func(set func(b *hazard.Build), then func(f *hazard.Facts, k float64)) func(f *hazard.Facts, k float64) {
		return func(f *hazard.Facts, k float64) { set(&f.Build); then(f, k) }
	}
	amperes := func(i float64) func(f *hazard.Facts, k float64) {
		return func(f *hazard.Facts, k float64) { f.Current = i * k }
	}

	seen := map[hazard.Rule]bool{}
	for _, c := range []struct {
		rule          hazard.Rule
		set           func(f *hazard.Facts, k float64)
		holds, spared float64 // factors on the threshold
		threshold     float64
	}{
		{hazard.TipSpeed, tip, 1, short, 60},
		{hazard.TipMach, func(f *hazard.Facts, k float64) { f.TipMach = 0.7 * k }, 1, short, 0.7},
		{hazard.BladeStress, stress(hazard.Polycarbonate, 0), beyond, short, 15e6},
		{hazard.BladeStress, stress(hazard.Wood, 0.3), beyond, short, 20e6},
		{hazard.PrintedRotor, with(func(b *hazard.Build) { b.Blade = hazard.PrintedPLA }, tip), 1e-6, 0, 0},
		{hazard.PrintedRotor, with(func(b *hazard.Build) { b.Blade = hazard.PrintedPETG }, tip), 1e-6, 0, 0},
		{hazard.PrintedRotor, with(func(b *hazard.Build) { b.Blade = hazard.PrintedABS }, tip), 1e-6, 0, 0},
		{hazard.FragmentBeyondSpectacles, energyAt(0.84), beyond, short, 0.84},
		{hazard.FragmentBeyondSpectacles, energyAt(6.2), short, beyond, 0.84}, // the graver rule takes over
		{hazard.FragmentBeyondGoggles, energyAt(6.2), beyond, short, 6.2},
		{hazard.UnattendedRotor, with(func(b *hazard.Build) { b.Running, b.Improvised = hazard.Unattended, true }, func(f *hazard.Facts, k float64) { f.Speed = k }), 1, 0, 0},
		{hazard.NotSaidAttended, with(func(b *hazard.Build) { b.Improvised = true }, func(f *hazard.Facts, k float64) { f.Speed = k }), 1, 0, 0},
		{hazard.NotSaidAttended, func(f *hazard.Facts, k float64) { f.Speed, f.Build.Improvised = 100, k > 0 }, 1, 0, 0},
		{hazard.WithinReach, func(f *hazard.Facts, k float64) {
			f.Build.GuardShape, f.Build.GuardOpening, f.Build.GuardDistance = hazard.Slot, 8*mm, 20*mm*k
		}, short, 1, 20 * mm},
		{hazard.WithinReach, func(f *hazard.Facts, k float64) {
			f.Build.GuardShape, f.Build.GuardOpening, f.Build.GuardDistance = hazard.Round, 8*mm, 5*mm*k
		}, short, 1, 5 * mm},
		{hazard.GuardOpening, func(f *hazard.Facts, k float64) { f.Build.GuardOpening = 0.0127 * k }, beyond, 1, 12.7 * mm},
		{hazard.GuardNotKnown, tip, 1, short, 60},
		{hazard.GuardNotKnown, with(func(b *hazard.Build) { b.Improvised = true }, tip), 1e-6, 0, 0},
		{hazard.BladeNotKnown, tip, 1, short, 60},
		{hazard.WireOverRated, wire(14, 15), 1, short, 15},
		{hazard.WireOverRated, wire(18, 7), 1, short, 7},
		{hazard.WireOverRated, wire(6, 55), 1, short, 55},
		{hazard.WireOverRated, wire(14, 32), short, 1, 15}, // the graver rule takes over
		{hazard.WireOverheats, wire(14, 32), 1, short, 32},
		{hazard.WireOverheats, wire(22, 7), 1, short, 7},
		{hazard.WireOverheats, wire(23, 3.5), 1, short, 3.5}, // counts as the next thinner even gauge
		{hazard.FuseTooLarge, fuse(14, 15), beyond, 1, 15},
		{hazard.FuseTooLarge, fuse(18, 7), beyond, 1, 7},
		{hazard.FuseTooLarge, fuse(8, 40), beyond, 1, 40},
		{hazard.FuseTooLarge, fuse(24, 1.7), beyond, 1, 1.7},
		{hazard.WireOverRated, wire(20, 4.4), 1, short, 4.4},
		{hazard.ConnectorOverload, with(func(b *hazard.Build) { b.ConnectorRating = 60 }, amperes(60)), 1, short, 60},
		{hazard.FuseOpens, with(func(b *hazard.Build) { b.FuseRating = 20 }, amperes(20)), beyond, 1, 20},
		{hazard.SupplyLoad, with(func(b *hazard.Build) { b.SupplyRating = 30 }, amperes(24)), 1, short, 24},
		{hazard.FanHeader, amperes(1), 1, short, 1},
		{hazard.VoltageDropNotable, drop(0.03), 1, short, 0.03},
		{hazard.VoltageDropNotable, drop(0.10), short, 1, 0.03}, // the graver rule takes over
		{hazard.VoltageDropHigh, drop(0.10), 1, short, 0.10},
		{hazard.WireNotKnown, amperes(5), 1, short, 5},
		{hazard.WireNotKnown, with(func(b *hazard.Build) { b.WireGauge = 10 }, amperes(5)), 1, short, 5},   // no length
		{hazard.WireNotKnown, with(func(b *hazard.Build) { b.WireLength = 0.5 }, amperes(5)), 1, short, 5}, // no size
		{hazard.SupplyNotKnown, amperes(5), 1, short, 5},
		{hazard.FuseNotKnown, amperes(5), 1, short, 5},
		{hazard.ShroudSoftens, shroud(hazard.PrintedPLA, 55), 1, short, 328.15},
		{hazard.ShroudSoftens, shroud(hazard.ABS, 95), 1, short, 368.15},
		{hazard.ShroudCreeps, shroud(hazard.PrintedPLA, 45), 1, short, 318.15},
		{hazard.ShroudCreeps, shroud(hazard.PrintedPETG, 75), short, 1, 338.15}, // the graver rule takes over
		{hazard.ShroudNotKnown, with(func(b *hazard.Build) { b.Improvised = true }, shroud(hazard.MaterialNotKnown, 45)), 1, short, 318.15},
		{hazard.SoundCeiling, sound(140), 1, short, 140},
		{hazard.SoundAboveTable, sound(115), 1, short, 115},
		{hazard.Loud, sound(85), 1, short, 85},
		{hazard.MayBeLoud, func(f *hazard.Facts, k float64) { f.Sound, f.SoundHigh = 80, 85*k }, 1, short, 85},
		{hazard.SoundNotKnown, func(f *hazard.Facts, k float64) { f.Sound, f.Estimated, f.Build.Improvised = 60, true, k > 0 }, 1, 0, 0},
		{hazard.SoundNotKnown, func(f *hazard.Facts, k float64) { f.Sound, f.Estimated, f.Build.Improvised = 60, k > 0, true }, 1, 0, 0},
		{hazard.MayBeLoud, func(f *hazard.Facts, k float64) { f.Sound, f.SoundHigh = 85*k, 90 }, short, 1, 85}, // the graver rule takes over
		{hazard.NIOSHDose, func(f *hazard.Facts, k float64) { f.NIOSHDose = k }, 1, short, 1},
		{hazard.OSHAAction, func(f *hazard.Facts, k float64) { f.OSHADose = 0.5 * k }, 1, short, 0.5},
		{hazard.OSHAPermissible, func(f *hazard.Facts, k float64) { f.Sound, f.OSHADose = 100, k }, 1, short, 1},
		{hazard.OSHAPermissible, func(f *hazard.Facts, k float64) { f.Sound, f.OSHADose = 90*k, 1.5 }, 1, short, 1}, // counts nothing below 90 dB(A)
		{hazard.EULimit, func(f *hazard.Facts, k float64) { f.Daily = 87 * k }, 1, short, 87},
		{hazard.EUAction, func(f *hazard.Facts, k float64) { f.Daily = 85 * k }, 1, short, 85},
	} {
		seen[c.rule] = true
		for _, k := range []float64{c.holds, c.spared} {
			var f hazard.Facts
			c.set(&f, k)
			if err := f.Build.Check(); err != nil {
				t.Fatal(err)
			}
			found := hazard.Cautions(&f)
			got := c.rule.Caution(found[c.rule])
			if found[c.rule].Holds != (k == c.holds) {
				t.Errorf("%s at %.12g of its threshold: %+v", got.Key, k, found[c.rule])
			}
			if g, ok := c.rule.Graver(); k == c.spared && c.holds < 1 && !c.rule.Caution(hazard.Finding{}).Below && k >= 1 && !(ok && g < c.rule && found[g].Holds) {
				t.Errorf("%s is given up, but rule %d does not take its place: %v", got.Key, g, ok)
			}
			if k != c.holds {
				if found[c.rule] != (hazard.Finding{}) {
					t.Errorf("%s: numbers of a rule that does not hold: %+v", got.Key, found[c.rule])
				}
				continue
			}
			if math.Abs(got.Threshold-c.threshold) > 1e-12*c.threshold {
				t.Errorf("%s has the threshold %g, want %g", got.Key, got.Threshold, c.threshold)
			}
			if got.Below != (got.Number < got.Threshold) {
				t.Errorf("%s: %g against %g, below is %v", got.Key, got.Number, got.Threshold, got.Below)
			}
		}
	}
	for r := hazard.Rule(0); r < hazard.RuleCount; r++ {
		if !seen[r] {
			t.Errorf("no test of %s", r.Caution(hazard.Finding{}).Key)
		}
	}
}

// What is known to be in order is not asked for, and nothing is found where nothing
// runs.
func TestNothingOfWhatDoesNotApply(t *testing.T) {
	idle := hazard.Facts{Build: hazard.Build{Blade: hazard.PrintedPLA, Improvised: true, Running: hazard.Unattended, Shroud: hazard.PrintedPLA}}
	quiet := turning(12.57)
	quiet.Sound, quiet.Current, quiet.Voltage, quiet.Shroud = 31, 0.3, 12, 313
	quiet.Build = hazard.Build{Running: hazard.Unattended}
	orderly := quiet
	orderly.Current = 6
	orderly.Build = hazard.Build{
		WireGauge: 14, WireLength: 0.5, ConnectorRating: 15, SupplyRating: 10, FuseRating: 10,
		Shroud: hazard.PrintedPETG, GuardShape: hazard.Round, GuardOpening: 6 * mm, GuardDistance: 5 * mm,
	}
	boughtInHotAir := quiet
	boughtInHotAir.Shroud = 330
	steel := quiet
	steel.Shroud, steel.Build.Shroud = 400, hazard.Steel
	for name, f := range map[string]hazard.Facts{"nothing known": {}, "idle": idle, "quiet": quiet, "orderly": orderly, "steel": steel, "bought fan in hot air": boughtInHotAir} {
		if list := holding(hazard.Cautions(&f)); len(list) != 0 {
			t.Errorf("%s: %v", name, list)
		}
	}
}

// An improvised rotor of which little is said: much is wrong, and what is missing is
// asked for.
func TestAnImprovisedRotor(t *testing.T) {
	f := turning(133)
	f.Sound, f.NIOSHDose, f.OSHADose, f.Daily = 100, 4, 0.5, 91
	f.Current, f.Voltage, f.Shroud = 20, 12, 330
	f.Build = hazard.Build{Improvised: true, Running: hazard.Unattended, Shroud: hazard.PrintedPLA}
	found := hazard.Cautions(&f)
	want := []hazard.Rule{
		hazard.UnattendedRotor, hazard.ShroudSoftens,
		hazard.TipSpeed, hazard.FragmentBeyondSpectacles, hazard.FanHeader, hazard.NIOSHDose, hazard.OSHAAction, hazard.EULimit, hazard.EUAction, hazard.Loud,
		hazard.BladeNotKnown, hazard.GuardNotKnown, hazard.WireNotKnown, hazard.SupplyNotKnown, hazard.FuseNotKnown,
	}
	got := holding(found)
	if len(got) != len(want) {
		t.Fatalf("%v, want %v", got, want)
	}
	for i := range got {
		if got[i] != want[i] {
			t.Fatalf("%v, want %v", got, want)
		}
	}
	if got[0] != hazard.UnattendedRotor || found[hazard.NotSaidAttended].Holds {
		t.Errorf("a rotor that runs alone: %v", got)
	}
	stays := f
	stays.Build.Running = hazard.Attended
	if found := hazard.Cautions(&stays); found[hazard.UnattendedRotor].Holds || found[hazard.NotSaidAttended].Holds {
		t.Errorf("a rotor with somebody near: %v", holding(found))
	}
	if e := found[hazard.FragmentBeyondSpectacles].Number; math.Abs(e-2.21) > 0.005 {
		t.Errorf("a blade of 1 g has %g J; half way out at half of 133 m/s it is 2.21 J", e)
	}
}

func TestRulesAreWellFormedAndInOrder(t *testing.T) {
	key := regexp.MustCompile(`^[a-z][a-z_]*$`)
	keys, precautions := map[string]bool{}, map[string]bool{}
	last := hazard.Danger
	for r := hazard.Rule(0); r < hazard.RuleCount; r++ {
		c := r.Caution(hazard.Finding{Number: 3, Threshold: 2, Holds: true})
		if c.Rule != r || c.Number != 3 || c.Threshold != 2 {
			t.Errorf("rule %d becomes %+v", r, c)
		}
		if c.Severity < last {
			t.Errorf("%s is a %v behind a %v", c.Key, c.Severity, last)
		}
		last = c.Severity
		if !key.MatchString(c.Key) || keys[c.Key] {
			t.Errorf("key %q", c.Key)
		}
		keys[c.Key] = true
		if _, ok := quantity.Of(c.Quantity); !ok {
			t.Errorf("%s has no quantity %q", c.Key, c.Quantity)
		}
		if c.Source == "" || strings.HasSuffix(c.Source, ".") {
			t.Errorf("%s has the source %q", c.Key, c.Source)
		}
		if p := c.Precaution; p == "" || strings.HasSuffix(p, ".") || strings.ToLower(p[:1]) != p[:1] || precautions[p] {
			t.Errorf("%s has the precaution %q", c.Key, p)
		}
		precautions[c.Precaution] = true
	}
	if last != hazard.Notice {
		t.Errorf("the last rule is a %v", last)
	}
	for s, word := range map[hazard.Severity]string{hazard.Danger: "danger", hazard.Warning: "warning", hazard.Notice: "notice"} {
		if s.String() != word {
			t.Errorf("%q for %q", s, word)
		}
	}
	if !strings.Contains(hazard.Disclaimer, "does not mean safe") {
		t.Error(hazard.Disclaimer)
	}
}

// Ranking walks the rules in their order, whatever the numbers are.
func TestRankingIsTotalAndStable(t *testing.T) {
	var all hazard.Found
	for r := range all {
		all[r] = hazard.Finding{Number: float64(r * 7919 % 31), Holds: true}
	}
	list := all.Ranked()
	if len(list) != hazard.RuleCount {
		t.Fatalf("%d of %d rules", len(list), hazard.RuleCount)
	}
	for i, c := range list {
		if int(c.Rule) != i {
			t.Errorf("place %d has rule %d", i, c.Rule)
		}
	}
	var none hazard.Found
	if list := none.Ranked(); len(list) != 0 {
		t.Errorf("cautions of nothing: %v", list)
	}
}

// More of what hurts never takes a caution away, but for a graver one in its place.
func TestMoreSpeedIsNeverSafer(t *testing.T) {
	gravest := func(f *hazard.Facts) (dangers, all int) {
		for _, c := range ranked(f) {
			if all++; c.Severity == hazard.Danger {
				dangers++
			}
		}
		return dangers, all
	}
	lastDangers, lastAll := 0, 0
	for u := 1.0; u < 330; u++ {
		f := turning(u)
		f.Current, f.Voltage, f.Sound = 1e-6*u*u*u, 12, 20+50*math.Log10(u)
		f.Build = hazard.Build{Blade: hazard.GlassFilledNylon, HubRatio: 0.2, WireGauge: 16, WireLength: 1, FuseRating: 10, SupplyRating: 20}
		dangers, all := gravest(&f)
		if dangers < lastDangers || all < lastAll {
			t.Fatalf("at %g m/s %d dangers of %d cautions, slower %d of %d", u, dangers, all, lastDangers, lastAll)
		}
		lastDangers, lastAll = dangers, all
	}
	if lastDangers < 3 {
		t.Errorf("%d dangers at the end", lastDangers)
	}
}

func TestCautionsDoNotAllocate(t *testing.T) {
	count := 0
	allocations := testing.AllocsPerRun(100, func() {
		f := turning(133)
		f.Current, f.Voltage, f.Build.WireArea = 20, 12, 1.5*mm2
		found := hazard.Cautions(&f)
		if found[hazard.TipSpeed].Holds {
			count++
		}
	})
	if allocations != 0 || count == 0 {
		t.Errorf("%g allocations, %d cautions", allocations, count)
	}
}

// A fact of the trade (common practice, no source): prolonged 100 dB is harmful. An
// hour of it is a warning by every rule here; ten minutes are still loud.
func TestProlongedHundredIsHarmful(t *testing.T) {
	facts := func(minutes float64) hazard.Facts {
		dose := func(permitted float64) float64 { return sound.Dose(100, minutes*60, permitted) }
		return hazard.Facts{Sound: 100, NIOSHDose: dose(sound.PermittedNIOSH(100)), OSHADose: dose(sound.PermittedOSHA(100)), Daily: sound.DailyExposure(100, minutes*60)}
	}
	long, short := facts(60), facts(10)
	for _, rule := range []hazard.Rule{hazard.NIOSHDose, hazard.OSHAAction, hazard.EUAction, hazard.Loud} {
		if found := hazard.Cautions(&long); !found[rule].Holds {
			t.Errorf("an hour of 100 dB(A): rule %d does not hold", rule)
		}
		if found := hazard.Cautions(&short); found[rule].Holds != (rule == hazard.Loud) {
			t.Errorf("ten minutes of 100 dB(A): rule %d: %+v", rule, found[rule])
		}
	}
}

// The energy of a blade of no stated mass says that its mass is assumed; with one, and
// in every other caution, nothing is.
func TestAnAssumedMassIsSaid(t *testing.T) {
	for _, stated := range []float64{0, 1e-3} {
		for speed, rule := range map[float64]hazard.Rule{133: hazard.FragmentBeyondSpectacles, 250: hazard.FragmentBeyondGoggles} {
			f := turning(speed)
			f.Build.FragmentMass = stated
			seen := false
			for _, c := range ranked(&f) {
				seen = seen || c.Rule == rule
				if want := c.Rule == rule && stated == 0; (c.Assumption != "") != want {
					t.Errorf("%s of a mass of %g kg assumes %q", c.Key, stated, c.Assumption)
				}
			}
			if !seen {
				t.Errorf("at %g m/s rule %d does not hold", speed, rule)
			}
		}
	}
}

// What blades bear, at the speed at which they have it.
func TestBladesBearAQuarterOfTheirStrength(t *testing.T) {
	b := hazard.Build{Blade: hazard.Polycarbonate}
	if speed := b.BladeSpeed(); math.Abs(speed-158.1) > 0.05 {
		t.Errorf("polycarbonate bears %g m/s, want 158.1 from 15 MPa = ½ 1200 kg/m³ u²", speed)
	}
	for _, m := range hazard.Materials() {
		b := hazard.Build{Blade: m, HubRatio: 0.2}
		stress, borne := b.BladeStress(b.BladeSpeed())
		if math.Abs(stress/borne-1) > 1e-12 || math.Abs(borne/m.Properties().Strength-0.25) > 1e-12 {
			t.Errorf("%v has %g Pa of %g Pa at %g m/s", m, stress, borne, b.BladeSpeed())
		}
	}
	b = hazard.Build{}
	if stress, borne := b.BladeStress(100); stress != 0 || borne != 0 || b.BladeSpeed() != 0 {
		t.Errorf("blades of nothing known have %g Pa of %g Pa, and bear %g m/s", stress, borne, b.BladeSpeed())
	}
}
