package core

// Arrangement is how the streams mix in a pass of crossflow.
type Arrangement int

// The arrangements. Air between fins and coolant in flat tubes do not mix across
// their flow: the first is the rule. Fins with gaps, wide channels and headers mix.
const (
	BothUnmixed  Arrangement = iota
	AirMixed                 // the coolant unmixed
	CoolantMixed             // the air unmixed
	BothMixed
	Counterflow  // a limit: no crossflow does as well
	arrangements = iota
)

var arrangementNames = [arrangements]string{"both unmixed", "air mixed", "coolant mixed", "both mixed", "counterflow"}

// Arrangements returns all arrangements, the default first.
func Arrangements() [arrangements]Arrangement {
	return [...]Arrangement{BothUnmixed, AirMixed, CoolantMixed, BothMixed, Counterflow}
}

// String returns the arrangement as written in studies, empty if there is none.
func (a Arrangement) String() string {
	if a < 0 || a >= arrangements {
		return ""
	}
	return arrangementNames[a]
}

// effectiveness returns the effectiveness of a pass, 0 to 1, from its number of
// transfer units N, 0 or more, its capacity ratio C, 0 to 1, and whether the air's
// is the smaller capacity rate.
func (a Arrangement) effectiveness(n, c float64, airLeast bool) float64 {
	switch a {
	case AirMixed, CoolantMixed:
		if airLeast == (a == AirMixed) {
			return leastMixed(n, c)
		}
		return mostMixed(n, c)
	case BothMixed:
		return bothMixed(n, c)
	case Counterflow:
		return counterflow(n, c)
	}
	return CrossflowEffectiveness(n, c)
}

// Routing is where the passes of the coolant lie.
type Routing int

// The routings.
const (
	SideBySide       Routing = iota // in the face: each pass has fresh air and its share of it
	CrossCounterflow                // in the depth: all the air meets the last pass first
	routings         = iota
)

var routingNames = [routings]string{"side by side", "cross-counterflow"}

// Routings returns all routings, the default first.
func Routings() [routings]Routing { return [...]Routing{SideBySide, CrossCounterflow} }

// String returns the routing as written in studies, empty if there is none.
func (r Routing) String() string {
	if r < 0 || r >= routings {
		return ""
	}
	return routingNames[r]
}

// maxRows is how many passes may lie behind one another.
const maxRows = 4

// rows returns the number of tubes behind one another along the air.
func (g *Geometry) rows() float64 {
	if g.Routing == CrossCounterflow {
		return float64(g.Passes)
	}
	return 1
}
