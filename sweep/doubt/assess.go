package doubt

import (
	"cmp"
	"context"
	"math"
	"runtime"
	"slices"
	"sync"

	"golang.org/x/sync/errgroup"

	"gonum.org/v1/gonum/stat/distuv"

	"finduel/model/quantity"
	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
)

// Options says how to assess; the zero value is good.
type Options struct {
	sweep.Options
	Seed     uint64
	Separate bool // draw every error for each setup on its own: to show what common errors are worth
}

// ownTimes is how many times as many draws the study's own design may have.
const ownTimes = 10

// Extent is how much a study asks to be drawn.
type Extent struct {
	All   bool // every design; else the study's own alone
	Draws int  // at most of a design
	Own   int  // at most of the study's own
}

// ExtentOf returns how much of a plan is drawn.
func ExtentOf(p *sweep.Plan) Extent {
	d := p.Study.Doubt
	e := Extent{Draws: d.Draws, All: d.Designs == study.AllDesigns || d.Designs == study.AllUpToMany && p.Designs() <= study.ManyDesigns}
	if e.Draws == 0 {
		e.Draws = study.DefaultDraws
	}
	e.Own = e.Draws * ownTimes
	return e
}

// SourcesOf returns what is in doubt of a study, inputs first.
func SourcesOf(s *study.Study) []Source { return sources(variablesOf(s, false)) }

func sources(variables []variable) []Source {
	var list []Source
	for _, v := range variables {
		list = append(list, v.Source)
	}
	return list
}

// Assess draws what is not known of the two setups of a plan, for every design that the
// study asks for, and in more detail for its own. answers are those of breakeven.All.
// o.Done counts designs.
// The results do not depend on the number of workers. It returns what ctx says if ctx
// ends first.
func Assess(ctx context.Context, p *sweep.Plan, answers breakeven.Answers, o Options) (*Assessment, error) {
	if o.Workers <= 0 {
		o.Workers = runtime.GOMAXPROCS(0)
	}
	w := newWork(p, o)
	a := &Assessment{Seed: o.Seed, Margin: breakeven.Margin(p.Study), Base: base(p), Sources: sources(w.variables)}
	extent := ExtentOf(p)
	a.All = extent.All

	var chosen []searched
	if err := answers.Each(func(x *breakeven.Answer) bool {
		if x.Status != breakeven.Excluded && (a.All || x.Design == a.Base) {
			_, upper := x.Upper()
			chosen = append(chosen, searched{design: x.Design, from: x.From, to: x.To, upper: upper})
			if x.Design == a.Base {
				chosen[len(chosen)-1].own(x)
			}
		}
		return true
	}); err != nil {
		return nil, err
	}
	a.Results = make([]Result, len(chosen))
	pool, inner := errgroup.WithContext(ctx)
	pool.SetLimit(o.Workers)
	// The study's own design first: it takes longest.
	order := make([]int, len(chosen))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(x, y int) int {
		return cmp.Compare(b2i(chosen[x].design != a.Base), b2i(chosen[y].design != a.Base))
	})
	for _, i := range order {
		if inner.Err() != nil {
			break
		}
		pool.Go(func() error {
			draws := extent.Draws
			if chosen[i].design == a.Base {
				draws = extent.Own
			}
			a.Results[i] = w.comparison(chosen[i]).result(inner, draws)
			if o.Done != nil {
				o.Done.Add(1)
			}
			return inner.Err()
		})
	}
	if err := pool.Wait(); err != nil {
		return nil, err
	}
	for i := range chosen {
		if chosen[i].design != a.Base {
			continue
		}
		a.Own = &Detail{Result: a.Results[i]}
		if err := w.detail(ctx, chosen[i], a.Own); err != nil {
			return nil, err
		}
	}
	return a, ctx.Err()
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// base returns the design nearest to the study's challenger: every axis at the value
// nearest to what it has there, of axes that step together the first.
func base(p *sweep.Plan) int {
	speed, swept := p.SpeedAxis()
	nearest := map[int]int{}
	seen := map[string]bool{}
	for i, a := range p.Study.Axes {
		if swept && i == speed || a.Group != "" && seen[a.Group] {
			continue
		}
		seen[a.Group] = true
		nearest[i] = p.Nearest(i)
	}
next:
	for d := range p.Designs() {
		for axis, step := range nearest {
			if p.Step(p.Point(d, 0), axis) != step {
				continue next
			}
		}
		return d
	}
	return -1
}

