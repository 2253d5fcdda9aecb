// Package quantity is the one table of everything finduel reads or writes: for
// each quantity its key, its symbol, its unit in SI, the unit it is shown in and
// its words; and the one place where a number changes its unit.
//
// Inside the model every number is a float64 in SI units. A number gets its unit
// at the door: study files carry units as text, and Find says what a text means;
// output shows numbers in the unit that the trade uses, and Column says how a
// column of a table is called. Nothing else in finduel multiplies by a unit
// factor.
//
// The package formats and parses no numbers: it works where only arithmetic is
// at hand.
package quantity
