package reports

import "errors"

// ErrFull is what Full returns once it is full.
var ErrFull = errors.New("disk full")

// Full is a writer that fails after Left bytes, as a full disk does.
type Full struct{ Left int }

// Write takes what there is room for. It returns ErrFull for the rest.
func (f *Full) Write(p []byte) (int, error) {
	if len(p) > f.Left {
		n := f.Left
		f.Left = 0
		return n, ErrFull
	}
	f.Left -= len(p)
	return len(p), nil
}
