package hazard

import (
	"errors"
	"math"

	"finduel/model/quantity"
)

// Build is how a setup is built, as far as its owner says. A field of 0 is not known,
// and so the zero value is a build of which nothing is known.
type Build struct {
	Blade        Material // of the blades
	HubRatio     float64  // hub over rotor diameter, 0 to 0.9; not known counts as no hub, which has the greatest stress
	FragmentMass float64  // of a blade that may come off, kg, to 1; not known is estimated by FragmentMass
	Improvised   bool     // a bare rotor on a motor, not a fan that is sold in its frame
	Running      Running  // whether somebody stays with it

	Shroud Material // of shroud, duct or frame

	WireGauge       float64 // AWG number, a whole number from 6 to 28
	WireArea        float64 // conductor area in place of the gauge, m², 8.1e-8 (28 AWG) to 1e-4
	WireLength      float64 // one way from supply to motor controller or fan, m, to 100
	ConnectorRating float64 // rated current, A, to 1000
	SupplyRating    float64 // rated current, A, to 1000
	FuseRating      float64 // rated current, A, to 1000

	GuardShape    Opening // of the guard's openings
	GuardOpening  float64 // their size, m, to 0.12; a closed wall counts as 1 mm
	GuardDistance float64 // from the guard to the blades, m, to 10; counts only with an opening, then 0 is 0
}

// Running says whether somebody stays with a running setup.
type Running int

// Who stays.
const (
	RunningNotKnown Running = iota
	Attended
	Unattended
)

// String returns the word as written in studies.
func (r Running) String() string {
	switch r {
	case Attended:
		return "attended"
	case Unattended:
		return "unattended"
	}
	return "not known"
}

// Check returns joined *quantity.RangeError for every number that no build can have,
// and for a wire of both a gauge and an area. Keys: hub_ratio, fragment_mass,
// wire_gauge, wire_area, wire_length, connector_rating, supply_rating, fuse_rating,
// guard_opening, guard_distance.
func (b *Build) Check() error {
	err := errors.Join(
		within(b.HubRatio, 0, 0.9, "hub_ratio", "must lie between 0 and 0.9"),
		within(b.FragmentMass, 0, 1, "fragment_mass", "must lie between 0 and 1 kg"),
		within(b.WireLength, 0, 100, "wire_length", "must lie between 0 and 100 m"),
		within(b.ConnectorRating, 0, 1000, "connector_rating", "must lie between 0 and 1000 A"),
		within(b.SupplyRating, 0, 1000, "supply_rating", "must lie between 0 and 1000 A"),
		within(b.FuseRating, 0, 1000, "fuse_rating", "must lie between 0 and 1000 A"),
		within(b.GuardOpening, 0, LargestOpening, "guard_opening", "must lie between 0 and 120 mm"),
		within(b.GuardDistance, 0, 10, "guard_distance", "must lie between 0 and 10 m"),
	)
	if g := b.WireGauge; g != 0 && !(g >= 6 && g <= 28 && g == math.Trunc(g)) {
		err = errors.Join(err, &quantity.RangeError{Key: "wire_gauge", Value: g, Low: 6, High: 28, Rule: "must be a whole number from 6 to 28"})
	}
	if b.WireArea != 0 {
		err = errors.Join(err, within(b.WireArea, 8.1e-8, 1e-4, "wire_area", "must lie between 0.081 and 100 mm²"))
		if b.WireGauge != 0 {
			err = errors.Join(err, &quantity.RangeError{Key: "wire_area", Value: b.WireArea, Low: 0, High: 0, Rule: "says again what wire_gauge says: give one of them"})
		}
	}
	return err
}

// Area returns the conductor area of the wire, m², given or by its gauge; 0 if
// neither is known.
func (b *Build) Area() float64 {
	if b.WireArea == 0 && b.WireGauge != 0 {
		return WireArea(b.WireGauge)
	}
	return b.WireArea
}

// within is false for NaN too.
func within(v, low, high float64, key, rule string) error {
	if v >= low && v <= high {
		return nil
	}
	return &quantity.RangeError{Key: key, Value: v, Low: low, High: high, Rule: rule}
}
