package sheet

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"
	"strings"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
)

// Breakeven writes breakeven.csv: comma-separated values after RFC 4180, lines
// ended by LF, one row a design in plan order.
//
// The columns are the design's number, its swept inputs, the status (none, one,
// band, always, tie, unknown or excluded), the speeds, each break-even with the speeds
// between which the margin leaves it, the slope there and whether it is well or
// ill determined, the tie of the status tie, what is compared and what it costs at
// break-even, at the upper end of a band, at the sensible and the best speed, with the
// ends of its 95 % interval of the study's own design, for which that was drawn, and at
// the reference, the searched speeds, the budget term by which the challenger loses
// most, how sure that is if it was assessed (see doubtHeader), the keys of the
// warnings at break-even, at the best speed and of the reference, and the reason. A tie that does not end within the searched speeds says
// so in a column of its own. A header is the key of the quantity and the name of
// its unit. Cells that have no value are empty, as are permitted exposures over
// 24 h.
//
// A text that a spreadsheet would run as a formula, because it begins with = + - @
// or a tab or carriage return, gets an apostrophe in front (OWASP, CSV Injection).
// Numbers are never touched. It returns the first error of w.
func Breakeven(w io.Writer, rep *render.Report) error {
	out := csv.NewWriter(w)
	compared := rep.Compared()
	header := []string{"design"}
	for _, i := range rep.DesignAxes() {
		header = append(header, rep.Study.Axes[i].Input.Column())
	}
	header = append(header, "status", column("breakeven_speed"), column("breakeven_upper_speed"),
		column("sensible_speed"), column("best_speed"), "best_"+column("difference"))
	sure := rep.Doubt != nil
	ends := func(name string, q quantity.Quantity) {
		if sure {
			header = append(header, name+"_lo_"+q.Shown.Name, name+"_hi_"+q.Shown.Name)
		}
	}
	speed, difference, metric := quantity.Must("fan_speed"), quantity.Must("difference"), rep.Metric().Quantity
	ends("best_difference", difference)
	header = append(header, column("margin"))
	for _, end := range []string{"breakeven_", "upper_"} {
		header = append(header, end+column("tie_from"), end+column("tie_to"), end+"tie_ends",
			end+"default_"+column("tie_from"), end+"default_"+column("tie_to"), end+column("slope"), end+"determined")
	}
	header = append(header, column("tie_from"), column("tie_to"), "tie_ends")
	for _, place := range []string{"breakeven_", "upper_", "sensible_", "best_", "reference_"} {
		for i, o := range compared {
			if header = append(header, place+o.Column()); i == 0 && place != "reference_" {
				ends(place+o.Key, o.Quantity)
			}
		}
	}
	header = append(header, "searched_from_rpm", "searched_to_rpm", "limit_term", "limit_excess_K")
	header = append(header, doubtHeader(rep)...)
	header = append(header, "breakeven_warnings", "best_warnings", "reference_warnings", "reason")
	if err := out.Write(header); err != nil {
		return err
	}

	for a := range rep.EachAnswer {
		row := []string{strconv.Itoa(a.Design)}
		for _, axis := range rep.DesignAxes() {
			row = append(row, exact(rep.Study.Axes[axis].Input.Quantity, rep.DesignValue(a.Design, axis)))
		}
		places := placesOf(a)
		drawn := func(p place, q quantity.Quantity, of func(*render.PlaceDoubt) doubt.Band) {
			if !sure {
				return
			}
			b := doubt.Band{Low: math.NaN(), High: math.NaN()}
			if p.state != nil {
				if d, ok := rep.DoubtAt(a, &render.Place{Speed: p.speed, State: p.state}); ok {
					b = of(&d)
				}
			}
			row = append(row, bandCells(q, b, 0, 2)...)
		}
		row = append(row, a.Status.String())
		for _, p := range places[:4] {
			if p.state == nil {
				row = append(row, "")
				continue
			}
			row = append(row, exact(speed, p.speed))
		}
		answered := places[3].state != nil
		best, margin := "", ""
		if answered {
			best, margin = exact(difference, a.Best.Difference), exact(quantity.Must("margin"), a.Margin)
		}
		row = append(row, best)
		drawn(places[3], difference, func(d *render.PlaceDoubt) doubt.Band { return d.Difference })
		row = append(row, margin)
		lower, upper := render.Ends(a)
		row = append(append(row, tieCells(lower)...), tieCells(upper)...)
		if a.Status == breakeven.Tie {
			row = append(row, exact(speed, a.Tie.Low), exact(speed, a.Tie.High), render.TieEnds(a.Tie))
		} else {
			row = append(row, "", "", "")
		}
		for i, p := range places {
			for j, o := range compared {
				if p.state == nil {
					row = append(row, "")
				} else {
					row = append(row, exact(o.Quantity, o.Get(p.state)))
				}
				if reference := len(places) - 1; j == 0 && i != reference { // the reference's is among how sure that is
					drawn(p, metric, func(d *render.PlaceDoubt) doubt.Band { return d.Band })
				}
			}
		}
		row = append(row, exact(speed, a.From), exact(speed, a.To), text(a.Limit.Term))
		if answered && a.Limit.Term != "" {
			row = append(row, exact(difference, a.Limit.Excess))
		} else {
			row = append(row, "")
		}
		row = append(row, doubtRow(rep, a.Design)...)
		row = append(row, keys(places[0].state), keys(places[3].state), keys(places[4].state), text(a.Reason))
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// tieCells returns what only a break-even has; empty cells for none.
func tieCells(c *breakeven.Crossing) []string {
	if c == nil {
		return make([]string, 7)
	}
	speed := quantity.Must("fan_speed")
	return []string{exact(speed, c.Tie.Low), exact(speed, c.Tie.High), render.TieEnds(c.Tie),
		exact(speed, c.DefaultTie.Low), exact(speed, c.DefaultTie.High), exact(quantity.Must("slope"), c.Slope), render.Determined(c)}
}

// column returns the header of the quantity with the key.
func column(key string) string { return quantity.Must(key).Column() }

// exact returns a number in the shown unit of q with the fewest digits that give
// the same double back; empty if there is none to record.
func exact(q quantity.Quantity, si float64) string {
	v, ok := render.Recorded(q, si)
	if !ok {
		return ""
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

// text guards a text against being run as a formula.
func text(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return "'" + s
	}
	return s
}

// keys returns the keys of a state's warnings; empty for no state.
func keys(s *model.State) string {
	if s == nil {
		return ""
	}
	return s.Warnings.Keys()
}
