package fan_test

import (
	"errors"
	"math"
	"testing"

	"finduel/model/fan"
	"finduel/model/quantity"
)

// invented is a fan that nobody makes.
func invented() *fan.Fan {
	f := fan.Typical()
	f.RatedSpeed, f.FreeAirFlow, f.ShutOffPressure = 150, 0.07, 520
	f.RatedPower, f.RatedSound, f.TopSpeed = 38, 68, 330
	return &f
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-12*math.Abs(want)) {
		t.Errorf("%s: %.17g, want %.17g", what, got, want)
	}
}

func TestCurveRunsBetweenItsEnds(t *testing.T) {
	for _, m := range []float64{1, 1.0001, 1.3, 1.75, 2} {
		f := invented()
		f.CurveExponent = m
		for _, speed := range []float64{1, 50, 150, 400} {
			for _, density := range []float64{0.7, 1.2} {
				free, shut := f.FreeFlow(speed), f.ShutOff(speed, density)
				near(t, "pressure without flow", f.Pressure(speed, 0, density), shut)
				if p := f.Pressure(speed, free, density); math.Abs(p) > 1e-12*shut {
					t.Errorf("m %g: %g Pa at free-air flow", m, p)
				}
				if p := f.Pressure(speed, free*1.1, density); !(p < 0) {
					t.Errorf("m %g: %g Pa beyond free-air flow", m, p)
				}
				near(t, "pressure at half flow", f.Pressure(speed, free/2, density), shut*(1-math.Pow(0.5, m)))
				last := math.Inf(1)
				for share := 0.0; share < 1.5; share += 0.01 {
					p := f.Pressure(speed, share*free, density)
					if !(p < last) {
						t.Fatalf("m %g: pressure does not fall at %g of free-air flow", m, share)
					}
					last = p
				}
			}
		}
	}
}

// At equal exponent 1 the curve without a power must join the curves with one.
func TestStraightCurveIsTheLimitOfCurvedOnes(t *testing.T) {
	f := invented()
	straight := f.Pressure(100, 0.02, 1.1)
	f.CurveExponent = 1 + 1e-9
	if p := f.Pressure(100, 0.02, 1.1); math.Abs(p/straight-1) > 1e-8 {
		t.Errorf("%g Pa just beside the straight curve, %g Pa on it", p, straight)
	}
}

// The whole curve follows the fan laws: with the speed changed by n and the
// density by r, n times the flow is moved against n²·r times the pressure.
func TestCurveFollowsTheFanLaws(t *testing.T) {
	f := invented()
	f.CurveExponent = 1.6
	for _, n := range []float64{0.1, 0.5, 2, 2.5} {
		for _, r := range []float64{0.6, 1, 1.1} {
			for _, flow := range []float64{0.001, 0.02, 0.05, 0.08} {
				near(t, "pressure", f.Pressure(150*n, flow*n, 1.2*r), n*n*r*f.Pressure(150, flow, 1.2))
			}
			near(t, "power", f.Draw(150*n, 0.5, 1.2*r).Supply, n*n*n*r*38)
		}
	}
}

// Electronics and bearings take a share that does not fall with the cube of the
// speed: with the loss that two powers on a data sheet of a 40 mm fan leave, the law
// gives both back, and without it a tenth of the lower one.
func TestElectronicsTakeTheirShareAtAnySpeed(t *testing.T) {
	f := invented()
	f.RatedSpeed, f.RatedPower = 25000./60, 15.6
	const onTheSheet = 0.84
	if p := f.Draw(4400./60, 0.5, 1.2).Supply; p > onTheSheet/9 || p < onTheSheet/11 {
		t.Errorf("%g W at 4400 rpm without a fixed loss, want a tenth of %g W", p, onTheSheet)
	}
	cube := math.Pow(4400./25000, 3)
	f.ElectronicsLoss = (onTheSheet - 15.6*cube) / (1 - cube) // from P = P_e + c N³ at both speeds
	near(t, "fixed loss", math.Round(1e5*f.ElectronicsLoss), 75909)
	near(t, "power at 4400 rpm", f.Draw(4400./60, 0.5, 1.2).Supply, onTheSheet)
	near(t, "power at rated speed", f.Draw(25000./60, 0.5, 1.2).Supply, 15.6)
}

