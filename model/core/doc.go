// Package core models a finned core: folded fins between flat tubes, air through
// the fins, coolant through the tubes.
//
// One mechanism a file:
//
//	geometry.go       dimensions, what is typical, what is impossible
//	core.go           areas and ratios; the flow-independent parts of the correlations
//	duct.go           fully developed laminar flow in rectangular passages
//	louvered.go       louvered fins: film, friction and range
//	parkjacobi.go     louvered fins: a second opinion
//	plain.go          plain fins, U-folds: film, friction and range, developing flow
//	triangle.go       plain fins, V-folds: geometry, developed flow and range
//	strip.go          offset strip fins: film, friction and range
//	fin.go            fin and surface efficiency
//	pressure.go       pressure drop of the core
//	tube.go           coolant film in the tubes, wall
//	tubefriction.go   the coolant's pressure drop: tubes, tanks, ports
//	blockage.go       air passages closed by dust, face in the shadow of fan hubs
//	arrangement.go    how streams mix in a pass, where passes lie
//	crossflow.go      crossflow, both streams unmixed, exact
//	mixed.go          crossflow, one stream or both mixed
//	counterflow.go    counterflow, exchangers behind one another
//	effectiveness.go  the passes together
//	stack.go          equal cores behind one another
//	ranges.go         where the correlations hold
//	doubt.go          how far they may be out
//
// Not modelled: half-cooled fins at the edges of the face, gaps between tubes behind
// one another, heat along the fins from pass to pass, uneven flow but for a part of
// the face without any, coolant spread unevenly over the tubes, contact resistance
// between fin and tube (brazed or soldered cores have none), air lost between cores
// that lie behind one another.
//
// References
//
//	[1]  Y.-J. Chang, C.-C. Wang, A generalized heat transfer correlation for louver
//	     fin geometry, Int. J. Heat Mass Transfer 40 (1997) 533-544.
//	[2]  Y.-J. Chang, K.-C. Hsu, Y.-T. Lin, C.-C. Wang, A generalized friction
//	     correlation for louver fin geometry, Int. J. Heat Mass Transfer 43 (2000)
//	     2237-2243.
//	[3]  Y.-J. Chang, W.-J. Chang, M.-C. Li, C.-C. Wang, An amendment of the
//	     generalized friction correlation for louver fin geometry, Int. J. Heat Mass
//	     Transfer 49 (2006) 4250-4253.
//	[4]  A. M. Jacobi, Engineering Data Book III, Wolverine Tube, chapter 6.
//	[5]  R. K. Shah, A. L. London, Laminar Flow Forced Convection in Ducts,
//	     Academic Press 1978.
//	[6]  Y. S. Muzychka, M. M. Yovanovich, Laminar forced convection heat transfer in
//	     the combined entry region of non-circular ducts, J. Heat Transfer 126 (2004)
//	     54-61.
//	[7]  Y. S. Muzychka, M. M. Yovanovich, Pressure drop in laminar developing flow in
//	     noncircular ducts: a scaling and modeling approach, J. Fluids Eng. 131 (2009)
//	     111105.
//	[8]  W. M. Kays, A. L. London, Compact Heat Exchangers, 3rd ed., McGraw-Hill 1984.
//	[9]  R. K. Shah, D. P. Sekulic, Fundamentals of Heat Exchanger Design, Wiley 2003.
//	[10] VDI-Wärmeatlas, 9th ed. 2002, section Gb, equations 36-43.
//	[11] V. Gnielinski, On heat transfer in tubes, Int. J. Heat Mass Transfer 63 (2013)
//	     134-140; corrigendum 81 (2015) 638.
//	[12] A. Achaichia, T. A. Cowell, Heat transfer and pressure drop characteristics of
//	     flat tube and louvered plate fin surfaces, Exp. Thermal Fluid Sci. 1 (1988)
//	     147-157: flow through louvers turns to duct flow as the Reynolds number falls.
//	[13] S. E. Haaland, Simple and explicit formulas for the friction factor in
//	     turbulent pipe flow, J. Fluids Eng. 105 (1983) 89-90.
//	[14] I. E. Idelchik, Handbook of Hydraulic Resistance; Crane Technical Paper 410:
//	     sharp entrance from and exit into a large space.
//	[15] E. Y. Ng, P. W. Johnson, S. Watkins, nine radiators in a wind tunnel under
//	     uneven flow, Proc. IMechE D, J. Automobile Eng. (2005), DOI
//	     10.1243/095440705X35116.
//	[16] L. F. Moody, Friction factors for pipe flow, Trans. ASME 66 (1944) 671-684:
//	     drawn tubing (from memory).
//	[17] R. M. Manglik, A. E. Bergles, Heat transfer and pressure drop correlations for
//	     the rectangular offset strip fin compact heat exchanger, Exp. Thermal Fluid
//	     Sci. 10 (1995) 171-180.
//	[18] Y.-G. Park, A. M. Jacobi, Air-side heat transfer and friction correlations for
//	     flat-tube louver-fin heat exchangers, J. Heat Transfer 131 (2009) 021801 (volume
//	     and number from memory).
package core
