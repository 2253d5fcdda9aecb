package fan_test

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/interp"

	"finduel/model/fan"
)

// saddled is an invented measurement of a fan with a saddle: flow in m³/s, pressure in
// Pa, power in W.
func saddled() []fan.CurvePoint {
	return []fan.CurvePoint{
		{Flow: 0, Pressure: 60, Power: 3.4}, {Flow: 0.008, Pressure: 47, Power: 3.2}, {Flow: 0.014, Pressure: 36, Power: 3.1},
		{Flow: 0.019, Pressure: 33, Power: 3.2}, {Flow: 0.026, Pressure: 38, Power: 3.3}, {Flow: 0.032, Pressure: 34, Power: 3.2},
		{Flow: 0.042, Pressure: 18, Power: 2.9}, {Flow: 0.050, Pressure: 4, Power: 2.6},
	}
}

func curve(t *testing.T, points []fan.CurvePoint) (*fan.Curve, fan.Rating) {
	t.Helper()
	c, rating, err := fan.NewCurve(points)
	if err != nil {
		t.Fatal(err)
	}
	return c, rating
}

// A fan with a measured curve gives its points back, at their speed and density, and at
// others what the fan laws make of them.
func TestMeasuredCurveGoesThroughItsPoints(t *testing.T) {
	points := saddled()
	c, rating := curve(t, points)
	f := invented()
	f.Curve, f.FreeAirFlow, f.ShutOffPressure, f.RatedPower = c, rating.FreeAirFlow, rating.ShutOffPressure, rating.Power
	for _, n := range []float64{0.3, 1, 1.7} {
		for _, p := range points {
			near(t, "pressure", f.Pressure(150*n, n*p.Flow, 1.2*0.9), n*n*0.9*p.Pressure)
			near(t, "power", f.Draw(150*n, p.Flow/rating.FreeAirFlow, 1.2*0.9).Supply, n*n*n*0.9*p.Power)
		}
	}
	// The last two points fall by 14 Pa over 8 L/s: 4 Pa take 2.2857 L/s more.
	near(t, "free-air flow", rating.FreeAirFlow, 0.05+4*0.008/14)
	for share := 0.05 / rating.FreeAirFlow; share < 1; share += 0.005 {
		if p, want := c.Pressure(share), (1-share)*rating.FreeAirFlow*14/0.008/60; math.Abs(p-want) > 1e-12 {
			t.Fatalf("the tail is %g of shut-off at %g, want %g on the straight line", p, share, want)
		}
	}
	near(t, "beyond free air", c.Pressure(1.1), -0.1*rating.FreeAirFlow*14/0.008/60)
	if p := c.Pressure(1); p != 0 {
		t.Errorf("%g of shut-off in free air", p)
	}
	if d := c.Pressure(1+1e-9) + 1e-9; math.Abs(d) > 1e-8 {
		t.Errorf("a step of %g at free air", d)
	}
	near(t, "least power is that in free air", f.LeastDraw(150, 1.2).Supply, rating.Power)
	most := 0.0
	for share := 0.0; share <= 1; share += 0.001 {
		most = math.Max(most, f.Draw(150, share, 1.2).Supply)
	}
	near(t, "most power is that of the hungriest point", f.MostDraw(150, 1.2).Supply, most)
}

// Between two points the curve stays between them: it has no hump that the points have
// not, and no step.
func TestMeasuredCurveIsMonotoneBetweenItsPoints(t *testing.T) {
	points := saddled()
	c, rating := curve(t, points)
	for i := 1; i < len(points); i++ {
		from, to := points[i-1], points[i]
		sign := math.Copysign(1, to.Pressure-from.Pressure)
		last := from.Pressure
		for k := 1; k <= 200; k++ {
			flow := from.Flow + (to.Flow-from.Flow)*float64(k)/200
			p := c.Pressure(flow/rating.FreeAirFlow) * rating.ShutOffPressure
			if sign*(p-last) < -1e-12 || math.Abs(p-last) > 0.05*math.Abs(to.Pressure-from.Pressure) {
				t.Fatalf("piece %d: %g Pa after %g Pa", i, p, last)
			}
			last = p
		}
	}
}

// The same cubic by a general library, which takes a slope at the ends of its own.
func TestMeasuredCurveIsTheCubicOfFritschAndButland(t *testing.T) {
	points := saddled()
	points[len(points)-1].Pressure = 0
	c, rating := curve(t, points)
	var x, y []float64
	for _, p := range points {
		x, y = append(x, p.Flow/rating.FreeAirFlow), append(y, p.Pressure/rating.ShutOffPressure)
	}
	var theirs interp.FritschButland
	if err := theirs.Fit(x, y); err != nil {
		t.Fatal(err)
	}
	compared := 0
	for share := x[1]; share <= x[len(x)-2]; share += 0.003 {
		compared++
		if got, want := c.Pressure(share), theirs.Predict(share); math.Abs(got-want) > 1e-12 {
			t.Fatalf("%g at %g, theirs is %g", got, share, want)
		}
	}
	if compared < 200 {
		t.Errorf("only %d places compared", compared)
	}
}

