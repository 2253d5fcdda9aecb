package model_test

import (
	"math"
	"testing"

	"finduel/model"
	"finduel/model/air"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/hazard"
	"finduel/model/sound"
)

// drawn is what all fans on one side draw, at a share of their free-air flow and a
// density.
func drawn(r *model.Rig, share, density float64) fan.Draw {
	d, n := r.Fans.Fan.Draw(r.Speed, share, density), float64(r.Fans.Turning())
	return fan.Draw{Supply: n * d.Supply, Motor: n * d.Motor, Shaft: n * d.Shaft, Heat: n * d.Heat}
}

// saddled is the small rig with an invented fan whose curve has a deep saddle.
func saddled(t *testing.T) model.Rig {
	t.Helper()
	r := small()
	c, rating, err := fan.NewCurve([]fan.CurvePoint{
		{Flow: 0, Pressure: 520}, {Flow: 0.010, Pressure: 380}, {Flow: 0.018, Pressure: 180}, {Flow: 0.023, Pressure: 150},
		{Flow: 0.031, Pressure: 260}, {Flow: 0.036, Pressure: 290}, {Flow: 0.045, Pressure: 230}, {Flow: 0.070, Pressure: 0},
	})
	if err != nil {
		t.Fatal(err)
	}
	f := &r.Fans.Fan
	f.Curve, f.FreeAirFlow, f.ShutOffPressure = c, rating.FreeAirFlow, rating.ShutOffPressure
	return r
}

// balances returns every mass flow at which fan and core are in balance and stay so,
// from the published pieces by a fine scan, and its step: an independent look at what Evaluate finds.
func balances(t *testing.T, r model.Rig) (found []float64, step float64) {
	t.Helper()
	c, err := core.New(r.Core)
	if err != nil {
		t.Fatal(err)
	}
	room, err := air.NewAtmosphere(r.Room.Temperature, r.Room.Altitude, r.Room.Humidity)
	if err != nil {
		t.Fatal(err)
	}
	heat := r.Heat.Load + r.Heat.PumpPower
	density := room.Density(r.Room.Temperature)
	excess := func(m float64) float64 {
		inlet, breathed := r.Room.Temperature, density
		capacity := m * room.SpecificHeat()
		if r.Placing == fan.Push {
			share := m / density / r.Fans.FreeFlow(r.Speed)
			inlet += drawn(&r, share, density).Heat / capacity
		}
		outlet := inlet + heat/capacity
		if r.Placing == fan.Pull {
			breathed = room.Density(outlet)
		}
		return r.Fans.Pressure(r.Speed, m/breathed, breathed) -
			c.PressureDrop(m, room.Density(inlet), room.Density(outlet), room.Viscosity((inlet+outlet)/2))
	}
	most := r.Fans.FreeFlow(r.Speed) * density
	least := heat / (room.SpecificHeat() * (r.Coolant.Liquid.Boiling() - r.Room.Temperature))
	const steps = 40000
	step = (most - least) / steps
	last := excess(least)
	for i := 1; i <= steps; i++ {
		m := least + step*float64(i)
		e := excess(m)
		if last > 0 && e <= 0 {
			found = append(found, m)
		}
		last = e
	}
	return found, step
}

