package doubt

import (
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// A linear model has its variance and its indices in closed form: with independent
// variables of standard deviation s_j, V = Σ c_j² s_j² and S_j = T_j = c_j² s_j² / V.
func TestLinearModelIsExact(t *testing.T) {
	coefficients := []float64{3, -2, 1, 0.5}
	variables := []distuv.Quantiler{unit(), flat(math.Sqrt(3)), distuv.NewTriangle(-math.Sqrt(6), math.Sqrt(6), 0, nil), unit()}
	variance := 0.0
	for _, c := range coefficients {
		variance += c * c
	}
	f := func(x []float64) float64 {
		y := 7.0
		for j, c := range coefficients {
			y += c * x[j]
		}
		return y
	}
	values, columns := samples(variables, 40, f)
	m := momentsOf(values, nil)
	if math.Abs(m.mean-7) > 2e-3 { // a hypercube has the mean of a sum to the square of its fineness
		t.Errorf("mean %v, want 7", m.mean)
	}
	if math.Abs(m.variance/variance-1) > 0.02 {
		t.Errorf("variance %v, want %v", m.variance, variance)
	}
	const n = 4096
	d := one(hypercube(variables, n, source(1, streamIndices, 0)), hypercube(variables, n, source(1, streamIndices, 1)), f)
	x, err := d.indices(source(1, streamBootstrap, 0))
	if err != nil {
		t.Fatal(err)
	}
	for j, c := range coefficients {
		want := c * c / variance
		for what, got := range map[string]Index{"first-order": x.First[j], "total": x.Total[j]} {
			if math.Abs(got.Value-want) > 0.03 || got.Low > want+0.01 || got.High < want-0.01 {
				t.Errorf("%s index of variable %d: %+v, want %v", what, j, got, want)
			}
			if got.Low > got.Value || got.High < got.Value {
				t.Errorf("%s index of variable %d lies outside its interval: %+v", what, j, got)
			}
		}
		l, err := leftOver(values, columns[j], source(1, streamMeasured, uint64(j)))
		if err != nil {
			t.Fatal(err)
		}
		if want := math.Sqrt(1 - want); math.Abs(l.Value-want) > 0.02 || l.Low > l.Value || l.High < l.Value {
			t.Errorf("knowing variable %d leaves %+v of the doubt, want %v", j, l, want)
		}
	}
	// The product of the errors that a measurement shows takes both away.
	both := make([]float64, len(values))
	for i := range both {
		both[i] = 3*columns[0][i] - 2*columns[1][i]
	}
	if l, err := leftOver(values, both, source(1, streamMeasured, 9)); err != nil || math.Abs(l.Value-math.Sqrt(1.25/variance)) > 0.02 {
		t.Errorf("knowing two together leaves %+v (%v), want %v", l, err, math.Sqrt(1.25/variance))
	}
}

// leftOver is left of a single quantity.
func leftOver(y, x []float64, src rand.Source) (Index, error) {
	list, err := left(y, [][]float64{x}, src)
	if err != nil {
		return Index{}, err
	}
	return list[0], nil
}

// What is left is the same for a quantity whatever it is asked beside: all are resampled
// alike.
func TestWhatIsLeftOfSeveral(t *testing.T) {
	cube := hypercube([]distuv.Quantiler{unit(), unit(), unit()}, 1001, source(3, streamDraws, 0))
	y := make([]float64, len(cube[0]))
	for i := range y {
		y[i] = 2*cube[0][i] + cube[1][i]
	}
	all, err := left(y, cube, source(3, streamMeasured, 0))
	if err != nil {
		t.Fatal(err)
	}
	for j, x := range cube {
		if one, err := leftOver(y, x, source(3, streamMeasured, 0)); err != nil || one != all[j] {
			t.Errorf("variable %d: %+v by itself (%v), %+v beside others", j, one, err, all[j])
		}
		if want := math.Sqrt(1 - []float64{0.8, 0.2, 0}[j]); math.Abs(all[j].Value-want) > 0.03 || all[j].Low > want || all[j].High < want {
			t.Errorf("knowing variable %d leaves %+v, want %v", j, all[j], want)
		}
	}
}

// The interval of what is left lies about its value: rows drawn again are no smaller bins.
func TestIntervalOfWhatIsLeft(t *testing.T) {
	off := 0.0
	const runs = 20
	for seed := range uint64(runs) {
		cube := hypercube([]distuv.Quantiler{unit(), unit()}, 1000, source(seed, streamDraws, 0))
		y := make([]float64, len(cube[0]))
		for i := range y {
			y[i] = cube[0][i] + cube[1][i]
		}
		l, err := leftOver(y, cube[0], source(seed, streamMeasured, 0))
		if err != nil {
			t.Fatal(err)
		}
		off += ((l.Low+l.High)/2 - l.Value) / (l.High - l.Low) / runs
	}
	if math.Abs(off) > 0.05 {
		t.Errorf("the middle of the interval lies %v of its width beside the value", off)
	}
}

// Hypercubes settle the mean of what is nearly a sum far sooner than independent draws.
func TestHypercubeStratifiesEveryVariable(t *testing.T) {
	const n = 100
	cube := hypercube([]distuv.Quantiler{distuv.Uniform{Min: 0, Max: 1}, distuv.Uniform{Min: 0, Max: 1}}, n, source(5, streamDraws, 0))
	for j, column := range cube {
		seen := map[int]bool{}
		for _, v := range column {
			seen[int(v*n)] = true
		}
		if len(seen) != n {
			t.Errorf("variable %d falls into %d of %d parts", j, len(seen), n)
		}
	}
	again := hypercube([]distuv.Quantiler{distuv.Uniform{Min: 0, Max: 1}, distuv.Uniform{Min: 0, Max: 1}}, n, source(5, streamDraws, 0))
	if !reflect.DeepEqual(cube, again) {
		t.Error("the same seed draws otherwise")
	}
	if reflect.DeepEqual(cube, hypercube([]distuv.Quantiler{distuv.Uniform{Min: 0, Max: 1}, distuv.Uniform{Min: 0, Max: 1}}, n, source(6, streamDraws, 0))) {
		t.Error("another seed draws the same")
	}
}

// The bounded sample against all values sorted.
func TestQuantilesInBoundedMemory(t *testing.T) {
	r := rand.New(source(1, 9, 9))
	for _, n := range []int{1, 4, 1000, full - 1, full, 50_000, 300_000} {
		var s sample
		var all []float64
		for range n {
			v := math.Exp(r.NormFloat64())
			s.add(v)
			all = append(all, v)
		}
		slices.Sort(all)
		kept := 0
		for _, level := range s.levels {
			kept += cap(level)
		}
		if kept > 16*2*full {
			t.Errorf("%d values keep room for %d", n, kept)
		}
		for i, q := range s.quantiles(bandAt...) {
			rank, _ := slices.BinarySearch(all, q)
			want := bandAt[i] * float64(n)
			allowed := 1.0
			if n >= full {
				allowed = 1.5e-4 * float64(n)
			}
			if math.Abs(float64(rank)-want) > allowed {
				t.Errorf("of %d values the %v-quantile is number %d", n, bandAt[i], rank)
			}
		}
	}
	if q := new(sample).quantiles(0.5); !math.IsNaN(q[0]) {
		t.Errorf("of nothing the median is %v", q[0])
	}
	inf := math.Inf(1)
	var s sample
	for _, v := range []float64{1, 2, 3, 4} {
		s.add(v)
	}
	if q := s.quantiles(0.125, 0.5); q[0] != 1 || q[1] != 2.5 {
		t.Errorf("quantiles of 1, 2, 3, 4: %v, want 1 and 2.5", q)
	}
	s.add(inf)
	s.add(math.Inf(-1))
	if q := s.quantiles(0, 0.5, 1); !math.IsInf(q[0], -1) || q[1] != 2.5 || q[2] != inf {
		t.Errorf("quantiles beside infinities: %v", q)
	}
}

// Of many computations with different seeds, the intervals of so many must hold the
// true result: 95 % for new draws of the result itself; and what says that it is
// stable must come out the same.
func TestCoverageOfTheInterval(t *testing.T) {
	variables := []distuv.Quantiler{unit(), flat(1), unit()}
	f := func(x []float64) float64 { return math.Exp(0.3*x[0]) + x[1]*x[2] }
	r := rand.New(source(2, 8, 8))
	const runs, looks = 60, 400
	inside, stableRuns := 0, 0
	var bands []Band
	for seed := range runs {
		var c collector
		c.perSI = 1
		row := make([]float64, 3)
		for b := 0; b < 200 && (b < leastBlocks || !c.settled()); b++ {
			cube := hypercube(variables, blockSize, source(uint64(seed), streamDraws, uint64(b)))
			for i := range blockSize {
				for j := range row {
					row[j] = cube[j][i]
				}
				c.add(f(row))
			}
			c.close()
		}
		band := c.band()
		if band.Settled {
			stableRuns++
		}
		bands = append(bands, band)
		for range looks {
			if y := f([]float64{r.NormFloat64(), 2*r.Float64() - 1, r.NormFloat64()}); y >= band.Low && y <= band.High {
				inside++
			}
		}
	}
	share := float64(inside) / (runs * looks)
	if math.Abs(share-0.95) > 0.006 { // 24 000 looks scatter by 0.0014; the ends of a run by more
		t.Errorf("the intervals hold %v of what they should, want 0.95", share)
	}
	if stableRuns != runs {
		t.Errorf("%d of %d runs settle", stableRuns, runs)
	}
	// Digits that are called stable differ by one step at most, and seldom at all.
	steps, far := map[float64]bool{}, 0
	for _, b := range bands {
		steps[b.Steps[1]] = true
		for i, pair := range [][2]float64{{b.Low, bands[0].Low}, {b.Median, bands[0].Median}, {b.High, bands[0].High}} {
			if math.Abs(pair[0]-pair[1]) > b.Steps[i] {
				far++
			}
		}
	}
	if far > 0 || len(steps) != 1 {
		t.Errorf("%d numbers lie more than a step apart; steps %v", far, steps)
	}
}

// An end beyond which some draws never come is settled where their share lies clearly on
// one side of 2.5 %, and said to be undecided where it does not.
func TestOpenEnds(t *testing.T) {
	const blocks = 24 // 6 000 draws: the share is known to 0.2 %, a standard deviation
	for _, c := range []struct {
		never     float64 // share of the draws
		open      bool
		undecided bool
	}{
		{0, false, false}, {0.008, false, false}, {0.0235, false, true}, {0.027, true, true}, {0.08, true, false}, {1, true, false},
	} {
		for _, sign := range []int{1, -1} {
			var all collector
			all.perSI = 1
			for b := range blocks {
				cube := hypercube([]distuv.Quantiler{unit(), unit()}, blockSize, source(4, streamDraws, uint64(b)))
				for i := range blockSize {
					v := (cube[0][i] - cube[1][i]) / math.Sqrt2
					if distuv.UnitNormal.CDF(v) > 1-c.never {
						v = math.Inf(1)
					}
					all.add(float64(sign) * v)
				}
				all.close()
			}
			end, value := 2, all.band().High
			if sign < 0 {
				end, value = 0, all.band().Low
			}
			b := all.band()
			if math.IsInf(value, sign) != c.open || b.Undecided[end] != c.undecided || b.Undecided[2-end] || b.Undecided[1] {
				t.Errorf("with %g of the draws at %d times infinity: %+v", c.never, sign, b)
			}
			if b.Settled == c.undecided {
				t.Errorf("with %g of the draws at infinity settled is %v", c.never, b.Settled)
			}
		}
	}
	// By ranks the scatter is that of a quantile: √(p(1 − p)/n) over the density there.
	var all collector
	all.perSI = 1
	r := rand.New(source(5, 9, 9))
	for range 40 {
		for range blockSize {
			v := r.NormFloat64()
			if v > 2.3 { // 1.1 %
				v = math.Inf(1)
			}
			all.add(v)
		}
		all.close()
	}
	z := distuv.UnitNormal.Quantile(0.975)
	want := math.Sqrt(0.025*0.975/10_000) / distuv.UnitNormal.Prob(z)
	if s := all.scatter(); !all.high.open() || math.Abs(s[2]/want-1) > 0.25 {
		t.Errorf("the high end scatters by %v, want about %v", s, want)
	}
	if (&collector{}).settled() != true {
		t.Error("a result that no draw has is not settled")
	}
}

// An end that may be a speed or none at all is said no finer than it scatters on the side
// where it is a speed.
func TestUndecidedEndsAreSaidCoarsely(t *testing.T) {
	var c collector
	c.perSI = 1
	r := rand.New(source(6, 9, 9))
	for range 4 {
		for range blockSize {
			v := r.NormFloat64()
			if v > 2 { // 2.3 %
				v = math.Inf(1)
			}
			c.add(v)
		}
		c.close()
	}
	// A normal quantile scatters by √(p(1 − p)/n) over the density: 0.085 of 1 000 draws, of
	// which half the reach of its ranks, two standard deviations, tells on the one side.
	if b := c.band(); !b.Undecided[2] || math.IsInf(b.High, 0) || math.Abs(b.Steps[2]-0.5) > 1e-9 {
		t.Errorf("%+v", b)
	}
	if s := c.nearer(2, math.Inf(1)); s != 0 {
		t.Errorf("an end that is infinite scatters by %v", s)
	}
}

func TestCoverageIsCounted(t *testing.T) {
	// Newcombe, Statistics in Medicine 17 (1998) 857-872, table I, method 3 (from memory).
	for _, c := range []struct {
		k, n      int
		low, high float64
	}{{81, 263, 0.2553, 0.3662}, {15, 148, 0.0624, 0.1605}, {0, 20, 0, 0.1611}, {1, 29, 0.0061, 0.1718}} {
		if i := shareOfDraws(c.k, c.n); math.Abs(i.Low-c.low) > 6e-5 || math.Abs(i.High-c.high) > 6e-5 || i.Value != float64(c.k)/float64(c.n) {
			t.Errorf("%d of %d: %+v, want %v to %v", c.k, c.n, i, c.low, c.high)
		}
	}
	nan, inf := math.NaN(), math.Inf(1)
	c := coverageOf("difference", Band{Low: 1, High: inf}, []float64{0, 1, nan, inf}, []float64{-inf, 3})
	if c.Draws != 5 || c.Inside != 3 || c.Of != "difference" {
		t.Errorf("%+v, want 3 of 5", c)
	}
	if c := coverageOf("difference", Band{Low: nan, High: nan}, []float64{nan}); c.Share != (Index{}) {
		t.Errorf("of nothing: %+v", c)
	}
}

// A share of draws that ended at their cap is said to what its binomial scatter holds, whole
// percent else; an index to what its interval is worth.
func TestSharesAreSaidToWhatTheyHold(t *testing.T) {
	for _, c := range []struct {
		share  float64
		draws  int
		capped bool
		want   float64
	}{
		{0.5, 2000, true, 0.05}, {0.5, 20000, true, 0.01}, {0.5, 2000, false, 0.01}, {0.02, 2000, true, 0.01}, {0, 2000, true, 0.01}, {0.5, 300, true, 0.2},
	} {
		r := Result{Draws: c.draws, Capped: c.capped}
		if got := r.StepOf(c.share); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%v of %d draws, capped %v: to %v, want %v", c.share, c.draws, c.capped, got, c.want)
		}
	}
	if got := (Index{0.3, 0.28, 0.32}).Step(); math.Abs(got-0.002) > 1e-12 {
		t.Errorf("an index between 0.28 and 0.32 is said to %v, want 0.002", got)
	}
	if got := (Index{0.3, 0.3, 0.3}).Step(); got != 0 {
		t.Errorf("an index without a width is said to %v", got)
	}
}

