package model_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/pump"
	"finduel/model/quantity"
	"finduel/model/sound"
)

// small and large are two invented rigs: a dense little core with a fierce fan,
// and a wide one with two calm fans. Their pump stands by: the coolant flow is given.
func small() model.Rig {
	g := core.TypicalGeometry(core.Copper, core.Louvered)
	g.FaceLength, g.FaceWidth, g.FinDepth, g.FinDensity = 0.092, 0.088, 0.034, 20/0.0254
	f := fan.Typical()
	f.RatedSpeed, f.FreeAirFlow, f.ShutOffPressure, f.RatedPower, f.RatedSound, f.TopSpeed = 150, 250./3600, 520, 38, 68, 20000./60
	return model.Rig{
		Room: model.Room{Temperature: 296.15, Altitude: 180, Humidity: 0.45, ListenerDistance: 1, OperatorDistance: 0.6, Session: 3600, Surroundings: sound.TypicalSurroundings()},
		Heat: model.Heat{Load: 210, PlateResistance: 0.045, PumpPower: 9},
		Coolant: model.Coolant{
			Liquid: coolant.Liquid{Fluid: coolant.Water}, Flow: 3.2 / 60000,
			Pump: pump.Pump{ShutOffPressure: 40e3, FreeFlow: 1100 / 3.6e6, CurveExponent: pump.TypicalExponent}, Loop: pump.TypicalLoop(),
		},
		Core: g, Fans: fan.Bank{Fan: f, Count: 1}, Placing: fan.Push, Speed: 100,
	}
}

func large() model.Rig {
	r := small()
	r.Core.FaceLength, r.Core.FaceWidth, r.Core.FinDepth, r.Core.FinDensity = 0.286, 0.134, 0.026, 11/0.0254
	f := fan.Typical()
	f.RatedSpeed, f.FreeAirFlow, f.ShutOffPressure, f.RatedPower, f.RatedSound, f.TopSpeed = 25, 150./3600, 17, 2.2, 23, 25
	r.Fans = fan.Bank{Fan: f, Count: 2}
	r.Speed = 800. / 60
	return r
}

// mixed is a rig with a glycol in its coolant.
func mixed(r model.Rig, fluid coolant.Fluid, share float64) model.Rig {
	r.Coolant.Liquid = coolant.Liquid{Fluid: fluid, GlycolShare: share}
	return r
}

// bases are the two rigs with each kind of coolant.
func bases() []model.Rig {
	return []model.Rig{small(), large(), mixed(small(), coolant.EthyleneGlycol, 0.3), mixed(large(), coolant.PropyleneGlycol, 0.5)}
}

// losses are the ways in which the rigs of the grid are installed.
var losses = []model.Installed{
	{},
	{GrilleLoss: 1.2},
	{Leakage: 0.2},
	{HubShadow: 0.15, Dust: 0.1},
	{GrilleLoss: 3, Leakage: 0.05, HubShadow: 0.3, Dust: 0.3},
}

// grid visits rigs over coolants, surfaces, placings, motors, passes, sizes, speeds
// and flows, and fails the test if fewer than a thousand of them have a state, or
// fewer than a hundred of any coolant, surface, arrangement or routing. Arrangements,
// routings and losses take turns. A flow of 0 is the pump's.
func grid(t *testing.T, visit func(t *testing.T, r model.Rig, s model.State)) {
	t.Helper()
	n, valid := 0, 0
	of := map[string]int{}
	for _, base := range bases() {
		for _, surface := range core.Surfaces() {
			for _, placing := range []fan.Placing{fan.Push, fan.Pull} {
				for _, motor := range []fan.Motor{fan.InStream, fan.Outside} {
					for _, passes := range []int{1, 2, 3, 4} {
						for _, share := range []float64{0.1, 0.3, 1, 2} {
							for _, flow := range []float64{0, 0.3, 1, 3} {
								r := base
								r.Core.Surface, r.Placing, r.Fans.Fan.Motor, r.Core.Passes = surface, placing, motor, passes
								r.Core.Arrangement, r.Core.Routing = core.Arrangement(n%5), core.Routing(n/5%2)
								r.Installed = losses[n%7%len(losses)]
								if n%3 == 0 { // some of the rigs are stacks
									r.Core.Further, r.Core.Feed = passes-1, core.Feed(n/3%2)
								}
								n++
								r.Speed *= share
								r.Coolant.Flow *= flow
								s, err := model.Evaluate(r)
								if errors.Is(err, model.ErrBoils) {
									continue
								}
								if err != nil {
									t.Fatalf("%+v: %v", r, err)
								}
								valid++
								of[r.Coolant.Liquid.Fluid.String()]++
								of[surface.String()]++
								of[r.Core.Arrangement.String()]++
								of[r.Core.Routing.String()]++
								visit(t, r, s)
							}
						}
					}
				}
			}
		}
	}
	if valid < 1000 {
		t.Fatalf("only %d rigs of the grid have a state", valid)
	}
	if len(of) != 14 {
		t.Fatalf("not all surfaces, arrangements and routings have a state: %v", of)
	}
	for what, n := range of {
		if n < 100 {
			t.Fatalf("only %d rigs with %s have a state", n, what)
		}
	}
}

