package fan

import (
	"errors"
	"math"

	"finduel/model/quantity"
)

// Propeller is a free propeller that is put to work as a fan, by its size and,
// where they are known, its static coefficients.
type Propeller struct {
	Diameter          float64 // m, 0.01 to 5
	Pitch             float64 // way forward in one turn without slip, m; 0.4 to 1.6 diameters
	Blades            int     // 2 to 12
	ThrustCoefficient float64 // CT0 = T/(ρ n² D⁴) without flight speed; 0: that of the nearest in the table
	PowerCoefficient  float64 // CP0 = P/(ρ n³ D⁵) without flight speed; 0: likewise, both or neither
}

// Check returns joined *quantity.RangeError for what no propeller can be, and for
// coefficients that no propeller can have together: more thrust than momentum
// theory allows for the power, or so much for the pitch that the flow through the
// disc would fall as the resistance falls.
func (p *Propeller) Check() error {
	err := errors.Join(
		within(p.Diameter, 0.01, 5, "rotor_diameter", "must lie between 10 mm and 5 m"),
		within(p.Pitch, 0.4*p.Diameter, 1.6*p.Diameter, "pitch", "must lie between 0.4 and 1.6 rotor diameters"),
		within(float64(p.Blades), 2, 12, "blades", "must lie between 2 and 12"),
	)
	if p.ThrustCoefficient == 0 && p.PowerCoefficient == 0 {
		return err
	}
	coefficients := errors.Join(
		within(p.ThrustCoefficient, 0.02, 0.5, "thrust_coefficient", "must lie between 0.02 and 0.5, and be given with power_coefficient, or be 0 for that of a measured propeller"),
		within(p.PowerCoefficient, 0.005, 1, "power_coefficient", "must lie between 0.005 and 1, and be given with thrust_coefficient, or be 0 for that of a measured propeller"),
	)
	if err != nil || coefficients != nil {
		return errors.Join(err, coefficients)
	}
	least := point(0, p.ThrustCoefficient, 1).Efficiency()
	c := p.At(1)
	return errors.Join(
		within(p.PowerCoefficient, least, 1, "power_coefficient", "must be so large that the figure of merit, 0.798 CT^1.5/CP, is at most 1"),
		c.rising(),
	)
}

// Shares of the doubt of a rotor's curve. Tip gap, lip and inlet of an improvised
// shroud make the first (ours, no source). The second is how far the one propeller
// with points in flight that is not in the table lies below the course that the
// table lends it: by a tenth near the static point, by a third near free air (see
// the tests).
const (
	courseDoubt   = 0.15 // of pressure and power, where there are data
	borrowedDoubt = 0.35 // the low end of pressure at free air, where the course is another propeller's
	stalledPower  = 0.20 // of power left of the data
	steepestRise  = 0.50 // of pressure, from the static point to shut-off
	shutOffRise   = steepestRise / 2
	sameWithin    = 0.05 // distance up to which a sample counts as the propeller itself
)

// mostPoints is room for the longest course of the table with its stalled branch.
const mostPoints = 16

// Point is one state of a rotor in a close straight shroud, without dimension. u
// is the tip speed, A the area of the disc.
type Point struct {
	AdvanceRatio              float64 // J of the open propeller that has this disc flow, 0 left of the static point
	FlowCoefficient           float64 // φ = V/(A u)
	PressureCoefficient       float64 // ψ = Δp/(½ρu²), total
	StaticPressureCoefficient float64 // ψ − φ²: what is left when the velocity head of the disc flow is lost
	PowerCoefficient          float64 // CP = P/(ρ n³ D⁵), shaft
}

// point returns the state of an open propeller as that of one in a shroud; see
// Propeller.At.
func point(advance, thrust, power float64) Point {
	disc := advance/2 + math.Sqrt(advance*advance/4+2*thrust/math.Pi)
	phi, psi := disc/math.Pi, 8/(math.Pi*math.Pi*math.Pi)*thrust
	return Point{advance, phi, psi, psi - phi*phi, power}
}

