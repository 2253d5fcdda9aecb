package reports

import (
	"finduel/model"
	"finduel/model/coolant"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/sound"
	"finduel/sweep/study"
)

// TwoSetups returns an invented study without axes: a dense little core with a
// fierce fan against a wide one with two calm fans.
func TwoSetups() *study.Study {
	g := core.TypicalGeometry(core.Copper, core.Louvered)
	g.FaceLength, g.FaceWidth, g.FinDepth, g.FinDensity = 0.092, 0.088, 0.034, 20/0.0254
	f := fan.Typical()
	f.RatedSpeed, f.FreeAirFlow, f.ShutOffPressure, f.RatedPower, f.RatedSound, f.TopSpeed = 150, 250./3600, 520, 38, 68, 20000./60
	small := model.Rig{
		Room:    model.Room{Temperature: 296.15, Humidity: 0.45, ListenerDistance: 1, OperatorDistance: 1, Session: 3600, Surroundings: sound.TypicalSurroundings()},
		Heat:    model.Heat{Load: 210, PlateResistance: 0.045, PumpPower: 9},
		Coolant: model.Coolant{Liquid: coolant.Liquid{Fluid: coolant.Water}, Flow: 3.2 / 60000},
		Core:    g, Fans: fan.Bank{Fan: f, Count: 1}, Placing: fan.Push, Speed: 100,
	}
	large := small
	large.Core.FaceLength, large.Core.FaceWidth, large.Core.FinDepth, large.Core.FinDensity = 0.286, 0.134, 0.026, 11/0.0254
	f.RatedSpeed, f.FreeAirFlow, f.ShutOffPressure, f.RatedPower, f.RatedSound, f.TopSpeed = 25, 150./3600, 17, 2.2, 23, 25
	large.Fans, large.Speed = fan.Bank{Fan: f, Count: 2}, 800./60
	return &study.Study{
		Name: "two", Metric: "coolant_over_air", Challenger: 0, Reference: 1,
		Setups: []study.Setup{{Name: "small", Rig: small}, {Name: "large", Rig: large}},
	}
}
