package breakeven_test

import (
	"context"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"finduel/model"
	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
	"finduel/testdata/reports"
)

// bench returns an invented study of a dense little core against a wide one.
func bench(t testing.TB, axes ...study.Axis) *sweep.Plan {
	t.Helper()
	s := reports.TwoSetups()
	s.Axes = axes
	s.Setups[1].Rig.Speed = 1200. / 60
	return sweep.Lay(s)
}

func axis(t testing.TB, key string, values ...float64) study.Axis {
	t.Helper()
	in, ok := model.InputOf(key)
	if !ok {
		t.Fatalf("no input %s", key)
	}
	return study.Axis{Input: in, Values: values}
}

// On the real model: every reported speed, asked again, must be one of equality,
// and the better and worse stretches must lie as reported.
func TestReportedSpeedsAreEqualities(t *testing.T) {
	p := bench(t,
		axis(t, "fan_speed", 1500./60, 20000./60),
		axis(t, "fin_density", 12/0.0254, 20/0.0254, 28/0.0254),
		axis(t, "fin_depth", 0.018, 0.034),
		axis(t, "face_area", 0.0025, 0.004, 0.006, 0.0081, 0.012),
	)
	answers, err := breakeven.All(context.Background(), p, sweep.Options{})
	if err != nil {
		t.Fatal(err)
	}
	seen := map[breakeven.Status]int{}
	for _, a := range answers {
		seen[a.Status]++
		rig := p.Challenger(p.Point(a.Design, 0))
		reference, err := model.Evaluate(p.Reference(p.Point(a.Design, 0)))
		if err != nil {
			t.Fatal(err)
		}
		at := func(speed float64) float64 {
			rig.Speed = speed
			s, err := model.Evaluate(rig)
			if err != nil {
				return math.Inf(1)
			}
			return s.CoolantOverAir - reference.CoolantOverAir
		}
		for _, c := range a.Crossings {
			if d := at(c.Speed); math.Abs(d) > 1e-6 {
				t.Errorf("design %d: difference %g K at %v rpm", a.Design, d, c.Speed*60)
			}
			if before, after := at(c.Speed*0.999), at(c.Speed*1.001); (before > after) != (c.Slope < 0) {
				t.Errorf("design %d: slope %v at %v rpm, but %v before and %v after", a.Design, c.Slope, c.Speed*60, before, after)
			}
		}
		// An independent and much finer look must find no other sign change.
		changes := 0
		const looks = 2000
		last := math.NaN()
		for i := range looks + 1 {
			d := at(a.From * math.Pow(a.To/a.From, float64(i)/looks))
			if !math.IsNaN(last) && (d < 0) != (last < 0) {
				changes++
			}
			if d < a.Best.Difference-1e-9 {
				t.Errorf("design %d: best is %v K at %v rpm, but there is %v K", a.Design, a.Best.Difference, a.Best.Speed*60, d)
			}
			last = d
		}
		if changes != len(a.Crossings) {
			t.Errorf("design %d: %d crossings, a fine look finds %d", a.Design, len(a.Crossings), changes)
		}
		if a.Reason == "" || a.Failure != "" {
			t.Errorf("design %d: reason %q, failure %q", a.Design, a.Reason, a.Failure)
		}
	}
	for _, s := range []breakeven.Status{breakeven.None, breakeven.One, breakeven.Band} {
		if seen[s] == 0 {
			t.Errorf("no answer %q among %v: the test does not show what it should", s, seen)
		}
	}
}

func TestAnswersDoNotDependOnWorkersOrSteps(t *testing.T) {
	density := axis(t, "fin_density", 12/0.0254, 20/0.0254)
	coarse := bench(t, axis(t, "fan_speed", 25, 333), density)
	fine := bench(t, axis(t, "fan_speed", 25, 60, 61, 62, 200, 333), density)
	var all [][]breakeven.Answer
	for _, p := range []*sweep.Plan{coarse, fine} {
		for _, workers := range []int{1, 5} {
			a, err := breakeven.All(context.Background(), p, sweep.Options{Workers: workers})
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, a)
		}
	}
	for _, a := range all[1:] {
		if !reflect.DeepEqual(all[0], a) {
			t.Errorf("answers differ:\n%+v\n%+v", all[0], a)
		}
	}
}

