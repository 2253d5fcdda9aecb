package sheet

import (
	"bytes"
	"encoding/json"
	"io"
	"math"
	"slices"
	"strconv"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
	"finduel/sweep/study"
)

// format numbers the form of the JSON documents. Keys may be added under the same
// number; readers ignore keys that they do not know.
const format = 1

// number is a float64 that is written with the fewest digits that give the same
// double back, and as null if it is not finite.
type number float64

// MarshalJSON writes the number.
func (n number) MarshalJSON() ([]byte, error) {
	v := float64(n)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return []byte("null"), nil
	}
	return strconv.AppendFloat(nil, v, 'g', -1, 64), nil
}

// numbers holds numbers by column name: the key of a quantity and its unit.
type numbers map[string]number

// put adds a number, SI, in the unit in which it is shown; null if there is none
// to record.
func (n numbers) put(q quantity.Quantity, si float64) {
	v, ok := render.Recorded(q, si)
	if !ok {
		v = math.NaN()
	}
	n[q.Column()] = number(v)
}

// identity says what a document is about.
type identity struct {
	Format  int    `json:"format"`
	Study   string `json:"study"`
	About   string `json:"about,omitempty"`
	Hash    string `json:"study_hash"`
	Seed    uint64 `json:"seed"`
	Version string `json:"version"`
	Metric  string `json:"metric"` // column name of what is compared
}

func identityOf(rep *render.Report) identity {
	return identity{
		Format: format, Study: rep.Study.Name, About: rep.Study.About, Hash: rep.Study.Hash,
		Seed: rep.Seed, Version: rep.Version, Metric: rep.Metric().Column(),
	}
}

// setupJSON is one of the two setups as it is in the study.
type setupJSON struct {
	Name    string  `json:"name"`
	Core    string  `json:"core"`
	Fan     string  `json:"fan"`
	Placing string  `json:"placing"`
	Surface string  `json:"fin_surface"`
	Routing string  `json:"routing"`
	Streams string  `json:"arrangement"`
	Feed    string  `json:"stack_feed"`
	Fluid   string  `json:"fluid"`
	Motor   string  `json:"motor"`
	Shroud  string  `json:"shroud"`
	Field   string  `json:"sound_field"`
	Level   string  `json:"sound_level_from"`
	Inputs  numbers `json:"inputs"`

	Estimated []string `json:"estimated,omitempty"` // keys of the inputs whose value is an estimate
	Notes     []string `json:"notes,omitempty"`     // what was changed against the study and is not plain to see
}

func setupOf(s *study.Setup) setupJSON {
	out := setupJSON{
		Name: s.Name, Core: s.Core, Fan: s.Fan,
		Placing: s.Rig.Placing.String(), Surface: s.Rig.Core.Surface.String(),
		Routing: s.Rig.Core.Routing.String(), Streams: s.Rig.Core.Arrangement.String(), Feed: s.Rig.Core.Feed.String(),
		Fluid: s.Rig.Coolant.Liquid.Fluid.String(), Motor: s.Rig.Fans.Fan.Motor.String(),
		Shroud: s.Rig.Installed.Shroud.String(), Field: s.Rig.Room.Surroundings.Field.String(), Level: render.SoundSource(&s.Rig),
		Inputs: numbers{}, Estimated: s.Estimates(), Notes: s.Notes,
	}
	for _, in := range model.Inputs {
		// A zero that no study could set means that the model estimates it, others that
		// it is not known.
		if v := in.Get(&s.Rig); !in.Unused(&s.Rig) && (v != 0 || in.Check(v) == nil && !in.Unknown()) {
			out.Inputs.put(in.Quantity, v)
		}
	}
	return out
}

// counts counts points and designs; the points are left away if none were
// evaluated.
type counts struct {
	*points
	Designs  int            `json:"designs"`
	Statuses map[string]int `json:"designs_by_status"`
}

// points counts the points of a run, by the names that its record has for them.
type points struct {
	Points   int `json:"points"`   // in the plan
	Excluded int `json:"excluded"` // left out by the study
	Computed int `json:"computed"` // with a value
	Failed   int `json:"failed"`   // without a value
}

