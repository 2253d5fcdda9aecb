package quantity

// RangeError reports an argument outside the range in which a formula may be
// used at all. Value, Low and High are in the SI unit of the quantity Key; the
// text holds no number but those written in the static Rule, so that whoever
// shows the error prints Value in the unit its reader knows.
type RangeError struct {
	Key   string  // what was out of range, as a quantity key, e.g. "altitude"
	Value float64 // the value refused, SI; may be NaN or infinite
	Low   float64 // lowest value allowed, SI
	High  float64 // highest value allowed, SI; +Inf where there is no upper end
	Rule  string  // the range in words with units, e.g. "must lie between -500 m and 5000 m"
}

// Error returns the key and the rule, without the value.
func (e *RangeError) Error() string { return e.Key + ": " + e.Rule }
