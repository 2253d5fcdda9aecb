// Package breakeven finds the fan speeds at which a challenger equals a
// reference.
//
// The difference, challenger minus reference, is a function of the challenger's
// fan speed, and the model is asked for it at any speed: a break-even is a root
// of that function and is never read off the swept points. The function is not
// monotonic. At low speed more speed cools; at high speed the heat of the fans
// grows with the square of the speed and wins. So there may be no root, one, or a
// pair that encloses a band, and the search looks for all of them: it samples the
// speeds evenly in their logarithm, brackets every change of sign, and goes to
// the bottom of every dip (and the top of every bump) that the samples only
// suggest, so that a band narrower than the sampling is found as well.
//
// Speeds without a value (the coolant would boil) count as worse than the
// reference; the edge of such a stretch is searched too.
package breakeven