// Fans whose curve meets the core several times run at the highest stable flow; the
// smallest is where they may hang. A sweep over the fin depth passes through all
// there is: one balance right of the saddle, two, one left of it.
func TestSaddleMeetsTheCoreMoreThanOnce(t *testing.T) {
	kinds := map[int]int{}
	hangs, inside, deep := 0, 0, 0
	for _, placing := range []fan.Placing{fan.Push, fan.Pull} {
		r := saddled(t)
		r.Placing, r.Speed = placing, 150
		for deeper := -0.6; deeper < 5; deeper += 0.13 {
			r.Core.FinDepth = 0.034 * (1 + deeper)
			stable, step := balances(t, r)
			kinds[len(stable)]++
			s := must(t, r)
			top := stable[len(stable)-1]
			if math.Abs(s.AirMassFlow-top) > step {
				t.Errorf("%v, fins of %g m: %g kg/s, the scan's highest is %g of %v", placing, r.Core.FinDepth, s.AirMassFlow, top, stable)
			}
			want := 0.0
			if len(stable) > 1 {
				want = stable[0]
				hangs++
			}
			density := s.AirMassFlow / s.Airflow
			if math.Abs(s.HangingAirflow*density-want) > step || s.Warnings.Has(model.MayHang) != (want > 0) {
				t.Errorf("%v, fins of %g m: may hang at %g kg/s, the scan says %g; warned %v", placing, r.Core.FinDepth, s.HangingAirflow*density, want, s.Warnings.Keys())
			}
			stall := r.Fans.Fan.Stall()
			if s.StallOnset != stall.Onset || s.StallMargin != s.FreeFlowShare-stall.Onset {
				t.Errorf("margin %g at %g, stall from %g, on the curve %g", s.StallMargin, s.FreeFlowShare, s.StallOnset, stall.Onset)
			}
			isInside := s.FreeFlowShare < stall.Onset && s.FreeFlowShare >= stall.Deep
			if s.Warnings.Has(model.InsideSaddle) != isInside || s.Warnings.Has(model.BelowValley) != (s.FreeFlowShare < stall.Deep) || s.Warnings.Has(model.StallRegion) {
				t.Errorf("share %g, stall %+v: warned %v", s.FreeFlowShare, stall, s.Warnings.Keys())
			}
			if isInside {
				inside++
			}
			if s.FreeFlowShare < stall.Deep {
				deep++
			}
		}
	}
	if kinds[1] < 10 || kinds[2] < 3 || hangs < 3 || inside < 1 || deep < 3 {
		t.Errorf("balances %v, %d may hang, %d inside the saddle, %d deep: the sweep does not pass through all", kinds, hangs, inside, deep)
	}
}

// A stalled fan is louder than its speed says.
func TestStallIsHeard(t *testing.T) {
	r := saddled(t)
	r.Speed = 150
	free := must(t, r)
	r.Core.FinDepth = 0.2
	stalled := must(t, r)
	level := func(density float64) float64 {
		return sound.AtDensity(r.Fans.Fan.RatedSound, r.Fans.Fan.RatedDensity, density)
	}
	if !near(free.Sound, level(density(&free)), 1e-12) || !near(stalled.Sound, free.Sound+sound.StallRise, 1e-12) {
		t.Errorf("%g dB(A) out of stall, %g in it", free.Sound, stalled.Sound)
	}
	if free.StallSound != 0 || free.SoundDoubtLow != -5 || free.SoundDoubtHigh != 5 {
		t.Errorf("out of stall %g dB by stall, %g to %g dB", free.StallSound, free.SoundDoubtLow, free.SoundDoubtHigh)
	}
	if stalled.StallSound != sound.StallRise || stalled.SoundDoubtLow != -8 || stalled.SoundDoubtHigh != 7 {
		t.Errorf("in stall %g dB by stall, %g to %g dB", stalled.StallSound, stalled.SoundDoubtLow, stalled.SoundDoubtHigh)
	}
	r.Fans.Fan.SoundDoubt, r.Placing = 3, fan.PushPull
	both := must(t, r)
	r.Fans.Fan.SoundDoubt = 0
	silent := must(t, r)
	behind := density(&both) * r.Room.Temperature / both.AirOutletTemperature // what is warmer is thinner
	pair := sound.Sum(level(density(&both)), level(behind))
	if sum := both.Sound - both.StallSound; !near(sum, sound.SumOfEqual(pair, r.Fans.Count)+distance(&r), 1e-9) || both.StallSound <= 0 {
		t.Errorf("in push-pull %g dB(A) without the %g dB of stall", sum, both.StallSound)
	}
	if both.SoundDoubtHigh-silent.SoundDoubtHigh != -2 {
		t.Errorf("doubts %g and %g dB", both.SoundDoubtHigh, silent.SoundDoubtHigh)
	}
}