func TestTurnsAreWhereThePointsTurn(t *testing.T) {
	c, rating := curve(t, saddled())
	turns := c.Turns()
	if len(turns) != 1 {
		t.Fatalf("%d rising stretches, want one", len(turns))
	}
	near(t, "valley", turns[0].Valley, 0.019/rating.FreeAirFlow)
	near(t, "peak", turns[0].Peak, 0.026/rating.FreeAirFlow)
	f := invented()
	f.Curve = c
	if s := f.Stall(); s.Onset != turns[0].Peak || s.Deep != turns[0].Valley {
		t.Errorf("stall %+v, want from peak to valley", s)
	}

	wavy := []fan.CurvePoint{{0, 30, 0}, {1, 40, 0}, {2, 20, 0}, {3, 25, 0}, {4, 28, 0}, {5, 10, 0}, {6, 0, 0}}
	c, _ = curve(t, wavy)
	turns = c.Turns()
	if len(turns) != 2 || turns[0] != (fan.Turn{Valley: 2. / 6, Peak: 4. / 6}) || turns[1] != (fan.Turn{Valley: 0, Peak: 1. / 6}) {
		t.Errorf("%d rising stretches: %v", len(turns), turns)
	}
	f.Curve = c
	if s := f.Stall(); s != (fan.Stall{Onset: 4. / 6, Deep: 2. / 6}) {
		t.Errorf("of two saddles stall begins at %+v, want the one nearer to free air", s)
	}
	near(t, "dip of two saddles", c.Dip(), 20./30)
	if p := c.Power(0.4); p != 1 {
		t.Errorf("power not measured is %g of that in free air", p)
	}

	falling := []fan.CurvePoint{{0, 30, 0}, {1, 25, 0}, {2, 10, 0}, {3, 0, 0}}
	f.Curve, _ = curve(t, falling)
	if turns = f.Curve.Turns(); len(turns) != 0 || f.Stall() != (fan.Stall{}) {
		t.Errorf("a falling curve has %d rising stretches and stalls at %+v", len(turns), f.Stall())
	}
	near(t, "dip of a falling curve", f.Curve.Dip(), 1)
}

// A straight line through points is the straight line of a data sheet.
func TestStraightPointsAreTheStraightCurve(t *testing.T) {
	c, _ := curve(t, []fan.CurvePoint{{0, 40, 0}, {1, 30, 0}, {3, 10, 0}, {4, 0, 0}})
	for share := 0.0; share < 1.3; share += 0.01 {
		if p := c.Pressure(share); math.Abs(p-(1-share)) > 1e-14 {
			t.Fatalf("%g at %g", p, share)
		}
	}
}

func TestPointsThatMakeNoCurveAreRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	long := make([]fan.CurvePoint, fan.MostPoints)
	for i := range long {
		long[i] = fan.CurvePoint{Flow: float64(i), Pressure: float64(len(long) - i)}
	}
	if _, _, err := fan.NewCurve(long[:fan.MostPoints-1]); err != nil {
		t.Errorf("the longest curve: %v", err)
	}
	for _, c := range []struct {
		points []fan.CurvePoint
		want   error
	}{
		{nil, fan.ErrPointCount},
		{[]fan.CurvePoint{{0, 3, 0}, {1, 0, 0}}, fan.ErrPointCount},
		{long, fan.ErrPointCount},
		{[]fan.CurvePoint{{0.1, 3, 0}, {1, 1, 0}, {2, 0, 0}}, fan.ErrNoShutOff},
		{[]fan.CurvePoint{{0, 3, 0}, {1, 1, 0}, {1, 0, 0}}, fan.ErrPointOrder},
		{[]fan.CurvePoint{{0, 3, 0}, {2, 1, 0}, {1, 0, 0}}, fan.ErrPointOrder},
		{[]fan.CurvePoint{{0, 3, 0}, {1, -1, 0}, {2, 0, 0}}, fan.ErrPointSign},
		{[]fan.CurvePoint{{0, 3, 0}, {1, 0, 0}, {2, 0, 0}}, fan.ErrPointSign},
		{[]fan.CurvePoint{{0, 0, 0}, {1, 2, 0}, {2, 0, 0}}, fan.ErrPointSign},
		{[]fan.CurvePoint{{0, 3, 0}, {1, 1, 0}, {2, 1, 0}}, fan.ErrLastRises},
		{[]fan.CurvePoint{{0, 3, 0}, {1, 2.9, 0}, {2, 2.8, 0}}, fan.ErrFarFromFree},
		{[]fan.CurvePoint{{0, 3, 1}, {1, 1, 0}, {2, 0, 1}}, fan.ErrPointPower},
		{[]fan.CurvePoint{{0, 3, 0}, {1, 1, 1}, {2, 0, 1}}, fan.ErrPointPower},
		{[]fan.CurvePoint{{0, 3, -1}, {1, 1, -1}, {2, 0, -1}}, fan.ErrPointPower},
		{[]fan.CurvePoint{{0, nan, 0}, {1, 1, 0}, {2, 0, 0}}, fan.ErrPointInfinite},
		{[]fan.CurvePoint{{0, 3, 0}, {inf, 1, 0}, {2, 0, 0}}, fan.ErrPointInfinite},
		{[]fan.CurvePoint{{0, 3, nan}, {1, 1, 1}, {2, 0, 1}}, fan.ErrPointInfinite},
	} {
		if got, _, err := fan.NewCurve(c.points); !errors.Is(err, c.want) || got != nil {
			t.Errorf("%v: %v, want %v", c.points, err, c.want)
		}
	}
}

