// Package doubt says how sure the answers of a study are: it draws what is not known
// of both setups again and again, asks the model each time, and reads from the draws
// how far the answers lie apart.
//
//	study, plan, answers ─► sources: what may be wrong, how far, in whom
//	                     ─► draws: Latin hypercubes, block by block, from one seed
//	                     ─► each draw: both setups, their difference, the break-even speed
//	                     ─► Result: median, 95 % interval, probabilities
//	                     ─► Detail, for the study's own design: indices, what to measure first,
//	                        how many draws more lie in the intervals, what is common
//
// A source is common or separate. What is wrong with a correlation, the room or the
// heat is wrong for challenger and reference alike: it is drawn once for both, and
// most of it cancels in the difference. What is wrong with a fan or a core is its
// own: it is drawn for each.
//
// Not modelled: how the errors of two inputs of one setup hang together; the model's
// own shape (what it leaves out, see the README), which no drawing of inputs shows;
// the spread between repeated runs on a bench.
//
// # References
//
//	[1] JCGM 100:2008, Evaluation of measurement data - Guide to the expression of
//	    uncertainty in measurement (GUM).
//	[2] JCGM 101:2008, Supplement 1 to the GUM - Propagation of distributions using a
//	    Monte Carlo method.
//	[3] M. D. McKay, R. J. Beckman, W. J. Conover, A comparison of three methods for
//	    selecting values of input variables, Technometrics 21 (1979) 239-245.
//	[4] A. Saltelli, P. Annoni, I. Azzini, F. Campolongo, M. Ratto, S. Tarantola,
//	    Variance based sensitivity analysis of model output, Computer Physics
//	    Communications 181 (2010) 259-270. Table 2 (from memory).
//	[5] M. J. W. Jansen, Analysis of variance designs for model output, Computer
//	    Physics Communications 117 (1999) 35-43 (from memory).
//	[6] T. Ishigami, T. Homma, An importance quantification technique in uncertainty
//	    analysis for computer models, ISUMA 1990, 398-403 (from memory).
//	[7] J. I. Munro, M. S. Paterson, Selection and sorting with limited storage,
//	    Theoretical Computer Science 12 (1980) 315-323 (from memory).
//	[8] ISO 13348:2007, Industrial fans - Tolerances, methods of conversion and
//	    technical data presentation: grade AN4, ±10 % in flow and pressure (from
//	    memory).
//	[9] E. B. Wilson, Probable inference, the law of succession, and statistical
//	    inference, Journal of the American Statistical Association 22 (1927) 209-212
//	    (from memory).
package doubt
