package study

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"finduel/model"
	"finduel/model/fan"
	"finduel/model/quantity"
	"finduel/model/sound"
)

// The words of fans and of how they are placed and joined, the default first.
var (
	placings = []fan.Placing{fan.Push, fan.Pull, fan.PushPull}
	shrouds  = []model.Shroud{model.Ducted, model.Blocked, model.Open}
)

// fan returns a fan: by its data sheet, by a measured curve, or a propeller.
func (b *builder) fan(i int) fan.Fan {
	part, path := b.doc.Fans[i], itemPath("fans", i)
	rig := model.Rig{Fans: fan.Bank{Fan: fan.Typical()}}
	b.set(part, &rig)
	made := rig.Fans.Fan
	switch {
	case part.Pitch != nil:
		b.propeller(part, path, &made)
	case part.Curve != nil:
		b.curve(part, path, &made)
	case part.ThrustCoefficient != nil || part.PowerCoefficient != nil || part.SpeedConstant != nil && part.FreeAirFlow == nil && part.ShutOffPressure == nil:
		b.missing(path, part.Pitch, "pitch", "pitch: 105 mm, of the propeller; or give the ratings of a fan")
	default:
		b.missing(path, part.RatedSpeed, "rated_speed", "rated_speed: 1500 rpm")
		b.missing(path, part.FreeAirFlow, "free_air_flow", "free_air_flow: 150 m3/h, at rated speed")
		b.missing(path, part.ShutOffPressure, "shut_off_pressure", "shut_off_pressure: 17 Pa, at rated speed")
		b.missing(path, part.RatedPower, "rated_power", "rated_power: 2.2 W, electrical, at rated speed")
	}
	if part.TopSpeed == nil {
		made.TopSpeed = made.RatedSpeed
	}
	made.Motor = choice(b.findings, part.Motor, fan.InStream, fan.Outside)
	b.brushless(part, path, &made)
	b.sound(part, path, &made)
	if b.touched[path] {
		return made
	}
	working, _, err := made.Resolved()
	if err == nil {
		err = working.Check()
	}
	b.relate(err, part, path, func(string) string { return "" })
	if most := working.MostAirPower(); err == nil && most > working.RatedPower {
		power, _ := model.InputOf("rated_power")
		b.add(b.places[path], path, "", "makes more air power, "+show(most, power.Shown)+", than it draws, "+show(working.RatedPower, power.Shown),
			"check the units of free_air_flow, shut_off_pressure and rated_power, or of the curve: small axial fans make 15 to 35 % of what they draw")
	}
	return made
}

// missing reports a key that is not given and must be, and what to add.
func (b *builder) missing(path string, l *leaf, key, example string) {
	at := keyPath(path, key)
	if l == nil && !b.meant[at] && !b.touched[at] && !b.sectionSpoilt(path) {
		b.add(b.places[path], at, "", "is missing", "add "+example)
	}
}

// unwanted reports what is given of a fan although something else says it.
func (b *builder) unwanted(rule, hint string, leaves ...*leaf) {
	for _, l := range leaves {
		if l != nil {
			b.fault(l, rule, hint)
		}
	}
}

// propeller completes a fan that is a propeller: its ratings follow from its blades.
func (b *builder) propeller(part fanPart, path string, made *fan.Fan) {
	b.missing(path, part.RotorDiameter, "rotor_diameter", "rotor_diameter: 140 mm")
	b.missing(path, part.Blades, "blades", "blades: 3")
	if part.TopSpeed == nil {
		b.missing(path, part.RatedSpeed, "rated_speed", "rated_speed: 12000 rpm, at which its coefficients and its sound are taken")
	}
	if part.RatedSpeed == nil {
		made.RatedSpeed = made.TopSpeed
	}
	const rule, hint = "means nothing beside pitch: a propeller's ratings follow from its blades", "remove it, or remove pitch"
	b.unwanted(rule, hint, part.FreeAirFlow, part.ShutOffPressure, part.RatedPower, part.CurveExponent)
	if at := keyPath(path, "curve"); part.Curve != nil {
		b.add(b.places[at], at, "", rule, "remove it; or remove pitch, if the propeller was measured in its shroud")
	}
	for _, pair := range [][2]*leaf{{part.ThrustCoefficient, part.PowerCoefficient}, {part.PowerCoefficient, part.ThrustCoefficient}} {
		if pair[0] != nil && pair[1] == nil {
			b.fault(pair[0], "is one coefficient of two", "give thrust_coefficient and power_coefficient, or neither: then the nearest measured propeller lends them")
		}
	}
}

