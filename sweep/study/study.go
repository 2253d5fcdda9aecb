package study

import (
	"slices"

	"finduel/model"
	"finduel/model/fan"
)

// Study is a study file, read, checked and converted: SI units, defaults filled
// in.
type Study struct {
	File   string // as given, for messages
	Name   string // names the output folder: letters, digits, '-', '_', '.', ' '
	About  string // one line for charts and the workbook; may be empty
	Setups []Setup

	Challenger int      // index into Setups: whose inputs are swept
	Reference  int      // index into Setups: what the challenger is measured against
	Metric     string   // key of the output that is compared: coolant_over_air, coolant_mean_over_air or chip_over_air
	Axes       []Axis   // in file order; crossed, but for those of one group
	Margin     float64  // what the bench cannot tell from nothing, K, above 0; 0, where no file was read, stands for DefaultMargin
	Maps       [][2]int // over which two axes the break-even is drawn, as indices into Axes: across, then up; none: what suits. No part of the hash
	Fans       []Fan    // every fan of the file, whether a setup has it or not

	Exclusions []Exclusion // combinations that are not evaluated
	Doubt      Doubt       // how sure the numbers are

	// Hash identifies what is computed: the SHA-256, in hex, of a canonical text of
	// all values above but File and About. Two files that say the same have the same
	// hash, whatever their layout, units and order of keys.
	Hash string

	// Source is the file as it was read, in the format "yaml", "json" or "toml"; a run
	// keeps a copy of it beside its results.
	Source []byte
	Format string
}

// Setup is a core with its fans and how they are placed, under the conditions of
// the study.
type Setup struct {
	Name string
	Core string // name of the core
	Fan  string // name of the fan
	Rig  model.Rig

	// Estimated holds the keys of the inputs whose value is estimated from another
	// one, in the order of model.Inputs: "fin_depth" where the core gives its overall
	// thickness. It is no part of the hash. What the model estimates anew for every
	// design is not among them; see Estimates.
	Estimated []string

	// Notes says, in sentences, what a reader must know of a setup that Apply changed.
	// They are no part of the hash.
	Notes []string
}

// Estimates returns the keys of all inputs of a setup whose value is an estimate, in the
// order of model.Inputs: those of Estimated, and "rated_sound" where no sound is given.
func (s *Setup) Estimates() []string {
	list := s.Estimated
	if s.Rig.Fans.Fan.EstimatedSound {
		list = append(slices.Clip(list), "rated_sound")
	}
	return list
}

// Fan is a fan of the file by its name.
type Fan struct {
	Name string
	Fan  fan.Fan
}

// Axis is one swept input and its values.
type Axis struct {
	Input  model.Input
	Values []float64 // SI, at least one, in file order
	Group  string    // axes of one group run in step and have equally many values; empty: crossed
}

// Exclusion is a combination that makes no sense: a point is left out if every
// condition of it holds.
type Exclusion []Condition

// Condition holds for a point whose challenger has the input strictly above
// Above or strictly below Below.
type Condition struct {
	Input        model.Input
	Above, Below float64 // SI; +Inf or -Inf where not given
}

// Excludes reports whether a challenger's rig is a left-out combination.
func (s *Study) Excludes(rig *model.Rig) bool {
	for _, e := range s.Exclusions {
		all := len(e) > 0
		for _, c := range e {
			v := c.Input.Get(rig)
			all = all && (v > c.Above || v < c.Below)
		}
		if all {
			return true
		}
	}
	return false
}
