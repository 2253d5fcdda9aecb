package model_test

import (
	"errors"
	"math"
	"testing"

	"finduel/model"
	"finduel/model/air"
	"finduel/model/fan"
	"finduel/model/hazard"
	"finduel/model/quantity"
	"finduel/model/solve"
	"finduel/model/sound"
)

// improvised is the small rig with an invented propeller, its motor known.
func improvised() model.Rig {
	r := small()
	f := &r.Fans.Fan
	f.FreeAirFlow, f.ShutOffPressure, f.RatedPower = 0, 0, 0
	f.RatedSpeed, f.TopSpeed = 14000./60, 20000./60
	f.RotorDiameter, f.Pitch, f.Blades = 0.140, 0.105, 3
	f.ThrustCoefficient, f.PowerCoefficient = 0.17, 0.11
	f.Brushless = fan.Brushless{SpeedConstant: 1750 * math.Pi / 30, Resistance: 0.06, NoLoadCurrent: 1.1, MostCurrent: 40}
	f.Controller.MostCurrent = 45
	f.DriveVoltage = 12
	r.Build = hazard.Build{WireGauge: 14, WireLength: 0.6, SupplyRating: 35}
	r.Installed.Shroud = model.Blocked
	r.Speed = 12000. / 60
	return r
}

// The chain of a driven propeller is closed from supply to air, whatever its placing.
func TestDriveIsOneChain(t *testing.T) {
	for _, placing := range []fan.Placing{fan.Push, fan.Pull, fan.PushPull} {
		for _, motor := range []fan.Motor{fan.InStream, fan.Outside} {
			for _, speed := range []float64{6000, 12000, 17000} {
				r := improvised()
				r.Placing, r.Fans.Fan.Motor, r.Speed = placing, motor, speed/60
				s := must(t, r)
				sides := 1.0
				if placing == fan.PushPull {
					sides = 2
				}
				if !(s.AirPower < s.ShaftPower && s.ShaftPower < s.MotorPower && s.MotorPower < s.FanPower) {
					t.Errorf("%v: air %g W, shaft %g W, motor %g W, supply %g W", placing, s.AirPower, s.ShaftPower, s.MotorPower, s.FanPower)
				}
				// The motor that takes more stands behind: its air is thinner, so in push-pull the
				// front one is the heavier.
				torque := s.ShaftPower / sides / (2 * math.Pi * r.Speed)
				if !near(s.ShaftTorque, torque, 0.1) || sides == 1 && !near(s.ShaftTorque, torque, 1e-12) || !near(r.Fans.Fan.Brushless.Current(s.ShaftTorque), s.MotorCurrent, 1e-12) {
					t.Errorf("%v: torque %g N m at %g A, want %g N m", placing, s.ShaftTorque, s.MotorCurrent, torque)
				}
				if current := r.Fans.Fan.Brushless.Current(torque); !near(s.MotorCurrent, current, 0.1) || sides == 1 && !near(s.MotorCurrent, current, 1e-12) {
					t.Errorf("%v: motor current %g A, want %g A", placing, s.MotorCurrent, current)
				}
				if v := r.Fans.Fan.Brushless.Voltage(r.Speed, s.MotorCurrent); !near(s.MotorVoltage, v, 1e-12) {
					t.Errorf("motor voltage %g V, want %g V", s.MotorVoltage, v)
				}
				if d := s.MotorVoltage / (12 - s.WireDrop); !near(s.Throttle, d, 1e-12) {
					t.Errorf("throttle %g, want %g", s.Throttle, d)
				}
				wire := hazard.WireResistance(hazard.WireArea(14), 1.2, 348.15)
				if !near(s.WireDrop, s.DriveCurrent*wire, 0.05) || sides == 1 && !near(s.WireDrop, s.DriveCurrent*wire, 1e-12) {
					t.Errorf("wire drop %g V at %g A", s.WireDrop, s.DriveCurrent)
				}
				heat := s.MotorPower
				if motor == fan.Outside {
					heat = s.ShaftPower
				}
				if got := s.Budget.FanHeat * s.AirCapacity; placing == fan.Push && !near(got, heat, 1e-9) {
					t.Errorf("%v, motor %v: %g W in the air, want %g W", placing, motor, got, heat)
				}
				if s.Warnings.Has(model.SupplyVoltageExceeded) != (s.Throttle > 1) {
					t.Errorf("throttle %g, warned %s", s.Throttle, s.Warnings.Keys())
				}
				if s.Warnings.Has(model.RotorExtrapolated) != (speed > 10000) {
					t.Errorf("%g rpm, warned %s", speed, s.Warnings.Keys())
				}
			}
		}
	}
}

