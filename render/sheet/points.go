package sheet

import (
	"finduel/render"
	"finduel/sweep/archive"
)

// PointBands returns the columns that stand beside those of the points in points.csv: the
// ends of the 95 % interval of what is compared, where it was drawn. None if nothing was
// assessed.
func PointBands(rep *render.Report) []archive.Beside {
	var list []archive.Beside
	for _, band := range rep.PointBands() {
		for _, end := range []int{0, 2} {
			name := map[int]string{0: "_lo_", 2: "_hi_"}[end]
			list = append(list, archive.Beside{
				Column: band.Quantity.Key + name + band.Quantity.Shown.Name,
				Of: func(point int) string {
					b, ok := band.Of(point)
					if !ok {
						return ""
					}
					return bandCells(band.Quantity, b, end)[0]
				},
			})
		}
	}
	return list
}
