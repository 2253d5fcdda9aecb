package archive

import (
	"io"
	"math"
	"runtime"
	"strconv"
	"strings"
	"sync"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/sweep"
)

// Beside is a column beside those of the points.
type Beside struct {
	Column string                 // its header
	Of     func(point int) string // its cell; asked from several goroutines
}

// WritePoints writes the rows as comma-separated values (RFC 4180, lines ended
// by LF): the point number, the challenger's swept inputs, whether the point has
// a value, all outputs, the reference's metric and the difference to it, what stands
// beside, the keys of the warnings and, for a point without a value, the reason.
//
// Headers are the key of the quantity and its unit. Numbers are written with the
// fewest digits that give the same double back; what was computed in SI units is, where
// these are the units of its column, that very number. A point without a value has empty
// cells, never NaN. A permitted exposure beyond the hours of a day has an empty
// cell: it is no limit.
func WritePoints(w io.Writer, r *sweep.Results, beside ...Beside) error {
	l := lines{beside: beside, plan: r.Plan, metric: r.Plan.Metric(), reference: quantity.Must("reference_over_air"), difference: quantity.Must("difference")}
	if _, err := w.Write(l.head()); err != nil {
		return err
	}

	// Writing numbers out takes longer than anything else about them: blocks of rows
	// are written out side by side, and kept in order.
	type block struct {
		rows []sweep.Row
		text chan []byte
	}
	workers := runtime.GOMAXPROCS(0)
	todo, ordered := make(chan block), make(chan block, workers)
	stop := make(chan struct{})
	var all sync.WaitGroup
	defer all.Wait()
	defer close(stop)
	for range workers {
		all.Go(func() {
			for b := range todo {
				var text []byte
				for i := range b.rows {
					text = l.row(text, &b.rows[i])
				}
				b.text <- text
			}
		})
	}
	all.Go(func() {
		defer close(ordered)
		defer close(todo)
		var rows []sweep.Row
		hand := func() bool {
			b := block{rows, make(chan []byte, 1)}
			for _, to := range []chan block{todo, ordered} {
				select {
				case to <- b:
				case <-stop:
					return false
				}
			}
			rows = make([]sweep.Row, 0, rowsInBlock)
			return true
		}
		for row := range r.Each {
			if rows = append(rows, *row); len(rows) == rowsInBlock && !hand() {
				return
			}
		}
		hand()
	})
	for b := range ordered {
		if _, err := w.Write(<-b.text); err != nil {
			return err
		}
	}
	return r.Err()
}

// rowsInBlock is how many rows are written out at a time.
const rowsInBlock = 1024

// lines writes the lines of a table of points.
type lines struct {
	plan                  *sweep.Plan
	metric                func(*model.State) float64
	reference, difference quantity.Quantity
	beside                []Beside
}

// head returns the line with the names of the columns.
func (l *lines) head() []byte {
	line := []byte("point")
	for _, a := range l.plan.Study.Axes {
		line = append(append(line, ','), a.Input.Column()...)
	}
	line = append(line, ",status"...)
	for _, o := range model.Outputs {
		line = append(append(line, ','), o.Column()...)
	}
	line = append(line, ","+l.reference.Column()+","+l.difference.Column()...)
	for _, b := range l.beside {
		line = append(append(line, ','), b.Column...)
	}
	return append(line, ",warnings,reason\n"...)
}

// row appends the line of a row.
func (l *lines) row(line []byte, row *sweep.Row) []byte {
	line = strconv.AppendInt(line, int64(row.Point), 10)
	for axis, a := range l.plan.Study.Axes {
		line = number(line, a.Input.Shown.Shown(a.Values[l.plan.Step(row.Point, axis)]))
	}
	if row.Failure != "" {
		line = append(line, ",failed"...)
		line = append(line, strings.Repeat(",", len(model.Outputs)+3+len(l.beside))...)
		return append(append(append(line, ','), text(row.Failure)...), '\n')
	}
	line = append(line, ",ok"...)
	for i := range model.Outputs {
		o := &model.Outputs[i]
		v := o.Get(&row.State)
		if o.Kind == quantity.Duration && v > day {
			v = math.NaN()
		}
		line = number(line, computed(o.Shown, v))
	}
	line = number(line, computed(l.reference.Shown, row.Reference))
	line = number(line, computed(l.difference.Shown, l.metric(&row.State)-row.Reference))
	for _, b := range l.beside {
		line = append(append(line, ','), b.Of(row.Point)...)
	}
	return append(append(append(line, ','), row.State.Warnings.Keys()...), ",\n"...)
}

// day is how long a day is, s.
const day = 24 * 3600

// computed returns a result in the unit of its column: as it is where that is the SI unit,
// for what Shown takes to be a round number people wrote is here one by chance.
func computed(u quantity.Unit, si float64) float64 {
	if u.IsSI() {
		return si
	}
	return u.Shown(si)
}

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
