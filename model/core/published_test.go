package core

import (
	"math"
	"testing"

	"finduel/model/air"
	"finduel/model/coolant"
	"finduel/testdata/published"
)

// checks are the functions of published values, by case.
type checks = map[string]func(t *testing.T, r published.Row) float64

// louveredRow makes ready the fins that a row describes. The published case of
// verification has a tube pitch that no core can have: the pitch of the row over
// that of the core is returned for the checks to put right.
func louveredRow(t *testing.T, r published.Row) (Geometry, louvered, float64) {
	g := Geometry{
		FinDepth: r.Arg(t, "Fd_mm") / 1000, FinDensity: 1000 / r.Arg(t, "Fp_mm"), FinHeight: r.Arg(t, "Fl_mm") / 1000,
		FinThickness: r.Arg(t, "df_mm") / 1000, LouverPitch: r.Arg(t, "Lp_mm") / 1000, LouverLength: r.Arg(t, "Ll_mm") / 1000,
		LouverAngle: r.Arg(t, "theta_deg") * math.Pi / 180, TubeHeight: r.Arg(t, "Dm_mm") / 1000,
	}
	gap, height := 1/g.FinDensity-g.FinThickness, g.FinHeight-g.FinThickness
	passage := newDuct(gap, height)
	return g, newLouvered(g, passage.diameter, passage), r.Arg(t, "Tp_mm") / 1000 / (g.FinHeight + g.TubeHeight)
}

func lowFriction(t *testing.T, r published.Row, re float64) float64 {
	g, l, pitch := louveredRow(t, r)
	return l.lowBranch(re) * math.Exp(-0.1167*(pitch-1)*(g.FinHeight+g.TubeHeight)/g.TubeHeight)
}

func highFriction(t *testing.T, r published.Row, re float64) float64 {
	g, l, pitch := louveredRow(t, r)
	ours := g.FinHeight + g.TubeHeight
	theirs := pitch * ours
	exponent := theirs/(theirs-g.TubeHeight) - ours/g.FinHeight
	return l.highBranch(re) * math.Pow(1/g.FinDensity/g.LouverLength, -0.7931*exponent) * math.Pow(pitch, -0.0446)
}

// amended is the published join of the friction branches, as printed. The model
// does not use it: between 130 and 230 the factor may fall faster than with the
// square of the Reynolds number, and the pressure drop with it.
func amended(low130, high230, re float64) float64 {
	w := 3.6 - 0.02*re
	return math.Sqrt(((1+w)*low130*low130 + (1-w)*high230*high230) / 2)
}

// airOf is air with a Prandtl number.
func airOf(prandtl float64) air.Properties {
	p := air.Properties{Density: 1.18, Conductivity: 0.026, SpecificHeat: 1006}
	p.Viscosity = prandtl * p.Conductivity / p.SpecificHeat
	return p
}

// filmColburn is j of the film with a Prandtl number of 0.71.
func filmColburn(t *testing.T, r published.Row) float64 {
	g, l, _ := louveredRow(t, r)
	p, re := airOf(0.71), r.Arg(t, "re")
	velocity := re * p.Viscosity / g.LouverPitch
	return l.film(velocity, re, p, g.LouverPitch) / (velocity * p.SpecificHeat) * math.Pow(0.71, 2./3)
}

// secondOpinionOf returns what the second opinion says of a row: its ratios times
// what the first says.
func secondOpinionOf(t *testing.T, r published.Row) (j, f float64) {
	g, l, _ := louveredRow(t, r)
	re := r.Arg(t, "re")
	film, friction, ok := (&Core{geometry: g, louvered: l}).SecondOpinion(re)
	if !ok {
		t.Errorf("there is no second opinion")
	}
	return film * filmColburn(t, r), friction * l.frictionFactor(re)
}

