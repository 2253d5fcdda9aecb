package study

// leaf is a value of the file that has not been read yet: a text or a number as
// written, with its place. It goes through viper as it is.
type leaf struct {
	at   place
	path string
	text string
	kind nodeKind
	bad  bool // a fault of it is reported; nothing else is to be said about it
}

// fault reports something wrong with the value of a leaf, once.
func (f *findings) fault(l *leaf, rule, hint string) {
	if l.bad {
		return
	}
	l.bad = true
	f.add(l.at, l.path, l.text, rule, hint)
}