// What the turning fans move is what leaves the bank and what flows back.
// The straight tail may reach half of the last flow beyond it, and no farther.
func TestTailIsNoLongerThanItMayBe(t *testing.T) {
	for beyond, want := range map[float64]error{0.3: nil, 0.49: nil, 0.51: fan.ErrFarFromFree, 0.8: fan.ErrFarFromFree} {
		// From (1, 20) through (2, p) the line meets no pressure at 2 (1 + beyond).
		p := 20 * 2 * beyond / (1 + 2*beyond)
		c, rating, err := fan.NewCurve([]fan.CurvePoint{{0, 30, 0}, {1, 20, 0}, {2, p, 0}})
		if !errors.Is(err, want) || err == nil && (c == nil || math.Abs(rating.FreeAirFlow-2*(1+beyond)) > 1e-12) {
			t.Errorf("a tail of %g of the last flow: free air at %g, %v, want %v", beyond, rating.FreeAirFlow, err, want)
		}
	}
}

func TestStandingFanLetsAirBack(t *testing.T) {
	f := invented()
	for _, stopped := range []int{1, 2} {
		b := fan.Bank{Fan: *f, Count: 3, Stopped: stopped}
		turning := float64(3 - stopped)
		for _, flow := range []float64{0.002, 0.02, 0.05, 0.12, 0.2, 0.4} {
			each := b.FanFlow(120, flow, 1.15)
			p := b.Pressure(120, flow, 1.15)
			near(t, "pressure is that of a turning fan", p, f.Pressure(120, each, 1.15))
			d := f.Diameter()
			through := 0.4 * math.Pi / 4 * d * d * math.Sqrt(2*math.Abs(p)/1.15) * float64(stopped)
			if p < 0 {
				through = -through
			}
			if got := turning*each - flow - through; math.Abs(got) > 1e-11 {
				t.Errorf("%d standing, %g m³/s leave: %g m³/s are lost", stopped, flow, got)
			}
		}
		near(t, "free air", b.FreeFlow(120), turning*f.FreeFlow(120))
		if p := b.Pressure(120, b.FreeFlow(120), 1.15); math.Abs(p) > 1e-6 {
			t.Errorf("%g Pa in free air", p)
		}
		whole := fan.Bank{Fan: *f, Count: 3 - stopped}
		if !(b.Pressure(120, 0.02, 1.15) < whole.Pressure(120, 0.02, 1.15)) {
			t.Error("a hole in the wall costs no pressure")
		}
	}
	if err := (&fan.Bank{Fan: *f, Count: 2, Stopped: 2}).Check(); err == nil {
		t.Error("a bank with all fans standing passes")
	}
	if err := (&fan.Bank{Fan: *f, Count: 2, Stopped: 1}).Check(); err != nil {
		t.Error(err)
	}
}

// The slope at no flow is that of the parabola through the first three points, at most
// three times that of the first piece where the curve turns there, and none where it would
// run the other way.
func TestSlopeAtNoFlow(t *testing.T) {
	for _, c := range []struct {
		second, third float64 // Pa, after 500 Pa, at even steps
		want          float64 // of pressure over shut-off pressure, over the share
	}{
		{450, 500, -0.8}, // the parabola's
		{450, 800, -1.2}, // three times that of the first piece
		{450, 350, -0.2}, // the parabola's, without a turn
		{450, 100, 0},    // the parabola's would rise
	} {
		curve, _, err := fan.NewCurve([]fan.CurvePoint{{Flow: 0, Pressure: 500}, {Flow: 0.01, Pressure: c.second}, {Flow: 0.02, Pressure: c.third}, {Flow: 0.03, Pressure: 90}, {Flow: 0.04, Pressure: 0}})
		if err != nil {
			t.Fatal(err)
		}
		const step = 1e-6
		if got := (curve.Pressure(step) - curve.Pressure(0)) / step; math.Abs(got-c.want) > 1e-4 {
			t.Errorf("500, %g, %g Pa: begins with a slope of %g, want %g", c.second, c.third, got, c.want)
		}
	}
}