// Whatever is compared, every reported speed is one of equality in it.
func TestAnyMetric(t *testing.T) {
	for _, metric := range []string{"coolant_over_air", "coolant_mean_over_air", "chip_over_air"} {
		p := bench(t, axis(t, "fan_speed", 25, 333), axis(t, "fin_density", 12/0.0254, 20/0.0254, 24/0.0254), axis(t, "coolant_flow", 3e-5, 6e-5))
		p.Study.Metric = metric
		answers, err := breakeven.All(context.Background(), p, sweep.Options{})
		if err != nil {
			t.Fatal(err)
		}
		output, _ := model.OutputOf(metric)
		crossings := 0
		for _, a := range answers {
			for _, c := range a.Crossings {
				crossings++
				rig := p.Challenger(p.Point(a.Design, 0))
				rig.Speed = c.Speed
				s, err := model.Evaluate(rig)
				reference, errReference := model.Evaluate(p.Reference(p.Point(a.Design, 0)))
				if d := output.Get(&s) - output.Get(&reference); err != nil || errReference != nil || math.Abs(d) > 1e-6 {
					t.Errorf("%s, design %d: difference %g K at %v rpm (%v, %v)", metric, a.Design, d, c.Speed*60, err, errReference)
				}
				for _, at := range []float64{c.Tie.Low, c.Tie.High} {
					rig.Speed = at
					s, _ := model.Evaluate(rig)
					if d := math.Abs(output.Get(&s) - output.Get(&reference)); d > a.Margin+1e-6 || at == c.Tie.Low && !c.Tie.OpenLow && d < a.Margin-1e-6 {
						t.Errorf("%s, design %d: %v K at the end of the tie, %v rpm", metric, a.Design, d, at*60)
					}
				}
			}
		}
		if crossings < 4 {
			t.Errorf("%s: only %d crossings", metric, crossings)
		}
	}
}