// work is what all designs share.
type work struct {
	plan      *sweep.Plan
	options   Options
	variables []variable
	shapes    []distuv.Quantiler
	metric    metric
	shared    bool // whether the reference is the same in every design

	blocks [keptBlocks]struct { // the first ones, drawn once for all designs
		once  sync.Once
		block block
	}
}

// keptBlocks is how many blocks are kept for all designs; later ones are drawn again by
// each that needs them.
const keptBlocks = 8

// block is one block of draws, and what the reference has in them if that is the same
// for all designs.
type block struct {
	cube      [][]float64
	reference []float64 // K; NaN where it has no value
	why       []error
}

func newWork(p *sweep.Plan, o Options) *work {
	w := &work{plan: p, options: o, variables: variablesOf(p.Study, o.Separate), metric: p.Metric(), shared: true}
	for _, v := range w.variables {
		w.shapes = append(w.shapes, v.shape)
	}
	for _, a := range p.Study.Axes {
		w.shared = w.shared && !a.Input.Shared
	}
	return w
}

// block returns a block of draws, with the reference's values if they are shared.
func (w *work) block(n int, reference *subject) block {
	made := func() block {
		b := block{cube: hypercube(w.shapes, blockSize, source(w.options.Seed, streamDraws, uint64(n)))}
		if w.shared {
			b.reference, b.why = referenceOf(reference, b.cube, blockSize)
		}
		return b
	}
	if n >= keptBlocks {
		return made()
	}
	kept := &w.blocks[n]
	kept.once.Do(func() { kept.block = made() })
	return kept.block
}

// block returns a block of draws, with the reference's values.
func (c *comparison) block(n int) block {
	b := c.work.block(n, &c.reference)
	if !c.work.shared {
		b.reference, b.why = referenceOf(&c.reference, b.cube, blockSize)
	}
	return b
}

// referenceOf returns what the reference has in the n draws of a cube.
func referenceOf(s *subject, cube [][]float64, n int) ([]float64, []error) {
	values, why := make([]float64, n), make([]error, n)
	z := make([]float64, len(cube))
	var d drawn
	for i := range values {
		for j := range z {
			z[j] = cube[j][i]
		}
		values[i] = math.NaN()
		if why[i] = s.draw(z, &d); why[i] == nil {
			values[i], why[i] = d.over(s.rig.Speed)
		}
	}
	return values, why
}

// searched is what is kept of the answer for a design.
type searched struct {
	design   int
	from, to float64   // speeds that it was sought in, rev/s
	upper    bool      // whether to find where the challenger becomes worse again, too
	named    []float64 // speeds that it names, rev/s; of the study's own design
}

// own adds what the study's own design needs.
func (s *searched) own(x *breakeven.Answer) {
	s.upper, s.named = true, []float64{x.Sensible.Speed, x.Best.Speed}
	for i := range x.Crossings {
		s.named = append(s.named, x.Crossings[i].Speed)
	}
}

// comparison draws the errors of one design.
type comparison struct {
	work       *work
	answer     searched
	speed      float64 // compared, rev/s
	challenger subject
	reference  subject
	crossing   *crossing
	failure    string // why nothing can be drawn
}

