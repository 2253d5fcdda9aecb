package fan

import (
	"errors"
	"math"
)

// MostPoints is how many points a digitised curve may have.
const MostPoints = 24

// longestTail is how far free air may lie beyond the last point, over its flow.
const longestTail = 1.5

// fewestPoints make a curve that is more than the straight line of a data sheet.
const fewestPoints = 3

// Why points make no curve.
var (
	ErrPointCount    = errors.New("a fan curve has 3 to 24 points")
	ErrPointOrder    = errors.New("the flow of each point must be above that of the one before")
	ErrNoShutOff     = errors.New("the first point must be the shut-off pressure, at no flow")
	ErrPointSign     = errors.New("pressures must be above zero, that of the last point zero or more")
	ErrLastRises     = errors.New("the last point must lie below the one before: free air lies further on")
	ErrFarFromFree   = errors.New("the last points fall too gently to tell where free air is: give a point nearer to no pressure")
	ErrPointPower    = errors.New("every point must have a power above zero, or none")
	ErrPointInfinite = errors.New("flow, pressure and power must be finite")
)

// PointError says which point of a curve is wrong.
type PointError struct {
	Index int   // of the point, from 0
	Err   error // one of the errors above
}

// Error returns what is wrong.
func (e *PointError) Error() string { return e.Err.Error() }

// Unwrap returns the error that is wrapped.
func (e *PointError) Unwrap() error { return e.Err }

// CurvePoint is one point of a measured curve.
type CurvePoint struct {
	Flow     float64 // m³/s, 0 or more
	Pressure float64 // static, Pa
	Power    float64 // W; 0: not measured
}

// Curve is the shape of a fan's curve: pressure over shut-off pressure, and power
// over that in free air, against the share of free-air flow. It is made once and not
// changed: copies of a fan share it.
//
// Between the points runs a monotone piecewise cubic: it has no hump that the points
// have not, and keeps a saddle where they have one.
type Curve struct {
	points   int
	share    [MostPoints]float64 // of free-air flow, 0 at the first, 1 at the last
	pressure [MostPoints]float64 // over shut-off pressure
	slope    [MostPoints]float64 // of pressure, over share
	power    [MostPoints]float64 // over power in free air; all 0: the same everywhere
	incline  [MostPoints]float64 // of power

	turns     [MostPoints / 2]Turn // where pressure rises with flow, from free air towards shut-off
	turnCount int

	leastPower, mostPower float64 // shares at which the power is least and most

	dataFrom float64 // share below which there are no data, but a guess; 0: data everywhere
}

// Rating is what a curve's shape is scaled by.
type Rating struct {
	FreeAirFlow     float64 // m³/s
	ShutOffPressure float64 // Pa
	Power           float64 // W, in free air; 0: not measured
}

// NewCurve returns the shape of a curve through points, in order of their flow, the
// first at no flow, and what the shape is scaled by. A last point above no pressure is
// continued by a straight line to free air, along the last piece. It returns one of
// the errors above if the points make no curve, as a *PointError where one is to blame.
//
// The slopes at the points are the harmonic mean of Fritsch and Butland:
//
//	1/d = α/Δ₋ + (1 − α)/Δ₊,  α = (h₋ + 2h₊)/(3(h₋ + h₊))                    [6]
//
// and 0 where the points turn.
func NewCurve(points []CurvePoint) (*Curve, Rating, error) {
	if err := checkPoints(points); err != nil {
		return nil, Rating{}, err
	}
	c := &Curve{points: len(points)}
	last := points[len(points)-1]
	free := last.Flow
	if last.Pressure > 0 {
		before := points[len(points)-2]
		free += last.Pressure * (last.Flow - before.Flow) / (before.Pressure - last.Pressure)
		c.points++
		if free > longestTail*last.Flow {
			return nil, Rating{}, ErrFarFromFree
		}
	}
	rating := Rating{FreeAirFlow: free, ShutOffPressure: points[0].Pressure, Power: last.Power}
	for i, p := range points {
		c.share[i], c.pressure[i] = p.Flow/free, p.Pressure/rating.ShutOffPressure
		if rating.Power > 0 {
			c.power[i] = p.Power / rating.Power
		}
	}
	end := c.points - 1
	c.share[end], c.pressure[end] = 1, 0
	if rating.Power > 0 {
		c.power[end] = 1
	}
	c.fill()
	return c, rating, nil
}

func (c *Curve) fill() {
	slopes(c.share[:c.points], c.pressure[:c.points], c.slope[:c.points])
	slopes(c.share[:c.points], c.power[:c.points], c.incline[:c.points])
	c.findTurns()
	c.findPowers()
}

func checkPoints(points []CurvePoint) error {
	if len(points) < fewestPoints || len(points) >= MostPoints {
		return ErrPointCount
	}
	end := len(points) - 1
	for i, p := range points {
		if sum := p.Flow + p.Pressure + p.Power; math.IsNaN(sum) || math.IsInf(sum, 0) {
			return &PointError{i, ErrPointInfinite}
		}
		switch {
		case i == 0 && p.Flow != 0:
			return &PointError{i, ErrNoShutOff}
		case i > 0 && p.Flow <= points[i-1].Flow:
			return &PointError{i, ErrPointOrder}
		case p.Pressure < 0 || p.Pressure == 0 && i < end:
			return &PointError{i, ErrPointSign}
		case p.Power < 0 || (p.Power == 0) != (points[0].Power == 0):
			return &PointError{i, ErrPointPower}
		}
	}
	if points[end].Pressure >= points[end-1].Pressure {
		return &PointError{end, ErrLastRises}
	}
	return nil
}

