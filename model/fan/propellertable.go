package fan

import "math"

// inch is one inch in m: propellers are named by it.
const inch = 0.0254

// Sample is a measured propeller of the shipped table [3].
type Sample struct {
	Run      string  // number of its static run on the data site
	Diameter float64 // m
	Pitch    float64 // m
	Blades   int

	measured *measurement
}

// measurement is what was measured on a propeller.
type measurement struct {
	static    []staticRow  // by rising speed
	advancing []advanceRow // by rising advance ratio, from 0; empty if not measured
}

// staticRow is a measured point without flight speed.
type staticRow struct {
	speed  float64 // rev/s
	thrust float64 // CT0 = T/(ρ n² D⁴)
	power  float64 // CP0 = P/(ρ n³ D⁵)
}

// advanceRow is a measured point in flight.
type advanceRow struct {
	advance float64 // J = V/(n D)
	thrust  float64 // CT
	power   float64 // CP
}

// Extent says how a speed lies to what was measured.
type Extent int

// The extents.
const (
	Measured      Extent = iota // between the lowest and the highest measured speed
	BelowMeasured               // the values of the lowest measured speed are held
	AboveMeasured               // the values of the highest measured speed are held
)

// String returns the extent in words.
func (e Extent) String() string {
	switch e {
	case BelowMeasured:
		return "below the lowest measured speed"
	case AboveMeasured:
		return "above the highest measured speed"
	}
	return "measured"
}

// Static returns the coefficients of thrust and power without flight speed at a
// speed in rev/s, above 0: straight between the measured points, which lie up to
// 5 % off their neighbours (the power of run 1204ga at 7 440 rpm 11 %). Beyond them
// the nearest are held, and the extent says so: none was measured above 10 000 rpm.
// With speed, CT rises and CP falls by a few percent, until the tips come near the
// speed of sound [5].
//
// Check: run 1121md at 7 440 rpm has 0.129020 and 0.092551; at 20 000 rpm the
// same, above what was measured.
func (s *Sample) Static(speed float64) (thrust, power float64, extent Extent) {
	first, last := s.measured.static[0], s.measured.static[len(s.measured.static)-1]
	if speed < first.speed {
		return first.thrust, first.power, BelowMeasured
	}
	if speed > last.speed {
		return last.thrust, last.power, AboveMeasured
	}
	i := 1
	for s.measured.static[i].speed < speed {
		i++
	}
	a, b := s.measured.static[i-1], s.measured.static[i]
	share := (speed - a.speed) / (b.speed - a.speed)
	return a.thrust + share*(b.thrust-a.thrust), a.power + share*(b.power-a.power), Measured
}

// zeroThrust returns where the thrust of an advancing propeller ends: its last two
// measured points carried on in a straight line, by 1 or 3 % of the advance ratio.
func (s *Sample) zeroThrust() advanceRow {
	a, b := s.measured.advancing[len(s.measured.advancing)-2], s.measured.advancing[len(s.measured.advancing)-1]
	on := b.thrust / (a.thrust - b.thrust)
	return advanceRow{b.advance + on*(b.advance-a.advance), 0, b.power + on*(b.power-a.power)}
}

// Match is the propeller of the table that stands for another, and what parts the
// two. Nothing is corrected for the difference: it is told.
type Match struct {
	Sample     Sample
	Size       float64 // diameter of the wanted propeller over the sample's
	PitchRatio float64 // pitch/diameter of the wanted propeller less the sample's
	Blades     int     // blades of the wanted propeller less the sample's
	Distance   float64 // 0 for the same propeller, see Nearest
}

// Speeds returns the speeds, rev/s, between which the wanted propeller has the Reynolds
// numbers at which the sample was measured: the sample's own over the square of the size.
//
// Check: for the same propeller of 5 by 4 inches and 3 blades 1 596 to 6 396 rpm.
func (m *Match) Speeds() (low, high float64) {
	static := m.Sample.measured.static
	size := m.Size * m.Size
	return static[0].speed / size, static[len(static)-1].speed / size
}

// Units of the distance between propellers. Two propellers of the table that
// differ by one of them in pitch ratio or blades differ by 30 to 100 % in CP;
// doubling the size changes only the Reynolds number.
const (
	unitSize       = math.Ln2 // a doubling of the diameter
	unitPitchRatio = 0.2
	unitBlades     = 1.0
)