// JCGM 101 7.9 on blocks of plain numbers: the scatter is that of the mean.
func TestStoppingRule(t *testing.T) {
	var s tally
	for _, v := range []float64{1, 2, 3, 4, 5} {
		s.add(v)
	}
	if got, want := s.scatter(), math.Sqrt(2.5/5); math.Abs(got-want) > 1e-12 {
		t.Errorf("scatter %v, want %v", got, want)
	}
	if !stable(0.0249, 0.1) || stable(0.0251, 0.1) {
		t.Error("2s must be below half of the step")
	}
	for u, want := range map[float64]float64{1.3: 0.2, 0.42: 0.1, 1100: 200, 2: 0.5, 4: 1, 0: 0, math.Inf(1): 0} {
		if got := resolution(u); math.Abs(got-want) > 1e-12*want {
			t.Errorf("numbers with a doubt of %v go to %v, want %v", u, got, want)
		}
	}
	for s, want := range map[float64]float64{0.025: 0.1, 0.026: 0.2, 0.06: 0.5, 0.2: 1, 0: 0, math.Inf(1): 0} {
		if got := holds(s); math.Abs(got-want) > 1e-12 {
			t.Errorf("a scatter of %v holds %v, want %v", s, got, want)
		}
	}
	inf := math.Inf(1)
	var open tally
	open.add(inf)
	open.add(inf)
	if open.scatter() != 0 {
		t.Error("an end that is open in every block would not change")
	}
	open.add(1)
	open.add(2)
	if !math.IsInf(open.scatter(), 1) {
		t.Error("an end that is open in some blocks is not settled")
	}
}

