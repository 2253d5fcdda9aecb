package model

import (
	"math"
	"math/rand/v2"
	"testing"

	"finduel/model/coolant"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/sound"
)

// Random curves with saddles and humps, in every placing, with fans standing still, leaks
// and shrouds: what airStream returns is held against a scan eighty times finer.
func TestOperatingPointIsTheHighestBalance(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 12))
	between := func(low, high float64) float64 { return low + (high-low)*random.Float64() }
	several, stopped, three, none := 0, 0, 0, 0
	for range 1500 {
		points := []fan.CurvePoint{{Flow: 0, Pressure: between(200, 500)}}
		for i := 1; i < 7; i++ {
			points = append(points, fan.CurvePoint{Flow: 0.01 * (float64(i) + between(-0.3, 0.3)), Pressure: between(60, 400)})
		}
		points = append(points, fan.CurvePoint{Flow: 0.08, Pressure: 0})
		curve, rating, err := fan.NewCurve(points)
		if err != nil {
			t.Fatal(err)
		}
		f := fan.Typical()
		f.Curve, f.FreeAirFlow, f.ShutOffPressure = curve, rating.FreeAirFlow, rating.ShutOffPressure
		f.RatedSpeed, f.RatedPower, f.RatedSound, f.TopSpeed = 150, 60*math.Pow(100, random.Float64()), 60, 300 // up to what heats the air more than the load
		g := core.TypicalGeometry(core.Copper, core.Louvered)
		g.FaceLength, g.FaceWidth, g.FinDepth, g.FinDensity = 0.1, 0.1, between(0.02, 0.2), 16/0.0254
		count := 1 + random.IntN(3)
		p, err := Prepare(Rig{
			Room: Room{Temperature: 295, Humidity: 0.4, ListenerDistance: 1, Surroundings: sound.TypicalSurroundings()},
			Heat: Heat{Load: 150}, Coolant: Coolant{Liquid: coolant.Liquid{Fluid: coolant.Water}, Flow: 5e-5},
			Core: g, Fans: fan.Bank{Fan: f, Count: count, Stopped: random.IntN(count)}, Placing: fan.Placing(random.IntN(3)), Speed: 150,
			Installed: Installed{Leakage: between(0, 0.2), GrilleLoss: between(0, 5), Shroud: Shroud(random.IntN(3))},
		})
		if err != nil {
			t.Fatal(err)
		}
		least, most := p.leastFlow(150), p.behind.FreeFlow(150)*p.room*p.share
		stable, step := stableFlows(&p, 150, least, most)
		var s stream
		err = p.airStream(&s, 150, &hint{})
		if len(stable) == 0 {
			none++
			if err == nil && s.massFlow < most-step {
				t.Errorf("%v: a balance at %g kg/s where the scan has none", p.rig.Placing, s.massFlow)
			}
			continue
		}
		if err != nil {
			t.Errorf("%v, %d of %d standing: %v, the scan has %v", p.rig.Placing, p.rig.Fans.Stopped, count, err, stable)
			continue
		}
		if top := stable[len(stable)-1]; math.Abs(s.massFlow-top) > 1.01*step {
			t.Errorf("%v, %d of %d standing: %g kg/s, the scan's highest of %v", p.rig.Placing, p.rig.Fans.Stopped, count, s.massFlow, stable)
		}
		if len(stable) > 1 {
			several++
			if p.rig.Fans.Stopped > 0 {
				stopped++
			}
			if len(stable) > 2 {
				three++
			}
			// What the scan has it has too; a hump that the scan steps over is another.
			if n := len(s.hanging); n < len(stable)-1 || n == len(stable)-1 && !nearest(s.hanging, stable, 1.01*step) {
				t.Errorf("%v, %d of %d standing: hangs at %g kg/s, the scan has %v", p.rig.Placing, p.rig.Fans.Stopped, count, s.hanging, stable)
			}
		} else if len(s.hanging) > 0 && math.Abs(s.hanging[0]-s.massFlow) < 2*step {
			t.Errorf("%v: hangs at %g kg/s, where it runs", p.rig.Placing, s.hanging)
		}
	}
	if several < 50 || stopped < 10 || three < 3 {
		t.Errorf("%d rigs with several balances, %d of them with a fan standing still, %d with three, %d with none", several, stopped, three, none)
	}
}

