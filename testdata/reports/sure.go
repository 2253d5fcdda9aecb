package reports

import (
	"cmp"
	"math"
	"slices"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
)

// Sure returns a report with few designs that says how sure its answers are.
func Sure() *render.Report {
	rep := Few()
	rep.Doubt = Assess(rep)
	return rep
}

// SureOfMany returns a report with many designs over two axes that says how sure its
// answers are.
func SureOfMany() *render.Report {
	rep := Booth()
	rep.Doubt = Assess(rep)
	return rep
}

// Unsure returns a report of one design whose doubt cannot be shared out: draws have no
// value, and the break-even is open at both ends.
func Unsure() *render.Report {
	rep := Alone()
	a := Assess(rep)
	rep.Doubt = a
	own := a.Own
	own.Result.Breakeven = doubt.Band{Low: math.Inf(-1), Median: si("fan_speed", 5500), High: math.Inf(1)}
	own.Result.HasUpper, own.Result.Again = true, 0.44
	own.Result.Upper = doubt.Band{Low: si("fan_speed", 9000), Median: si("fan_speed", 12000), High: si("fan_speed", 18000), Undecided: [3]bool{2: true}}
	own.Result.Exists, own.Result.FromStart, own.Result.Never = 0.71, 0.052, 0.23
	own.Result.NoChallenger, own.Result.NoReference, own.Result.NoBreakeven, own.Result.Failure = 31, 85, 85, Boils
	own.Result.Win, own.Result.Tie, own.Result.Lose, own.Result.NoValue = 0.58, 0.1, 0.314, 0.006
	own.Result.Capped = false
	for i := range own.Curve { // the slower, the more boil
		own.Curve[i].NoChallenger = max(31, 932-100*i)
		own.Curve[i].NoValue = own.Curve[i].NoChallenger + 54
	}
	a.Results[0] = own.Result
	own.Coverage[0].Draws, own.Apart = 0, doubt.Index{}
	own.Indices[0] = doubt.Sensitivity{Of: "difference", Refused: "85 of 30 720 draws have no such value (invented)"}
	own.Ranking = doubt.Ranking{Of: "difference", Refused: "some draws have no such value (invented)"}
	return rep
}