// Efficiency returns the air power of the total pressure over the shaft power:
//
//	η = CT J_d/CP = (π⁴/8) φ ψ/CP
//
// At the static point it is the figure of merit, √(2/π) CT^1.5/CP, of the open
// propeller (definition, not the helicopter's: there the coefficients are others).
//
// Check: CT 0.12538, CP 0.08864 at J = 0 make 0.400.
func (p Point) Efficiency() float64 {
	const pi4 = math.Pi * math.Pi * math.Pi * math.Pi
	return pi4 / 8 * p.FlowCoefficient * p.PressureCoefficient / p.PowerCoefficient
}

// Characteristic is the curve of a rotor in a close straight shroud at one speed.
type Characteristic struct {
	Diameter          float64 // m
	ThrustCoefficient float64 // CT0 used
	PowerCoefficient  float64 // CP0 used
	Coefficients      Match   // whose coefficients these are; the nearest still, if they were given
	Extent            Extent  // how the speed lies to what was measured there; Measured if they were given
	Course            Match   // whose change with flow was taken
	given             bool    // whether the coefficients were given, not lent

	Points  [mostPoints]Point // from shut-off to zero thrust, by rising flow
	Count   int               // how many of Points hold
	Static  int               // which of Points is the static one, where the data begin
	FreeAir Point             // where the static pressure ends
}

// At returns the characteristic at a speed in rev/s, above 0. The propeller must
// have passed Check.
//
// Each measured point of an open propeller (J, CT, CP) has a pressure jump at its
// disc and a flow through it, by momentum theory (Rankine and Froude; the algebra
// is written out here):
//
//	Δp = T/A                    ψ = (8/π³) CT
//	T = 2 ρ A V_d (V_d − V)     J_d = J/2 + √(J²/4 + 2 CT/π),  φ = J_d/π
//
// The same blades in a close straight shroud see the same disc flow at the same
// pressure jump. Behind the disc the velocity head ½ρV_d² is lost (nothing is
// recovered in a plenum), so ψ − φ² is the static pressure that the core gets.
//
// CT0 and CP0 are as given or those of the nearest propeller of the table, at the
// speed at which its Reynolds number is the same, n (D/D_s)². How they change with
// J is taken from the nearest propeller measured in flight: its CT/CT0 and CP/CP0
// over J/J_0, with the advance ratio of zero thrust J_0 in proportion to the pitch
// ratio. The two measured ones have 1.083 and 1.165 times their pitch ratio, so
// expect ±6 % in J_0.
//
// Left of the static point the blades stall and there are no data. The total
// pressure is taken to rise in a straight line to 1.25 times the static point's at
// shut-off, in the middle between flat and +50 %, at the power of the static point
// (common practice, no source); see Doubt.
//
// Not modelled: what the shroud itself does (a bell mouth and a gap of 0.1 % of
// the diameter do better, a gap of 2 % about as said here or worse), swirl, and
// compressibility: keep the tips below a Mach number of 0.6.
//
// Check: CT 0.12538 at J = 0 makes φ 0.0899 and ψ 0.03235; CT 0.06541 at J = 0.5741
// makes 0.2035 and 0.01688.
func (p *Propeller) At(speed float64) Characteristic {
	c := Characteristic{
		Diameter:          p.Diameter,
		ThrustCoefficient: p.ThrustCoefficient,
		PowerCoefficient:  p.PowerCoefficient,
		Coefficients:      nearest(p.Diameter, p.Pitch, p.Blades, false),
		Course:            nearest(p.Diameter, p.Pitch, p.Blades, true),
	}
	if c.given = p.ThrustCoefficient != 0; !c.given {
		size := c.Coefficients.Size
		c.ThrustCoefficient, c.PowerCoefficient, c.Extent = c.Coefficients.Sample.Static(speed * size * size)
	}
	static := point(0, c.ThrustCoefficient, c.PowerCoefficient)
	c.add(stalled(static, 0))
	c.add(stalled(static, 0.5))
	c.Static = c.Count
	s := &c.Course.Sample
	reference := s.measured.advancing[0]
	stretch := p.Pitch / p.Diameter / (s.Pitch / s.Diameter)
	add := func(r advanceRow) {
		c.add(point(r.advance*stretch, r.thrust/reference.thrust*c.ThrustCoefficient, r.power/reference.power*c.PowerCoefficient))
	}
	for _, r := range s.measured.advancing {
		add(r)
	}
	add(s.zeroThrust())
	c.FreeAir = c.freeAir()
	return c
}

