package workbook

import (
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"finduel/model/quantity"
	"finduel/sweep/doubt"
)

// chartPart is where the one chart of the workbook lies in the file.
const chartPart = "xl/charts/chart1.xml"

// draw puts the chart on a sheet, its upper left corner at a cell. The library
// makes its place and the ways to it; what is drawn is written here, because the
// library names the speeds as texts, keeps no values for readers that do not
// calculate, and lays the title of the upright axis flat.
func (b *book) draw(c *curve, sheet, at string, width, height uint) error {
	last := headRow + max(1, len(c.rows))
	err := b.file.AddChart(sheet, at, &excelize.Chart{
		Type:      excelize.Scatter,
		Series:    []excelize.ChartSeries{{Categories: fmt.Sprintf("%s!$A$3:$A$%d", sheetCurve, last), Values: fmt.Sprintf("%s!$B$3:$B$%d", sheetCurve, last)}},
		Dimension: excelize.ChartDimension{Width: width, Height: height},
		Format:    excelize.GraphicOptions{AltText: "The base design over fan speed and its reference; the numbers are on the sheet " + sheetCurve},
	})
	b.chart = c.drawing()
	return err
}

// drawing returns the chart as DrawingML (ECMA-376 part 1, 21.2).
func (c *curve) drawing() []byte {
	d := &drawing{}
	metric, speed := c.rep.Metric(), quantity.Must("fan_speed")
	d.raw(xml.Header + `<c:chartSpace xmlns:c="http://schemas.openxmlformats.org/drawingml/2006/chart" xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main">` +
		`<c:date1904 val="0"/><c:roundedCorners val="0"/><c:chart>`)
	d.title(text(c.rep.Challenger().Name)+" against "+text(c.rep.Reference().Name), 1200, true, false)
	d.raw(`<c:autoTitleDeleted val="0"/><c:plotArea><c:layout/><c:scatterChart><c:scatterStyle val="lineMarker"/><c:varyColors val="0"/>`)

	var speeds, values, levels []any
	for _, row := range c.rows {
		speeds = append(speeds, shown(speed, c.rep.Speed(row.Point)))
		if row.Failure != "" {
			values, levels = append(values, nil), append(levels, nil)
			continue
		}
		values = append(values, shown(metric.Quantity, metric.Get(&row.State)))
		levels = append(levels, shown(metric.Quantity, row.Reference))
	}
	challengerHead, referenceHead := c.heads()
	last := headRow + len(c.rows)
	d.series(0, "B2", challengerHead, lineOf(challenger, "solid"), markerOf("circle", 5, challenger), mark{},
		span("A", 3, last), speeds, span("B", 3, last), values)
	d.series(1, "C2", referenceHead, lineOf(reference, "dash"), `<c:marker><c:symbol val="none"/></c:marker>`, mark{},
		span("A", 3, last), speeds, span("C", 3, last), levels)
	drawn, unnamed := 2, []int(nil) // series, and those of them that the legend leaves out
	for end := range 4 {            // of challenger and reference, from and to
		ends, known := c.interval(end)
		if !known {
			continue
		}
		of, line := text(c.rep.Challenger().Name), thinLineOf(challenger, "sysDash")
		if end >= 2 {
			of, line = text(c.rep.Reference().Name), thinLineOf(reference, "sysDot")
		}
		if end%2 == 1 {
			unnamed = append(unnamed, drawn)
		}
		column := string("RSTU"[end])
		d.series(drawn, "", of+": 95 % interval", line, `<c:marker><c:symbol val="none"/></c:marker>`, mark{},
			span("A", 3, last), speeds, span(column, 3, last), ends)
		drawn++
	}
	for i, m := range c.marks {
		row := headRow + 1 + i
		unnamed = append(unnamed, drawn+i)
		d.series(drawn+i, fmt.Sprintf("J%d", row), m.name, `<a:ln><a:noFill/></a:ln>`, markerOf(m.shape, 10, ink), m,
			span("K", row, row), []any{shown(speed, m.speed)}, span("L", row, row), []any{shown(metric.Quantity, m.value)})
	}

	d.raw(`<c:axId val="1"/><c:axId val="2"/></c:scatterChart>`)
	d.axis(1, 2, "b", speed.Title(), c.axisX, false)
	d.axis(2, 1, "l", metric.Title(), c.axisY, true)
	d.raw(`<c:spPr><a:noFill/></c:spPr></c:plotArea><c:legend><c:legendPos val="b"/>`)
	for _, i := range unnamed {
		d.raw(fmt.Sprintf(`<c:legendEntry><c:idx val="%d"/><c:delete val="1"/></c:legendEntry>`, i))
	}
	blanks := "gap"
	if len(c.rows) > doubt.CurveSpeeds {
		blanks = "span" // there are more speeds than intervals
	}
	d.raw(`<c:overlay val="0"/>` + properties(900, false) + `</c:legend><c:plotVisOnly val="1"/><c:dispBlanksAs val="` + blanks + `"/></c:chart>` +
		`<c:spPr><a:solidFill><a:srgbClr val="FFFFFF"/></a:solidFill><a:ln w="9525"><a:solidFill><a:srgbClr val="` + rule + `"/></a:solidFill></a:ln></c:spPr></c:chartSpace>`)
	return []byte(d.b.String())
}

