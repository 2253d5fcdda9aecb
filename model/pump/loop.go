package pump

import (
	"errors"
	"math"

	"finduel/model/solve"
)

// Loop is what the coolant meets on its way beside the core: the plate, hoses and
// couplings.
type Loop struct {
	Drop     float64 // pressure drop at DropFlow, of the coolant as warm as it runs, Pa, 0 or more
	DropFlow float64 // volume flow at which Drop is stated, m³/s, above 0
}

// TypicalLoop returns what is taken for plate and hoses where nothing is said: 12 kPa
// at 4 L/min, of which a plate with fine fins takes 5 to 20 kPa and a metre of hose
// with a bore of 10 mm about 1 kPa (common practice, no source).
func TypicalLoop() Loop { return Loop{Drop: 12000, DropFlow: 4. / 60000} }

// Check returns joined *quantity.RangeError for what no loop can have.
func (l Loop) Check() error {
	return errors.Join(
		within(l.Drop, 0, math.MaxFloat64, "loop_drop", "must be zero or more and finite"),
		within(l.DropFlow, math.SmallestNonzeroFloat64, math.MaxFloat64, "loop_drop_flow", "must be above zero and finite"),
	)
}

// PressureDrop returns the pressure drop of plate and hoses, Pa, at a volume flow,
// m³/s, 0 or more:
//
//	Δp = Δp_0 (V/V_0)^1.75
//
// The exponent is that of turbulent flow in smooth passages [1]; fine plates have a
// lower one, couplings and bends one of 2. Two roots are quicker than a power.
//
// Check: twice the flow takes 3.3636 times the pressure.
func (l Loop) PressureDrop(flow float64) float64 {
	share := flow / l.DropFlow
	root := math.Sqrt(share)
	return l.Drop * share * root * math.Sqrt(root)
}

// turbulent is the exponent of flow in PressureDrop, by which Flow steps.
const turbulent = 1.75

// Flow returns the volume flow, m³/s, at which the pump makes what the loop and the
// core take, and false if the search fails. core is the core's pressure drop, Pa, at
// a volume flow, m³/s, above 0; it must be 0 or more and not fall as the flow rises.
// The pump's pressure falls with the flow, so there is one such flow, above none and
// up to the free flow; it is found to 1e-10. The search begins at a guess of the flow;
// one that cannot be, such as 0, counts for none.
//
// Check: a curve with e = 1.75 and a core that takes nothing give
// V_0 [p_0/(p_0 + Δp(V_0))]^(1/1.75).
func Flow(p Pump, l Loop, core func(flow float64) float64, guess float64) (float64, bool) {
	excess := func(flow float64) float64 {
		if flow == 0 {
			return p.ShutOffPressure
		}
		return p.Pressure(flow) - l.PressureDrop(flow) - core(flow)
	}
	if !(guess > 0 && guess < p.FreeFlow) {
		free := l.PressureDrop(p.FreeFlow) + core(p.FreeFlow)
		guess = p.FreeFlow * math.Pow(p.ShutOffPressure/(p.ShutOffPressure+free), 1/turbulent)
	}
	made, taken := p.Pressure(guess), l.PressureDrop(guess)+core(guess)
	fall := (p.CurveExponent*(p.ShutOffPressure-made) + turbulent*taken) / guess
	root := solve.RootNear(excess, 0, p.FreeFlow, guess, made-taken, guess+(made-taken)/fall, nearBalance*p.ShutOffPressure)
	if root.Slope != 0 {
		fall = -root.Slope
	}
	return root.X + root.F/fall, root.Outcome == solve.Converged
}

// nearBalance is how far pump and way may be from balance, over the shut-off pressure,
// where the search ends: the step from there leads to where they are.
const nearBalance = 2e-10
