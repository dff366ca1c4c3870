package main

import (
	"crypto/rand"
	"fmt"
	"math"
	"time"

	"github.com/spf13/cobra"

	"dryline/scenarios"
	"dryline/sim/assess"
	"dryline/sim/assess/keep"
	"dryline/sim/order"
	"dryline/sim/product/folder"
	"dryline/sim/record"
)

// assessing holds what fly and resume share.
type assessing struct {
	orders string
	until  float64
	hurry  bool
}

func (a *assessing) flags(c *cobra.Command) {
	c.Flags().StringVar(&a.orders, "orders", "", "file of orders to fly, JSON Lines, as for dryline run")
	c.Flags().Float64Var(&a.until, "until", 0, "seconds of the exercise to stop at, to be resumed from there; 0 is none")
	c.Flags().BoolVar(&a.hurry, "hurry", false, "do not keep to the clock on the wall, as when an instructor tries it out; the instructor is told")
}

func newAssessFlyCommand() *cobra.Command {
	var (
		a                   assessing
		to, trainee, output string
		seed                uint64
	)
	c := &cobra.Command{
		Use:   "fly EXERCISE --for KEY --orders FILE -o FOLDER",
		Short: "Fly an exercise as an assessment by a file of orders",
		Long: `Fly an exercise as an assessment by a file of orders, by the clock on the wall.
FOLDER is there when it is handed in, with what the desk made and what is sealed;
until then it is under way in FOLDER.under-way, and dryline assess resume goes
on with it: after Ctrl-C, a loss of power, an order that was refused, or --until.

The ground is drawn when it begins: there is no --seed. Nobody orders an event.

` + notProtected,
		Args: exactlyOne("exercise"),
		RunE: func(c *cobra.Command, args []string) error {
			if c.Flags().Changed("seed") {
				return usagef("--seed: an assessment draws its seed when it begins")
			}
			if err := order.CheckTrainee(trainee); err != nil {
				return usagef("--trainee: %w", err)
			}
			switch {
			case to == "":
				return usagef("--for: give the instructor's public key (age1...) or a file with it")
			case a.orders == "":
				return usagef("--orders: give the file of orders to fly")
			case output == "":
				return usagef("-o: name the folder to hand in")
			}
			instructor, err := keep.Public(to)
			if err != nil {
				return keyFault("--for", err)
			}
			ex, err := findExercise(args)
			if err != nil {
				return err
			}
			if err := assess.Ready(ex); err != nil {
				return notReady(fmt.Errorf("%s: %w: %w", ex.Name, assess.ErrNotReady, err))
			}
			orders, err := readOrders(a.orders, assess.Assessed(ex).Brief())
			if err != nil {
				return err
			}
			installation, err := keep.Installation()
			if err != nil {
				return err
			}
			began, err := startOfNow()
			if err != nil {
				return err
			}
			if isFolder(output) {
				return fmt.Errorf("%s already exists", output)
			}
			box, err := keep.New(output)
			if err != nil {
				return err
			}
			defer box.Close()
			nth, err := keep.Begun()
			if err != nil {
				return err
			}
			start := assess.Start{
				Exercise: ex, Trainee: trainee, Nth: nth, Began: began, Instructor: instructor, Installation: installation.Recipient(),
				Chance: rand.Reader, Now: time.Now,
			}
			s, err := start.Begin(box)
			if err != nil {
				return notReady(err)
			}
			return a.fly(c, s, box, output, orders)
		},
	}
	a.flags(c)
	c.Flags().StringVar(&to, "for", "", "the instructor's public key, or a file with it")
	c.Flags().StringVar(&trainee, "trainee", "", "name of the trainee")
	c.Flags().StringVarP(&output, "output", "o", "", "folder to hand in")
	c.Flags().Uint64Var(&seed, "seed", 0, "")
	c.Flags().MarkHidden("seed")
	c.ValidArgsFunction = completeExercises
	return c
}

func newAssessResumeCommand() *cobra.Command {
	var a assessing
	c := &cobra.Command{
		Use:   "resume FOLDER --orders FILE",
		Short: "Resume an assessment that was left under way",
		Long: `Go on with an assessment that is under way for FOLDER, on the installation it was
begun on. The orders are those from where it was left; they may begin with all
that were given already. The instructor is told of the break.`,
		Args: exactlyOne("folder"),
		RunE: func(c *cobra.Command, args []string) error {
			if a.orders == "" {
				return usagef("--orders: give the file of orders to fly")
			}
			if isFolder(args[0]) {
				return fmt.Errorf("%s already exists: it was handed in", args[0])
			}
			box, err := keep.Open(args[0])
			if err != nil {
				return err
			}
			defer box.Close()
			installation, err := keep.Installation()
			if err != nil {
				return err
			}
			s, err := assess.Resume(box, installation, scenarios.FromSeal, time.Now)
			if err != nil {
				return fmt.Errorf("%s: %w", args[0], err)
			}
			orders, err := readOrders(a.orders, s.Brief)
			if err != nil {
				return err
			}
			return a.fly(c, s, box, args[0], orders)
		},
	}
	a.flags(c)
	return c
}

func (a *assessing) fly(c *cobra.Command, s *assess.Session, box *keep.Box, output string, orders []order.Command) error {
	until := int64(math.MaxInt64)
	switch {
	case a.until < 0:
		return usagef("--until: %g is out of range (want 0 or more)", a.until)
	case a.until > 0 && a.until < 1e9:
		until = int64(math.Round(a.until * 10))
	}
	ctx, stop := untilEnded()
	defer stop()
	to, err := folder.New(output, false)
	if err != nil {
		return err
	}
	defer to.Abandon()
	f := assess.Flight{Assessment: s, Sink: to, Progress: newBar(c.ErrOrStderr(), s.Exercise.Title)}
	if f.Backing, err = record.OnDisk(""); err != nil {
		return fmt.Errorf("no room for the recorder's pings: %w", err)
	}
	if !a.hurry {
		f.Wait = waitOnWall
	}
	over, err := f.Fly(ctx, orders, until)
	if err != nil {
		return fmt.Errorf("%s: %w; it is under way in %s, and dryline assess resume continues it", a.orders, err, keep.UnderWay(output))
	}
	if !over {
		fmt.Fprintf(c.OutOrStdout(), "Under way at %s of the exercise in %s; resume it with dryline assess resume %s\n", clock(s.Now()), keep.UnderWay(output), output)
		return nil
	}
	if err := to.Commit(); err != nil {
		return err
	}
	if err := box.Remove(); err != nil {
		return err
	}
	fmt.Fprintf(c.OutOrStdout(), "Handed in: %s, %s at sea, %s logged\nGive the folder %s to the instructor. What came of it is sealed\n",
		s.Exercise.Title, clock(s.Now()), plural(len(s.Desk.Lines), "line", "lines"), output)
	return nil
}