// At the highest speed that a drive reaches one limit is met, and just beyond it the
// state warns of that limit and of no other.
func TestReachStopsAtTheFirstLimit(t *testing.T) {
	const top = 20000. / 60
	for name, c := range map[string]struct {
		set  func(r *model.Rig)
		want fan.Limit
		bit  model.Warnings
	}{
		"voltage":    {func(r *model.Rig) { r.Fans.Fan.Brushless.SpeedConstant *= 0.7 }, fan.SupplyVoltage, model.SupplyVoltageExceeded},
		"supply":     {func(r *model.Rig) { r.Build.SupplyRating = 9 }, fan.SupplyCurrent, model.SupplyCurrentExceeded},
		"motor":      {func(r *model.Rig) { r.Fans.Fan.Brushless.MostCurrent = 9 }, fan.MotorCurrent, model.MotorCurrentExceeded},
		"controller": {func(r *model.Rig) { r.Fans.Fan.Controller.MostCurrent = 9 }, fan.ControllerCurrent, model.ControllerCurrentExceeded},
		"wires": {func(r *model.Rig) {
			r.Build.WireGauge, r.Build.WireLength = 28, 2
			r.Fans.Fan.Brushless.SpeedConstant, r.Fans.Fan.Brushless.MostCurrent, r.Fans.Fan.Controller.MostCurrent = 600, 0, 0
		},
			fan.SupplyCollapse, model.SupplyCollapses},
		"nothing": {func(r *model.Rig) {
			r.Fans.Fan.DriveVoltage, r.Fans.Fan.Brushless.MostCurrent, r.Fans.Fan.Controller.MostCurrent, r.Build.SupplyRating = 40, 0, 0, 0
		}, 0, 0},
	} {
		r := improvised()
		c.set(&r)
		reached, err := model.Reach(r, 100, top)
		if err != nil || reached.Outcome != solve.Converged || reached.Limit != c.want {
			t.Errorf("%s: %+v, %v", name, reached, err)
			continue
		}
		rungs, err := model.Ladder(r, 100, 2*top)
		if err != nil || len(rungs) != 8 {
			t.Fatalf("%s: %v, %v", name, rungs, err)
		}
		if first := rungs[0]; c.want != 0 && (first.Limit != c.want || !near(first.Speed, reached.Chain.Speed, 1e-9)) || c.want == 0 && first.Speed != 0 && first.Speed < top {
			t.Errorf("%s: the first rung is %v at %g rev/s, reached are %g", name, first.Limit, first.Speed, reached.Chain.Speed)
		}
		if c.want == 0 {
			if reached.Chain.Speed != top {
				t.Errorf("%s: stops at %g", name, reached.Chain.Speed)
			}
			continue
		}
		all := model.SupplyVoltageExceeded | model.SupplyCurrentExceeded | model.MotorCurrentExceeded | model.ControllerCurrentExceeded | model.SupplyCollapses
		r.Speed = reached.Chain.Speed * (1 - 1e-9)
		if s := must(t, r); s.Warnings&all != 0 {
			t.Errorf("%s: warned of %s below it", name, (s.Warnings & all).Keys())
		}
		r.Speed = reached.Chain.Speed * (1 + 1e-9)
		if s := must(t, r); s.Warnings&all != c.bit {
			t.Errorf("%s: warned of %s above it", name, (s.Warnings & all).Keys())
		}
	}
	if _, err := model.Reach(small(), 100, top); !errors.Is(err, model.ErrNoMotor) {
		t.Errorf("a fan without a known motor reaches: %v", err)
	}
	if _, err := model.Ladder(small(), 100, top); !errors.Is(err, model.ErrNoMotor) {
		t.Errorf("a fan without a known motor has limits: %v", err)
	}
}