// A design with a draw that has no result has no indices, and says so; nor has a result
// that never changes.
func TestBrokenDesignsHaveNoIndices(t *testing.T) {
	v := []distuv.Quantiler{unit(), unit()}
	for _, c := range []struct {
		f    func([]float64) float64
		says string
	}{
		{func(x []float64) float64 {
			if x[0] > 2.5 {
				return math.Inf(1)
			}
			return x[0]
		}, "draws have no such value"},
		{func(x []float64) float64 { return math.Sqrt(x[0] + 2.5) }, "draws have no such value"},
		{func([]float64) float64 { return 3 }, "the same in every draw"},
	} {
		d := one(hypercube(v, 500, source(1, streamIndices, 0)), hypercube(v, 500, source(1, streamIndices, 1)), c.f)
		if x, err := d.indices(source(1, streamBootstrap, 0)); err == nil || !strings.Contains(err.Error(), c.says) || x.First != nil {
			t.Errorf("indices %+v, %v; want none, because %q", x, err, c.says)
		}
		y, columns := samples(v, 4, c.f)
		if _, err := leftOver(y, columns[0], source(1, streamMeasured, 0)); err == nil {
			t.Errorf("%q: what is left of a doubt is computed all the same", c.says)
		}
	}
	if _, err := leftOver(make([]float64, 3), make([]float64, 3), source(1, streamMeasured, 0)); err == nil || errors.Is(err, errNoVariance) {
		t.Errorf("three draws: %v", err)
	}
}

// An index that is nothing scatters around zero; its interval says so.
func TestIndicesOfNothingReachBelowZero(t *testing.T) {
	v := []distuv.Quantiler{unit(), unit(), unit()}
	negative := 0
	for seed := range uint64(20) {
		d := one(hypercube(v, 512, source(seed, streamIndices, 0)), hypercube(v, 512, source(seed, streamIndices, 1)),
			func(x []float64) float64 { return x[0] + x[0]*x[1] })
		x, err := d.indices(source(seed, streamBootstrap, 0))
		if err != nil {
			t.Fatal(err)
		}
		for j := range v {
			if f := x.First[j]; f.Value < 0 {
				negative++
				if f.Low > f.Value || f.High < 0 {
					t.Errorf("seed %d: index %d is %+v: negative, and its interval does not say why", seed, j, f)
				}
			}
			if x.Total[j].Low < 0 {
				t.Errorf("a total index is a mean of squares: %+v", x.Total[j])
			}
		}
		if x.Total[2].Value != 0 || x.First[2].Value != 0 {
			t.Errorf("a variable without effect has %+v and %+v", x.First[2], x.Total[2])
		}
	}
	if negative == 0 {
		t.Error("no index was negative: the test does not show what it should")
	}
}
