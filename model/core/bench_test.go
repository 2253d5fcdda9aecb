package core

import (
	"testing"

	"finduel/model/air"
	"finduel/model/coolant"
)

var sink float64

// benchCore is a small louvered core of copper, invented.
func benchCore(b *testing.B, s Surface) Core {
	g := TypicalGeometry(Copper, s)
	g.FaceLength, g.FaceWidth, g.FinDepth = 0.12, 0.12, 0.027
	c, err := New(g)
	if err != nil {
		b.Fatal(err)
	}
	return c
}

func BenchmarkNew(b *testing.B) {
	g := benchCore(b, Louvered).geometry
	for b.Loop() {
		c, _ := New(g)
		sink = c.airArea
	}
}

// The Reynolds numbers are spread so that every part of the curve has its turn.
func BenchmarkFriction(b *testing.B) {
	c := benchCore(b, Louvered)
	i := 0
	for b.Loop() {
		i++
		sink = c.Friction(float64(10 + i%50*10))
	}
}

func BenchmarkAirFilm(b *testing.B) {
	c := benchCore(b, Louvered)
	p := air.Atmosphere{Pressure: 101325}.At(300)
	i := 0
	for b.Loop() {
		i++
		sink = c.AirFilm(0.001*float64(1+i%50), p)
	}
}

func BenchmarkCoolantFilm(b *testing.B) {
	c := benchCore(b, Louvered)
	p := coolant.Liquid{}.At(310)
	i := 0
	for b.Loop() {
		i++
		sink, _ = c.CoolantFilm(0.01*float64(1+i%50), p)
	}
}

func BenchmarkCrossflowEffectiveness(b *testing.B) {
	for b.Loop() {
		sink = CrossflowEffectiveness(2, 0.2)
	}
}

// Above and below Re = 100, where the second opinion is heard.
func BenchmarkDoubt(b *testing.B) {
	c := benchCore(b, Louvered)
	for name, re := range map[string]float64{"fast": 300, "slow": 60} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				sink = c.Doubt(re).FilmLow
			}
		})
	}
}
