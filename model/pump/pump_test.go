package pump_test

import (
	"errors"
	"math"
	"testing"

	"finduel/model/pump"
	"finduel/model/quantity"
)

// invented is a pump that nobody makes.
func invented() pump.Pump {
	return pump.Pump{ShutOffPressure: 40e3, FreeFlow: 1100 / 3.6e6, CurveExponent: pump.TypicalExponent}
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Abs(want)) {
		t.Errorf("%s: %.17g, want %.17g", what, got, want)
	}
}

func nothing(float64) float64 { return 0 }

func TestCurveRunsBetweenItsEnds(t *testing.T) {
	for _, e := range []float64{1, 1.8, 2, 3} {
		p := invented()
		p.CurveExponent = e
		near(t, "without flow", p.Pressure(0), p.ShutOffPressure, 0)
		if v := p.Pressure(p.FreeFlow); v != 0 {
			t.Errorf("e %v: %v Pa at free flow", e, v)
		}
		last := math.Inf(1)
		for share := 0.0; share < 1.5; share += 0.01 {
			v := p.Pressure(share * p.FreeFlow)
			if !(v < last) {
				t.Errorf("e %v: pressure does not fall at %v of free flow", e, share)
			}
			last = v
		}
	}
}

func TestLoopDropIsTheStatedOne(t *testing.T) {
	l := pump.Loop{Drop: 9e3, DropFlow: 5e-5}
	near(t, "at its flow", l.PressureDrop(5e-5), 9e3, 0)
	near(t, "of ten times the flow", l.PressureDrop(5e-4), 9e3*math.Pow(10, 1.75), 1e-14)
	if v := l.PressureDrop(0); v != 0 {
		t.Errorf("%v Pa without flow", v)
	}
}

// Where exponents are equal the flow has a closed form.
func TestFlowInClosedForm(t *testing.T) {
	p := invented()
	for _, c := range []struct{ exponent, loop, square, linear float64 }{
		{1.75, 12e3, 0, 0}, {1.75, 3e5, 0, 0}, {2, 0, 9e3, 0}, {1, 0, 0, 20e3},
	} {
		p.CurveExponent = c.exponent
		l := pump.Loop{Drop: c.loop, DropFlow: p.FreeFlow}
		core := func(flow float64) float64 {
			x := flow / p.FreeFlow
			return c.square*x*x + c.linear*x
		}
		got, ok := pump.Flow(p, l, core, 0)
		want := p.FreeFlow * math.Pow(p.ShutOffPressure/(p.ShutOffPressure+c.loop+c.square+c.linear), 1/c.exponent)
		near(t, "flow", got, want, 1e-11)
		if !ok {
			t.Errorf("%+v: not found", c)
		}
	}
}

func TestFlowLiesBetweenNoneAndFree(t *testing.T) {
	p := invented()
	if v, ok := pump.Flow(p, pump.Loop{DropFlow: 1}, nothing, 0); !ok || v != p.FreeFlow {
		t.Errorf("without resistance %v, %v, want the free flow %v", v, ok, p.FreeFlow)
	}
	last := p.FreeFlow
	for drop := 1e2; drop < 1e12; drop *= 3 {
		l := pump.Loop{Drop: drop, DropFlow: 4. / 60000}
		v, ok := pump.Flow(p, l, func(flow float64) float64 { return 1e7 * flow }, 0)
		if !ok || !(v > 0 && v < last) {
			t.Errorf("against %v Pa: %v, %v after %v", drop, v, ok, last)
		}
		near(t, "pressures", p.Pressure(v), l.PressureDrop(v)+1e7*v, 1e-7)
		last = v
	}
}

func TestFlowSaysWhenThereIsNone(t *testing.T) {
	if v, ok := pump.Flow(invented(), pump.TypicalLoop(), func(float64) float64 { return math.NaN() }, 0); ok {
		t.Errorf("found %v", v)
	}
}

// A guess, however bad, changes nothing but the work.
func TestFlowFromAGuess(t *testing.T) {
	p, l := invented(), pump.TypicalLoop()
	core := func(flow float64) float64 { return 2e8 * flow }
	want, _ := pump.Flow(p, l, core, 0)
	for _, guess := range []float64{want, want * (1 + 1e-9), 0.999 * want, 0.5 * want, 1e-9 * want, p.FreeFlow, 100 * p.FreeFlow, -want, math.NaN(), math.Inf(1)} {
		got, ok := pump.Flow(p, l, core, guess)
		if !ok || !(math.Abs(got-want) <= 1e-12*want) {
			t.Errorf("from %g: %.15g (%v), want %.15g", guess, got, ok, want)
		}
	}
}

func TestFlowAllocatesNothing(t *testing.T) {
	p, l := invented(), pump.TypicalLoop()
	if n := testing.AllocsPerRun(100, func() { pump.Flow(p, l, nothing, 0) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func TestCheckFindsEveryWrongNumber(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	p, l := invented(), pump.TypicalLoop()
	if p.Check() != nil || l.Check() != nil || (pump.Loop{DropFlow: 1}).Check() != nil {
		t.Errorf("sound ones are refused: %v, %v", p.Check(), l.Check())
	}
	check := func(key string, v float64, err error) {
		t.Helper()
		var re *quantity.RangeError
		if !errors.As(err, &re) || re.Key != key || re.Rule == "" || !(re.Value == v || v != v) {
			t.Errorf("%s %v: %v", key, v, err)
		}
		if _, known := quantity.Of(key); !known {
			t.Errorf("%s is no quantity", key)
		}
	}
	for _, v := range []float64{0, -1, nan, inf} {
		check("pump_head", v, pump.Pump{ShutOffPressure: v, FreeFlow: 1, CurveExponent: 2}.Check())
		check("pump_free_flow", v, pump.Pump{ShutOffPressure: 1, FreeFlow: v, CurveExponent: 2}.Check())
		check("loop_drop_flow", v, pump.Loop{Drop: 1, DropFlow: v}.Check())
	}
	for _, v := range []float64{0.99, 3.01, nan, inf} {
		check("pump_exponent", v, pump.Pump{ShutOffPressure: 1, FreeFlow: 1, CurveExponent: v}.Check())
	}
	for _, v := range []float64{-1e-9, nan, inf} {
		check("loop_drop", v, pump.Loop{Drop: v, DropFlow: 1}.Check())
	}
}

func BenchmarkFlow(b *testing.B) {
	p, l := invented(), pump.TypicalLoop()
	for b.Loop() {
		pump.Flow(p, l, nothing, 0)
	}
}
