package study

import (
	"slices"
	"strings"

	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/quantity"
)

// builder turns a document into a study.
type builder struct {
	*findings
	doc    document
	places map[string]place
}

// directory is a list of things by their names.
type directory struct {
	what  string         // what one of them is, with its article
	names []string       // empty where a name cannot be read
	index map[string]int // by the name in lower case
	whole bool           // whether all names can be read
}

// directory reads the names of a list. It reports a name that another has too,
// or has but for its case.
func (f *findings) directory(what string, leaves []*leaf) directory {
	d := directory{what: what, index: map[string]int{}, whole: len(leaves) > 0}
	for i, l := range leaves {
		name, ok := f.name(l)
		d.names = append(d.names, name)
		if !ok {
			d.whole = false
			continue
		}
		if j, taken := d.index[strings.ToLower(name)]; taken {
			if d.names[j] == name {
				f.fault(l, "is given twice: "+leaves[j].path+" has it too", "give each its own name")
			} else {
				f.fault(l, "is the name of two: "+leaves[j].path+" has it too", "names must differ by more than upper and lower case")
			}
			continue
		}
		d.index[strings.ToLower(name)] = i
	}
	return d
}

// find returns which of a directory a leaf names. It reports a name that is not
// there, unless it may be one that could not be read.
func (f *findings) find(d directory, l *leaf) (int, bool) {
	name, ok := f.word(l)
	if !ok {
		return 0, false
	}
	if i, ok := d.index[strings.ToLower(name)]; ok && d.names[i] == name {
		return i, true
	}
	if d.whole {
		f.fault(l, "is not the name of "+d.what, choiceHint(name, "there are", d.names))
	}
	return 0, false
}

// base returns the conditions that all setups share.
func (b *builder) base() model.Rig {
	rig := Defaults()
	b.room(&rig)
	b.set(b.doc.Heat, &rig)
	rig.Coolant.Liquid = b.liquid()
	b.set(b.doc.Coolant, &rig)
	b.pump(&rig)
	return rig
}

// liquid returns the coolant with its default share of glycol. It reports a share
// that is given of water.
func (b *builder) liquid() coolant.Liquid {
	part := b.doc.Coolant
	fluid := choice(b.findings, part.Fluid, coolant.Water, coolant.EthyleneGlycol, coolant.PropyleneGlycol)
	if fluid != coolant.Water {
		return coolant.Liquid{Fluid: fluid, GlycolShare: defaultGlycolShare}
	}
	if part.GlycolShare != nil && b.knowsFluid() {
		b.fault(part.GlycolShare, "means nothing: water holds no glycol", "remove it, or write "+glycols)
	}
	return coolant.Liquid{Fluid: coolant.Water}
}

// glycols is what a hint tells to write instead of water.
var glycols = "fluid: " + coolant.EthyleneGlycol.String() + ", or fluid: " + coolant.PropyleneGlycol.String()

// knowsFluid reports whether the fluid that the builder has is the one that was
// meant: given in order, or not at all.
func (b *builder) knowsFluid() bool {
	return !b.touched["coolant.fluid"] && !b.meant["coolant.fluid"] && !b.sectionSpoilt("coolant")
}

// pump leaves the coolant flow to the pump if there is one. It reports half a pump,
// a pump beside a flow, and a loop without a pump.
func (b *builder) pump(rig *model.Rig) {
	part := b.doc.Coolant
	if part.PumpHead == nil && part.PumpFreeFlow == nil && part.PumpExponent == nil {
		for _, l := range []*leaf{part.LoopDrop, part.LoopDropFlow} {
			if l != nil && !b.meant["coolant.pump_head"] && !b.meant["coolant.pump_free_flow"] {
				b.fault(l, flowGiven, hintPump)
			}
		}
		return
	}
	rig.Coolant.Flow = 0
	if part.Flow != nil {
		b.fault(part.Flow, "is given beside a pump", "give flow, or pump_head and pump_free_flow")
	}
	for _, need := range []struct {
		leaf      *leaf
		key, hint string
	}{
		{part.PumpHead, "pump_head", "add pump_head: 40 kPa, the pump's pressure without flow"},
		{part.PumpFreeFlow, "pump_free_flow", "add pump_free_flow: 1100 L/h, the pump's flow without resistance"},
	} {
		if at := keyPath("coolant", need.key); need.leaf == nil && !b.meant[at] {
			b.add(b.places["coolant"], at, "", "is missing", need.hint)
		}
	}
}

