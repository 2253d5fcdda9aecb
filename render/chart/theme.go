package chart

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Greys of the sheet.
var (
	ink   = color.NRGBA{0x1c, 0x1f, 0x24, 0xff} // text that must be read, the reference, frames
	quiet = color.NRGBA{0x55, 0x5b, 0x63, 0xff} // text beside it
	faint = color.NRGBA{0xdf, 0xe2, 0xe6, 0xff} // grid
	black = color.NRGBA{0x00, 0x00, 0x00, 0xff} // text on colours
	paper = color.NRGBA{0xff, 0xff, 0xff, 0xff}
	mist  = color.NRGBA{0xff, 0xff, 0xff, 0xb4} // behind text that stands on lines
	blank = color.NRGBA{0xe9, 0xea, 0xec, 0xff} // cells without a number
)

// The palette of [1] without its black, which is the reference's.
var (
	blue       = color.NRGBA{0x00, 0x72, 0xb2, 0xff}
	vermillion = color.NRGBA{0xd5, 0x5e, 0x00, 0xff}
	green      = color.NRGBA{0x00, 0x9e, 0x73, 0xff}
	purple     = color.NRGBA{0xcc, 0x79, 0xa7, 0xff}
	orange     = color.NRGBA{0xe6, 0x9f, 0x00, 0xff}
	sky        = color.NRGBA{0x56, 0xb4, 0xe9, 0xff}
	yellow     = color.NRGBA{0xf0, 0xe4, 0x42, 0xff}
)

// look is how one line of a chart is told from the others.
type look struct {
	colour color.NRGBA
	dashes []vg.Length
	shape  shape
}

// looks are those of the lines, in order. Yellow is no colour for a line on white,
// so the last two repeat the first two colours with other dashes and markers.
var looks = []look{
	{blue, nil, circle},
	{vermillion, []vg.Length{9, 3.5}, square},
	{green, []vg.Length{2.2, 2.6}, triangle},
	{purple, []vg.Length{9, 3, 2, 3}, inverted},
	{orange, []vg.Length{14, 3}, pentagon},
	{sky, []vg.Length{5, 2.5}, hexagon},
	{blue, []vg.Length{9, 3, 2, 3, 2, 3}, rightward},
	{vermillion, []vg.Length{14, 3, 4, 3}, leftward},
}

// Widths of lines.
const (
	strong = 2.4 // the base design and the reference
	normal = 1.7
	thin   = 0.8 // outside the range of the correlations
)

// lettering returns the colour of the look for text: darker, since letters are thinner
// than lines.
func (l look) lettering() color.NRGBA { return darker(l.colour) }

// darker returns a colour dark enough for text on white.
func darker(c color.NRGBA) color.NRGBA {
	const share = 3
	return color.NRGBA{c.R / 5 * share, c.G / 5 * share, c.B / 5 * share, c.A}
}

// line returns the style of a line of this look.
func (l look) line(width vg.Length) draw.LineStyle {
	return draw.LineStyle{Color: l.colour, Width: width, Dashes: l.dashes}
}

// plainLine returns the style of an undashed line.
func plainLine(c color.Color, width vg.Length) draw.LineStyle {
	return draw.LineStyle{Color: c, Width: width}
}

// referenceLine is the style of the reference, in any chart.
var referenceLine = plainLine(ink, 1.4)

// anchors are every fifteenth of the 256 colours of viridis [2], red, green and
// blue from 0 to 1.
var anchors = [...][3]float64{
	{0.267004, 0.004874, 0.329415}, {0.281924, 0.089666, 0.412415}, {0.280255, 0.165693, 0.476498},
	{0.263663, 0.237631, 0.518762}, {0.237441, 0.305202, 0.541921}, {0.208623, 0.367752, 0.552675},
	{0.182256, 0.426184, 0.557120}, {0.159194, 0.482237, 0.558073}, {0.137770, 0.537492, 0.554906},
	{0.121148, 0.592739, 0.544641}, {0.128087, 0.647749, 0.523491}, {0.180653, 0.701402, 0.488189},
	{0.274149, 0.751988, 0.436601}, {0.395174, 0.797475, 0.367757}, {0.535621, 0.835785, 0.281908},
	{0.688944, 0.865448, 0.182725}, {0.845561, 0.887322, 0.099702}, {0.993248, 0.906157, 0.143936},
}

// viridis returns the colour at a share from 0, dark, to 1, light.
func viridis(share float64) color.NRGBA {
	at := min(max(share, 0), 1) * float64(len(anchors)-1)
	i := min(int(at), len(anchors)-2)
	var rgb [3]uint8
	for k := range rgb {
		v := anchors[i][k] + (anchors[i+1][k]-anchors[i][k])*(at-float64(i))
		rgb[k] = uint8(v*255 + 0.5)
	}
	return color.NRGBA{rgb[0], rgb[1], rgb[2], 0xff}
}