// Lent returns how a speed in rev/s lies to those at which the propeller was measured
// that lends its coefficients, at equal Reynolds number; Measured if none does.
//
// Check: 5 by 3.75 inches of two blades, measured from 1 410 to 7 440 rpm, is below at
// 1 400 rpm.
func (c *Characteristic) Lent(speed float64) Extent {
	if c.given {
		return Measured
	}
	_, _, extent := c.Coefficients.Sample.Static(speed * c.Coefficients.Size * c.Coefficients.Size)
	return extent
}

func (c *Characteristic) add(p Point) {
	c.Points[c.Count] = p
	c.Count++
}

// stalled returns the point at a share, 0 to 1, of the static point's flow.
func stalled(static Point, share float64) Point {
	phi := share * static.FlowCoefficient
	psi := static.PressureCoefficient * (1 + shutOffRise*(1-share))
	return Point{0, phi, psi, psi - phi*phi, static.PowerCoefficient}
}

// freeAirThrust is the coefficient of thrust over J² at which the head of the disc
// flow is all the pressure there is: ψ = φ² makes V_d = 4/3 V and CT = (2π/9) J².
const freeAirThrust = 2 * math.Pi / 9

// freeAir returns the point without static pressure. CT is straight between the
// points, so that it is the root of a quadratic. There always is one: at J = 0 the
// thrust is above what is sought, at its end below.
func (c *Characteristic) freeAir() Point {
	i := c.Static
	for i < c.Count-2 && c.Points[i+1].StaticPressureCoefficient > 0 {
		i++
	}
	a, b := c.Points[i], c.Points[i+1]
	ta, tb := thrust(a), thrust(b)
	slope := (tb - ta) / (b.AdvanceRatio - a.AdvanceRatio)
	start := ta - slope*a.AdvanceRatio
	free := c.advancing(2 * start / (math.Sqrt(slope*slope+4*freeAirThrust*start) - slope))
	free.StaticPressureCoefficient = 0 // rounding apart, it is
	return free
}

func thrust(p Point) float64 { return math.Pi * math.Pi * math.Pi / 8 * p.PressureCoefficient }

// advancing returns the point at an advance ratio, 0 to that of zero thrust, with
// CT and CP straight between the points.
func (c *Characteristic) advancing(j float64) Point {
	i := c.Static
	for i < c.Count-2 && c.Points[i+1].AdvanceRatio < j {
		i++
	}
	a, b := c.Points[i], c.Points[i+1]
	share := (j - a.AdvanceRatio) / (b.AdvanceRatio - a.AdvanceRatio)
	return point(j, thrust(a)+share*(thrust(b)-thrust(a)), a.PowerCoefficient+share*(b.PowerCoefficient-a.PowerCoefficient))
}

// rising returns a *quantity.RangeError if the flow does not rise from point to
// point.
func (c *Characteristic) rising() error {
	for i := 1; i < c.Count; i++ {
		if !(c.Points[i].FlowCoefficient > c.Points[i-1].FlowCoefficient) {
			return &quantity.RangeError{Key: "thrust_coefficient", Value: c.ThrustCoefficient, Low: 0.02, High: math.Inf(1), Rule: "must suit the pitch: so much thrust at so flat a pitch belongs to no propeller measured"}
		}
	}
	return nil
}

// StaticShare returns the flow of the static point as a share of free-air flow:
// below it there are no data.
func (c *Characteristic) StaticShare() float64 {
	return c.Points[c.Static].FlowCoefficient / c.FreeAir.FlowCoefficient
}

// Flow returns the volume flow, m³/s, of a flow coefficient at a speed in rev/s.
//
// Check: φ 0.0912 of 127 mm at 20 000 rpm is 553 m³/h.
func (c *Characteristic) Flow(phi, speed float64) float64 {
	return phi * math.Pi / 4 * c.Diameter * c.Diameter * c.tipSpeed(speed)
}

// Pressure returns the pressure, Pa, of a pressure coefficient at a speed in rev/s
// and an air density in kg/m³.
//
// Check: ψ 0.0333 of 127 mm at 20 000 rpm in 1.2 kg/m³ is 353 Pa.
func (c *Characteristic) Pressure(psi, speed, density float64) float64 {
	u := c.tipSpeed(speed)
	return psi * density / 2 * u * u
}

