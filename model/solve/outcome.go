package solve

// Outcome says why a search stopped.
type Outcome int

// The outcomes. Only Converged makes X an answer.
const (
	Converged    Outcome = iota // the bracket is as narrow as asked, or the function is exactly zero
	NoSignChange                // a root was sought, but the function has one sign at both ends
	TooManySteps                // the bracket would not narrow
	NotFinite                   // the function, or the bracket, was NaN or infinite
)

// String returns the outcome in words.
func (o Outcome) String() string {
	switch o {
	case Converged:
		return "converged"
	case NoSignChange:
		return "no change of sign"
	case TooManySteps:
		return "too many steps"
	case NotFinite:
		return "not finite"
	}
	return "unknown outcome"
}

// Result is what a search found.
type Result struct {
	X, F        float64 // the best abscissa and the function there; where it was not finite, if that is the outcome
	Low, High   float64 // the bracket at the end, Low <= X <= High
	Evaluations int     // of the function, the given ends or guess not counted
	Slope       float64 // of the function at X, as two looks tell; only of RootNear, 0: not known
	Outcome     Outcome
}

func finite(f float64) bool { return f-f == 0 }
