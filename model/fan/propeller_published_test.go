package fan_test

import (
	"math"
	"testing"

	"finduel/model/fan"
	"finduel/testdata/published"
)

// propeller is the one of a row, with the row's coefficients if it has any.
func propeller(t *testing.T, r published.Row) *fan.Propeller {
	return &fan.Propeller{
		Diameter: r.Arg(t, "d_in") * 0.0254, Pitch: r.Arg(t, "pitch_in") * 0.0254, Blades: int(r.Arg(t, "blades")),
		ThrustCoefficient: r.In["ct"], PowerCoefficient: r.In["cp"],
	}
}

// course is the characteristic of a row's propeller at the row's speed; at any, if
// it has none.
func course(t *testing.T, r published.Row) (c fan.Characteristic, speed float64) {
	p := propeller(t, r)
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	speed = 1
	if rpm, ok := r.In["rpm"]; ok {
		speed = rpm / 60
	}
	return p.At(speed), speed
}

// measured is the point of a row's characteristic that its measured point makes.
func measured(t *testing.T, r published.Row) fan.Point {
	c, _ := course(t, r)
	return c.Points[c.Static+int(r.Arg(t, "row"))]
}

// thrust is the coefficient that makes the pressure of a point.
func thrust(p fan.Point) float64 { return p.PressureCoefficient * math.Pow(math.Pi, 3) / 8 }

func TestPublishedPropellers(t *testing.T) {
	// of is a number of the static point at the row's speed and density.
	of := func(what func(c *fan.Characteristic, static fan.Point, speed, density float64) float64) func(*testing.T, published.Row) float64 {
		return func(t *testing.T, r published.Row) float64 {
			c, speed := course(t, r)
			return what(&c, c.Points[c.Static], speed, r.Arg(t, "density"))
		}
	}
	area := func(c *fan.Characteristic) float64 { return math.Pi / 4 * c.Diameter * c.Diameter }
	published.Run(t, "propellers", map[string]func(t *testing.T, r published.Row) float64{
		"static_thrust": func(t *testing.T, r published.Row) float64 {
			c, _ := course(t, r)
			return c.ThrustCoefficient
		},
		"static_power": func(t *testing.T, r published.Row) float64 {
			c, _ := course(t, r)
			return c.PowerCoefficient
		},
		"disc_flow_coefficient":     func(t *testing.T, r published.Row) float64 { return measured(t, r).FlowCoefficient },
		"disc_pressure_coefficient": func(t *testing.T, r published.Row) float64 { return measured(t, r).PressureCoefficient },
		"disc_efficiency":           func(t *testing.T, r published.Row) float64 { return measured(t, r).Efficiency() },
		"course_thrust":             func(t *testing.T, r published.Row) float64 { return thrust(measured(t, r)) },
		"course_power":              func(t *testing.T, r published.Row) float64 { return measured(t, r).PowerCoefficient },
		"pressure_per_thrust": func(t *testing.T, r published.Row) float64 {
			c, _ := course(t, r)
			return c.Points[c.Static].PressureCoefficient / c.ThrustCoefficient
		},
		"rotor_tip_speed": func(t *testing.T, r published.Row) float64 {
			return propeller(t, r).TipSpeed(r.Arg(t, "rpm") / 60)
		},
		"static_thrust_force": of(func(c *fan.Characteristic, static fan.Point, speed, density float64) float64 {
			return c.Pressure(static.PressureCoefficient, speed, density) * area(c)
		}),
		"static_shaft_power": of(func(c *fan.Characteristic, static fan.Point, speed, density float64) float64 {
			return c.Power(static.PowerCoefficient, speed, density)
		}),
		"static_torque_mNm": of(func(c *fan.Characteristic, static fan.Point, speed, density float64) float64 {
			return 1000 * c.Power(static.PowerCoefficient, speed, density) / (2 * math.Pi * speed)
		}),
		"static_disc_velocity": of(func(c *fan.Characteristic, static fan.Point, speed, _ float64) float64 {
			return c.Flow(static.FlowCoefficient, speed) / area(c)
		}),
		"static_flow_m3h": of(func(c *fan.Characteristic, static fan.Point, speed, _ float64) float64 {
			return 3600 * c.Flow(static.FlowCoefficient, speed)
		}),
		"static_pressure": of(func(c *fan.Characteristic, static fan.Point, speed, density float64) float64 {
			return c.Pressure(static.PressureCoefficient, speed, density)
		}),
		"figure_of_merit": of(func(_ *fan.Characteristic, static fan.Point, _, _ float64) float64 { return static.Efficiency() }),
		"free_air_advance": func(t *testing.T, r published.Row) float64 {
			c, _ := course(t, r)
			return c.FreeAir.AdvanceRatio
		},
		"free_air_flow_coefficient": func(t *testing.T, r published.Row) float64 {
			c, _ := course(t, r)
			return c.FreeAir.FlowCoefficient
		},
		"zero_thrust_advance": func(t *testing.T, r published.Row) float64 {
			c, _ := course(t, r)
			return c.Points[c.Count-1].AdvanceRatio
		},
		// At free air the shroud's exit is as wide as the disc: what such a rotor does
		// with its air power against an open one that stands still.
		"ducted_thrust": func(t *testing.T, r published.Row) float64 {
			c, _ := course(t, r)
			return ducted(&c, c.FreeAir) / open(&c, c.Points[c.Static])
		},
		"ducted_power": func(t *testing.T, r published.Row) float64 {
			c, _ := course(t, r)
			return math.Pow(ducted(&c, c.FreeAir)/open(&c, c.Points[c.Static]), -1.5)
		},
		"disc_on_face": func(t *testing.T, r published.Row) float64 {
			return fan.DiscOnFace(r.Arg(t, "d_mm")/1000, r.Arg(t, "a_mm")/1000, r.Arg(t, "b_mm")/1000)
		},
	})
}

// airPower is what a point does to the air at 1 rev/s and 1 kg/m³.
func airPower(c *fan.Characteristic, p fan.Point) float64 {
	return c.Flow(p.FlowCoefficient, 1) * c.Pressure(p.PressureCoefficient, 1, 1)
}

// ducted is the thrust of rotor and shroud, momentum of the outflow, over
// (air power)^(2/3); open that of a rotor alone, its pressure on its area.
func ducted(c *fan.Characteristic, p fan.Point) float64 {
	flow := c.Flow(p.FlowCoefficient, 1)
	return flow * flow / (math.Pi / 4 * c.Diameter * c.Diameter) / math.Pow(airPower(c, p), 2./3)
}

func open(c *fan.Characteristic, p fan.Point) float64 {
	return c.Pressure(p.PressureCoefficient, 1, 1) * math.Pi / 4 * c.Diameter * c.Diameter / math.Pow(airPower(c, p), 2./3)
}
