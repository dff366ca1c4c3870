package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"dryline/scenarios"
	"dryline/seabed/placing"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/flight"
	"dryline/sim/order"
)

func newRunCommand() *cobra.Command {
	var (
		f       flying
		seed    uint64
		speedUp float64
		trainee string
		orders  string
	)
	c := &cobra.Command{
		Use:   "run [EXERCISE]",
		Short: "Fly a whole survey and hand over its products",
		Long: `Fly a whole survey and hand over its products.

EXERCISE is the name of a built-in exercise (see dryline exercises) or an
exercise file. Without one the default exercise is flown. The mate runs the
exercise's plan; the folder written holds mosaic, waterfalls, track, contacts,
debrief and the session log. Ctrl-C ends the survey where it is and still
hands over what there is, marked as partial.

--orders flies your own orders and leaves the mate out: a file with an order a
line, as a session log has them, such as

  {"tick":0,"do":"speed","value":2.1}
  {"tick":350,"do":"log_on","line":"A"}

The survey goes on after the last of them until "finish" or the time limit. The
hour a survey is begun is written down; SOURCE_DATE_EPOCH in the environment
sets it.

Training aid with synthetic data. Not for navigation.`,
		Args: atMostOne("exercise"),
		RunE: func(c *cobra.Command, args []string) error {
			if speedUp < 0 {
				return usagef("--speed-up: %g is out of range (want 0 for as fast as it goes, or more)", speedUp)
			}
			if err := order.CheckTrainee(trainee); err != nil {
				return usagef("--trainee: %w", err)
			}
			started, err := startOfNow()
			if err != nil {
				return err
			}
			ex, err := findExercise(args)
			if err != nil {
				return err
			}
			if !c.Flags().Changed("seed") {
				seed = ex.Seed
			}
			s, err := sim.New(ex, seed)
			if err != nil {
				return unplaced(append(args, scenarios.Default)[0], err)
			}
			s.Attempt = order.Attempt{Trainee: trainee, Started: started}
			what := flight.Flight{Session: s, Pace: speedUp}
			if orders == "" {
				s.AttachMate()
				return f.fly(c, what)
			}
			if what.Orders, err = readOrders(orders, s.Brief); err != nil {
				return err
			}
			if err := f.fly(c, what); err != nil {
				return fmt.Errorf("%s: %w", orders, err)
			}
			return nil
		},
	}
	f.flags(c)
	c.Flags().Uint64Var(&seed, "seed", 0, "seed of everything left to chance (default the exercise's own)")
	c.Flags().Float64Var(&speedUp, "speed-up", 0, "times real time to keep to; 0 is as fast as it goes. It changes no result")
	c.Flags().StringVar(&trainee, "trainee", "", "name of the trainee, for the log and the debrief")
	c.Flags().StringVar(&orders, "orders", "", "file of orders to fly instead of the mate's, JSON Lines")
	c.ValidArgsFunction = completeExercises
	return c
}

// readOrders reads a file of orders for an exercise.
func readOrders(name string, b *exercise.Brief) ([]order.Command, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	orders, err := order.ReadFile(file, name, b)
	if err != nil {
		return nil, usageError{err}
	}
	return orders, nil
}

// unplaced says of which exercise an object finds no place, which is a fault of
// the exercise; another error it returns as it is.
func unplaced(name string, err error) error {
	if _, ok := errors.AsType[*placing.Failure](err); ok {
		return usageError{fmt.Errorf("%s: %w", name, err)}
	}
	return err
}

// findExercise returns the exercise a command line names: a file if there is
// one of that name, else a built-in one.
func findExercise(args []string) (*exercise.Exercise, error) {
	if len(args) == 0 {
		return scenarios.Find(scenarios.Default)
	}
	name := args[0]
	if looksLikeFile(name) {
		ex, err := scenarios.Load(name)
		if _, faulty := errors.AsType[scenarios.Faults](err); faulty {
			return nil, usageError{err}
		}
		return ex, err
	}
	ex, err := scenarios.Find(name)
	if err != nil {
		return nil, usagef("%v", err)
	}
	return ex, nil
}

func looksLikeFile(name string) bool {
	if ext := filepath.Ext(name); ext == ".yaml" || ext == ".yml" {
		return true
	}
	info, err := os.Stat(name)
	return err == nil && !info.IsDir()
}
