package main

import (
	"fmt"
	"io"
	"os"
	"slices"
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
	const lead = "finduel: "
	every, form := everyInLog, lead+"%s\n"
	f, ok := stderr.(*os.File)
	terminal := ok && term.IsTerminal(int(f.Fd()))
	if terminal {
		every, form = everyOnTerminal, "\r\x1b[K"+lead+"%s"
	}
	room := func() int {
		if !terminal {
			return 0
		}
		width, _, err := term.GetSize(int(f.Fd()))
		if err != nil {
			return 0
		}
		return width - len(lead) - 1 // a cursor in the last column may begin a new line
	}
	p.shown.Go(func() {
		tick := time.NewTicker(every)
		defer tick.Stop()
		said := false
		for {
			select {
			case now := <-tick.C:
				fmt.Fprintf(stderr, form, p.say(now.Sub(p.began), room()))
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
// far, after a time since it began, in no more than room letters, the less important left
// out: a line that is longer than the terminal is wide cannot be written over. A room of
// 0 or less is no limit.
func (p *progress) say(since time.Duration, room int) string {
	done := p.done.Load()
	there := p.before + done
	share := fmt.Sprintf("%.0f %%", 100*float64(there)/float64(max(p.total, 1)))
	counted := fmt.Sprintf("%s of %s %s", grouped(there), grouped(p.total), p.things)
	speed, left, failed := "", "", ""
	if rate := float64(done) / since.Seconds(); there >= p.total {
		left = "nearly done" // what follows the last of them is not counted
	} else if rate > 0 {
		if rate >= 1 {
			speed = grouped(int64(rate)) + " " + p.things + "/s"
		}
		left = about(time.Duration(float64(p.total-there)/rate*float64(time.Second))) + " left"
	}
	if n := p.failed.Load(); n > 0 {
		failed = grouped(n) + " failed"
	}
	for _, parts := range [][]string{{share, counted, speed, left, failed}, {share, speed, left, failed}, {share, left, failed}} {
		text := strings.Join(slices.DeleteFunc(parts, func(part string) bool { return part == "" }), ", ")
		if room <= 0 || len(text) <= room {
			return text
		}
	}
	return share
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
