package model

import (
	"errors"

	"finduel/model/quantity"
)

// Installed is what a setup loses between fan, core and room as it is built. The zero
// value is the clean bench: nothing lost. What is typical is common practice, no
// source, but where one is named.
type Installed struct {
	// GrilleLoss is the loss of a grille or filter over the face, in heads of the face
	// velocity w of the air through the core and the room's density, 0 or more:
	//
	//	Δp = K ρ w²/2
	//
	// Typical: 0.3 to 1.5 for a grille. The noise that it makes is not modelled.
	GrilleLoss float64

	// Leakage is the share of the fans' mass flow that misses the fins, 0 to below 1:
	// round the core and through its frame. In push it is air that the fans have
	// warmed; in pull it is room air that mixes with the core's before the fans.
	// Typical: 2 % to 5 %; 0 with a sealed shroud. A gap of area A at a pressure
	// difference Δp leaks about 0.6 A (2 Δp/ρ)^½.
	Leakage float64

	// HubShadow is the share of the face that gets no air behind fan hubs and in the
	// corners of their frames, 0 to below 1; see core.Core.Shadow. Typical: 0 with a
	// plenum of 20 mm and more between fan and core, 5 % to 15 % without. A rotor of
	// diameter D and hub d in a square frame of side a leaves 1 − (π/4)(D² − d²)/a² of
	// it unswept, 35 % to 40 %, but the core's resistance spreads the air.
	HubShadow float64

	// Dust is the share of the core's free-flow area that dust has closed, 0 to below
	// 1; see core.Core.Block. Typical: 0 when clean, 5 % to 20 % after a year
	// without a filter.
	Dust float64

	// SeriesLoss is the share of the sum of both pressures that is lost to swirl where
	// fans stand before and behind the core, 0 to below 1; matters only in push-pull.
	// Typical: 5 % to 20 % (from memory).
	SeriesLoss float64

	// Shroud says what becomes of the part of a rotor's disc that lies beside the face.
	// Several rotors stand in the grid that has most of their discs on it, see
	// fan.DiscsOnFace.
	Shroud Shroud
}

// Shroud says how the fans are joined to the core.
type Shroud int

// The shrouds. A disc that lies over the face with all of it has no use for them.
const (
	Ducted  Shroud = iota // a duct leads all the air of the fans into the face
	Blocked               // a wall covers what misses: that part of the disc moves no air, but takes its power
	Open                  // what misses blows past the core, and takes its share of the heat along
)

// String returns the shroud as written in studies.
func (s Shroud) String() string {
	switch s {
	case Blocked:
		return "blocked"
	case Open:
		return "open"
	}
	return "ducted"
}

// TypicalSeriesLoss is the middle of what is lost (from memory).
const TypicalSeriesLoss = 0.1

// mostShare is the greatest share of air, face or passages that may be lost.
const mostShare = 0.9

// Check returns joined *quantity.RangeError for what no setup can lose.
func (i Installed) Check() error {
	return errors.Join(
		atLeast(i.GrilleLoss, 0, "grille_loss"),
		share(i.Leakage, "leakage"), share(i.HubShadow, "hub_shadow"), share(i.Dust, "dust"), share(i.SeriesLoss, "series_loss"),
		known(i.Shroud >= Ducted && i.Shroud <= Open, "shroud", float64(i.Shroud)),
	)
}

func share(v float64, key string) error {
	if v >= 0 && v <= mostShare {
		return nil
	}
	return &quantity.RangeError{Key: key, Value: v, Low: 0, High: mostShare, Rule: "must lie between 0 % and 90 %"}
}
