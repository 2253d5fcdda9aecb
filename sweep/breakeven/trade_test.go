package breakeven_test

import (
	"errors"
	"math"
	"testing"

	"finduel/model"
	"finduel/testdata/reports"
)

// What the trade says of small cores, as checks of the model. Every rule here is
// common practice, no source.

// cooled returns coolant over air of the dense little core under 60 W, with changes,
// K; +Inf where the coolant would boil. The fan's shut-off pressure is given times that
// of the study.
func cooled(t *testing.T, pressure, speed float64, change map[string]float64) float64 {
	t.Helper()
	rig := reports.TwoSetups().Setups[0].Rig
	rig.Heat.Load = 60
	rig.Fans.Fan.ShutOffPressure *= pressure
	rig.Speed = speed
	for key, v := range change {
		in, ok := model.InputOf(key)
		if !ok {
			t.Fatalf("no input %s", key)
		}
		in.Set(&rig, v)
	}
	s, err := model.Evaluate(rig)
	if errors.Is(err, model.ErrBoils) {
		return math.Inf(1)
	}
	if err != nil {
		t.Fatalf("%v at %v: %v", change, speed, err)
	}
	return s.CoolantOverAir
}

// bestDensity returns the fin density, fpi, of the least coolant over air from 6 to
// 48 fpi, and false if it is an end of that range.
func bestDensity(t *testing.T, pressure, speed float64) (best float64, inside bool) {
	least := math.Inf(1)
	for fpi := 6.; fpi <= 48; fpi += 0.5 {
		if v := cooled(t, pressure, speed, map[string]float64{"fin_density": fpi / 0.0254}); v < least {
			best, least = fpi, v
		}
	}
	return best, best > 6 && best < 48
}

// More fins help until the fan cannot push through them: common practice, no source.
// There is an optimum for a weak fan, and it moves up with a stronger one.
func TestMoreFinsHelpUntilTheFanCannotPush(t *testing.T) {
	last := 0.
	for _, pressure := range []float64{0.1, 0.3, 1, 3} {
		best, inside := bestDensity(t, pressure, 100)
		t.Logf("%g of the shut-off pressure: best at %g fpi", pressure, best)
		if !inside && pressure <= 1 {
			t.Errorf("%g of the shut-off pressure: no optimum inside, %v fpi", pressure, best)
		}
		if best <= last {
			t.Errorf("%g of the shut-off pressure: best at %v fpi, with a weaker fan at %v fpi", pressure, best, last)
		}
		last = best
	}
}

// Thickness has diminishing returns: common practice, no source. Each further 8 mm of
// fins gains less than the 8 mm before, and with a weak fan the last ones lose.
func TestThicknessHasDiminishingReturns(t *testing.T) {
	for _, pressure := range []float64{0.1, 0.3, 1} {
		at := func(depth float64) float64 {
			return cooled(t, pressure, 100, map[string]float64{"fin_depth": depth, "fin_density": 12 / 0.0254})
		}
		gain := at(0.008) - at(0.016)
		if gain <= 0 {
			t.Errorf("%g of the shut-off pressure: the first 8 mm gain %v K", pressure, gain)
		}
		for depth := 0.016; depth < 0.090 && gain > 0; depth += 0.008 {
			next := at(depth) - at(depth+0.008)
			t.Logf("%g of the shut-off pressure: from %.3f m on 8 mm gain %.3f K", pressure, depth, next)
			if next >= gain {
				t.Errorf("%g of the shut-off pressure: from %v m on 8 mm gain %v K, the 8 mm before %v K", pressure, depth, next, gain)
			}
			gain = next
		}
		if pressure == 0.1 && gain >= 0 {
			t.Errorf("with the weak fan the last 8 mm still gain %v K", gain)
		}
	}
}

// Area beats everything at low fan speed: common practice, no source. A fifth more
// face area gains more than a fifth more depth, fin density or coolant flow; and
// its share of the whole difference grows as the fan gets slower.
func TestAreaBeatsEverythingAtLowSpeed(t *testing.T) {
	rig := reports.TwoSetups().Setups[0].Rig
	gain := func(key string, speed float64) float64 {
		in, _ := model.InputOf(key)
		now := cooled(t, 1, speed, nil)
		return (now - cooled(t, 1, speed, map[string]float64{key: 1.2 * in.Get(&rig)})) / now
	}
	for _, speed := range []float64{25, 35} {
		area := gain("face_area", speed)
		t.Logf("%g rev/s: area %.4f, depth %.4f, density %.4f, coolant %.4f", speed, area,
			gain("fin_depth", speed), gain("fin_density", speed), gain("coolant_flow", speed))
		for _, key := range []string{"fin_depth", "fin_density", "coolant_flow"} {
			if other := gain(key, speed); other >= area {
				t.Errorf("at %v rev/s a fifth more %s gains %v, a fifth more area %v", speed, key, other, area)
			}
		}
	}
	if slow, fast := gain("face_area", 25)-gain("fin_density", 25), gain("face_area", 300)-gain("fin_density", 300); slow <= fast {
		t.Errorf("area is ahead of density by %v at low speed, by %v at high speed", slow, fast)
	}
}