func TestPublishedLouvers(t *testing.T) {
	published.Run(t, "louvered", checks{
		"colburn": func(t *testing.T, r published.Row) float64 {
			_, l, pitch := louveredRow(t, r)
			return math.Exp(l.lnColburn(math.Log(r.Arg(t, "re")))) * math.Pow(pitch, -0.28)
		},
		"low_friction":  func(t *testing.T, r published.Row) float64 { return lowFriction(t, r, r.Arg(t, "re")) },
		"high_friction": func(t *testing.T, r published.Row) float64 { return highFriction(t, r, r.Arg(t, "re")) },
		"amended_friction": func(t *testing.T, r published.Row) float64 {
			return amended(lowFriction(t, r, 130), highFriction(t, r, 230), r.Arg(t, "re"))
		},
		"friction": func(t *testing.T, r published.Row) float64 {
			_, l, _ := louveredRow(t, r)
			return l.frictionFactor(r.Arg(t, "re"))
		},
		"flow_efficiency": func(t *testing.T, r published.Row) float64 {
			_, l, _ := louveredRow(t, r)
			return l.flowEfficiency(math.Log(r.Arg(t, "re")))
		},
		"second_colburn":  func(t *testing.T, r published.Row) float64 { j, _ := secondOpinionOf(t, r); return j },
		"second_friction": func(t *testing.T, r published.Row) float64 { _, f := secondOpinionOf(t, r); return f },
		"film_colburn":    filmColburn,
		// The rows are so slow that the film is that of the plain passage.
		"duct_colburn": filmColburn,
		"duct_friction": func(t *testing.T, r published.Row) float64 {
			_, l, _ := louveredRow(t, r)
			return l.friction / r.Arg(t, "re")
		},
	})
}

// plainRow makes ready a passage of an aspect ratio, one metre on its long side,
// of that depth at which the dimensionless length on the square root of the
// cross-section is z where product is Re (friction) or Re Pr (film).
func plainRow(aspect, z, product float64) (plain, duct) {
	d := newDuct(aspect, 1)
	return newPlain(Geometry{FinDepth: z * product * d.root}, d), d
}

func TestPublishedDucts(t *testing.T) {
	const re = 100
	published.Run(t, "ducts", checks{
		"friction":       func(t *testing.T, r published.Row) float64 { return DuctFriction(r.Arg(t, "aspect")) },
		"darcy_friction": func(t *testing.T, r published.Row) float64 { return 4 * DuctFriction(r.Arg(t, "aspect")) },
		"nusselt":        func(t *testing.T, r published.Row) float64 { return DuctNusselt(r.Arg(t, "aspect")) },
		"developed_friction": func(t *testing.T, r published.Row) float64 {
			pl, _ := plainRow(r.Arg(t, "aspect"), 1, re)
			return pl.friction
		},
		"developing_friction": func(t *testing.T, r published.Row) float64 {
			pl, d := plainRow(r.Arg(t, "aspect"), r.Arg(t, "z"), re)
			return pl.frictionFactor(re*d.diameter/d.root, &d) * re
		},
		"developing_nusselt": func(t *testing.T, r published.Row) float64 {
			pl, d := plainRow(r.Arg(t, "aspect"), r.Arg(t, "z"), re*r.Arg(t, "pr"))
			return pl.nusselt(re, r.Arg(t, "pr"), d.root)
		},
		// Plates are a passage a hundred times as wide as high; x is the length on
		// the hydraulic diameter.
		"plates_nusselt": func(t *testing.T, r published.Row) float64 {
			thin := newDuct(0.01, 1)
			scale := thin.diameter / thin.root
			pl, d := plainRow(0.01, r.Arg(t, "x")*scale*scale, re*r.Arg(t, "pr"))
			return pl.nusselt(re, r.Arg(t, "pr"), d.root) * scale
		},
	})
}

