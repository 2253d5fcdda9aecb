package fan_test

import (
	"errors"
	"math"
	"testing"

	"finduel/model/fan"
	"finduel/model/quantity"
	"finduel/model/solve"
)

// small is a drive that nobody sells.
func small() *fan.Drive {
	return &fan.Drive{
		Supply:         fan.Supply{Voltage: 13, MostCurrent: 25},
		WireResistance: 0.015,
		Controller:     fan.Controller{Efficiency: 0.93, IdlePower: 6, MostCurrent: 35},
		Motor:          fan.Brushless{SpeedConstant: 2300 * rpm, Resistance: 0.06, NoLoadCurrent: 0.9, MostCurrent: 30},
	}
}

// cube is a rotor that takes 130 W at 300 rev/s.
func cube(speed float64) float64 { return 130 * math.Pow(speed/300, 3) }

func TestChainBalances(t *testing.T) {
	for _, wire := range []float64{0, 0.01, 0.05} {
		for _, efficiency := range []float64{0.85, 1} {
			for speed := 20.0; speed < 500; speed += 17 {
				d := small()
				d.WireResistance, d.Controller.Efficiency = wire, efficiency
				c := d.At(speed, cube(speed))
				near(t, "balance", c.WireLoss+c.ControllerLoss+c.MotorHeat+c.ShaftPower, c.SupplyPower)
				near(t, "supply power", c.SupplyCurrent*13, c.SupplyPower)
				if c.Exceeded&fan.SupplyCollapse == 0 {
					near(t, "wire drop", c.WireDrop, c.SupplyCurrent*wire)
				}
				near(t, "throttle", c.Throttle*(13-c.WireDrop), c.MotorVoltage)
				near(t, "motor power", c.MotorVoltage*c.MotorCurrent, c.MotorPower)
				near(t, "controller", (c.MotorPower+c.ControllerLoss-6)*efficiency, c.MotorPower)
				near(t, "motor efficiency", d.Motor.Efficiency(c.MotorVoltage, c.MotorCurrent)*c.MotorPower, c.ShaftPower)
				near(t, "torque", (c.MotorCurrent-0.9)/d.Motor.SpeedConstant, c.Torque)
				near(t, "shaft power", c.Torque*2*math.Pi*speed, c.ShaftPower)
				near(t, "heat", d.Motor.Heat(c.MotorVoltage, c.MotorCurrent), c.MotorPower-c.ShaftPower)
				if c.Speed != speed || !(c.WireDrop <= 13./2) {
					t.Errorf("%g rev/s: %+v", speed, c)
				}
			}
		}
	}
}

// Every limit is found alone and with the others, and just below it is not.
func TestEveryLimitIsFound(t *testing.T) {
	free := small()
	free.Supply.MostCurrent, free.Controller.MostCurrent, free.Motor.MostCurrent, free.WireResistance = 0, 0, 0, 0
	if c := free.At(300, 130); c.Exceeded != 0 || c.Exceeded.String() != "none" {
		t.Fatalf("without limits: %v", c.Exceeded)
	}
	c := free.At(300, 130)
	for _, l := range []struct {
		limit fan.Limit
		set   func(d *fan.Drive, room float64) // room times what is needed
	}{
		{fan.SupplyVoltage, func(d *fan.Drive, room float64) { d.Supply.Voltage = c.MotorVoltage * room }},
		{fan.SupplyCurrent, func(d *fan.Drive, room float64) { d.Supply.MostCurrent = c.SupplyCurrent * room }},
		{fan.MotorCurrent, func(d *fan.Drive, room float64) { d.Motor.MostCurrent = c.MotorCurrent * room }},
		{fan.ControllerCurrent, func(d *fan.Drive, room float64) { d.Controller.MostCurrent = c.MotorCurrent * room }},
	} {
		for room, want := range map[float64]fan.Limit{0.999999: l.limit, 1.000001: 0} {
			d := *free
			l.set(&d, room)
			if got := d.At(300, 130).Exceeded; got != want {
				t.Errorf("%g of what is needed: %v exceeded, want %v", room, got, want)
			}
		}
	}
	d := *free
	d.Supply.MostCurrent, d.Controller.MostCurrent, d.Motor.MostCurrent = 1, 1, 1
	if got, want := d.At(600, 900).Exceeded, fan.SupplyVoltage|fan.SupplyCurrent|fan.MotorCurrent|fan.ControllerCurrent; got != want {
		t.Errorf("all at once: %v, want %v", got, want)
	}
}

