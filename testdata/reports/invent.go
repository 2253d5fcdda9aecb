package reports

import (
	"context"
	"math"

	"finduel/model"
	"finduel/model/core"
	"finduel/model/fan"
	"finduel/model/quantity"
	"finduel/model/sound"
	"finduel/render"
	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
)

// Boils is why an invented point has no value.
const Boils = "the coolant would boil: the setup cannot carry the heat below the boiling point"

// Study returns an invented study without axes: a small core with one fast fan
// against a large one with two slow fans.
func Study() *study.Study {
	room := model.Room{Temperature: 296.15, Altitude: 180, Humidity: 0.45, ListenerDistance: 1, OperatorDistance: 1, Session: 3600, Surroundings: sound.TypicalSurroundings()}
	heat := model.Heat{Load: 210, PlateResistance: 0.045, PumpPower: 9}
	flow := model.Coolant{Flow: si("coolant_flow", 3.2)}
	geometry := func(length, width, depth, density float64) core.Geometry {
		g := core.TypicalGeometry(core.Copper, core.Louvered)
		g.FaceLength, g.FaceWidth = si("face_length", length), si("face_width", width)
		g.FinDepth, g.FinDensity = si("fin_depth", depth), si("fin_density", density)
		return g
	}
	fans := func(speed, flow, pressure, power, sound, top float64) fan.Fan {
		f := fan.Typical()
		f.RatedSpeed, f.FreeAirFlow = si("rated_speed", speed), si("free_air_flow", flow)
		f.ShutOffPressure, f.RatedPower, f.RatedSound = pressure, power, sound
		f.TopSpeed = si("top_speed", top)
		return f
	}
	return &study.Study{
		File: "booth.yaml", Name: "booth", About: "a workstation that must stay silent beside a microphone (invented)",
		Setups: []study.Setup{
			{Name: "small", Core: "cube", Fan: "dense 92", Rig: model.Rig{
				Room: room, Heat: heat, Coolant: flow, Core: geometry(92, 88, 34, 20),
				Fans: fan.Bank{Fan: fans(9000, 250, 520, 38, 68, 20000), Count: 1}, Placing: fan.Push, Speed: 100,
			}},
			{Name: "large", Core: "slab", Fan: "calm 140", Rig: model.Rig{
				Room: room, Heat: heat, Coolant: flow, Core: geometry(286, 134, 26, 11),
				Fans: fan.Bank{Fan: fans(1500, 150, 17, 2.2, 23, 1500), Count: 2}, Placing: fan.Push, Speed: 600. / 60,
			}},
		},
		Challenger: 0, Reference: 1, Metric: "coolant_over_air",
		Hash: "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef",
	}
}

// si returns a number in the shown unit of a quantity in SI.
func si(key string, v float64) float64 { return quantity.Must(key).Shown.SI(v) }

// Axis returns an axis with values in the unit in which the input is shown.
func Axis(key string, values ...float64) study.Axis {
	in, ok := model.InputOf(key)
	if !ok {
		panic("reports: no input " + key)
	}
	a := study.Axis{Input: in}
	for _, v := range values {
		a.Values = append(a.Values, in.Shown.SI(v))
	}
	return a
}

// Even returns n values from low to high.
func Even(low, high float64, n int) []float64 {
	values := make([]float64, n)
	for i := range values {
		values[i] = low + (high-low)*float64(i)/float64(n-1)
	}
	return values
}

