package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"dryline/sim"
	"dryline/sim/order"
	"dryline/vessel/nav/nmea"
)

// nmeaPort is the port registered for nmea-0183, TCP and UDP (IANA Service Name
// and Transport Protocol Port Number Registry; number from memory).
const nmeaPort = "10110"

// streaming holds what the command line of stream says.
type streaming struct {
	seed          uint64
	speedUp, rate float64
	udp, tcp      string
	serial        string
	baud          int
	sentences     string
	plain         bool
}

func newStreamCommand() *cobra.Command {
	var o streaming
	c := &cobra.Command{
		Use:   "stream [EXERCISE]",
		Short: "Send the instruments of a survey as NMEA 0183",
		Long: `Fly a survey at the pace of the clock and send what its instruments show as
NMEA 0183, for programs that would listen to a vessel.

EXERCISE is the name of a built-in exercise or an exercise file; without one the
default exercise is flown. The mate runs its plan. Without --udp, --tcp or
--serial the sentences go by UDP to 127.0.0.1:` + nmeaPort + `. An address without a host
is on this computer; any other host has to be named. A listener that is slow
or gone never holds the clock up: it loses its oldest sentences.

A serial line carries a tenth of its --baud in bytes a second. All kinds take
up to 580 of them a report: at the default of 4800 baud and a report a second VTG,
ZDA and DBT, which say nothing that RMC and DPT do not, are left out, at more
reports more of them, which is said at the start. --sentences that are too much
for the line are refused.

DPT and DBT give the depth of water at the fish, from its depth and altitude.
What is not to be believed is left empty. GGA, RMC and VTG say that they are
simulated (quality 8, mode S, status V); --plain-quality hides that from listeners
that take nothing else. Nothing is written to disk. Ctrl-C ends the stream.

Training aid with synthetic data. Not for navigation: never feed it to an
instrument that anybody navigates by.`,
		Example: `  dryline stream first-line --speed-up 5
  dryline stream --tcp :10110 --rate 5 --sentences GGA,HDT,XDR
  dryline stream --serial /dev/ttyUSB0 --baud 38400`,
		Args: atMostOne("exercise"),
		RunE: func(c *cobra.Command, args []string) error { return o.run(c, args) },
	}
	c.ValidArgsFunction = completeExercises
	f := c.Flags()
	f.Uint64Var(&o.seed, "seed", 0, "seed of everything left to chance (default the exercise's own)")
	optionalNumberFlag(c, &o.speedUp, "speed-up", "", above(0, 1e6), 1, "times real time to keep to")
	optionalNumberFlag(c, &o.rate, "rate", "Hz", from(0.1, 1/sim.Tick), 1, "reports per second of the exercise")
	f.StringVar(&o.udp, "udp", "", "send by UDP to [host:]port")
	f.StringVar(&o.tcp, "tcp", "", "serve TCP clients at [host:]port; port 0 is any free one")
	f.StringVar(&o.serial, "serial", "", "write to a serial port, 8 data bits, no parity, 1 stop bit")
	f.IntVar(&o.baud, "baud", 4800, "speed of the serial port: 4800, 9600, 19200, 38400, 57600 or 115200")
	f.StringVar(&o.sentences, "sentences", nmea.Join(nmea.Kinds()), "kinds to send; by default fewer to a slow serial port")
	f.BoolVar(&o.plain, "plain-quality", false, "do not say that fixes are simulated; with caution")
	return c
}

func (o *streaming) run(c *cobra.Command, args []string) error {
	kinds, err := nmea.ParseKinds(o.sentences)
	if err != nil {
		return usagef("--sentences: %w", err)
	}
	if err := o.check(c); err != nil {
		return err
	}
	ex, err := findExercise(args)
	if err != nil {
		return err
	}
	if !c.Flags().Changed("seed") {
		o.seed = ex.Seed
	}
	source := nmea.Source{Grid: ex.Place.Grid, Start: ex.Start, Plain: o.plain}
	if o.serial != "" {
		fits, note, err := fit(kinds, c.Flags().Changed("sentences"), o.baud, o.rate*o.speedUp, source.Size)
		if err != nil {
			return err
		}
		if kinds = fits; note != "" {
			warn(c.ErrOrStderr(), note)
		}
	}
	s, err := instruments(ex, o.seed)
	if err != nil {
		return unplaced(ex.Name, err)
	}
	outlets, err := o.open(c.ErrOrStderr())
	defer func() { closeAll(outlets) }()
	if err != nil {
		return err
	}
	if o.plain {
		warn(c.ErrOrStderr(), "--plain-quality: no sentence says that it is simulated; not for navigation")
	}

	ctx, stop := untilEnded()
	defer stop()
	fmt.Fprintf(c.OutOrStdout(), "Streaming %s (%s, seed %d) as NMEA 0183, simulated, not for navigation\n", ex.Title, ex.Name, o.seed)
	for _, out := range outlets {
		fmt.Fprintf(c.OutOrStdout(), "  %s\n", out.name())
	}
	p := player{
		passage: s, kinds: kinds, rate: o.rate, outlets: outlets, wait: pace(o.speedUp),
		source: source,
	}
	made := p.play(ctx)
	how := "Ended"
	if s.Ended() != order.ReasonFinished {
		how = "Interrupted"
	}
	fmt.Fprintf(c.OutOrStdout(), "%s after %s of the exercise: %s made\n", how, clock(s.Now()), plural(made, "sentence", "sentences"))
	closeAll(outlets)
	for _, out := range outlets {
		fmt.Fprintf(c.OutOrStdout(), "  %s: %s\n", out.name(), out.tally())
	}
	return nil
}