// comparison makes a design ready: the nominal challenger over the searched speeds, and
// the doubts that the model states of both.
func (w *work) comparison(a searched) *comparison {
	p := w.plan
	k := p.Point(a.design, 0)
	c := &comparison{
		work: w, answer: a,
		challenger: newSubject(p.Challenger(k), Challenger, w.options.Model, w.metric, w.variables),
		reference:  newSubject(p.Reference(k), Reference, w.options.Model, w.metric, w.variables),
		crossing:   newCrossing(a.from, a.to),
	}
	c.speed = c.challenger.rig.Speed
	if _, swept := p.SpeedAxis(); swept {
		c.speed = p.Study.Setups[p.Study.Challenger].Rig.Speed
	}
	nominal := w.options.Model
	if nominal == nil {
		nominal = sweep.Physics
	}
	state, err := sweep.Evaluate(nominal, c.reference.rig)
	if err != nil {
		c.failure = "the reference has no value: " + sweep.Reason(err)
		return c
	}
	c.reference.know(c.reference.rig.Speed, &state)
	ready, err := sweep.Ready(nominal, c.challenger.rig)
	if err != nil {
		c.failure = "the challenger has no value: " + sweep.Reason(err)
		return c
	}
	for i := range c.crossing.at {
		c.crossing.curve[i] = math.Inf(1)
		if state, err := ready.At(c.crossing.speed(i)); err == nil {
			c.crossing.curve[i] = w.metric(&state)
			c.challenger.know(c.crossing.speed(i), &state)
		}
	}
	if len(c.challenger.at) == 0 {
		c.failure = "the challenger has no value at any speed"
	}
	return c
}

// outcome is what one draw yields. What has no value is NaN.
type outcome struct {
	challenger, reference float64 // K
	breakeven             float64 // rev/s, or infinite
	upper                 float64 // rev/s, or infinite; NaN if it was not asked for, or the challenger is better nowhere
	without               bool    // whether the challenger cannot be asked at any speed
	why                   error   // why something has no value
}

func (o *outcome) difference() float64 { return o.challenger - o.reference }

// draw draws once: z are the errors, reference what the reference has.
func (c *comparison) draw(z []float64, d *drawn, reference float64, why error) outcome {
	o := c.alone(z, d)
	c.against(&o, d, reference, why)
	return o
}

// alone draws the challenger, and begins a search for its break-even speed.
func (c *comparison) alone(z []float64, d *drawn) outcome {
	o := outcome{challenger: math.NaN(), reference: math.NaN(), breakeven: math.NaN(), upper: math.NaN()}
	c.crossing.forget()
	if o.why = c.challenger.draw(z, d); o.why != nil {
		o.without = true
		return o
	}
	o.challenger, o.why = d.over(c.speed)
	c.crossing.learn(c.speed, o.challenger)
	return o
}

// against completes what was drawn of the challenger with what the reference has.
func (c *comparison) against(o *outcome, d *drawn, reference float64, why error) {
	o.reference = reference
	if o.why == nil {
		o.why = why
	}
	if o.without || math.IsNaN(reference) {
		return
	}
	over := func(speed float64) float64 {
		v, err := d.over(speed)
		if err != nil {
			return math.NaN()
		}
		return v
	}
	o.breakeven = c.crossing.find(over, reference)
	if c.answer.upper && o.breakeven < math.Inf(1) {
		o.upper = c.crossing.findUpper(over, reference)
	}
}

