package doubt

// rows draws one row after another of a pick-freeze design. A row that differs from the
// last whole one in an error that only one setup has leaves the other setup as it was
// there: that one is not asked again, but for the challenger at speeds that are new.
type rows struct {
	c *comparison

	challenger, reference drawn   // of the last whole row
	alone                 outcome // of its challenger, before the reference
	known                 []place // where that was asked
	level                 float64 // of its reference, K; NaN if it has none
	why                   error   // why it has none

	once, onceReference drawn // of the other rows
}

func newRows(c *comparison) *rows { return &rows{c: c} }

// outcome returns what a row yields: changed is the variable in which alone it differs from
// the last whole row, or wholeRow.
func (r *rows) outcome(z []float64, changed int) outcome {
	c := r.c
	if changed == wholeRow {
		r.level, r.why = c.level(z, &r.reference)
		r.alone = c.alone(z, &r.challenger)
		o := r.alone
		c.against(&o, &r.challenger, r.level, r.why)
		r.known = append(r.known[:0], c.crossing.known...)
		return o
	}
	switch c.work.variables[changed].Of {
	case Challenger:
		return c.draw(z, &r.once, r.level, r.why)
	case Reference:
		o := r.alone
		c.crossing.known = append(c.crossing.known[:0], r.known...)
		level, why := c.level(z, &r.once)
		c.against(&o, &r.challenger, level, why)
		return o
	}
	return c.row(z, &r.once, &r.onceReference)
}
