package core

// Range says where a core lies outside the range of its correlations; the zero
// value is inside.
type Range struct {
	ReynoldsLow  bool // air slower than any data behind the correlation
	ReynoldsHigh bool // air faster
	Geometry     bool // a dimension outside the data bank or the flow-efficiency fit; Outside names it
}

// limit is the range of a dimension in the data behind a correlation.
type limit struct {
	key       string // of the dimension that is to be told
	low, high float64
}

// outside returns the key of the first value beyond its limit, and an empty text if
// there is none.
func outside(limits []limit, values []float64) string {
	for i, v := range values {
		if l := &limits[i]; v < l.low || v > l.high {
			return l.key
		}
	}
	return ""
}

// InRange says where the core lies at a Reynolds number of the air, that of
// Reynolds:
//
//	louvered      100 to 3000, dimensions as in the data bank of [1]; below 100, where
//	              the film leans on the flow efficiency, also a louver spacing
//	              F_p/(L_p sin θ) within its fit, 1.5 to 5.2, and a correlation that
//	              lies above the plain passage at 100
//	plain         laminar flow, up to 2300
//	triangular    likewise, an apex angle of 5° to 150°
//	offset strip  300 to 5000, dimensions as [4] gives them for [17]
func (c *Core) InRange(re float64) Range {
	switch c.geometry.Surface {
	case Plain:
		return plainInRange(re)
	case Triangular:
		r := plainInRange(re)
		r.Geometry = c.outside
		return r
	case OffsetStrip:
		return Range{ReynoldsLow: re < stripLow, ReynoldsHigh: re > stripHigh, Geometry: c.outside}
	}
	return Range{ReynoldsLow: re < louveredLow, ReynoldsHigh: re > louveredHigh, Geometry: c.outside || re < louveredLow && c.louvered.beyondFit}
}

// ReynoldsRange returns the Reynolds numbers of the air, those of Reynolds, between
// which the core's correlations were made; 0 where there is no least.
func (c *Core) ReynoldsRange() (low, high float64) {
	switch c.geometry.Surface {
	case Plain, Triangular:
		return 0, LaminarEnd
	case OffsetStrip:
		return stripLow, stripHigh
	}
	return louveredLow, louveredHigh
}

// Outside returns the key of the first dimension of the core that InRange calls
// outside at a Reynolds number of the air, and an empty text if there is none. The
// hydraulic diameter, the louver spacing, the apex angle and the aspect ratio are
// told as fin_density.
func (c *Core) Outside(re float64) string {
	if !c.InRange(re).Geometry {
		return ""
	}
	if key := c.outsideBank(); key != "" {
		return key
	}
	return "fin_density"
}

// outsideBank returns the key of the first dimension outside the data of the
// surface at any Reynolds number.
func (c *Core) outsideBank() string {
	switch c.geometry.Surface {
	case Triangular:
		return triangularOutside(&c.geometry)
	case OffsetStrip:
		return stripOutside(&c.geometry, c.diameter)
	case Louvered:
		return louveredOutside(&c.geometry, c.diameter)
	}
	return ""
}