func countsOf(d *render.Digest) counts {
	c := counts{Designs: d.Designs, Statuses: map[string]int{}}
	if d.Ran {
		c.points = &points{Points: d.Points, Excluded: d.LeftOut, Computed: d.Evaluated, Failed: d.Failed}
	}
	for i, s := range render.Statuses {
		c.Statuses[s.String()] = d.Statuses[i]
	}
	return c
}

// answerJSON is the answer for one design. What a design does not have is left
// away.
type answerJSON struct {
	Design      int            `json:"design"`
	Inputs      numbers        `json:"inputs"` // the swept ones
	Status      string         `json:"status"`
	Speed       *number        `json:"breakeven_speed_rpm,omitempty"`
	Upper       *number        `json:"breakeven_upper_speed_rpm,omitempty"`
	Margin      number         `json:"margin_K"`
	Crossings   []number       `json:"crossing_speeds_rpm"` // every speed of equality, rising
	At          []crossingJSON `json:"crossings"`           // the same in full
	Tie         *tieJSON       `json:"tie,omitempty"`       // of the status tie
	Sensible    *number        `json:"sensible_speed_rpm,omitempty"`
	Rough       bool           `json:"search_cut_short,omitempty"`
	Best        *number        `json:"best_speed_rpm,omitempty"`
	BestAt      string         `json:"best_speed_at,omitempty"` // low end, inside or high end of the searched speeds
	Difference  *number        `json:"best_difference_K,omitempty"`
	From        number         `json:"searched_from_rpm"`
	To          number         `json:"searched_to_rpm"`
	LimitTerm   string         `json:"limit_term,omitempty"`
	LimitExcess *number        `json:"limit_excess_K,omitempty"`
	Reason      string         `json:"reason"`

	Sure *sureJSON `json:"doubt,omitempty"`

	AtBreakeven *stateJSON `json:"at_breakeven,omitempty"`
	AtUpper     *stateJSON `json:"at_upper,omitempty"`
	AtSensible  *stateJSON `json:"at_sensible,omitempty"`
	AtBest      *stateJSON `json:"at_best,omitempty"`
	AtReference *stateJSON `json:"at_reference,omitempty"`
}

// stateJSON is a state in part or in full.
type stateJSON struct {
	Outputs  numbers  `json:"outputs"`
	Warnings []string `json:"warnings"` // keys

	Bands map[string]bandJSON `json:"intervals_95_percent,omitempty"` // by column name; left out where nothing was drawn
}

func stateOf(s *model.State, outputs []model.Output) *stateJSON {
	if s == nil {
		return nil
	}
	out := stateJSON{Outputs: numbers{}, Warnings: []string{}}
	for _, o := range outputs {
		out.Outputs.put(o.Quantity, o.Get(s))
	}
	for _, w := range s.Warnings.List() {
		out.Warnings = append(out.Warnings, w.Key)
	}
	return &out
}

// answerOf returns an answer with some outputs of its states.
func answerOf(rep *render.Report, a *breakeven.Answer, outputs []model.Output) answerJSON {
	speed := quantity.Must("fan_speed")
	rpm := func(v float64) *number {
		n := number(speed.Shown.Shown(v))
		return &n
	}
	out := answerJSON{
		Design: a.Design, Inputs: numbers{}, Status: a.Status.String(), Margin: number(a.Margin), Crossings: []number{}, At: []crossingJSON{},
		From: *rpm(a.From), To: *rpm(a.To), Reason: a.Reason, Sure: sureOf(rep, a.Design),
	}
	for _, i := range rep.DesignAxes() {
		out.Inputs.put(rep.Study.Axes[i].Input.Quantity, rep.DesignValue(a.Design, i))
	}
	if !render.Answered(a) {
		return out
	}
	for i := range a.Crossings {
		out.Crossings = append(out.Crossings, *rpm(a.Crossings[i].Speed))
		at := crossingOf(&a.Crossings[i], outputs)
		at.State.Bands = bandsAt(rep, a, place{a.Crossings[i].Speed, &a.Crossings[i].State})
		out.At = append(out.At, at)
	}
	if a.Status == breakeven.Tie {
		tie := tieOf(a.Tie)
		out.Tie = &tie
	}
	out.Rough = a.Cut
	places := placesOf(a)
	if places[0].state != nil {
		out.Speed = rpm(places[0].speed)
	}
	if places[1].state != nil {
		out.Upper = rpm(places[1].speed)
	}
	difference := number(a.Best.Difference)
	out.Best, out.Difference, out.Sensible = rpm(a.Best.Speed), &difference, rpm(a.Sensible.Speed)
	out.BestAt = bestAt(a.BestEnds)
	if a.Limit.Term != "" {
		excess := number(a.Limit.Excess)
		out.LimitTerm, out.LimitExcess = a.Limit.Term, &excess
	}
	for i, to := range []**stateJSON{&out.AtBreakeven, &out.AtUpper, &out.AtSensible, &out.AtBest, &out.AtReference} {
		if *to = stateOf(places[i].state, outputs); *to != nil {
			(*to).Bands = bandsAt(rep, a, places[i])
		}
	}
	return out
}

