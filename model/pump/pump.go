package pump

import (
	"errors"
	"math"

	"finduel/model/quantity"
)

// Pump is a small centrifugal pump at one speed by the two ends of its curve.
type Pump struct {
	ShutOffPressure float64 // pressure without flow, Pa, above 0; the head of a data sheet in m of water times 9806.65
	FreeFlow        float64 // volume flow without resistance, m³/s, above 0
	CurveExponent   float64 // e of the curve, 1 to 3
}

// TypicalExponent is the exponent of a pump's curve where its data sheet has but the
// two ends (common practice, no source).
const TypicalExponent = 1.8

// Check returns joined *quantity.RangeError for every number that no pump can have.
func (p Pump) Check() error {
	return errors.Join(
		within(p.ShutOffPressure, math.SmallestNonzeroFloat64, math.MaxFloat64, "pump_head", "must be above zero and finite"),
		within(p.FreeFlow, math.SmallestNonzeroFloat64, math.MaxFloat64, "pump_free_flow", "must be above zero and finite"),
		within(p.CurveExponent, 1, 3, "pump_exponent", "must lie between 1 and 3"),
	)
}

// Pressure returns the pressure, Pa, that the pump makes at a volume flow, m³/s, 0
// or more:
//
//	p = p_0 [1 − (V/V_0)^e]
//
// The shape is common practice, no source. It falls all the way from shut-off to free
// flow; beyond, the pressure is negative.
//
// Check: at half of the free flow e = 1.8 leaves 71.28 % of the shut-off pressure.
func (p Pump) Pressure(flow float64) float64 {
	return p.ShutOffPressure * (1 - math.Exp(p.CurveExponent*math.Log(flow/p.FreeFlow)))
}

// HydraulicPower returns the power, W, that a flow, m³/s, against a pressure, Pa,
// takes: p V. It ends as heat in the coolant, like all the pump's other power.
//
// Check: 100 US gallons an hour against 5 psi take 3.62 W.
func HydraulicPower(pressure, flow float64) float64 { return pressure * flow }

// within is false for NaN too.
func within(v, low, high float64, key, rule string) error {
	if v >= low && v <= high {
		return nil
	}
	return &quantity.RangeError{Key: key, Value: v, Low: low, High: high, Rule: rule}
}
