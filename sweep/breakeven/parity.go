package breakeven

import (
	"cmp"
	"slices"

	"finduel/model"
)

// ParityPoint is one speed of the reference and the speeds at which the challenger
// equals it there.
type ParityPoint struct {
	Speed     float64     // of the reference, rev/s
	Reference model.State // the reference there
	Status    Status      // Unknown where the reference has no value
	Lower     *Crossing   // from which on the challenger is better; nil if there is none
	Upper     *Crossing   // from which on it is worse again; nil if there is none
	Tie       Interval    // for the status Tie
}

const (
	// paritySteps is how many even steps the parity line takes.
	paritySteps = 32

	// parityLow is where the parity line begins, over the top speed of the reference.
	parityLow = 0.2

	// parityHalvings is how often the stretch in which the line begins or ends is
	// halved: it is then placed to a millionth of the reference's top speed.
	parityHalvings = 15
)

// ParitySpeeds returns the fan speeds, rev/s and rising, that a number of even steps of a
// parity line has, 1 or more: from a fifth of the reference's top speed, rev/s, to the top.
// Those of a half or a quarter as many steps are among those of more, to the last bit.
func ParitySpeeds(top float64, steps int) []float64 {
	list := make([]float64, steps+1)
	for i := range list {
		list[i] = top * (parityLow + (1-parityLow)*float64(i)/float64(steps))
	}
	return list
}

// parity follows the break-even speed over the speeds of the reference, from a fifth
// of its top speed to the top, its own speed in the study among them. Where the line
// begins or ends the last point that has a break-even is added, and some before it,
// since the line may end steeply.
func (w *workbench) parity() []ParityPoint {
	top := w.reference.Fans.Fan.TopSpeed
	own := w.reference.Speed
	var list []ParityPoint
	for _, speed := range ParitySpeeds(top, paritySteps) {
		if n := len(list); own < speed && (n == 0 || list[n-1].Speed < own) {
			list = append(list, w.parityAt(own))
		}
		list = append(list, w.parityAt(speed))
	}
	if list[len(list)-1].Speed < own {
		list = append(list, w.parityAt(own))
	}
	var ends []ParityPoint
	for i := 1; i < len(list); i++ {
		has, had := list[i].Lower != nil, list[i-1].Lower != nil
		if has == had {
			continue
		}
		a, b := list[i-1], list[i]
		for range parityHalvings {
			middle := w.parityAt((a.Speed + b.Speed) / 2)
			if (middle.Lower != nil) == had {
				a = middle
			} else {
				b = middle
			}
		}
		end, step := a, top*(1-parityLow)/paritySteps
		if has {
			end, step = b, -step
		}
		ends = append(ends, end)
		for back := 1.5; back > 0.04; back /= 2 {
			if speed := end.Speed - back*step; speed > list[0].Speed && speed < list[len(list)-1].Speed {
				ends = append(ends, w.parityAt(speed))
			}
		}
	}
	list = append(list, ends...)
	slices.SortStableFunc(list, func(a, b ParityPoint) int { return cmp.Compare(a.Speed, b.Speed) })
	return slices.CompactFunc(list, func(a, b ParityPoint) bool { return a.Speed == b.Speed })
}

// parityAt compares the challenger with the reference at one speed of the reference.
func (w *workbench) parityAt(speed float64) ParityPoint {
	reference := w.reference
	reference.Speed = speed
	a := w.settle(w.challenger, reference, w.answer.From, w.answer.To)
	point := ParityPoint{Speed: speed, Reference: a.Reference, Status: a.Status, Tie: a.Tie}
	point.Lower, point.Upper = a.Ends()
	return point
}
