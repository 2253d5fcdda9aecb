package render

import (
	"slices"
	"strings"

	"finduel/model"
	"finduel/model/fan"
	"finduel/model/quantity"
	"finduel/sweep"
)

// lender returns the characteristic of a propeller whose coefficients a measured one
// lends, and false of any other fan.
func lender(rig *model.Rig) (*fan.Characteristic, bool) {
	f := &rig.Fans.Fan
	if f.Pitch == 0 || f.ThrustCoefficient != 0 {
		return nil, false
	}
	_, c, err := f.Resolved()
	return c, err == nil
}

// PowerDoubt returns how far the shaft power of a propeller may be out either way, as a
// share, at a share of its free-air flow, and false of any other fan.
func PowerDoubt(rig *model.Rig, share float64) (doubt float64, ok bool) {
	_, c, err := rig.Fans.Fan.Resolved()
	if err != nil || c == nil {
		return 0, false
	}
	return c.Doubt(share).Power, true
}

// measured says a propeller of the table as it was measured: "127 × 95.3 mm, 2 blades".
func measured(s *fan.Sample) string {
	q := quantity.Must("rotor_diameter")
	return Given(q, s.Diameter) + " × " + WithUnit(q, Number(q, s.Pitch)) + ", " + Counted(s.Blades, "blade")
}

// Lent says the coefficients of a propeller that has none of its own, and whose they are;
// empty for any other fan: "static thrust coefficient 0.129 and power coefficient 0.0926,
// lent by the nearest measured propeller: 127 × 95.3 mm, 2 blades (run 1121md), measured at what
// are 1 410 to 7 440 rpm here, at equal Reynolds number".
func Lent(rig *model.Rig) string {
	c, ok := lender(rig)
	if !ok {
		return ""
	}
	low, high := c.Coefficients.Speeds()
	return "static thrust coefficient " + Computed("thrust_coefficient", c.ThrustCoefficient) + " and power coefficient " + Computed("power_coefficient", c.PowerCoefficient) +
		", lent by the nearest measured propeller: " + measured(&c.Coefficients.Sample) + " (run " + c.Coefficients.Sample.Run + "), measured at what are " +
		Number(quantity.Must("fan_speed"), low) + " to " + Computed("fan_speed", high) + " here, at equal Reynolds number"
}

// LentTo says the value of one coefficient that is lent, by its key, and by whom; empty
// for any other input or fan.
func LentTo(rig *model.Rig, key string) string {
	c, ok := lender(rig)
	v := 0.0
	switch {
	case !ok:
		return ""
	case key == "thrust_coefficient":
		v = c.ThrustCoefficient
	case key == "power_coefficient":
		v = c.PowerCoefficient
	default:
		return ""
	}
	return Computed(key, v) + ", lent by " + measured(&c.Coefficients.Sample)
}

// shapes are the inputs by which the propeller that lends its coefficients is chosen.
var shapes = []string{"rotor_diameter", "pitch", "blades"}

// Steps says that a sweep of a propeller's shape without its own coefficients goes from
// one measured propeller to the next, and which they are; empty for any other sweep.
func Steps(p *sweep.Plan) string {
	var swept []string
	for _, a := range p.Study.Axes {
		if slices.Contains(shapes, a.Input.Key) {
			swept = append(swept, a.Input.Label)
		}
	}
	if swept == nil {
		return ""
	}
	designs := map[string]int{}
	var lenders []string // in the order in which they come
	for d := range p.Designs() {
		rig := p.Challenger(p.Point(d, 0))
		if c, ok := lender(&rig); ok {
			name := measured(&c.Coefficients.Sample)
			if designs[name]++; designs[name] == 1 {
				lenders = append(lenders, name)
			}
		}
	}
	if lenders == nil {
		return ""
	}
	for i, name := range lenders {
		lenders[i] = name + " (" + Counted(designs[name], "design") + ")"
	}
	return "the sweep of " + List(swept) + " has no coefficients of the propeller's own: the nearest measured propeller lends them, here " + strings.Join(lenders, "; ") +
		". Where the lender changes, the answers jump; between, the number of blades changes neither thrust nor power, and pitch only where the thrust ends. " +
		"A best pitch or number of blades found so is the table's: give thrust_coefficient and power_coefficient."
}
