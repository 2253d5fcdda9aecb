package chart

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

// Columns of a legend.
const (
	sampleWidth = 36
	sampleGap   = 7
)

// legend writes keys from the top of a strip downwards.
type legend struct {
	c        draw.Canvas
	size     vg.Length // of the type
	baseline vg.Length
}

// smallestLegend is the size of type below which nobody reads.
const smallestLegend = 6.5

// writeLegend writes keys into a strip, in type as small as it takes to hold them all.
func writeLegend(strip draw.Canvas, write func(l *legend)) {
	try := strip
	try.Canvas = &recorder.Canvas{} // to measure on
	size := vg.Length(textSize)
	for ; size > smallestLegend; size -= 0.5 {
		l := legend{c: try, size: size, baseline: strip.Max.Y - size*capital}
		if write(&l); l.baseline > strip.Min.Y-size*leading {
			break
		}
	}
	write(&legend{c: strip, size: size, baseline: strip.Max.Y - size*capital})
}

// heading writes a heading of at most three lines.
func (l *legend) heading(s string) {
	style := letters(l.size, true, ink)
	l.baseline = paragraph(&l.c, style, l.c.Min.X, l.baseline, wrap(style, s, l.width(), 3)) - 2.5
}

// note writes a text of at most six lines.
func (l *legend) note(s string) {
	style := letters(l.size, false, quiet)
	l.baseline = paragraph(&l.c, style, l.c.Min.X, l.baseline, wrap(style, s, l.width(), 6))
}

// key draws a sample between two corners and writes what it stands for beside it,
// with a second text below that may be empty.
func (l *legend) key(sample func(c *draw.Canvas, r vg.Rectangle), name string, bold bool, second string) {
	middle := l.baseline + l.size*capital/2
	sample(&l.c, vg.Rectangle{
		Min: vg.Point{X: l.c.Min.X, Y: middle - 5.5},
		Max: vg.Point{X: l.c.Min.X + sampleWidth, Y: middle + 5.5},
	})
	x, width := l.c.Min.X+sampleWidth+sampleGap, l.width()-sampleWidth-sampleGap
	style := letters(l.size, bold, ink)
	l.baseline = paragraph(&l.c, style, x, l.baseline, wrap(style, name, width, 3))
	if second != "" {
		style = letters(l.size, false, quiet)
		l.baseline = paragraph(&l.c, style, x, l.baseline, wrap(style, second, width, 4))
	}
	l.baseline -= 1.5
}

// skip leaves room before the next group of keys.
func (l *legend) skip() { l.baseline -= 7 }

func (l *legend) width() vg.Length { return l.c.Max.X - l.c.Min.X }

// middle returns the centre of a sample.
func middle(r vg.Rectangle) vg.Point {
	return vg.Point{X: (r.Min.X + r.Max.X) / 2, Y: (r.Min.Y + r.Max.Y) / 2}
}

// sampleOf returns the sample of a line, with its marker.
func sampleOf(c curve) func(*draw.Canvas, vg.Rectangle) {
	return func(canvas *draw.Canvas, r vg.Rectangle) {
		m := middle(r)
		canvas.StrokeLine2(c.line(c.width()), r.Min.X, m.Y, r.Max.X, m.Y)
		c.mark(canvas, m, false)
	}
}

// strokeSample returns the sample of a line without markers.
func strokeSample(style draw.LineStyle) func(*draw.Canvas, vg.Rectangle) {
	return func(c *draw.Canvas, r vg.Rectangle) {
		c.StrokeLine2(style, r.Min.X, middle(r).Y, r.Max.X, middle(r).Y)
	}
}
