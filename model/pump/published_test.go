package pump_test

import (
	"testing"

	"finduel/model/pump"
	"finduel/testdata/published"
)

func curve(t *testing.T, r published.Row) pump.Pump {
	return pump.Pump{ShutOffPressure: r.Arg(t, "head_kPa") * 1000, FreeFlow: r.Arg(t, "free_L_per_h") / 3.6e6, CurveExponent: r.Arg(t, "exponent")}
}

func loop(t *testing.T, r published.Row) pump.Loop {
	return pump.Loop{Drop: r.Arg(t, "drop_kPa") * 1000, DropFlow: r.Arg(t, "at_L_per_min") / 60000}
}

func TestPublishedPumps(t *testing.T) {
	published.Run(t, "pumps", map[string]func(t *testing.T, r published.Row) float64{
		"hydraulic_power": func(t *testing.T, r published.Row) float64 {
			return pump.HydraulicPower(r.Arg(t, "pressure_kPa")*1000, r.Arg(t, "flow_L_per_h")/3.6e6)
		},
		"pressure": func(t *testing.T, r published.Row) float64 {
			return curve(t, r).Pressure(r.Arg(t, "flow_L_per_h")/3.6e6) / 1000
		},
		"loop_drop": func(t *testing.T, r published.Row) float64 {
			return loop(t, r).PressureDrop(r.Arg(t, "flow_L_per_min")/60000) / 1000
		},
		// The core takes its pressure with the square of the flow.
		"flow": func(t *testing.T, r published.Row) float64 {
			square := r.Arg(t, "core_kPa") * 1000 / (4. / 60000) / (4. / 60000)
			v, ok := pump.Flow(curve(t, r), loop(t, r), func(flow float64) float64 { return square * flow * flow }, 0)
			if !ok {
				t.Error("no flow is found")
			}
			return v * 60000
		},
		"default_drop": func(t *testing.T, r published.Row) float64 {
			return pump.TypicalLoop().PressureDrop(r.Arg(t, "flow_L_per_min")/60000) / 1000
		},
	})
}