// The same fan at the same speed moves the same volume of thinner air, and is quieter.
func TestThinAirSoundsLess(t *testing.T) {
	r := saddled(t)
	r.Room.Altitude = 0
	low := must(t, r)
	r.Room.Altitude = 3000
	high := must(t, r)
	if fall := high.Sound - low.Sound; low.StallSound != 0 || high.StallSound != 0 || !near(fall, 20*math.Log10(density(&high)/density(&low)), 1e-9) || fall > -2.5 || fall < -3.5 {
		t.Errorf("at 3 000 m %g dB, in air of %g against %g kg/m³", fall, density(&high), density(&low))
	}
	if high.OperatorSound-low.OperatorSound != high.Sound-low.Sound {
		t.Error("the operator hears another fan")
	}
}

// density is that of the room's air, kg/m³.
func density(s *model.State) float64 { return s.AirMassFlow / s.Airflow }

// distance is what the way to the listener does to a level, dB.
func distance(r *model.Rig) float64 { return r.Room.Surroundings.Level(0, r.Room.ListenerDistance) }

// Fans on both sides are two pressures in a row with the flow of one.
func TestPushPullIsTwoBanksInARow(t *testing.T) {
	for _, base := range bases() {
		push, pull, both := base, base, base
		pull.Placing, both.Placing = fan.Pull, fan.PushPull
		a, b, s := must(t, push), must(t, pull), must(t, both)
		if !(s.Airflow > a.Airflow && s.Airflow > b.Airflow && s.Airflow < 2*a.Airflow) {
			t.Errorf("airflow %g, of one bank %g and %g", s.Airflow, a.Airflow, b.Airflow)
		}
		room, _ := air.NewAtmosphere(both.Room.Temperature, both.Room.Altitude, both.Room.Humidity)
		front, behind := room.Density(both.Room.Temperature), room.Density(s.AirOutletTemperature)
		sum := both.Fans.Pressure(both.Speed, s.AirMassFlow/front, front) + both.Fans.Pressure(both.Speed, s.AirMassFlow/behind, behind)
		if !near(sum, s.CorePressureDrop, 1e-8) {
			t.Errorf("%g Pa of both banks, the core takes %g Pa", sum, s.CorePressureDrop)
		}
		// Only the front bank's heat meets the core.
		share := s.AirMassFlow / front / both.Fans.FreeFlow(both.Speed)
		if want := drawn(&both, share, front).Heat / s.AirCapacity; !near(s.Budget.FanHeat, want, 1e-9) {
			t.Errorf("fan heat %g K, want %g K", s.Budget.FanHeat, want)
		}
		if !near(s.FanPower, drawn(&both, share, front).Supply+drawn(&both, share, behind).Supply, 1e-12) {
			t.Errorf("power %g W", s.FanPower)
		}
		if want := s.AirMassFlow / behind / both.Fans.FreeFlow(both.Speed); s.FreeFlowShare > want || !near(s.FreeFlowShare, share, 1e-12) {
			t.Errorf("share %g, of the sides %g and %g", s.FreeFlowShare, share, want)
		}
		both.Installed.SeriesLoss = 0.2
		lossy := must(t, both)
		if !(lossy.Airflow < s.Airflow) {
			t.Errorf("swirl costs nothing: %g m³/s, without it %g", lossy.Airflow, s.Airflow)
		}
		// With half of the sum lost and air of one density it is one bank.
		both.Installed.SeriesLoss = 0.5
		if half := must(t, both); !near(half.Airflow, a.Airflow, 0.03) {
			t.Errorf("half of two banks moves %g m³/s, one %g", half.Airflow, a.Airflow)
		}
	}
}

