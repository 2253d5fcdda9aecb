package sound_test

import (
	"errors"
	"math"
	"testing"

	"finduel/model/quantity"
	"finduel/model/sound"
)

func TestSurroundingsInTheirLimits(t *testing.T) {
	free, half := sound.Surroundings{}, sound.Surroundings{Field: sound.HalfSpace}
	for _, r := range []float64{0.2, 1, 3.7, 20} {
		near(t, "free field", free.Level(50, r), sound.AtDistance(50, 1, r))
		near(t, "half space", half.Level(50, r), free.Level(50, r)+10*math.Log10(2))
		dead := sound.Surroundings{Field: sound.Room, Surface: 40, Absorption: 1, Directivity: 1}
		near(t, "a room that absorbs everything", dead.Level(50, r), free.Level(50, r))
		dead.Directivity = 2
		near(t, "the same, on its floor", dead.Level(50, r), half.Level(50, r))
	}
	near(t, "at 1 m", free.Level(50, 1), 50)
	for _, s := range []sound.Surroundings{free, half} {
		if !math.IsInf(s.RoomConstant(), 1) || !math.IsInf(s.CriticalDistance(), 1) {
			t.Errorf("%v sends sound back", s.Field)
		}
	}
}

func TestRoomIsLouderThanOutdoorsAndEvensOut(t *testing.T) {
	room := sound.TypicalSurroundings()
	room.Field = sound.Room
	half := sound.Surroundings{Field: sound.HalfSpace}
	last := math.Inf(1)
	for r := 0.1; r < 10; r *= 1.3 {
		l := room.Level(50, r)
		if !(l > half.Level(50, r) && l < last) {
			t.Errorf("at %g m: %g, in half space %g, nearer %g", r, l, half.Level(50, r), last)
		}
		last = l
	}
	at := room.CriticalDistance()
	near(t, "at the critical distance, over the straight sound", room.Level(50, at)-half.Level(50, at), 10*math.Log10(2))
	near(t, "far away, only echo", room.Level(50, 1e9), 50+10*math.Log10(16*math.Pi/room.RoomConstant()))
	quieter := room
	quieter.Absorption = 0.4
	if !(quieter.Level(50, 2) < room.Level(50, 2)) {
		t.Error("absorption does not help")
	}
}

func TestSurroundingsCheck(t *testing.T) {
	room := sound.TypicalSurroundings()
	if err := room.Check(); err != nil || room.Field != sound.FreeField {
		t.Fatal(err)
	}
	if err := (sound.Surroundings{}).Check(); err != nil {
		t.Error(err)
	}
	room.Field = sound.Room
	if err := room.Check(); err != nil {
		t.Fatal(err)
	}
	nan := math.NaN()
	for _, c := range []struct {
		key    string
		values []float64
		set    func(s *sound.Surroundings, v float64)
	}{
		{"room_surface", []float64{0, -1, 0.9, 2e6, nan, math.Inf(1)}, func(s *sound.Surroundings, v float64) { s.Surface = v }},
		{"room_absorption", []float64{0, -0.1, 1.01, nan}, func(s *sound.Surroundings, v float64) { s.Absorption = v }},
		{"room_directivity", []float64{0, 3, 16, -2, nan}, func(s *sound.Surroundings, v float64) { s.Directivity = v }},
	} {
		for _, v := range c.values {
			s := room
			c.set(&s, v)
			var out *quantity.RangeError
			if err := s.Check(); !errors.As(err, &out) || out.Key != c.key || !(out.Value == v || v != v) {
				t.Errorf("%s = %g: %v", c.key, v, err)
			}
			if _, ok := quantity.Of(c.key); !ok {
				t.Errorf("no quantity %s", c.key)
			}
			s.Field = sound.HalfSpace
			if err := s.Check(); err != nil {
				t.Errorf("a room matters outdoors: %v", err)
			}
		}
	}
	for _, q := range []float64{1, 2, 4, 8} {
		s := room
		s.Directivity = q
		if err := s.Check(); err != nil {
			t.Error(err)
		}
	}
}

func TestFieldsHaveTheirWords(t *testing.T) {
	want := []string{"free field", "half space", "room"}
	for i, f := range sound.Fields {
		if int(f) != i || f.String() != want[i] {
			t.Errorf("field %d is %q", i, f)
		}
	}
	if len(sound.Fields) != len(want) {
		t.Errorf("%d fields", len(sound.Fields))
	}
}