func TestLimitsAreWritten(t *testing.T) {
	for limit, text := range map[fan.Limit]string{
		0:                     "none",
		fan.SupplyVoltage:     "the supply's voltage",
		fan.SupplyCurrent:     "the supply's current",
		fan.MotorCurrent:      "the motor's current",
		fan.ControllerCurrent: "the controller's current",
		fan.SupplyCollapse:    "the wires' resistance",
		fan.SupplyCurrent | fan.ControllerCurrent: "the supply's current, the controller's current",
	} {
		if limit.String() != text {
			t.Errorf("limits %b are written %q, want %q", limit, limit.String(), text)
		}
	}
}

// Wires pass U²/(4r) at most. Just below, the two currents of the quadratic meet;
// above, the current goes on rising with what the load asks.
func TestSupplyCollapses(t *testing.T) {
	d := fan.Drive{Supply: fan.Supply{Voltage: 12}, WireResistance: 0.5, Controller: fan.Controller{Efficiency: 1}, Motor: fan.Brushless{SpeedConstant: 500}}
	const most = 12 * 12 / (4 * 0.5)
	c := d.At(10, most*(1-1e-12))
	if c.Exceeded&fan.SupplyCollapse != 0 || math.Abs(c.SupplyCurrent/12-1) > 1e-5 || math.Abs(c.WireDrop/6-1) > 1e-5 {
		t.Errorf("just below: %+v", c)
	}
	for _, power := range []float64{most * (1 + 1e-12), 2 * most, 100 * most} {
		c = d.At(10, power)
		if c.Exceeded&fan.SupplyCollapse == 0 || c.WireDrop != 6 {
			t.Errorf("%g W through wires for %g W: %+v", power, float64(most), c)
		}
		near(t, "current at half of the voltage", c.SupplyCurrent, power/6)
		near(t, "balance", c.WireLoss+c.ControllerLoss+c.MotorPower, c.SupplyPower)
	}
	if c.Throttle-c.Throttle != 0 || c.MotorCurrent-c.MotorCurrent != 0 {
		t.Errorf("not finite: %+v", c)
	}
}

// However high the speed, every number is finite, and the drive never says that
// more needs less.
func TestChainRisesWithSpeed(t *testing.T) {
	d := small()
	last := d.At(1, cube(1))
	for speed := 2.0; speed < 3000; speed *= 1.05 {
		c := d.At(speed, cube(speed))
		if !(c.Throttle > last.Throttle) || !(c.MotorCurrent > last.MotorCurrent) || !(c.SupplyCurrent > last.SupplyCurrent) || c.Exceeded&last.Exceeded != last.Exceeded {
			t.Fatalf("%g rev/s: %+v after %+v", speed, c, last)
		}
		last = c
	}
	if last.Exceeded&fan.SupplyCollapse == 0 {
		t.Errorf("not even %g rev/s makes the supply collapse", last.Speed)
	}
}

