package core

import (
	"errors"
	"math"

	"finduel/model/quantity"
)

// Surface is the kind of the fins.
type Surface int

// The surfaces.
const (
	Louvered    Surface = iota // folded fins cut into louvers
	Plain                      // folded fins without cuts, U-folds: rectangular channels
	Triangular                 // folded fins without cuts, V-folds: triangular channels
	OffsetStrip                // U-folds cut into strips, each moved aside by half a fin pitch
	surfaces    = iota
)

var surfaceNames = [surfaces]string{"louvered", "plain", "triangular", "offset strip"}

// Surfaces returns all surfaces, the default first.
func Surfaces() [surfaces]Surface {
	return [...]Surface{Louvered, Plain, Triangular, OffsetStrip}
}

// String returns the surface as written in studies, empty if there is none.
func (s Surface) String() string {
	if s < 0 || s >= surfaces {
		return ""
	}
	return surfaceNames[s]
}

// Metal is what a core is made of, for its typical dimensions.
type Metal int

// The metals.
const (
	Copper    Metal = iota // copper fins on brass tubes, soldered
	Aluminium              // all aluminium, brazed
)

// String returns the metal as written in studies.
func (m Metal) String() string {
	if m == Aluminium {
		return "aluminium"
	}
	return "copper"
}

// Geometry is a core by its dimensions. Lengths are in m.
type Geometry struct {
	FaceLength float64 // finned face along the tubes, above 0
	FaceWidth  float64 // finned face across the tubes, at least one tube pitch a pass

	FinDepth        float64 // fins and tubes along the air, above 0; not the overall thickness
	FinDensity      float64 // fin legs per metre of tube, 1/m, above 0: the fin pitch is its inverse
	FinHeight       float64 // fin length between two tubes, above 0
	FinThickness    float64 // of the fin strip, below half the fin pitch
	FinConductivity float64 // W/(m K), above 0

	LouverPitch  float64 // louver width along the air, at most half the fin depth; louvered only
	LouverLength float64 // length of the cut, at most the fin height; louvered only
	LouverAngle  float64 // rad, above 0, to 60°; louvered only
	StripLength  float64 // strip along the air, above the fin thickness, at most the fin depth; offset strip only

	TubeHeight       float64 // outer minor axis, across the air, above 0
	TubeWall         float64 // wall thickness, below half the tube height and depth
	TubeConductivity float64 // W/(m K), above 0
	TubeRoughness    float64 // height of the roughness inside the tubes, 0 to 5 % of the bore's hydraulic diameter
	PortDiameter     float64 // narrowest bore of the coolant's ports and their fittings, 0 or more; 0: ports are not counted

	Passes      int         // coolant passes, 1 or more; at most 4 behind one another
	Surface     Surface     // louvered, plain, triangular or offset strip
	Arrangement Arrangement // how the streams mix within a pass
	Routing     Routing     // where the passes lie

	Further int  // further equal cores behind this one, 0 to 7: the air goes through all of them
	Feed    Feed // how the coolant is led through them
}

// TypicalGeometry returns what is taken for a core of a metal and a surface where
// nothing is said (typical of small liquid-cooling cores; common practice, no
// source): 16 fins an inch, fin height 6.5 mm, tubes 1.8 mm high, louvers of
// 1.1 mm at 26° over 85 % of the fin height, strips of 3 mm, coolant that goes out
// and comes back (two passes side by side, both streams unmixed); copper fins
// 0.05 mm of 370 W/(m K) on brass tubes 0.15 mm of 120 W/(m K), or aluminium fins
// 0.08 mm and tubes 0.30 mm, both of 180 W/(m K); ports with a bore of 8 mm. Tubes
// inside are as rough as drawn tubing, 0.0015 mm [16]. The face and the fin depth are
// left at 0: there is no typical size.
func TypicalGeometry(m Metal, s Surface) Geometry {
	g := Geometry{
		FinDensity: 16 / 0.0254, FinHeight: 0.0065,
		FinThickness: 0.00005, FinConductivity: 370,
		LouverPitch: 0.0011, LouverLength: 0.85 * 0.0065, LouverAngle: 26 * math.Pi / 180,
		StripLength: 0.003, TubeHeight: 0.0018, TubeWall: 0.00015, TubeConductivity: 120,
		TubeRoughness: 0.0000015, PortDiameter: 0.008,
		Passes: 2, Surface: s,
	}
	if m == Aluminium {
		g.FinThickness, g.FinConductivity, g.TubeWall, g.TubeConductivity = 0.00008, 180, 0.0003, 180
	}
	return g
}

