package workbook

import (
	"io"

	"github.com/xuri/excelize/v2"

	"finduel/render"
)

// The sheets, in order.
const (
	sheetSummary = "Summary"
	sheetDesigns = "Break-even"
	sheetParity  = "Parity"
	sheetPoints  = "Points"
	sheetStudy   = "Study"
	sheetCurve   = "Curve"
)

// Write writes the report as a workbook. The tables of points and of designs are
// cut after 200 000 rows, which the sheet says. It returns the error of w, or that
// a sheet is too large for the format.
func Write(w io.Writer, rep *render.Report) error { return write(w, rep, maxRows) }

// write cuts tables after most rows.
func write(w io.Writer, rep *render.Report, most int) (err error) {
	b := &book{file: excelize.NewFile(), styles: map[look]int{}}
	// Temporary files of large sheets go with it.
	defer func() {
		if e := b.file.Close(); err == nil {
			err = e
		}
	}()
	if err := b.identify(rep); err != nil {
		return err
	}
	b.file.SetActiveSheet(0) // later it would read the tables back into memory
	curve := newCurve(rep)
	for _, step := range []func() error{
		func() error { return b.summary(rep, curve) },
		func() error { return b.designs(rep, most) },
		func() error { return b.parity(rep) },
		func() error { return b.points(rep, most) },
		func() error { return b.settings(rep) },
		func() error { return b.curve(curve) },
		func() error {
			if rep.Doubt == nil {
				return nil
			}
			return b.sure(rep)
		},
	} {
		if err := step(); err != nil {
			return err
		}
	}
	packing := &archive{out: w, replace: map[string][]byte{chartPart: b.chart}}
	defer packing.discard()
	b.file.ZipWriter = func(io.Writer) excelize.ZipWriter { return packing }
	_, err = b.file.WriteToBuffer()
	return err
}

// identify makes the sheets and says whose file it is. No clock is asked: the dates
// of the file are those of no run.
func (b *book) identify(rep *render.Report) error {
	if err := b.file.SetDefaultFont(face); err != nil {
		return err
	}
	names := []string{sheetSummary, sheetDesigns, sheetParity, sheetPoints, sheetStudy, sheetCurve}
	if rep.Doubt != nil {
		names = append(names, sheetDoubt)
	}
	for i, name := range names {
		if i == 0 {
			if err := b.file.SetSheetName(b.file.GetSheetName(0), name); err != nil {
				return err
			}
			continue
		}
		if _, err := b.file.NewSheet(name); err != nil {
			return err
		}
	}
	const noDate = "1980-01-01T00:00:00Z"
	if err := b.file.SetDocProps(&excelize.DocProperties{
		Title: text(rep.Study.Name), Description: text(rep.Study.About), Creator: "finduel", LastModifiedBy: "finduel",
		Created: noDate, Modified: noDate, Identifier: rep.Study.Hash,
	}); err != nil {
		return err
	}
	return b.file.SetAppProps(&excelize.AppProperties{Application: "finduel"})
}