// bestAt says where among the searched speeds the best one lies.
func bestAt(ends int) string {
	switch ends {
	case -1:
		return "low end"
	case 1:
		return "high end"
	}
	return "inside"
}

// warningJSON counts a warning.
type warningJSON struct {
	Key        string `json:"key"`
	Text       string `json:"text"`
	Points     int    `json:"points"`
	Answers    int    `json:"designs_whose_answer_has_it"`
	References int    `json:"designs_whose_reference_has_it"`
}

// failureJSON counts points without a value by reason.
type failureJSON struct {
	Reason string `json:"reason"`
	Points int    `json:"points"`
}

// cautionJSON is a caution; number and threshold are in the named unit.
type cautionJSON struct {
	Rule       string `json:"rule"`
	Severity   string `json:"severity"`
	Setup      string `json:"setup"`
	From       number `json:"from_fan_speed_rpm"`     // the lowest looked at at which it holds; null: not swept
	Not        number `json:"not_at_fan_speed_rpm"`   // the next lower one, at which it does not; null: none
	Onset      number `json:"onset_fan_speed_rpm"`    // from which it holds, between the two, rounded down; null: not found
	FromDesign string `json:"onset_design,omitempty"` // that these three are of, in words; left out: the base design
	Until      number `json:"until_fan_speed_rpm"`    // from which a graver caution takes its place; null: none does
	What       string `json:"what"`                   // column name of the quantity
	Number     number `json:"number"`
	Speed      number `json:"fan_speed_rpm"`    // at which the number is reached; null: the one that was asked for
	Design     string `json:"design,omitempty"` // that the number is of, in words; left out: the base design
	Threshold  number `json:"threshold"`
	Source     string `json:"source"`
	Precaution string `json:"precaution"`
	Assumption string `json:"assumption,omitempty"` // what the number takes for granted
}

// answers holds the answers of a report.
type answers struct {
	Base *answerJSON `json:"base"`    // the design nearest to the study's challenger, all outputs; null if it has no answer
	All  string      `json:"answers"` // allAnswers: they are written one by one in its place, since there may be many

	Closer   []detailJSON `json:"closer_looks"`
	Cheapest cheapestJSON `json:"cheapest"`
}

func answersOf(rep *render.Report, d *render.Digest) answers {
	out := answers{All: allAnswers, Closer: []detailJSON{}, Cheapest: cheapestJSON{designOf(d.Cheap.Sound), designOf(d.Cheap.Power)}}
	for i := range rep.Details {
		out.Closer = append(out.Closer, detailOf(rep, &rep.Details[i]))
	}
	if d.Base != nil {
		base := answerOf(rep, d.Base, model.Outputs)
		out.Base = &base
	}
	return out
}

// comparison is what BreakevenJSON writes and Summary begins with.
type comparison struct {
	identity
	Challenger setupJSON `json:"challenger"`
	Reference  setupJSON `json:"reference"`
	Counts     counts    `json:"counts"`

	Doubt *doubtJSON `json:"doubt,omitempty"`

	answers
}

