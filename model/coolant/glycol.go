package coolant

import "math"

// polynomial holds the coefficients of one property of a mixture, those of
// (x - xm)^i (t - tm)^j in the order of [3]: j runs from 0 to 3 for i = 0, 1 and 2,
// to 2 for i = 3, to 1 for i = 4; last comes i = 5, j = 0.
type polynomial [18]float64

// at returns the sum for a share and a temperature less those of the centre.
func (c *polynomial) at(x, t float64) float64 {
	return c[0] + x*(c[4]+x*(c[8]+x*(c[12]+x*(c[15]+x*c[17])))) +
		t*(c[1]+x*(c[5]+x*(c[9]+x*(c[13]+x*c[16])))+
			t*(c[2]+x*(c[6]+x*(c[10]+x*c[14]))+
				t*(c[3]+x*(c[7]+x*c[11]))))
}

// mixture is a glycol with water, after [3].
type mixture struct {
	share, temperature float64 // centre of the fit: % by mass, °C

	density      polynomial // kg/m³
	specificHeat polynomial // J/(kg K)
	conductivity polynomial // W/(m K)
	viscosity    polynomial // natural logarithm of the viscosity in mPa s
	freezing     [6]float64 // °C, of (x - xm)^i
}

// at returns the properties of the mixture at a mass fraction of glycol, above 0
// to 0.60, and a temperature, in K:
//
//	ρ, cp, k, ln μ = Σ Cij (x - xm)^i (t - tm)^j                [3]
//
// with x in % by mass, t in °C and μ in mPa s.
func (m *mixture) at(share, temperature float64) Properties {
	x, t := 100*share-m.share, temperature-273.15-m.temperature
	return Properties{
		Density:      m.density.at(x, t),
		Viscosity:    1e-3 * math.Exp(m.viscosity.at(x, t)),
		Conductivity: m.conductivity.at(x, t),
		SpecificHeat: m.specificHeat.at(x, t),
	}
}

// freezes returns the freezing point, in K, at a mass fraction of glycol:
//
//	tf = Σ Ci (x - xm)^i                                        [3]
//
// The terms of [3] in the temperature itself, together below 0.02 K at the
// freezing point, are left out: a liquid freezes at one temperature.
func (m *mixture) freezes(share float64) float64 {
	x, c := 100*share-m.share, &m.freezing
	return 273.15 + c[0] + x*(c[1]+x*(c[2]+x*(c[3]+x*(c[4]+x*c[5]))))
}

var ethyleneGlycol = mixture{
	share: 30.8462, temperature: 31.728,
	density: polynomial{
		1034, -0.4781, -0.002692, 4.725e-6,
		1.311, -0.006876, 4.805e-5, 1.69e-8,
		7.49e-5, 7.855e-5, -3.995e-7, 4.982e-9,
		-1.062e-4, 1.229e-6, -1.153e-8,
		-9.623e-7, -7.211e-8,
		4.891e-8,
	},
	specificHeat: polynomial{
		3737, 2.93, -0.004675, -1.389e-5,
		-17.99, 0.1046, -4.147e-4, 1.847e-7,
		-0.09933, 3.516e-4, 5.109e-6, -7.138e-8,
		0.00261, -1.189e-6, -1.643e-7,
		1.537e-5, -4.272e-7,
		-1.618e-6,
	},
	conductivity: polynomial{
		0.472, 8.903e-4, -1.058e-6, -2.789e-9,
		-0.004286, -1.473e-5, 1.059e-7, -1.142e-10,
		1.747e-5, 6.814e-8, -3.612e-9, 2.365e-12,
		3.017e-8, -2.412e-9, 4.004e-11,
		-1.322e-9, 2.555e-11,
		2.678e-11,
	},
	viscosity: polynomial{
		0.4705, -0.0255, 1.782e-4, -7.669e-7,
		0.02471, -1.171e-4, 1.052e-6, -1.634e-8,
		3.328e-6, 1.086e-6, 1.051e-8, -6.475e-10,
		1.659e-6, 3.157e-9, 4.063e-10,
		3.089e-8, 1.831e-10,
		-1.865e-9,
	},
	freezing: [6]float64{-15.25, -0.808, -0.01334, -7.293e-5, 1.006e-6, 1.14e-9},
}

var propyleneGlycol = mixture{
	share: 30.7031, temperature: 32.7083,
	density: polynomial{
		1018, -0.5406, -0.002666, 1.347e-5,
		0.7604, -0.00945, 5.541e-5, -1.343e-7,
		-0.002498, 2.7e-5, -4.018e-7, 3.376e-9,
		-1.55e-4, 2.829e-6, -7.175e-9,
		-1.131e-6, -2.221e-8,
		2.342e-8,
	},
	specificHeat: polynomial{
		3882, 2.699, -0.001659, -1.032e-5,
		-13.04, 0.0507, -4.752e-5, 1.522e-6,
		-0.1598, 9.534e-5, 1.167e-5, -4.87e-8,
		3.539e-4, 3.102e-5, -2.95e-7,
		5e-5, -7.135e-7,
		-4.959e-7,
	},
	conductivity: polynomial{
		0.4513, 7.955e-4, 3.482e-8, -5.966e-9,
		-0.004795, -1.678e-5, 8.941e-8, 1.493e-10,
		2.076e-5, 1.563e-7, -4.615e-9, 9.897e-12,
		-9.083e-8, -2.518e-9, 6.543e-11,
		-5.952e-10, -3.605e-11,
		2.104e-11,
	},
	viscosity: polynomial{
		0.6837, -0.03045, 2.525e-4, -1.399e-6,
		0.03328, -3.984e-4, 4.332e-6, -1.86e-8,
		5.453e-5, -8.6e-8, -1.593e-8, -4.465e-11,
		-3.9e-6, 1.054e-7, -1.589e-9,
		-1.587e-8, 4.475e-10,
		3.564e-9,
	},
	freezing: [6]float64{-13.25, -0.6631, -0.01094, -2.283e-4, -3.409e-6, 1.465e-8},
}