// Two fans on one supply share what it may give.
func TestFansShareTheSupply(t *testing.T) {
	one := improvised()
	one.Build.SupplyRating = 20
	a, err := model.Reach(one, 100, 20000./60)
	if err != nil {
		t.Fatal(err)
	}
	two := one
	two.Fans.Count, two.Core.FaceLength, two.Heat.Load = 2, 2*one.Core.FaceLength, 2*one.Heat.Load+one.Heat.PumpPower
	two.Build.SupplyRating, two.Build.WireLength = 40, one.Build.WireLength/2
	b, err := model.Reach(two, 100, 20000./60)
	if err != nil || !near(a.Chain.Speed, b.Chain.Speed, 1e-6) || a.Limit != fan.SupplyCurrent || b.Limit != a.Limit {
		t.Errorf("one reaches %g at %v, two with twice of everything %g at %v, %v", a.Chain.Speed, a.Limit, b.Chain.Speed, b.Limit, err)
	}
}

// A propeller works on its own characteristic, scaled with its size.
func TestPropellerFollowsItsCharacteristic(t *testing.T) {
	r := improvised()
	f := r.Fans.Fan
	p := fan.Propeller{Diameter: f.RotorDiameter, Pitch: f.Pitch, Blades: f.Blades, ThrustCoefficient: f.ThrustCoefficient, PowerCoefficient: f.PowerCoefficient}
	c := p.At(f.RatedSpeed)
	s := must(t, r)
	if s.StallMargin != s.FreeFlowShare-c.StaticShare() || s.StallOnset != c.StaticShare() || s.Warnings.Has(model.BladesStalled) != (s.FreeFlowShare < s.StallOnset) {
		t.Errorf("at %g, data from %g, said to be from %g; warned %s", s.FreeFlowShare, c.StaticShare(), s.StallOnset, s.Warnings.Keys())
	}
	if s := must(t, small()); !near(s.FanDoubtLow, -0.1, 1e-12) || !near(s.FanDoubtHigh, 0.1, 1e-12) {
		t.Errorf("a fan by its sheet is in doubt by %g to %g", s.FanDoubtLow, s.FanDoubtHigh)
	}
	if s.Warnings.Has(model.RotorBorrowed) {
		t.Error("given coefficients count as borrowed")
	}
	r.Fans.Fan.ThrustCoefficient, r.Fans.Fan.PowerCoefficient = 0, 0
	if s := must(t, r); !s.Warnings.Has(model.RotorBorrowed) {
		t.Error("borrowed coefficients are not told")
	}
	r.Fans.Fan.RotorDiameter, r.Fans.Fan.Pitch = 0.127, 0.1016
	if s := must(t, r); s.Warnings.Has(model.RotorBorrowed) {
		t.Error("a propeller of the table counts as another")
	}
	r.Fans.Fan.Pitch = 0.3
	var out *quantity.RangeError
	if _, err := model.Evaluate(r); !errors.As(err, &out) || out.Key != "pitch" {
		t.Errorf("a pitch beyond all propellers: %v", err)
	}
	// Twice the size at half of the speed has the same tips: four times the air.
	a := improvised().Fans.Fan
	b := a
	b.RotorDiameter, b.Pitch, b.RatedSpeed = 2*a.RotorDiameter, 2*a.Pitch, a.RatedSpeed/2
	a, _, _ = a.Resolved()
	b, _, _ = b.Resolved()
	if !near(b.FreeAirFlow, 4*a.FreeAirFlow, 1e-12) || !near(b.ShutOffPressure, a.ShutOffPressure, 1e-12) || !near(b.RatedPower, 4*a.RatedPower, 1e-12) {
		t.Errorf("%g m³/s, %g Pa, %g W; half the size %g m³/s, %g Pa, %g W", b.FreeAirFlow, b.ShutOffPressure, b.RatedPower, a.FreeAirFlow, a.ShutOffPressure, a.RatedPower)
	}
}