// The order of the axes and of their values changes the numbers of the designs only.
func TestAnswersDoNotDependOnOrder(t *testing.T) {
	density, depth := axis(t, "fin_density", 12/0.0254, 20/0.0254), axis(t, "fin_depth", 0.018, 0.034)
	turned := axis(t, "fin_density", 20/0.0254, 12/0.0254)
	speed, back := axis(t, "fan_speed", 25, 333), axis(t, "fan_speed", 333, 100, 25)
	seen := map[[2]float64]breakeven.Answer{}
	for i, axes := range [][]study.Axis{{speed, density, depth}, {depth, back, density}, {turned, depth, speed}} {
		p := bench(t, axes...)
		answers, err := breakeven.All(context.Background(), p, sweep.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range answers {
			rig := p.Challenger(p.Point(a.Design, 0))
			key := [2]float64{rig.Core.FinDensity, rig.Core.FinDepth}
			a.Design = 0
			if i == 0 {
				seen[key] = a
			} else if !reflect.DeepEqual(seen[key], a) {
				t.Errorf("axes in another order: %v answers\n%+v, want\n%+v", key, a, seen[key])
			}
		}
	}
	if len(seen) != 4 {
		t.Errorf("%d designs", len(seen))
	}
}

// made is a model whose coolant over air is a given function of speed.
type made func(speed float64) (float64, error)

func (m made) At(speed float64) (model.State, error) {
	v, err := m(speed)
	return model.State{CoolantOverAir: v}, err
}

// answer compares a made-up challenger with a reference that stays at 10 K.
func answer(t *testing.T, challenger made) breakeven.Answer {
	t.Helper()
	p := bench(t, axis(t, "fan_speed", 20, 200))
	m := func(r model.Rig) (sweep.AtSpeed, error) {
		if r.Fans.Count == 2 {
			return made(func(float64) (float64, error) { return 10, nil }), nil
		}
		return challenger, nil
	}
	a, err := breakeven.All(context.Background(), p, sweep.Options{Model: m})
	if err != nil || len(a) != 1 {
		t.Fatalf("%d answers, %v", len(a), err)
	}
	return a[0]
}

func TestAnswersInWords(t *testing.T) {
	for _, c := range []struct {
		name         string
		f            made
		status       breakeven.Status
		lower, upper float64 // 0: none
		says         string
	}{
		{"none, still falling", func(s float64) (float64, error) { return 11 + 200/s, nil }, breakeven.None, 0, 0,
			"small stays warmer than large: closest at 12 000 rpm, by 2.00 K, the top of the searched speeds and still falling"},
		{"none, inside", func(s float64) (float64, error) { return 12 + (s-50)*(s-50)/1e3, nil }, breakeven.None, 0, 0,
			"small stays warmer than large: closest at 3 000 rpm, by 2.00 K; beyond it it is warmer again"},
		{"one", func(s float64) (float64, error) { return 1000 / s, nil }, breakeven.One, 100, 0,
			"small equals large at 6 000 rpm (5 941 to 6 061 within 0.1 K) and is cooler above it, up to 12 000 rpm"},
		{"band", func(s float64) (float64, error) { return 10 + (s-50)*(s-150)/1e3, nil }, breakeven.Band, 50, 150,
			"small equals large at 3 000 rpm (2 941 to 3 061 within 0.1 K) and is cooler up to 9 000 rpm (8 939 to 9 059 within 0.1 K); above it it is warmer again"},
		{"band from the start", func(s float64) (float64, error) { return 9 + s/100, nil }, breakeven.Band, 0, 100,
			"small is cooler than large up to 6 000 rpm"},
		{"always", func(s float64) (float64, error) { return 5, nil }, breakeven.Always, 0, 0,
			"small is cooler than large at every speed from 1 200 rpm to 12 000 rpm, by 5.00 K at best"},
		{"boils at low speed", func(s float64) (float64, error) {
			if s < 60 {
				return 0, model.ErrBoils
			}
			return 4 + 600/s, nil
		}, breakeven.One, 100, 0, "small equals large at 6 000 rpm"},
		{"freezes above", func(s float64) (float64, error) {
			if s > 160 {
				return 0, model.ErrFreezes
			}
			return 1000 / s, nil
		}, breakeven.One, 100, 0, "small equals large at 6 000 rpm (5 941 to 6 061 within 0.1 K) and is cooler above it, up to 12 000 rpm; above 9 600 rpm it has no value"},
		{"flat where it crosses", func(s float64) (float64, error) { return 10 - (s-100)*(s-100)*(s-100), nil }, breakeven.One, 100, 0, "small equals large at 6 000 rpm"},
		{"better by less than the margin", func(s float64) (float64, error) { return 10 + ((s-100)*(s-100)-400)/1e4, nil }, breakeven.Tie, 80, 120,
			"a tie from 3 755 to 8 245 rpm: small and large differ by no more than 0.1 K there, and small is nowhere cooler by more; they are equal at 4 800 rpm and 7 200 rpm"},
		{"better by a little more than the margin", func(s float64) (float64, error) { return 9.89 + (s-100)*(s-100)/1e3, nil }, breakeven.Band, 100 - math.Sqrt(110), 100 + math.Sqrt(110), "small equals large at 5 371 rpm"},
		{"worse by a little more than the margin", func(s float64) (float64, error) { return 10.11 + (s-100)*(s-100)/1e3, nil }, breakeven.None, 0, 0, "small stays warmer than large: closest at 6 000 rpm, by 0.11 K"},
		{"touches", func(s float64) (float64, error) { return 10 + (s-100)*(s-100)/1e3, nil }, breakeven.Tie, 0, 0,
			"a tie from 5 400 to 6 600 rpm: small and large differ by no more than 0.1 K there"},
		{"comes within the margin", func(s float64) (float64, error) { return 10.05 + (s-100)*(s-100)/1e3, nil }, breakeven.Tie, 0, 0,
			"a tie from 5 576 to 6 424 rpm:"},
		{"alike everywhere", func(s float64) (float64, error) { return 10, nil }, breakeven.Tie, 0, 0,
			"a tie from 1 200 or less to 12 000 or more rpm"},
		{"flat at the crossing", func(s float64) (float64, error) { return 10 + 1e-3*(100-s) - math.Pow(math.Max(s-160, 0), 2)/100, nil }, breakeven.One, 100, 0,
			"small equals large at 6 000 rpm (1 200 or less to 9 717 within 0.1 K) and is cooler above it, up to 12 000 rpm; 6 000 rpm is ill-determined: the curve is flat there"},
		{"jumps", func(s float64) (float64, error) {
			if s < 90 {
				return 11, nil
			}
			return 9, nil
		}, breakeven.One, 90, 0, "small equals large at 5 400 rpm and is cooler above it, up to 12 000 rpm; at 5 400 rpm the two are never equal: the difference jumps"},
		{"never a value", func(s float64) (float64, error) { return 0, model.ErrBoils }, breakeven.Unknown, 0, 0,
			"no answer: the challenger has no value at any speed: the coolant would boil"},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := answer(t, c.f)
			if a.Status != c.status {
				t.Fatalf("status %v, want %v: %s", a.Status, c.status, a.Reason)
			}
			lower, ok := a.Lower()
			if ok != (c.lower != 0) || ok && math.Abs(lower-c.lower) > 1e-7*c.lower {
				t.Errorf("lower %v %v, want %v", lower, ok, c.lower)
			}
			upper, ok := a.Upper()
			if ok != (c.upper != 0) || ok && math.Abs(upper-c.upper) > 1e-9*c.upper {
				t.Errorf("upper %v %v, want %v", upper, ok, c.upper)
			}
			if !strings.HasPrefix(a.Reason, c.says) {
				t.Errorf("says %q, want %q", a.Reason, c.says)
			}
		})
	}
}

