package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"golang.org/x/term"
)

// How often progress is said: on a terminal, where one line is written over and over,
// and elsewhere.
const (
	everyOnTerminal = 500 * time.Millisecond
	everyInLog      = 10 * time.Second
)

// progress counts how far a run is and says so from time to time.
type progress struct {
	things string // that are counted
	total  int64
	before int64 // that were there when it began
	began  time.Time

	done, failed *atomic.Int64

	over  chan struct{}
	shown sync.WaitGroup
}

// watch starts to say how far things are on stderr: on a terminal in one line that
// goes away at the end, elsewhere in plain lines, the first after ten seconds. It says
// nothing if quiet is set.
func watch(stderr io.Writer, quiet bool, things string, total, before int) *progress {
	p := &progress{
		things: things, total: int64(total), before: int64(before), began: time.Now(),
		done: new(atomic.Int64), failed: new(atomic.Int64), over: make(chan struct{}),
	}
	if quiet {
		return p
	}
	every, form := everyInLog, "finduel: %s\n"
	f, ok := stderr.(*os.File)
	terminal := ok && term.IsTerminal(int(f.Fd()))
	if terminal {
		every, form = everyOnTerminal, "\r\x1b[Kfinduel: %s"
	}
	p.shown.Go(func() {
		tick := time.NewTicker(every)
		defer tick.Stop()
		said := false
		for {
			select {
			case now := <-tick.C:
				fmt.Fprintf(stderr, form, p.say(now.Sub(p.began)))
				said = true
			case <-p.over:
				if terminal && said {
					fmt.Fprint(stderr, "\r\x1b[K")
				}
				return
			}
		}
	})
	return p
}

// stop ends saying so.
func (p *progress) stop() {
	close(p.over)
	p.shown.Wait()
}

// say says the share that is done, the rate, the time left and what has failed so
// far, after a time since it began.
func (p *progress) say(since time.Duration) string {
	done := p.done.Load()
	there := p.before + done
	parts := []string{
		fmt.Sprintf("%.0f %%", 100*float64(there)/float64(max(p.total, 1))),
		fmt.Sprintf("%s of %s %s", grouped(there), grouped(p.total), p.things),
	}
	if rate := float64(done) / since.Seconds(); rate > 0 {
		left := time.Duration(float64(p.total-there) / rate * float64(time.Second))
		parts = append(parts, grouped(int64(rate))+" "+p.things+"/s", about(left)+" left")
	}
	if failed := p.failed.Load(); failed > 0 {
		parts = append(parts, grouped(failed)+" failed")
	}
	return strings.Join(parts, ", ")
}

// about says a duration as exactly as an estimate is.
func about(d time.Duration) string {
	switch {
	case d < time.Minute:
		return fmt.Sprintf("%d s", max(int(d.Round(time.Second).Seconds()), 1))
	case d < 2*time.Hour:
		return fmt.Sprintf("%d min", int(d.Round(time.Minute).Minutes()))
	}
	return fmt.Sprintf("%.0f h", d.Hours())
}

// grouped writes a whole number, its thousands set apart by a space.
func grouped(n int64) string {
	digits := fmt.Sprint(n)
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + " " + digits[i:]
	}
	return digits
}