// A propeller on a motor that is not known draws what its electronics lose and its shaft
// takes.
func TestPropellerDrawsItsElectronicsToo(t *testing.T) {
	f := improvised().Fans.Fan
	f.Brushless, f.ElectronicsLoss, f.MotorEfficiency = fan.Brushless{}, 3, 0.7
	worked, c, err := f.Resolved()
	if err != nil {
		t.Fatal(err)
	}
	shaft := c.FreeAirPower(f.RatedSpeed, f.RatedDensity)
	if want := 3 + shaft/0.7; !near(worked.RatedPower, want, 1e-12) {
		t.Errorf("%g W, want %g W", worked.RatedPower, want)
	}
	if d := worked.Draw(f.RatedSpeed, 1, f.RatedDensity); !near(d.Shaft, shaft, 1e-12) || !near(d.Supply, worked.RatedPower, 1e-12) {
		t.Errorf("%+v with %g W at the shaft", d, shaft)
	}
}

// Where the core cannot carry the heat at any speed in reach the drive is asked for the
// power at which stall begins, where a rotor takes most of what it takes with air.
func TestReachWithoutAnOperatingPoint(t *testing.T) {
	for name, r := range map[string]model.Rig{"propeller": improvised(), "curve": improvised()} {
		if name == "curve" {
			c, rating, err := fan.NewCurve([]fan.CurvePoint{
				{Flow: 0, Pressure: 500, Power: 90}, {Flow: 0.02, Pressure: 200, Power: 40}, {Flow: 0.04, Pressure: 300, Power: 70}, {Flow: 0.08, Pressure: 0, Power: 55},
			})
			if err != nil {
				t.Fatal(err)
			}
			f := &r.Fans.Fan
			f.Pitch, f.Curve, f.FreeAirFlow, f.ShutOffPressure, f.RatedPower, f.ElectronicsLoss = 0, c, rating.FreeAirFlow, rating.ShutOffPressure, rating.Power, 0
		}
		r.Heat.Load = 5e4
		if _, err := model.Evaluate(r); !errors.Is(err, model.ErrBoils) {
			t.Fatalf("%s: %v", name, err)
		}
		f, _, err := r.Fans.Fan.Resolved()
		if err != nil {
			t.Fatal(err)
		}
		room, _ := air.NewAtmosphere(r.Room.Temperature, r.Room.Altitude, r.Room.Humidity)
		density := room.Density(r.Room.Temperature)
		d := fan.Drive{Supply: fan.Supply{Voltage: 12, MostCurrent: 35}, Controller: f.Controller, Motor: f.Brushless,
			WireResistance: hazard.WireResistance(hazard.WireArea(14), 1.2, hazard.HotWire)}
		want := fan.Reach(&d, func(speed float64) float64 { return f.Draw(speed, f.Stall().Onset, density).Shaft }, 100, 20000./60)
		got, err := model.Reach(r, 100, 20000./60)
		if err != nil || got.Limit == 0 || got.Limit != want.Limit || !near(got.Chain.Speed, want.Chain.Speed, 1e-9) {
			t.Errorf("%s: reaches %g rev/s by %v, want %g by %v; %v", name, got.Chain.Speed, got.Limit, want.Chain.Speed, want.Limit, err)
		}
	}
}

