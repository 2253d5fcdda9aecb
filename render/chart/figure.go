package chart

import (
	"bytes"
	"image/png"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

// The sheet: 1920 by 1200 pixels.
const (
	sheetWidth  = 12 * vg.Inch
	sheetHeight = 7.5 * vg.Inch
	dotsPerInch = 160
	margin      = 16
	stripWidth  = 196 // of the keys, on the right
	stripGap    = 16
)

// figure is a picture in the making.
type figure struct {
	image *vgimg.Canvas
	sheet draw.Canvas
	left  draw.Canvas // what remains for the panel
	strip draw.Canvas // what remains for the keys
}

// newFigure writes the header of a figure: its title, a sentence with the answer,
// the facts.
func newFigure(title, lead string, facts []fact) *figure {
	f := &figure{image: vgimg.NewWith(vgimg.UseWH(sheetWidth, sheetHeight), vgimg.UseDPI(dotsPerInch))}
	f.sheet = draw.New(f.image)
	c := draw.Crop(f.sheet, margin, -margin, margin, -margin)
	width := c.Max.X - c.Min.X

	style := letters(titleSize, true, ink)
	baseline := paragraph(&c, style, c.Min.X, c.Max.Y-style.Font.Size*capital, wrap(style, title, width, 2))
	if lead != "" {
		style = letters(leadSize, false, ink)
		baseline = paragraph(&c, style, c.Min.X, baseline+2, wrap(style, lead, width, 2))
	}

	word, text := letters(textSize, true, quiet), letters(textSize, false, quiet)
	indent := vg.Length(0)
	for _, fact := range facts {
		indent = max(indent, word.Width(fact.word)+10)
	}
	baseline -= 1
	for _, fact := range facts {
		write(&c, word, fromLeft, c.Min.X, baseline, fact.word)
		baseline = paragraph(&c, text, c.Min.X+indent, baseline, wrap(text, fact.text, width-indent, 2))
	}

	bottom := baseline + text.Font.Size*(leading-capital)
	rule := plainLine(faint, 0.8)
	c.StrokeLine2(rule, c.Min.X, bottom-3, c.Max.X, bottom-3)
	c.Max.Y = bottom - 13
	f.left = draw.Crop(c, 0, -(stripWidth + stripGap), 0, 0)
	f.strip = draw.Crop(c, width-stripWidth, 0, 0, 0)
	return f
}

// png returns the figure as a file, packed in two thirds of the time that the tightest
// packing of a few per cent less takes.
func (f *figure) png() ([]byte, error) {
	var b bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestSpeed}
	err := encoder.Encode(&b, f.image.Image())
	return b.Bytes(), err
}

// stroke draws in a panel, whose positions x and y return.
type stroke func(c *draw.Canvas, x, y func(float64) vg.Length)

// Plot draws the stroke, as the plotting library asks for it.
func (s stroke) Plot(c draw.Canvas, p *plot.Plot) {
	x, y := p.Transforms(&c)
	s(&c, x, y)
}

// newPanel returns an empty panel with titled axes.
func newPanel(across, up string) *plot.Plot {
	p := plot.New()
	for _, a := range []*plot.Axis{&p.X, &p.Y} {
		a.Padding = 0
		a.LineStyle = plainLine(quiet, 0.9)
		a.Tick.LineStyle = plainLine(quiet, 0.9)
		a.Tick.Length = 5
		a.Label.Padding = 4
	}
	label, tick := letters(leadSize, false, ink), letters(textSize, false, ink)
	p.X.Label.Text, p.Y.Label.Text = across, up
	for _, a := range []*plot.Axis{&p.X, &p.Y} {
		style := label
		style.XAlign, style.YAlign = a.Label.TextStyle.XAlign, a.Label.TextStyle.YAlign
		a.Label.TextStyle = style
		style = tick
		style.XAlign, style.YAlign = a.Tick.Label.XAlign, a.Tick.Label.YAlign
		a.Tick.Label = style
	}
	return p
}

// panel draws a panel into what is left of the sheet. The title of a logarithmic axis up
// the side is written here: the library takes it to stand at the middle of the values and
// makes room for it above the panel.
func (f *figure) panel(p *plot.Plot) {
	c := f.left
	if _, log := p.Y.Scale.(plot.LogScale); log {
		title := p.Y.Label
		style := title.TextStyle
		p.Y.Label.Text = ""
		c = draw.Crop(c, style.Height(title.Text)+style.FontExtents().Descent+title.Padding, 0, 0, 0)
		panel := p.DataCanvas(c)
		at := vg.Point{X: c.Min.X - 2*style.FontExtents().Descent - title.Padding, Y: panel.Center().Y}
		style.Rotation = math.Pi / 2
		f.left.FillText(style, at, title.Text)
	}
	p.Draw(c)
}

// linear gives an axis a linear scale over a range.
func linear(a *plot.Axis, s span, most int) {
	a.Min, a.Max = s.low, s.high
	a.Scale, a.Tick.Marker = plot.LinearScale{}, linearTicks{most}
}

// suited gives an axis a scale that suits a range with room at its ends:
// logarithmic, and saying so, if it is wide.
func suited(a *plot.Axis, s span, most int) {
	if !s.wide() {
		linear(a, s.padded(0.06), most)
		return
	}
	s = s.stretched(0.06)
	a.Min, a.Max = s.low, s.high
	a.Scale, a.Tick.Marker = plot.LogScale{}, logTicks{most}
	a.Label.Text += " (logarithmic)"
}

// grid draws lines at the labelled ticks, across the axis named: 'x' or 'y'.
func grid(p *plot.Plot, axes string) stroke {
	return func(c *draw.Canvas, x, y func(float64) vg.Length) {
		style := plainLine(faint, 0.8)
		for _, axis := range axes {
			if axis == 'x' {
				for _, t := range p.X.Tick.Marker.Ticks(p.X.Min, p.X.Max) {
					if at := x(t.Value); !t.IsMinor() && c.ContainsX(at) {
						c.StrokeLine2(style, at, c.Min.Y, at, c.Max.Y)
					}
				}
				continue
			}
			for _, t := range p.Y.Tick.Marker.Ticks(p.Y.Min, p.Y.Max) {
				if at := y(t.Value); !t.IsMinor() && c.ContainsY(at) {
					c.StrokeLine2(style, c.Min.X, at, c.Max.X, at)
				}
			}
		}
	}
}
