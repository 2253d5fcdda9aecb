// Package solve finds roots and minima of functions of one variable inside a
// bracket, and says why it stopped.
//
// Both searches use no derivative, never leave the bracket, keep no state and do
// not allocate.
//
// References
//
//	[1] T. R. Chandrupatla, A new hybrid quadratic/bisection algorithm for finding
//	    the zero of a nonlinear function without using derivatives, Advances in
//	    Engineering Software 28 (1997) 145-149.
//	[2] R. P. Brent, Algorithms for Minimization without Derivatives,
//	    Prentice-Hall 1973, chapter 5.
package solve