// What is in doubt of a propeller is its total pressure. In pascals that is the same for
// its static pressure, which is less by the head of the disc flow.
func TestDoubtOfAPropellerIsOfItsTotalPressure(t *testing.T) {
	r := improvised()
	f, c, err := r.Fans.Fan.Resolved()
	if err != nil {
		t.Fatal(err)
	}
	ready, err := model.Prepare(r)
	if err != nil {
		t.Fatal(err)
	}
	curve, err := ready.FanCurve(r.Speed, 200)
	if err != nil {
		t.Fatal(err)
	}
	room, _ := air.NewAtmosphere(r.Room.Temperature, r.Room.Altitude, r.Room.Humidity)
	density := room.Density(r.Room.Temperature)
	for _, q := range append(curve.Points, curve.Operating) {
		velocity := q.FreeFlowShare * f.FreeFlow(r.Speed) / (math.Pi / 4 * 0.14 * 0.14)
		total := q.FanPressure + density/2*velocity*velocity
		d := c.Doubt(q.FreeFlowShare)
		if !near(q.DoubtLow, d.PressureLow*total, 1e-9) || !near(q.DoubtHigh, d.PressureHigh*total, 1e-9) {
			t.Errorf("at %g of free air: %g to %g Pa, want %g to %g Pa", q.FreeFlowShare, q.DoubtLow, q.DoubtHigh, d.PressureLow*total, d.PressureHigh*total)
		}
	}
	if last := curve.Points[199]; !(last.DoubtHigh > 5) || math.Abs(last.FanPressure) > 1e-6 {
		t.Errorf("in free air %g Pa, in doubt by %g Pa", last.FanPressure, last.DoubtHigh)
	}
	s := must(t, r)
	if o := curve.Operating; !near(s.FanDoubtLow, o.DoubtLow/o.FanPressure, 1e-12) || !near(s.FanDoubtHigh, o.DoubtHigh/o.FanPressure, 1e-12) {
		t.Errorf("the state is in doubt by %g to %g, the curve by %g to %g Pa of %g", s.FanDoubtLow, s.FanDoubtHigh, o.DoubtLow, o.DoubtHigh, o.FanPressure)
	}
	// Both sides of the core are out together.
	both := r
	both.Placing, both.Installed.SeriesLoss = fan.PushPull, 0.1
	sheet := small()
	sheet.Placing, sheet.Installed.SeriesLoss = fan.PushPull, 0.1
	if s := must(t, sheet); !near(s.FanDoubtLow, -0.1, 1e-12) || !near(s.FanDoubtHigh, 0.1, 1e-12) {
		t.Errorf("fans on both sides are in doubt by %g to %g", s.FanDoubtLow, s.FanDoubtHigh)
	}
	if s := must(t, both); !(s.FanDoubtHigh > 0.15 && s.FanDoubtHigh < 0.6) {
		t.Errorf("propellers on both sides are in doubt by %g", s.FanDoubtHigh)
	}
}

// A propeller slower than the one that lends its coefficients was measured is told, by
// its rated speed or by the one that it turns at.
func TestPropellerBelowWhatWasMeasured(t *testing.T) {
	r := improvised()
	r.Heat.Load, r.Fans.Fan.ThrustCoefficient, r.Fans.Fan.PowerCoefficient = 20, 0, 0
	r.Fans.Fan.Pitch = 0.112 // 5 by 4 inches, but larger
	_, c, err := r.Fans.Fan.Resolved()
	if err != nil {
		t.Fatal(err)
	}
	size := c.Coefficients.Size
	lowest := 1596. / 60 / (size * size) // run 0362rd begins there
	if c.Coefficients.Sample.Run != "0362rd" {
		t.Fatalf("coefficients of %s", c.Coefficients.Sample.Run)
	}
	for k, want := range map[float64]bool{1.001: false, 0.999: true} {
		r.Speed = lowest * k
		if s := must(t, r); s.Warnings.Has(model.RotorTooSlow) != want {
			t.Errorf("%g of the lowest measured speed: warned %s", k, s.Warnings.Keys())
		}
	}
	r.Speed, r.Fans.Fan.RatedSpeed = 2*lowest, 0.9*lowest
	if s := must(t, r); !s.Warnings.Has(model.RotorTooSlow) {
		t.Errorf("coefficients taken below what was measured are not told: %s", s.Warnings.Keys())
	}
	r.Speed = 0.9 * lowest
	r.Fans.Fan.ThrustCoefficient, r.Fans.Fan.PowerCoefficient = 0.17, 0.11
	if s := must(t, r); s.Warnings.Has(model.RotorTooSlow) {
		t.Error("given coefficients count as lent")
	}
}

