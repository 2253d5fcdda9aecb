package air_test

import (
	"errors"
	"math"
	"testing"

	"finduel/model/air"
	"finduel/model/quantity"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Abs(want)) {
		t.Errorf("%s = %.9g, want %.9g within %g", what, got, want, tolerance)
	}
}

func atmosphere(t testing.TB, temperature, altitude, humidity float64) air.Atmosphere {
	t.Helper()
	a, err := air.NewAtmosphere(temperature, altitude, humidity)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func TestNewAtmosphereRefusesWhatLiesOutsideItsRange(t *testing.T) {
	for _, c := range []struct {
		temperature, altitude, humidity float64
		key                             string
		value                           float64
	}{
		{233.14, 0, 0.5, "air_temperature", 233.14},
		{353.16, 0, 0.5, "air_temperature", 353.16},
		{math.NaN(), 0, 0.5, "air_temperature", math.NaN()},
		{math.Inf(1), 0, 0.5, "air_temperature", math.Inf(1)},
		{293, -500.1, 0.5, "altitude", -500.1},
		{293, 5000.1, 0.5, "altitude", 5000.1},
		{293, math.NaN(), 0.5, "altitude", math.NaN()},
		{293, 0, -0.001, "humidity", -0.001},
		{293, 0, 1.001, "humidity", 1.001},
		{293, 0, math.NaN(), "humidity", math.NaN()},
	} {
		a, err := air.NewAtmosphere(c.temperature, c.altitude, c.humidity)
		var re *quantity.RangeError
		if !errors.As(err, &re) {
			t.Errorf("%+v: %+v, %v, want a RangeError", c, a, err)
			continue
		}
		same := re.Value == c.value || math.IsNaN(re.Value) && math.IsNaN(c.value)
		if re.Key != c.key || !same || !(re.Low < re.High) || re.Rule == "" {
			t.Errorf("%+v: error %+v", c, re)
		}
	}
}

// Hot, high and saturated is where the vapour pressure comes closest to the total.
func TestNewAtmosphereHasAValueInEveryCornerOfItsRange(t *testing.T) {
	for _, temperature := range []float64{233.15, 353.15} {
		for _, altitude := range []float64{-500, 5000} {
			for _, humidity := range []float64{0, 1} {
				a := atmosphere(t, temperature, altitude, humidity)
				if !(a.Pressure > 50e3 && a.Pressure < 110e3 && a.HumidityRatio >= 0 && a.HumidityRatio < 5) {
					t.Errorf("%g K, %g m, %g: %+v", temperature, altitude, humidity, a)
				}
				if (humidity == 0) != (a.HumidityRatio == 0) {
					t.Errorf("%g K, %g m, %g: humidity ratio %g", temperature, altitude, humidity, a.HumidityRatio)
				}
			}
		}
	}
}

func TestHumidityRatioRefusesVapourAboveTheTotalPressure(t *testing.T) {
	for _, c := range []struct{ vapour, pressure float64 }{
		{-1, 101325}, {101325, 101325}, {2e5, 101325}, {math.NaN(), 101325}, {1000, math.NaN()}, {0, 0}, {0, -1}, {1000, math.Inf(1)},
	} {
		w, err := air.HumidityRatio(c.vapour, c.pressure)
		var re *quantity.RangeError
		if !errors.As(err, &re) || re.Key != "vapour_pressure" || re.Low != 0 || w != 0 {
			t.Errorf("%+v: %g, %v, want 0 and a RangeError", c, w, err)
		}
	}
}

// The vapour's share of the pressure must come back from the humidity ratio.
func TestVapourFractionIsTheShareOfThePressure(t *testing.T) {
	for _, temperature := range []float64{253.15, 283.15, 303.15, 333.15} {
		for _, humidity := range []float64{0, 0.3, 1} {
			a := atmosphere(t, temperature, 800, humidity)
			share := humidity * air.SaturationPressure(temperature) / a.Pressure
			if got := a.VapourFraction(); math.Abs(got-share) > 1e-12 {
				t.Errorf("%g K, %g: vapour fraction %g, want %g", temperature, humidity, got, share)
			}
		}
	}
	if x := atmosphere(t, 305.15, 0, 1).VapourFraction(); x > air.VapourLimit {
		t.Errorf("saturated air at 32 °C holds %g vapour, above the limit", x)
	}
	if x := atmosphere(t, 307.15, 0, 1).VapourFraction(); x < air.VapourLimit {
		t.Errorf("saturated air at 34 °C holds %g vapour, below the limit", x)
	}
}

// Mixing 0.95 of dry air and 0.05 of vapour by the rule of Wilke 1950, with the
// zero-density vapour properties of IAPWS R12-08 and R15-11, must differ from dry
// air by what the comment of VapourLimit says.
func TestVapourLimitBoundsTheErrorOfDryAirProperties(t *testing.T) {
	for _, temperature := range []float64{293.15, 313.15, 333.15} {
		dry := air.Atmosphere{Pressure: 101325}.At(temperature)
		tr := temperature / 647.096
		viscosity := 1e-4 * math.Sqrt(tr) / (1.67752 + (2.20462+(0.6366564-0.241605/tr)/tr)/tr)
		conductivity := 1e-3 * math.Sqrt(tr) / (2.443221e-3 + (1.323095e-2+(6.770357e-3+(-3.454586e-3+4.096266e-4/tr)/tr)/tr)/tr)
		const ma, mv = 28.966, 18.015268
		ratio := dry.Viscosity / viscosity
		airBesideVapour := math.Pow(1+math.Sqrt(ratio)*math.Pow(mv/ma, 0.25), 2) / math.Sqrt(8*(1+ma/mv))
		vapourBesideAir := math.Pow(1+math.Sqrt(1/ratio)*math.Pow(ma/mv, 0.25), 2) / math.Sqrt(8*(1+mv/ma))
		x := air.VapourLimit
		mix := func(a, v float64) float64 {
			return (1-x)*a/(1-x+x*airBesideVapour) + x*v/(x+(1-x)*vapourBesideAir)
		}
		if e := dry.Viscosity/mix(dry.Viscosity, viscosity) - 1; e < 0.022 || e > 0.0265 {
			t.Errorf("%g K: viscosity of dry air is %.2f %% too high", temperature, 100*e)
		}
		if e := dry.Conductivity/mix(dry.Conductivity, conductivity) - 1; e < 0.012 || e > 0.0165 {
			t.Errorf("%g K: conductivity of dry air is %.2f %% too high", temperature, 100*e)
		}
	}
}

// The standard atmosphere is in hydrostatic balance: dp/dz = -ρ g, with the
// temperature falling 6.5 K a kilometre of geopotential altitude and g weakening
// with distance from the centre of the earth.
func TestPressureIsHydrostatic(t *testing.T) {
	const radius = 6356766
	for z := -500.0; z <= 11000; z += 500 {
		temperature := 288.15 - 0.0065*radius*z/(radius+z)
		rho := air.Atmosphere{Pressure: air.PressureAtAltitude(z)}.Density(temperature)
		g := 9.80665 * math.Pow(radius/(radius+z), 2)
		slope := (air.PressureAtAltitude(z+1) - air.PressureAtAltitude(z-1)) / 2
		near(t, "dp/dz", slope, -rho*g, 1e-4) // gas constants of [1] and [2] differ by 4e-5
	}
}

// Clausius and Clapeyron: d ln p/dT = L/(Rv T²), with the latent heats of
// evaporation 2.5009 MJ/kg and sublimation 2.8345 MJ/kg at 0 °C (ASHRAE Handbook
// Fundamentals 2017, ch. 1, table 3, from memory).
func TestSaturationPressureGrowsByTheLatentHeat(t *testing.T) {
	slope := func(at float64) float64 {
		return math.Log(air.SaturationPressure(at+0.01)/air.SaturationPressure(at-0.01)) / 0.02
	}
	near(t, "latent heat of evaporation", slope(273.18)*461.5*273.18*273.18, 2.5009e6, 3e-3)
	near(t, "latent heat of sublimation", slope(273.14)*461.5*273.14*273.14, 2.8345e6, 3e-3)
	near(t, "pressure across the triple point",
		air.SaturationPressure(math.Nextafter(273.16, 300)), air.SaturationPressure(273.16), 1e-8)
}

func TestDryAirObeysTheGasLaw(t *testing.T) {
	a := atmosphere(t, 296.15, 180, 0)
	for _, temperature := range []float64{200, 296.15, 350, 1000} {
		p := a.At(temperature)
		near(t, "ρ R T", p.Density*287.042*temperature, a.Pressure, 1e-14)
		if p.SpecificHeat != 1006 {
			t.Errorf("specific heat of dry air %g", p.SpecificHeat)
		}
		if p.Density != a.Density(temperature) {
			t.Errorf("At and Density differ: %g, %g", p.Density, a.Density(temperature))
		}
	}
}

// Partial pressures add up: moist air is dry air at p-pw and vapour at pw.
func TestMoistAirIsTheSumOfItsParts(t *testing.T) {
	a := atmosphere(t, 308.15, 1200, 0.8)
	x := a.VapourFraction()
	dry := (1 - x) * a.Pressure / (287.042 * 308.15)
	vapour := x * a.Pressure / (461.524 * 308.15)
	near(t, "density", a.Density(308.15), dry+vapour, 1e-6)
	p := a.At(308.15)
	near(t, "heat capacity of a cubic metre", p.Density*p.SpecificHeat, dry*1006+vapour*1860, 1e-6)
}

func TestPropertiesAreSmoothAndMonotone(t *testing.T) {
	a := atmosphere(t, 303.15, 0, 0.5)
	before := a.At(199)
	for temperature := 200.0; temperature <= 1000; temperature++ {
		p := a.At(temperature)
		if !(p.Density > 0 && p.Density < before.Density && p.Viscosity > before.Viscosity &&
			p.Conductivity > before.Conductivity && p.SpecificHeat == before.SpecificHeat) {
			t.Fatalf("%g K: %+v after %+v", temperature, p, before)
		}
		if pr := p.Prandtl(); pr < 0.55 || pr > 0.8 {
			t.Errorf("%g K: Prandtl number %g", temperature, pr)
		}
		next := a.At(temperature + 1)
		for _, c := range [][3]float64{
			{before.Density, p.Density, next.Density},
			{before.Viscosity, p.Viscosity, next.Viscosity},
			{before.Conductivity, p.Conductivity, next.Conductivity},
		} {
			if bend := math.Abs(c[0]-2*c[1]+c[2]) / c[1]; bend > 6e-5 {
				t.Errorf("%g K: bend of %g", temperature, bend)
			}
		}
		before = p
	}
}

func TestDensityFallsWithAltitudeAndHumidity(t *testing.T) {
	low, high := atmosphere(t, 298.15, 0, 0.5), atmosphere(t, 298.15, 2000, 0.5)
	if !(low.Density(298.15) > high.Density(298.15)) {
		t.Error("air is not thinner at 2000 m")
	}
	dry, wet := atmosphere(t, 298.15, 0, 0), atmosphere(t, 298.15, 0, 1)
	if !(dry.Density(298.15) > wet.Density(298.15) && dry.SpecificHeat() < wet.SpecificHeat()) {
		t.Error("moist air is not lighter and of greater specific heat")
	}
}

func TestAtAllocatesNothing(t *testing.T) {
	a := atmosphere(t, 296.15, 180, 0.45)
	if n := testing.AllocsPerRun(100, func() { sink = a.At(310) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

var sink air.Properties

func BenchmarkAt(b *testing.B) {
	a := atmosphere(b, 296.15, 180, 0.45)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		sink = a.At(290 + float64(i&31))
	}
}
