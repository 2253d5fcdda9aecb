package render_test

import (
	"math"
	"strings"
	"testing"

	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/doubt"
	"finduel/testdata/reports"
)

// Numbers of tables are cut to what is stable, with no digits of their binary form behind
// it, and stay open where they are open.
func TestCutToWhatIsStable(t *testing.T) {
	speed, kelvin := quantity.Must("breakeven_speed"), quantity.Must("difference")
	inf := math.Inf(1)
	b := doubt.Band{Low: 4321. / 60, Median: 6543. / 60, High: inf, Steps: [3]float64{200. / 60, 500. / 60, 0}}
	for end, want := range []float64{4400, 6500, inf} {
		if got := render.Worth(speed, b, end); got != want {
			t.Errorf("end %d: %v, want %v", end, got, want)
		}
	}
	b = doubt.Band{Low: -0.04, Median: 1.23456, High: 0.1 + 0.2, Steps: [3]float64{0.1, 0, 0.05}}
	for end, want := range []float64{0, 1.23456, 0.3} {
		if got := render.Worth(kelvin, b, end); got != want || math.Signbit(got) {
			t.Errorf("end %d: %v, want %v", end, got, want)
		}
	}
	if got := render.Step(speed, 200./60); got != 200 {
		t.Errorf("the step is %v, want 200", got)
	}
	if got := render.WorthHalf(speed, 1888./60); got != 1900 {
		t.Errorf("half an interval is %v, want 1900", got)
	}
	if value, low, high := render.WorthIndex(doubt.Index{Value: 0.31416, Low: 0.2951, High: 0.3349}); value != 0.314 || low != 0.296 || high != 0.334 {
		t.Errorf("an index is %v from %v to %v", value, low, high)
	}
}

// Shares claim neither a certainty nor a digit that other draws would not give.
func TestSharesOfDraws(t *testing.T) {
	r := &doubt.Result{Draws: 2000, Capped: true}
	for _, c := range []struct {
		r            *doubt.Result
		share, worth float64
		chance       string
		often        string
	}{
		{r, 0, 0, "0 %", "none"},
		{r, 1, 1, "100 %", "all"},
		{r, 0.0005, 0.005, "under 1 %", "<1 %"},
		{r, 0.9995, 0.995, "over 99 %", ">99 %"},
		{r, 0.4777, 0.5, "50 %", "50 %"},
		{&doubt.Result{Draws: 20000}, 0.4777, 0.48, "48 %", "48 %"},
	} {
		if got := render.WorthShare(c.r, c.share); got != c.worth {
			t.Errorf("%v of %d draws: %v, want %v", c.share, c.r.Draws, got, c.worth)
		}
		if got := render.Chance(c.r, c.share); got != c.chance {
			t.Errorf("%v of %d draws: %q, want %q", c.share, c.r.Draws, got, c.chance)
		}
		if got := render.Often(c.r, c.share); got != c.often {
			t.Errorf("%v of %d draws: %q, want %q", c.share, c.r.Draws, got, c.often)
		}
	}
	if got := render.WorthShare(r, math.NaN()); !math.IsNaN(got) {
		t.Errorf("no share: %v", got)
	}
}

func TestEndsInFewCharacters(t *testing.T) {
	lower, upper := quantity.Must("breakeven_speed"), quantity.Must("breakeven_upper_speed")
	inf, step := math.Inf(1), [3]float64{100. / 60, 100. / 60, 100. / 60}
	for _, c := range []struct {
		q         quantity.Quantity
		b         doubt.Band
		low, high string
	}{
		{lower, doubt.Band{Low: 60, High: 150, Steps: step}, "3 600", "9 000"},
		{lower, doubt.Band{Low: -inf, High: inf}, "lowest", "never"},
		{upper, doubt.Band{Low: 60, High: inf, Steps: step}, "3 600", "highest"},
		{lower, doubt.Band{Low: 60, High: 150, Steps: step, Undecided: [3]bool{true, false, true}}, "≤ 3 600", "≥ 9 000"},
	} {
		if low, high := render.EndBriefly(c.q, c.b, 0), render.EndBriefly(c.q, c.b, 2); low != c.low || high != c.high {
			t.Errorf("%+v: %q to %q, want %q to %q", c.b, low, high, c.low, c.high)
		}
	}
}

