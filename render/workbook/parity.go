package workbook

import (
	"finduel/model"
	"finduel/model/quantity"
	"finduel/render"
	"finduel/sweep/breakeven"
	"finduel/sweep/doubt"
)

// parity writes the sheet of the parity lines: one row a speed of the reference, for
// every design that is worked out.
func (b *book) parity(rep *render.Report) error {
	type row struct {
		design int
		point  *breakeven.ParityPoint
	}
	var rows []row
	for _, d := range rep.Worked() {
		for i := range d.Parity {
			rows = append(rows, row{d.Design, &d.Parity[i]})
		}
	}
	speed, sound, power := quantity.Must("fan_speed"), quantity.Must("sound"), quantity.Must("fan_power")
	metric := rep.Metric()
	t := table{
		name: sheetParity, frozen: 2, rows: len(rows),
		title: "The fan speed at which " + text(rep.Challenger().Name) + " equals " + text(rep.Reference().Name) + ", for every speed of the latter.",
		columns: []column{
			countColumn("design"),
			numberColumn("reference: fan speed"+unit(speed), speed), numberColumn("reference: "+metric.Title(), metric.Quantity),
			numberColumn("reference: sound"+unit(sound), sound), numberColumn("reference: fan power"+unit(power), power),
			textColumn("status", 10),
			numberColumn("break-even speed"+unit(speed), speed), numberColumn("within the margin: from"+unit(speed), speed),
			numberColumn("within the margin: to"+unit(speed), speed), textColumn("determined", 14),
			numberColumn("sound at break-even"+unit(sound), sound), numberColumn("fan power at break-even"+unit(power), power),
			numberColumn("sound: challenger minus reference, dB", sound),
			numberColumn("upper end of the band"+unit(speed), speed),
			numberColumn("tie from"+unit(speed), speed), numberColumn("tie to"+unit(speed), speed),
		},
	}
	lowest, highest := quantity.Must("breakeven_speed"), quantity.Must("breakeven_upper_speed")
	sure := rep.Doubt != nil
	if sure {
		t.title += " 95 %: the interval, which was drawn for the study's own design at some speeds of the reference."
		t.columns = append(t.columns, bandColumns("break-even speed", lowest)...)
		t.columns = append(t.columns, bandColumns("upper end of the band", highest)...)
		t.columns = append(t.columns, column{head: "share of the draws with a break-even", look: look{format: "0 %", right: true, indent: true}, width: 16},
			countColumn("draws"), countColumn("draws without a value"))
	}
	t.row = func(i int, into []any) {
		p := rows[i].point
		into[0], into[1], into[5] = rows[i].design, shown(speed, p.Speed), p.Status.String()
		if x, ok := rep.ParityDoubt(rows[i].design, p.Speed); ok {
			for j, end := range []int{0, 2} {
				into[16+j], into[18+j] = bandCell(lowest, x.Breakeven, end).value, bandCell(highest, x.Upper, end).value
			}
			into[20] = chance(&doubt.Result{Draws: x.Draws, Capped: true}, x.Exists)
			into[21], into[22] = x.Draws, x.NoValue
		}
		if p.Status == breakeven.Unknown || p.Status == breakeven.Excluded {
			return
		}
		costs := func(at int, s *model.State) {
			into[at], into[at+1] = shown(sound, s.Sound), shown(power, s.FanPower)
		}
		into[2] = shown(metric.Quantity, metric.Get(&p.Reference))
		costs(3, &p.Reference)
		if c := p.Lower; c != nil {
			into[6], into[7], into[8], into[9] = shown(speed, c.Speed), shown(speed, c.Tie.Low), shown(speed, c.Tie.High), render.Determined(c)
			costs(10, &c.State)
			into[12] = shown(sound, c.State.Sound-p.Reference.Sound)
		}
		if c := p.Upper; c != nil {
			into[13] = shown(speed, c.Speed)
		}
		if p.Status == breakeven.Tie {
			into[14], into[15] = shown(speed, p.Tie.Low), shown(speed, p.Tie.High)
		}
	}
	return b.writeTable(&t)
}
