package chart

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"finduel/render"
	"finduel/sweep/breakeven"
)

// The marks of the cheapest designs of a map, told apart by their shape.
var (
	quietestMark = shape{5, 1.5707963267948966}
	thriftyMark  = shape{4, 0}
)

const (
	cheapestRadius = 6.5
	leastRadius    = 4.5
)

// cheapestOf picks the cheapest designs of a map.
func cheapestOf(cells []cell) render.Cheapest {
	var list []*breakeven.Answer
	for _, c := range cells {
		if _, ok := lowerSpeed(c.answer); ok {
			list = append(list, c.answer)
		}
	}
	return render.CheapestOf(list)
}

// markCheapest marks a design of a map in the lower corners of its cell if it is the
// cheapest in sound or in watts.
func markCheapest(c *draw.Canvas, r vg.Rectangle, a *breakeven.Answer, cheap render.Cheapest) {
	reach := min(cheapestRadius+8, (r.Max.X-r.Min.X)/4, (r.Max.Y-r.Min.Y)/2)
	radius := max(min(cheapestRadius, reach), leastRadius) // a mark is seen even where a cell is hardly
	if a == cheap.Sound {
		quietestMark.mark(c, vg.Point{X: r.Min.X + reach, Y: r.Min.Y + reach}, radius, orange, ink, 1.3)
	}
	if a == cheap.Power {
		thriftyMark.mark(c, vg.Point{X: r.Max.X - reach, Y: r.Min.Y + reach}, radius, sky, ink, 1.3)
	}
}

// cheapestKeys writes what the marks of the cheapest designs stand for.
func (l *legend) cheapestKeys(cheap render.Cheapest) {
	key := func(s shape, fill look, a *breakeven.Answer, name, second string) {
		if a != nil {
			l.key(func(c *draw.Canvas, r vg.Rectangle) { s.mark(c, middle(r), 5, fill.colour, ink, 1.3) }, name, false, second)
		}
	}
	at := func(a *breakeven.Answer) *breakeven.Crossing {
		if a == nil {
			return &breakeven.Crossing{}
		}
		c, _ := render.Ends(a)
		return c
	}
	key(quietestMark, look{colour: orange}, cheap.Sound, "quietest at its break-even", number("sound", at(cheap.Sound).State.Sound))
	key(thriftyMark, look{colour: sky}, cheap.Power, "fewest watts at its break-even", number("fan_power", at(cheap.Power).State.FanPower))
}