// Beside a fan that stands still the others move more air than reaches the core.
func TestOneFanStandsStill(t *testing.T) {
	for _, placing := range []fan.Placing{fan.Push, fan.Pull} {
		r := large()
		r.Fans.Count, r.Placing = 3, placing
		all := must(t, r)
		r.Fans.Stopped = 1
		s := must(t, r)
		closed := r
		closed.Fans.Count, closed.Fans.Stopped = 2, 0
		two := must(t, closed)
		if !(s.Airflow < two.Airflow && two.Airflow < all.Airflow) || !(s.FreeFlowShare > two.FreeFlowShare) {
			t.Errorf("%v: one of three standing %g m³/s, hole closed %g, all turning %g; share %g and %g",
				placing, s.Airflow, two.Airflow, all.Airflow, s.FreeFlowShare, two.FreeFlowShare)
		}
		if !near(s.FanPower, two.FanPower, 0.02) || s.Sound >= all.Sound {
			t.Errorf("%v: %g W and %g dB(A), of two %g W, of three %g dB(A)", placing, s.FanPower, s.Sound, two.FanPower, all.Sound)
		}
		// The core gets its share of the fans' heat: air and heat leave by the hole together.
		if placing == fan.Push {
			moved := 2 * s.FreeFlowShare * r.Fans.Fan.FreeFlow(r.Speed)
			room, _ := air.NewAtmosphere(r.Room.Temperature, r.Room.Altitude, r.Room.Humidity)
			if want := s.FanPower / (moved * room.Density(r.Room.Temperature) * room.SpecificHeat()); !near(s.Budget.FanHeat, want, 1e-9) {
				t.Errorf("the fans warm the air by %g K, want %g K", s.Budget.FanHeat, want)
			}
		}
	}
	// In push-pull one of six stands, before the core; the three behind it turn.
	r := large()
	r.Fans.Count, r.Placing = 3, fan.PushPull
	all := must(t, r)
	r.Fans.Stopped = 1
	s := must(t, r)
	if !(s.Airflow < all.Airflow && s.Airflow > 0.8*all.Airflow) || !near(s.FanPower, all.FanPower*5/6, 0.02) || s.Sound >= all.Sound {
		t.Errorf("one of six standing: %g m³/s of %g, %g W of %g, %g dB(A) of %g", s.Airflow, all.Airflow, s.FanPower, all.FanPower, s.Sound, all.Sound)
	}
	// With two of the three in front standing the bank behind pulls through them.
	r.Fans.Stopped = 2
	if two := must(t, r); !(two.Airflow < s.Airflow) || !near(two.FanPower, all.FanPower*4/6, 0.02) {
		t.Errorf("two of six standing: %g m³/s, one standing %g; %g W of %g", two.Airflow, s.Airflow, two.FanPower, all.FanPower)
	}
}

