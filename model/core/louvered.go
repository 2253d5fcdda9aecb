package core

import (
	"math"

	"finduel/model/air"
)

// louvered holds the flow-independent parts of the correlations of louvered fins.
// Products of powers are kept as sums of logarithms.
type louvered struct {
	colburn        float64 // ln of j at Re = 1
	duct           float64 // Nu_T of the passage over D_h/L_p: Nu on the louver pitch
	lowConstant    float64 // ln of the low branch of f, its logarithm of Re left out
	lowExponent    float64
	highConstant   float64 // likewise of the high branch
	highExponent   float64
	at100          float64 // f at the foot of the low branch
	at130          float64 // f at the foot of the bridge
	bridge         float64 // exponent of Re on the bridge
	spacing        float64 // of the louvers, F_p/(L_p sin θ)
	beyondFit      bool    // louver spacing outside the fit of the flow efficiency, or film below the plain passage's
	clamped        bool    // the bridge is less steep than the branches ask for
	friction       float64 // f Re of the plain passage, on the louver pitch
	efficiencyLow  float64 // flow efficiency as Re goes to 0, and to infinity
	efficiencyHigh float64
	turn           float64 // ln of the Re at which the flow efficiency is halfway
	at100Efficient float64 // flow efficiency at Re = 100
	second         secondOpinion
}

// Reynolds numbers, on the louver pitch, at which the correlations change hands.
const (
	louveredLow  = 100.0  // least of the correlations' data bank
	bridgeLow    = 130.0  // end of the low friction branch
	bridgeHigh   = 230.0  // start of the high friction branch
	louveredHigh = 3000.0 // greatest of the film's data bank
)

// steepest is the steepest fall of f with Re on the bridge: with −2 the pressure
// drop would no longer rise with flow.
const steepest = -1.8

func newLouvered(g Geometry, diameter float64, passage duct) louvered {
	pitch, tubePitch := 1/g.FinDensity, g.FinHeight+g.TubeHeight
	degrees := g.LouverAngle * 180 / math.Pi
	// Logarithms of the angle in degrees and of lengths over the louver pitch.
	angle := math.Log(degrees)
	over := func(length float64) float64 { return math.Log(length / g.LouverPitch) }
	finPitch, finHeight, finThickness := over(pitch), over(g.FinHeight), over(g.FinThickness)
	depth, cut, tubes, bore := over(g.FinDepth), over(g.LouverLength), over(tubePitch), over(diameter)
	tall := math.Log(tubePitch / g.TubeHeight)

	var l louvered
	l.colburn = 0.27*(angle-ln90) - 0.14*finPitch - 0.29*finHeight - 0.23*depth + 0.68*cut - 0.28*tubes - 0.05*finThickness
	l.duct = passage.nusselt * g.LouverPitch / diameter
	l.friction = passage.friction * g.LouverPitch / diameter

	thin := finThickness - finPitch
	l.lowExponent = -0.805 * pitch / g.FinHeight
	l.lowConstant = ln1439 + 3.04*math.Log(math.Log1p(pitch/g.LouverPitch)) -
		1.435*math.Log(math.Log(math.Exp(0.48*thin)+0.9)) - 3.01*bore -
		0.308*(finPitch-cut) - 0.308*(depth-cut) - 0.1167*tubePitch/g.TubeHeight + 0.35*angle
	l.highExponent = 0.6049 - 1.064*math.Exp(-0.2*angle)
	l.highConstant = ln497 - 0.527*math.Log(math.Log(math.Sqrt(g.FinThickness/pitch)+0.9)) -
		2.966*bore - 0.7931*tubePitch/g.FinHeight*(finPitch-cut) -
		0.0446*tall - 3.553*math.Log(math.Log(1.2+math.Exp(-1.4*finPitch))) -
		0.477*angle

	l.second = newSecondOpinion(&g, angle, finPitch, finHeight, finThickness, depth, cut, tubes, tall)

	foot := l.lowConstant + l.lowExponent*ln130 - 3.01*lnLn65
	top := l.highConstant + l.highExponent*ln230 - 2.966*lnLn69
	l.at100 = math.Exp(l.lowConstant + l.lowExponent*ln100 - 3.01*lnLn50)
	l.at130 = math.Exp(foot)
	l.bridge = (top - foot) / (ln230 - ln130)
	if l.bridge < steepest {
		l.bridge, l.clamped = steepest, true
	}

	r := pitch / (g.LouverPitch * math.Sin(g.LouverAngle))
	l.spacing = r
	l.beyondFit = r < leastSpacing || r > greatestSpacing
	spacing := math.Log(min(max(r, leastSpacing), greatestSpacing))
	l.efficiencyHigh = 1 - 0.0230*math.Exp(1.374*spacing)
	l.efficiencyLow = l.efficiencyHigh / (1 + math.Exp(3.139*(spacing-ln2493)))
	l.turn = ln1377 + 0.866*spacing
	l.at100Efficient = l.flowEfficiency(ln100)
	l.beyondFit = l.beyondFit || l.duct > 100*cubeRootPrandtl*math.Exp(l.lnColburn(ln100))
	return l
}