// curve completes a fan by its measured curve.
func (b *builder) curve(part fanPart, path string, made *fan.Fan) {
	b.missing(path, part.RatedSpeed, "rated_speed", "rated_speed: 1500 rpm, at which the curve was measured")
	b.unwanted("is what the curve says", "remove it, or remove curve", part.FreeAirFlow, part.ShutOffPressure, part.CurveExponent)
	points := make([]fan.CurvePoint, len(part.Curve))
	for i, p := range part.Curve {
		for _, v := range []struct {
			to   *float64
			from *leaf
			kind quantity.Kind
		}{{&points[i].Flow, p.Flow, quantity.VolumeFlow}, {&points[i].Pressure, p.Pressure, quantity.Pressure}, {&points[i].Power, p.Power, quantity.Power}} {
			if m, ok := b.measure(v.from, v.kind); ok {
				*v.to = m.si
			}
		}
	}
	at := keyPath(path, "curve")
	if b.touched[at] || len(points) == 0 {
		return
	}
	shape, rating, err := fan.NewCurve(points)
	if err != nil {
		var one *fan.PointError
		if errors.As(err, &one) {
			at = itemPath(at, one.Index)
		}
		b.add(b.places[at], at, "", "makes no fan curve: "+err.Error(), "a curve runs by rising flow from shut-off to free air")
		return
	}
	made.Curve, made.FreeAirFlow, made.ShutOffPressure = shape, rating.FreeAirFlow, rating.ShutOffPressure
	if rating.Power > 0 {
		made.RatedPower = rating.Power
		b.unwanted("is what the curve says: its points have a power", "remove it, or the power of the points", part.RatedPower)
		return
	}
	b.missing(path, part.RatedPower, "rated_power", "rated_power: 2.2 W, electrical, in free air; or power to every point of the curve")
}

// brushless reports a motor of which not all is given that must be.
func (b *builder) brushless(part fanPart, path string, made *fan.Fan) {
	if part.SpeedConstant == nil {
		b.unwanted("means nothing without speed_constant", "add speed_constant: 1750 rpm/V, or remove it", part.WindingResistance, part.NoLoadCurrent,
			part.MotorMostCurrent, part.ControllerEfficiency, part.ControllerIdlePower, part.ControllerMostCurrent)
		return
	}
	b.missing(path, part.WindingResistance, "winding_resistance", "winding_resistance: 60 mohm, between two leads")
	b.missing(path, part.NoLoadCurrent, "no_load_current", "no_load_current: 1.1 A")
	b.unwanted("is what the motor's constants say", "remove it, or speed_constant", part.MotorEfficiency, part.ElectronicsLoss)
	if made.Brushless.Resistance > 0 && made.Brushless.NoLoadSpeed(made.DriveVoltage) == 0 {
		b.fault(part.WindingResistance, "takes more voltage at the no-load current than there is: the motor does not turn", "data sheets give milliohm between two leads: 60 mohm")
	}
}

// sound says where a fan's sound comes from: a rated level, octave levels or readings at
// several speeds; an estimate if nothing is given.
func (b *builder) sound(part fanPart, path string, made *fan.Fan) {
	given := 0
	for _, is := range []bool{part.RatedSound != nil, len(part.RatedOctaves) > 0, len(part.SoundReadings) > 0} {
		if is {
			given++
		}
	}
	switch {
	case given > 1:
		b.add(b.places[path], path, "", "gives its sound twice", "keep one of rated_sound, rated_octaves and sound_readings")
	case len(part.RatedOctaves) > 0:
		b.octaves(part, path, made)
	case len(part.SoundReadings) > 0:
		b.readings(part, path, made)
	case given == 0:
		made.EstimatedSound = true
	}
}

