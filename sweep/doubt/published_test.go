package doubt

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"finduel/sweep/study"
	"finduel/testdata/published"
)

// samples returns f of many draws of variables.
func samples(variables []distuv.Quantiler, blocks int, f func([]float64) float64) (values []float64, cube [][]float64) {
	row := make([]float64, len(variables))
	cube = make([][]float64, len(variables))
	for b := range blocks {
		c := hypercube(variables, blockSize, source(3, streamDraws, uint64(b)))
		for i := range blockSize {
			for j := range row {
				row[j] = c[j][i]
				cube[j] = append(cube[j], row[j])
			}
			values = append(values, f(row))
		}
	}
	return values, cube
}

func deviation(values []float64) float64 { return math.Sqrt(momentsOf(values, nil).variance) }

// unit returns a standard normal variable and one that is rectangular with a half-width.
func unit() distuv.Quantiler             { return distuv.UnitNormal }
func flat(half float64) distuv.Quantiler { return distuv.Uniform{Min: -half, Max: half} }

func ishigami(x []float64) float64 {
	sin := math.Sin(x[1])
	return math.Sin(x[0]) + 7*sin*sin + 0.1*math.Pow(x[2], 4)*math.Sin(x[0])
}

func ishigamiIndices(t *testing.T) Indices {
	t.Helper()
	v := []distuv.Quantiler{flat(math.Pi), flat(math.Pi), flat(math.Pi)}
	const n = 16384
	d := one(hypercube(v, n, source(1, streamIndices, 0)), hypercube(v, n, source(1, streamIndices, 1)), ishigami)
	x, err := d.indices(source(1, streamBootstrap, 0))
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func TestPublishedDoubt(t *testing.T) {
	var ofIshigami Indices
	known := func(t *testing.T) Indices {
		if ofIshigami.First == nil {
			ofIshigami = ishigamiIndices(t)
		}
		return ofIshigami
	}
	published.Run(t, "doubt", map[string]func(t *testing.T, r published.Row) float64{
		"shape": func(t *testing.T, r published.Row) float64 {
			shape := study.Rectangular
			switch {
			case r.In["triangular"] == 1:
				shape = study.Triangular
			case r.In["normal"] == 1:
				shape = study.Normal
			}
			values, _ := samples([]distuv.Quantiler{standard(shape)}, 40, func(x []float64) float64 { return x[0] * r.Arg(t, "half") })
			return deviation(values)
		},
		"additive": func(t *testing.T, r published.Row) float64 {
			v := []distuv.Quantiler{flat(math.Sqrt(3)), flat(math.Sqrt(3)), flat(math.Sqrt(3)), flat(math.Sqrt(3) * r.Arg(t, "sd"))}
			if r.Arg(t, "normal") == 1 {
				v = []distuv.Quantiler{unit(), unit(), unit(), unit()}
			}
			values, _ := samples(v, 400, func(x []float64) float64 { return x[0] + x[1] + x[2] + x[3] })
			q := quantilesOf(values)
			return (q[2] - q[0]) / 2
		},
		"end_gauge": endGauge,
		"logarithm": func(t *testing.T, r published.Row) float64 {
			values, _ := samples([]distuv.Quantiler{flat(0.5)}, 40, func(x []float64) float64 { return math.Log(0.6 + x[0]) })
			if m := momentsOf(values, nil); r.Arg(t, "mean") == 1 {
				return m.mean
			}
			return deviation(values)
		},
		"thermometer": thermometer,
		"mass":        mass,
		"loss":        loss,
		"gauge_block": gaugeBlock,
		"impedance":   func(t *testing.T, r published.Row) float64 { return deviation(impedance(int(r.Arg(t, "result")))) },
		"impedance_correlation": func(t *testing.T, r published.Row) float64 {
			a, b := impedance(int(r.Arg(t, "a"))), impedance(int(r.Arg(t, "b")))
			ma, mb, sum := momentsOf(a, nil), momentsOf(b, nil), 0.0
			for i := range a {
				sum += (a[i] - ma.mean) * (b[i] - mb.mean)
			}
			return sum / float64(len(a)) / math.Sqrt(ma.variance*mb.variance)
		},
		"ishigami_first": func(t *testing.T, r published.Row) float64 { return known(t).First[int(r.Arg(t, "x"))-1].Value },
		"ishigami_total": func(t *testing.T, r published.Row) float64 { return known(t).Total[int(r.Arg(t, "x"))-1].Value },
		"ishigami_left": func(t *testing.T, r published.Row) float64 {
			y, x := samples([]distuv.Quantiler{flat(math.Pi), flat(math.Pi), flat(math.Pi)}, 40, ishigami)
			l, err := leftOver(y, x[int(r.Arg(t, "x"))-1], source(1, streamMeasured, 0))
			if err != nil {
				t.Fatal(err)
			}
			return l.Value
		},
	})
}

// summary returns mean, standard deviation and the ends of the 95 % interval of values,
// counted from 1.
func summary(values []float64, result int) float64 {
	m, q := momentsOf(values, nil), quantilesOf(values)
	return [...]float64{m.mean, math.Sqrt(m.variance), q[0], q[2]}[result-1]
}

// thermometer is the worked example H.3 of the GUM: the correction at 30 °C of a line y1 +
// y2 (t − 20 °C), whose constants are correlated.
func thermometer(t *testing.T, r published.Row) float64 {
	const y1, u1, y2, u2, correlation = -0.1712, 0.0029, 0.00218, 0.00067, -0.930
	values, _ := samples([]distuv.Quantiler{unit(), unit()}, 200, func(x []float64) float64 {
		return y1 + u1*x[0] + (y2+u2*(correlation*x[0]+math.Sqrt(1-correlation*correlation)*x[1]))*10
	})
	return summary(values, int(r.Arg(t, "result")))
}

// mass is the worked example 9.3 of JCGM 101: by how much a weight of 100 g, whose density is
// known from 7 000 to 9 000 kg/m³, is off, in mg.
func mass(t *testing.T, r published.Row) float64 {
	v := []distuv.Quantiler{unit(), unit(), flat(0.1), flat(1000), flat(50)}
	values, _ := samples(v, 200, func(x []float64) float64 {
		buoyancy := x[2] * (1/(8000+x[3]) - 1/(8000+x[4]))
		return (100_000+0.050*x[0]+1.234+0.020*x[1])*(1+buoyancy) - 100_000
	})
	return summary(values, int(r.Arg(t, "result")))
}

// loss is the worked example 9.4 of JCGM 101: X1² + X2², both normal with a standard
// deviation of 0.005, in millionths.
func loss(t *testing.T, r published.Row) float64 {
	const u = 0.005
	correlation, x1 := r.Arg(t, "r"), r.Arg(t, "x1")
	values, _ := samples([]distuv.Quantiler{unit(), unit()}, 200, func(x []float64) float64 {
		a, b := x1+u*x[0], u*(correlation*x[0]+math.Sqrt(1-correlation*correlation)*x[1])
		return 1e6 * (a*a + b*b)
	})
	return summary(values, int(r.Arg(t, "result")))
}

// gaugeBlock is the worked example 9.5 of JCGM 101, the end gauge of the GUM with
// distributions in place of degrees of freedom, in nm beyond 50 mm.
func gaugeBlock(t *testing.T, r published.Row) float64 {
	scaled := func(sigma, nu float64) distuv.Quantiler { return distuv.StudentsT{Sigma: sigma, Nu: nu} }
	v := []distuv.Quantiler{scaled(25, 18), scaled(6, 24), scaled(4, 5), scaled(7, 8), flat(2e-6), unit(), flat(math.Pi / 2), flat(1), flat(1), flat(1), flat(1)}
	// A rectangular quantity whose half-width is known to ±d alone.
	inexact := func(half, d, a, b float64) float64 { return (half + d*a) * b }
	values, _ := samples(v, 100, func(x []float64) float64 {
		standard := 50_000_623 + x[0]
		deviation := -0.1 + 0.2*x[5] + 0.5*math.Sin(x[6]) // of the bed and its cycle
		expansion, difference := inexact(1e-6, 0.1e-6, x[7], x[8]), inexact(0.050, 0.025, x[9], x[10])
		return standard + 215 + x[1] + x[2] + x[3] - standard*(expansion*deviation+(11.5e-6+x[4])*difference) - 50_000_000
	})
	return summary(values, int(r.Arg(t, "result")))
}

// impedance returns resistance, reactance or impedance, ohm, counted from 1, of the worked
// example H.2 of the GUM, sampled: from voltage, current and phase, which are correlated.
func impedance(result int) []float64 {
	values, _ := samples([]distuv.Quantiler{unit(), unit(), unit()}, 200, func(x []float64) float64 {
		// Cholesky factor of r(V,I) = −0.36, r(V,φ) = 0.86, r(I,φ) = −0.65.
		i := math.Sqrt(1 - 0.36*0.36)
		phase := (-0.65 + 0.36*0.86) / i
		a, b, c := x[0], -0.36*x[0]+i*x[1], 0.86*x[0]+phase*x[1]+math.Sqrt(1-0.86*0.86-phase*phase)*x[2]
		z := (4.9990 + 0.0032*a) / (19.661e-3 + 0.0095e-3*b)
		angle := 1.04446 + 0.00075*c
		return []float64{z * math.Cos(angle), z * math.Sin(angle), z}[result-1]
	})
	return values
}

// Ishigami's function sin x1 + a sin² x2 + b x3⁴ sin x1 over −π to π, where the mean of
// sin² is ½, that of sin⁴ ⅜, that of x⁴ π⁴/5 and that of x⁸ π⁸/9. Given x1 it has the mean
// (1 + b π⁴/5) sin x1 + a/2, given x2 a sin² x2, given x3 a/2, and x1 acts with x3:
//
//	V1 = (1 + b π⁴/5)²/2   V2 = a² (⅜ − ¼) = a²/8   V3 = 0   V13 = b² (π⁸/9 − π⁸/25)/2
//
// The table's values must be what follows.
func TestIshigamiInClosedForm(t *testing.T) {
	const a, b = 7, 0.1
	pi4 := math.Pow(math.Pi, 4)
	v1, v2, v13 := math.Pow(1+b*pi4/5, 2)/2, a*a/8., b*b*(pi4*pi4/9-pi4*pi4/25)/2
	v := v1 + v2 + v13
	want := map[string][]float64{
		"ishigami_first": {v1 / v, v2 / v, 0}, "ishigami_total": {(v1 + v13) / v, v2 / v, v13 / v},
		"ishigami_left": {math.Sqrt(1 - v1/v), math.Sqrt(1 - v2/v)},
	}
	seen := 0
	for _, r := range published.Rows(t, "doubt") {
		if values := want[r.Case]; values != nil {
			seen++
			if got := values[int(r.Arg(t, "x"))-1]; math.Abs(got-r.Expected) > 6e-5 {
				t.Errorf("line %d: %v, in closed form %v", r.Line, r.Expected, got)
			}
		}
	}
	if seen != 8 {
		t.Errorf("%d rows of %d", seen, 8)
	}
}

// Of many designs drawn with different seeds, the intervals of so many must hold the true
// indices. Rows of hypercubes scatter less than the bootstrap takes them to, which draws
// them as if they were independent: the intervals hold at least what they promise.
func TestCoverageOfTheIndices(t *testing.T) {
	v := []distuv.Quantiler{flat(math.Pi), flat(math.Pi), flat(math.Pi)}
	want := [2][3]float64{{0.3139, 0.4424, 0}, {0.5576, 0.4424, 0.2437}}
	const runs = 100
	holds, all := 0, 0
	for seed := range uint64(runs) {
		d := one(hypercube(v, 1024, source(seed, streamIndices, 0)), hypercube(v, 1024, source(seed, streamIndices, 1)), ishigami)
		x, err := d.indices(source(seed, streamBootstrap, 0))
		if err != nil {
			t.Fatal(err)
		}
		for j := range v {
			for k, i := range []Index{x.First[j], x.Total[j]} {
				all++
				holds += b2i(i.Low <= want[k][j] && want[k][j] <= i.High)
			}
		}
	}
	if share := float64(holds) / float64(all); share < 0.93 {
		t.Errorf("the intervals hold %v of the indices, want 0.95", share)
	} else {
		t.Logf("the intervals hold %v of the indices", share)
	}
}

// endGauge is the worked example H.1 of the GUM: an end gauge compared with a standard.
func endGauge(t *testing.T, r published.Row) float64 {
	const (
		length = 50.000623e6               // of the standard, nm
		alpha  = 11.5e-6                   // its expansion, 1/K
		theta  = -0.1                      // deviation from 20 °C, K
		uTheta = 0.41                      // of which 0.2 is a mean and 0.35 a cycle
		uGauge = 25.0                      // of the standard, nm
		uRead  = 9.7                       // of the comparison, nm
		uAlpha = 1e-6 / 1.7320508075688772 /* difference of expansion */ // 1/K
		uDelta = 0.05 / 1.7320508075688772 // difference of temperature, K
	)
	if r.Arg(t, "first") == 1 {
		return math.Sqrt(uGauge*uGauge + uRead*uRead + math.Pow(length*theta*uAlpha, 2) + math.Pow(length*alpha*uDelta, 2))
	}
	v := []distuv.Quantiler{unit(), unit(), flat(1e-6), unit(), flat(2e-6), flat(0.05)}
	values, _ := samples(v, 400, func(x []float64) float64 {
		return uGauge*x[0] + uRead*x[1] - length*(x[2]*(theta+uTheta*x[3])+(alpha+x[4])*x[5])
	})
	return deviation(values)
}

func quantilesOf(values []float64) []float64 {
	var s sample
	for _, v := range values {
		s.add(v)
	}
	return s.quantiles(bandAt...)
}

// one picks a design of a single result.
func one(a, b [][]float64, f func([]float64) float64) design {
	return pick(a, b, 1, func(row []float64, _ int, into []float64) { into[0] = f(row) })[0]
}