// The margin of the study decides what a tie is; the ties of 0.1 K are there, too.
func TestTheStudyHasItsOwnMargin(t *testing.T) {
	p := bench(t, axis(t, "fan_speed", 20, 200))
	p.Study.Margin = 0.5
	m := func(r model.Rig) (sweep.AtSpeed, error) {
		return made(func(s float64) (float64, error) {
			if r.Fans.Count == 2 {
				return 10, nil
			}
			return 1000 / s, nil
		}), nil
	}
	answers, err := breakeven.All(context.Background(), p, sweep.Options{Model: m})
	if err != nil || len(answers[0].Crossings) != 1 {
		t.Fatalf("%+v, %v", answers, err)
	}
	c := answers[0].Crossings[0]
	near(t, "tie from", c.Tie.Low, 1000/10.5, 1e-9)
	near(t, "tie to", c.Tie.High, 1000/9.5, 1e-9)
	near(t, "tie of 0.1 K from", c.DefaultTie.Low, 1000/10.1, 1e-9)
	near(t, "tie of 0.1 K to", c.DefaultTie.High, 1000/9.9, 1e-9)
	near(t, "sensible speed", answers[0].Sensible.Speed, 1000/5.5, 1e-9)
}

// A cause is named only where it is one: the fans' heat, if without it the
// challenger would not get warmer again; and the budget term it loses by.
func TestCausesAreNamedWhereTheyAreOnes(t *testing.T) {
	p := bench(t, axis(t, "fan_speed", 20, 200))
	m := func(heat float64) sweep.Model {
		return func(r model.Rig) (sweep.AtSpeed, error) {
			return budgeted{challenger: r.Fans.Count == 1, heat: heat}, nil
		}
	}
	for heat, want := range map[float64]string{
		1:   "the fans heat the air faster than the core gains; it loses most in coolant film (1.50 K more)",
		0.5: "it is warmer again; it loses most in coolant film (1.50 K more)",
	} {
		a, err := breakeven.All(context.Background(), p, sweep.Options{Model: m(heat)})
		if err != nil {
			t.Fatal(err)
		}
		if a[0].Status != breakeven.None || !strings.HasSuffix(a[0].Reason, want) {
			t.Errorf("share %v of the rise is fan heat: %v, %q", heat, a[0].Status, a[0].Reason)
		}
		if a[0].Limit.Term != "budget_coolant_film" || math.Abs(a[0].Limit.Excess-1.5) > 1e-6 {
			t.Errorf("limit %+v", a[0].Limit)
		}
	}
}

