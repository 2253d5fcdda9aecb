package workbook

import (
	"strconv"

	"github.com/xuri/excelize/v2"

	"finduel/model/quantity"
	"finduel/render"
)

// face is the typeface of all cells and of the chart; naming none leaves it to the
// program that opens the file, with odd results.
const face = "Arial"

// Colours: two of the colour-blind-safe set of Okabe and Ito (Color Universal
// Design, 2008) for the setups, and quiet shades for bands and lines.
const (
	ink        = "222222"
	quiet      = "5F5F5F"
	band       = "E3ECF3"
	rule       = "B8C4CE"
	challenger = "0072B2"
	reference  = "D55E00"
)

// look is what sets a style apart; the book makes each look once.
type look struct {
	format  string // number format; empty: as the number is
	bold    bool
	large   bool
	italic  bool
	quiet   bool
	filled  bool // a head: filled, with a line below
	wrapped bool
	ruled   bool // a line to its left, for heads beside heads
	right   bool // flush right, for heads of number columns
	left    bool // flush left, for numbers in a column of texts
	indent  bool // a little off the edge: of the right one if right, else of the left one
}

// style returns the number of a look's style in the file.
func (b *book) style(l look) (int, error) {
	if id, ok := b.styles[l]; ok {
		return id, nil
	}
	s := &excelize.Style{
		Font:      &excelize.Font{Family: face, Size: 10, Color: ink, Bold: l.bold, Italic: l.italic},
		Alignment: &excelize.Alignment{Vertical: "center", WrapText: l.wrapped},
	}
	if l.large {
		s.Font.Size = 16
	}
	if l.quiet {
		s.Font.Color = quiet
	}
	if l.filled {
		s.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{band}}
		s.Border = []excelize.Border{{Type: "bottom", Color: rule, Style: 1}}
	}
	if l.ruled {
		s.Border = append(s.Border, excelize.Border{Type: "left", Color: rule, Style: 1})
	}
	if l.filled && l.wrapped {
		s.Alignment.Vertical = "bottom"
	}
	if l.indent {
		s.Alignment.Horizontal, s.Alignment.Indent = "left", 1
	}
	switch {
	case l.right:
		s.Alignment.Horizontal = "right"
	case l.left:
		s.Alignment.Horizontal = "left"
	}
	if l.format != "" {
		s.CustomNumFmt = &l.format
	}
	id, err := b.file.NewStyle(s)
	if err != nil {
		return 0, err
	}
	b.styles[l] = id
	return id, nil
}

// formats holds the number format of computed numbers, by what they measure.
var formats = map[quantity.Kind]string{
	quantity.Count: "0", quantity.Temperature: "0.0", quantity.TemperatureDifference: "0.00",
	quantity.Length: "0.00", quantity.Area: "0.0", quantity.FinDensity: "0.0", quantity.Speed: "0",
	quantity.Velocity: "0.00", quantity.VolumeFlow: "0.0", quantity.MassFlow: "0.00", quantity.Pressure: "0.0",
	quantity.Power: "0.000", quantity.Resistance: "0.0000", quantity.Conductance: "0.00",
	quantity.FilmCoefficient: "0", quantity.Conductivity: "0.0", quantity.Angle: "0.0",
	quantity.SoundLevel: "0.0", quantity.LevelDifference: "0.0", quantity.Voltage: "0.0", quantity.Current: "0.000", quantity.Density: "0.000",
	quantity.Duration: "0.0", quantity.Frequency: "0", quantity.SpeedSlope: "0.000",
}

// headOf returns a head for numbers of a quantity: what stands for it and, where a
// blank has a meaning of its own, which.
func headOf(head string, q quantity.Quantity) string {
	if q.Kind == quantity.Duration {
		return head + " (blank: over 24\u00a0h)"
	}
	return head
}

// formatOf returns the number format of a computed quantity.
func formatOf(q quantity.Quantity) string {
	switch {
	case q.Key == "air_reynolds" || q.Key == "coolant_reynolds":
		return "0"
	case q.Kind == quantity.Ratio && q.Shown.Symbol == "%":
		return "0.0"
	case q.Kind == quantity.Ratio:
		return "0.000"
	}
	return formats[q.Kind]
}

// digits is how many significant digits a number keeps: far more than any of them
// is worth, few enough that what was 20 fpi reads 20 and not 20.0000000000004.
const digits = 9

// shown returns a number in the unit in which q is shown, ready for a cell; nil, a
// blank, if there is none to record.
func shown(q quantity.Quantity, si float64) any {
	v, ok := render.Recorded(q, si)
	if !ok {
		return nil
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	if err != nil {
		return nil
	}
	return rounded
}

// longest is how many characters of a text are kept: a cell holds 32 767 and
// longer texts are cut without a word (ECMA-376 part 1, 18.3.1.4).
const longest = 32000

// text returns a text ready for a cell.
func text(s string) string {
	s = render.Clean(s)
	if r := []rune(s); len(r) > longest {
		return string(r[:longest]) + " …"
	}
	return s
}
