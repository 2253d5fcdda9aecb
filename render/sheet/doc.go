// Package sheet writes a report as text for people and as tables for machines:
//
//	Terminal       what a run prints: readable at 80 columns
//	Breakeven      breakeven.csv: one row a design
//	Summary        summary.json: the whole report but its points
//	BreakevenJSON  the answers alone, in the same form as in summary.json
//
// Text for people is rounded and names are cleaned of control characters; machine
// forms carry the shortest digits that give the same double back, in the unit that
// the column or key names. Neither ever holds a number that is not finite: such a
// cell is empty, such a value null.
//
// It does not write the points (package archive does), charts or workbooks.
//
// The same report gives the same bytes.
package sheet