func TestPublishedTubes(t *testing.T) {
	published.Run(t, "tubes", checks{
		"turbulent_nusselt": func(t *testing.T, r published.Row) float64 {
			return turbulentNusselt(r.Arg(t, "re"), r.Arg(t, "pr"), entryFactor(r.Arg(t, "d_over_l")))
		},
		// The table is of a round tube: its laminar value is an input.
		"transition_nusselt": func(t *testing.T, r published.Row) float64 {
			share := turbulentShare(r.Arg(t, "re"))
			return (1-share)*r.Arg(t, "nu_laminar") + share*turbulentNusselt(TurbulentStart, r.Arg(t, "pr"), entryFactor(r.Arg(t, "d_over_l")))
		},
		"smooth_friction": func(t *testing.T, r published.Row) float64 { return smoothFriction(r.Arg(t, "re")) },
		"rough_friction": func(t *testing.T, r published.Row) float64 {
			return roughFriction(r.Arg(t, "re"), r.Arg(t, "roughness"))
		},
		// x is the length on the hydraulic diameter and the Reynolds number.
		"developing_tube": func(t *testing.T, r published.Row) float64 {
			const re = 100
			bore := newDuct(r.Arg(t, "aspect"), 1)
			k := newTubeFriction(Geometry{FaceLength: r.Arg(t, "x") * bore.diameter * re}, bore)
			return re * k.frictionFactor(re, &bore)
		},
		"long_tube": func(t *testing.T, r published.Row) float64 {
			const re = 2000
			bore := newDuct(r.Arg(t, "aspect"), 1)
			k := newTubeFriction(Geometry{FaceLength: 1e9}, bore)
			return 4 * re * k.frictionFactor(re, &bore)
		},
		"tube_drop": func(t *testing.T, r published.Row) float64 {
			const wall = 1e-4
			c := Core{tube: newTube(Geometry{
				FinDepth: r.Arg(t, "w_mm")/1000 + 2*wall, TubeHeight: r.Arg(t, "h_mm")/1000 + 2*wall, TubeWall: wall, TubeConductivity: 1,
				FaceLength: r.Arg(t, "length_mm") / 1000, Passes: int(r.Arg(t, "passes")),
				PortDiameter: r.Arg(t, "port_mm") / 1000, TubeRoughness: r.Arg(t, "roughness_mm") / 1000,
			}, r.Arg(t, "tubes"))}
			return c.CoolantPressureDrop(r.Arg(t, "mass_flow"), coolant.Properties{Density: r.Arg(t, "density"), Viscosity: r.Arg(t, "viscosity")})
		},
		"gap_nusselt": func(t *testing.T, r published.Row) float64 {
			gap := tube{passage: duct{nusselt: DuctNusselt(0)}, diameter: 0.01}
			pr := r.Arg(t, "pr")
			return gap.laminarNusselt(1/(r.Arg(t, "x")*pr*gap.diameter), pr)
		},
	})
}

func TestPublishedFins(t *testing.T) {
	published.Run(t, "fins", checks{
		"fin_efficiency": func(t *testing.T, r published.Row) float64 {
			g := TypicalGeometry(Copper, Plain)
			g.FaceLength, g.FaceWidth, g.FinDepth = 0.12, 0.12, r.Arg(t, "Fd_mm")/1000
			g.FinHeight, g.FinThickness, g.FinConductivity = r.Arg(t, "Fl_mm")/1000, r.Arg(t, "df_mm")/1000, r.Arg(t, "k")
			c, err := New(g)
			if err != nil {
				t.Fatal(err)
			}
			return c.FinEfficiency(r.Arg(t, "h"))
		},
		"tanh_over": func(t *testing.T, r published.Row) float64 { return tanhOver(r.Arg(t, "x")) },
	})
}

// lossCore is a core of a free-flow share, 1 m² of flow area and nothing else.
func lossCore(sigma, areaRatio float64) Core {
	return Core{sigma: sigma, flowArea: 1, airArea: areaRatio}
}

// losses returns what the pressure drop says of entrance and exit losses: with no
// friction, over the velocity head, it is K_c + K_e where the density stays, and
// rises by 1 + σ² + K_e as the ratio of densities rises from 1 to 2.
func losses(t *testing.T, r published.Row) (contraction, expansion float64) {
	s := r.Arg(t, "sigma")
	c := lossCore(s, 50)
	constant := c.PressureDropWith(0, 1, 1, 1) * 2
	doubled := c.PressureDropWith(0, 1, 1, 0.5) * 2
	expansion = doubled - constant - 1 - s*s
	return constant - expansion, expansion
}

func TestPublishedPressure(t *testing.T) {
	published.Run(t, "pressure", checks{
		"contraction": func(t *testing.T, r published.Row) float64 { k, _ := losses(t, r); return k },
		"expansion":   func(t *testing.T, r published.Row) float64 { _, k := losses(t, r); return k },
		"pressure_drop": func(t *testing.T, r published.Row) float64 {
			c := lossCore(r.Arg(t, "sigma"), r.Arg(t, "area_ratio"))
			return c.PressureDropWith(r.Arg(t, "f"), r.Arg(t, "g"), r.Arg(t, "rho_in"), r.Arg(t, "rho_out"))
		},
	})
}

// triangle is a passage with an apex angle, of that depth at which the
// dimensionless length on the square root of the cross-section is z.
func triangle(t *testing.T, r published.Row, z, re float64) (plain, duct) {
	half := r.Arg(t, "apex_deg") * math.Pi / 360
	g := Geometry{FinDensity: 1, FinHeight: 1 / math.Tan(half), Surface: Triangular}
	_, d, pl := newTriangular(g)
	pl.depth = z * re * d.root
	return pl, d
}

