package study

import "finduel/model"

// Doubt is what a study says of how sure its numbers are, beside what is usual. The
// zero value says nothing: everything is as usual.
type Doubt struct {
	Draws      int         // most draws of a design; 0: DefaultDraws
	Designs    Designs     // which designs are drawn
	Tolerances []Tolerance // those given, in file order; of two that say the same the later one counts
}

// DefaultDraws is how many draws a design has at most if the study does not say: they
// hold a probability to ±2 %.
const DefaultDraws = 2000

// LeastDraws and MostDraws bound the draws of a design.
const (
	LeastDraws = 1000
	MostDraws  = 100_000
)

// Designs says of which designs the doubt is computed.
type Designs int

// The choices, the default first.
const (
	AllUpToMany Designs = iota // all, or the study's own if they are more than ManyDesigns
	AllDesigns                 // all, however many
	OwnDesign                  // the study's own alone
)

// ManyDesigns is up to how many designs are drawn unless a study asks for all.
const ManyDesigns = 1000

// String returns the word for the choice.
func (d Designs) String() string { return [...]string{"as many", "all", "own"}[d] }

// Tolerance is how far the number of an input may be off.
type Tolerance struct {
	Input    model.Input
	Setup    int     // index into Study.Setups; BothSetups: challenger and reference
	Within   float64 // half-width: SI, or a share of the number if Relative; 0 or more, 0 for a number that is known
	Relative bool    // whether Within is a share of the number
	Shape    Shape
	Error    Error
}

// BothSetups stands for challenger and reference in a Tolerance.
const BothSetups = -1

// Error says whether an error is the same in challenger and reference.
type Error int

// The kinds of error, the default first.
const (
	AsUsual  Error = iota // common for the room, the heat and the coolant, separate for cores and fans
	Common                // one error for both
	Separate              // each has its own
)

// String returns the word for the kind.
func (e Error) String() string { return [...]string{"as usual", "common", "separate"}[e] }

// Shape is how the error of an input is distributed within its tolerance.
type Shape int

// The shapes, the default first.
const (
	Rectangular Shape = iota // everything within the tolerance is as likely, nothing beyond it is possible
	Normal                   // 95 % lies within the tolerance
	Triangular               // nothing beyond the tolerance is possible, and small errors are likelier
)

// String returns the word for the shape.
func (s Shape) String() string { return [...]string{"rectangular", "normal", "triangular"}[s] }