// lnColburn returns the natural logarithm of the Colburn factor j of louvered fins,
// from that of the Reynolds number on the louver pitch, after Chang & Wang:
//
//	j = Re^−0.49 (θ/90)^0.27 (F_p/L_p)^−0.14 (F_l/L_p)^−0.29 (F_d/L_p)^−0.23
//	    (L_l/L_p)^0.68 (T_p/L_p)^−0.28 (δ_f/L_p)^−0.05                         [1]
//
// for 100 < Re < 3000; 89 % of its 91 cores lie within ±15 % [4].
func (l *louvered) lnColburn(lnRe float64) float64 { return l.colburn - 0.49*lnRe }

// lowBranch returns the Fanning friction factor below Re = 130, on the surface
// over the least free-flow area, after Chang and others:
//
//	f1 = 14.39 Re^(−0.805 F_p/F_l) [ln(1 + F_p/L_p)]^3.04
//	f2 = {ln[(δ_f/F_p)^0.48 + 0.9]}^−1.435 (D_h/L_p)^−3.01 [ln(0.5 Re)]^−3.01
//	f3 = (F_p/L_l)^−0.308 (F_d/L_l)^−0.308 exp(−0.1167 T_p/D_m) θ^0.35         [2]
//
// f = f1 f2 f3, θ in degrees. It has a pole at Re = 2 and is not used below 100.
// 83 % of the data lie within ±15 % [4].
func (l *louvered) lowBranch(re float64) float64 {
	x := math.Log(re)
	return math.Exp(l.lowConstant + l.lowExponent*x - 3.01*math.Log(x-math.Ln2))
}

// highBranch returns the Fanning friction factor above Re = 230, after Chang and
// others:
//
//	f1 = 4.97 Re^(0.6049 − 1.064/θ^0.2) {ln[(δ_f/F_p)^0.5 + 0.9]}^−0.527
//	f2 = [(D_h/L_p) ln(0.3 Re)]^−2.966 (F_p/L_l)^(−0.7931 T_p/T_h)
//	f3 = (T_p/D_m)^−0.0446 {ln[1.2 + (L_p/F_p)^1.4]}^−3.553 θ^−0.477           [2]
//
// T_h = T_p − D_m, the fin height.
func (l *louvered) highBranch(re float64) float64 {
	x := math.Log(re)
	return math.Exp(l.highConstant + l.highExponent*x - 2.966*math.Log(x+lnThreeTenths))
}

// Logarithms of constants, and logarithms of logarithms for the friction
// branches where they join: half of 100, half of 130, three tenths of 230.
const (
	cubeRootPrandtl = 0.8921121404456347 // of air, Pr = 0.71, within 1 % from -40 °C to 100 °C
	ln90            = 4.499809670330265
	ln1439          = 2.6665335208992764 // 14.39
	ln497           = 1.6034198401085373 // 4.97
	ln2493          = 0.9134868045414208 // 2.493
	ln1377          = 2.6224923127405635 // 13.77
	lnThreeTenths   = -1.2039728043259361
	lnDegree        = -4.048226965040810 // of π/180
	ln100           = 4.605170185988092
	ln130           = 4.867534450455582
	ln230           = 5.438079308923196
	lnLn50          = 1.3640546328884455
	lnLn65          = 1.4289675858306226
	lnLn69          = 1.4431723270012284
)

// inertial is the share of the friction at Re = 100 that stays as the Reynolds
// number falls further; the rest grows with 1/Re as in a duct.
const inertial = 0.35