// The words of cores, the default first.
var (
	surfaces     = core.Surfaces()
	arrangements = core.Arrangements()
	routings     = core.Routings()
	feeds        = core.Feeds()
)

// core returns the geometry of a core.
func (b *builder) core(i int) core.Geometry {
	part := b.doc.Cores[i]
	surface := choice(b.findings, part.Fins, surfaces[:]...)
	rig := model.Rig{Core: core.TypicalGeometry(choice(b.findings, part.Metal, core.Copper, core.Aluminium), surface)}
	b.set(part, &rig)
	rig.Core.Feed = choice(b.findings, part.StackFeed, feeds[:]...)
	b.face(part, itemPath("cores", i), &rig)
	b.depth(part, itemPath("cores", i))
	rig.Core.Arrangement = choice(b.findings, part.Arrangement, arrangements[:]...)
	rig.Core.Routing = choice(b.findings, part.Routing, routings[:]...)
	b.cuts(surface, part.StripLength, part.LouverPitch, part.LouverLength, part.LouverAngle)
	if !b.touched[itemPath("cores", i)] {
		b.relate(rig.Core.Check(), part, itemPath("cores", i), func(key string) string { return remedy(rig.Core, key) })
	}
	return rig.Core
}

// cuts reports what is given of strips and louvers that fins of a surface have not.
func (f *findings) cuts(surface core.Surface, strip *leaf, louvers ...*leaf) {
	none := func(l *leaf, what string, has core.Surface) {
		if l != nil && surface != has {
			f.fault(l, "means nothing: "+surface.String()+" fins have no "+what, "remove it, or write fins: "+has.String())
		}
	}
	none(strip, "strips", core.OffsetStrip)
	for _, l := range louvers {
		none(l, "louvers", core.Louvered)
	}
}

// face sets the face of a core, length along the tubes and width across.
func (b *builder) face(part corePart, path string, rig *model.Rig) {
	if len(part.Face) == 0 {
		return // reported
	}
	if len(part.Face) != 2 {
		at, like := keyPath(path, "face"), "[92 mm, 88 mm]"
		if len(part.Face) == 1 && part.Face[0] != nil {
			like = apart(part.Face[0].text, like)
		}
		b.add(b.places[at], at, "", "is not a length and a width", "write it like this: face: "+like+", along the tubes and across")
		return
	}
	for i, key := range []string{"face_length", "face_width"} {
		in, _ := model.InputOf(key)
		if m, ok := b.number(part.Face[i], in); ok {
			in.Set(rig, m.si)
		}
	}
}

// apart writes two lengths that stand as one, "110 x 105 mm" or "110 mm x 105 mm", as a
// list; anything else it leaves for another text.
func apart(text, other string) string {
	first, second, found := strings.Cut(strings.ReplaceAll(text, "×", "x"), "x")
	a, unitA := splitNumber(strings.TrimSpace(first))
	b, unitB := splitNumber(strings.TrimSpace(second))
	unitA, unitB = strings.TrimSpace(unitA), strings.TrimSpace(unitB)
	if unitA == "" {
		unitA = unitB
	}
	_, okA := unitOf(quantity.Length, unitA)
	_, okB := unitOf(quantity.Length, unitB)
	if !found || a == "" || b == "" || !okA || !okB {
		return other
	}
	return "[" + a + " " + unitA + ", " + b + " " + unitB + "]"
}

