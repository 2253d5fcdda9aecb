package fan_test

import (
	"math"
	"testing"

	"finduel/model/fan"
	"finduel/model/solve"
	"finduel/testdata/published"
)

// rpm is one turn a minute in rad/s; data sheets give Kv in rpm/V.
const rpm = 2 * math.Pi / 60

func motor(t *testing.T, r published.Row) fan.Brushless {
	return fan.Brushless{SpeedConstant: r.Arg(t, "kv") * rpm, Resistance: r.Arg(t, "r"), NoLoadCurrent: r.Arg(t, "i0")}
}

// lossless is a row's motor on its voltage with nothing lost on the way there.
func lossless(t *testing.T, r published.Row) *fan.Drive {
	return &fan.Drive{Supply: fan.Supply{Voltage: r.Arg(t, "v")}, Controller: fan.Controller{Efficiency: 1}, Motor: motor(t, r)}
}

// bench is a row's motor on its voltage behind the typical controller.
func bench(t *testing.T, r published.Row) *fan.Drive {
	d := lossless(t, r)
	d.Controller = fan.TypicalController()
	return d
}

// load is the torque of a row's rotor over the square of the speed, N m s².
func load(t *testing.T, r published.Row) float64 {
	return r.Arg(t, "cp") * r.Arg(t, "density") * math.Pow(r.Arg(t, "d_mm")/1000, 5) / (2 * math.Pi)
}

// against is the speed, rev/s, of a motor at a voltage against a load of k n² N m, n in
// rev/s: the positive root of Kv² R k n² + 2π n − Kv (V − I_0 R) = 0, from the motor's two
// equations.
func against(m *fan.Brushless, voltage, k float64) float64 {
	free := m.SpeedConstant * (voltage - m.NoLoadCurrent*m.Resistance)
	a := m.SpeedConstant * m.SpeedConstant * m.Resistance * k
	return 2 * free / (2*math.Pi + math.Sqrt(4*math.Pi*math.Pi+4*a*free))
}

// full is the chain of a row's rotor at full throttle.
func full(t *testing.T, r published.Row) fan.Chain {
	d, k := lossless(t, r), load(t, r)
	speed := against(&d.Motor, d.Supply.Voltage, k)
	return d.At(speed, k*2*math.Pi*speed*speed*speed)
}

// fitted is the shaft power of a row's rotor, by speed, whose power coefficient is fitted
// to the power that it was read to take at a speed, and that coefficient.
func fitted(t *testing.T, r published.Row) (power func(speed float64) float64, coefficient float64) {
	d, speed, read := bench(t, r), r.Arg(t, "fit_rpm")/60, r.Arg(t, "fit_power")
	of := func(cp, n float64) float64 {
		return cp * r.Arg(t, "density") * math.Pow(n, 3) * math.Pow(r.Arg(t, "d_mm")/1000, 5)
	}
	fit := solve.Root(func(cp float64) float64 { return d.At(speed, of(cp, speed)).SupplyPower - read }, 0.01, 1, 1e-9)
	if c := d.At(speed, of(fit.X, speed)); fit.Outcome != solve.Converged || c.Exceeded != 0 {
		t.Fatalf("%v, out of reach by %v", fit.Outcome, c.Exceeded)
	}
	return func(n float64) float64 { return of(fit.X, n) }, fit.X
}

func TestPublishedMotors(t *testing.T) {
	published.Run(t, "motors", map[string]func(t *testing.T, r published.Row) float64{
		"torque_constant_mNm": func(t *testing.T, r published.Row) float64 {
			m := motor(t, r)
			return 1000 / (m.Current(1) - m.NoLoadCurrent)
		},
		"shaft_torque_mNm": func(t *testing.T, r published.Row) float64 {
			return 1000 * fan.Torque(r.Arg(t, "power"), r.Arg(t, "rpm")/60)
		},
		"motor_current": func(t *testing.T, r published.Row) float64 {
			m := motor(t, r)
			return m.Current(r.Arg(t, "torque_mNm") / 1000)
		},
		"motor_voltage": func(t *testing.T, r published.Row) float64 {
			m := motor(t, r)
			return m.Voltage(r.Arg(t, "rpm")/60, r.Arg(t, "current"))
		},
		"motor_efficiency": func(t *testing.T, r published.Row) float64 {
			m := motor(t, r)
			return m.Efficiency(r.Arg(t, "v"), r.Arg(t, "current"))
		},
		"motor_heat": func(t *testing.T, r published.Row) float64 {
			m := motor(t, r)
			return m.Heat(r.Arg(t, "v"), r.Arg(t, "current"))
		},
		"best_current": func(t *testing.T, r published.Row) float64 {
			m := motor(t, r)
			return m.BestCurrent(r.Arg(t, "v"))
		},
		"best_efficiency": func(t *testing.T, r published.Row) float64 {
			m := motor(t, r)
			return m.BestEfficiency(r.Arg(t, "v"))
		},
		"no_load_rpm": func(t *testing.T, r published.Row) float64 {
			m := motor(t, r)
			return 60 * m.NoLoadSpeed(r.Arg(t, "v"))
		},
		"full_speed_rpm":   func(t *testing.T, r published.Row) float64 { return 60 * full(t, r).Speed },
		"full_current":     func(t *testing.T, r published.Row) float64 { return full(t, r).MotorCurrent },
		"full_shaft_power": func(t *testing.T, r published.Row) float64 { return full(t, r).ShaftPower },
		"full_motor_power": func(t *testing.T, r published.Row) float64 { return full(t, r).SupplyPower },
		"full_efficiency": func(t *testing.T, r published.Row) float64 {
			c := full(t, r)
			return c.ShaftPower / c.SupplyPower
		},
		"reached_rpm": func(t *testing.T, r published.Row) float64 {
			k := load(t, r)
			reached := fan.Reach(lossless(t, r), func(n float64) float64 { return k * 2 * math.Pi * n * n * n }, 1, 2000)
			if reached.Outcome != solve.Converged || reached.Limit != fan.SupplyVoltage {
				t.Fatalf("%v, stopped by %v", reached.Outcome, reached.Limit)
			}
			return 60 * reached.Chain.Speed
		},
		// A motor without losses that turns against the whole power.
		"supply_current": func(t *testing.T, r published.Row) float64 {
			d := fan.Drive{
				Supply: fan.Supply{Voltage: r.Arg(t, "u")}, WireResistance: r.Arg(t, "wire"),
				Controller: fan.Controller{Efficiency: 1}, Motor: fan.Brushless{SpeedConstant: 100},
			}
			return d.At(10, r.Arg(t, "power")).SupplyCurrent
		},
		"idle_power": func(*testing.T, published.Row) float64 { return fan.TypicalController().IdlePower },
		"fitted_power_coefficient": func(t *testing.T, r published.Row) float64 {
			_, cp := fitted(t, r)
			return cp
		},
		"throttle_at_power": func(t *testing.T, r published.Row) float64 {
			power, _ := fitted(t, r)
			d := bench(t, r)
			at := solve.Root(func(n float64) float64 { return d.At(n, power(n)).SupplyPower - r.Arg(t, "power") }, 10, r.Arg(t, "fit_rpm")/60, 1e-9)
			if at.Outcome != solve.Converged {
				t.Fatal(at.Outcome)
			}
			return d.At(at.X, power(at.X)).Throttle
		},
	})
}
