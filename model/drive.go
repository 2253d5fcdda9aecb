package model

import "finduel/model/fan"

// draw returns what the turning fans on one side of the core draw.
func (p *Ready) draw(speed float64, b *bank) fan.Draw {
	return p.rig.Fans.Draw(speed, b.share, b.density)
}

// leastFanHeat returns a heat, W, that the fans before the core give to the air at any
// mass flow, or less.
func (p *Ready) leastFanHeat(speed float64) float64 {
	return p.rig.Fans.LeastHeat(speed, p.room)
}