func near(got, want, tolerance float64) bool {
	if math.IsNaN(got) || math.IsNaN(want) {
		return math.IsNaN(got) && math.IsNaN(want)
	}
	return math.Abs(got-want) <= tolerance*math.Max(math.Abs(got), math.Abs(want))
}

// The doubt of a state is that of its core at its Reynolds number.
func TestDoubtIsThatOfTheCore(t *testing.T) {
	grid(t, func(t *testing.T, r model.Rig, s model.State) {
		c, err := core.New(r.Core)
		if err != nil {
			t.Fatal(err)
		}
		if want := c.Doubt(s.AirReynolds); s.Doubt != want || want == (core.Doubt{}) {
			t.Errorf("doubt %+v, the core has %+v: %+v", s.Doubt, want, r)
		}
	})
}

// Another arrangement changes nothing but what the core makes of its conductance;
// passes behind one another bring the air nearer to the coolant's inlet than passes
// side by side where the tubes' film counts little.
func TestArrangementsInARig(t *testing.T) {
	least := must(t, large())
	for _, a := range core.Arrangements() {
		r := large()
		r.Core.Arrangement = a
		s := must(t, r)
		if s.Airflow != least.Airflow || !near(s.CoreConductance, least.CoreConductance, 0.01) {
			t.Errorf("%v: airflow %v, UA %v; both unmixed %v, %v", a, s.Airflow, s.CoreConductance, least.Airflow, least.CoreConductance)
		}
		if worse := s.Effectiveness < least.Effectiveness; a != core.BothUnmixed && worse == (a == core.Counterflow) {
			t.Errorf("%v: effectiveness %v, both unmixed %v", a, s.Effectiveness, least.Effectiveness)
		}
	}
	r := large()
	r.Coolant.Flow = 0.8 / 60000
	side := must(t, r)
	r.Core.Routing = core.CrossCounterflow
	if behind := must(t, r); !(behind.Effectiveness > side.Effectiveness) {
		t.Errorf("little coolant: effectiveness %v behind one another, %v side by side", behind.Effectiveness, side.Effectiveness)
	}
}

// What leaves the chip and the pump must enter the air: the same heat by load, by
// air, by coolant and by effectiveness.
func TestHeatBalanceCloses(t *testing.T) {
	grid(t, func(t *testing.T, r model.Rig, s model.State) {
		heat := r.Heat.Load + r.Heat.PumpPower
		least := s.CoreConductance / s.NTU
		for what, q := range map[string]float64{
			"air":           s.AirCapacity * (s.AirOutletTemperature - s.CoreAirTemperature),
			"effectiveness": s.Effectiveness * least * (s.CoolantInletTemperature - s.CoreAirTemperature),
			"conductance":   s.Conductance * s.CoolantOverAir,
			"stated":        s.HeatRejected,
		} {
			if !near(q, heat, 1e-9) {
				t.Errorf("heat by %s is %v W, load and pump %v W: %+v", what, q, heat, r)
			}
		}
		// The larger capacity rate is the smaller over the ratio.
		coolantCapacity := least / s.CapacityRatio
		if near(coolantCapacity, s.AirCapacity, 1e-12) {
			coolantCapacity = least
		}
		if q := coolantCapacity * (s.CoolantInletTemperature - s.CoolantOutletTemperature); !near(q, heat, 1e-9) {
			t.Errorf("heat by coolant is %v W, load and pump %v W: %+v", q, heat, r)
		}
	})
}

func TestBudgetAddsUp(t *testing.T) {
	grid(t, func(t *testing.T, r model.Rig, s model.State) {
		if !near(s.Budget.Sum(), s.CoolantOverAir, 1e-9) {
			t.Errorf("budget %v K, coolant over air %v K: %+v", s.Budget.Sum(), s.CoolantOverAir, r)
		}
		for _, key := range model.BudgetTerms {
			o, _ := model.OutputOf(key)
			if v := o.Get(&s); v < 0 {
				t.Errorf("%s is %v K: %+v", key, v, r)
			}
		}
		if r.Placing == fan.Pull && s.Budget.FanHeat != 0 {
			t.Errorf("fan heat %v K before the core in pull", s.Budget.FanHeat)
		}
	})
}