// drawing is the text of a chart on its way.
type drawing struct{ b strings.Builder }

func (d *drawing) raw(s string) { d.b.WriteString(s) }

// words adds a text, escaped.
func (d *drawing) words(s string) {
	// A strings.Builder takes every write.
	_ = xml.EscapeText(&d.b, []byte(s))
}

// title adds the title of the chart or of an axis; size in hundredths of a point.
func (d *drawing) title(s string, size int, bold, upright bool) {
	turn := ""
	if upright {
		turn = ` rot="-5400000" vert="horz"`
	}
	d.raw(`<c:title><c:tx><c:rich><a:bodyPr` + turn + `/><a:p><a:pPr>` + font("defRPr", size, bold) + `</a:pPr><a:r>` + font("rPr", size, bold) + `<a:t>`)
	d.words(s)
	d.raw(`</a:t></a:r></a:p></c:rich></c:tx><c:overlay val="0"/></c:title>`)
}

// series adds a line or a mark. Its name, unless at is empty, speeds and values lie in
// cells of the sheet of the curve and are repeated here; a label with its name stands
// where m says, if it does.
func (d *drawing) series(i int, at, name, line, marker string, m mark, xs string, x []any, ys string, y []any) {
	d.raw(fmt.Sprintf(`<c:ser><c:idx val="%d"/><c:order val="%d"/><c:tx>`, i, i))
	if at == "" {
		d.raw(`<c:v>`)
		d.words(name)
		d.raw(`</c:v>`)
	} else {
		d.raw(fmt.Sprintf(`<c:strRef><c:f>%s!$%s$%s</c:f><c:strCache><c:ptCount val="1"/><c:pt idx="0"><c:v>`, sheetCurve, at[:1], at[1:]))
		d.words(name)
		d.raw(`</c:v></c:pt></c:strCache></c:strRef>`)
	}
	d.raw(`</c:tx><c:spPr>` + line + `</c:spPr>` + marker)
	if m.side != "" {
		look := `<c:spPr><a:noFill/></c:spPr>` + properties(900, true) + `<c:dLblPos val="` + m.side + `"/><c:showLegendKey val="0"/><c:showVal val="0"/>` +
			`<c:showCatName val="0"/><c:showSerName val="1"/><c:showPercent val="0"/><c:showBubbleSize val="0"/>`
		d.raw(fmt.Sprintf(`<c:dLbls><c:dLbl><c:idx val="0"/><c:layout><c:manualLayout><c:x val="%g"/><c:y val="0"/></c:manualLayout></c:layout>%s</c:dLbl>%s</c:dLbls>`, m.shift, look, look))
	}
	d.raw(`<c:xVal>`)
	d.numbers(xs, x)
	d.raw(`</c:xVal><c:yVal>`)
	d.numbers(ys, y)
	d.raw(`</c:yVal><c:smooth val="0"/></c:ser>`)
}

