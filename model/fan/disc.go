package fan

import "math"

// DiscOnFace returns the share of a rotor's disc that lies over a core's face, 0
// to 1: of a circle of a diameter in m, above 0, the part within a rectangle of
// length and width in m, above 0, whose middle is the circle's:
//
//	a circle inside the rectangle      1
//	corners of the rectangle outside   1 − (2/πR²) Σ [R² acos(h/R) − h √(R² − h²)],
//	                                   over the half sides h below R
//	a rectangle inside the circle      length width/(πR²)
//
// (elementary geometry). Air that the rest of the disc moves leaks or is blocked, as
// the shroud is made.
//
// Check: 127 mm on 100 mm square is 0.772; on 89.8 mm square, whose corners just
// touch, 2/π.
func DiscOnFace(diameter, length, width float64) float64 {
	r := diameter / 2
	disc := math.Pi * r * r
	if math.Hypot(length, width) <= diameter {
		return length * width / disc
	}
	return 1 - 2*(segment(r, length/2)+segment(r, width/2))/disc
}

// DiscsOnFace returns the share of the discs of equal rotors side by side that lies over
// a core's face, 0 to 1; diameter, length and width in m, above 0, and count 1 or more.
// The rotors stand in a full grid, rows across the length by columns across the width,
// each over the middle of its equal part of the face. Of all such grids, 1 × count to
// count × 1, it is the one with the most on the face, as a builder would choose.
//
// Check: four of 100 mm on 200 mm square are 1, on 400 mm by 100 mm and on 100 mm by
// 400 mm too; three of 100 mm on 200 mm square are 0.781, in either direction.
func DiscsOnFace(diameter, length, width float64, count int) float64 {
	most := 0.0
	for rows := 1; rows <= count; rows++ {
		if count%rows == 0 {
			columns := count / rows
			most = math.Max(most, DiscOnFace(diameter, length/float64(rows), width/float64(columns)))
		}
	}
	return most
}

// segment returns the area that a chord at a distance from the middle cuts off a
// circle of radius r, m².
func segment(r, distance float64) float64 {
	if distance >= r {
		return 0
	}
	half := math.Sqrt((r - distance) * (r + distance)) // of the chord
	return r*r*math.Atan2(half, distance) - distance*half
}
