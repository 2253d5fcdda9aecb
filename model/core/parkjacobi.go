package core

import "math"

// SecondOpinion returns what a second pair of correlations says of louvered fins at
// a Reynolds number on the louver pitch: its film over that of AirFilm, and its
// friction over that of Friction. ok is false for other surfaces, outside 27 to
// 4132, and for dimensions outside its data; film and friction are 1 then. The air
// has a Prandtl number of 0.71.
//
// It is after Park & Jacobi, with the louver angle a in rad, two louver banks
// (N = 2, one turn of the flow: common practice), Re on the louver pitch:
//
//	j = C1 jRe jlow jlouv a^C2 N^C3 (F_l/L_p)^C4 (F_d/F_p)^C5 (L_l/F_l)^C6 (F_l/T_p)^C7
//	    (1 − δ_f/L_p)^C8 (L_p/F_p)^C9
//	jRe = Re^[C10 + C11 cosh(F_p/L_p − 1)]
//	jlow = 1 − sin(a L_p/F_p) / cosh[C12 Re − C13 F_d/(N F_p)]
//	jlouv = 1 − C14 tan(a) F_d/(N F_p) cos{2π [F_p/(L_p tan a) − 1.8]}
//	f = D1 fRe N^D2 (F_p/L_p)^D3 sin(a + D4) (1 − F_l/T_p)^D5 (L_l/F_l)^D6 (δ_f/L_p)^D7
//	    (F_l/F_p)^D8
//	fRe = (Re F_p/L_p)^D9 + D10 Re^(D11 δ_f/F_p)                        [18] as in [4]
//
// The constants are half verified: their digits are those of [4], but the signs of
// some, and C3, C10, D3 and D9, are illegible there and come from memory. From
// Re = 200 on it lies within -15 % to 30 % of the first opinion in film and -30 % to
// 40 % in friction for nine in ten small cores. It widens Doubt below Re = 100, where
// it has data and the first has none; nothing rests on it alone. Its root mean square
// deviation from its data is 11.5 % in j and 16.1 % in f [4].
//
// Check: L_p 1.7, F_p 1.4, F_l 8.15, L_l 6.4, F_d 16, δ_f 0.1, T_p 10.15 mm and 23°
// give j = 0.037176 and f = 0.150883 at Re 200.
func (c *Core) SecondOpinion(re float64) (film, friction float64, ok bool) {
	l := &c.louvered
	if c.geometry.Surface != Louvered || !(re >= parkJacobiLow && re <= parkJacobiHigh) || !l.second.known {
		return 1, 1, false
	}
	lnRe := math.Log(re)
	j, f := l.second.factors(re, lnRe)
	return j / l.colburnFactor(re, lnRe), f / l.frictionFactor(re), true
}

// colburnFactor returns the Colburn factor of film, for air, at a Reynolds number
// and its logarithm.
func (l *louvered) colburnFactor(re, lnRe float64) float64 {
	cut := math.Exp(l.lnColburn(lnRe))
	if re >= louveredLow {
		return cut
	}
	at100 := cut * math.Exp((1-0.49)*(ln100-lnRe)) // j here of the film at Re = 100
	duct := min(l.duct/(re*cubeRootPrandtl), at100)
	w := min(1, l.flowEfficiency(lnRe)/l.at100Efficient)
	return max(w*cut+(1-w)*duct, duct)
}

// Reynolds numbers on the louver pitch of the data of Park & Jacobi [4].
const (
	parkJacobiLow  = 27.0
	parkJacobiHigh = 4132.0
)

// banks is the number of louver banks along the air.
const banks = 2.0

// Constants of Park & Jacobi; see SecondOpinion.
var (
	parkJacobiC = [...]float64{1: 0.872, 0.219, -0.0881, 0.149, -0.259, 0.540, -0.902, 2.62, 0.301, -0.458, -0.00874, 0.0490, 0.142, -0.0065}
	parkJacobiD = [...]float64{1: 3.69, -0.256, 0.904, 0.200, 0.733, 0.648, -0.647, 0.799, -0.845, 0.00130, 1.26}
)