// budgeted is a model whose challenger falls to 12 K at 100 rev/s and rises again, a
// share of the rise being fan heat; its reference has 10 K.
type budgeted struct {
	challenger bool
	heat       float64
}

func (b budgeted) At(speed float64) (model.State, error) {
	s := model.State{CoolantOverAir: 10, Budget: model.Budget{CoolantFilm: 1, AirFilm: 1}}
	if b.challenger {
		rise := max(speed-100, 0) / 50
		s.CoolantOverAir = 12 + rise + max(100-speed, 0)/50
		s.Budget = model.Budget{CoolantFilm: 2.5, AirFilm: 1.2, FanHeat: b.heat * rise}
	}
	return s, nil
}

// What the study leaves out is not searched either.
func TestExcludedSpeedsAreNotSearched(t *testing.T) {
	speed := axis(t, "fan_speed", 25, 60, 100, 200, 333)
	density := axis(t, "fin_density", 500, 800)
	exclude := func(c ...study.Condition) *sweep.Plan {
		p := bench(t, speed, density)
		p.Study.Exclusions = []study.Exclusion{c}
		return sweep.Lay(p.Study)
	}
	above := study.Condition{Input: speed.Input, Above: 150, Below: math.Inf(-1)}
	below := study.Condition{Input: speed.Input, Above: math.Inf(1), Below: 50}
	dense := study.Condition{Input: density.Input, Above: 700, Below: math.Inf(-1)}
	for _, c := range []struct {
		plan  *sweep.Plan
		spans [2][2]float64 // searched, by design
	}{
		{exclude(above), [2][2]float64{{25, 150}, {25, 150}}},
		{exclude(below), [2][2]float64{{50, 333}, {50, 333}}},
		{exclude(above, dense), [2][2]float64{{25, 333}, {25, 150}}},
	} {
		answers, err := breakeven.All(context.Background(), c.plan, sweep.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for i, a := range answers {
			if a.From != c.spans[i][0] || a.To != c.spans[i][1] {
				t.Errorf("design %d searched from %v to %v, want %v", i, a.From, a.To, c.spans[i])
			}
			if a.Best.Speed > a.To || a.Best.Speed < a.From {
				t.Errorf("design %d: best at %v", i, a.Best.Speed)
			}
		}
	}
	between := exclude(study.Condition{Input: speed.Input, Above: 80, Below: math.Inf(-1)}, study.Condition{Input: speed.Input, Above: math.Inf(1), Below: 250})
	answers, err := breakeven.All(context.Background(), between, sweep.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range answers {
		for _, c := range a.Crossings {
			if c.Speed > 80 && c.Speed < 250 {
				t.Errorf("a crossing at %v, which is left out", c.Speed)
			}
		}
		if a.Best.Speed > 80 && a.Best.Speed < 250 {
			t.Errorf("best at %v, which is left out", a.Best.Speed)
		}
	}
}

func TestCancelledComparisonSaysSo(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := breakeven.All(ctx, bench(t), sweep.Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

func BenchmarkAll(b *testing.B) {
	p := bench(b, axis(b, "fan_speed", 25, 333), axis(b, "fin_density", 500, 600, 700, 800), axis(b, "fin_depth", 0.02, 0.03))
	for b.Loop() {
		if _, err := breakeven.All(context.Background(), p, sweep.Options{Workers: 1}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*p.Designs()), "µs/design")
}

// Ten thousand designs, every crossing of each: the time grows as their number.
func BenchmarkDesigns(b *testing.B) {
	for _, c := range []struct {
		name          string
		density, area int
	}{{"1000", 10, 10}, {"10000", 40, 25}} {
		b.Run(c.name, func(b *testing.B) {
			p := bench(b, axis(b, "fan_speed", 25, 333), axis(b, "fin_density", reports.Even(400, 1000, c.density)...),
				axis(b, "fin_depth", reports.Even(0.016, 0.036, 10)...), axis(b, "face_area", reports.Even(0.004, 0.012, c.area)...))
			for b.Loop() {
				if _, err := breakeven.All(context.Background(), p, sweep.Options{Workers: 2}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(b.Elapsed().Seconds()/float64(b.N), "s")
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*p.Designs()), "µs/design")
		})
	}
}
