package model_test

import (
	"errors"
	"math"
	"testing"

	"finduel/model"
	"finduel/model/air"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/sound"
)

// TestStateFollowsFromItsPieces takes a state's own mass flow and temperatures and
// asks every published piece again, by hand: what the state says must be what they
// say of those.
func TestStateFollowsFromItsPieces(t *testing.T) {
	grid(t, func(t *testing.T, r model.Rig, s model.State) {
		c, err := core.New(r.Core)
		if err != nil {
			t.Fatal(err)
		}
		c.Block(r.Installed.Dust)
		c.Shadow(r.Installed.HubShadow)
		room, err := air.NewAtmosphere(r.Room.Temperature, r.Room.Altitude, r.Room.Humidity)
		if err != nil {
			t.Fatal(err)
		}
		m := s.AirMassFlow
		mean := (s.CoreAirTemperature + s.AirOutletTemperature) / 2
		heat := r.Heat.Load + r.Heat.PumpPower

		all := m / (1 - r.Installed.Leakage) // air that the fans move
		breathed := r.Room.Temperature
		if r.Placing == fan.Pull {
			breathed += m / all * (s.AirOutletTemperature - r.Room.Temperature)
		}
		grille := r.Installed.GrilleLoss * room.Density(r.Room.Temperature) * s.FaceVelocity * s.FaceVelocity / 2
		density := room.Density(breathed)

		// The air's film stands halfway between air and fins, heat/(2 h A) above the mean
		// air; a fixed point of that differs from the state's single step by little.
		film := mean
		var h float64
		for range 50 {
			h = c.AirFilm(m, room.At(film))
			film = mean + heat/(2*h*c.AirArea())
		}
		coolantMean := (s.CoolantInletTemperature + s.CoolantOutletTemperature) / 2
		coolantFilm := coolantMean - heat/(2*s.CoolantFilm*c.TubeInsideArea())
		liquid := r.Coolant.Liquid.At(coolantFilm)
		hc, re := c.CoolantFilm(s.CoolantFlow*liquid.Density, liquid)
		ua := 1 / (1/(s.AirFilm*c.WithFins(c.FinEfficiency(s.AirFilm))*c.AirArea()) + c.WallResistance() + 1/(s.CoolantFilm*c.TubeInsideArea()))

		for _, check := range []struct {
			what      string
			got, want float64
			tolerance float64
		}{
			{"pressure drop", s.CorePressureDrop, c.PressureDrop(m, room.Density(s.CoreAirTemperature), room.Density(s.AirOutletTemperature), room.Viscosity(mean)), 1e-12},
			{"pressure of the fans", r.Fans.Pressure(r.Speed, all/density, density), s.CorePressureDrop + grille, 1e-8},
			{"air film", s.AirFilm, h, 1e-3},
			{"air Reynolds number", s.AirReynolds, c.Reynolds(m, room.Viscosity(film)), 1e-3},
			{"coolant film", s.CoolantFilm, hc, 1e-8},
			{"coolant Reynolds number", s.CoolantReynolds, re, 1e-8},
			{"coolant pressure drop", s.CoolantPressureDrop, c.CoolantPressureDrop(s.CoolantFlow*liquid.Density, liquid), 1e-8},
			{"UA", s.CoreConductance, ua, 1e-12},
			{"air film term", s.Budget.AirFilm, r.Heat.Load / (s.AirFilm * c.AirArea()), 1e-12},
			{"coolant film term", s.Budget.CoolantFilm, r.Heat.Load / (s.CoolantFilm * c.TubeInsideArea()), 1e-12},
			{"wall term", s.Budget.Wall, r.Heat.Load * c.WallResistance(), 1e-12},
			{"airflow", s.Airflow, m / room.Density(r.Room.Temperature), 1e-12},
			{"share of free flow", s.FreeFlowShare, all / density / r.Fans.FreeFlow(r.Speed), 1e-12},
			{"power", s.FanPower, drawn(&r, s.FreeFlowShare, density).Supply, 1e-12},
			{"current", s.DriveCurrent, s.FanPower / r.Fans.Fan.DriveVoltage, 1e-12},
			{"sound", s.Sound, sound.AtDistance(sound.SumOfEqual(r.Fans.Fan.Sound(r.Speed, s.FreeFlowShare, density), r.Fans.Count), 1, r.Room.ListenerDistance), 1e-12},
			{"sound at the operator", s.OperatorSound, sound.AtDistance(sound.SumOfEqual(r.Fans.Fan.Sound(r.Speed, s.FreeFlowShare, density), r.Fans.Count), 1, r.Room.OperatorDistance), 1e-12},
			{"exposure", s.ExposureLimit, sound.PermittedNIOSH(s.OperatorSound), 1e-12},
			{"tip speed", s.TipSpeed, math.Pi * r.Fans.Fan.Diameter() * r.Speed, 1e-12},
			{"chip over air", s.ChipOverAir, s.CoolantOutletTemperature + r.Heat.Load*r.Heat.PlateResistance - r.Room.Temperature, 1e-12},
			{"fin efficiency", s.FinEfficiency, c.FinEfficiency(s.AirFilm), 1e-12},
		} {
			if !near(check.got, check.want, check.tolerance) {
				t.Errorf("%s: state says %v, its pieces %v (%v, passes %d, %v rpm)", check.what, check.got, check.want, r.Placing, r.Core.Passes, r.Speed*60)
			}
		}
	})
}

