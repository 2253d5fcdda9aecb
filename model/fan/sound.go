package fan

import (
	"errors"
	"math"

	"finduel/model/sound"
)

// Sound returns the level at 1 m, dB(A), of a fan as Resolved returns it, at a speed in
// rev/s, a share of its free-air flow and an inlet density in kg/m³: it rises with speed,
// with the density and in stall; see sound.AtSpeed, sound.AtDensity and
// sound.StallPenalty. Ratings and readings count as taken in air of RatedDensity.
func (f *Fan) Sound(speed, share, density float64) float64 {
	level := sound.AtSpeed(f.RatedSound, f.RatedSpeed, speed, f.SoundExponent)
	return sound.AtDensity(level, f.RatedDensity, density) + f.StallPenalty(share)
}

// StallPenalty returns by how much, dB, the fan is louder than its speed says at a share
// of its free-air flow; see sound.StallPenalty.
func (f *Fan) StallPenalty(share float64) float64 {
	return sound.StallPenalty(share, f.Stall().Onset)
}

// busiest is the share of free-air flow at which an axial fan does most work (common
// practice, no source: 60 to 75 %).
const busiest = 0.65

// settleSound puts the level at rated speed in the place of what it comes from, and the
// doubt of it in the place of a doubt that is not given. The ratings must be those that
// the fan has as it works.
//
// A rated level moves with the rated speed. Readings do not: they stay at the speeds at
// which they were taken. An estimate follows flow, pressure, blades and rated speed.
func (f *Fan) settleSound() {
	switch {
	case f.Readings != nil:
		f.RatedSound = sound.AtSpeed(f.Readings.Level, f.Readings.Speed, f.RatedSpeed, f.SoundExponent)
	case f.EstimatedSound:
		kind := sound.Tubeaxial
		if f.Pitch > 0 {
			kind = sound.Propeller
		}
		flow := busiest * f.FreeAirFlow
		f.RatedSound = sound.Estimate(kind, flow, f.Pressure(f.RatedSpeed, flow, f.RatedDensity), sound.BladePassing(f.Blades, f.RatedSpeed))
	}
	if f.SoundDoubt == 0 {
		f.SoundDoubt = f.usualSoundDoubt()
	}
}

// usualSoundDoubt returns the doubt of a level, dB, by where it comes from; that of
// readings is twice their scatter where that is more than the doubt of a rated level.
func (f *Fan) usualSoundDoubt() float64 {
	switch {
	case f.Readings != nil:
		return math.Max(sound.RatedDoubt, 2*f.Readings.Scatter)
	case f.EstimatedSound:
		return sound.EstimatedDoubt
	}
	return sound.RatedDoubt
}

// checkSound returns joined *quantity.RangeError for a sound that no fan can have. An
// estimate, and what readings make of the rated speed, are as they are.
func (f *Fan) checkSound() error {
	var err error
	switch {
	case f.Readings != nil:
		err = errors.Join(
			within(f.Readings.Speed, 0.01, 1e4, "reading_speed", "must lie between 0.6 and 600 000 rpm"),
			within(f.Readings.Level, -50, 200, "reading_sound", "must lie between -50 and 200 dB(A)"),
			within(f.Readings.Scatter, 0, 200, "reading_sound", "must have a scatter between 0 and 200 dB"),
		)
	case !f.EstimatedSound:
		err = within(f.RatedSound, -20, 150, "rated_sound", "must lie between -20 and 150 dB(A)")
	}
	return errors.Join(err,
		within(f.SoundExponent, sound.LowestExponent, sound.HighestExponent, "sound_exponent", "must lie between 30 and 80 dB for a tenfold speed"),
		within(f.SoundDoubt, 0, 30, "sound_doubt", "must lie between 0 and 30 dB"),
	)
}
