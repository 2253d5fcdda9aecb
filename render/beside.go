package render

import (
	"finduel/model/quantity"
	"finduel/sweep/doubt"
)

// PointBand is a 95 % interval that stands beside what is compared in a table of points:
// that of the challenger, of the reference or of their difference.
type PointBand struct {
	Quantity quantity.Quantity
	Of       func(point int) (doubt.Band, bool) // false where nothing was drawn; may be asked from several goroutines
}

// PointBands lists them; none if nothing was assessed. The reference has one at every point
// of a design that was drawn, the challenger and the difference at the speeds of the
// study's own design, up to doubt.CurveSpeeds of them, and at the speed at which the
// others were compared.
func (rep *Report) PointBands() []PointBand {
	if rep.Doubt == nil {
		return nil
	}
	plan := rep.Results.Plan
	drawn := func(k int) (r *doubt.Result, ok bool) {
		design, _ := plan.Design(k)
		r, ok = rep.Doubt.Of(design)
		return r, ok && r.Draws > 0
	}
	challenger := func(of func(*doubt.Result) doubt.Band, at func(*doubt.CurvePoint) doubt.Band) func(int) (doubt.Band, bool) {
		return func(k int) (doubt.Band, bool) {
			r, ok := drawn(k)
			if !ok {
				return none, false
			}
			speed := rep.Speed(k)
			if speed == r.Speed {
				return of(r), true
			}
			if own := rep.Doubt.Own; own != nil && own.Result.Design == r.Design {
				if x, ok := own.At(speed); ok {
					return at(x), true
				}
			}
			return none, false
		}
	}
	return []PointBand{
		{rep.Metric().Quantity, challenger(func(r *doubt.Result) doubt.Band { return r.Challenger }, func(x *doubt.CurvePoint) doubt.Band { return x.Challenger })},
		{quantity.Must("reference_over_air"), func(k int) (doubt.Band, bool) {
			if r, ok := drawn(k); ok {
				return r.Reference, true
			}
			return none, false
		}},
		{quantity.Must("difference"), challenger(func(r *doubt.Result) doubt.Band { return r.Difference }, func(x *doubt.CurvePoint) doubt.Band { return x.Difference })},
	}
}

// ParityDoubt returns how sure the break-even speed of a design is at a speed of the
// reference, rev/s, and false where it was not drawn: of other designs than the study's own,
// and at speeds between those that were.
func (rep *Report) ParityDoubt(design int, speed float64) (*doubt.ParityPoint, bool) {
	if rep.Doubt == nil || rep.Doubt.Own == nil || rep.Doubt.Own.Result.Design != design {
		return nil, false
	}
	points := rep.Doubt.Own.Parity
	for i := range points {
		if points[i].Speed == speed {
			return &points[i], true
		}
	}
	return nil, false
}