// Fan heat is the steady-flow energy balance: ΔT = P/(ṁ·cp), all electrical power
// if the motor sits in the stream, in all the air that the fans move.
func TestFanHeatIsPowerOverCapacity(t *testing.T) {
	grid(t, func(t *testing.T, r model.Rig, s model.State) {
		if r.Placing != fan.Push {
			return
		}
		power := s.FanPower
		if r.Fans.Fan.Motor == fan.Outside {
			power *= r.Fans.Fan.MotorEfficiency
		}
		if want := power / (s.AirCapacity / (1 - r.Installed.Leakage)); !near(s.Budget.FanHeat, want, 1e-9) {
			t.Errorf("fan heat %v K, power over capacity rate %v K: %+v", s.Budget.FanHeat, want, r)
		}
	})
}

// Second law and definitions: no stream leaves hotter than what heats it, nothing
// conducts more than the air can carry.
func TestTemperaturesKeepTheirOrder(t *testing.T) {
	grid(t, func(t *testing.T, r model.Rig, s model.State) {
		switch {
		case s.AirOutletTemperature >= s.CoolantInletTemperature,
			s.CoolantOutletTemperature <= s.CoreAirTemperature,
			s.CoolantOutletTemperature >= s.CoolantInletTemperature,
			s.Effectiveness <= 0 || s.Effectiveness >= 1,
			s.Conductance >= s.AirCapacity,
			s.FreeFlowShare <= 0 || s.FreeFlowShare >= 1:
			t.Errorf("out of order: %+v for %+v", s, r)
		}
		mean := (s.CoolantInletTemperature+s.CoolantOutletTemperature)/2 - r.Room.Temperature
		if !near(mean, s.CoolantMeanOverAir, 1e-12) {
			t.Errorf("mean coolant over air %v K, of the two temperatures %v K", s.CoolantMeanOverAir, mean)
		}
		for _, o := range model.Outputs {
			unknown := false
			switch o.Key {
			case "hanging_airflow":
				unknown = s.HangingAirflow == 0
			case "blade_passing_frequency":
				unknown = s.BladePassing == 0
			case "highest_hanging_airflow":
				unknown = s.HighestHanging == 0
			case "stall_onset", "stall_margin":
				unknown = s.StallOnset == 0
			case "throttle", "motor_voltage", "motor_current":
				unknown = r.Fans.Fan.Brushless.SpeedConstant == 0
			case "wire_drop":
				unknown = r.Build.Area() == 0
			}
			if v := o.Get(&s); math.IsInf(v, 0) || math.IsNaN(v) != unknown {
				t.Errorf("%s is %v: %+v", o.Key, v, r)
			}
		}
	})
}

// The operating point is where the fan's curve meets core and grille. The fans move
// what leaks past the core too; in pull they breathe it mixed with the core's air.
func TestFansMeetTheCore(t *testing.T) {
	grid(t, func(t *testing.T, r model.Rig, s model.State) {
		room := s.AirMassFlow / s.Airflow
		density, all := room, s.AirMassFlow/(1-r.Installed.Leakage)
		if r.Placing == fan.Pull {
			mixed := (s.AirMassFlow*s.AirOutletTemperature + (all-s.AirMassFlow)*r.Room.Temperature) / all
			density *= r.Room.Temperature / mixed
		}
		grille := r.Installed.GrilleLoss * room * s.FaceVelocity * s.FaceVelocity / 2
		if p := r.Fans.Pressure(r.Speed, all/density, density); !near(p, s.CorePressureDrop+grille, 1e-6) {
			t.Errorf("fans make %v Pa, core and grille take %v and %v Pa: %+v", p, s.CorePressureDrop, grille, r)
		}
		if share := all / density / r.Fans.FreeFlow(r.Speed); !near(share, s.FreeFlowShare, 1e-9) {
			t.Errorf("the fans move %v of their free-air flow, stated %v: %+v", share, s.FreeFlowShare, r)
		}
	})
}