func TestBankIsFansSideBySide(t *testing.T) {
	f := invented()
	f.CurveExponent, f.DriveVoltage = 1.4, 24
	for _, n := range []int{1, 2, 3, 9} {
		b := fan.Bank{Fan: *f, Count: n}
		k := float64(n)
		near(t, "flow at equal pressure", b.Pressure(120, k*0.03, 1.15), f.Pressure(120, 0.03, 1.15))
		near(t, "free-air flow", b.FreeFlow(120), k*f.FreeFlow(120))
		near(t, "sound", f.Sound(120, 0.7, f.RatedDensity), 68+50*math.Log10(120./150))
	}
	near(t, "sound of one at rated speed", f.Sound(150, 0.7, f.RatedDensity), 68)
	near(t, "sound of one in air half as dense", f.Sound(150, 0.7, f.RatedDensity/2), 68-20*math.Log10(2))
}

func TestHeatEndsInTheAirOrBesideIt(t *testing.T) {
	f := invented()
	f.MotorEfficiency, f.ElectronicsLoss = 0.75, 2
	d := f.Draw(150, 0.5, 1.2)
	near(t, "supply", d.Supply, 38)
	near(t, "motor", d.Motor, 36)
	near(t, "shaft", d.Shaft, 27)
	near(t, "heat with the motor in the stream", d.Heat, 38)
	f.Motor = fan.Outside
	near(t, "heat with the motor outside", f.Draw(150, 0.5, 1.2).Heat, 27)
	near(t, "least heat", f.LeastDraw(150, 1.2).Heat, 27)
}

func TestDiameterIsTheGivenOne(t *testing.T) {
	f := invented()
	estimated := f.Diameter()
	phi := 4 * f.FreeAirFlow / (math.Pi * math.Pi * estimated * estimated * estimated * f.RatedSpeed)
	near(t, "flow coefficient of the estimate", phi, 0.26)
	f.RotorDiameter = 0.088
	near(t, "given diameter", f.Diameter(), 0.088)
}

func TestStallStartsWhereTheSaddleLies(t *testing.T) {
	if !(0 < fan.DeepStall && fan.DeepStall < fan.StallRegion && fan.StallRegion < 1) {
		t.Errorf("deep stall below %g, stall region below %g of free-air flow", fan.DeepStall, fan.StallRegion)
	}
}

func TestTypicalFillsInButRatesNothing(t *testing.T) {
	f := fan.Typical()
	want := fan.Fan{RatedDensity: 1.2, CurveExponent: 1, DriveVoltage: 12, MotorEfficiency: 0.6, Motor: fan.InStream, SoundExponent: 50, Controller: fan.TypicalController()}
	if f != want {
		t.Errorf("typical fan %+v, want %+v", f, want)
	}
	if err := f.Check(); err == nil {
		t.Error("a fan without ratings passes")
	}
	if err := invented().Check(); err != nil {
		t.Errorf("an invented fan: %v", err)
	}
}