func TestPublishedTriangles(t *testing.T) {
	const re = 100
	apex := func(t *testing.T, r published.Row) float64 { return r.Arg(t, "apex_deg") * math.Pi / 180 }
	published.Run(t, "triangles", checks{
		"friction":       func(t *testing.T, r published.Row) float64 { f, _ := inTriangle(apex(t, r)); return f },
		"darcy_friction": func(t *testing.T, r published.Row) float64 { f, _ := inTriangle(apex(t, r)); return 4 * f },
		"nusselt":        func(t *testing.T, r published.Row) float64 { _, n := inTriangle(apex(t, r)); return n },
		"developing_friction": func(t *testing.T, r published.Row) float64 {
			pl, d := triangle(t, r, r.Arg(t, "z"), re)
			return pl.frictionFactor(re*d.diameter/d.root, &d) * re
		},
		"developing_on_diameter": func(t *testing.T, r published.Row) float64 {
			_, d := triangle(t, r, 1, re)
			scale := d.diameter / d.root
			pl, d := triangle(t, r, r.Arg(t, "x")*scale*scale, re)
			return pl.frictionFactor(re*scale, &d) * re * scale
		},
	})
}

// stripRow makes ready the strips of a row that gives their groups, in a passage of
// 10 mm free height so narrow or wide as they say.
func stripRow(t *testing.T, r published.Row) (strip, section) {
	h := 0.01
	s := r.Arg(t, "alpha") * h
	thickness := r.Arg(t, "gamma") * s
	g := Geometry{FinDensity: 1 / (s + thickness), FinHeight: h + thickness, FinThickness: thickness, StripLength: thickness / r.Arg(t, "delta")}
	at := stripSection(&g, s, h)
	return newStrip(g, 4*at.flow/(at.fins+at.wall), newDuct(s, h)), at
}

func TestPublishedStrips(t *testing.T) {
	published.Run(t, "strip", checks{
		"colburn": func(t *testing.T, r published.Row) float64 {
			s, _ := stripRow(t, r)
			return math.Exp(s.lnColburn(math.Log(r.Arg(t, "re"))))
		},
		"friction": func(t *testing.T, r published.Row) float64 {
			s, _ := stripRow(t, r)
			return s.frictionFactor(r.Arg(t, "re"))
		},
		"diameter": func(t *testing.T, r published.Row) float64 {
			s, h, thickness := r.Arg(t, "s_mm")/1000, r.Arg(t, "h_mm")/1000, r.Arg(t, "t_mm")/1000
			g := TypicalGeometry(Aluminium, OffsetStrip)
			g.FaceLength, g.FaceWidth, g.FinDepth = 0.12, 0.12, 0.027
			g.FinDensity, g.FinHeight, g.FinThickness, g.StripLength = 1/(s+thickness), h+thickness, thickness, r.Arg(t, "l_mm")/1000
			c, err := New(g)
			if err != nil {
				t.Fatal(err)
			}
			return c.diameter
		},
	})
}

// passOf returns the effectiveness of one pass of an arrangement; the air has the
// smaller capacity rate or not.
func passOf(t *testing.T, r published.Row, a Arrangement, airLeast bool) float64 {
	c := Core{geometry: Geometry{Passes: 1, Arrangement: a}}
	least, most := 30., 30/r.Arg(t, "c")
	if airLeast {
		return c.Effectiveness(r.Arg(t, "n")*least, least, most)
	}
	return c.Effectiveness(r.Arg(t, "n")*least, most, least)
}

func TestPublishedArrangements(t *testing.T) {
	// Either stream may be the one of the smaller capacity rate: both ways must agree.
	either := func(one Arrangement, oneAirLeast bool, other Arrangement) func(t *testing.T, r published.Row) float64 {
		return func(t *testing.T, r published.Row) float64 {
			e, turned := passOf(t, r, one, oneAirLeast), passOf(t, r, other, !oneAirLeast)
			if !(math.Abs(e-turned) <= 1e-13) {
				t.Errorf("%v gives %v, %v with the streams turned round %v", one, e, other, turned)
			}
			return e
		}
	}
	published.Run(t, "arrangements", checks{
		"most_mixed":  either(AirMixed, false, CoolantMixed),
		"least_mixed": either(AirMixed, true, CoolantMixed),
		"both_mixed":  either(BothMixed, true, BothMixed),
		"counterflow": either(Counterflow, true, Counterflow),
		"cross_counterflow": func(t *testing.T, r published.Row) float64 {
			c := Core{geometry: Geometry{Passes: int(r.Arg(t, "passes")), Routing: CrossCounterflow}}
			return c.Effectiveness(r.Arg(t, "n")*30, 30, 30/r.Arg(t, "c"))
		},
	})
}

