// Package render holds what every renderer starts from: the Report, and what is
// said of it in more than one place, so that the terminal, the workbook and the
// machine forms never disagree.
//
//	Report   the one input of every renderer
//	Digest   counts, the base design, the extremes, warnings, failures, cautions
//	Cautions what in the report can hurt people or wiring
//	Number, Given, Clean   how numbers and names are shown to people
//	Recorded which numbers stand in files
//
// It draws nothing and writes no file: chart, sheet and workbook, the packages
// below it, do. It computes no physics; all numbers come from the report.
//
// References:
//
//	[1] NIOSH, Criteria for a Recommended Standard: Occupational Noise Exposure,
//	    Revised Criteria 1998, DHHS (NIOSH) Publication No. 98-126.
package render
