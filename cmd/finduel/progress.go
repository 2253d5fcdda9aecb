package main

import (
	"fmt"
	"io"
	"os"
	"sync"
	"sync/atomic"
	"time"

	"golang.org/x/term"
)

// progress shows how far a run is, on a terminal only.
type progress struct {
	done *atomic.Int64
	stop func() // ends the display and clears its line
}

// watch starts showing progress towards total on stderr. It shows nothing if
// stderr is no terminal or the run is over within a second.
func watch(stderr io.Writer, total int) progress {
	p := progress{done: new(atomic.Int64), stop: func() {}}
	f, ok := stderr.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return p
	}
	over := make(chan struct{})
	var shown sync.WaitGroup
	shown.Go(func() {
		tick := time.NewTicker(time.Second)
		defer tick.Stop()
		for {
			select {
			case <-tick.C:
				n := p.done.Load()
				fmt.Fprintf(stderr, "\rfinduel: %3.0f %%, %d of %d points ", 100*float64(n)/float64(total), n, total)
			case <-over:
				fmt.Fprint(stderr, "\r\x1b[K")
				return
			}
		}
	})
	p.stop = func() {
		close(over)
		shown.Wait()
	}
	return p
}
