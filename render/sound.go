package render

import (
	"strconv"
	"strings"

	"finduel/model"
	"finduel/model/quantity"
	"finduel/model/sound"
)

// Heard says where a level is heard and what sends sound back there: "by the listener at
// 3 m and the operator at 1.5 m, in a room whose 74 m² absorb 22 % of it, with a
// directivity of 2; its echo is the louder part from 0.914 m on, and going farther away
// helps little"; "by listener and operator at 1 m, in a free field".
func Heard(room *model.Room) string {
	of := func(key string, si float64) string {
		q := quantity.Must(key)
		return WithUnit(q, Given(q, si))
	}
	listener, operator := of("listener_distance", room.ListenerDistance), of("operator_distance", room.OperatorDistance)
	text := "by the listener at " + listener + " and the operator at " + operator
	if room.OperatorDistance == room.ListenerDistance || room.OperatorDistance == 0 {
		text = "by listener and operator at " + listener
	}
	switch s := &room.Surroundings; s.Field {
	case sound.HalfSpace:
		return text + ", over a reflecting plane (half space)"
	case sound.Room:
		return text + ", in a room whose " + of("room_surface", s.Surface) + " absorb " + of("room_absorption", s.Absorption) +
			" of it, with a directivity of " + of("room_directivity", s.Directivity) + "; its echo is the louder part from " + Computed("listener_distance", s.CriticalDistance()) + " on, and going farther away helps little"
	}
	return text + ", in a free field"
}

// SoundSource says where the level of a fan comes from, what it is there and how far it
// may be out: "68.0 dBA at 1 m, 1.2 kg/m3 and 9 000 rpm, as rated, to ±5 dB; …".
func SoundSource(rig *model.Rig) string {
	f := &rig.Fans.Fan
	level, _ := model.InputOf("rated_sound")
	doubt, _ := model.InputOf("sound_doubt")
	at := func(dBA, speed float64) string {
		return WithUnit(level.Quantity, Number(level.Quantity, dBA)) + " at 1 m, " + WithUnit(quantity.Must("rated_density"), Given(quantity.Must("rated_density"), f.RatedDensity)) + " and " + Computed("fan_speed", speed)
	}
	text := ""
	switch {
	case f.Readings != nil:
		text = at(f.Readings.Level, f.Readings.Speed) + ", the middle of the sound readings from " + Number(quantity.Must("fan_speed"), f.Readings.Slowest) + " to " + Computed("fan_speed", f.Readings.Fastest)
	case f.EstimatedSound:
		text = at(level.Get(rig), f.RatedSpeed) + ", estimated from flow and pressure since no sound is given"
	default:
		text = at(level.Get(rig), f.RatedSpeed) + ", as rated"
	}
	return text + ", to ±" + WithUnit(doubt.Quantity, Given(doubt.Quantity, doubt.Get(rig))) +
		"; " + strconv.FormatFloat(f.SoundExponent, 'f', 1, 64) + " dB more for a tenfold speed, 6 dB less in air half as dense"
}

// SoundDoubt says how far the levels of a state may be out, dB, without the unit: "±5.0";
// in stall "-8.0 +7.0".
func SoundDoubt(s *model.State) string {
	high := fixed(s.SoundDoubtHigh, 1)
	if low := fixed(-s.SoundDoubtLow, 1); low != high {
		return "-" + low + " +" + high
	}
	return "±" + high
}

// Tone says what can be said of a blade tone, a clause without a full stop: "A-weighting
// takes 3.9 dB off at the blade passing frequency; how strong the tone is, is not
// computed …".
func Tone(t sound.Tone) string {
	if t.Frequency == 0 {
		return "the number of blades is not given, so its frequency is not known" + steep(t)
	}
	weight := strings.TrimPrefix(fixed(t.Weight, 1), "-")
	text := "A-weighting adds " + weight + " dB to one at the blade passing frequency"
	switch {
	case weight == "0.0":
		text = "A-weighting leaves one at the blade passing frequency as it is"
	case t.Weight < 0:
		text = "A-weighting takes " + weight + " dB off one at the blade passing frequency"
	}
	return text + ". How strong it is, is not computed: one that is clearly heard annoys like " + strconv.Itoa(sound.AudibleTone) +
		" dB more, one that stands out like " + strconv.Itoa(sound.ProminentTone) + " dB (ISO 1996, simplified)" + steep(t)
}

// steep says that tones rise steeply, if they do.
func steep(t sound.Tone) string {
	if !t.Steep {
		return ""
	}
	return ". Tips are above half the speed of sound, where tones rise faster with speed than is computed here"
}

// List joins words: "a", "a and b", "a, b and c".
func List(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}