// tie is how near two distances must be to count as equal: the earlier propeller
// of the table then wins, on every processor.
const tie = 1e-9

// Nearest returns the propeller of the table that is nearest to a diameter and a
// pitch in m and a number of blades, all above 0:
//
//	distance² = (ln(D/D_s)/ln 2)² + ((P/D − P_s/D_s)/0.2)² + (Z − Z_s)²
//
// so that one blade counts like a doubling of the size or 0.2 of pitch ratio; the
// weights are our own, from how much the table's propellers differ. Of equally
// near ones the first in the table is taken: by diameter, pitch, blades.
//
// Check: 127 mm, 101.6 mm, 3 blades is run 0362rd itself, at distance 0.
func Nearest(diameter, pitch float64, blades int) Match {
	return nearest(diameter, pitch, blades, false)
}

// nearest is Nearest, if advancing among those measured in flight only.
func nearest(diameter, pitch float64, blades int, advancing bool) Match {
	best := Match{Distance: math.Inf(1)}
	for i := range samples {
		s := &samples[i]
		if advancing && len(s.measured.advancing) == 0 {
			continue
		}
		m := Match{Sample: *s, Size: diameter / s.Diameter, PitchRatio: pitch/diameter - s.Pitch/s.Diameter, Blades: blades - s.Blades}
		size, ratio, count := math.Log(m.Size)/unitSize, m.PitchRatio/unitPitchRatio, float64(m.Blades)/unitBlades
		if m.Distance = math.Sqrt(size*size + ratio*ratio + count*count); m.Distance < best.Distance-tie {
			best = m
		}
	}
	return best
}

