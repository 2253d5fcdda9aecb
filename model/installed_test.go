package model_test

import (
	"testing"

	"finduel/model"
	"finduel/model/fan"
)

// effects are the ways to lose, each set to a share or a number of heads.
var effects = map[string]func(i *model.Installed, v float64){
	"grille":  func(i *model.Installed, v float64) { i.GrilleLoss = 10 * v },
	"leakage": func(i *model.Installed, v float64) { i.Leakage = v },
	"shadow":  func(i *model.Installed, v float64) { i.HubShadow = v },
	"dust":    func(i *model.Installed, v float64) { i.Dust = v },
}

// What is lost never helps: coolant over air rises and the core gets less air, step
// by step, in push and in pull.
func TestLossesNeverHelp(t *testing.T) {
	for name, set := range effects {
		for _, base := range []model.Rig{small(), large()} {
			for _, placing := range []fan.Placing{fan.Push, fan.Pull} {
				r := base
				r.Placing = placing
				before := must(t, r)
				for v := 0.02; v < 0.6; v += 0.04 {
					set(&r.Installed, v)
					s := must(t, r)
					if !(s.CoolantOverAir > before.CoolantOverAir && s.AirMassFlow < before.AirMassFlow) {
						t.Errorf("%s %v, %v: %v K after %v K, %v kg/s after %v kg/s", name, v, placing, s.CoolantOverAir, before.CoolantOverAir, s.AirMassFlow, before.AirMassFlow)
					}
					before = s
				}
			}
		}
	}
}

// A loss that goes to nothing is no loss.
func TestVanishingLossesAreNone(t *testing.T) {
	for name, set := range effects {
		for _, r := range []model.Rig{small(), large()} {
			clean := must(t, r)
			set(&r.Installed, 1e-10)
			s := must(t, r)
			for _, o := range model.Outputs {
				if got, want := o.Get(&s), o.Get(&clean); !near(got, want, 1e-7) {
					t.Errorf("%s: %s is %v, without %v", name, o.Key, got, want)
				}
			}
		}
	}
}

// The face velocity is that of the core's air over the whole face, whatever part of
// it is in shadow.
func TestFaceVelocityIsOverTheWholeFace(t *testing.T) {
	grid(t, func(t *testing.T, r model.Rig, s model.State) {
		if want := s.Airflow / (r.Core.FaceLength * r.Core.FaceWidth); !near(s.FaceVelocity, want, 1e-12) {
			t.Errorf("face velocity %v, want %v: %+v", s.FaceVelocity, want, r)
		}
	})
}

// Shadow is a shorter core, for which the coolant's film and drop are the long one's.
func TestShadowEndsAsAShorterCore(t *testing.T) {
	r := small()
	r.Core.PortDiameter = 0
	r.Installed.HubShadow = 0.25
	shadowed := must(t, r)
	r.Installed.HubShadow = 0
	r.Core.FaceLength *= 0.75
	short := must(t, r)
	if !near(shadowed.AirMassFlow, short.AirMassFlow, 1e-9) || !near(shadowed.CorePressureDrop, short.CorePressureDrop, 1e-9) {
		t.Errorf("air %v kg/s at %v Pa, of the shorter core %v kg/s at %v Pa", shadowed.AirMassFlow, shadowed.CorePressureDrop, short.AirMassFlow, short.CorePressureDrop)
	}
	// A longer tube has the thinner film of the two, by its share of the whole.
	if !(shadowed.CoolantOverAir >= short.CoolantOverAir) || !near(shadowed.CoolantOverAir, short.CoolantOverAir, 0.02) {
		t.Errorf("coolant over air %v K, of the shorter core %v K", shadowed.CoolantOverAir, short.CoolantOverAir)
	}
}
