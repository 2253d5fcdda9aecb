package sheet

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
)

// Doubted writes how much a run of a plan would draw of what is not known, for so many
// designs that it compares, and what that is. It returns the error of w.
func Doubted(w io.Writer, p *sweep.Plan, designs int) error {
	extent := doubt.ExtentOf(p)
	text := fmt.Sprintf("up to %s draws of the study's own design", render.Whole(extent.Own))
	if extent.All && designs > 1 {
		text = fmt.Sprintf("up to %s draws of each of %s, %s of the study's own", render.Whole(extent.Draws), render.Counted(designs, "design"), render.Whole(extent.Own))
	}
	var b strings.Builder
	b.WriteString(wrap("doubt       ", text+", fewer where the printed digits are stable before", 80))
	s := p.Study
	lines := map[doubt.Side][]string{}
	for _, source := range doubt.SourcesOf(s) {
		line := source.Label + " " + source.Limit
		if !strings.HasPrefix(source.Limit, "±") {
			line = source.Label + ", " + source.Limit
		}
		if source.Given {
			line += " (the study's)"
		}
		lines[source.Of] = append(lines[source.Of], line)
	}
	head := "in doubt    "
	for _, side := range []doubt.Side{doubt.Both, doubt.Challenger, doubt.Reference} {
		if lines[side] == nil {
			continue
		}
		of := map[doubt.Side]string{doubt.Both: "both alike", doubt.Challenger: render.Clean(s.Setups[s.Challenger].Name), doubt.Reference: render.Clean(s.Setups[s.Reference].Name)}[side]
		b.WriteString(wrap(head, of+": "+strings.Join(lines[side], "; "), 80))
		head = strings.Repeat(" ", len(head))
	}
	for _, e := range doubt.Excesses(s) {
		of := ""
		switch e.Of {
		case doubt.Challenger:
			of = " of " + render.Clean(s.Setups[s.Challenger].Name)
		case doubt.Reference:
			of = " of " + render.Clean(s.Setups[s.Reference].Name)
		}
		b.WriteString(wrap("warning     ", e.Label+of+" "+e.Limit+" leaves its range ("+e.Rule+"): draws beyond it have no value", 80))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// Stepped writes that a sweep goes from one measured propeller to the next, if it does.
// It returns the error of w.
func Stepped(w io.Writer, p *sweep.Plan) error {
	steps := render.Steps(p)
	if steps == "" {
		return nil
	}
	_, err := io.WriteString(w, wrap("propeller   ", steps, 80))
	return err
}

// interval is a result with its band, for tables.
type interval struct {
	name string // of its columns, before _median, _lo and _hi
	q    quantity.Quantity
	of   func(*doubt.Result) doubt.Band
}

// intervals lists the results of a design with their bands.
func intervals(rep *render.Report) []interval {
	metric := rep.Metric().Quantity
	return []interval{
		{"breakeven_speed", quantity.Must("breakeven_speed"), func(r *doubt.Result) doubt.Band { return r.Breakeven }},
		{"breakeven_upper_speed", quantity.Must("breakeven_upper_speed"), func(r *doubt.Result) doubt.Band { return r.Upper }},
		{"challenger_" + metric.Key, metric, func(r *doubt.Result) doubt.Band { return r.Challenger }},
		{"reference_" + metric.Key, metric, func(r *doubt.Result) doubt.Band { return r.Reference }},
		{"difference", quantity.Must("difference"), func(r *doubt.Result) doubt.Band { return r.Difference }},
	}
}

// share is a share of the draws of a design.
type share struct {
	name string
	of   func(*doubt.Result) float64
}

// shares lists the shares of the draws.
var shares = []share{
	{"win", func(r *doubt.Result) float64 { return r.Win }},
	{"tie", func(r *doubt.Result) float64 { return r.Tie }},
	{"lose", func(r *doubt.Result) float64 { return r.Lose }},
	{"no_value", func(r *doubt.Result) float64 { return r.NoValue }},
	{"breakeven_exists", func(r *doubt.Result) float64 { return r.Exists }},
	{"better_from_lowest_speed", func(r *doubt.Result) float64 { return r.FromStart }},
	{"never_better", func(r *doubt.Result) float64 { return r.Never }},
	{"warmer_again", again},
}

// again returns the share of the draws in which the challenger is worse again at a higher
// speed; NaN where that was not looked for.
func again(r *doubt.Result) float64 {
	if !r.HasUpper {
		return math.NaN()
	}
	return r.Again
}

// doubtHeader returns the columns that say how sure a design's answer is: for the
// break-even speed, both setups and their difference the median and the ends of the 95 %
// interval; probabilities in percent; the speed at which the two are compared; the number
// of draws and whether they ended at their cap. None if nothing was assessed.
//
// An end of the break-even's interval is empty where it is open: better_from_lowest_speed
// and never_better say how probable that is. The upper end of a band of speeds is empty
// where it was not looked for, and where it is open at the highest speed.
func doubtHeader(rep *render.Report) []string {
	if rep.Doubt == nil {
		return nil
	}
	var header []string
	for _, i := range intervals(rep) {
		for _, end := range []string{"median", "lo", "hi"} {
			header = append(header, i.name+"_"+end+"_"+i.q.Shown.Name)
		}
	}
	for _, s := range shares {
		header = append(header, s.name+"_percent")
	}
	return append(header, "compared_at_"+column("fan_speed"), "draws", "draws_capped")
}

// doubtRow returns the cells of a design under doubtHeader; empty ones if it was not
// assessed.
func doubtRow(rep *render.Report, design int) []string {
	row := make([]string, len(doubtHeader(rep)))
	r, ok := rep.Doubt.Of(design)
	if !ok {
		return row
	}
	at := 0
	put := func(s string) {
		row[at] = s
		at++
	}
	for _, i := range intervals(rep) {
		for _, cell := range bandCells(i.q, i.of(r), 1, 0, 2) {
			put(cell)
		}
	}
	for _, s := range shares {
		if v := s.of(r); math.IsNaN(v) {
			put("")
		} else {
			put(strconv.FormatFloat(100*render.WorthShare(r, v), 'g', 6, 64))
		}
	}
	put(exact(quantity.Must("fan_speed"), r.Speed))
	put(strconv.Itoa(r.Draws))
	put(map[bool]string{true: "yes", false: "no"}[r.Capped])
	return row
}

// bandCells returns ends of a band, counted as in render.Worth, for a table; an end that is
// open, or was not drawn, is empty.
func bandCells(q quantity.Quantity, b doubt.Band, ends ...int) []string {
	var cells []string
	for _, end := range ends {
		if v := render.Worth(q, b, end); math.IsNaN(v) || math.IsInf(v, 0) {
			cells = append(cells, "")
		} else {
			cells = append(cells, strconv.FormatFloat(v, 'f', -1, 64))
		}
	}
	return cells
}

// bandJSON is a result with its 95 % interval, cut to the digits that are stable; an open
// end is null.
type bandJSON struct {
	Median number `json:"median"`
	Low    number `json:"lo"`
	High   number `json:"hi"`
	Stable number `json:"stable_to"` // the coarsest step that the three are cut to; null where nothing scatters
}

func bandOf(q quantity.Quantity, b doubt.Band) bandJSON {
	worth := func(end int) number { return number(render.Worth(q, b, end)) }
	out := bandJSON{worth(1), worth(0), worth(2), number(math.NaN())}
	if step := max(b.Steps[0], b.Steps[1], b.Steps[2]); step > 0 {
		out.Stable = number(render.Step(q, step))
	}
	return out
}

// bandsAt returns how sure what is compared is at a place of an answer, by column name;
// nil if that was not drawn.
func bandsAt(rep *render.Report, a *breakeven.Answer, p place) map[string]bandJSON {
	if p.state == nil {
		return nil
	}
	d, ok := rep.DoubtAt(a, &render.Place{Speed: p.speed, State: p.state})
	if !ok {
		return nil
	}
	metric, difference := rep.Metric().Quantity, quantity.Must("difference")
	out := map[string]bandJSON{metric.Column(): bandOf(metric, d.Band)}
	if p.state != &a.Reference {
		out[difference.Column()] = bandOf(difference, d.Difference)
	}
	return out
}

// sureJSON is how sure the answer for a design is.
type sureJSON struct {
	Draws         int                 `json:"draws"`
	Capped        bool                `json:"draws_capped"`
	At            number              `json:"compared_at_fan_speed_rpm"`
	Bands         map[string]bandJSON `json:"intervals_95_percent"` // by column name
	Probabilities map[string]number   `json:"probabilities"`
	NoChallenger  int                 `json:"draws_without_challenger"`
	NoReference   int                 `json:"draws_without_reference"`
	NoBreakeven   int                 `json:"draws_without_breakeven_search"`
	Failure       string              `json:"failure,omitempty"`
}

// sureOf returns how sure the answer for a design is; nil if it was not assessed.
func sureOf(rep *render.Report, design int) *sureJSON {
	r, ok := rep.Doubt.Of(design)
	if !ok {
		return nil
	}
	out := sureJSON{
		Draws: r.Draws, Capped: r.Capped, At: number(quantity.Must("fan_speed").Shown.Shown(r.Speed)),
		Bands: map[string]bandJSON{}, Probabilities: map[string]number{},
		NoChallenger: r.NoChallenger, NoReference: r.NoReference, NoBreakeven: r.NoBreakeven, Failure: r.Failure,
	}
	for _, i := range intervals(rep) {
		out.Bands[i.name+"_"+i.q.Shown.Name] = bandOf(i.q, i.of(r))
	}
	for _, s := range shares {
		out.Probabilities[s.name] = number(render.WorthShare(r, s.of(r)))
	}
	return &out
}

// doubtJSON is what all designs share of how sure they are, and what is known of the
// study's own beyond its answer.
type doubtJSON struct {
	Margin  number       `json:"margin_K"`
	Seed    uint64       `json:"seed"`
	All     bool         `json:"all_designs"`
	Sources []sourceJSON `json:"sources"`
	Own     *ownJSON     `json:"own_design"`
}

// sourceJSON is something in doubt.
type sourceJSON struct {
	Key   string `json:"key"`
	Of    string `json:"of"` // both, challenger or reference
	Limit string `json:"limit"`
	Why   string `json:"why"`
	Given bool   `json:"given"`
}

// ownJSON is what is known of the study's own design.
type ownJSON struct {
	Design  int               `json:"design"`
	Indices []sensitivityJSON `json:"sensitivity"`
	Ranking rankingJSON       `json:"measure_first"`
	Curve   []curveJSON       `json:"difference_over_fan_speed"`

	Coverage []coverageJSON `json:"coverage_of_95_percent"`
	Apart    *shareJSON     `json:"times_as_wide_if_no_error_were_common"` // the interval of the difference; null if none is common, or a draw has no difference
}

// coverageJSON is how many draws more, made as a check, lie in an interval.
type coverageJSON struct {
	Of     string    `json:"of"` // column name
	Draws  int       `json:"draws"`
	Inside int       `json:"inside"`
	Share  shareJSON `json:"share"`
}

type sensitivityJSON struct {
	Of      string      `json:"of"`
	Refused string      `json:"refused,omitempty"`
	Draws   int         `json:"draws,omitempty"`                   // of the break-even speed
	Outside int         `json:"draws_at_ends_of_search,omitempty"` // of them
	Indices []indexJSON `json:"indices"`
}

type indexJSON struct {
	Source string    `json:"source"`
	Of     string    `json:"of"`
	First  shareJSON `json:"first_order"`
	Total  shareJSON `json:"total"`
}

type shareJSON struct {
	Value number `json:"value"`
	Low   number `json:"lo"`
	High  number `json:"hi"`
}

func shareOf(i doubt.Index) shareJSON {
	value, low, high := render.WorthIndex(i)
	return shareJSON{number(value), number(low), number(high)}
}

type rankingJSON struct {
	Of      string     `json:"of"` // column name
	Why     string     `json:"why_not_breakeven,omitempty"`
	Refused string     `json:"refused,omitempty"`
	Half    number     `json:"half_interval"`
	Outside int        `json:"draws_at_ends_of_search"`
	Steps   []stepJSON `json:"steps"`
}

type stepJSON struct {
	Action string    `json:"action"`
	Half   number    `json:"half_interval_left"`
	Left   shareJSON `json:"share_left"`
}

// curveJSON is the study's own design at one speed.
type curveJSON struct {
	Speed      number   `json:"fan_speed_rpm"`
	Band       bandJSON `json:"difference_K"`
	Challenger bandJSON `json:"challenger_K"`

	Draws        int `json:"draws"`
	NoChallenger int `json:"draws_without_challenger"`
	NoValue      int `json:"draws_without_difference"`
}

// doubtOf returns what all designs share of how sure they are; nil if nothing was
// assessed.
func doubtOf(rep *render.Report) *doubtJSON {
	if rep.Doubt == nil {
		return nil
	}
	difference, speed := quantity.Must("difference"), quantity.Must("fan_speed")
	out := &doubtJSON{Margin: number(difference.Shown.Shown(rep.Doubt.Margin)), Seed: rep.Doubt.Seed, All: rep.Doubt.All, Sources: []sourceJSON{}}
	for _, s := range rep.Doubt.Sources {
		out.Sources = append(out.Sources, sourceJSON{s.Key, s.Of.String(), s.Limit, s.Why, s.Given})
	}
	own := rep.Doubt.Own
	if own == nil {
		return out
	}
	o := &ownJSON{Design: own.Result.Design, Indices: []sensitivityJSON{}, Curve: []curveJSON{}, Coverage: []coverageJSON{}}
	out.Own = o
	for _, s := range own.Indices {
		x := sensitivityJSON{Of: s.Of, Refused: s.Refused, Draws: s.Draws, Outside: s.Outside, Indices: []indexJSON{}}
		for j := range s.Indices.First {
			source := rep.Doubt.Sources[j]
			x.Indices = append(x.Indices, indexJSON{source.Key, source.Of.String(), shareOf(s.Indices.First[j]), shareOf(s.Indices.Total[j])})
		}
		o.Indices = append(o.Indices, x)
	}
	r := &own.Ranking
	o.Ranking = rankingJSON{Why: r.Why, Refused: r.Refused, Outside: r.Outside, Steps: []stepJSON{}}
	if q, ok := quantity.Of(r.Of); ok {
		half := func(si float64) number { return number(render.WorthHalf(q, si)) }
		o.Ranking.Of, o.Ranking.Half = q.Column(), half(r.Half)
		for _, s := range r.Steps {
			o.Ranking.Steps = append(o.Ranking.Steps, stepJSON{s.Action, half(s.Half), shareOf(s.Left)})
		}
	}
	for _, c := range own.Coverage {
		o.Coverage = append(o.Coverage, coverageJSON{quantity.Must(c.Of).Column(), c.Draws, c.Inside, shareOf(c.Share)})
	}
	if own.Apart.Value > 0 {
		apart := shareOf(own.Apart)
		o.Apart = &apart
	}
	for _, p := range own.Curve {
		o.Curve = append(o.Curve, curveJSON{number(speed.Shown.Shown(p.Speed)), bandOf(difference, p.Difference), bandOf(difference, p.Challenger), p.Draws, p.NoChallenger, p.NoValue})
	}
	return out
}