func comparisonOf(rep *render.Report, d *render.Digest) comparison {
	return comparison{
		identity: identityOf(rep), Challenger: setupOf(rep.Challenger()), Reference: setupOf(rep.Reference()),
		Counts: countsOf(d), Doubt: doubtOf(rep), answers: answersOf(rep, d),
	}
}

// BreakevenJSON writes the break-even answers as one JSON document: what it is
// about, the setups, the counts, the base design's answer in full and all answers
// in plan order, in the form that they have in summary.json. A report whose points
// were not evaluated has no counts of points. Keys of numbers end in their unit; a
// number that is not finite, or a permitted exposure over 24 h, is null. It returns
// the error of w.
func BreakevenJSON(w io.Writer, rep *render.Report) error {
	d := rep.Digest()
	return writeWithAnswers(w, rep, comparisonOf(rep, &d))
}

// Summary writes summary.json: the whole report but its points, as one JSON
// document that begins as that of BreakevenJSON. It returns the error of w.
func Summary(w io.Writer, rep *render.Report) error {
	d := rep.Digest()
	out := struct {
		comparison
		Warnings   []warningJSON `json:"warnings"`
		Failures   []failureJSON `json:"failures"`
		Cautions   []cautionJSON `json:"cautions"`
		Disclaimer string        `json:"disclaimer"`
	}{
		comparison: comparisonOf(rep, &d),
		Warnings:   []warningJSON{}, Failures: []failureJSON{}, Cautions: []cautionJSON{},
		Disclaimer: render.Disclaimer,
	}
	for _, c := range d.Warnings {
		out.Warnings = append(out.Warnings, warningJSON{c.Key, c.Text, c.Points, c.Answers, c.References})
	}
	for _, f := range d.Failures {
		out.Failures = append(out.Failures, failureJSON{f.Reason, f.Points})
	}
	out.Cautions = append(out.Cautions, cautionsOf(d.Cautions)...)
	return writeWithAnswers(w, rep, out)
}

func cautionsOf(list []render.Caution) []cautionJSON {
	out := []cautionJSON{}
	rpm := func(speed float64) number {
		if speed == 0 {
			return number(math.NaN())
		}
		return number(quantity.Must("fan_speed").Shown.Shown(speed))
	}
	for _, c := range list {
		what := c.What()
		out = append(out, cautionJSON{
			Rule: c.Key, Severity: c.Severity.String(), Setup: c.Setup, From: rpm(c.From), Not: rpm(c.Not), Onset: rpm(c.Onset), FromDesign: c.FromDesign, Until: rpm(c.Until), Design: c.Design,
			What: what.Column(), Number: number(what.Shown.Shown(c.Number)), Speed: rpm(c.At),
			Threshold: number(what.Shown.Shown(c.Threshold)), Source: c.Source, Precaution: c.Precaution, Assumption: c.Assumption,
		})
	}
	return out
}

// allAnswers stands in a document where all answers go; no text of a study has a NUL.
const allAnswers = "\x00"

// writeWithAnswers writes a document with the answers of a report where allAnswers
// stands, each when its turn comes.
func writeWithAnswers(w io.Writer, rep *render.Report, document any) error {
	var b bytes.Buffer
	if err := write(&b, document); err != nil {
		return err
	}
	head, tail, _ := bytes.Cut(b.Bytes(), []byte(`"\u0000"`))
	if _, err := w.Write(append(slices.Clip(head), '[')); err != nil {
		return err
	}
	b = bytes.Buffer{}
	const indent = "    "
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent(indent, "  ")
	compared, between := rep.Compared(), "\n"+indent
	var err error
	for a := range rep.EachAnswer {
		b.Reset()
		b.WriteString(between)
		if err = e.Encode(answerOf(rep, a, compared)); err != nil {
			return err
		}
		if _, err = w.Write(bytes.TrimRight(b.Bytes(), "\n")); err != nil {
			return err
		}
		between = ",\n" + indent
	}
	end := "]"
	if between[0] == ',' {
		end = "\n  ]"
	}
	_, err = w.Write(append([]byte(end), tail...))
	return err
}

// write writes a document, readable and with a line end.
func write(w io.Writer, document any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(document)
}
