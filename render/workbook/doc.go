// Package workbook writes a report as a spreadsheet file in the Office Open XML
// format (ECMA-376), for people who work on with the numbers:
//
//	Summary     the study, the answer for the base design with its chart, all designs
//	            in numbers, setups, warnings, cautions
//	Break-even  one row a design
//	Points      one row a point, with all outputs
//	Study       every setting of both setups, the axes, what was left out
//	Curve       the base design over fan speed: what the chart is drawn from
//
// Numbers are numbers, in the unit that their header names, rounded to nine
// significant digits. A cell without a value is blank and a status column says why;
// there are no error cells, no formulas and no text that pretends to be a number.
// Names are cleaned of control characters and are always text.
//
// It computes nothing but axis limits of its one chart. It writes no file itself.
// The same report gives the same bytes.
package workbook