// A slow propeller whose coefficients are lent for a rated speed beyond what was measured
// is told that, and not that it turns fast; a fast one with its own only the latter.
func TestPropellerBeyondWhatWasMeasured(t *testing.T) {
	r := improvised()
	r.Heat.Load, r.Fans.Fan.ThrustCoefficient, r.Fans.Fan.PowerCoefficient = 20, 0, 0
	r.Fans.Fan.RatedSpeed, r.Fans.Fan.TopSpeed, r.Speed = 20000./60, 20000./60, 8000./60
	both := model.RotorExtrapolated | model.RotorLentFastest
	if s := must(t, r); s.Warnings&both != model.RotorLentFastest {
		t.Errorf("lent beyond what was measured, turning slowly: %s", s.Warnings.Keys())
	}
	r.Fans.Fan.ThrustCoefficient, r.Fans.Fan.PowerCoefficient, r.Speed = 0.17, 0.11, 12000./60
	if s := must(t, r); s.Warnings&both != model.RotorExtrapolated {
		t.Errorf("own coefficients, turning fast: %s", s.Warnings.Keys())
	}
}

// Sheet, chain and caution know one voltage drop, of copper at 75 °C.
func TestOneVoltageDrop(t *testing.T) {
	drop, _ := model.OutputOf("wire_drop")
	for name, r := range map[string]model.Rig{"known motor": improvised(), "fan by its sheet": small()} {
		for _, placing := range []fan.Placing{fan.Push, fan.PushPull} {
			r.Placing = placing
			r.Build.WireGauge, r.Build.WireLength = 18, 1.5
			for _, warm := range []float64{280, 310} {
				r.Room.Temperature = warm
				s := must(t, r)
				want := s.DriveCurrent * hazard.WireResistance(hazard.WireArea(18), 3, 348.15)
				if !near(s.WireDrop, want, 0.05) || placing == fan.Push && !near(s.WireDrop, want, 1e-12) || drop.Get(&s) != s.WireDrop {
					t.Errorf("%s, %v: %g V, want %g V", name, placing, s.WireDrop, want)
				}
				r.Fans.Fan.DriveVoltage = 12
				found := model.Cautions(&r, r.Speed, &s)
				share := found[hazard.VoltageDropNotable].Number + found[hazard.VoltageDropHigh].Number
				if want := s.WireDrop / 12; want >= 0.03 && share != want {
					t.Errorf("%s, %v: cautioned of %g, shown %g", name, placing, share, want)
				}
			}
		}
		r.Build.WireGauge = 0
		if s := must(t, r); !math.IsNaN(drop.Get(&s)) {
			t.Errorf("%s: unknown wire loses %g V", name, drop.Get(&s))
		}
	}
}

// A slow little rotor is below what the fan laws were seen to hold for.
func TestSlowRotorIsTold(t *testing.T) {
	r := large()
	r.Fans.Fan.RotorDiameter, r.Heat.Load = 0.13, 30
	for _, speed := range []float64{200, 300, 330, 400, 800} {
		r.Speed = speed / 60
		s := must(t, r)
		u := math.Pi * 0.13 * r.Speed
		if re := u * 0.13 / 1.55e-5; !near(s.RotorReynolds, re, 0.05) || s.Warnings.Has(model.RotorSlow) != (s.RotorReynolds < 2e4) {
			t.Errorf("%g rpm: Reynolds number %g, about %g; warned %s", speed, s.RotorReynolds, re, s.Warnings.Keys())
		}
	}
}