// More speed moves more air and conducts more heat: with the fans' heat carried
// off behind the core (pull), coolant over air falls at every step. The core's own
// UA rises with airflow once the films are at comparable temperatures; where little
// air makes the coolant hot and thin, its film gains more than the air's loses.
func TestMoreSpeedMoreAirLessOverAir(t *testing.T) {
	for _, base := range bases() {
		base.Placing = fan.Pull
		var before model.State
		points := 0
		for share := 0.2; share < 3; share *= 1.07 {
			r := base
			r.Speed *= share
			s, err := model.Evaluate(r)
			if errors.Is(err, model.ErrBoils) {
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			if points > 0 && (s.Airflow <= before.Airflow || s.Conductance <= before.Conductance || s.CoolantOverAir >= before.CoolantOverAir) {
				t.Errorf("at %v rpm: airflow %v after %v, conductance %v after %v, coolant over air %v after %v", r.Speed*60,
					s.Airflow, before.Airflow, s.Conductance, before.Conductance, s.CoolantOverAir, before.CoolantOverAir)
			}
			before = s
			points++
		}
		if points < 20 {
			t.Fatalf("only %d points", points)
		}
	}
}

// In push, a fierce fan's own heat grows with the square of its speed and wins:
// coolant over air has a least value inside the range.
func TestPushHasABestSpeed(t *testing.T) {
	r := small()
	var values []float64
	for rpm := 2000.; rpm <= 40000; rpm *= 1.1 {
		r.Speed = rpm / 60
		s, err := model.Evaluate(r)
		if err != nil {
			t.Fatal(err)
		}
		values = append(values, s.CoolantOverAir)
	}
	least, turns := 0, 0
	for i, v := range values {
		if v < values[least] {
			least = i
		}
		if i > 1 && (values[i-1] < values[i-2]) != (v < values[i-1]) {
			turns++
		}
	}
	if least == 0 || least == len(values)-1 || turns != 1 {
		t.Errorf("no single interior minimum: %v", values)
	}
}

// With equal air through the core, taking the fans' heat behind it can only help.
// With equal fans it helps where they are fierce; calm fans lose a little in pull
// instead, since they breathe the warmer, thinner air behind the core.
func TestPullAgainstPush(t *testing.T) {
	r := small()
	r.Speed = 300
	push := must(t, r)
	r.Placing = fan.Pull
	pull := must(t, r)
	if pull.CoolantOverAir > push.CoolantOverAir {
		t.Errorf("fierce fans: pull %v K, push %v K", pull.CoolantOverAir, push.CoolantOverAir)
	}
	// The fan heat is exactly what separates the two at the same airflow: find the
	// pull speed that moves push's air.
	for range 60 {
		s := must(t, r)
		if near(s.AirMassFlow, push.AirMassFlow, 1e-13) {
			break
		}
		r.Speed *= push.AirMassFlow / s.AirMassFlow
	}
	pull = must(t, r)
	gain := push.CoolantOverAir - pull.CoolantOverAir
	if pull.CoolantOverAir > push.CoolantOverAir || math.Abs(gain-push.Budget.FanHeat) > 0.05*push.Budget.FanHeat {
		t.Errorf("at equal air pull gains %v K, fan heat is %v K", gain, push.Budget.FanHeat)
	}
}

func must(t *testing.T, r model.Rig) model.State {
	t.Helper()
	s, err := model.Evaluate(r)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestLimits(t *testing.T) {
	t.Run("a huge calm core leaves the air as warm as the coolant enters", func(t *testing.T) {
		r := large()
		r.Core.FaceLength, r.Core.FaceWidth = 3, 3
		r.Core.FinDepth = 0.05
		r.Coolant.Flow *= 20
		s := must(t, r)
		if s.Conductance/s.AirCapacity < 0.99 || !s.Warnings.Has(model.CapacityLimited) {
			t.Errorf("conductance %v W/K, air capacity %v W/K, warnings %q", s.Conductance, s.AirCapacity, s.Warnings.Keys())
		}
	})
	t.Run("endless fin conductivity leaves no fin term", func(t *testing.T) {
		r := small()
		r.Core.FinConductivity = 1e9
		if s := must(t, r); s.Budget.Fin > 1e-5 {
			t.Errorf("fin term %v K", s.Budget.Fin)
		}
	})
	t.Run("no pump heat leaves no pump term", func(t *testing.T) {
		r := small()
		r.Heat.PumpPower = 0
		if s := must(t, r); s.Budget.PumpHeat != 0 {
			t.Errorf("pump term %v K", s.Budget.PumpHeat)
		}
	})
	t.Run("a fan that barely turns boils the coolant", func(t *testing.T) {
		r := small()
		r.Speed = 0.01
		if _, err := model.Evaluate(r); !errors.Is(err, model.ErrBoils) {
			t.Errorf("got %v", err)
		}
	})
	t.Run("vanishing load leaves the fan heat alone", func(t *testing.T) {
		r := small()
		r.Heat.Load, r.Heat.PumpPower = 1e-6, 0
		if s := must(t, r); !near(s.CoolantOverAir, s.Budget.FanHeat, 1e-5) {
			t.Errorf("coolant over air %v K, fan heat %v K", s.CoolantOverAir, s.Budget.FanHeat)
		}
	})
}

// Twice the face with twice the fans, coolant and heat is two rigs side by side.
func TestTwoRigsSideBySideAreOneTwiceAsWide(t *testing.T) {
	one := large()
	two := one
	two.Core.FaceWidth *= 2
	two.Fans.Count *= 2
	two.Coolant.Flow *= 2
	two.Heat.Load *= 2
	two.Heat.PumpPower *= 2
	a, b := must(t, one), must(t, two)
	if !near(a.CoolantOverAir, b.CoolantOverAir, 1e-9) || !near(2*a.Conductance, b.Conductance, 1e-9) || !near(2*a.Airflow, b.Airflow, 1e-9) {
		t.Errorf("one: %v K %v W/K; two: %v K %v W/K", a.CoolantOverAir, a.Conductance, b.CoolantOverAir, b.Conductance)
	}
}

func TestImpossibleRigsAreRefusedWithEveryReason(t *testing.T) {
	r := small()
	r.Core.FinThickness = 0.01
	r.Heat.Load = math.NaN()
	r.Coolant.Flow = -1
	r.Coolant.Liquid.GlycolShare = 0.3
	r.Installed = model.Installed{GrilleLoss: -1, Leakage: 0.91, HubShadow: -0.01, Dust: math.NaN()}
	_, err := model.Evaluate(r)
	got := fmt.Sprint(err)
	for _, key := range []string{"fin_thickness", "heat_load", "coolant_flow", "glycol_share", "grille_loss", "leakage", "hub_shadow", "dust"} {
		found := false
		for _, e := range unwrap(err) {
			var re *quantity.RangeError
			found = found || errors.As(e, &re) && re.Key == key
		}
		if !found {
			t.Errorf("no word of %s in: %s", key, got)
		}
	}
	for _, speed := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		r := small()
		r.Speed = speed
		if _, err := model.Evaluate(r); err == nil {
			t.Errorf("speed %v is accepted", speed)
		}
	}
}

// unwrap returns the errors joined in err, all of them.
func unwrap(err error) []error {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, e := range joined.Unwrap() {
			all = append(all, unwrap(e)...)
		}
		return all
	}
	return []error{err}
}

