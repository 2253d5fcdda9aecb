package doubt

import (
	"errors"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat/distuv"

	"finduel/model"
	"finduel/model/air"
	"finduel/model/core"
	"finduel/model/quantity"
	"finduel/sweep/study"
)

// Side says whom a source belongs to.
type Side int

// The sides.
const (
	Both       Side = iota // common: one error for both setups
	Challenger             // the challenger's own
	Reference              // the reference's own
)

// String returns the word for the side.
func (s Side) String() string { return [...]string{"both", "challenger", "reference"}[s] }

// Source is something that is not known exactly.
type Source struct {
	Key   string // key of an input, or of a part of a correlation's doubt; letters, digits and underscores
	Of    Side   // common to both, or whose own
	Label string // in words, without the setup
	Limit string // how far it may be off, in words
	Why   string // where that is from
	Given bool   // by the study; else it is a default
}

// variable is a source with all that is needed to draw it.
type variable struct {
	Source
	shape distuv.Quantiler // in units of the half-width

	input    model.Input // what it changes; without a key if it is a part
	within   float64     // half-width of the input's error
	relative bool        // whether within is a share of the input

	part int // which part of the doubt that the model states it is; noPart for an input
}

// The parts of the doubt of a correlation, for the film and for the friction, and the
// doubt of a propeller's pressure.
const (
	filmLevel = iota
	filmOwn
	filmBeyond
	frictionLevel
	frictionOwn
	frictionBeyond
	rotorPressure // of a propeller in its shroud
	parts
	noPart = -1
)

// tolerance is a default for what neither data sheets nor studies say.
type tolerance struct {
	key    string
	within float64 // share of the number
	why    string
}

// usual holds the defaults for inputs, as rectangular limits (GUM 4.3.7 [1]).
var usual = []tolerance{
	{"heat_load", 0.02, "power meter and losses of hoses, common practice, no source"},
	{"plate_resistance", 0.20, "mounting and paste, common practice, no source"},
	{"coolant_flow", 0.05, "flow meters of the trade, common practice, no source"},
	{"pump_head", 0.10, "data sheet, common practice, no source"},
	{"pump_free_flow", 0.10, "data sheet, common practice, no source"},
	{"loop_drop", 0.30, "hoses and fittings, common practice, no source"},
	{"fin_depth", 0.03, "a rule laid against the core, common practice, no source"},
	{"fin_density", 0.05, "one fin in an inch, common practice, no source"},
	{"fan_speed", 0.03, "as set or read, common practice, no source"},
	{"free_air_flow", 0.10, "ISO 13348 grade AN4, from memory"},
	{"shut_off_pressure", 0.10, "ISO 13348 grade AN4, from memory"},
	{"thrust_coefficient", 0.10, "propellers of one make differ, common practice, no source"},
	{"power_coefficient", 0.20, "propellers of one make differ, and what they take changes in a shroud and in stall, common practice, no source"},
	{"rated_power", 0.10, "data sheet, common practice, no source"},
	{"fan_pressure_correction", 0.10, "the curve's shape, at every flow alike, on top of the doubt of its ends; common practice, no source"},
	{"air_density_correction", air.DensityDoubt, "the weather's pressure, common practice, no source"},
	{"air_viscosity_correction", air.ViscosityDoubt, "the formula against Lemmon & Jacobsen 2004, and vapour neglected"},
	{"air_conductivity_correction", air.ConductivityDoubt, "the formula against Lemmon & Jacobsen 2004, and vapour neglected"},
	{"air_specific_heat_correction", air.SpecificHeatDoubt, "taken as constant: Incropera & DeWitt, table A.4, from memory"},
	{"coolant_film_correction", 0.15, "laminar and transition flow in flat tubes, our own estimate"},
}

// estimatedDepth is the tolerance of a fin depth that follows from the overall
// thickness: fins take 55 % to 70 % of a slim core's, where 60 % is assumed (common
// practice, no source).
const estimatedDepth = 0.12

// borrowedThrust is the tolerance of a propeller's coefficient of thrust that another
// lends: those of three blades, 127 mm and like pitches in the table differ by as much.
const borrowedThrust = 0.20