// Of a disc larger than the face the part that misses moves no air through the core.
func TestShroudDecidesWhatMissesTheFace(t *testing.T) {
	r := small()
	r.Fans.Fan.RotorDiameter = 0.08
	inside := map[model.Shroud]model.State{}
	for _, s := range []model.Shroud{model.Ducted, model.Blocked, model.Open} {
		r.Installed.Shroud = s
		inside[s] = must(t, r)
	}
	if inside[model.Ducted] != inside[model.Blocked] || inside[model.Ducted] != inside[model.Open] {
		t.Error("the shroud matters to a disc that lies over the face with all of it")
	}
	r.Fans.Fan.RotorDiameter = 0.13
	over := fan.DiscOnFace(0.13, r.Core.FaceLength, r.Core.FaceWidth)
	for _, placing := range []fan.Placing{fan.Push, fan.Pull} {
		r.Placing = placing
		r.Installed.Shroud = model.Ducted
		ducted := must(t, r)
		r.Installed.Shroud = model.Blocked
		blocked := must(t, r)
		r.Installed.Shroud = model.Open
		open := must(t, r)
		if !(blocked.Airflow < ducted.Airflow && open.Airflow < ducted.Airflow) {
			t.Errorf("%v: ducted %g m³/s, blocked %g, open %g", placing, ducted.Airflow, blocked.Airflow, open.Airflow)
		}
		if placing == fan.Push {
			if !near(open.Budget.FanHeat*open.AirCapacity, over*open.FanPower, 1e-9) {
				t.Errorf("%g W of %g W reach the core, want %g of it", open.Budget.FanHeat*open.AirCapacity, open.FanPower, over)
			}
			if !near(blocked.Budget.FanHeat*blocked.AirCapacity, blocked.FanPower, 1e-9) {
				t.Errorf("%g W of %g W reach the core", blocked.Budget.FanHeat*blocked.AirCapacity, blocked.FanPower)
			}
		}
		if !near(blocked.FreeFlowShare, blocked.AirMassFlow/over/r.Fans.FreeFlow(r.Speed)/(blocked.AirMassFlow/blocked.Airflow), 0.2) {
			t.Errorf("share %g", blocked.FreeFlowShare)
		}
	}
	// Two fans share the length of the face, or its width, or four both.
	r = large()
	r.Fans.Fan.RotorDiameter, r.Installed.Shroud = 0.15, model.Blocked
	s := must(t, r)
	room, _ := air.NewAtmosphere(r.Room.Temperature, r.Room.Altitude, r.Room.Humidity)
	want := s.AirMassFlow / room.Density(r.Room.Temperature) / fan.DiscOnFace(0.15, 0.143, 0.134) / r.Fans.FreeFlow(r.Speed)
	if !near(s.FreeFlowShare, want, 1e-9) {
		t.Errorf("share %g, want %g", s.FreeFlowShare, want)
	}
	r = large()
	r.Fans.Count, r.Fans.Fan.RotorDiameter = 4, 0.14
	r.Core.FaceLength, r.Core.FaceWidth = 0.28, 0.28
	ducted := must(t, r)
	for _, shroud := range []model.Shroud{model.Blocked, model.Open} {
		r.Installed.Shroud = shroud
		if s := must(t, r); s != ducted {
			t.Errorf("%v: four discs that lie on the face two by two are cut: %g m³/s, ducted %g", shroud, s.Airflow, ducted.Airflow)
		}
	}
}

// A curve that falls all the way knows no stall, however many points make it.
func TestNoStallKnownIsNoMargin(t *testing.T) {
	r := small()
	margin, _ := model.OutputOf("stall_margin")
	if s := must(t, r); margin.Get(&s) != s.FreeFlowShare-fan.StallRegion {
		t.Errorf("margin %g at %g of free air", margin.Get(&s), s.FreeFlowShare)
	}
	f := &r.Fans.Fan
	c, rating, err := fan.NewCurve([]fan.CurvePoint{{Flow: 0, Pressure: f.ShutOffPressure}, {Flow: f.FreeAirFlow / 2, Pressure: f.ShutOffPressure / 2}, {Flow: f.FreeAirFlow}})
	if err != nil {
		t.Fatal(err)
	}
	f.Curve, f.FreeAirFlow, f.ShutOffPressure = c, rating.FreeAirFlow, rating.ShutOffPressure
	for _, depth := range []float64{0.02, 0.3} {
		r.Core.FinDepth = depth
		s := must(t, r)
		if !math.IsNaN(margin.Get(&s)) || s.StallOnset != 0 {
			t.Errorf("margin %g at %g of free air where no stall is known", margin.Get(&s), s.FreeFlowShare)
		}
		if s.Warnings&(model.InsideSaddle|model.StalledDeep|model.BelowValley|model.StallRegion) != 0 {
			t.Errorf("warned of %s", s.Warnings.Keys())
		}
	}
}