// depth reports a core that gives its depth not at all or twice.
func (b *builder) depth(part corePart, path string) {
	depth := keyPath(path, "fin_depth")
	switch {
	case part.FinDepth != nil && part.OverallThickness != nil:
		b.fault(part.OverallThickness, "stands for fin_depth, which is given too", "keep one of the two: fin_depth is the fins alone, overall_thickness has the housing in it")
	case part.FinDepth == nil && part.OverallThickness == nil && !b.sectionSpoilt(path) && !b.meant[depth] && !b.meant[keyPath(path, "overall_thickness")]:
		b.add(b.places[path], depth, "", "is missing", "add fin_depth: 34 mm, the fins alone; or overall_thickness: 45 mm, housing included")
	}
}

// sectionSpoilt reports whether a fault of a section as a whole is reported, as
// that it is none: nothing is then to be missed in it.
func (b *builder) sectionSpoilt(path string) bool {
	return b.touched[path] && slices.ContainsFunc(b.list, func(f Fault) bool { return f.Path == path })
}

// setups returns the setups and the fans, and which of the setups have no fault,
// neither themselves nor in their core and fan.
func (b *builder) setups() (setups []Setup, all []Fan, sound []bool) {
	base := b.base()
	cores := b.directory("a core", nameLeaves(b.doc.Cores, func(p corePart) *leaf { return p.Name }))
	fans := b.directory("a fan", nameLeaves(b.doc.Fans, func(p fanPart) *leaf { return p.Name }))
	geometries := make([]core.Geometry, len(b.doc.Cores))
	for i := range b.doc.Cores {
		geometries[i] = b.core(i)
	}
	made := make([]fan.Fan, len(b.doc.Fans))
	for i := range b.doc.Fans {
		made[i] = b.fan(i)
		all = append(all, Fan{fans.names[i], made[i]})
	}
	for _, part := range b.doc.Setups {
		rig := base
		c, okCore := b.find(cores, part.Core)
		if okCore {
			rig.Core = geometries[c]
		}
		f, okFan := b.find(fans, part.Fan)
		if okFan {
			rig.Fans.Fan = made[f]
			rig.Speed = min(made[f].RatedSpeed, made[f].TopSpeed)
		}
		rig.Placing = choice(b.findings, part.Placing, placings...)
		b.set(part, &rig)
		b.set(part.Installed, &rig)
		b.set(part.Corrections, &rig)
		rig.Installed.Shroud = choice(b.findings, part.Installed.Shroud, shrouds...)
		b.build(part.Build, &rig)
		ok := okCore && okFan && !b.touched[itemPath("cores", c)] && !b.touched[itemPath("fans", f)]
		s := Setup{Rig: rig}
		if ok {
			s.Core, s.Fan = cores.names[c], fans.names[f]
			if b.doc.Cores[c].OverallThickness != nil {
				s.Estimated = []string{"fin_depth"}
			}
		}
		if ok && part.StoppedFans != nil && rig.Fans.Stopped >= rig.Fans.Count {
			b.fault(part.StoppedFans, "leaves none of them turning", "write fewer than fans")
		}
		if ok && part.Speed != nil && rig.Speed > rig.Fans.Fan.TopSpeed {
			b.fault(part.Speed, aboveTop("fan "+s.Fan, rig.Fans.Fan.TopSpeed), lowerSpeed)
		}
		setups, sound = append(setups, s), append(sound, ok)
	}
	return setups, all, sound
}

func nameLeaves[T any](parts []T, name func(T) *leaf) []*leaf {
	var leaves []*leaf
	for _, p := range parts {
		leaves = append(leaves, name(p))
	}
	return leaves
}

// aboveTop says that a speed is above what a fan can, whose top speed is in rev/s.
func aboveTop(which string, top float64) string {
	in, _ := model.InputOf("top_speed")
	return "is above the top speed of " + which + ", " + show(top, in.Shown)
}

// lowerSpeed is what to do about a speed above the top speed.
const lowerSpeed = "lower it, or raise top_speed of the fan"
