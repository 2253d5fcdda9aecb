package coolant

import "math"

// water returns the properties of liquid water at 0.1 MPa and temperature t, in K.
// With α = 10/(593 - t), β = 10/(t - 232), τ = t/10 and R = 461.51805 J/(kg K),
//
//	1/ρ = (10 R/10⁵)·(a5 + Σ ai α^ni + Σ bi β^mi)              [1] eq. (2)
//	cp = -R·(c3 + τ Σ ni(ni+1) ai α^(ni+2) + τ Σ mi(mi+1) bi β^(mi+2))  [1] eq. (5)*
//	μ = 10⁻⁶ Σ ai (t/300)^bi                                   [1] eq. (7)
//	k = Σ ci (t/300)^di                                        [1] eq. (8)
//
// with the coefficients and exponents of the tables of [1]; those of μ are in its
// table 5. (* Number of this equation from memory.)
func water(t float64) Properties {
	const gasConstant = 461.51805
	alpha := 10 / (593 - t)
	beta := 10 / (t - 232)
	alpha2, beta2 := alpha*alpha, beta*beta
	alpha4, beta4 := alpha2*alpha2, beta2*beta2

	volume := 1.93763157e-2 +
		alpha4*(6.74458446e3+alpha*(-2.22521604e5+alpha2*(1.00231247e8+alpha*(-1.63552118e9+alpha*8.32299658e9)))) +
		beta*(5.78545292e-3+beta*(-1.53195665e-2+beta*(3.11337859e-2+beta*(-4.23546241e-2+beta*(3.38713507e-2-beta*1.19946761e-2)))))
	curvature := alpha4*alpha2*(20*-1.661470539e5+alpha*(30*2.708781640e6+alpha2*56*-1.557191544e8)) +
		beta4*(6*-8.237426256e-1+beta*(12*1.908956353+beta*(20*-2.017597384+beta*30*8.546361348e-1)))

	// All exponents of t/300 are multiples of 0.05: one power serves all, by squaring.
	inverse := 300 / t
	power005 := math.Exp(0.05 * math.Log(inverse)) // (t/300)^-0.05
	power01 := power005 * power005
	power02 := power01 * power01
	power04 := power02 * power02
	power08 := power04 * power04
	power16 := power08 * power08
	power32 := power16 * power16
	power64 := power32 * power32
	power128 := power64 * power64
	power19 := power16 * power02 * power01
	power76 := power64 * power08 * power04
	inverse2 := inverse * inverse
	inverse4 := inverse2 * inverse2
	inverse8 := inverse4 * inverse4
	inverse32 := inverse8 * inverse8 * inverse8 * inverse8

	return Properties{
		Density: 1e5 / (10 * gasConstant * volume),
		Viscosity: 1e-6 * (280.68*power19 + 511.45*power76*power01 +
			61.131*power128*power64*power04 + 0.45903*inverse32*inverse8),
		Conductivity: 1.6630*power08*power02*power01*power005 - 1.7781*power32*power02 +
			1.1567*inverse4*inverse2 - 0.432115*power76,
		SpecificHeat: -gasConstant * (-8.983025854 + t/10*curvature),
	}
}