func TestReachStopsAtTheFirstLimit(t *testing.T) {
	for _, c := range []struct {
		limit fan.Limit
		set   func(d *fan.Drive)
	}{
		{fan.SupplyVoltage, func(d *fan.Drive) { d.Supply.Voltage = 8 }},
		{fan.SupplyCurrent, func(d *fan.Drive) { d.Supply.MostCurrent = 9 }},
		{fan.MotorCurrent, func(d *fan.Drive) { d.Motor.MostCurrent = 8 }},
		{fan.ControllerCurrent, func(d *fan.Drive) { d.Controller.MostCurrent = 7 }},
		{fan.SupplyCollapse, func(d *fan.Drive) { d.WireResistance, d.Motor.SpeedConstant = 0.6, 12000*rpm }},
		{fan.MotorCurrent, func(d *fan.Drive) { d.Motor.MostCurrent, d.Controller.MostCurrent = 8, 8 }}, // the first of equal ones
	} {
		d := small()
		c.set(d)
		if c.limit == fan.SupplyCollapse {
			d.Supply.MostCurrent, d.Motor.MostCurrent, d.Controller.MostCurrent = 0, 0, 0
		}
		r := fan.Reach(d, cube, 1, 900)
		if r.Outcome != solve.Converged || r.Limit != c.limit || r.Chain.Exceeded != 0 {
			t.Errorf("%v: %v by %v, exceeded %v", c.limit, r.Outcome, r.Limit, r.Chain.Exceeded)
		}
		above := d.At(r.Chain.Speed*(1+1e-9), cube(r.Chain.Speed*(1+1e-9)))
		if above.Exceeded&c.limit == 0 {
			t.Errorf("%v: not exceeded just above %g rev/s", c.limit, r.Chain.Speed)
		}
	}
	d := small()
	if r := fan.Reach(d, cube, 1, 100); r.Outcome != solve.Converged || r.Limit != 0 || r.Chain != d.At(100, cube(100)) {
		t.Errorf("nothing stops it: %+v", r)
	}
	if r := fan.Reach(d, cube, 800, 900); r.Outcome != solve.NoSignChange || r.Limit == 0 || r.Chain != d.At(800, cube(800)) {
		t.Errorf("nothing lets it: %+v", r)
	}
	nan := func(float64) float64 { return math.NaN() }
	if r := fan.Reach(d, nan, 1, 100); r.Outcome != solve.NotFinite {
		t.Errorf("no power at all: %v", r.Outcome)
	}
}

func TestThrottleAndSpeedAreOne(t *testing.T) {
	d := small()
	for _, speed := range []float64{30, 150, 250, 320} {
		want := d.At(speed, cube(speed))
		got, outcome := d.SpeedAt(want.Throttle, cube, 1, 900)
		if outcome != solve.Converged || math.Abs(got.Speed/speed-1) > 1e-10 {
			t.Errorf("throttle %g of %g rev/s: %g rev/s, %v", want.Throttle, speed, got.Speed, outcome)
		}
	}
	if c, outcome := d.SpeedAt(0.01, cube, 100, 300); outcome != solve.NoSignChange || c.Speed != 100 {
		t.Errorf("too little throttle: %g rev/s, %v", c.Speed, outcome)
	}
	if c, outcome := d.SpeedAt(1, cube, 100, 150); outcome != solve.NoSignChange || c.Speed != 150 {
		t.Errorf("too much throttle: %g rev/s, %v", c.Speed, outcome)
	}
}

func TestMotorIdentities(t *testing.T) {
	m := small().Motor
	for _, voltage := range []float64{3, 7.4, 12, 48} {
		near(t, "no load", m.Voltage(m.NoLoadSpeed(voltage), m.NoLoadCurrent), voltage)
		near(t, "no load to turn", against(&m, voltage, 0), m.NoLoadSpeed(voltage))
		best := m.BestCurrent(voltage)
		near(t, "best efficiency", m.BestEfficiency(voltage), m.Efficiency(voltage, best))
		for _, off := range []float64{0.98, 1.02} {
			if !(m.Efficiency(voltage, off*best) < m.BestEfficiency(voltage)) {
				t.Errorf("%g V: not the best efficiency", voltage)
			}
		}
		for _, k := range []float64{1e-9, 1e-6, 1e-3} {
			n := against(&m, voltage, k)
			near(t, "against a load", m.Voltage(n, m.Current(k*n*n)), voltage)
		}
	}
	const tooLow = 0.05 // V, where I_0 R is 0.054 V
	if n, best := m.NoLoadSpeed(tooLow), m.BestEfficiency(tooLow); n != 0 || best != 0 {
		t.Errorf("too little voltage turns at %g rev/s, efficiency %g", n, best)
	}
}

