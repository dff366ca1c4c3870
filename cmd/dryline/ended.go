package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
)

// untilEnded is a context that ends when the program is told to: by Ctrl-C, by
// the system (SIGTERM) or by its terminal going away (SIGHUP). Told a second
// time, the program ends at once.
func untilEnded() (ctx context.Context, stop func()) {
	ctx, stop = signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	context.AfterFunc(ctx, stop)
	return ctx, stop
}
