package core

import "finduel/model/air"

// Core is a geometry made ready: its areas and all that does not depend on flow.
// It is a plain value.
type Core struct {
	geometry Geometry

	tubes    float64 // number of tubes, and of fin rows between them; not whole, so that answers change smoothly with the face
	faceArea float64 // m²
	flowArea float64 // least free-flow area of the air, m²
	airArea  float64 // all surface that the air touches, m²
	finArea  float64 // the fins' part of it, m²
	sigma    float64 // flow area over face area
	diameter float64 // hydraulic diameter of the air passages, 4 A_c F_d/A, m; louver edges do not count [4]

	finRoot float64 // half a fin's length, tube to mid-plane, m
	finFlow float64 // m² = finFlow · h: 2 (1 + δ/F_d) / (k δ), 1/(W/K)

	passage  duct // the air passage, uncut: a rectangle, or a triangle between V-folds
	louvered louvered
	plain    plain // also of triangular passages
	strip    strip
	tube     tube
	outside  bool // a dimension outside the correlations' data bank
}

// section is an air passage between two neighbouring fin legs, by what it is over
// the depth of the fins; lengths are in m.
type section struct {
	flow float64 // least free-flow area, m²
	fins float64 // surface of the fins over their depth
	wall float64 // surface of the tubes between them over the depth
	leg  float64 // half a fin's length, tube to mid-plane
}

// New makes a geometry ready. It returns the errors of Geometry.Check.
func New(g Geometry) (Core, error) {
	if err := g.Check(); err != nil {
		return Core{}, err
	}
	pitch := 1 / g.FinDensity
	gap, height := pitch-g.FinThickness, g.FinHeight-g.FinThickness
	c := Core{geometry: g}
	c.tubes = g.FaceWidth / (g.FinHeight + g.TubeHeight)
	c.faceArea = g.FaceLength * g.FaceWidth

	s := section{flow: height * gap, fins: 2 * height, wall: 2 * gap, leg: g.FinHeight/2 - g.FinThickness}
	edges := g.FinDepth // between the edges of a fin that meet the air
	switch g.Surface {
	case Triangular:
		s, c.passage, c.plain = newTriangular(g)
	case OffsetStrip:
		s = stripSection(&g, gap, height)
		edges = g.StripLength
		fallthrough
	default:
		c.passage = newDuct(gap, height)
	}
	c.sigma = s.flow / ((g.FinHeight + g.TubeHeight) * pitch)
	c.flowArea = c.sigma * c.faceArea
	passages := c.tubes * g.FaceLength / pitch
	c.finArea = passages * s.fins * g.FinDepth
	c.airArea = c.finArea + passages*s.wall*g.FinDepth
	c.diameter = 4 * s.flow / (s.fins + s.wall)
	c.finRoot = s.leg
	c.finFlow = 2 * (1 + g.FinThickness/edges) / (g.FinConductivity * g.FinThickness)
	c.tube = newTube(g, c.tubes)
	switch g.Surface {
	case Louvered:
		c.louvered = newLouvered(g, c.diameter, c.passage)
	case Plain:
		c.plain = newPlain(g, c.passage)
	case OffsetStrip:
		c.strip = newStrip(g, c.diameter, c.passage)
	}
	c.outside = c.outsideBank() != ""
	c.stack()
	return c, nil
}

// FaceArea returns the area of the face, m².
func (c *Core) FaceArea() float64 { return c.faceArea }

// Sigma returns the free-flow area over the face area, of rectangular passages
//
//	σ = (F_l − δ)(F_p − δ) / ((F_l + D_m) F_p)                          [4]
//
// and of triangular ones their cross-section, see triangle.go, over (F_l + D_m) F_p.
func (c *Core) Sigma() float64 { return c.sigma }

// AirArea returns the surface that the air touches, m², fins and tube walls
// between them, of all cores behind one another; of one with louvered or plain fins
//
//	A = A_fr F_d · 2 (F_l − δ + F_p − δ) / (F_p (F_l + D_m))            [4]
//
// Offset strips have the edges of the strips too; triangular passages have two
// sides and a base.
func (c *Core) AirArea() float64 { return c.airArea }

// Reynolds returns the Reynolds number of the air, from the mass flow through the
// whole core, kg/s, and the viscosity, Pa s, at the film temperature for the
// film, at the mean temperature for friction. The velocity is that in the least
// free-flow area; the length is the louver pitch of louvered fins, the hydraulic
// diameter of all others.
func (c *Core) Reynolds(massFlow, viscosity float64) float64 {
	length := c.diameter
	if c.geometry.Surface == Louvered {
		length = c.geometry.LouverPitch
	}
	return massFlow / c.flowArea * length / viscosity
}

// AirFilm returns the air film coefficient, W/(m² K), at a mass flow through the
// whole core, kg/s, above 0, with air properties at the film temperature.
func (c *Core) AirFilm(massFlow float64, p air.Properties) float64 {
	re := c.Reynolds(massFlow, p.Viscosity)
	switch c.geometry.Surface {
	case Plain, Triangular:
		return c.plain.film(re, p, &c.passage)
	case OffsetStrip:
		return c.strip.film(re, p, c.diameter)
	}
	return c.louvered.film(massFlow/c.flowArea, re, p, c.geometry.LouverPitch)
}

// Friction returns the Fanning friction factor of the air passages, on the surface
// AirArea over the least free-flow area, at the Reynolds number of Reynolds, above 0.
func (c *Core) Friction(re float64) float64 {
	switch c.geometry.Surface {
	case Plain, Triangular:
		return c.plain.frictionFactor(re, &c.passage)
	case OffsetStrip:
		return c.strip.frictionFactor(re)
	}
	return c.louvered.frictionFactor(re)
}
