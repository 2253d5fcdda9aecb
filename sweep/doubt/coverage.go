package doubt

import "math"

// Coverage is how many draws more, which had no part in an interval of 95 %, lie in it.
type Coverage struct {
	Of     string // "difference" or "breakeven_speed"
	Draws  int    // made to check, less those without a value
	Inside int
	Share  Index // of them, 0 to 1, with its own 95 % interval
}

// coverageOf counts the values that lie in a band, of all that are numbers.
func coverageOf(of string, b Band, samples ...[]float64) Coverage {
	c := Coverage{Of: of}
	for _, values := range samples {
		for _, v := range values {
			c.Draws += b2i(!math.IsNaN(v))
			c.Inside += b2i(b.Low <= v && v <= b.High)
		}
	}
	c.Share = shareOfDraws(c.Inside, c.Draws)
	return c
}

// shareOfDraws returns what share k of n independent draws are, with the interval of Wilson
// (1927) [9] for the 1.96 standard deviations that hold 95 %:
//
//	(p + z²/2n ± z √(p(1 − p)/n + z²/4n²)) / (1 + z²/n)
//
// The zero Index if n is 0.
//
// Check: 81 of 263 are 0.308, from 0.2553 to 0.3662 (Newcombe 1998, from memory).
func shareOfDraws(k, n int) Index {
	if n == 0 {
		return Index{}
	}
	const z = 1.959964
	all := float64(n)
	p := float64(k) / all
	middle, reach := p+z*z/(2*all), z*math.Sqrt(p*(1-p)/all+z*z/(4*all*all))
	return Index{Value: p, Low: (middle - reach) / (1 + z*z/all), High: (middle + reach) / (1 + z*z/all)}
}
