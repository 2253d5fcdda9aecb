// Package published reads the tables of published values that finduel is
// checked against, and runs a check on each row. Only tests import it.
//
// A table is a file <subject>.csv in this folder, with the header
//
//	case,inputs,expected,tolerance,kind,source,why
//
// and a row for each value. Lines that start with # are remarks.
//
//	case       names the check, e.g. air_viscosity; many rows share one
//	inputs     name=value pairs between spaces, in SI units unless the name ends
//	           in its unit, e.g. "t_C=20 p=95461"
//	expected   the published number
//	tolerance  the largest deviation allowed: of the value itself if kind is abs,
//	           divided by the expected value if kind is rel
//	source     publication with table, equation or page; "from memory" where the
//	           number was not read in the publication itself
//	why        the reason for this tolerance, e.g. "printed to 4 digits"
//
// A table that could not fail is refused: no rows, no source, no reason, a
// relative tolerance around zero or of 1 and more, a number that is not finite.
//
// The go command leaves folders named testdata out of the pattern ./... : run
// the tests of this package by its path, go test ./testdata/published.
package published