// stableFlows returns the mass flows, kg/s and rising, past which the fans are in balance with
// the core and stay so, to within a step, which it returns too.
func stableFlows(p *Ready, speed, least, most float64) (stable []float64, step float64) {
	const steps = 80 * scanSteps
	step = (most - least) / steps
	last := 0.0
	for i := range steps + 1 {
		m := least + float64(i)*step
		var s stream
		p.streamAt(&s, speed, m)
		e := p.pressure(&s) - s.resistance
		if i > 0 && last > 0 && e <= 0 {
			stable = append(stable, m)
		}
		last = e
	}
	return stable, step
}

// Fans before the core whose power was measured and that heat the air by tens of kelvin may be
// in balance with the core at several flows though their curve falls; before it alone, at
// one while they are too weak both below and above. A search ends at the highest even if it
// begins at another.
func TestOperatingPointIsTheHighestBalanceOfHotFans(t *testing.T) {
	random := rand.New(rand.NewPCG(13, 14))
	between := func(low, high float64) float64 { return low * math.Pow(high/low, random.Float64()) }
	several := map[fan.Placing]int{}
	for i := range 6000 {
		var points []fan.CurvePoint
		free, shutOff, power := between(0.02, 0.2), between(100, 3000), between(1000, 20000)
		for k := range 9 {
			x := float64(k) / 8
			points = append(points, fan.CurvePoint{Flow: free * x, Pressure: shutOff * (1 - x), Power: power * between(0.3, 3)})
		}
		curve, rating, err := fan.NewCurve(points)
		if err != nil {
			t.Fatal(err)
		}
		f := fan.Typical()
		f.Curve, f.FreeAirFlow, f.ShutOffPressure, f.RatedPower = curve, rating.FreeAirFlow, rating.ShutOffPressure, rating.Power
		f.RatedSpeed, f.RatedSound, f.TopSpeed = 150, 60, 300
		g := core.TypicalGeometry(core.Copper, core.Triangular)
		g.FaceLength, g.FaceWidth, g.FinDepth, g.FinDensity = 0.2, 0.1, between(0.02, 0.1), between(12, 40)/0.0254
		p, err := Prepare(Rig{
			Room: Room{Temperature: 295, Humidity: 0.4, ListenerDistance: 1}, Heat: Heat{Load: between(1, 30)},
			Coolant: Coolant{Liquid: coolant.Liquid{Fluid: coolant.Water}, Flow: 5e-5},
			Core:    g, Fans: fan.Bank{Fan: f, Count: 1}, Placing: []fan.Placing{fan.Push, fan.PushPull}[i%2], Speed: 150,
		})
		if err != nil {
			t.Fatal(err)
		}
		least, most := p.leastFlow(150), p.behind.FreeFlow(150)*p.room*p.share
		if most <= least {
			continue
		}
		stable, step := stableFlows(&p, 150, least, most)
		var s stream
		p.streamAt(&s, 150, least)
		if n := len(stable); n == 0 || n == 1 && p.pressure(&s) > s.resistance {
			continue
		}
		several[p.rig.Placing]++
		for _, m := range stable {
			var s stream
			err := p.airStream(&s, 150, &hint{flow: m / most, steep: 2})
			if top := stable[len(stable)-1]; err != nil || math.Abs(s.massFlow-top) > 1.01*step {
				t.Errorf("from %g kg/s: %g kg/s (%v), the scan's highest of %v", m, s.massFlow, err, stable)
			}
		}
	}
	if several[fan.Push] < 5 || several[fan.PushPull] < 5 {
		t.Errorf("%v rigs with several balances, or one between two places where the fans are too weak", several)
	}
}