// depthShare is the fin depth over the overall thickness: 0.60 for slim units of
// 28 mm and less, 0.75 at 45 mm, 0.83 from 60 mm on, straight between (screw
// flanges take 5 to 7 mm on either side; common practice, no source).
var depthShare = [...]struct{ thickness, share float64 }{{0.028, 0.60}, {0.045, 0.75}, {0.060, 0.83}}

// FinDepthOf returns the fin depth, m, that a unit of an overall thickness, m,
// housing included, typically has inside. It is an estimate: measure if you can.
//
// Check: 28 mm overall have 16.8 mm of fins.
func FinDepthOf(overallThickness float64) float64 {
	first, last := depthShare[0], depthShare[len(depthShare)-1]
	switch {
	case overallThickness <= first.thickness:
		return first.share * overallThickness
	case overallThickness >= last.thickness:
		return last.share * overallThickness
	}
	for i := 1; ; i++ {
		a, b := depthShare[i-1], depthShare[i]
		if overallThickness <= b.thickness {
			t := (overallThickness - a.thickness) / (b.thickness - a.thickness)
			return (a.share + t*(b.share-a.share)) * overallThickness
		}
	}
}

// OverallThicknessOf returns the overall thickness, m, at which FinDepthOf gives
// the fin depth, m.
func OverallThicknessOf(finDepth float64) float64 {
	low, high := finDepth, 2*finDepth // shares lie between 0.6 and 0.83
	for range 100 {
		middle := (low + high) / 2
		if FinDepthOf(middle) < finDepth {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// Check returns joined *quantity.RangeError for everything about the geometry
// that cannot exist or that the correlations cannot express. Where they merely
// have not been tried is told by InRange.
func (g Geometry) Check() error {
	err := errors.Join(
		positive(g.FaceLength, "face_length"), positive(g.FaceWidth, "face_width"),
		positive(g.FinDepth, "fin_depth"), positive(g.FinDensity, "fin_density"),
		positive(g.FinHeight, "fin_height"), positive(g.FinThickness, "fin_thickness"),
		positive(g.FinConductivity, "fin_conductivity"), positive(g.TubeHeight, "tube_height"),
		positive(g.TubeWall, "tube_wall"), positive(g.TubeConductivity, "tube_conductivity"),
		wrong(!(g.TubeRoughness >= 0 && g.TubeRoughness <= math.MaxFloat64), "tube_roughness", g.TubeRoughness, "must be zero or more and finite"),
		wrong(!(g.PortDiameter >= 0 && g.PortDiameter <= math.MaxFloat64), "port_diameter", g.PortDiameter, "must be zero or more and finite"),
		wrong(g.Surface.String() == "", "surface", float64(g.Surface), "must be louvered, plain, triangular or offset strip"),
		wrong(g.Arrangement.String() == "", "arrangement", float64(g.Arrangement), "must be both unmixed, air mixed, coolant mixed, both mixed or counterflow"),
		wrong(g.Routing.String() == "", "routing", float64(g.Routing), "must be side by side or cross-counterflow"),
		wrong(g.Further < 0 || g.Further > mostFurther, "stacked", float64(1+g.Further), "must be one to eight"),
		wrong(g.Feed.String() == "", "stack_feed", float64(g.Feed), "must be series or parallel"),
		wrong(g.Passes < 1, "passes", float64(g.Passes), "must be one or more"),
		wrong(g.Routing == CrossCounterflow && g.Passes > maxRows, "passes", float64(g.Passes), "must be at most four behind one another"),
	)
	if g.Surface == Louvered {
		err = errors.Join(err,
			positive(g.LouverPitch, "louver_pitch"), positive(g.LouverLength, "louver_length"), positive(g.LouverAngle, "louver_angle"))
	}
	if g.Surface == OffsetStrip {
		err = errors.Join(err, positive(g.StripLength, "strip_length"))
	}
	if err != nil {
		return err
	}
	pitch, rows := 1/g.FinDensity, g.rows()
	err = errors.Join(
		wrong(g.FinThickness >= pitch/2, "fin_thickness", g.FinThickness, "must be below half the fin pitch: the fins would fill the air's way"),
		wrong(g.FinThickness >= g.FinHeight/2, "fin_thickness", g.FinThickness, "must be below half the fin height"),
		wrong(g.TubeWall >= g.TubeHeight/2, "tube_wall", g.TubeWall, "must be below half the tube height: nothing would be left for the coolant"),
		wrong(g.TubeWall >= g.FinDepth/2, "tube_wall", g.TubeWall, "must be below half the fin depth"),
		wrong(g.roughBore(), "tube_roughness", g.TubeRoughness, "must be at most 5 % of the hydraulic diameter of the tubes' bore"),
		wrong(g.TubeHeight >= g.FinDepth, "tube_height", g.TubeHeight, "must be below the fin depth: flat tubes lie along the air"),
		wrong(rows > 1 && g.TubeHeight >= g.FinDepth/rows, "passes", float64(g.Passes), "must be fewer: behind one another they leave tubes that are higher than they are deep"),
		wrong(g.FaceWidth < float64(g.Passes)/rows*(g.FinHeight+g.TubeHeight), "face_width", g.FaceWidth, "must hold at least one tube with its fin a pass"),
		wrong(g.FaceLength < 2*pitch, "face_length", g.FaceLength, "must hold at least two fins"),
	)
	if g.Surface == Louvered {
		err = errors.Join(err,
			wrong(g.LouverPitch > g.FinDepth/2, "louver_pitch", g.LouverPitch, "must be at most half the fin depth"),
			wrong(g.LouverLength > g.FinHeight, "louver_length", g.LouverLength, "must be at most the fin height"),
			wrong(g.LouverAngle > math.Pi/3, "louver_angle", g.LouverAngle, "must be at most 60°"),
			wrong(g.FinThickness <= leastFinShare*pitch, "fin_thickness", g.FinThickness, "must be above 1.05 % of the fin pitch: the friction correlation of louvered fins has no value below"),
			wrong(g.TubeHeight*maxPitchOverTube <= g.FinHeight+g.TubeHeight, "tube_height", g.TubeHeight, "must be above a fiftieth of the tube pitch"),
		)
	}
	if g.Surface == OffsetStrip {
		err = errors.Join(err,
			wrong(g.StripLength <= g.FinThickness, "strip_length", g.StripLength, "must be above the fin thickness"),
			wrong(g.StripLength > g.FinDepth, "strip_length", g.StripLength, "must be at most the fin depth"),
		)
	}
	return err
}

// roughBore reports whether the tubes, where they have a bore, are rougher inside
// than the friction formula can express.
func (g *Geometry) roughBore() bool {
	wide, high := g.FinDepth/g.rows()-2*g.TubeWall, g.TubeHeight-2*g.TubeWall
	return wide > 0 && high > 0 && g.TubeRoughness > greatestRoughness*2*wide*high/(wide+high)
}

const (
	// leastFinShare keeps ln[(δ_f/F_p)^½ + 0.9] of the friction correlation above 0.
	leastFinShare = 0.0105
	// maxPitchOverTube keeps exp(−0.1167 T_p/D_m) of the friction correlation sane.
	maxPitchOverTube = 50
)

func positive(v float64, key string) error {
	return wrong(!(v > 0 && v <= math.MaxFloat64), key, v, "must be above zero and finite")
}

func wrong(is bool, key string, v float64, rule string) error {
	if !is {
		return nil
	}
	return &quantity.RangeError{Key: key, Value: v, High: math.MaxFloat64, Rule: rule}
}