// Power returns the shaft power, W, of a power coefficient at a speed in rev/s and
// an air density in kg/m³.
//
// Check: CP 0.092551 of 127 mm at 20 000 rpm in 1.2 kg/m³ is 135.9 W.
func (c *Characteristic) Power(coefficient, speed, density float64) float64 {
	d := c.Diameter
	return coefficient * density * speed * speed * speed * d * d * d * d * d
}

func (c *Characteristic) tipSpeed(speed float64) float64 { return math.Pi * c.Diameter * speed }

// FreeAirFlow returns the volume flow without resistance, m³/s, at a speed in
// rev/s.
func (c *Characteristic) FreeAirFlow(speed float64) float64 {
	return c.Flow(c.FreeAir.FlowCoefficient, speed)
}

// ShutOffPressure returns the static pressure without flow, Pa, at a speed in rev/s
// and an air density in kg/m³. It is not measured; see Doubt.
func (c *Characteristic) ShutOffPressure(speed, density float64) float64 {
	return c.Pressure(c.Points[0].StaticPressureCoefficient, speed, density)
}

// FreeAirPower returns the shaft power at free-air flow, W, at a speed in rev/s and
// an air density in kg/m³.
func (c *Characteristic) FreeAirPower(speed, density float64) float64 {
	return c.Power(c.FreeAir.PowerCoefficient, speed, density)
}

// Stations of Shape on the stalled branch and on the measured one.
const (
	stalledStations  = 4
	measuredStations = 9
)

// Shape is a curve whose ends are 1: Count points by rising flow.
type Shape struct {
	Count    int
	Flow     [mostPoints]float64 // share of free-air flow, from 0 to 1
	Pressure [mostPoints]float64 // static, share of shut-off pressure, from 1 to 0
	Power    [mostPoints]float64 // shaft, share of the power at free-air flow
}

// Shape returns the curve in shares of FreeAirFlow, ShutOffPressure and
// FreeAirPower, at thirteen points: four left of the static point, nine from it to
// free air by even steps of the advance ratio.
func (c *Characteristic) Shape() Shape {
	var s Shape
	add := func(p Point) {
		s.Flow[s.Count] = p.FlowCoefficient / c.FreeAir.FlowCoefficient
		s.Pressure[s.Count] = p.StaticPressureCoefficient / c.Points[0].StaticPressureCoefficient
		s.Power[s.Count] = p.PowerCoefficient / c.FreeAir.PowerCoefficient
		s.Count++
	}
	for i := range stalledStations {
		add(stalled(c.Points[c.Static], float64(i)/stalledStations))
	}
	for i := range measuredStations - 1 {
		add(c.advancing(c.FreeAir.AdvanceRatio * float64(i) / (measuredStations - 1)))
	}
	add(c.FreeAir)
	return s
}

// Doubt says how far a rotor's curve may be out, as shares of its value.
type Doubt struct {
	PressureLow  float64 // of the total pressure, 0 or below
	PressureHigh float64 // of the total pressure, 0 or above
	Power        float64 // of the shaft power, either way
}

// Doubt returns how far pressure and power may be out at a share of free-air flow,
// 0 or more. Where there are data: ±15 %, or, where the course is that of another
// propeller, −15 % at the static point to −35 % at free air. Left of them it widens
// in a straight line to shut-off, where a flat branch at the low end of that is as
// possible as one that rises by 50 % at the high end; the power is then known to
// ±20 %.
//
// Check: −32 and +38 % at shut-off; ±15 % at free air of a propeller of the table
// that was measured in flight.
func (c *Characteristic) Doubt(share float64) Doubt {
	static := c.StaticShare()
	if share >= static {
		low := courseDoubt
		if c.Course.Distance > sameWithin {
			low += (borrowedDoubt - courseDoubt) * math.Min((share-static)/(1-static), 1)
		}
		return Doubt{-low, courseDoubt, courseDoubt}
	}
	stall := 1 - share/static
	rise := 1 + shutOffRise*stall
	return Doubt{(1-courseDoubt)/rise - 1, (1+courseDoubt)*(1+steepestRise*stall)/rise - 1, stalledPower}
}

// TipSpeed returns the speed of the blade tips, m/s, at a speed in rev/s; see
// Fan.TipSpeed.
func (p *Propeller) TipSpeed(speed float64) float64 { return math.Pi * p.Diameter * speed }