// knowing returns a rig whose propeller has the coefficients that it borrows as its own,
// so that they can be in doubt.
func knowing(rig model.Rig) model.Rig {
	f := &rig.Fans.Fan
	if f.Pitch > 0 && f.ThrustCoefficient == 0 {
		if _, c, err := f.Resolved(); err == nil {
			f.ThrustCoefficient, f.PowerCoefficient = c.ThrustCoefficient, c.PowerCoefficient
		}
	}
	return rig
}

// The split of core.Doubt, the doubt of a core of unknown make, into three errors, by
// squares, at either end:
//
//	level   what the correlation is off as a whole: ±15 %, within which 89.3 % of its
//	        authors' film data and 83.1 % of their friction data lie; common to setups
//	        with the same fins
//	own     what one core differs from others of the same dimensions: the rest of the
//	        doubt inside the correlation's range, ±13 % of the film and ±26 % of the
//	        friction for louvers; separate
//	beyond  what is added outside the range of the correlation or of its dimensions;
//	        common to setups with the same fins, but it is nothing for the one inside
//
// Authors' data: Chang & Wang 1997 and Chang and others 2000, see package core. The
// split is our own.
const (
	levelLimit  = 0.15
	filmInRange = 0.20 // core.Doubt of louvers inside their range
	fricInRange = 0.30
	filmShare   = 0.893
	fricShare   = 0.8314
)

// split parts the limit of a doubt, 0 or more and below 1 for a low end, as above.
func split(limit, inRange float64) (level, own, beyond float64) {
	level = math.Min(limit, levelLimit)
	rest := limit*limit - level*level
	own = math.Sqrt(math.Min(rest, inRange*inRange-levelLimit*levelLimit))
	return level, own, math.Sqrt(math.Max(0, rest-own*own))
}

// widths are the logarithms of the factors by which each part of the doubt may change
// film or friction: at the low end, 0 or less, and at the high end. Those of a
// propeller's static pressure are its relative changes themselves.
type widths [parts][2]float64

// widthsOf returns the widths of film and friction in a doubt. The error of a part that
// lies z half-widths away, −1 to 1 for most draws, changes film or friction by
// exp(|z|·width): median 1, the limits at z = ±1, and never below zero.
func widthsOf(d core.Doubt) widths {
	var w widths
	for end, sign := range []float64{-1, 1} {
		film, friction := sign*[]float64{d.FilmLow, d.FilmHigh}[end], sign*[]float64{d.FrictionLow, d.FrictionHigh}[end]
		var limits [parts]float64
		limits[filmLevel], limits[filmOwn], limits[filmBeyond] = split(film, filmInRange)
		limits[frictionLevel], limits[frictionOwn], limits[frictionBeyond] = split(friction, fricInRange)
		for p, limit := range limits {
			w[p][end] = math.Log1p(sign * limit)
		}
	}
	return w
}

// partText is how each part is called and explained, for louvers.
var partText = [parts]struct{ key, label, limit, why string }{
	{"air_film_level", "air film: the correlation", "±15 %", "89.3 % of the authors' data of louvers, Chang & Wang 1997"},
	{"air_film_own", "air film: this core", "±13 %", "cores of unknown make, our own estimate"},
	{"air_film_beyond", "air film: beyond the correlation's range", "more the slower the air", "our own extension, our own estimate"},
	{"air_friction_level", "core's air pressure drop: the correlation", "±15 %", "83.1 % of the authors' data of louvers, Chang and others 2000"},
	{"air_friction_own", "core's air pressure drop: this core", "±26 %", "cores of unknown make, our own estimate"},
	{"air_friction_beyond", "core's air pressure drop: beyond the correlation's range", "more the slower the air", "our own extension, our own estimate"},
	{"rotor_pressure", "propeller's pressure in its shroud", "as stated of every point", "common practice, no source; stalled blades were not measured"},
}

// isFilm and isFriction report whether a part belongs to the film, or to the friction.
func isFilm(part int) bool     { return part <= filmBeyond }
func isFriction(part int) bool { return part > filmBeyond && part <= frictionBeyond }

// correctionOf names the input that stands for the film's parts, the friction's, or the
// propeller's.
func correctionOf(part int) string {
	switch {
	case isFilm(part):
		return "air_film_correction"
	case isFriction(part):
		return "air_friction_correction"
	}
	return "fan_pressure_correction"
}