// secondOpinion holds the flow-independent parts of Park & Jacobi. Products of powers
// are kept as sums of logarithms.
type secondOpinion struct {
	known bool // dimensions inside its data

	colburn         float64 // ln of j at Re = 1, C1, jlow and jlouv left out
	colburnExponent float64 // of Re
	louver          float64 // C1 jlouv
	turned          float64 // sin(a L_p/F_p)
	bank            float64 // C13 F_d/(N F_p)

	friction         float64 // D1 sin(a + D4)
	viscous          float64 // ln of the first term of fRe and of the powers, at Re = 1
	inertial         float64 // likewise of the second, D10 left out
	inertialExponent float64 // of Re
}

// newSecondOpinion takes dimensions and logarithms: of the louver angle in degrees, of
// lengths over the louver pitch, of tube pitch over tube height.
func newSecondOpinion(g *Geometry, angle, finPitch, finHeight, finThickness, depth, cut, tubes, tall float64) secondOpinion {
	c, d := &parkJacobiC, &parkJacobiD
	slope := 1 / (g.FinDensity * g.LouverPitch) // F_p/L_p
	bank := g.FinDepth * g.FinDensity / banks
	tan := math.Tan(g.LouverAngle)
	inertial := d[2]*math.Ln2 + d[3]*finPitch - d[5]*tall + d[6]*(cut-finHeight) + d[7]*finThickness + d[8]*(finHeight-finPitch)
	return secondOpinion{
		known: parkJacobiOutside(g) == "",
		colburn: c[2]*(angle+lnDegree) + c[3]*math.Ln2 + c[4]*finHeight + c[5]*(depth-finPitch) +
			c[6]*(cut-finHeight) + c[7]*(finHeight-tubes) - c[9]*finPitch + c[8]*math.Log(1-g.FinThickness/g.LouverPitch),
		colburnExponent:  c[10] + c[11]*math.Cosh(slope-1),
		louver:           c[1] * (1 - c[14]*tan*bank*math.Cos(2*math.Pi*(slope/tan-1.8))),
		turned:           math.Sin(g.LouverAngle / slope),
		bank:             c[13] * bank,
		friction:         d[1] * math.Sin(g.LouverAngle+d[4]),
		viscous:          inertial + d[9]*finPitch,
		inertial:         inertial,
		inertialExponent: d[11] * g.FinThickness * g.FinDensity,
	}
}

// factors returns j and f as in SecondOpinion, at a Reynolds number and its logarithm.
func (o *secondOpinion) factors(re, lnRe float64) (j, f float64) {
	c, d := &parkJacobiC, &parkJacobiD
	j = o.louver * (1 - o.turned/math.Cosh(c[12]*re-o.bank)) * math.Exp(o.colburnExponent*lnRe+o.colburn)
	f = o.friction * (math.Exp(d[9]*lnRe+o.viscous) + d[10]*math.Exp(o.inertialExponent*lnRe+o.inertial))
	return j, f
}

// parkJacobiBank is the range of the data of Park & Jacobi, as given in [4], in mm
// and degrees, in the order of bankValues.
var parkJacobiBank = [...]limit{
	{"louver_pitch", 0.5, 3},
	{"louver_length", 0.94, 18.5},
	{"louver_angle", 8.43, 35},
	{"fin_density", 0.51, 5.08}, // fin pitch
	{"fin_depth", 15.6, 57.4},
	{"fin_height", 2.84, 20},
	{"fin_thickness", 0.0254, 0.16},
	{"tube_height", 3.76, 25}, // tube pitch
}

func parkJacobiOutside(g *Geometry) string {
	values := bankValues(g, 0)
	return outside(parkJacobiBank[:], values[:len(parkJacobiBank)])
}