// The liquid range ends at its freezing and boiling points: of the coolant where it
// enters, where it leaves and on the wall.
func TestLiquidRangeEndsWhereItEnds(t *testing.T) {
	r := small()
	// Find the speed at which the coolant enters just below boiling.
	low, high := 1., 100.
	for range 100 {
		r.Speed = (low + high) / 2
		if s, err := model.Evaluate(r); err != nil {
			low = r.Speed
		} else {
			high = r.Speed
			if s.CoolantInletTemperature >= r.Coolant.Liquid.Boiling() {
				t.Fatalf("coolant enters at %v K", s.CoolantInletTemperature)
			}
		}
	}
	r.Speed = high * (1 + 1e-9)
	if s := must(t, r); r.Coolant.Liquid.Boiling()-s.CoolantInletTemperature > 1e-3 {
		t.Errorf("the last speed with a value leaves the coolant at %v K, well below boiling", s.CoolantInletTemperature)
	}

	// In a cold room the wall freezes first, then the coolant.
	cold := large()
	cold.Room.Temperature = 260
	cold.Speed = 25
	cold.Heat.Load, cold.Heat.PumpPower = 2000, 0
	var last model.State
	for ; cold.Heat.Load > 1; cold.Heat.Load *= 0.99 {
		s, err := model.Evaluate(cold)
		if errors.Is(err, model.ErrFreezes) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		last = s
	}
	freezing := cold.Coolant.Liquid.Freezing()
	wall := (last.CoolantInletTemperature+last.CoolantOutletTemperature)/2 - last.Budget.CoolantFilm
	if wall <= freezing || wall > freezing+1 {
		t.Errorf("the last state before freezing has its wall at %v K, freezing is %v K", wall, freezing)
	}
	if last.CoolantOutletTemperature <= wall {
		t.Errorf("coolant leaves at %v K, wall is at %v K", last.CoolantOutletTemperature, wall)
	}
}

// A load that is small beside the fans' own heat is still carried away.
func TestFanHeatCountsInTheLeastAirflow(t *testing.T) {
	r := small()
	r.Heat.Load, r.Heat.PumpPower = 0.1, 0
	r.Fans.Fan.RatedPower = 3000
	s := must(t, r)
	if s.Budget.FanHeat < 20 || !near(s.CoolantOverAir, s.Budget.FanHeat, 0.01) {
		t.Errorf("coolant over air %v K, fan heat %v K", s.CoolantOverAir, s.Budget.FanHeat)
	}
}

// Compressible begins at 2 kPa.
func TestCompressibleBeginsAtTwoKilopascals(t *testing.T) {
	r := small()
	r.Fans.Fan.RotorDiameter = 0.03
	r.Fans.Fan.FreeAirFlow = 0.5
	for r.Fans.Fan.ShutOffPressure = 1500; r.Fans.Fan.ShutOffPressure < 12000; r.Fans.Fan.ShutOffPressure *= 1.02 {
		s := must(t, r)
		if s.Warnings.Has(model.Compressible) != (s.CorePressureDrop > 2000) {
			t.Errorf("at %v Pa: %q", s.CorePressureDrop, s.Warnings.Keys())
		}
	}
}

func TestUnknownPlacingIsRefused(t *testing.T) {
	r := small()
	r.Placing = 7
	if _, err := model.Evaluate(r); err == nil {
		t.Error("placing 7 is accepted")
	}
}
