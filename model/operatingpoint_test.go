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
		const steps = 80 * scanSteps
		step := (most - least) / steps
		var stable []float64
		last := 0.0
		for i := range steps + 1 {
			m := least + float64(i)*step
			var s stream
			p.streamAt(&s, 150, m)
			e := p.pressure(&s) - s.resistance
			if i > 0 && last > 0 && e <= 0 {
				stable = append(stable, m)
			}
			last = e
		}
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