func TestEvaluateDoesNotAllocate(t *testing.T) {
	pumped := small()
	pumped.Coolant.Flow = 0
	for _, r := range append(bases(), pumped) {
		if n := testing.AllocsPerRun(100, func() { model.Evaluate(r) }); n != 0 {
			t.Errorf("%v allocations a point with %v", n, r.Coolant.Liquid.Fluid)
		}
	}
}

// A rig asked at several speeds gives what it gives alone.
func TestReadyAnswersAsEvaluate(t *testing.T) {
	r := small()
	ready, err := model.Prepare(r)
	if err != nil {
		t.Fatal(err)
	}
	for _, speed := range []float64{40, 200, 90} {
		r.Speed = speed
		got, err := ready.At(speed)
		if err != nil {
			t.Fatal(err)
		}
		if want := must(t, r); got != want {
			t.Errorf("at %v: %+v, alone %+v", speed, got, want)
		}
	}
}

func TestEveryInputIsGotAsSet(t *testing.T) {
	for _, in := range model.Inputs {
		r := small()
		v := in.Get(&r)
		if in.Key == "rotor_diameter" {
			v = 0.1
		}
		if err := in.Check(v); err != nil {
			t.Errorf("%s: the value of a plain rig is refused: %v", in.Key, err)
		}
		if in.Whole {
			v++
		} else {
			v *= 1.1
		}
		in.Set(&r, v)
		if got := in.Get(&r); !near(got, v, 1e-12) {
			t.Errorf("%s: set %v, got %v", in.Key, v, got)
		}
		for _, bad := range []float64{math.NaN(), math.Inf(1), in.High * 1.01, in.Low - 1} {
			if in.Check(bad) == nil {
				t.Errorf("%s: %v is accepted", in.Key, bad)
			}
		}
	}
}

func BenchmarkEvaluate(b *testing.B) {
	pumped := small()
	pumped.Coolant.Flow = 0
	strips, folds := small(), small()
	strips.Core.Surface, folds.Core.Surface = core.OffsetStrip, core.Triangular
	for name, r := range map[string]model.Rig{"louvered": small(), "quiet": large(), "glycol": mixed(small(), coolant.EthyleneGlycol, 0.3), "pumped": pumped, "strips": strips, "folds": folds} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := model.Evaluate(r); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
