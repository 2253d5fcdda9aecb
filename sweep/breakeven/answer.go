package breakeven

import "finduel/model"

// Status says how challenger and reference compare over the searched speeds.
type Status int

// The statuses.
const (
	None     Status = iota // the challenger is worse at every speed
	One                    // the challenger equals the reference at one speed and is better above it
	Band                   // the challenger is better between two speeds and worse on either side
	Always                 // the challenger is better at every speed
	Tie                    // the challenger comes within the margin and is nowhere better by more than the margin
	Unknown                // no speed gives both a value
	Excluded               // the study leaves the design out
)

// String returns the status as a word.
func (s Status) String() string {
	return [...]string{"none", "one", "band", "always", "tie", "unknown", "excluded"}[s]
}

// Crossing is a speed at which challenger and reference are equal.
type Crossing struct {
	Speed      float64     // rev/s
	Falling    bool        // from worse to better as the speed rises; else from better to worse
	Difference float64     // challenger minus reference there, K: what the root finder left, at most 1e-6 but for a Jump
	Jump       bool        // the two are not equal: the difference jumps over zero
	Slope      float64     // d difference / d speed there, K s; 0 where only one side has a value
	State      model.State // the challenger there
	Tie        Interval    // the speeds round it at which the two differ by no more than the margin of the study
	DefaultTie Interval    // the same for study.DefaultMargin
}

// IllDetermined reports whether the margin moves the break-even by more than a tenth
// of its speed.
func (c *Crossing) IllDetermined() bool { return c.Tie.Width() > widest*c.Speed }

// Point is the challenger at one speed, against the reference.
type Point struct {
	Speed      float64     // rev/s
	Difference float64     // challenger minus reference, K
	State      model.State // the challenger there
}

// Answer is the comparison of one design of the challenger with the reference.
type Answer struct {
	Design    int         // number of the design in the plan
	Status    Status      //
	Crossings []Crossing  // every speed of equality found, rising
	Edges     []float64   // speeds, rev/s, at which the challenger, better than the reference, begins or ceases to have a value; rising
	Best      Point       // the challenger at its best speed: for None, the closest approach
	BestEnds  int         // -1: the best speed is the low end of the search; +1: the high end; 0: inside
	Sensible  Point       // the challenger at the lowest speed at which it is within the margin of its best
	Margin    float64     // the margin of the study, K
	Tie       Interval    // for Tie: the speeds round the best one at which the two differ by no more than the margin
	Cut       bool        // the search gave up looking closer: what it missed is narrower than what it looked at
	Reference model.State // the reference under the same conditions
	From, To  float64     // searched speeds, rev/s; To is no higher than the challenger's drive reaches
	DriveEnd  string      // what stops the challenger's drive at To; empty if nothing does
	Limit     Limit       // what keeps the challenger from doing better at its best speed
	Reason    string      // the answer in one sentence
	Failure   string      // for Unknown: why
}

// Answers is where the answers of a plan are, by design: in memory, a List, or kept on a
// disk, where there may be more of them than memory has room for.
type Answers interface {
	// Each hands over every answer until yield returns false. An answer may be changed
	// by nobody. The error says why answers could not be read.
	Each(yield func(*Answer) bool) error
	// Of returns the answer of a design.
	Of(design int) (*Answer, error)
	// Len returns how many there are.
	Len() int
}

// List is answers held in memory.
type List []Answer

// Each hands over every answer until yield returns false.
func (l List) Each(yield func(*Answer) bool) error {
	for i := range l {
		if !yield(&l[i]) {
			break
		}
	}
	return nil
}

// Of returns the answer of a design.
func (l List) Of(design int) (*Answer, error) { return &l[design], nil }

// Len returns how many there are.
func (l List) Len() int { return len(l) }

// Limit names the term of the temperature budget in which the challenger loses
// most against the reference.
type Limit struct {
	Term   string  // key of the budget term, e.g. "budget_coolant_film"; empty if none
	Excess float64 // challenger's term minus the reference's, at the best speed, K
}

// Lower returns the speed from which the challenger is better, rev/s, and false
// if there is none or it is better from the low end of the search on.
func (a Answer) Lower() (float64, bool) {
	if lower, _ := a.Ends(); lower != nil {
		return lower.Speed, true
	}
	return 0, false
}

// Upper returns the speed from which the challenger is worse again, rev/s, and
// false if there is none.
func (a Answer) Upper() (float64, bool) {
	if _, upper := a.Ends(); upper != nil {
		return upper.Speed, true
	}
	return 0, false
}