// Assess makes up how sure the answers of a report are.
func Assess(rep *render.Report) *doubt.Assessment {
	a := &doubt.Assessment{
		Seed: rep.Seed, Margin: 0.1, All: true,
		Sources: []doubt.Source{
			{Key: "heat_load", Of: doubt.Both, Label: "heat load", Limit: "±2 %", Why: "invented"},
			{Key: "fin_density", Of: doubt.Challenger, Label: "fin density", Limit: "±1 fpi", Why: "the study, normal", Given: true},
			{Key: "air_friction_own", Of: doubt.Reference, Label: "core's air pressure drop: this core", Limit: "±26 %", Why: "invented"},
		},
	}
	kelvin := func(v float64) float64 { return v }
	band := func(middle, half, step float64, of func(float64) float64) doubt.Band {
		return doubt.Band{Low: of(middle - half), Median: of(middle), High: of(middle + half), Steps: [3]float64{of(step), of(step), of(step)}, Settled: true}
	}
	rpm := func(v float64) float64 { return quantity.Must("fan_speed").Shown.SI(v) }
	for i := range rep.Answers {
		x := &rep.Answers[i]
		if x.Status == breakeven.Excluded {
			continue
		}
		metric := rep.Results.Plan.Metric()
		r := doubt.Result{
			Design: x.Design, Speed: rpm(6000), Draws: 2000, Capped: true,
			Challenger: band(metric(&x.Best.State)+2, 1.5, 0.2, kelvin),
			Reference:  band(metric(&x.Reference), 2.1, 0.2, kelvin),
			Difference: band(x.Best.Difference+2, 1.9, 0.1, kelvin),
			Win:        0.25, Tie: 0.25, Lose: 0.4995, NoValue: 0.0005,
			Breakeven: doubt.Band{Low: rpm(4321), Median: math.Inf(1), High: math.Inf(1), Steps: [3]float64{rpm(200), 0, 0}},
			Exists:    0.36, Never: 0.6395, NoReference: 1, NoBreakeven: 1, Failure: Boils,
		}
		if low, ok := x.Lower(); ok {
			r.Breakeven = band(low*60, 0.3*low*60, 200, rpm)
			r.Exists, r.Never, r.NoValue, r.Lose, r.NoReference, r.NoBreakeven, r.Failure = 1, 0, 0, 0.5, 0, 0, ""
		}
		if up, ok := x.Upper(); ok {
			r.HasUpper, r.Upper, r.Again = true, band(up*60, 0.1*up*60, 500, rpm), 0.82
		}
		a.Results = append(a.Results, r)
	}
	base := rep.HeldDesigns()[0]
	a.Base = base
	own := doubt.Detail{}
	for i := range a.Results {
		if r := &a.Results[i]; r.Design == base {
			r.Draws, r.Capped = 20000, false
			own.Result = *r
		}
	}
	near := func(v float64) doubt.Index { return doubt.Index{Value: v, Low: v - 0.015, High: v + 0.01} }
	own.Indices = []doubt.Sensitivity{
		{Of: "difference", Indices: doubt.Indices{
			First: []doubt.Index{near(-0.003), near(0.12), near(0.8)}, Total: []doubt.Index{near(0.02), near(0.15), near(0.86)},
		}},
		{Of: "breakeven_speed", Refused: "12 of 30 720 draws have no such value (invented)"},
	}
	own.Ranking = doubt.Ranking{Of: "breakeven_speed", Half: rpm(1890), Steps: []doubt.Step{
		{Action: "measure the air pressure drop of large's core at one flow", Left: near(0.45), Half: rpm(850)},
		{Action: "count the fins of small's core over 100 mm", Left: near(0.94), Half: rpm(1780)},
		{Action: "measure the heat load", Left: near(0.999), Half: rpm(1888)},
	}}
	plan, metric := rep.Results.Plan, rep.Results.Plan.Metric()
	at := func(speed float64, s *model.State, reference float64) {
		d := metric(s) - reference
		own.Curve = append(own.Curve, doubt.CurvePoint{Speed: speed, Draws: 1000, Difference: band(d, 1.5+0.1*math.Abs(d), 0.1, kelvin), Challenger: band(metric(s), 1+0.1*math.Abs(metric(s)), 0.1, kelvin)})
		slices.SortFunc(own.Curve, func(a, b doubt.CurvePoint) int { return cmp.Compare(a.Speed, b.Speed) })
	}
	for k := plan.Point(base, 0); k < plan.Point(base+1, 0); k++ {
		if row, ok := rep.Results.Row(k); ok && row.Failure == "" {
			at(rep.Speed(k), &row.State, row.Reference)
		}
	}
	named, _ := rep.AnswerOf(base)
	for _, p := range rep.Places(named) {
		if _, ok := own.At(p.Speed); !ok && p.State != &named.Reference {
			at(p.Speed, p.State, metric(&named.Reference))
		}
	}
	for _, d := range rep.Details {
		if d.Design == base {
			own.Parity = parity(&d, rep.Challenger().Rig.Fans.Fan.TopSpeed)
		}
	}
	own.Coverage = []doubt.Coverage{
		{Of: "difference", Draws: 2048, Inside: 1948, Share: doubt.Index{Value: 0.951, Low: 0.941, High: 0.960}},
		{Of: "breakeven_speed", Draws: 2000, Inside: 1890, Share: doubt.Index{Value: 0.945, Low: 0.934, High: 0.954}},
	}
	own.Apart = doubt.Index{Value: 1.22, Low: 1.15, High: 1.29}
	a.Own = &own
	return a
}

// parity makes up how sure a parity line is: its intervals reach a third of the speed
// either way, are open above the fan's top speed, and are there, open, beyond the
// end of the line, too.
func parity(d *breakeven.Detail, top float64) []doubt.ParityPoint {
	var list []doubt.ParityPoint
	around := func(v float64) doubt.Band {
		b := doubt.Band{Low: v * 2 / 3, Median: v, High: v * 4 / 3}
		if b.High > top {
			b.High = math.Inf(1)
		}
		return b
	}
	last := top / 2
	for i, p := range d.Parity {
		x := doubt.ParityPoint{Speed: p.Speed, Draws: 1000, NoValue: 7, Exists: 0.993}
		x.Upper = doubt.Band{Low: math.NaN(), Median: math.NaN(), High: math.NaN()}
		if p.Lower != nil {
			last = p.Lower.Speed
			x.Breakeven = around(last)
		} else {
			x.Breakeven = doubt.Band{Low: last * 1.1, Median: math.Inf(1), High: math.Inf(1)}
			x.Exists, x.Never = 0.3, 0.693
		}
		if p.Upper != nil {
			x.Upper, x.Again = around(p.Upper.Speed), 0.5
		}
		if i > len(d.Parity)-4 && p.Lower == nil {
			x.Breakeven.Low = math.Inf(1)
		}
		list = append(list, x)
	}
	return list
}
