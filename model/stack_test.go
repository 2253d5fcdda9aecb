package model_test

import (
	"errors"
	"testing"

	"finduel/model"
	"finduel/model/core"
)

// At the same face velocity and fin volume a thick core and a stack do worse than a
// wide thin core: their back half breathes air that the front half has warmed
// (common practice, no source).
func TestWideBeatsThickAndStacked(t *testing.T) {
	compared := 0
	for _, velocity := range []float64{0.5, 1, 2, 4} {
		for _, fpi := range []float64{10, 16, 22} {
			for _, feed := range core.Feeds() {
				wide := large()
				wide.Core.FinDensity = fpi / 0.0254
				wide.Core.FinDepth = 0.02
				wide.Core.FaceLength, wide.Core.FaceWidth = 0.24, 0.24
				wide.Coolant.Flow = 6. / 60000
				wide.Fans.Fan.ShutOffPressure = 3000
				thick, stack := wide, wide
				thick.Core.FaceWidth /= 2
				thick.Core.FinDepth *= 2
				stack.Core.FaceWidth /= 2
				stack.Core.Further, stack.Core.Feed = 1, feed

				w, th, st := atFaceVelocity(t, wide, velocity), atFaceVelocity(t, thick, velocity), atFaceVelocity(t, stack, velocity)
				compared++
				if th.Conductance >= w.Conductance || st.Conductance >= w.Conductance {
					t.Errorf("%v m/s, %v fins an inch, %v: wide %v W/K, thick %v, stacked %v", velocity, fpi, feed, w.Conductance, th.Conductance, st.Conductance)
				}
			}
		}
	}
	if compared != 24 {
		t.Errorf("compared %d", compared)
	}
}

// atFaceVelocity returns the state of a rig whose fans turn so that the air meets the
// face at a velocity in m/s.
func atFaceVelocity(t *testing.T, r model.Rig, velocity float64) model.State {
	t.Helper()
	low, high := 1., 2000.
	for range 60 {
		r.Speed = (low + high) / 2
		if s, err := model.Evaluate(r); err != nil || s.FaceVelocity < velocity {
			low = r.Speed
		} else {
			high = r.Speed
		}
	}
	r.Speed = high
	return must(t, r)
}

// A second core behind the first helps while there is air for both, in either feed;
// it never doubles what one does.
func TestASecondCoreHelpsLessThanTheFirst(t *testing.T) {
	for _, feed := range core.Feeds() {
		one := small()
		one.Speed = 250
		two := one
		two.Core.Further, two.Core.Feed = 1, feed
		a, b := atFaceVelocity(t, one, 3), atFaceVelocity(t, two, 3)
		if b.Conductance <= a.Conductance || b.Conductance >= 2*a.Conductance || b.CorePressureDrop < 1.9*a.CorePressureDrop {
			t.Errorf("%v: one core %v W/K at %v Pa, two %v W/K at %v Pa", feed, a.Conductance, a.CorePressureDrop, b.Conductance, b.CorePressureDrop)
		}
	}
}

// In parallel the first core's branch leaves coldest: it must not freeze, however warm
// the mixed coolant is.
func TestNoBranchFreezes(t *testing.T) {
	r := small()
	r.Core.Further, r.Core.Feed = 2, core.InParallel
	r.Coolant.Flow, r.Room.Temperature = 0.4/60000, 268.15
	if s, err := model.Evaluate(r); !errors.Is(err, model.ErrFreezes) {
		t.Errorf("mixed coolant leaves at %v K, error %v", s.CoolantOutletTemperature, err)
	}
	r.Core.Feed = core.InSeries
	r.Room.Temperature = 283.15
	must(t, r)
}