// Invent returns an invented state of a rig at a fan speed, in rev/s, and false
// where the coolant would boil.
func Invent(rig *model.Rig, speed float64) (model.State, bool) {
	g, f := &rig.Core, &rig.Fans
	share := speed / f.Fan.RatedSpeed
	area := g.FaceLength * g.FaceWidth
	resistance := g.FinDensity / 500 * g.FinDepth / 0.03
	airflow := float64(f.Count) * f.Fan.FreeAirFlow * share / (1 + 0.5*resistance)
	capacity := airflow * 1200
	power := float64(f.Count) * f.Fan.RatedPower * share * share * share
	film := 1 / (1400 * math.Pow(area*g.FinDepth, 0.7) * math.Pow(g.FinDensity, 0.5) * math.Pow(airflow/area, 0.5))
	load, pump := rig.Heat.Load, rig.Heat.PumpPower
	liquid := 1 / (5e6 * rig.Coolant.Flow * math.Sqrt(area*100))
	b := model.Budget{
		FanHeat: power / capacity, AirFilm: load * film, Fin: load * film * 0.15, Wall: load * 0.0004,
		CoolantFilm: load * liquid, Capacity: load / (2 * capacity),
	}
	if rig.Placing == fan.Pull {
		b.FanHeat = 0
	}
	b.PumpHeat = pump / load * (b.AirFilm + b.Fin + b.Wall + b.CoolantFilm + b.Capacity)
	over := b.Sum()
	room := rig.Room.Temperature
	if room+over > 373.15 {
		return model.State{}, false
	}
	drop := (load + pump) / (rig.Coolant.Flow * 4.17e6)
	level := f.Fan.RatedSound + 50*math.Log10(share) + 10*math.Log10(float64(f.Count)) - 20*math.Log10(rig.Room.ListenerDistance)
	s := model.State{
		CoolantOverAir: over, CoolantMeanOverAir: over - drop/2, ChipOverAir: over - drop + load*rig.Heat.PlateResistance,
		CoolantInletTemperature: room + over, CoolantOutletTemperature: room + over - drop,
		CoreAirTemperature: room + b.FanHeat, AirOutletTemperature: room + b.FanHeat + (load+pump)/capacity,
		ChipTemperature: room + over - drop + load*rig.Heat.PlateResistance,
		HeatRejected:    load + pump, Conductance: (load + pump) / over, AirCapacity: capacity,
		Airflow: airflow, AirMassFlow: airflow * 1.19, FaceVelocity: airflow / area,
		CorePressureDrop: 30 * resistance * math.Pow(airflow/area, 1.6), FreeFlowShare: 1 / (1 + 0.5*resistance),
		AirReynolds: airflow / area * 70, AirFilm: 60 * math.Sqrt(airflow/area), FinEfficiency: 0.93,
		CoolantFlow: rig.Coolant.Flow, CoolantPressureDrop: 4e11 * rig.Coolant.Flow * rig.Coolant.Flow,
		CoolantFilm: 3100, CoolantReynolds: 1450, CoreConductance: 1 / (film * 1.2),
		NTU: 1 / (film * 1.2) / capacity, CapacityRatio: math.Min(0.95, capacity/240), Effectiveness: 0.6,
		StallOnset: 0.6, StallMargin: 1/(1+0.5*resistance) - 0.6, FanDoubtLow: -0.1, FanDoubtHigh: 0.1, SoundDoubtLow: -5, SoundDoubtHigh: 5,
		FanPower: power, MotorPower: power, ShaftPower: 0.6 * power, ShaftTorque: fan.Torque(0.6*power/float64(f.Count), speed), AirPower: 0.2 * power, DriveCurrent: power / f.Fan.DriveVoltage,
		TipSpeed: math.Pi * math.Sqrt(area) * speed, TipMach: math.Pi * math.Sqrt(area) * speed / 345,
		RotorReynolds: math.Pi * area * speed / 1.5e-5, Sound: level, OperatorSound: level,
		Budget: b,
	}
	s.ExposureLimit, s.OSHALimit = sound.PermittedNIOSH(level), sound.PermittedOSHA(level)
	s.LowerActionTime, s.UpperActionTime, s.LimitValueTime = sound.PermittedEU(level, sound.EULower), sound.PermittedEU(level, sound.EUUpper), sound.PermittedEU(level, sound.EULimit)
	s.NIOSHDose, s.OSHADose = sound.Dose(level, 3600, s.ExposureLimit), sound.Dose(level, 3600, s.OSHALimit)
	s.DailyExposure = sound.DailyExposure(level, 3600)
	if s.AirReynolds < 100 {
		s.Warnings |= model.AirReynoldsLow
	}
	if s.FreeFlowShare < 0.6 {
		s.Warnings |= model.StallRegion
	}
	return s, true
}

// Report evaluates and compares an invented study with Invent.
func Report(s *study.Study) *render.Report {
	p := sweep.Lay(s)
	rep := &render.Report{Study: s, Results: &sweep.Results{Plan: p}, Seed: 7, Version: "0.0.0-test"}
	metric := rep.Results.Plan.Metric()
	for k := range p.Points() {
		if p.Excluded(k) {
			continue
		}
		row := sweep.Row{Point: k}
		rig, other := p.Challenger(k), p.Reference(k)
		state, ok := Invent(&rig, rig.Speed)
		reference, good := Invent(&other, other.Speed)
		if row.State = state; !ok || !good {
			row.Failure = Boils
		} else {
			row.Reference = metric(&reference)
		}
		rep.Results.Rows = append(rep.Results.Rows, row)
	}
	options := sweep.Options{Workers: 1, Model: Model}
	var err error
	if rep.Answers, err = breakeven.All(context.Background(), p, options); err != nil {
		panic(err)
	}
	if rep.Details, err = breakeven.Details(context.Background(), p, breakeven.List(rep.Answers), options); err != nil {
		panic(err)
	}
	rig := &s.Setups[s.Reference].Rig
	for _, share := range Even(0.2, 1, 9) {
		speed := share * rig.Fans.Fan.TopSpeed
		if state, ok := Invent(rig, speed); ok {
			rep.Results.ReferenceCurve = append(rep.Results.ReferenceCurve, sweep.SpeedState{Speed: speed, State: state})
		}
	}
	return rep
}

// Model is Invent as a model of the sweep.
func Model(rig model.Rig) (sweep.AtSpeed, error) { return invented{rig}, nil }

type invented struct{ rig model.Rig }

// At returns the invented state at a speed in rev/s, or model.ErrBoils.
func (i invented) At(speed float64) (model.State, error) {
	s, ok := Invent(&i.rig, speed)
	if !ok {
		return model.State{}, model.ErrBoils
	}
	return s, nil
}
