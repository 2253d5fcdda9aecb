// Command finduel says beforehand which cooling experiments are worth building:
// how fast the fan of a small core must turn before it equals a large, quiet one,
// or why it never will. See README.md.
package main

import (
	"context"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"
)

// garbage is how much, in percent of what is in use, may pile up before it is cleared
// away: half of what is usual, since large studies share a machine with others.
const garbage = 50

func main() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(garbage)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	// The first Ctrl-C asks the command to stop in good order; giving the signals
	// back lets a second one end the program at once.
	context.AfterFunc(ctx, stop)
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}
