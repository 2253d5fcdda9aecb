package model

import (
	"math"
	"testing"
)

// A course through as many values as it keeps foretells a polynomial of a degree lower by
// one, at even and at uneven abscissae, rising and falling: that is what Newton's form is.
func TestACourseForetellsAPolynomial(t *testing.T) {
	polynomial := func(x float64) float64 {
		sum := 0.0
		for k := range pastStates {
			sum = sum*x/8 + 1 + 0.1*float64(k)
		}
		return 100 + sum
	}
	for name, x := range map[string]func(i int) float64{
		"even":    func(i int) float64 { return 1 + 0.1*float64(i) },
		"uneven":  func(i int) float64 { return 1 + 0.02*float64(i*i) },
		"falling": func(i int) float64 { return 3 - 0.1*float64(i) },
	} {
		var c course
		for i := range 3 * pastStates {
			if c.n == pastStates {
				if got, want := c.at(x(i)), polynomial(x(i)); math.Abs(got-want) > 1e-11*want {
					t.Errorf("%s, step %d: %.15g, want %.15g", name, i, got, want)
				}
			}
			c.add(x(i), polynomial(x(i)))
		}
	}
}

// A value at an abscissa that was there before takes the place of that one and of those
// before it; one value alone is foretold everywhere.
func TestACourseForgetsWhatItRepeats(t *testing.T) {
	var c course
	for i, x := range []float64{1, 2, 3} {
		c.add(x, float64(10*i))
	}
	c.add(2, 40) // 3 stays, 2 and 1 go
	if c.n != 2 || c.at(2) != 40 || c.at(3) != 20 {
		t.Errorf("%d values, %g at 2 and %g at 3, want 2, 40 and 20", c.n, c.at(2), c.at(3))
	}
	c.add(2, 50)
	if c.n != 1 || c.at(7) != 50 {
		t.Errorf("%d values, %g at 7, want 1 and 50", c.n, c.at(7))
	}
}

// Where a kink lies among the values, what comes after it is foretold from that alone: the
// terms that the kink makes grow do not count.
func TestACourseStopsWhereTermsGrow(t *testing.T) {
	var c course
	value := func(x float64) float64 { return 100 + x + 50*math.Max(0, x-4) }
	for i := range pastStates {
		c.add(float64(i), value(float64(i)))
	}
	if got, want := c.at(pastStates), value(pastStates); math.Abs(got-want) > 1e-9 {
		t.Errorf("%g after a kink, want %g", got, want)
	}
}
