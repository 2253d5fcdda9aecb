package fan_test

import (
	"math"
	"testing"

	"finduel/model/air"
	"finduel/model/fan"
	"finduel/model/solve"
	"finduel/testdata/published"
)

// unit is a fan whose rated values are all 1, so that what it does is a ratio.
func unit() *fan.Fan {
	f := fan.Typical()
	f.RatedSpeed, f.FreeAirFlow, f.ShutOffPressure, f.RatedPower, f.RatedDensity, f.TopSpeed = 1, 1, 1, 1, 1, 1
	return &f
}

// onSheet is a fan by the numbers of a row.
func onSheet(t *testing.T, r published.Row) *fan.Fan {
	f := unit()
	f.RatedDensity = 1.2
	f.RatedSpeed = r.Arg(t, "rpm") / 60
	for name, to := range map[string]*float64{"pressure": &f.ShutOffPressure, "power": &f.RatedPower, "d": &f.RotorDiameter} {
		if v, ok := r.In[name]; ok {
			*to = v
		}
	}
	if v, ok := r.In["flow_m3h"]; ok {
		f.FreeAirFlow = v / 3600
	}
	return f
}

func TestPublishedValues(t *testing.T) {
	published.Run(t, "fans", map[string]func(t *testing.T, r published.Row) float64{
		"flow_ratio": func(t *testing.T, r published.Row) float64 { return unit().FreeFlow(r.Arg(t, "speed")) },
		"pressure_ratio": func(t *testing.T, r published.Row) float64 {
			return unit().ShutOff(r.Arg(t, "speed"), r.Arg(t, "density"))
		},
		"power_ratio": func(t *testing.T, r published.Row) float64 {
			return unit().Draw(r.Arg(t, "speed"), 0.5, r.Arg(t, "density")).Supply
		},
		"flow_coefficient": func(t *testing.T, r published.Row) float64 {
			f := onSheet(t, r)
			d := r.Arg(t, "d")
			return f.FreeFlow(f.RatedSpeed) / (math.Pi / 4 * d * d * f.TipSpeed(f.RatedSpeed))
		},
		"pressure_coefficient": func(t *testing.T, r published.Row) float64 {
			f := onSheet(t, r)
			u := f.TipSpeed(f.RatedSpeed)
			return 2 * f.ShutOff(f.RatedSpeed, 1.2) / (1.2 * u * u)
		},
		// The air power of a straight curve is greatest at half of the free-air flow.
		"best_efficiency": func(t *testing.T, r published.Row) float64 {
			f := onSheet(t, r)
			half := f.FreeFlow(f.RatedSpeed) / 2
			return half * f.Pressure(f.RatedSpeed, half, 1.2) / f.Draw(f.RatedSpeed, 0.5, 1.2).Supply
		},
		"estimated_diameter": func(t *testing.T, r published.Row) float64 { return onSheet(t, r).Diameter() },
		"tip_speed":          tipSpeed,
		"tip_mach": func(t *testing.T, r published.Row) float64 {
			return tipSpeed(t, r) / air.SpeedOfSound(r.Arg(t, "t_C")+273.15)
		},
		"fan_heat": func(t *testing.T, r published.Row) float64 {
			b := fan.Bank{Fan: *unit(), Count: 1}
			b.Fan.Motor, b.Fan.MotorEfficiency = fan.Motor(r.Arg(t, "outside")), r.Arg(t, "efficiency")
			b.Fan.RatedPower = r.Arg(t, "power")
			return b.Fan.Draw(1, 0.5, 1).Heat / (1.2 * r.Arg(t, "flow") * 1006)
		},
		"drive_current": func(t *testing.T, r published.Row) float64 {
			b := fan.Bank{Fan: *unit(), Count: int(r.Arg(t, "fans"))}
			b.Fan.RatedPower, b.Fan.DriveVoltage = r.Arg(t, "power"), r.Arg(t, "voltage")
			return b.Fan.Draw(1, 0.5, 1).Supply * float64(b.Turning()) / b.Fan.DriveVoltage
		},
		"operating_share": func(t *testing.T, r published.Row) float64 {
			b := fan.Bank{Fan: *unit(), Count: int(r.Arg(t, "fans"))}
			speed := r.Arg(t, "speed")
			rated := b.FreeFlow(1)
			k := r.Arg(t, "system") / (rated * rated)
			free := b.FreeFlow(speed)
			at := solve.Root(func(flow float64) float64 { return b.Pressure(speed, flow, 1) - k*flow*flow }, 0, free, 1e-12*free)
			if at.Outcome != solve.Converged {
				t.Fatal(at.Outcome)
			}
			return at.X / free
		},
	})
}

func tipSpeed(t *testing.T, r published.Row) float64 {
	f := unit()
	f.RotorDiameter = r.Arg(t, "d_mm") / 1000
	return f.TipSpeed(r.Arg(t, "rpm") / 60)
}
