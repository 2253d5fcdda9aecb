package breakeven_test

import (
	"context"
	"errors"
	"math"
	"reflect"
	"strconv"
	"testing"

	"finduel/model"
	"finduel/model/fan"
	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
)

// formula is a model in closed form: a rig's state at a speed in rev/s.
type formula func(r *model.Rig, speed float64) (model.State, error)

func (f formula) model() sweep.Model {
	return func(r model.Rig) (sweep.AtSpeed, error) { return at{f, r}, nil }
}

type at struct {
	f formula
	r model.Rig
}

func (a at) At(speed float64) (model.State, error) { return a.f(&a.r, speed) }

// small reports whether a rig is the challenger.
func small(r *model.Rig) bool { return r.Fans.Count == 1 }

// worked returns the answers and the details of a plan under a formula.
func worked(t *testing.T, p *sweep.Plan, f formula) (breakeven.List, []breakeven.Detail) {
	t.Helper()
	var answers breakeven.List
	var first []breakeven.Detail
	for _, workers := range []int{1, 4} {
		o := sweep.Options{Workers: workers, Model: f.model()}
		var err error
		if answers, err = breakeven.All(context.Background(), p, o); err != nil {
			t.Fatal(err)
		}
		details, err := breakeven.Details(context.Background(), p, answers, o)
		if err != nil {
			t.Fatal(err)
		}
		if workers == 1 {
			first = details
		} else if !reflect.DeepEqual(first, details) {
			t.Error("the details depend on the number of workers")
		}
	}
	return answers, first
}

func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: %.12g, want %.12g", what, got, want)
	}
}

// duel has closed forms everywhere: the challenger has 1000/N over air, the
// reference 200/N; the challenger is 50 lg(N/100) + 40 dB(A) loud and takes
// N³/10⁵ W, the reference 50 lg(N/20) + 20 dB(A) and N³/10³ W.
func duel(r *model.Rig, n float64) (model.State, error) {
	if small(r) {
		return model.State{CoolantOverAir: 1000 / n, Sound: 50*math.Log10(n/100) + 40, FanPower: n * n * n / 1e5}, nil
	}
	return model.State{CoolantOverAir: 200 / n, Sound: 50*math.Log10(n/20) + 20, FanPower: n * n * n / 1e3}, nil
}

// The challenger equals the reference at five times its speed: a straight parity
// line that ends where the challenger can turn no faster and begins where it can
// turn no slower.
func TestParityLine(t *testing.T) {
	p := bench(t, axis(t, "fan_speed", 60, 100))
	p.Study.Setups[1].Rig.Speed = 13.1
	_, details := worked(t, p, duel)
	if len(details) != 1 || details[0].Design != 0 {
		t.Fatalf("details %+v", details)
	}
	line := details[0].Parity
	reference := p.Study.Setups[1].Rig
	first, last, own := -1, -1, false
	for i, point := range line {
		if i > 0 && !(point.Speed > line[i-1].Speed) {
			t.Fatalf("speeds %v, %v", line[i-1].Speed, point.Speed)
		}
		own = own || point.Speed == reference.Speed
		if point.Lower == nil {
			continue
		}
		if last = i; first < 0 {
			first = i
		}
		near(t, "break-even", point.Lower.Speed, 5*point.Speed, 1e-9)
		level := 200 / point.Speed
		if v := point.Lower.Tie; !v.OpenLow && !v.OpenHigh {
			near(t, "tie from", v.Low, 1000/(level+0.1), 1e-9)
			near(t, "tie to", v.High, 1000/(level-0.1), 1e-9)
		}
		near(t, "sound", point.Reference.Sound, 50*math.Log10(point.Speed/20)+20, 1e-9)
	}
	top := reference.Fans.Fan.TopSpeed
	near(t, "where it begins", line[first].Speed, 12, 1e-5)
	near(t, "where it ends", line[last].Speed, 20, 1e-5)
	near(t, "the slowest reference", line[0].Speed, top/5, 1e-12)
	near(t, "the fastest reference", line[len(line)-1].Speed, top, 1e-12)
	if !own {
		t.Errorf("the reference's own speed, %v, is not on the line", reference.Speed)
	}
	if line[0].Status != breakeven.Always || line[len(line)-1].Status != breakeven.None {
		t.Errorf("it begins %v and ends %v", line[0].Status, line[len(line)-1].Status)
	}
}