// With two saddles every balance is told, and a fan inside the lower one is said to be
// there, deep in stall as it is.
func TestTwoSaddles(t *testing.T) {
	r := saddled(t)
	c, rating, err := fan.NewCurve([]fan.CurvePoint{
		{Flow: 0, Pressure: 500}, {Flow: 0.01, Pressure: 40}, {Flow: 0.02, Pressure: 230}, {Flow: 0.035, Pressure: 150}, {Flow: 0.05, Pressure: 450}, {Flow: 0.08, Pressure: 0},
	})
	if err != nil {
		t.Fatal(err)
	}
	f := &r.Fans.Fan
	f.Curve, f.FreeAirFlow, f.ShutOffPressure = c, rating.FreeAirFlow, rating.ShutOffPressure
	r.Speed = f.RatedSpeed
	turns := c.Turns()
	three, inside, falling := 0, 0, 0
	for depth := 0.01; depth < 0.4; depth *= 1.04 {
		r.Core.FinDepth = depth
		s := must(t, r)
		stable, step := balances(t, r)
		density := s.AirMassFlow / s.Airflow
		highest, _ := model.OutputOf("highest_hanging_airflow")
		switch n := len(stable); {
		case n == 3:
			three++
			if math.Abs(s.HangingAirflow*density-stable[0]) > step || math.Abs(highest.Get(&s)*density-stable[1]) > step {
				t.Errorf("hangs at %g and %g kg/s, want %v", s.HangingAirflow*density, s.HighestHanging*density, stable)
			}
			ready, _ := model.Prepare(r)
			if curve, err := ready.FanCurve(r.Speed, 9); err != nil || len(curve.Hanging) != 2 || curve.Hanging[0].Airflow != s.HighestHanging || curve.Hanging[1].Airflow != s.HangingAirflow {
				t.Errorf("the curve has %+v, %v", curve.Hanging, err)
			}
		case !math.IsNaN(highest.Get(&s)):
			t.Errorf("a second place to hang, %g m³/s, where the scan has %v", highest.Get(&s), stable)
		}
		share := s.FreeFlowShare
		lower := share >= turns[1].Valley && share < turns[1].Peak
		if got, want := s.Warnings.Has(model.InsideSaddle), lower || share >= turns[0].Valley && share < turns[0].Peak; got != want {
			t.Errorf("at %g of free air: inside a saddle is %v, want %v", share, got, want)
		}
		if s.Warnings.Has(model.BelowValley) != (share < turns[0].Valley) {
			t.Errorf("at %g of free air: deep in stall is %v", share, !(share < turns[0].Valley))
		}
		if lower {
			inside++
		}
		if share < turns[0].Valley && share >= turns[1].Peak {
			falling++
		}
	}
	if three < 3 || inside < 2 || falling < 3 {
		t.Errorf("%d with three balances, %d inside the lower saddle, %d between both", three, inside, falling)
	}
}

// Power that changes along a measured curve is that of where the fan runs.
func TestPowerFollowsTheMeasuredCurve(t *testing.T) {
	r := small()
	c, rating, err := fan.NewCurve([]fan.CurvePoint{
		{Flow: 0, Pressure: 520, Power: 60}, {Flow: 0.02, Pressure: 400, Power: 52}, {Flow: 0.045, Pressure: 250, Power: 45}, {Flow: 0.07, Pressure: 0, Power: 30},
	})
	if err != nil {
		t.Fatal(err)
	}
	f := &r.Fans.Fan
	f.Curve, f.FreeAirFlow, f.ShutOffPressure, f.RatedPower = c, rating.FreeAirFlow, rating.ShutOffPressure, rating.Power
	r.Speed = f.RatedSpeed
	for _, depth := range []float64{0.01, 0.03, 0.1, 0.25} {
		r.Core.FinDepth = depth
		s := must(t, r)
		density := s.AirMassFlow / s.Airflow
		if want := c.Power(s.FreeFlowShare) * 30 * density / 1.2; !near(s.FanPower, want, 1e-12) || !near(s.Budget.FanHeat*s.AirCapacity, want, 1e-9) {
			t.Errorf("fins of %g m: %g W at %g of free air, %g W in the air, want %g W", depth, s.FanPower, s.FreeFlowShare, s.Budget.FanHeat*s.AirCapacity, want)
		}
		if !near(s.AirPower, s.CorePressureDrop*s.Airflow, 1e-8) || !(s.AirPower < s.ShaftPower && s.ShaftPower < s.MotorPower) {
			t.Errorf("air %g W, shaft %g W, motor %g W", s.AirPower, s.ShaftPower, s.MotorPower)
		}
	}
}

