package archive

import (
	"io"
	"math"
	"strconv"
	"strings"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/sweep"
)

// WritePoints writes the rows as comma-separated values (RFC 4180, lines ended
// by LF): the point number, the challenger's swept inputs, whether the point has
// a value, all outputs, the reference's metric and the difference to it, the keys
// of the warnings and, for a point without a value, the reason.
//
// Headers are the key of the quantity and its unit. Numbers are written with the
// fewest digits that give the same double back. A point without a value has empty
// cells, never NaN. A permitted exposure beyond the hours of a day has an empty
// cell: it is no limit.
func WritePoints(w io.Writer, r *sweep.Results) error {
	metric := r.Plan.Metric()
	reference, difference := quantity.Must("reference_over_air"), quantity.Must("difference")

	var line []byte
	line = append(line, "point"...)
	for _, a := range r.Plan.Study.Axes {
		line = append(append(line, ','), a.Input.Column()...)
	}
	line = append(line, ",status"...)
	for _, o := range model.Outputs {
		line = append(append(line, ','), o.Column()...)
	}
	line = append(line, ","+reference.Column()+","+difference.Column()+",warnings,reason\n"...)
	if _, err := w.Write(line); err != nil {
		return err
	}

	for i := range r.Rows {
		row := &r.Rows[i]
		line = strconv.AppendInt(line[:0], int64(row.Point), 10)
		for axis, a := range r.Plan.Study.Axes {
			line = number(line, a.Input.Shown.Shown(a.Values[r.Plan.Step(row.Point, axis)]))
		}
		if row.Failure != "" {
			line = append(line, ",failed"...)
			line = append(line, strings.Repeat(",", len(model.Outputs)+3)...)
			line = append(append(append(line, ','), text(row.Failure)...), '\n')
		} else {
			line = append(line, ",ok"...)
			for _, o := range model.Outputs {
				v := o.Get(&row.State)
				if o.Kind == quantity.Duration && v > day {
					v = math.NaN()
				}
				line = number(line, o.Shown.Shown(v))
			}
			line = number(line, reference.Shown.Shown(row.Reference))
			line = number(line, difference.Shown.Shown(metric(&row.State)-row.Reference))
			line = append(append(append(line, ','), row.State.Warnings.Keys()...), ",\n"...)
		}
		if _, err := w.Write(line); err != nil {
			return err
		}
	}
	return nil
}

// day is how long a day is, s.
const day = 24 * 3600

// number appends a comma and a number; nothing behind the comma if it is not
// finite.
func number(line []byte, v float64) []byte {
	line = append(line, ',')
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return line
	}
	return strconv.AppendFloat(line, v, 'g', -1, 64)
}

// text quotes a text where the format needs it.
func text(s string) string {
	if !strings.ContainsAny(s, ",\"\r\n") {
		return s
	}
	return `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
}