// octaves takes a fan's sound from its octave levels at 1 m.
func (b *builder) octaves(part fanPart, path string, made *fan.Fan) {
	var levels sound.Spectrum
	at := keyPath(path, "rated_octaves")
	if len(part.RatedOctaves) != len(levels) {
		b.add(b.places[at], at, "", "has not eight levels", "write the levels in dB at 1 m, of the octaves from 63 Hz to 8 kHz: rated_octaves: [48, 51, 50, 46, 42, 38, 33, 27]")
		return
	}
	for i, l := range part.RatedOctaves {
		if l != nil { // levels without a weighting: dB alone
			l.text = strings.TrimSpace(strings.TrimSuffix(l.text, "dB"))
		}
		if m, ok := b.measure(l, quantity.Ratio); ok {
			levels[i] = m.si
		}
	}
	if !b.touched[at] {
		made.RatedSound = levels.AWeighted()
		if in, _ := model.InputOf("rated_sound"); in.Check(made.RatedSound) != nil {
			b.add(b.places[at], at, "", "are "+show(made.RatedSound, in.Shown)+" in all, which no fan has", "write levels in dB at 1 m")
		}
	}
}

// mostScatter is how far readings may lie off an even rise with speed, dB (our own
// bound: meters and tones make 3 dB).
const mostScatter = 4

// readings takes a fan's sound, and how it rises with speed, from readings.
func (b *builder) readings(part fanPart, path string, made *fan.Fan) {
	at := keyPath(path, "sound_readings")
	speed, _ := model.InputOf("fan_speed")
	level, _ := model.InputOf("rated_sound")
	var readings []sound.Reading
	for _, r := range part.SoundReadings {
		n, okSpeed := b.number(r.Speed, speed)
		l, okLevel := b.number(r.Level, level)
		if okSpeed && okLevel {
			readings = append(readings, sound.Reading{Speed: n.si, Level: l.si})
		}
	}
	if b.touched[at] {
		return
	}
	fitted, err := sound.Fit(readings, sound.MiddleSpeed(readings))
	switch {
	case err != nil:
		for _, e := range rangeErrors(err) {
			b.add(b.places[at], at, "", e.Rule, "read the sound at speeds that lie apart")
		}
	case fitted.Scatter > mostScatter:
		b.add(b.places[at], at, "", "lie "+strconv.FormatFloat(fitted.Scatter, 'f', 1, 64)+" dB off any even rise with speed", "read again what does not fit, all in one place and well above the sound of the room")
	case fitted.Unusual():
		b.add(b.places[at], at, "", "rise with speed as no fan's sound does, "+strconv.FormatFloat(fitted.Exponent, 'f', 1, 64)+" dB for a tenfold speed", "take readings well above the sound of the room, all in one place")
	default:
		made.Readings = &fitted
		if len(readings) > 1 {
			made.SoundExponent = fitted.Exponent
			b.unwanted("is what the readings say", "remove it, or sound_readings", part.SoundExponent)
		}
	}
}

// room sets the room: the operator stands where the listener is, unless said. It
// reports what is given of a room without one.
func (b *builder) room(rig *model.Rig) {
	part := b.doc.Room
	b.set(part, rig)
	if part.Operator == nil {
		rig.Room.OperatorDistance = rig.Room.ListenerDistance
	}
	around := &rig.Room.Surroundings
	around.Field = choice(b.findings, part.Field, sound.Fields...)
	if around.Field != sound.Room {
		b.unwanted("means nothing without field: room", "add field: room, or remove it", part.Surface, part.Absorption, part.Directivity)
	}
	if l := part.Directivity; l != nil && !l.bad && !slices.Contains([]float64{1, 2, 4, 8}, around.Directivity) {
		b.fault(l, "is no directivity", "write 1 (amid the room), 2 (on a plane), 4 (on an edge) or 8 (in a corner)")
	}
}
