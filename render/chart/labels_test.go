package chart

import (
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

// canvas returns a canvas of a size that records what is drawn on it.
func canvas(width, height vg.Length) (*recorder.Canvas, draw.Canvas) {
	var r recorder.Canvas
	return &r, draw.NewCanvas(&r, width, height)
}

// texts returns the texts that were written, with their places.
func texts(r *recorder.Canvas) map[string]vg.Point {
	list := map[string]vg.Point{}
	for _, a := range r.Actions {
		if s, ok := a.(*recorder.FillString); ok {
			list[s.String] = s.Point
		}
	}
	return list
}

func TestLabelsKeepClear(t *testing.T) {
	style := letters(textSize, false, ink)
	r, c := canvas(200, 100)
	place := newLabels(&c)
	at := vg.Point{X: 100, Y: 50}
	place.put(&c, style, "first", 5, may, at)
	place.put(&c, style, "second", 5, may, at)
	got := texts(r)
	if len(got) != 2 || got["first"].Y <= 50 || got["second"].Y >= 50 {
		t.Errorf("two labels at one point are at %v, want one above and one below", got)
	}

	// Where lines are everywhere, only a label that must be is written.
	r, c = canvas(200, 100)
	place = newLabels(&c)
	for y := vg.Length(0); y <= 100; y += 4 {
		place.blockLine([]vg.Point{{X: 0, Y: y}, {X: 200, Y: y}})
	}
	place.put(&c, style, "may", 5, may, at)
	place.put(&c, style, "must", 5, must, at)
	if got := texts(r); len(got) != 1 || got["must"] == (vg.Point{}) {
		t.Errorf("in a crowd %v was written, want must alone", got)
	}

	// Close by there is no room, further away there is.
	r, c = canvas(200, 100)
	place = newLabels(&c)
	place.block(at, 9)
	place.put(&c, style, "may", 5, may, at)
	place.put(&c, style, "should", 5, should, at)
	if got := texts(r); len(got) != 1 || got["should"] == (vg.Point{}) {
		t.Errorf("round a large mark %v was written, want should alone", got)
	}

	// Of several points the one with room is taken.
	r, c = canvas(200, 100)
	place = newLabels(&c)
	place.block(vg.Point{X: 40, Y: 50}, 40)
	place.put(&c, style, "x", 5, must, vg.Point{X: 40, Y: 50}, vg.Point{X: 150, Y: 50})
	if x := texts(r)["x"].X; x < 130 {
		t.Errorf("a label was written at x = %g, where something is", x)
	}
}

// A label that would leave the panel on every side is not written, even if it must.
func TestLabelsStayInThePanel(t *testing.T) {
	style := letters(textSize, false, ink)
	r, c := canvas(60, 40)
	newLabels(&c).put(&c, style, "far too long for so small a panel", 5, must, vg.Point{X: 30, Y: 20})
	if got := texts(r); len(got) != 0 {
		t.Errorf("%v was written", got)
	}
	newLabels(&c).put(&c, style, "ok", 5, must, vg.Point{X: 58, Y: 38})
	if p, ok := texts(r)["ok"]; !ok || p.X+style.Width("ok") > 60 || p.Y+textSize*capital > 40 {
		t.Errorf("a label in the corner is at %v (written: %v)", p, ok)
	}
}