// Sound goes to listener and operator in the same surroundings.
func TestSoundInItsSurroundings(t *testing.T) {
	r := small()
	free := must(t, r)
	r.Room.Surroundings.Field = sound.HalfSpace
	half := must(t, r)
	if !near(half.Sound-free.Sound, 10*math.Log10(2), 1e-9) || !near(half.OperatorSound-free.OperatorSound, 10*math.Log10(2), 1e-9) {
		t.Errorf("a reflecting plane adds %g and %g dB", half.Sound-free.Sound, half.OperatorSound-free.OperatorSound)
	}
	r.Room.Surroundings.Field = sound.Room
	if s := must(t, r); !(s.Sound > half.Sound && s.NIOSHDose >= half.NIOSHDose) {
		t.Errorf("%g dB(A) in a room, %g over a plane", s.Sound, half.Sound)
	}
	// Nothing said of the operator: as far as the listener, for a working day.
	r.Room.OperatorDistance, r.Room.Session = 0, 0
	r.Fans.Fan.RatedSound = 100
	s := must(t, r)
	if s.OperatorSound != s.Sound || !near(s.DailyExposure, s.Sound, 1e-12) || !near(s.NIOSHDose, 8*3600/s.ExposureLimit, 1e-12) {
		t.Errorf("operator %g dB(A), listener %g, daily %g", s.OperatorSound, s.Sound, s.DailyExposure)
	}
	r.Room.Session = 2 * 3600
	if s := must(t, r); !near(s.DailyExposure, s.OperatorSound-6.0206, 1e-6) {
		t.Errorf("%g dB(A) for two hours make %g dB(A) over eight", s.OperatorSound, s.DailyExposure)
	}
	r.Room.Surroundings.Directivity = 3
	if _, err := model.Evaluate(r); err == nil {
		t.Error("a directivity of 3 passes")
	}
}

// reserveOf returns, of a rig in push, by how much its core's friction may grow at a share
// of free-air flow until the fans just meet it there: a correction, from the published
// pieces.
func reserveOf(t *testing.T, r *model.Rig) func(share float64) float64 {
	t.Helper()
	c, err := core.New(r.Core)
	if err != nil {
		t.Fatal(err)
	}
	room, err := air.NewAtmosphere(r.Room.Temperature, r.Room.Altitude, r.Room.Humidity)
	if err != nil {
		t.Fatal(err)
	}
	density := room.Density(r.Room.Temperature)
	return func(share float64) float64 {
		m := share * r.Fans.FreeFlow(r.Speed) * density
		capacity := m * room.SpecificHeat()
		inlet := r.Room.Temperature + drawn(r, share, density).Heat/capacity
		outlet := inlet + (r.Heat.Load+r.Heat.PumpPower)/capacity
		drop := c.PressureDrop(m, room.Density(inlet), room.Density(outlet), room.Viscosity((inlet+outlet)/2))
		return r.Fans.Pressure(r.Speed, m/density, density)/drop - 1
	}
}

