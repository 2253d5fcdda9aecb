// Package chart draws a report as pictures:
//
//	coolant-over-air.png     the compared temperature over the challenger's fan speed
//	breakeven-map.png        the break-even speed over two inputs of the design; -2, -3
//	                         and so on where there are more pairs of inputs
//	parity.png               the challenger's break-even over the reference's fan speed
//	against-sound.png        the compared temperature over the sound at the listener
//	temperature-budget.png   where the temperature is lost, setup beside setup
//	fan-curve.png            the fans' pressure and the core's resistance over airflow
//
// It draws what is in the report and computes no physics; the curves through the
// operating points, which no report has, it asks the model for. A chart that cannot
// say anything is left out with the reason. A point without a value is a gap in its
// line; a point outside the range of the correlations is drawn hollow on a thin
// line. Nothing is told apart by colour alone: lines have their own dashes and
// markers, areas their own hatching or words. Where the report says how sure a number
// is, the chart shows it: bands, lanes, whiskers, or words.
//
// The package is laid out as one figure layer and one file a chart. A figure is a
// title, a sentence with the answer, the facts it was computed under, a panel with
// axes and a strip with its keys.
//
//	1  designs.go     which designs are drawn as lines, and their points
//	2  facts.go       setups, conditions and held inputs in words
//	3  figure.go      sheet, header, panel, strip     (theme, type, glyphs, hatch)
//	4  ticks.go       ranges and 1-2-5 ticks of an axis
//	5  legend.go, colourbar.go, labels.go   what explains the panel
//	6  doubtband.go, lanes.go, parityband.go   how sure it is
//
// Drawing the same report again gives the same bytes.
//
// References:
//
//	[1] Okabe, M. and Ito, K., Color Universal Design: how to make figures and
//	    presentations that are friendly to colorblind people, 2002, revised 2008.
//	[2] Smith, N. and van der Walt, S., viridis, a colour map of even lightness
//	    steps for matplotlib, 2015, released under CC0.
//	[3] W3C, Web Content Accessibility Guidelines 2.1, 2018: relative luminance.
package chart