// numbers adds a range of cells and what is in them; blanks are left out.
func (d *drawing) numbers(cells string, values []any) {
	d.raw(fmt.Sprintf(`<c:numRef><c:f>%s</c:f><c:numCache><c:formatCode>General</c:formatCode><c:ptCount val="%d"/>`, cells, len(values)))
	for i, v := range values {
		if f, ok := v.(float64); ok {
			d.raw(fmt.Sprintf(`<c:pt idx="%d"><c:v>%s</c:v></c:pt>`, i, strconv.FormatFloat(f, 'g', -1, 64)))
		}
	}
	d.raw(`</c:numCache></c:numRef>`)
}

// axis adds an axis that crosses another at its low end.
func (d *drawing) axis(id, other int, side, title string, a axis, upright bool) {
	number := func(v float64) string { return strconv.FormatFloat(v, 'g', 12, 64) }
	decimals := ""
	if n := int(math.Ceil(-math.Log10(a.step) - 1e-9)); n > 0 {
		decimals = "." + strings.Repeat("0", n)
	}
	quietLine := func(colour string) string {
		return `<c:spPr><a:ln w="9525"><a:solidFill><a:srgbClr val="` + colour + `"/></a:solidFill></a:ln></c:spPr>`
	}
	d.raw(fmt.Sprintf(`<c:valAx><c:axId val="%d"/><c:scaling><c:orientation val="minMax"/><c:max val="%s"/><c:min val="%s"/></c:scaling><c:delete val="0"/><c:axPos val="%s"/><c:majorGridlines>%s</c:majorGridlines>`,
		id, number(a.high), number(a.low), side, quietLine("E3E6E9")))
	d.title(title, 1000, false, upright)
	d.raw(fmt.Sprintf(`<c:numFmt formatCode="0%s" sourceLinked="0"/><c:majorTickMark val="out"/><c:minorTickMark val="none"/><c:tickLblPos val="low"/>%s%s<c:crossAx val="%d"/><c:crosses val="min"/><c:crossBetween val="midCat"/><c:majorUnit val="%s"/></c:valAx>`,
		decimals, quietLine(quiet), properties(900, false), other, number(a.step)))
}

// span names a range of cells of one column of the sheet of the curve.
func span(column string, first, last int) string {
	return fmt.Sprintf("%s!$%s$%d:$%s$%d", sheetCurve, column, first, column, last)
}

func lineOf(colour, dash string) string { return strokeOf(25400, colour, dash) }

func thinLineOf(colour, dash string) string { return strokeOf(12700, colour, dash) }

// strokeOf returns a line of a width in EMU, 12 700 a point.
func strokeOf(width int, colour, dash string) string {
	return fmt.Sprintf(`<a:ln w="%d" cap="rnd">`, width) + `<a:solidFill><a:srgbClr val="` + colour + `"/></a:solidFill><a:prstDash val="` + dash + `"/><a:round/></a:ln>`
}

func markerOf(shape string, size int, colour string) string {
	return fmt.Sprintf(`<c:marker><c:symbol val="%s"/><c:size val="%d"/><c:spPr><a:solidFill><a:srgbClr val="%s"/></a:solidFill><a:ln w="9525"><a:solidFill><a:srgbClr val="FFFFFF"/></a:solidFill></a:ln></c:spPr></c:marker>`, shape, size, colour)
}

// properties returns how texts of a part look; size in hundredths of a point.
func properties(size int, bold bool) string {
	return `<c:txPr><a:bodyPr/><a:p><a:pPr>` + font("defRPr", size, bold) + `</a:pPr><a:endParaRPr lang="en-GB"/></a:p></c:txPr>`
}

func font(element string, size int, bold bool) string {
	weight := 0
	if bold {
		weight = 1
	}
	language := ""
	if element == "rPr" {
		language = ` lang="en-GB"`
	}
	return fmt.Sprintf(`<a:%s%s sz="%d" b="%d"><a:solidFill><a:srgbClr val="%s"/></a:solidFill><a:latin typeface="%s"/></a:%s>`, element, language, size, weight, ink, face, element)
}