func TestPublishedEffectiveness(t *testing.T) {
	published.Run(t, "effectiveness", checks{
		"crossflow": func(t *testing.T, r published.Row) float64 {
			return CrossflowEffectiveness(r.Arg(t, "n"), r.Arg(t, "c"))
		},
	})
}

// exchanger evaluates the exchanger of a row with one pass; heat is over the
// greatest temperature difference.
func exchanger(t *testing.T, r published.Row) (effectiveness, heat float64) {
	c := Core{geometry: Geometry{Passes: 1}}
	hot, cold := r.Arg(t, "c_hot"), r.Arg(t, "c_cold")
	effectiveness = c.Effectiveness(r.Arg(t, "ua"), cold, hot)
	return effectiveness, effectiveness * math.Min(hot, cold)
}

func TestPublishedExamples(t *testing.T) {
	span := func(t *testing.T, r published.Row) float64 { return r.Arg(t, "t_hot") - r.Arg(t, "t_cold") }
	stream := func(t *testing.T, r published.Row) *Core {
		return &Core{flowArea: r.Arg(t, "face") * r.Arg(t, "sigma"), diameter: r.In["diameter"], geometry: Geometry{Surface: Plain}}
	}
	fin := func(t *testing.T, r published.Row) float64 {
		c := Core{finFlow: r.Arg(t, "m") * r.Arg(t, "m") / r.Arg(t, "h"), finRoot: r.Arg(t, "length")}
		return c.FinEfficiency(r.Arg(t, "h")) * r.Arg(t, "h") * r.Arg(t, "perimeter") * r.Arg(t, "length")
	}
	published.Run(t, "worked", checks{
		"crossflow_ua": func(t *testing.T, r published.Row) float64 { e, _ := exchanger(t, r); return e },
		"crossflow_heat": func(t *testing.T, r published.Row) float64 {
			_, q := exchanger(t, r)
			return q * span(t, r)
		},
		"crossflow_hot_outlet": func(t *testing.T, r published.Row) float64 {
			_, q := exchanger(t, r)
			return r.Arg(t, "t_hot") - q*span(t, r)/r.Arg(t, "c_hot")
		},
		"crossflow_cold_outlet": func(t *testing.T, r published.Row) float64 {
			_, q := exchanger(t, r)
			return r.Arg(t, "t_cold") + q*span(t, r)/r.Arg(t, "c_cold")
		},
		"condenser_effectiveness": func(t *testing.T, r published.Row) float64 {
			return CrossflowEffectiveness(r.Arg(t, "ua")/r.Arg(t, "c_cold"), 0)
		},
		// m l of 1 and a film to match make any fin efficiency.
		"surface_efficiency": func(t *testing.T, r published.Row) float64 {
			c := Core{finArea: r.Arg(t, "fin_share"), airArea: 1, finFlow: 1, finRoot: 1}
			low, high := 0.0, 100.0
			for range 100 {
				if h := (low + high) / 2; c.FinEfficiency(h) > r.Arg(t, "fin_efficiency") {
					low = h
				} else {
					high = h
				}
			}
			return c.WithFins(c.FinEfficiency(low))
		},
		"face_mass_velocity": func(t *testing.T, r published.Row) float64 {
			c := stream(t, r)
			c.diameter = 1
			return c.Reynolds(r.Arg(t, "flow"), 1)
		},
		"reynolds": func(t *testing.T, r published.Row) float64 {
			return stream(t, r).Reynolds(r.Arg(t, "flow"), r.Arg(t, "viscosity"))
		},
		"straight_fin_heat":       func(t *testing.T, r published.Row) float64 { return fin(t, r) * r.Arg(t, "excess") },
		"straight_fin_resistance": func(t *testing.T, r published.Row) float64 { return 1 / fin(t, r) },
		"duct_film": func(t *testing.T, r published.Row) float64 {
			d := newDuct(r.Arg(t, "a"), r.Arg(t, "b"))
			return d.nusselt * r.Arg(t, "k") / d.diameter
		},
		"duct_darcy_friction": func(t *testing.T, r published.Row) float64 {
			d := newDuct(r.Arg(t, "a"), r.Arg(t, "b"))
			return 4 * d.friction / r.Arg(t, "re")
		},
	})
}
