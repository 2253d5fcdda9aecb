package core

import "math"

// Feed says how the coolant is led through equal cores that lie behind one another.
type Feed int

// The feeds.
const (
	InSeries   Feed = iota // all of it through one core after the other; the last core meets the fresh air
	InParallel             // an equal share of it through each core
	feeds      = iota
)

var feedNames = [feeds]string{"series", "parallel"}

// String returns the feed as written in studies, empty if there is none.
func (f Feed) String() string {
	if f < 0 || f >= feeds {
		return ""
	}
	return feedNames[f]
}

// Feeds returns all feeds, the default first.
func Feeds() [feeds]Feed { return [...]Feed{InSeries, InParallel} }

// mostFurther is how many further cores may lie behind the first.
const mostFurther = 7

// stack makes the core one of several equal ones, the air going through all of
// them: surface and walls grow with their number, face and free-flow area stay.
// Each breathes what the one before it has warmed. The air is taken to be mixed
// between cores, which costs nothing here, and no air to be lost between them.
func (c *Core) stack() {
	n := float64(1 + c.geometry.Further)
	c.airArea *= n
	c.finArea *= n
	c.tube.inside *= n
	c.tube.wall /= n
}

// branches returns into how many equal parts the coolant splits.
func (c *Core) branches() float64 {
	if c.geometry.Feed == InParallel {
		return float64(1 + c.geometry.Further)
	}
	return 1
}

// Coldest returns how far the coldest of the coolant's branches cools down, as a share
// of the inlet temperature difference, 0 to 1, where all cores together have an
// effectiveness and the capacity rates of air and coolant, in W/K. Without branches that
// is the coolant itself; in parallel it is the branch through the first core, which has
// the fresh air.
func (c *Core) Coldest(effectiveness, airCapacity, coolantCapacity float64) float64 {
	least := min(airCapacity, coolantCapacity)
	n := c.branches()
	if n == 1 {
		return effectiveness * least / coolantCapacity
	}
	// All cores take 1 − (1 − x)^n of what the air lacks; the first takes x.
	x := -math.Expm1(math.Log1p(-effectiveness*least/airCapacity) / n)
	return min(x*airCapacity*n/coolantCapacity, 1)
}

// Effectiveness returns the effectiveness of all cores together, 0 to 1, heat over
// the smaller capacity rate times the inlet temperature difference, from their
// conductance UA and the capacity rates of air and coolant, all in W/K.
//
// Cores in series are exchangers in counterflow, each stream mixed between them; see
// inCounterflow. Cores in parallel each take the same share x of what the air's
// temperature still lacks to that of the entering coolant, so n of them take
// 1 − (1 − x)^n:
//
//	Q = C_a [1 − (1 − x)^n] (T_c − T_a),  x = ε₁ C_min,1/C_a
func (c *Core) Effectiveness(ua, airCapacity, coolantCapacity float64) float64 {
	further := c.geometry.Further
	if further == 0 {
		return c.ofOne(ua, airCapacity, coolantCapacity)
	}
	ua /= float64(1 + further)
	least, most := min(airCapacity, coolantCapacity), max(airCapacity, coolantCapacity)
	if c.geometry.Feed == InSeries {
		one := c.ofOne(ua, airCapacity, coolantCapacity)
		all := one
		for range further {
			all = inCounterflow(all, one, least/most)
		}
		return all
	}
	branch := coolantCapacity / c.branches()
	share, taken := c.ofOne(ua, airCapacity, branch)*min(airCapacity, branch)/airCapacity, 0.0
	for range 1 + further {
		taken += share * (1 - taken)
	}
	return airCapacity * taken / least
}
