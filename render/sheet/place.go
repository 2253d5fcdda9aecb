package sheet

import (
	"finduel/model"
	"finduel/render"
	"finduel/sweep/breakeven"
)

// place is a remarkable state of a design; its state is nil where the design has
// no such place.
type place struct {
	speed float64 // rev/s; 0 for the reference, which has its own
	state *model.State
}

// placesOf returns where a design breaks even, the upper end of its band, its sensible
// and its best speed, and the reference, in this order.
func placesOf(a *breakeven.Answer) [5]place {
	var p [5]place
	if !render.Answered(a) {
		return p
	}
	lower, upper := render.Ends(a)
	if lower != nil {
		p[0] = place{lower.Speed, &lower.State}
	}
	if upper != nil {
		p[1] = place{upper.Speed, &upper.State}
	}
	p[2] = place{a.Sensible.Speed, &a.Sensible.State}
	p[3] = place{a.Best.Speed, &a.Best.State}
	p[4] = place{0, &a.Reference}
	return p
}