func TestDriveCheckFindsEveryWrongNumber(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		key       string
		set       func(*fan.Drive, float64)
		bad, good []float64
	}{
		{"supply_voltage", func(d *fan.Drive, v float64) { d.Supply.Voltage = v }, []float64{0, -12, 1001, nan, inf}, []float64{0.5, 1000}},
		{"supply_most_current", func(d *fan.Drive, v float64) { d.Supply.MostCurrent = v }, []float64{-1, 10001, nan, inf}, []float64{0, 20}},
		{"wire_resistance", func(d *fan.Drive, v float64) { d.WireResistance = v }, []float64{-0.1, 1001, nan, inf}, []float64{0, 0.02}},
		{"controller_efficiency", func(d *fan.Drive, v float64) { d.Controller.Efficiency = v }, []float64{0, -1, 0.09, 1.01, nan, inf}, []float64{0.1, 1}},
		{"controller_idle_power", func(d *fan.Drive, v float64) { d.Controller.IdlePower = v }, []float64{-1, 10001, nan, inf}, []float64{0, 7}},
		{"controller_most_current", func(d *fan.Drive, v float64) { d.Controller.MostCurrent = v }, []float64{-1, 10001, nan, inf}, []float64{0, 40}},
		{"speed_constant", func(d *fan.Drive, v float64) { d.Motor.SpeedConstant = v }, []float64{0, -1, 10001, nan, inf}, []float64{0.1, 300}},
		{"winding_resistance", func(d *fan.Drive, v float64) { d.Motor.Resistance = v }, []float64{0, -1, 1001, nan, inf}, []float64{1e-5, 0.1}},
		{"no_load_current", func(d *fan.Drive, v float64) { d.Motor.NoLoadCurrent = v }, []float64{-1, 1001, nan, inf}, []float64{0, 2}},
		{"motor_most_current", func(d *fan.Drive, v float64) { d.Motor.MostCurrent = v }, []float64{-1, 10001, nan, inf}, []float64{0, 30}},
	} {
		for _, v := range c.bad {
			d := small()
			c.set(d, v)
			var re *quantity.RangeError
			if err := d.Check(); !errors.As(err, &re) {
				t.Errorf("%s %g passes: %v", c.key, v, err)
			} else if re.Key != c.key || re.Value != v && v == v {
				t.Errorf("%s %g: %+v", c.key, v, re)
			}
		}
		for _, v := range c.good {
			d := small()
			c.set(d, v)
			if err := d.Check(); err != nil {
				t.Errorf("%s %g: %v", c.key, v, err)
			}
		}
	}
	if err := (&fan.Drive{Supply: fan.Supply{Voltage: -1}, Controller: fan.TypicalController()}).Check(); err == nil ||
		err.Error() != "supply_voltage: must lie between 0.5 and 1000 V\nspeed_constant: must lie between 1 and 95000 rpm/V\nwinding_resistance: must lie between 0.00001 and 1000 ohm" {
		t.Errorf("got %v", err)
	}
}

func TestChainDoesNotAllocate(t *testing.T) {
	d := small()
	sum := 0.0
	if n := testing.AllocsPerRun(100, func() { sum += d.At(200, 50).SupplyPower }); n != 0 || !(sum > 0) {
		t.Errorf("%g allocations, sum %g", n, sum)
	}
}

func BenchmarkDrive(b *testing.B) {
	b.ReportAllocs()
	d := small()
	sum := 0.0
	for b.Loop() {
		sum += d.At(200, 50).SupplyPower
	}
	if !(sum > 0) {
		b.Fatal(sum)
	}
}
