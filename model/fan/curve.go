package fan

import "math"

// Pressure returns the static pressure, Pa, of the fan at a speed in rev/s, a
// volume flow in m³/s and an air density in kg/m³ at its inlet, all above 0
// (flow may be 0):
//
//	p = p_0 (N/N_0)² (ρ/ρ_0) [1 − (V/V_free)^m],  V_free = V_0 N/N_0
//
// or, in the place of the brackets, the shape of its measured curve. The scaling is
// that of the fan laws [1]; the shape without points is common practice, no source.
// Beyond the free-air flow the pressure is negative: the fan would brake the air.
//
// Check: at rated speed and density and half of the free-air flow a straight curve
// makes half of the shut-off pressure, one with m = 2 three quarters.
func (f *Fan) Pressure(speed, flow, density float64) float64 {
	share := flow / f.FreeFlow(speed)
	if f.Curve != nil {
		return f.ShutOff(speed, density) * f.Curve.Pressure(share)
	}
	if f.CurveExponent != 1 {
		share = math.Pow(share, f.CurveExponent)
	}
	return f.ShutOff(speed, density) * (1 - share)
}

// FreeFlow returns the volume flow without resistance, m³/s, at a speed in
// rev/s. It does not depend on density.                                       [1]
//
// Check: twice the speed moves twice the volume.
func (f *Fan) FreeFlow(speed float64) float64 {
	return f.FreeAirFlow * speed / f.RatedSpeed
}

// ShutOff returns the static pressure without flow, Pa, at a speed in rev/s and
// an inlet density in kg/m³: it grows with N² ρ.                              [1]
//
// Check: twice the speed makes four times the pressure.
func (f *Fan) ShutOff(speed, density float64) float64 {
	n := speed / f.RatedSpeed
	return f.ShutOffPressure * n * n * density / f.RatedDensity
}

// Stall says below which shares of free-air flow an axial fan misbehaves.
type Stall struct {
	Onset float64 // below: less flow than the curve says, noise; 0: no stall known
	Deep  float64 // below: stalled blades; 0: not known
}

// Stall returns where the fan stalls: on a measured curve below the peak that lies
// nearest to free air, and deep below the valley beside it, whatever further saddles
// there are, see Curve.Saddle; nowhere if it falls all the way, for then no stall is known. Without a measured curve that is 60 % and 35 % (common practice, no
// source): a data sheet of two points does not show the saddle.
func (f *Fan) Stall() Stall {
	if f.Curve == nil {
		return Stall{StallRegion, DeepStall}
	}
	if f.Curve.dataFrom > 0 {
		return Stall{Onset: f.Curve.dataFrom}
	}
	turns := f.Curve.Turns()
	if len(turns) == 0 {
		return Stall{}
	}
	return Stall{Onset: turns[0].Peak, Deep: turns[0].Valley}
}