// variablesOf lists what may be wrong with the two setups of a study: inputs in the
// order of model.Inputs, since some take others along, then the parts of the
// correlations' doubt. With separate, whatever is common is drawn for each setup on its
// own, to show what that would do.
func variablesOf(s *study.Study, separate bool) []variable {
	var list []variable
	add := func(v variable, common bool, sides ...Side) {
		if common && !separate && len(sides) == 2 {
			sides = []Side{Both}
		}
		for _, side := range sides {
			v.Of = side
			list = append(list, v)
		}
	}
	for _, in := range model.Inputs {
		a, okA := inputVariable(s, in, s.Challenger)
		b, okB := inputVariable(s, in, s.Reference)
		switch {
		case okA && okB && a.common && b.common && a.within == b.within && a.relative == b.relative && a.shape == b.shape:
			add(a.variable, true, Challenger, Reference)
		default:
			if okA {
				add(a.variable, false, Challenger)
			}
			if okB {
				add(b.variable, false, Reference)
			}
		}
	}
	surface := func(setup int) core.Surface { return s.Setups[setup].Rig.Core.Surface }
	same := surface(s.Challenger) == surface(s.Reference)
	for part := range partText {
		text := partText[part]
		of := func(setup int) variable {
			v := variable{Source: Source{Key: text.key, Label: text.label, Limit: text.limit, Why: text.why}, part: part, shape: standard(study.Rectangular)}
			level := part == filmLevel || part == frictionLevel
			switch louvered := surface(setup) == core.Louvered; {
			case louvered && part == filmLevel:
				v.shape = within(filmShare)
			case louvered && part == frictionLevel:
				v.shape = within(fricShare)
			case !louvered && level:
				v.Limit, v.Why = "up to "+v.Limit, "published solutions or the authors' data, from memory, and our own estimate; limits"
			case !louvered && (part == filmOwn || part == frictionOwn):
				v.Limit = "up to " + v.Limit
			}
			return v
		}
		var sides []Side
		for side, setup := range map[Side]int{Challenger: s.Challenger, Reference: s.Reference} {
			_, given := givenFor(s, correctionOf(part), setup)
			if !given && (part != rotorPressure || s.Setups[setup].Rig.Fans.Fan.Pitch > 0) {
				sides = append(sides, side)
			}
		}
		slices.Sort(sides)
		own := part == filmOwn || part == frictionOwn
		if part != rotorPressure && (same && !own || own && sameCore(s)) {
			add(of(s.Challenger), true, sides...)
			continue
		}
		for _, side := range sides {
			add(of(map[Side]int{Challenger: s.Challenger, Reference: s.Reference}[side]), false, side)
		}
	}
	return list
}

// candidate is an input's variable for one setup.
type candidate struct {
	variable
	common bool
}

// inputVariable returns what may be wrong with an input of a setup, and false if
// nothing is.
func inputVariable(s *study.Study, in model.Input, setup int) (candidate, bool) {
	rig := knowing(s.Setups[setup].Rig)
	v := candidate{
		variable: variable{Source: Source{Key: in.Key, Label: strings.TrimPrefix(in.Label, "correction of the ")}, input: in, part: noPart},
		common:   in.Shared || slices.Contains(commonCorrections, in.Key) || sameCore(s) && ofCore(in, rig),
	}
	if in.Unused(&rig) || in.Whole {
		return v, false
	}
	t, given := givenFor(s, in.Key, setup)
	if given {
		v.within, v.relative, v.shape, v.Given, v.Why = t.Within, t.Relative, standard(t.Shape), true, "the study, "+t.Shape.String()
		if t.Error != study.AsUsual {
			v.common = t.Error == study.Common
		}
	} else {
		v.relative, v.shape = !strings.HasSuffix(in.Key, "_correction"), standard(study.Rectangular)
		v.within, v.Why = usualFor(&s.Setups[setup], in)
	}
	v.Limit = limitText(in, v.within, v.relative)
	return v, v.within > 0 && !(v.relative && in.Get(&rig) == 0)
}

// Excess is a tolerance that leaves the range that its input may have.
type Excess struct {
	Source
	Rule string // the range, in words with units
}

// reach is how much of a distribution is looked at, from either end, to see whether it
// leaves a range: one draw in ten thousand may lie beyond.
const reach = 1e-4

