package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/flight"
	"dryline/sim/order"
)

func newReplayCommand() *cobra.Command {
	var f flying
	c := &cobra.Command{
		Use:   "replay SESSION.jsonl",
		Short: "Fly a session again from its log",
		Long: `Fly a session again from its log: the exercise it carries, the same seed and
the same commands at the same ticks. The products are the same to the byte.

A log that was changed is refused. The chain that shows it finds damage and
careless edits, not forgery. A log cut short replays to its last whole record,
as a part of a survey. One that another engine flew is flown anew, and what is
handed over says that it is not the same survey.`,
		Args: exactlyOne("session log"),
		RunE: func(c *cobra.Command, args []string) error {
			again, err := openLog(c.ErrOrStderr(), args[0])
			if err != nil {
				return err
			}
			if err := f.fly(c, *again); err != nil {
				return fmt.Errorf("%s: %w", args[0], err)
			}
			return nil
		},
	}
	f.flags(c)
	return c
}

// openLog reads a session log and the exercise it carries, to be flown again, and warns
// of what is not as it should be.
func openLog(stderr io.Writer, name string) (*flight.Flight, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	log, err := order.ReadLog(file)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	ex, err := scenarios.FromLog(log, filepath.Dir(name), ".")
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if !log.Protected() {
		warn(stderr, name+": it has no chain, as logs of format 1 have none: a change in it would not show")
	}
	if log.Reason == order.ReasonTruncated {
		warn(stderr, fmt.Sprintf("%s: cut short after %d commands; replayed to its last whole record, tick %d", name, len(log.Commands), log.Ticks))
	}
	s, err := sim.NewSeeded(ex, log.Seeds)
	if err != nil {
		return nil, err
	}
	return &flight.Flight{Session: s, Log: log}, nil
}
