package study

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