// slopes fills in the slope at every point of a monotone piecewise cubic.
func slopes(x, y, d []float64) {
	end := len(x) - 1
	for i := 1; i < end; i++ {
		left, right := x[i]-x[i-1], x[i+1]-x[i]
		a, b := (y[i]-y[i-1])/left, (y[i+1]-y[i])/right
		if a*b > 0 {
			weight := (left + 2*right) / (3 * (left + right))
			d[i] = a * b / (weight*b + (1-weight)*a)
		}
	}
	d[0] = endSlope(x[1]-x[0], x[2]-x[1], (y[1]-y[0])/(x[1]-x[0]), (y[2]-y[1])/(x[2]-x[1]))
	h, g := x[end]-x[end-1], x[end-1]-x[end-2]
	d[end] = endSlope(h, g, (y[end]-y[end-1])/h, (y[end-1]-y[end-2])/g)
}

// endSlope is the three-point slope at an end, kept such that the cubic stays
// monotone: h and a are width and slope of the last piece, g and b of the one before. [6]
func endSlope(h, g, a, b float64) float64 {
	d := ((2*h+g)*a - h*b) / (h + g)
	switch {
	case d*a <= 0:
		return 0
	case a*b <= 0 && math.Abs(d) > 3*math.Abs(a):
		return 3 * a
	}
	return d
}

// Points returns the points of the shape, with the one in free air: flow as a share of
// free-air flow, pressure of shut-off pressure and power of that in free air, 0 if it was
// not measured.
func (c *Curve) Points() []CurvePoint {
	points := make([]CurvePoint, c.points)
	for i := range points {
		points[i] = CurvePoint{c.share[i], c.pressure[i], c.power[i]}
	}
	return points
}

// Pressure returns the pressure over shut-off pressure at a share of free-air flow, 0
// or more. Beyond free air it falls on along the last slope: the fan brakes the air.
func (c *Curve) Pressure(share float64) float64 {
	if share >= 1 {
		return c.slope[c.points-1] * (share - 1)
	}
	return c.cubic(share, &c.pressure, &c.slope)
}

// Power returns the power over that in free air at a share of free-air flow, 0 or
// more; 1 where it was not measured, and beyond free air.
func (c *Curve) Power(share float64) float64 {
	if c.power[0] == 0 || share >= 1 {
		return 1
	}
	return c.cubic(share, &c.power, &c.incline)
}

// findPowers finds where the power is least and most: at two of the points, since the
// cubic has no hump between them.
func (c *Curve) findPowers() {
	low, high := c.points-1, c.points-1
	for i, p := range c.power[:c.points] {
		if p < c.power[low] {
			low = i
		}
		if p > c.power[high] {
			high = i
		}
	}
	c.leastPower, c.mostPower = c.share[low], c.share[high]
}

// Uneven reports whether the power was measured and changes with flow.
func (c *Curve) Uneven() bool { return c.leastPower != c.mostPower }

// Dip returns the least pressure over shut-off pressure between no flow and the peak that
// lies nearest to free air; 1 for a curve that falls all the way.
func (c *Curve) Dip() float64 {
	dip := 1.0
	for _, t := range c.Turns() {
		dip = min(dip, c.Pressure(t.Valley))
	}
	return dip
}

func (c *Curve) cubic(share float64, y, d *[MostPoints]float64) float64 {
	if share <= 0 {
		return y[0]
	}
	i := 1
	for c.share[i] < share {
		i++
	}
	h := c.share[i] - c.share[i-1]
	t := (share - c.share[i-1]) / h
	u := 1 - t
	return u*u*((1+2*t)*y[i-1]+t*h*d[i-1]) + t*t*((1+2*u)*y[i]-u*h*d[i])
}

// Turn is where a curve stops rising, or falling, on the way to free air.
type Turn struct {
	Valley, Peak float64 // shares of free-air flow between which the pressure rises
}

// Turns returns the stretches in which pressure rises with flow, from free air
// towards shut-off; a curve that falls all the way has none. They belong to the curve.
func (c *Curve) Turns() []Turn { return c.turns[:c.turnCount] }

func (c *Curve) findTurns() {
	c.turnCount = 0
	for i := c.points - 1; i > 0; i-- {
		if c.pressure[i] <= c.pressure[i-1] {
			continue
		}
		peak := c.share[i]
		for i > 0 && c.pressure[i] > c.pressure[i-1] {
			i--
		}
		c.turns[c.turnCount] = Turn{Valley: c.share[i], Peak: peak}
		c.turnCount++
		i++
	}
}

// Saddle reports whether a share of free-air flow lies where the pressure rises with
// flow: in any of the saddles that the curve has.
func (c *Curve) Saddle(share float64) bool {
	for _, t := range c.Turns() {
		if share >= t.Valley && share < t.Peak {
			return true
		}
	}
	return false
}