// The cautions are those of hazard for what the state and the build say.
func TestCautionsTakeTheStatesNumbers(t *testing.T) {
	r := improvised()
	r.Fans.Fan.RatedSound = 95
	s := must(t, r)
	found := model.Cautions(&r, r.Speed, &s)
	for rule, want := range map[hazard.Rule]float64{
		hazard.TipSpeed: s.TipSpeed, hazard.NIOSHDose: s.NIOSHDose, hazard.Loud: s.OperatorSound, hazard.FanHeader: s.DriveCurrent,
	} {
		if f := found[rule]; !f.Holds || f.Number != want {
			t.Errorf("rule %d: %+v, want %g", rule, f, want)
		}
	}
	if !found[hazard.GuardNotKnown].Holds {
		t.Error("a propeller is not taken for an improvised rotor")
	}
	quieter := s
	quieter.OperatorSound = 80
	if f := model.Cautions(&r, r.Speed, &quieter)[hazard.MayBeLoud]; found[hazard.MayBeLoud].Holds || !f.Holds || f.Number != 80+s.SoundDoubtHigh {
		t.Errorf("80 dB(A) with a doubt of %g dB: %+v", s.SoundDoubtHigh, f)
	}
	unheard, read := r, r
	unheard.Fans.Fan.EstimatedSound, read.Fans.Fan.EstimatedSound, read.Fans.Fan.Readings = true, true, &sound.Fitted{Speed: 100, Level: 70}
	for what, c := range map[string]struct {
		rig  *model.Rig
		want bool
	}{"rated": {&r, false}, "estimated": {&unheard, true}, "read": {&read, false}} {
		if f := model.Cautions(c.rig, r.Speed, &s)[hazard.SoundNotKnown]; f.Holds != c.want {
			t.Errorf("the sound of a rotor that is %s: %+v", what, f)
		}
	}
	bought := small()
	bought.Speed = 330
	b := must(t, bought)
	b.TipSpeed = 100
	if model.Cautions(&bought, bought.Speed, &b)[hazard.UnattendedRotor].Holds {
		t.Error("a fan that is attended counts as unattended")
	}
	left := r
	left.Build.Running, left.Build.Improvised = hazard.Unattended, false
	if !model.Cautions(&left, left.Speed, &s)[hazard.UnattendedRotor].Holds {
		t.Error("a propeller left alone is not taken for an improvised rotor")
	}
	r.Build.Shroud = hazard.PrintedPLA
	for _, placing := range []fan.Placing{fan.Push, fan.Pull, fan.PushPull} {
		hot := r
		hot.Placing, hot.Heat.Load, hot.Fans.Fan.RotorDiameter = placing, 800, 0.09
		hot.Fans.Fan.Pitch = 0.0675
		s = must(t, hot)
		if f := model.Cautions(&hot, hot.Speed, &s)[hazard.ShroudSoftens]; !f.Holds || f.Number != s.CoolantInletTemperature || f.Number < s.AirOutletTemperature {
			t.Errorf("%v: %+v with coolant of %g K at the shroud, and air of %g K", placing, f, s.CoolantInletTemperature, s.AirOutletTemperature)
		}
	}
	cool := r
	s = must(t, cool)
	if f := model.Cautions(&cool, cool.Speed, &s)[hazard.ShroudSoftens]; f.Holds {
		t.Errorf("%+v in push with coolant of %g K", f, s.CoolantInletTemperature)
	}
}