// Beside a point stands what was drawn there, and nothing where nothing was: the reference
// in every design, the challenger at the speeds of the own design and where the others were
// compared.
func TestBandsBesideThePoints(t *testing.T) {
	if reports.Few().PointBands() != nil {
		t.Error("a report that was not assessed has bands")
	}
	rep := reports.Sure()
	rep.Doubt.Results[1].Draws = 0
	silent := rep.Doubt.Results[1].Design
	bands := rep.PointBands()
	if len(bands) != 3 || bands[0].Quantity.Key != rep.Metric().Key || bands[1].Quantity.Key != "reference_over_air" || bands[2].Quantity.Key != "difference" {
		t.Fatalf("%d bands", len(bands))
	}
	own, compared, elsewhere := 0, 0, 0
	for k := range rep.Results.Plan.Points() {
		design, _ := rep.Results.Plan.Design(k)
		r, ok := rep.Doubt.Of(design)
		challenger, hasChallenger := bands[0].Of(k)
		reference, hasReference := bands[1].Of(k)
		difference, hasDifference := bands[2].Of(k)
		if hasChallenger != hasDifference || hasReference != (ok && design != silent) {
			t.Fatalf("point %d: %v, %v, %v", k, hasChallenger, hasReference, hasDifference)
		}
		if hasReference && reference != r.Reference {
			t.Errorf("point %d: the reference's is %+v, want %+v", k, reference, r.Reference)
		}
		switch {
		case !hasChallenger:
			elsewhere++
		case rep.Speed(k) == r.Speed:
			compared++
			if challenger != r.Challenger || difference != r.Difference {
				t.Errorf("point %d, compared: %+v, %+v", k, challenger, difference)
			}
		default:
			own++
			at, ok := rep.Doubt.Own.At(rep.Speed(k))
			if !ok || design != rep.Doubt.Base || challenger != at.Challenger || difference != at.Difference {
				t.Errorf("point %d of design %d: %+v, %+v", k, design, challenger, difference)
			}
		}
	}
	if own == 0 || compared < 2 || elsewhere == 0 {
		t.Errorf("%d of the own design, %d compared, %d without", own, compared, elsewhere)
	}
}

// The shares are ranked, named with their owner, or refused with the reason.
func TestSharesOfTheVariance(t *testing.T) {
	if reports.Few().Shares() != nil {
		t.Error("a report that was not assessed shares out a variance")
	}
	rep := reports.Sure()
	shares := rep.Shares()
	if len(shares) != 2 || shares[0].Refused != "" || shares[1].Rows != nil ||
		shares[1].Refused != "12 of 30 720 draws have no such value (invented)." {
		t.Fatalf("%+v", shares)
	}
	rows := shares[0].Rows
	for i := range rows[1:] {
		if rows[i].Total.Value < rows[i+1].Total.Value {
			t.Errorf("%v before %v", rows[i], rows[i+1])
		}
	}
	if rows[0].Label != "core's air pressure drop: this core of large" || rows[0].Limit != "±26 %" {
		t.Errorf("the greatest is %+v", rows[0])
	}
	for _, c := range []struct {
		i    doubt.Index
		want string
	}{
		{doubt.Index{Value: 0.35, Low: 0.30, High: 0.40}, "35 (30 to 40)"},
		{doubt.Index{Value: 0.003, Low: -0.002, High: 0.01}, "0.3 (-0.2 to 1.0)"},
	} {
		if got := render.IndexPercent(c.i); got != c.want {
			t.Errorf("%+v: %q, want %q", c.i, got, c.want)
		}
	}
}

// Whether the draws settled is said of every design, and to what the digits hold.
func TestSettledIsSaid(t *testing.T) {
	rep := reports.Sure()
	own, _ := rep.Sureness(rep.Doubt.Base)
	other, _ := rep.Sureness(rep.Doubt.Results[0].Design)
	if strings.Contains(strings.Join(other.Texts, " "), "made as a check") {
		t.Errorf("another design has the checks of the study's own: %q", other.Texts)
	}
	for want, texts := range map[string][]string{
		"The draws settled; the digits that are shown are stable: temperatures to 0.2 K or better and the break-even speed to 200 rpm or better.":                                      own.Texts,
		"Of 2 048 draws more, made as a check, 95.1 (94.1 to 96.0) % lie in the interval of the challenger minus reference and 94.5 (93.4 to 95.4) % in that of the break-even speed.": own.Texts,
		"If no error were common, each drawn apart, the interval of the difference would be 1.220 times as wide (1.150 to 1.290).":                                                     own.Texts,
		"The draws ended at their cap; the digits that are shown are stable: temperatures to 0.2 K or better and the break-even speed to 200 rpm or better.":                           other.Texts,
	} {
		found := false
		for _, s := range texts {
			found = found || s == want
		}
		if !found {
			t.Errorf("%q is not among %q", want, texts)
		}
	}
}