// frictionFactor returns the Fanning friction factor at any Reynolds number on
// the louver pitch.
//
// The two published branches do not meet. The published amendment [3] joins them
// with a formula that, for one core in five, lets the pressure drop fall as the
// flow rises; here a straight line between the branches in logarithms joins them
// instead. Below Re = 100 nothing is published for this correlation: friction is
// continued as a viscous and an inertial part, our own fit to the middle of other
// correlations and of flow computations (±40 %). A louvered passage never takes
// less pressure than the plain passage it is cut from.
func (l *louvered) frictionFactor(re float64) float64 {
	var f float64
	switch {
	case re < louveredLow:
		f = l.at100 * ((1-inertial)*louveredLow/re + inertial)
	case re < bridgeLow:
		f = l.lowBranch(re)
	case re < bridgeHigh:
		f = l.onBridge(re)
	default:
		f = l.highBranch(re)
		if l.clamped {
			f = max(f, l.onBridge(re))
		}
	}
	return max(f, l.friction/re)
}

func (l *louvered) onBridge(re float64) float64 {
	return l.at130 * math.Exp(l.bridge*math.Log(re/bridgeLow))
}

// Range of the louver spacing r = F_p/(L_p sin θ) in which the flow efficiency
// was fitted.
const (
	leastSpacing    = 1.5
	greatestSpacing = 5.2
)

// flowEfficiency returns how far the air follows the louvers, mean flow angle
// over louver angle, from the logarithm of the Reynolds number on the louver pitch:
//
//	η = lo + (hi − lo) / [1 + (13.77 r^0.866 / Re)^1.965]
//	hi = 1 − 0.0230 r^1.374,  lo = hi / [1 + (r/2.493)^3.139],  r = F_p/(L_p sin θ)
//
// It is our own fit to two-dimensional flow computations of ten geometries, for
// 1.5 <= r <= 5.2 and Re from 10 to 200, within 0.1; not a published correlation.
// Beyond those r it is held at their ends, and InRange says so.
// That flow through louvers turns to duct flow as Re falls is known [12].
func (l *louvered) flowEfficiency(lnRe float64) float64 {
	return l.efficiencyLow + (l.efficiencyHigh-l.efficiencyLow)/(1+math.Exp(1.965*(l.turn-lnRe)))
}

// film returns the air film coefficient, W/(m² K), at a mass velocity in the least
// free-flow area, kg/(m² s), and a Reynolds number on the louver pitch.
//
// From Re = 100 on it is the correlation of Chang & Wang. Below, the part of the
// air that no longer follows the louvers exchanges heat as in the plain passage,
// and a louvered passage never exchanges less than the plain passage it is cut
// from: our own extension. So the film tends to that of fully developed duct flow
// as the air comes to rest. In dense cores the correlation lies below the plain
// passage already at Re = 100; they keep their film of there, since more air never
// means less, and InRange calls them outside below it.
func (l *louvered) film(massVelocity, re float64, p air.Properties, pitch float64) float64 {
	lnRe := math.Log(re)
	cut := massVelocity * p.SpecificHeat * math.Exp(l.lnColburn(lnRe)-2./3*math.Log(p.Prandtl()))
	if re >= louveredLow {
		return cut
	}
	at100 := cut * math.Exp((1-0.49)*(ln100-lnRe))
	duct := min(l.duct*p.Conductivity/pitch, at100)
	w := min(1, l.flowEfficiency(lnRe)/l.at100Efficient)
	return max(w*cut+(1-w)*duct, duct)
}

// louveredBank is the range of the data behind the correlations of louvered fins,
// as given in [4], in mm and degrees, in the order of bankValues.
var louveredBank = [...]limit{
	{"louver_pitch", 0.5, 3},
	{"louver_length", 0.94, 18.5},
	{"louver_angle", 8.43, 35},
	{"fin_density", 0.51, 3.33}, // fin pitch
	{"fin_depth", 15.6, 50},
	{"fin_height", 6, 20},
	{"fin_thickness", 0.04, 0.16},
	{"tube_height", 7.51, 25},    // tube pitch
	{"fin_density", 0.824, 4.94}, // hydraulic diameter
}

func bankValues(g *Geometry, diameter float64) [len(louveredBank)]float64 {
	return [...]float64{
		1000 * g.LouverPitch, 1000 * g.LouverLength, 180 / math.Pi * g.LouverAngle, 1000 / g.FinDensity,
		1000 * g.FinDepth, 1000 * g.FinHeight, 1000 * g.FinThickness, 1000 * (g.FinHeight + g.TubeHeight), 1000 * diameter,
	}
}

func louveredOutside(g *Geometry, diameter float64) string {
	values := bankValues(g, diameter)
	return outside(louveredBank[:], values[:])
}