// samples holds propellers of the UIUC Propeller Data Site, volume 2 [3], by
// diameter, pitch and blades: all that is near the size of a small core. The one
// set at 15° has the pitch that this angle makes at three quarters of the radius,
// where the trade measures it (taken, not read on the data site).
//
// The first advancing point of each is a static one: of the last row for run
// 0615rd, flown at 10 040 rpm, of 5 930 rpm for run 1121md, flown at 6 000 rpm.
var samples = []Sample{
	{ // 4.2 x 4 in, 2 blades, commercial
		Run: "0615rd", Diameter: 4.2 * inch, Pitch: 4 * inch, Blades: 2,
		measured: &measurement{static: []staticRow{
			{1490. / 60, 0.125114, 0.135440},
			{2033. / 60, 0.121907, 0.126335},
			{2557. / 60, 0.121578, 0.118066},
			{2947. / 60, 0.128023, 0.115914},
			{3537. / 60, 0.127437, 0.113516},
			{4007. / 60, 0.125903, 0.110555},
			{4563. / 60, 0.128415, 0.109219},
			{4990. / 60, 0.127016, 0.114393},
			{5463. / 60, 0.128598, 0.111736},
			{6003. / 60, 0.129000, 0.110073},
			{6423. / 60, 0.127502, 0.107641},
			{6947. / 60, 0.128834, 0.108129},
			{7457. / 60, 0.129242, 0.108655},
			{7793. / 60, 0.131300, 0.110325},
			{8467. / 60, 0.129458, 0.108728},
			{8847. / 60, 0.131741, 0.111847},
			{9413. / 60, 0.133007, 0.110814},
			{9880. / 60, 0.129241, 0.106961},
		}, advancing: []advanceRow{
			{0, 0.129241, 0.106961},
			{0.069, 0.13333, 0.11250},
			{0.2026, 0.12565, 0.10795},
			{0.3736, 0.11313, 0.10000},
			{0.5415, 0.09479, 0.09205},
			{0.7138, 0.06726, 0.07654},
			{0.8853, 0.03194, 0.05016},
			{1.0228, 0.00182, 0.02545},
		}},
	},
	{ // 5 in, 3 blades set at 15 degrees, a research rotor
		Run: "0696md", Diameter: 5 * inch, Pitch: 0.75 * math.Pi * 0.26794919243112270 * 5 * inch, Blades: 3,
		measured: &measurement{static: []staticRow{
			{1482. / 60, 0.091491, 0.071810},
			{1967. / 60, 0.090543, 0.064346},
			{2447. / 60, 0.092891, 0.062165},
			{3007. / 60, 0.100992, 0.065187},
			{3531. / 60, 0.100278, 0.061366},
			{4013. / 60, 0.102179, 0.060900},
			{4402. / 60, 0.107592, 0.062261},
			{4987. / 60, 0.107508, 0.061399},
			{5527. / 60, 0.108450, 0.060600},
			{5936. / 60, 0.110645, 0.060861},
			{6453. / 60, 0.111573, 0.060330},
			{6962. / 60, 0.116232, 0.062847},
			{7462. / 60, 0.114030, 0.060816},
			{7949. / 60, 0.117980, 0.061256},
			{8418. / 60, 0.119439, 0.061019},
			{9016. / 60, 0.119031, 0.059723},
			{9418. / 60, 0.119936, 0.060845},
			{9898. / 60, 0.121960, 0.061393},
		}},
	},
	{ // 5 x 3.75 in, 2 blades, designed at a university
		Run: "1121md", Diameter: 5 * inch, Pitch: 3.75 * inch, Blades: 2,
		measured: &measurement{static: []staticRow{
			{1410. / 60, 0.117996, 0.097429},
			{1977. / 60, 0.124035, 0.095690},
			{2447. / 60, 0.123977, 0.095134},
			{3060. / 60, 0.122526, 0.093445},
			{3550. / 60, 0.123508, 0.091795},
			{3987. / 60, 0.125492, 0.091880},
			{4513. / 60, 0.125092, 0.089659},
			{4967. / 60, 0.124781, 0.090452},
			{5533. / 60, 0.122616, 0.087334},
			{5930. / 60, 0.125383, 0.088644},
			{6483. / 60, 0.128062, 0.091539},
			{6913. / 60, 0.129589, 0.089348},
			{7440. / 60, 0.129020, 0.092551},
		}, advancing: []advanceRow{
			{0, 0.125383, 0.088644},
			{0.1941, 0.11568, 0.08663},
			{0.2887, 0.10719, 0.08233},
			{0.3783, 0.09706, 0.07670},
			{0.4722, 0.08245, 0.06939},
			{0.5741, 0.06541, 0.06035},
			{0.6632, 0.04625, 0.04870},
			{0.7668, 0.02489, 0.03425},
			{0.8526, 0.00494, 0.01907},
		}},
	},
	{ // 5 x 3.75 in, 3 blades of wide chord, designed at a university
		Run: "1204ga", Diameter: 5 * inch, Pitch: 3.75 * inch, Blades: 3,
		measured: &measurement{static: []staticRow{
			{1478. / 60, 0.139069, 0.116804},
			{1980. / 60, 0.143556, 0.111732},
			{2527. / 60, 0.150364, 0.111023},
			{3060. / 60, 0.147364, 0.106184},
			{3507. / 60, 0.148414, 0.104806},
			{3947. / 60, 0.148775, 0.101791},
			{4500. / 60, 0.146590, 0.099024},
			{4998. / 60, 0.149366, 0.099282},
			{5433. / 60, 0.151686, 0.103090},
			{5938. / 60, 0.151365, 0.099086},
			{6451. / 60, 0.150682, 0.097056},
			{6913. / 60, 0.150248, 0.095101},
			{7440. / 60, 0.149289, 0.104993},
			{7947. / 60, 0.149294, 0.094482},
		}},
	},
	{ // 5 x 4 in, 3 blades, commercial
		Run: "0362rd", Diameter: 5 * inch, Pitch: 4 * inch, Blades: 3,
		measured: &measurement{static: []staticRow{
			{1596. / 60, 0.182952, 0.124631},
			{1982. / 60, 0.181786, 0.120395},
			{2493. / 60, 0.181029, 0.119001},
			{2920. / 60, 0.182755, 0.119498},
			{3478. / 60, 0.175692, 0.113035},
			{3989. / 60, 0.176045, 0.112252},
			{4471. / 60, 0.177914, 0.113403},
			{4940. / 60, 0.179055, 0.114963},
			{5440. / 60, 0.177602, 0.115431},
			{5873. / 60, 0.180320, 0.117700},
			{6396. / 60, 0.183602, 0.121119},
		}},
	},
}
