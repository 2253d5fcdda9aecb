package model_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"finduel/model"
	"finduel/model/core"
	"finduel/model/fan"
)

// walks are speeds in the orders in which they may be asked for, over the rig's own.
func walks() map[string][]float64 {
	orders := map[string][]float64{"coarse": {0.2, 0.5, 1, 2}, "repeated": {1, 1, 1, 1.1, 1.1, 0.9, 1.1, 1}, "close": {1, 1 + 1e-8, 1 + 2e-8, 1 + 3e-8, 1.0024, 1.8, 1.8 + 1e-5, 1.8 + 2e-5, 0.3}}
	random := rand.New(rand.NewPCG(5, 6))
	for i := range 200 {
		orders["fine"] = append(orders["fine"], 0.05*math.Pow(60, float64(i)/199))
		orders["even"] = append(orders["even"], 0.05+0.01*float64(i))
		orders["falling"] = append(orders["falling"], 2-0.009*float64(i))
		orders["random"] = append(orders["random"], 0.05+2*random.Float64())
	}
	return orders
}

// withSaddle is a rig with a fan whose curve was measured and has a saddle.
func withSaddle(t testing.TB) model.Rig {
	curve, rating, err := fan.NewCurve([]fan.CurvePoint{
		{Flow: 0, Pressure: 520}, {Flow: 0.02, Pressure: 380}, {Flow: 0.035, Pressure: 420}, {Flow: 0.055, Pressure: 210}, {Flow: 0.07, Pressure: 0}})
	if err != nil {
		t.Fatal(err)
	}
	r := small()
	f := &r.Fans.Fan
	f.Curve, f.FreeAirFlow, f.ShutOffPressure = curve, rating.FreeAirFlow, rating.ShutOffPressure
	return r
}

// A state that is walked to is that of a search from scratch: every output, in every
// order of speeds, past speeds at which there is none.
func TestWalkAnswersAsASearchFromScratch(t *testing.T) {
	var rigs []model.Rig
	for _, r := range bases() {
		for _, surface := range core.Surfaces() {
			for _, placing := range []fan.Placing{fan.Push, fan.Pull, fan.PushPull} {
				r.Core.Surface, r.Placing = surface, placing
				r.Installed = losses[len(rigs)%len(losses)]
				rigs = append(rigs, r)
			}
		}
	}
	pumped, standing, curved, dense, open := small(), large(), small(), small(), small()
	pumped.Coolant.Flow = 0
	standing.Fans.Stopped = 1
	curved.Fans.Fan.CurveExponent = 1.7
	dense.Core.FinDepth, dense.Core.FinDensity, dense.Coolant.Flow = 0.18, 34/0.0254, 1e-6
	open.Core.FaceLength, open.Core.FaceWidth, open.Core.FinDensity = 0.5, 0.5, 8/0.0254
	rigs = append(rigs, dense, open, withSaddle(t), pumped, standing, curved)

	states, without := 0, 0
	for i, r := range rigs {
		ready, err := model.Prepare(r)
		if err != nil {
			t.Fatal(err)
		}
		for name, speeds := range walks() {
			walk := ready.Walk()
			for _, share := range speeds {
				speed := share * r.Speed
				var got model.State
				err := walk.To(speed, &got)
				want, wantErr := ready.At(speed)
				if (err == nil) != (wantErr == nil) || err != nil && err.Error() != wantErr.Error() {
					t.Fatalf("rig %d, %s, speed %g: %v, from scratch %v", i, name, speed, err, wantErr)
				}
				if err != nil {
					without++
					continue
				}
				states++
				if got.Warnings != want.Warnings {
					t.Fatalf("rig %d, %s, speed %g: warnings %v, from scratch %v", i, name, speed, got.Warnings, want.Warnings)
				}
				for _, o := range model.Outputs {
					// Levels, what is left to stall and what stall adds pass through zero.
					scale := map[string]float64{"stall_margin": 1, "stall_sound": 1, "sound": 10, "operator_sound": 10, "daily_exposure": 10}[o.Key]
					if g, w := o.Get(&got), o.Get(&want); !(math.Abs(g-w) <= 1e-9*math.Max(math.Abs(w), scale)) && !(math.IsNaN(g) && math.IsNaN(w)) {
						t.Errorf("rig %d, %s, speed %g: %s is %.15g, from scratch %.15g", i, name, speed, o.Key, g, w)
					}
				}
			}
		}
	}
	if states < 30000 || without < 1000 {
		t.Errorf("%d states, %d speeds without one", states, without)
	}
}

// After a speed without a state a walk begins anew.
func TestWalkBeginsAnewAfterAnError(t *testing.T) {
	ready, err := model.Prepare(small())
	if err != nil {
		t.Fatal(err)
	}
	walk := ready.Walk()
	var got, want model.State
	for _, speed := range []float64{100, 101, 102, 103} {
		if err := walk.To(speed, &got); err != nil {
			t.Fatal(err)
		}
	}
	before := got
	if err := walk.To(0.1, &got); err == nil || got != before {
		t.Fatal("a state at no speed to speak of")
	}
	err = walk.To(104, &got)
	if want, _ := ready.At(104); err != nil || got != want {
		t.Errorf("%+v (%v), from scratch %+v", got, err, want)
	}
	next := ready.Walk()
	next.To(104, &want)
	next.To(105, &want)
	if err = walk.To(105, &got); err != nil || got != want {
		t.Errorf("%+v (%v), of a new walk %+v", got, err, want)
	}
}

// What a walk answers depends on the speeds before it and on nothing else.
func TestWalksOfTheSameSpeedsAreTheSame(t *testing.T) {
	ready, err := model.Prepare(small())
	if err != nil {
		t.Fatal(err)
	}
	for name, speeds := range walks() {
		one, two := ready.Walk(), ready.Walk()
		for _, share := range speeds {
			var a, b model.State
			errA, errB := one.To(100*share, &a), two.To(100*share, &b)
			if a != b || (errA == nil) != (errB == nil) {
				t.Fatalf("%s: two walks differ at %g", name, 100*share)
			}
		}
	}
}

func TestWalkDoesNotAllocate(t *testing.T) {
	ready, err := model.Prepare(small())
	if err != nil {
		t.Fatal(err)
	}
	walk, speed, st := ready.Walk(), 60.0, model.State{}
	if n := testing.AllocsPerRun(100, func() { speed += 0.5; walk.To(speed, &st) }); n != 0 {
		t.Errorf("%v allocations a point", n)
	}
}

// BenchmarkWalk asks for a hundred speeds in their order, from scratch and as a walk.
func BenchmarkWalk(b *testing.B) {
	pumped, both := large(), withSaddle(b)
	pumped.Coolant.Flow, both.Placing = 0, fan.PushPull
	for name, r := range map[string]model.Rig{"small": small(), "large": large(), "pumped": pumped, "saddle": withSaddle(b), "saddle in push-pull": both} {
		ready, err := model.Prepare(r)
		if err != nil {
			b.Fatal(err)
		}
		walk := ready.Walk()
		scratch := func(speed float64, st *model.State) (err error) {
			*st, err = ready.At(speed)
			return err
		}
		for way, to := range map[string]func(float64, *model.State) error{"scratch": scratch, "walk": walk.To} {
			b.Run(name+"/"+way, func(b *testing.B) {
				b.ReportAllocs()
				var st model.State
				for i := 0; b.Loop(); i++ {
					if err := to(r.Speed*(0.5+float64(i%100)/100), &st); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