func TestCheckFindsEveryWrongNumber(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		key       string
		set       func(*fan.Fan, float64)
		bad, good []float64
	}{
		{"rated_speed", func(f *fan.Fan, v float64) { f.RatedSpeed = v }, []float64{0, -1, nan, inf}, []float64{1e-3, 1e4}},
		{"free_air_flow", func(f *fan.Fan, v float64) { f.FreeAirFlow = v }, []float64{0, -1, nan, inf}, []float64{1e-6, 50}},
		{"shut_off_pressure", func(f *fan.Fan, v float64) { f.ShutOffPressure = v }, []float64{0, -1, nan, inf}, []float64{0.01, 2e4}},
		{"rated_power", func(f *fan.Fan, v float64) { f.RatedPower = v }, []float64{0, -1, nan, inf}, []float64{1e-3, 1e5}},
		{"rated_density", func(f *fan.Fan, v float64) { f.RatedDensity = v }, []float64{0, -1, nan, inf}, []float64{0.3, 2}},
		{"top_speed", func(f *fan.Fan, v float64) { f.TopSpeed = v }, []float64{0, -1, nan, inf}, []float64{0.1, 5000}},
		{"drive_voltage", func(f *fan.Fan, v float64) { f.DriveVoltage = v }, []float64{0, -12, nan, inf}, []float64{1, 1000}},
		{"rated_sound", func(f *fan.Fan, v float64) { f.RatedSound = v }, []float64{-20.1, 150.1, nan, inf, -inf}, []float64{-20, 0, 150}},
		{"curve_exponent", func(f *fan.Fan, v float64) { f.CurveExponent = v }, []float64{0, 0.99, 2.01, nan, inf}, []float64{1, 1.5, 2}},
		{"rotor_diameter", func(f *fan.Fan, v float64) { f.RotorDiameter = v }, []float64{-0.001, 5.1, nan, inf}, []float64{0, 0.04, 5}},
		{"motor_efficiency", func(f *fan.Fan, v float64) { f.MotorEfficiency = v }, []float64{0, -1, 1.01, nan, inf}, []float64{0.01, 1}},
	} {
		if _, known := quantity.Of(c.key); !known {
			t.Errorf("%s is no quantity", c.key)
		}
		for _, v := range c.bad {
			f := invented()
			c.set(f, v)
			var re *quantity.RangeError
			if err := f.Check(); !errors.As(err, &re) {
				t.Errorf("%s %g passes: %v", c.key, v, err)
				continue
			}
			if same := re.Value == v || v != v && re.Value != re.Value; re.Key != c.key || !same || !(re.Low < re.High) || re.Rule == "" {
				t.Errorf("%s %g: %+v", c.key, v, re)
			}
			if err := (&fan.Bank{Fan: *f, Count: 1}).Check(); err == nil {
				t.Errorf("%s %g passes in a bank", c.key, v)
			}
		}
		for _, v := range c.good {
			f := invented()
			c.set(f, v)
			if err := f.Check(); err != nil {
				t.Errorf("%s %g: %v", c.key, v, err)
			}
		}
	}
}

func TestCheckReportsAllAtOnce(t *testing.T) {
	f := invented()
	f.RatedPower, f.DriveVoltage = 0, 0
	err := (&fan.Bank{Fan: *f, Count: 0}).Check()
	const want = "rated_power: must be above zero and finite\n" +
		"drive_voltage: must be above zero and finite\n" +
		"fans: must be one or more"
	if err == nil || err.Error() != want {
		t.Errorf("got %q, want %q", err, want)
	}
	for count, fine := range map[int]bool{-1: false, 0: false, 1: true, 100: true} {
		if err := (&fan.Bank{Fan: *invented(), Count: count}).Check(); (err == nil) != fine {
			t.Errorf("%d fans: %v", count, err)
		}
	}
}

func TestPlacesAreWritten(t *testing.T) {
	for m, text := range map[fan.Motor]string{fan.InStream: "in stream", fan.Outside: "outside"} {
		if m.String() != text {
			t.Errorf("motor %d is written %q, want %q", m, m.String(), text)
		}
	}
	for p, text := range map[fan.Placing]string{fan.Push: "push", fan.Pull: "pull"} {
		if p.String() != text {
			t.Errorf("placing %d is written %q, want %q", p, p.String(), text)
		}
	}
}

func TestCurveDoesNotAllocate(t *testing.T) {
	b := fan.Bank{Fan: *invented(), Count: 2}
	sum := 0.0
	if n := testing.AllocsPerRun(100, func() { sum += b.Pressure(100, 0.05, 1.1) }); n != 0 || !(sum > 0) {
		t.Errorf("%g allocations, sum %g", n, sum)
	}
}

func BenchmarkBankPressure(b *testing.B) {
	for _, c := range []struct {
		name string
		m    float64
	}{{"straight", 1}, {"curved", 1.5}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			bank := fan.Bank{Fan: *invented(), Count: 2}
			bank.Fan.CurveExponent = c.m
			sum := 0.0
			for b.Loop() {
				sum += bank.Pressure(100, 0.05, 1.1)
			}
			if !(sum > 0) {
				b.Fatal(sum)
			}
		})
	}
}
