package breakeven

import (
	"finduel/model"
	"finduel/sweep"
)

// reachSteps halve the searched speeds: after so many the end is known to the last digit.
const reachSteps = 60

// endAtReach lowers the end of the search to the highest speed that the challenger's
// drive reaches, and says what stops it there. What a drive cannot do it cannot do at
// any higher speed either. It reports false if it does not even reach the lowest one.
func (a *Answer) endAtReach(ready sweep.AtSpeed) bool {
	exceeded := func(speed float64) model.Warnings {
		state, err := ready.At(speed)
		if err != nil {
			return 0 // no state, no limit
		}
		return state.Warnings & model.OutOfReach
	}
	stop := exceeded(a.To)
	if stop == 0 {
		return true
	}
	low, high := a.From, a.To
	if at := exceeded(low); at != 0 {
		a.DriveEnd = at.Exceeded().String()
		return false
	}
	for range reachSteps {
		middle := (low + high) / 2
		if at := exceeded(middle); at != 0 {
			high, stop = middle, at
		} else {
			low = middle
		}
	}
	a.To, a.DriveEnd = low, stop.Exceeded().String()
	return true
}