// On a core so hot that the fans behind it breathe much more air than those before it, they
// may be past free air and brake while those before it are on a hump of their curve. A
// search ends at the highest balance even if it begins at another.
func TestOperatingPointIsTheHighestBalanceOnAHotCore(t *testing.T) {
	random := rand.New(rand.NewPCG(17, 18))
	between := func(low, high float64) float64 { return low + (high-low)*random.Float64() }
	several := 0
	for range 4000 {
		points := []fan.CurvePoint{{Flow: 0, Pressure: 500}}
		for i := 1; i < 10; i++ {
			points = append(points, fan.CurvePoint{Flow: 0.001 * (float64(i) + between(-0.4, 0.4)), Pressure: between(20, 500)})
		}
		points = append(points, fan.CurvePoint{Flow: 0.01, Pressure: 0})
		curve, rating, err := fan.NewCurve(points)
		if err != nil {
			t.Fatal(err)
		}
		f := fan.Typical()
		f.Curve, f.FreeAirFlow, f.ShutOffPressure = curve, rating.FreeAirFlow, rating.ShutOffPressure
		f.RatedSpeed, f.RatedPower, f.RatedSound, f.TopSpeed = 150, 5, 60, 300
		g := core.TypicalGeometry(core.Copper, core.Triangular)
		g.FaceLength, g.FaceWidth, g.FinDepth, g.FinDensity = 0.2, 0.1, between(0.02, 0.1), 25/0.0254
		p, err := Prepare(Rig{
			Room: Room{Temperature: 255, Humidity: 0.4, ListenerDistance: 1}, Heat: Heat{Load: between(300, 700)},
			Coolant: Coolant{Liquid: coolant.Liquid{Fluid: coolant.EthyleneGlycol, GlycolShare: 0.5}, Flow: 5e-5},
			Core:    g, Fans: fan.Bank{Fan: f, Count: 1}, Placing: fan.PushPull, Speed: 150,
		})
		if err != nil {
			t.Fatal(err)
		}
		least, most := p.leastFlow(150), p.behind.FreeFlow(150)*p.room*p.share
		stable, step := stableFlows(&p, 150, least, most)
		if len(stable) < 2 {
			continue
		}
		several++
		for _, m := range stable {
			var s stream
			err := p.airStream(&s, 150, &hint{flow: m / most, steep: 2})
			if top := stable[len(stable)-1]; err != nil || math.Abs(s.massFlow-top) > 1.01*step {
				t.Errorf("from %g kg/s: %g kg/s (%v), the scan's highest of %v", m, s.massFlow, err, stable)
			}
		}
	}
	if several < 3 {
		t.Errorf("%d rigs with several balances", several)
	}
}

// Up to the flow at which the resistance is known it is no more than farApart above what the
// root of the flow makes of it: every surface, dense and open cores, cold rooms and hot
// ones, in all placings. No source: it is what the search for balances takes for granted.
func TestResistanceGrowsWithTheRootOfTheFlow(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 16))
	between := func(low, high float64) float64 { return low * math.Pow(high/low, random.Float64()) }
	surfaces, rigs := core.Surfaces(), 0
	for i := range 3000 {
		g := core.TypicalGeometry(core.Copper, surfaces[i%len(surfaces)])
		g.FaceLength, g.FaceWidth, g.FinDepth, g.FinDensity = between(0.04, 0.6), between(0.04, 0.4), between(0.01, 0.12), between(220, 1600)
		f := fan.Typical()
		f.RatedSpeed, f.RatedSound, f.TopSpeed = 100, 60, 300
		f.FreeAirFlow, f.ShutOffPressure, f.RatedPower = between(0.0005, 0.3), between(10, 2000), between(1, 300)
		p, err := Prepare(Rig{
			Room: Room{Temperature: 253 + 90*random.Float64(), Humidity: 0.4, ListenerDistance: 1}, Heat: Heat{Load: between(1, 3000)},
			Coolant: Coolant{Liquid: coolant.Liquid{Fluid: coolant.Water}, Flow: 5e-5},
			Core:    g, Fans: fan.Bank{Fan: f, Count: 1}, Placing: fan.Placing(random.IntN(3)), Speed: 100,
		})
		if err != nil {
			t.Fatal(err)
		}
		least, most := p.leastFlow(100), p.behind.FreeFlow(100)*p.room*p.share
		if most <= least {
			continue
		}
		rigs++
		steepest := 0.0
		for i := range 101 {
			var s stream
			m := least * math.Pow(most/least, float64(i)/100)
			p.streamAt(&s, 100, m)
			here := s.resistance / math.Sqrt(m)
			steepest = max(steepest, here)
			if steepest > (1+farApart)*here {
				t.Fatalf("%v, %v, %g kg/s: less flow has a resistance %g times as great as the root says", g.Surface, p.rig.Placing, m, steepest/here)
			}
		}
	}
	if rigs < 500 {
		t.Errorf("%d rigs", rigs)
	}
}

// nearest reports whether where fans may hang, falling, are the rising balances but the
// last, to within a distance.
func nearest(hanging, stable []float64, within float64) bool {
	for i, m := range hanging {
		if math.Abs(m-stable[len(stable)-2-i]) > within {
			return false
		}
	}
	return true
}

// Fans that stand still stand before the core: in push-pull all of those behind it turn.
func TestTurningFansShareTheSupply(t *testing.T) {
	r := Rig{Fans: fan.Bank{Count: 3, Stopped: 2}}
	for placing, want := range map[fan.Placing]int{fan.Push: 1, fan.Pull: 1, fan.PushPull: 4} {
		if r.Placing = placing; r.turning() != want {
			t.Errorf("%v: %d fans turn, want %d", placing, r.turning(), want)
		}
	}
}
