package study

import (
	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/fan"
	"finduel/model/pump"
	"finduel/model/sound"
)

// Defaults returns the rig that a study starts from where it says nothing, all of
// it common practice, no source:
//
//	room      air 22 °C, altitude 0 m, humidity 50 %, listener and operator 1 m away in a
//	          free field (the operator as far as a listener that is given), a session of
//	          1 h a day; of a room what sound.TypicalSurroundings has
//	heat      plate 0.05 K/W, pump 10 W
//	coolant   water, 4 L/min; a glycol makes up 30 % of its mixture by mass; with a pump instead, a curve with pump.TypicalExponent
//	          against pump.TypicalLoop
//	setup     one fan, in push, at the rated speed of the fan (or its top speed, if that is lower);
//	          nothing lost as installed; in push-pull model.TypicalSeriesLoss
//	core      what core.TypicalGeometry has for its metal and fins, which are copper and louvered
//	fan       what fan.Typical has; its top speed is its rated speed
//	sweep     compared in coolant_over_air to DefaultMargin; axes are spaced evenly;
//	          without axes, DefaultAxis
//
// What has no typical value must be given: the heat load, the face and the depth
// of a core, the rating of a fan, the two ends of a pump's curve. In the rig these are
// 0.
func Defaults() model.Rig {
	return model.Rig{
		Room: model.Room{Temperature: 295.15, Altitude: 0, Humidity: 0.5, ListenerDistance: 1, OperatorDistance: 1, Session: 3600, Surroundings: sound.TypicalSurroundings()},
		Heat: model.Heat{PlateResistance: 0.05, PumpPower: 10},
		Coolant: model.Coolant{
			Liquid: coolant.Liquid{Fluid: coolant.Water}, Flow: 4. / 60000,
			Pump: pump.Pump{CurveExponent: pump.TypicalExponent}, Loop: pump.TypicalLoop(),
		},
		Fans:    fan.Bank{Fan: fan.Typical(), Count: 1},
		Placing: fan.Push, Installed: model.Installed{SeriesLoss: model.TypicalSeriesLoss},
	}
}

// defaultGlycolShare is the mass fraction of glycol in a mixture of which none is
// given (common practice, no source).
const defaultGlycolShare = 0.30

// DefaultAxis returns what is swept if a study has no axes: the fan speed of the
// challenger from 40 % of the top speed of its fan, in rev/s, to all of it, in 33
// even steps. Slower still, a small core often boils under its load.
func DefaultAxis(topSpeed float64) Axis {
	in, _ := model.InputOf("fan_speed")
	return Axis{Input: in, Values: spaced(0.4*topSpeed, topSpeed, 33, even)}
}

// The metrics that setups may be compared in, the default first.
var metrics = []metric{"coolant_over_air", "coolant_mean_over_air", "chip_over_air"}

// metric is the key of an output.
type metric string

// String returns the key.
func (m metric) String() string { return string(m) }