// At L dB(A) the challenger turns 100·10^((L−40)/50), the reference 20·10^((L−20)/50):
// 1.99 times the other's difference to air at every level. At equal power the
// challenger turns 4.64 times as fast and has 1.077 times the difference.
func TestEqualSoundAndPower(t *testing.T) {
	p := bench(t, axis(t, "fan_speed", 20, 200))
	_, details := worked(t, p, duel)
	m := details[0].Sound
	top := p.Study.Setups[1].Rig.Fans.Fan.TopSpeed
	near(t, "quietest in common", m.From, 50*math.Log10(16.666666666666668/100)+40, 1e-9)
	near(t, "loudest in common", m.To, 50*math.Log10(top/20)+20, 1e-9)
	if len(m.Meetings) != 0 || len(m.Spans) != 1 || m.Spans[0].Winner != breakeven.Reference {
		t.Fatalf("equal sound: %+v", m)
	}
	ratio := 1000 / 100 * math.Pow(10, (40-20)/50.) / (200 / 20)
	slow := 20 * math.Pow(10, (m.From-20)/50)
	near(t, "lead", m.Spans[0].Lead, 200/slow*(ratio-1), 0.02)
	power := details[0].Power
	if len(power.Spans) != 1 || power.Spans[0].Winner != breakeven.Reference {
		t.Errorf("equal power: %+v", power.Spans)
	}
}

// Curves that cross at one level: the challenger has 30 − L over air, the reference
// 20 − L/2, both at 100 lg N dB(A); they meet at 20 dB(A) and tie within 0.2.
func TestMeetingAtEqualSound(t *testing.T) {
	p := bench(t, axis(t, "fan_speed", 1.2, 3))
	p.Study.Setups[0].Rig.Fans.Fan.TopSpeed, p.Study.Setups[1].Rig.Fans.Fan.TopSpeed = 3, 3
	_, details := worked(t, p, func(r *model.Rig, n float64) (model.State, error) {
		l := 100 * math.Log10(n)
		s := model.State{Sound: l, FanPower: n, CoolantOverAir: 30 - l}
		if !small(r) {
			s.CoolantOverAir = 20 - l/2
		}
		return s, nil
	})
	m := details[0].Sound
	if len(m.Meetings) != 1 || len(m.Spans) != 2 {
		t.Fatalf("%+v", m)
	}
	at := m.Meetings[0]
	near(t, "level", at.At, 20, 1e-9)
	near(t, "tie from", at.TieFrom, 19.8, 1e-9)
	near(t, "tie to", at.TieTo, 20.2, 1e-9)
	near(t, "speed", at.Challenger.Speed, math.Pow(10, 0.2), 1e-9)
	near(t, "speed of the reference", at.Reference.Speed, math.Pow(10, 0.2), 1e-9)
	if math.Abs(at.Difference) > 1e-6 {
		t.Errorf("difference %v", at.Difference)
	}
	if m.Spans[0].Winner != breakeven.Reference || m.Spans[1].Winner != breakeven.Challenger || m.Spans[0].To != at.At {
		t.Errorf("spans %+v", m.Spans)
	}
	near(t, "lead at the loud end", m.Spans[1].Lead, (m.To-20)/2, 0.02)
}

// Nothing in common: how far apart they are.
func TestNoLevelInCommon(t *testing.T) {
	p := bench(t, axis(t, "fan_speed", 60, 100))
	_, details := worked(t, p, func(r *model.Rig, n float64) (model.State, error) {
		s := model.State{CoolantOverAir: 10 + 100/n, Sound: 30 + n/100, FanPower: n}
		if small(r) {
			s.Sound += 40
		}
		return s, nil
	})
	low := math.Min(60, 0.05*p.Study.Setups[0].Rig.Fans.Fan.TopSpeed)
	near(t, "gap", details[0].Sound.Gap, 70+low/100-30-0.25, 1e-9)
	if len(details[0].Sound.Spans) != 0 || len(details[0].Sound.Meetings) != 0 {
		t.Errorf("%+v", details[0].Sound)
	}
}

