// Package breakeven finds the fan speeds at which a challenger equals a
// reference.
//
// The difference, challenger minus reference, is a function of the challenger's
// fan speed, and the model is asked for it at any speed: a break-even is a root
// of that function and is never read off the swept points. The function is not
// monotonic. At low speed more speed cools; at high speed the heat of the fans
// grows with the square of the speed and wins. So there may be no root, one, or a
// pair that encloses a band, and the search looks for all of them: it samples the
// speeds in even steps, halves a step wherever the curve bends so much that it may
// reach zero inside, goes to the bottom of every dip (and the top of every bump), and
// brackets every change of sign. So a band narrower than the steps is found as well.
//
// Speeds without a value (the coolant would boil) count as worse than the
// reference; the edge of such a stretch is searched too.
//
// Every break-even carries its tie: the speeds round it at which the two differ by no
// more than the margin of the bench. A challenger that comes within the margin and is
// nowhere better by more is a tie as a whole.
//
//	1  search.go   the curve and its roots        4  compare.go  one answer a design
//	2  margin.go   ties and the sensible speed    5  detail.go   the few designs that
//	3  reason.go   the answer in one sentence        are worked out: parity.go,
//	                                                 match.go, change.go
package breakeven