// The last friction at which the fan still runs right of its valley is where the curve
// just touches the core's resistance: an ever narrower pair of balances that must not
// be stepped over.
func TestTouchOfTheSaddleIsFound(t *testing.T) {
	r := saddled(t)
	r.Speed = 150
	r.Core.FinDepth = 0.12
	reserve, stall := reserveOf(t, &r), r.Fans.Fan.Stall()
	// Least friction that the curve cannot reach, as a correction.
	touch := math.Inf(-1)
	for i := range 200001 {
		share := stall.Deep + (stall.Onset-stall.Deep)*float64(i)/200000
		touch = math.Max(touch, reserve(share))
	}
	for _, short := range []float64{1e-2, 1e-3, 1e-4, 1e-5, 1e-6, 1e-8} {
		r.Correction.AirFriction = (1+touch)*(1-short) - 1
		if s := must(t, r); s.FreeFlowShare < stall.Deep {
			t.Errorf("%g short of the touch the fan is said to run at %g of free air, left of the saddle", short, s.FreeFlowShare)
		}
		r.Correction.AirFriction = (1+touch)*(1+short) - 1
		if s := must(t, r); s.FreeFlowShare > stall.Deep {
			t.Errorf("%g beyond the touch the fan is said to run at %g of free air", short, s.FreeFlowShare)
		}
	}
}

// A saddle that dips ever so little below the core's resistance has a place where the fan
// may hang: it must not be stepped over either.
func TestShallowDipOfTheSaddleIsFound(t *testing.T) {
	r := saddled(t)
	r.Speed = 150
	r.Core.FinDepth = 0.06
	reserve, stall := reserveOf(t, &r), r.Fans.Fan.Stall()
	// Greatest friction that leaves the whole saddle above the core, as a correction.
	touch := math.Inf(1)
	for i := range 200001 {
		share := stall.Deep - 0.05 + (stall.Onset-stall.Deep+0.05)*float64(i)/200000
		touch = math.Min(touch, reserve(share))
	}
	for _, off := range []float64{1e-2, 1e-3, 1e-4, 1e-5, 1e-6, 1e-8} {
		r.Correction.AirFriction = (1+touch)*(1+off) - 1
		if s := must(t, r); s.HangingAirflow == 0 || s.FreeFlowShare < stall.Onset {
			t.Errorf("%g beyond the touch the fan runs at %g of free air and may hang at %g m³/s", off, s.FreeFlowShare, s.HangingAirflow)
		}
		r.Correction.AirFriction = (1+touch)*(1-off) - 1
		if s := must(t, r); s.HangingAirflow != 0 {
			t.Errorf("%g short of the touch the fan is said to hang at %g m³/s", off, s.HangingAirflow)
		}
	}
}

// The fans' air power is what the air gets: pressure times flow through the core where
// nothing else is lost, of all fans, also where a wall covers a part of their discs.
func TestAirPowerIsPressureTimesFlow(t *testing.T) {
	two, blocked := large(), improvised()
	blocked.Core.FaceLength, blocked.Core.FaceWidth = 0.1, 0.1
	for name, r := range map[string]model.Rig{"one": small(), "two": two, "blocked": blocked} {
		r.Placing, r.Installed.GrilleLoss, r.Installed.Leakage = fan.Push, 0, 0
		s := must(t, r)
		if want := s.CorePressureDrop * s.Airflow; !near(s.AirPower, want, 1e-9) {
			t.Errorf("%s: %g W, pressure times flow is %g W", name, s.AirPower, want)
		}
	}
}

// A shroud before the core stands in cool air and is bolted to the core all the same.
func TestShroudsAreAsHotAsTheirCore(t *testing.T) {
	for _, placing := range []fan.Placing{fan.Push, fan.Pull, fan.PushPull} {
		r := small()
		r.Placing, r.Speed, r.Heat.Load, r.Build = placing, 30, 250, hazard.Build{Shroud: hazard.PrintedPLA, Improvised: true}
		s := must(t, r)
		if s.CoreAirTemperature > 318 || s.AirOutletTemperature < 330 {
			t.Fatalf("air from %g to %g K", s.CoreAirTemperature, s.AirOutletTemperature)
		}
		if !model.Cautions(&r, r.Speed, &s)[hazard.ShroudSoftens].Holds {
			t.Errorf("%v: a softening shroud is not told of", placing)
		}
	}
}
