package chart

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/plot"
)

// said returns the labels of ticks, minor ticks as dots.
func said(ticks []plot.Tick) string {
	var list []string
	for _, t := range ticks {
		if t.IsMinor() {
			list = append(list, ".")
			continue
		}
		list = append(list, t.Label)
	}
	return strings.Join(list, "|")
}

func TestLinearTicks(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		most      int
		want      string
	}{
		{0, 10, 5, "0|.|.|.|2|.|.|.|4|.|.|.|6|.|.|.|8|.|.|.|10"},
		{0, 1, 10, "0|.|.|.|.|0.1|.|.|.|.|0.2|.|.|.|.|0.3|.|.|.|.|0.4|.|.|.|.|0.5|.|.|.|.|0.6|.|.|.|.|0.7|.|.|.|.|0.8|.|.|.|.|0.9|.|.|.|.|1"},
		{1500, 20000, 4, ".|.|.|5 000|.|.|.|.|10 000|.|.|.|.|15 000|.|.|.|.|20 000"},
		{-0.3, 0.3, 3, ".|.|-0.2|.|.|.|0|.|.|.|0.2|.|."},
		{-1e-9, 4, 4, "0|.|.|.|.|1|.|.|.|.|2|.|.|.|.|3|.|.|.|.|4"},
		{math.NaN(), 1, 5, ""}, {0, math.Inf(1), 5, ""}, {1, 1, 5, ""}, {2, 1, 5, ""},
		{-math.MaxFloat64, math.MaxFloat64, 5, ""}, {1, 1 + 1e-15, 5, ""},
	} {
		if got := said(linearTicks{c.most}.Ticks(c.low, c.high)); got != c.want {
			t.Errorf("%g to %g: %s, want %s", c.low, c.high, got, c.want)
		}
	}
}

func TestLogTicks(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		most      int
		want      string
	}{
		{0.9, 21, 8, ".|1|2|3|.|5|.|7|.|.|10|20"},
		{7, 40, 8, ".|8|.|10|15|20|.|30|40"},
		{1, 1000, 8, "1|2|.|.|5|.|.|.|.|10|20|.|.|50|.|.|.|.|100|200|.|.|500|.|.|.|.|1 000"},
		{1, 1e4, 8, "1|.|.|.|.|.|.|.|.|10|.|.|.|.|.|.|.|.|100|.|.|.|.|.|.|.|.|1 000|.|.|.|.|.|.|.|.|10 000"},
		{1, 1e6, 3, "1|.|100|.|10 000|.|1 000 000"},
		{math.NaN(), 1, 5, ""}, {0, 1, 5, ""}, {-1, 1, 5, ""}, {1, math.Inf(1), 5, ""}, {1, 1, 5, ""},
	} {
		if got := said(logTicks{c.most}.Ticks(c.low, c.high)); got != c.want {
			t.Errorf("%g to %g: %s, want %s", c.low, c.high, got, c.want)
		}
	}
}

// Ticks must rise, stay in range and be few enough, whatever the range; labels must
// differ.
func TestTicksOfManyRanges(t *testing.T) {
	tried := 0
	for _, low := range []float64{-3e5, -7, -1e-7, 0, 1e-9, 0.3, 9.99, 123, 4.5e7} {
		for _, width := range []float64{1e-8, 0.013, 0.9, 4, 77, 1e3, 2.3e9} {
			s := span{low, low + width}.padded(0)
			for _, ticker := range []plot.Ticker{linearTicks{8}, logTicks{8}} {
				last, labels := math.Inf(-1), map[string]bool{}
				for _, tick := range ticker.Ticks(s.low, s.high) {
					if tick.Value <= last || tick.Value < s.low-1e-9*width-1e-9*math.Abs(s.low) || tick.Value > s.high+1e-9*width+1e-9*math.Abs(s.high) {
						t.Errorf("%T of %g to %g: tick at %g after %g", ticker, s.low, s.high, tick.Value, last)
					}
					if last = tick.Value; !tick.IsMinor() {
						if labels[tick.Label] {
							t.Errorf("%T of %g to %g: %s twice", ticker, s.low, s.high, tick.Label)
						}
						labels[tick.Label] = true
					}
				}
				if _, isLinear := ticker.(linearTicks); isLinear && (len(labels) < 2 || len(labels) > 9) {
					t.Errorf("%T of %g to %g: %d labels", ticker, s.low, s.high, len(labels))
				}
				tried++
			}
		}
	}
	if tried < 100 {
		t.Errorf("only %d ranges tried", tried)
	}
}

func TestSpan(t *testing.T) {
	s := nothing.with(math.NaN(), 3, math.Inf(1), -1, math.Inf(-1))
	if s != (span{-1, 3}) {
		t.Errorf("span with numbers is %v", s)
	}
	if !nothing.empty() || s.empty() {
		t.Error("empty is wrong")
	}
	if got := s.padded(0.25); got != (span{-2, 4}) {
		t.Errorf("padded is %v", got)
	}
	if got := nothing.padded(0.1); got.low >= got.high || !finite(got.low, got.high) {
		t.Errorf("nothing padded is %v", got)
	}
	for _, v := range []float64{0, 5, -5e9} {
		if got := (span{v, v}).padded(0.1); got.low >= v || got.high <= v {
			t.Errorf("%g padded is %v", v, got)
		}
	}
	for _, c := range []struct {
		s    span
		want bool
	}{{span{1, 10}, true}, {span{1, 2}, false}, {span{0, 10}, false}, {span{-1, 10}, false}} {
		if got := c.s.wide(); got != c.want {
			t.Errorf("%v wide is %v", c.s, got)
		}
	}
	if got := (span{1, 100}).stretched(0.5); math.Abs(got.low-0.1) > 1e-12 || math.Abs(got.high-1000) > 1e-9 {
		t.Errorf("stretched is %v, want a decade more in all", got)
	}
}