// result draws a design until its printed digits are stable, at most so many times.
func (c *comparison) result(ctx context.Context, most int) Result {
	r := Result{Design: c.answer.design, Speed: c.speed, Failure: c.failure}
	nothing := Band{Low: math.NaN(), Median: math.NaN(), High: math.NaN()}
	r.Challenger, r.Reference, r.Difference, r.Breakeven, r.Upper = nothing, nothing, nothing, nothing, nothing
	if c.failure != "" {
		r.NoValue = 1
		return r
	}
	shown := func(key string) float64 { u := quantity.Must(key).Shown; return u.Over / u.Times }
	kelvin, rpm := shown("difference"), shown("fan_speed")
	bands := [5]collector{{perSI: kelvin}, {perSI: kelvin}, {perSI: kelvin}, {perSI: rpm}, {perSI: rpm}}
	shares := [8]shareOf{}      // win, tie, lose, no value, exists, from start, never, worse again
	reasons := map[string]int{} // by rule, without values: as many as there are rules, not draws
	z := make([]float64, len(c.work.variables))
	var d drawn
	margin := breakeven.Margin(c.work.plan.Study)
	for n := 0; (n+1)*blockSize <= most && ctx.Err() == nil; n++ {
		if n >= leastBlocks && settled(bands[:], shares[:]) {
			break
		}
		b := c.block(n)
		for i := range blockSize {
			for j := range z {
				z[j] = b.cube[j][i]
			}
			o := c.draw(z, &d, b.reference[i], b.why[i])
			if o.why != nil {
				reasons[sweep.Rule(o.why)]++
			}
			diff := o.difference()
			for j, v := range []float64{o.challenger, o.reference, diff, o.breakeven, o.upper} {
				if !math.IsNaN(v) {
					bands[j].add(v)
				}
			}
			for j, is := range []bool{
				diff < -margin, math.Abs(diff) <= margin, diff > margin, math.IsNaN(diff),
				!math.IsNaN(o.breakeven) && !math.IsInf(o.breakeven, 0), math.IsInf(o.breakeven, -1), math.IsInf(o.breakeven, 1),
				!math.IsNaN(o.upper) && !math.IsInf(o.upper, 0),
			} {
				shares[j].add(is)
			}
			r.Draws++
			r.NoChallenger += b2i(math.IsNaN(o.challenger))
			r.NoReference += b2i(math.IsNaN(o.reference))
			r.NoBreakeven += b2i(math.IsNaN(o.breakeven))
		}
		for j := range bands {
			bands[j].close()
		}
		for j := range shares {
			shares[j].close()
		}
	}
	r.Capped = !settled(bands[:], shares[:])
	r.Failure = commonest(reasons)
	r.Challenger, r.Reference, r.Difference, r.Breakeven = bands[0].band(), bands[1].band(), bands[2].band(), bands[3].band()
	r.Upper, r.HasUpper = bands[4].band(), c.answer.upper
	for j, at := range []*float64{&r.Win, &r.Tie, &r.Lose, &r.NoValue, &r.Exists, &r.FromStart, &r.Never, &r.Again} {
		*at = shares[j].share()
	}
	return r
}

// settled returns whether all that is printed of a result is stable.
func settled(bands []collector, shares []shareOf) bool {
	for i := range bands {
		if !bands[i].settled() {
			return false
		}
	}
	for i := range shares {
		if !stable(shares[i].blocks.scatter(), shareStep) {
			return false
		}
	}
	return true
}

// shareStep is to what a share of the draws is stable: it is printed in whole percent,
// of which the last may be off by one.
const shareStep = 0.02

// shareOf counts the draws for which something holds.
type shareOf struct {
	holds, all     int
	inBlock, block int
	blocks         tally
}

func (s *shareOf) add(is bool) {
	s.holds += b2i(is)
	s.all++
	s.inBlock += b2i(is)
	s.block++
}

func (s *shareOf) close() {
	s.blocks.add(float64(s.inBlock) / float64(s.block))
	s.inBlock, s.block = 0, 0
}

func (s *shareOf) share() float64 { return float64(s.holds) / float64(s.all) }

// commonest returns the reason that occurs most often, the first in the alphabet of
// equals; empty if there is none.
func commonest(reasons map[string]int) string {
	best := ""
	for reason, n := range reasons {
		if best == "" || n > reasons[best] || n == reasons[best] && reason < best {
			best = reason
		}
	}
	return best
}

// level returns what the reference has in a draw, K, or NaN and why it has nothing.
func (c *comparison) level(z []float64, d *drawn) (float64, error) {
	if err := c.reference.draw(z, d); err != nil {
		return math.NaN(), err
	}
	return d.over(c.reference.rig.Speed)
}

// row is one draw of both setups, for what needs all of it.
func (c *comparison) row(z []float64, d, dr *drawn) outcome {
	reference, why := c.level(z, dr)
	return c.draw(z, d, reference, why)
}

// names of the two setups of a study.
func names(s *study.Study) (challenger, reference *study.Setup) {
	return &s.Setups[s.Challenger], &s.Setups[s.Reference]
}
