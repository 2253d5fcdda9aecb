package chart

import (
	"image/color"
	"strings"
	"unicode/utf8"

	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/render"
)

// Sizes of type. The smallest is 22 pixels high, 11 when the picture is shown at
// half its size.
const (
	titleSize = 16
	leadSize  = 12
	textSize  = 10
)

// leading is the distance of two baselines over the size of the type.
const leading = 1.28

// letters returns a style of type.
func letters(size vg.Length, bold bool, c color.Color) draw.TextStyle {
	f := font.Font{Typeface: "Liberation", Variant: "Sans", Size: size}
	if bold {
		f.Weight = xfont.WeightBold
	}
	return draw.TextStyle{Color: c, Font: f, Handler: plot.DefaultTextHandler}
}

// Ways to align a text with a point.
const (
	fromLeft  = draw.XLeft
	centred   = draw.XCenter
	fromRight = draw.XRight
)

// write writes one line with its baseline at a height.
func write(c *draw.Canvas, style draw.TextStyle, align draw.XAlignment, x, baseline vg.Length, s string) {
	style.XAlign, style.YAlign = align, draw.YBottom
	y := baseline - style.Font.Size + style.FontExtents().Ascent
	c.FillText(style, vg.Point{X: x, Y: y}, s)
}

// capital is the height of a capital over the size of the type.
const capital = 0.72

// writeMiddle writes one line with its capitals centred on a height.
func writeMiddle(c *draw.Canvas, style draw.TextStyle, align draw.XAlignment, x, y vg.Length, s string) {
	write(c, style, align, x, y-style.Font.Size*capital/2, s)
}

// noGlyph stands for a character that the font has no glyph for, the usual
// replacement character among them.
const noGlyph = '□'

// printable returns a text of the study's author as it can be drawn: cleaned, and
// with noGlyph in place of what would vanish without a trace.
func printable(s string) string {
	face := font.DefaultCache.Lookup(letters(textSize, false, ink).Font, textSize)
	return strings.Map(func(r rune) rune {
		if glyph, err := face.Face.GlyphIndex(nil, r); err != nil || glyph == 0 {
			return noGlyph
		}
		return r
	}, render.Clean(s))
}

// ellipsis ends a text that was cut.
const ellipsis = "…"

// longest is more characters than the widest line of the sheet can hold.
const longest = 400

// fit returns a text, cut to a width if need be.
func fit(style draw.TextStyle, s string, width vg.Length) string {
	if utf8.RuneCountInString(s) <= longest && style.Width(s) <= width {
		return s
	}
	return cut(style, s, width)
}

// cut returns as much of a text as fits in a width with an ellipsis behind it.
func cut(style draw.TextStyle, s string, width vg.Length) string {
	runes := []rune(s)
	runes = runes[:min(len(runes), longest)]
	for len(runes) > 0 && style.Width(string(runes)+ellipsis) > width {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ") + ellipsis
}

// wrap breaks a text at its spaces into at most most lines of a width. What does
// not fit is cut with an ellipsis: the end of the text, or of a word as long as a
// line. A number stays with its unit.
func wrap(style draw.TextStyle, s string, width vg.Length, most int) []string {
	var lines []string
	for _, piece := range render.Pieces(s) {
		last := len(lines) - 1
		if last >= 0 && style.Width(lines[last]+" "+piece) <= width {
			lines[last] += " " + piece
			continue
		}
		if len(lines) == most {
			lines[last] = cut(style, lines[last], width)
			break
		}
		lines = append(lines, fit(style, piece, width))
	}
	return lines
}

// paragraph writes lines from a baseline downwards and returns the baseline below
// the last.
func paragraph(c *draw.Canvas, style draw.TextStyle, x, baseline vg.Length, lines []string) vg.Length {
	for _, line := range lines {
		write(c, style, fromLeft, x, baseline, line)
		baseline -= style.Font.Size * leading
	}
	return baseline
}
