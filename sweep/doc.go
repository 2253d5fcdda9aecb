// Package sweep turns a study into points and evaluates them.
//
//	study.Study ─► Plan: points, computable from their number alone
//	            ─► Run: a worker pool asks the model for every point
//	            ─► Results: rows by point number
//
// A row depends on the study and its number only, so any number of workers gives
// the same results. A point that has no value keeps its row, with the reason; the
// run goes on.
//
// The packages below it hold the rest of the way: study reads the study file,
// archive keeps the rows, breakeven finds where two setups are equal.
package sweep
