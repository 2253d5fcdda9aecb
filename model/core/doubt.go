package core

// Doubt says how far film and friction of a core of unknown make may lie from what
// is computed, in parts of it: the film between 1 + FilmLow and 1 + FilmHigh times
// that of AirFilm, the friction likewise. The low ends are 0 or less, above −1; the
// high ends are 0 or more.
type Doubt struct {
	FilmLow, FilmHigh         float64
	FrictionLow, FrictionHigh float64
}

// doubtLine is the doubt at a Reynolds number.
type doubtLine struct {
	re float64
	Doubt
}

// louveredDoubt is the doubt of louvered fins, on the louver pitch. In their range
// 89 % of the data lie within ±15 % in film and 83 % in friction [4]; the lines
// allow for dimensions known as one can measure them. Below, they are our own
// estimate from how far other correlations and flow computations lie apart. Each
// line stands in the middle of a range: 10 to 20, 20 to 50, 50 to 100, and above.
var louveredDoubt = [...]doubtLine{
	{14, Doubt{-0.55, 0.30, -0.45, 0.45}},
	{32, Doubt{-0.45, 0.25, -0.40, 0.45}},
	{71, Doubt{-0.30, 0.25, -0.35, 0.35}},
	{150, Doubt{-0.20, 0.20, -0.30, 0.30}},
}

// wideDoubt is louveredDoubt of louvers spaced wider than wideSpacing, for which
// friction is least sure.
var wideDoubt = [...]doubtLine{
	{14, Doubt{-0.55, 0.30, -0.50, 0.65}},
	{32, Doubt{-0.45, 0.25, -0.50, 0.65}},
	{71, Doubt{-0.30, 0.25, -0.35, 0.60}},
	{150, Doubt{-0.20, 0.20, -0.30, 0.30}},
}

// wideSpacing is the louver spacing F_p/(L_p sin θ) from which wideDoubt holds.
const wideSpacing = 4

// Doubt returns the doubt of the core's film and friction at a Reynolds number of
// the air, that of Reynolds, above 0, from a table for its surface, straight between
// its lines and held beyond them. Below Re = 100 the table of louvered fins is
// widened where SecondOpinion lies outside it: in full from 70 down, in proportion
// between, so that nothing jumps; below its range by what it says at its end. With a
// dimension outside the data behind the correlations all of it is half as
// much again, our own estimate.
func (c *Core) Doubt(re float64) Doubt {
	d, more := c.doubtInside(re), 1.0
	if c.outside {
		more = 1.5
	}
	return Doubt{
		max(more*d.FilmLow, leastLeft), min(more*d.FilmHigh, mostMore),
		max(more*d.FrictionLow, leastLeft), min(more*d.FrictionHigh, mostMore),
	}
}

// leastLeft is the lowest low end of a doubt: something is always left of a film or
// of friction.
const leastLeft = -0.95

// mostMore is the greatest high end of a doubt. Where the second opinion asks for more
// it is far from its own data, and only says that nothing is known.
const mostMore = 1.5

// doubtInside is the doubt of a core whose dimensions are all inside.
func (c *Core) doubtInside(re float64) Doubt {
	switch c.geometry.Surface {
	case Plain, Triangular:
		return doubtAt(plainDoubt[:], re)
	case OffsetStrip:
		return doubtAt(stripDoubt[:], re)
	}
	lines := louveredDoubt[:]
	if c.louvered.spacing > wideSpacing {
		lines = wideDoubt[:]
	}
	d := doubtAt(lines, re)
	if re >= louveredLow {
		return d
	}
	film, friction, _ := c.SecondOpinion(max(re, parkJacobiLow))
	share := min(1, (louveredLow-re)/(louveredLow-heardInFull))
	d.FilmLow += share * min(0, film-1-d.FilmLow)
	d.FilmHigh += share * max(0, film-1-d.FilmHigh)
	d.FrictionLow += share * min(0, friction-1-d.FrictionLow)
	d.FrictionHigh += share * max(0, friction-1-d.FrictionHigh)
	return d
}

// heardInFull is the Reynolds number from which down the second opinion widens the
// doubt in full.
const heardInFull = 70.0

func doubtAt(lines []doubtLine, re float64) Doubt {
	last := len(lines) - 1
	if re <= lines[0].re {
		return lines[0].Doubt
	}
	for i := range last {
		a, b := &lines[i], &lines[i+1]
		if re < b.re {
			t := (re - a.re) / (b.re - a.re)
			return Doubt{
				a.FilmLow + t*(b.FilmLow-a.FilmLow), a.FilmHigh + t*(b.FilmHigh-a.FilmHigh),
				a.FrictionLow + t*(b.FrictionLow-a.FrictionLow), a.FrictionHigh + t*(b.FrictionHigh-a.FrictionHigh),
			}
		}
	}
	return lines[last].Doubt
}