// The speed at which a throttle turns the fans on the core is that at which the state has
// this throttle.
func TestThrottleTurnsTheFansOnTheCore(t *testing.T) {
	const low, high = 10, 20000. / 60
	for _, placing := range []fan.Placing{fan.Push, fan.Pull, fan.PushPull} {
		r := improvised()
		r.Placing = placing
		for _, throttle := range []float64{0.2, 0.5, 0.95} {
			c, ok, err := model.Throttled(r, throttle, low, high)
			if err != nil || !ok || !near(c.Throttle, throttle, 1e-9) {
				t.Errorf("%v at %g: %+v, %v, %v", placing, throttle, c, ok, err)
				continue
			}
			r.Speed = c.Speed
			s := must(t, r)
			if exact := placing != fan.PushPull; exact && (!near(s.Throttle, throttle, 1e-8) || !near(s.MotorCurrent, c.MotorCurrent, 1e-8)) || !near(s.Throttle, throttle, 0.02) {
				t.Errorf("%v: at %g rev/s the throttle is %g with %g A, want %g with %g A", placing, c.Speed, s.Throttle, s.MotorCurrent, throttle, c.MotorCurrent)
			}
		}
	}
	if c, ok, err := model.Throttled(improvised(), 0.01, low, high); ok || err != nil {
		t.Errorf("slower than the slowest: %+v, %v", c, err)
	}
	if _, _, err := model.Throttled(small(), 0.5, low, high); !errors.Is(err, model.ErrNoMotor) {
		t.Errorf("a fan without a known motor: %v", err)
	}
}

// The speeds at which fuse, connector and blades meet their limits are those at which
// their cautions begin, and they stop no drive.
func TestTheLadderMeetsWhatCautionsTell(t *testing.T) {
	r := improvised()
	r.Build.FuseRating, r.Build.ConnectorRating = 6, 7
	r.Build.Blade = hazard.Polycarbonate
	alone, err := model.Reach(r, 100, 500)
	if err != nil {
		t.Fatal(err)
	}
	rungs, err := model.Ladder(r, 50, 900)
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, rung := range rungs {
		rule, is := map[fan.Limit]hazard.Rule{fan.FuseRating: hazard.FuseOpens, fan.ConnectorRating: hazard.ConnectorOverload, fan.BladeStrength: hazard.BladeStress}[rung.Limit]
		if !is {
			continue
		}
		seen++
		for side, holds := range map[float64]bool{1 - 1e-6: false, 1 + 1e-6: true} {
			r.Speed = rung.Speed * side
			s := must(t, r)
			if found := model.Cautions(&r, r.Speed, &s); found[rule].Holds != holds {
				t.Errorf("%v at %g of %g rev/s: %+v", rung.Limit, side, rung.Speed, found[rule])
			}
		}
	}
	if seen != 3 {
		t.Errorf("%d limits of three in %+v", seen, rungs)
	}
	r.Build.FuseRating, r.Build.ConnectorRating = 0, 0
	if without, err := model.Reach(r, 100, 500); err != nil || without != alone {
		t.Errorf("with a fuse it reaches %+v, without %+v, %v", alone, without, err)
	}

	two := r
	two.Fans.Count, two.Core.FaceLength, two.Heat.Load = 2, 2*r.Core.FaceLength, 2*r.Heat.Load+r.Heat.PumpPower
	two.Build.SupplyRating, two.Build.WireLength = 2*r.Build.SupplyRating, r.Build.WireLength/2
	r.Build.FuseRating, two.Build.FuseRating = 6, 12
	at := map[int]float64{}
	for n, rig := range map[int]model.Rig{1: r, 2: two} {
		rungs, err := model.Ladder(rig, 50, 900)
		if err != nil {
			t.Fatal(err)
		}
		for _, rung := range rungs {
			if rung.Limit == fan.FuseRating {
				at[n] = rung.Speed
			}
		}
	}
	if !(at[1] > 50) || !near(at[1], at[2], 1e-6) {
		t.Errorf("6 A of one fan are met at %g rev/s, 12 A of two at %g", at[1], at[2])
	}
}