// The challenger is 1 K short at best. Denser fins by a third, twice the coolant or
// the strong fan make it equal; depth does nothing, area too little, pull half of it.
func TestChangesThatWouldBreakEven(t *testing.T) {
	p := bench(t, axis(t, "fan_speed", 20, 200))
	own := p.Study.Setups[0].Rig
	strong, weak := own.Fans.Fan, own.Fans.Fan
	strong.RatedPower, strong.TopSpeed, weak.TopSpeed = 99, 300, 50
	p.Study.Setups[0].Fan = "own"
	p.Study.Fans = []study.Fan{{Name: "own", Fan: own.Fans.Fan}, {Name: "weak", Fan: weak}, {Name: "strong", Fan: strong}}
	p = sweep.Lay(p.Study)
	answers, details := worked(t, p, func(r *model.Rig, n float64) (model.State, error) {
		if !small(r) {
			return model.State{CoolantOverAir: 10 + r.Coolant.Flow/own.Coolant.Flow}, nil
		}
		v := 8 + 800/n*own.Core.FinDensity/r.Core.FinDensity
		v -= 0.1 * math.Log2(r.Core.FaceLength*r.Core.FaceWidth/(own.Core.FaceLength*own.Core.FaceWidth))
		if r.Placing == fan.Pull {
			v -= 0.5
		}
		if r.Fans.Fan.RatedPower == 99 {
			v -= 2
		}
		return model.State{CoolantOverAir: v}, nil
	})
	if answers[0].Status != breakeven.None || len(details) != 1 {
		t.Fatalf("%v, %d details", answers[0].Status, len(details))
	}
	want := []struct {
		key, becomes           string
		works                  bool
		needed, speed, closest float64 // needed over now
	}{
		{key: "fin_density", works: true, needed: 4. / 3, speed: 200},
		{key: "fin_depth", closest: 1},
		{key: "face_area", closest: 0.9},
		{key: "coolant_flow", works: true, needed: 2, speed: 200},
		{key: "placing", becomes: "pull", closest: 0.5},
		{key: "fan", becomes: "weak", closest: 13},
		{key: "fan", becomes: "strong", works: true, speed: 160},
	}
	got := details[0].Changes
	if len(got) != len(want) {
		t.Fatalf("%d changes: %+v", len(got), got)
	}
	for i, c := range got {
		w := want[i]
		if c.Key != w.key || c.NeededIs != w.becomes || c.Works != w.works {
			t.Errorf("change %d: %+v, want %+v", i, c, w)
			continue
		}
		if !c.Works {
			near(t, c.Key+" at its closest", c.Closest, w.closest, 1e-6)
			continue
		}
		if w.needed > 0 {
			if ratio := c.Needed / c.Now; ratio < w.needed*(1-1e-12) || ratio > w.needed*1.01 {
				t.Errorf("%s times %v, want %v or hardly more", c.Key, ratio, w.needed)
			}
			in, _ := model.InputOf(c.Key)
			if shown := in.Shown.Shown(c.Needed); strconv.FormatFloat(shown, 'g', 3, 64) != strconv.FormatFloat(shown, 'g', -1, 64) {
				t.Errorf("%s of %v is not rounded", c.Key, shown)
			}
		}
		at := c.Best.Speed
		if c.At != nil {
			at = c.At.Speed
		}
		near(t, c.Key+": speed", at, w.speed, 0.02)
	}
}