// Excesses returns the inputs of a study, with the tolerance of which draws leave the
// range that the input may have, at its own value or at one of its axis: such draws have no
// value. It is empty if there are none.
func Excesses(s *study.Study) []Excess {
	var list []Excess
	for _, v := range variablesOf(s, false) {
		if v.part != noPart || v.input.Key == "fan_speed" { // a speed is turned, not checked as an input
			continue
		}
		setup := s.Challenger
		if v.Of == Reference {
			setup = s.Reference
		}
		rig := knowing(s.Setups[setup].Rig)
		values := []float64{v.input.Get(&rig)}
		for _, a := range s.Axes {
			if a.Input.Key == v.input.Key && v.Of != Reference {
				values = append(values, a.Values...)
			}
		}
		if rule := v.leaves(values); rule != "" {
			list = append(list, Excess{v.Source, rule})
		}
	}
	return list
}

// leaves returns the rule that a draw from around any of some values breaks; empty if none
// does.
func (v *variable) leaves(values []float64) string {
	for _, value := range values {
		for _, p := range []float64{reach, 1 - reach} {
			var out *quantity.RangeError
			if err := v.input.Check(v.off(value, v.shape.Quantile(p))); errors.As(err, &out) {
				return out.Rule
			}
		}
	}
	return ""
}

// off returns a value of the input with an error, in half-widths.
func (v *variable) off(value, z float64) float64 {
	if v.relative {
		return value * (1 + v.within*z)
	}
	return value + v.within*z
}

// commonCorrections are those of what both setups share: the coolant's film and the
// properties of coolant and air.
var commonCorrections = []string{
	"coolant_film_correction", "coolant_viscosity_correction", "coolant_conductivity_correction", "coolant_specific_heat_correction",
	"air_density_correction", "air_viscosity_correction", "air_conductivity_correction", "air_specific_heat_correction",
}

// sameCore reports whether both setups have the same core, whose dimensions are then
// the same errors; not where an axis changes the challenger's.
func sameCore(s *study.Study) bool {
	core, rig := s.Setups[s.Challenger].Core, s.Setups[s.Challenger].Rig
	return core != "" && core == s.Setups[s.Reference].Core &&
		!slices.ContainsFunc(s.Axes, func(a study.Axis) bool { return ofCore(a.Input, rig) })
}

// ofCore reports whether an input is a dimension of the core.
func ofCore(in model.Input, rig model.Rig) bool {
	before := rig.Core
	in.Set(&rig, in.Get(&rig)*(1+1e-6))
	return rig.Core != before
}

// usualFor returns the default tolerance of an input of a setup, 0 if it has none, and
// where it is from.
func usualFor(setup *study.Setup, in model.Input) (within float64, why string) {
	liquid := setup.Rig.Coolant.Liquid
	const coolant = "IAPWS SR6-08 for water, from memory; of glycol how far Melinder 2010 and ASHRAE differ"
	switch {
	case in.Key == "coolant_viscosity_correction":
		return liquid.ViscosityDoubt(), coolant
	case in.Key == "coolant_conductivity_correction":
		return liquid.ConductivityDoubt(), coolant
	case in.Key == "coolant_specific_heat_correction":
		return liquid.SpecificHeatDoubt(), coolant
	case in.Key == "fan_pressure_correction" && setup.Rig.Fans.Fan.Pitch > 0:
		return 0, "" // the doubt that the model states of a propeller takes its place
	case in.Key == "thrust_coefficient" && setup.Rig.Fans.Fan.ThrustCoefficient == 0:
		return borrowedThrust, "of another propeller, by how much those of the table differ"
	case in.Key == "fin_depth" && slices.Contains(setup.Estimated, in.Key):
		return estimatedDepth, "estimated from the overall thickness, common practice, no source"
	}
	for _, t := range usual {
		if t.key == in.Key {
			return t.within, t.why
		}
	}
	return 0, ""
}

// givenFor returns what the study says of an input of a setup, and false if nothing.
func givenFor(s *study.Study, key string, setup int) (study.Tolerance, bool) {
	for i := len(s.Doubt.Tolerances) - 1; i >= 0; i-- {
		t := s.Doubt.Tolerances[i]
		if t.Input.Key == key && (t.Setup == setup || t.Setup == study.BothSetups) {
			return t, true
		}
	}
	return study.Tolerance{}, false
}
