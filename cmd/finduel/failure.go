package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"finduel/sweep/study"
)

// Exit codes. New ones may be added; any but 0 is a failure.
const (
	exitDone        = 0   // all done
	exitUnfinished  = 1   // could not finish: a file could not be read or written
	exitUsage       = 2   // wrong use, or a study with faults; nothing was written
	exitPartly      = 3   // finished, but some points have no value
	exitRefused     = 4   // what is in a folder does not fit: another run's points, shards that cannot be merged
	exitInterrupted = 130 // stopped by Ctrl-C
)

// failure is an error with its exit code and what to do about it.
type failure struct {
	code int
	what string // printed behind "finduel: error: "; empty: nothing to print
	hint string // printed behind "finduel: hint: "; may be empty
}

func (f *failure) Error() string { return f.what }

func usage(what, hint string) error { return &failure{exitUsage, what, hint} }

// report prints an error in the manner of the program and returns the exit code.
func report(stderr io.Writer, err error) int {
	var f *failure
	var faults study.Faults
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &faults):
		for _, fault := range faults {
			say(stderr, "error", fault.Error())
			say(stderr, "hint", fault.Hint)
		}
		return exitUsage
	case errors.As(err, &f):
		for _, line := range strings.Split(f.what, "\n") {
			say(stderr, "error", line)
		}
		say(stderr, "hint", f.hint)
		return f.code
	case errors.Is(err, context.Canceled):
		say(stderr, "error", "interrupted")
		return exitInterrupted
	}
	say(stderr, "error", err.Error())
	return exitUnfinished
}

// say prints one line for people; nothing if there is nothing to say.
func say(stderr io.Writer, kind, text string) {
	if text != "" {
		fmt.Fprintf(stderr, "finduel: %s: %s\n", kind, text)
	}
}

func quoted(words []string) string {
	var q []string
	for _, w := range words {
		q = append(q, strconv.Quote(w))
	}
	return strings.Join(q, ", ")
}