// On the real model: what is said to give a break-even gives one when it is asked
// anew, and a step back from it does not; what is said to give none gives none.
func TestChangesHoldOnTheModel(t *testing.T) {
	p := bench(t, axis(t, "fan_speed", 1500./60, 20000./60), axis(t, "face_area", 0.0025, 0.004))
	answers, err := breakeven.All(context.Background(), p, sweep.Options{})
	if err != nil {
		t.Fatal(err)
	}
	details, err := breakeven.Details(context.Background(), p, answers, sweep.Options{})
	if err != nil {
		t.Fatal(err)
	}
	works, fails := 0, 0
	for _, d := range details {
		for _, c := range d.Changes {
			in, ok := model.InputOf(c.Key)
			if !ok {
				continue
			}
			best := func(v float64) float64 {
				k := p.Point(d.Design, 0)
				rig, reference := p.Challenger(k), p.Reference(k)
				in.Set(&rig, v)
				if in.Shared {
					in.Set(&reference, v)
				}
				other, err := model.Evaluate(reference)
				if err != nil {
					return math.Inf(1)
				}
				least := math.Inf(1)
				for i := range 2001 {
					rig.Speed = answers[d.Design].From + (answers[d.Design].To-answers[d.Design].From)*float64(i)/2000
					if s, err := model.Evaluate(rig); err == nil {
						least = math.Min(least, s.CoolantOverAir-other.CoolantOverAir)
					}
				}
				return least
			}
			if c.Works {
				works++
				if b := best(c.Needed); b > 1e-5 {
					t.Errorf("%s at %v is %v K short", c.Key, c.Needed, b)
				}
				if b := best(c.Now + (c.Needed-c.Now)*0.97); b < 0 {
					t.Errorf("%s needs less than %v", c.Key, c.Needed)
				}
				continue
			}
			fails++
			for i := range 21 {
				if v := c.Low * math.Pow(c.High/c.Low, float64(i)/20); best(v) < 0 {
					t.Errorf("%s at %v gives a break-even", c.Key, v)
				}
			}
		}
	}
	if works == 0 || fails == 0 {
		t.Errorf("%d changes work, %d do not: the test does not show what it should", works, fails)
	}
}

// Of many designs at most three are worked out.
func TestFewDesignsAreWorkedOut(t *testing.T) {
	p := bench(t, axis(t, "fan_speed", 25, 333), axis(t, "fin_density", 12/0.0254, 20/0.0254, 24/0.0254), axis(t, "face_area", 0.0025, 0.004, 0.0081))
	answers, details := worked(t, p, func(r *model.Rig, n float64) (model.State, error) { return model.Evaluate(with(*r, n)) })
	if len(details) != 3 || details[0].Design != breakeven.Own(p) {
		t.Fatalf("%d details", len(details))
	}
	lowest := answers[details[1].Design]
	nearest := answers[details[2].Design]
	for _, a := range answers {
		if speed, ok := a.Lower(); ok {
			if least, _ := lowest.Lower(); speed < least {
				t.Errorf("design %d breaks even at %v", a.Design, speed)
			}
		}
		if a.Status == breakeven.None && a.Best.Difference < nearest.Best.Difference {
			t.Errorf("design %d is nearer", a.Design)
		}
	}
	if nearest.Status != breakeven.None || len(details[2].Changes) == 0 || len(details[1].Changes) != 0 {
		t.Errorf("the third is %v", nearest.Status)
	}
}

func with(r model.Rig, speed float64) model.Rig {
	r.Speed = speed
	return r
}

func TestCancelledDetailsSaySo(t *testing.T) {
	p := bench(t, axis(t, "fan_speed", 25, 333))
	answers, err := breakeven.All(context.Background(), p, sweep.Options{})
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := breakeven.Details(ctx, p, answers, sweep.Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

func BenchmarkDetails(b *testing.B) {
	p := bench(b, axis(b, "fan_speed", 25, 333), axis(b, "fin_density", 12/0.0254, 20/0.0254), axis(b, "face_area", 0.0025, 0.004, 0.0081))
	answers, err := breakeven.All(context.Background(), p, sweep.Options{})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := breakeven.Details(context.Background(), p, answers, sweep.Options{Workers: 1}); err != nil {
			b.Fatal(err)
		}
	}
}
