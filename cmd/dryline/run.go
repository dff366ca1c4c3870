package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"time"

	"github.com/schollz/progressbar/v3"
	"github.com/spf13/cobra"
	"golang.org/x/term"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/product"
)

// flight is what run and replay share: a session flown to its end and its
// products handed over.
type flight struct {
	output  string
	force   bool
	json    bool
	speedUp float64
}

func (f *flight) flags(c *cobra.Command) {
	c.Flags().StringVarP(&f.output, "output", "o", "", "folder to write (default out/EXERCISE-SEED)")
	c.Flags().BoolVar(&f.force, "force", false, "replace the folder if dryline made it")
	c.Flags().BoolVar(&f.json, "json", false, "print a machine-readable summary on standard output")
}

func newRunCommand() *cobra.Command {
	var (
		f    flight
		seed uint64
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

Training aid with synthetic data. Not for navigation.`,
		Args: atMostOne("exercise"),
		RunE: func(c *cobra.Command, args []string) error {
			if f.speedUp < 0 {
				return usagef("--speed-up: %g is out of range (want 0 for as fast as it goes, or more)", f.speedUp)
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
				return err
			}
			s.AttachMate()
			return f.fly(c, s, func(between func() bool) error {
				for !s.Done() && between() {
					s.Advance(stride)
				}
				return nil
			}, sim.ReasonInterrupted)
		},
	}
	f.flags(c)
	c.Flags().Uint64Var(&seed, "seed", 0, "seed of everything left to chance (default the exercise's own)")
	c.Flags().Float64Var(&f.speedUp, "speed-up", 0, "times real time to keep to; 0 is as fast as it goes. It changes no result")
	return c
}

func newReplayCommand() *cobra.Command {
	var f flight
	c := &cobra.Command{
		Use:   "replay SESSION.jsonl",
		Short: "Fly a session again from its log",
		Long: `Fly a session again from its log: the exercise it carries, the same seed and
the same commands at the same ticks. The products are the same to the byte.
A log cut short replays to its last whole record.`,
		Args: exactlyOne("session log"),
		RunE: func(c *cobra.Command, args []string) error {
			file, err := os.Open(args[0])
			if err != nil {
				return err
			}
			defer file.Close()
			log, err := sim.ReadLog(file)
			if err != nil {
				return fmt.Errorf("%s: %w", args[0], err)
			}
			ex, err := scenarios.Parse(log.Exercise+".yaml", log.Source)
			if err != nil {
				return fmt.Errorf("%s: the exercise in the log: %w", args[0], err)
			}
			if ex.Hash != log.Hash {
				return fmt.Errorf("%s: the exercise in the log does not have the hash the log says: it was changed", args[0])
			}
			if log.Reason == sim.ReasonTruncated {
				warn(c.ErrOrStderr(), fmt.Sprintf("%s: cut short after %d commands; replayed to its last whole record, tick %d", args[0], len(log.Commands), log.Ticks))
			}
			s, err := sim.New(ex, log.Seed)
			if err != nil {
				return err
			}
			return f.fly(c, s, func(between func() bool) error { return s.Replay(log, between) }, log.Reason)
		},
	}
	f.flags(c)
	return c
}

// stride is how many ticks pass between two looks at the clock.
const stride = 50

// fly runs a session with advance and hands over its products. Should advance
// leave it unfinished, it is closed for the reason given.
func (f *flight) fly(c *cobra.Command, s *sim.Session, advance func(between func() bool) error, reason string) error {
	if f.output == "" {
		f.output = filepath.Join("out", fmt.Sprintf("%s-%d", s.Exercise.Name, s.Seed))
	}
	folder, err := product.NewFolder(f.output, f.force)
	if err != nil {
		return err
	}
	defer folder.Abandon()
	writer := product.Attach(s, folder)

	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	context.AfterFunc(ctx, stop) // a second Ctrl-C ends the program at once
	bar := newBar(c.ErrOrStderr(), s.Exercise.Title)
	started := time.Now()
	interrupted := false
	err = advance(func() bool {
		bar(s)
		if f.speedUp > 0 {
			due := started.Add(time.Duration(s.Now() / f.speedUp * float64(time.Second)))
			select {
			case <-ctx.Done():
			case <-time.After(time.Until(due)):
			}
		}
		interrupted = ctx.Err() != nil
		return !interrupted
	})
	if err != nil {
		return err
	}
	if interrupted {
		reason = sim.ReasonInterrupted
	}
	s.Close(reason)
	bar(s)
	if err := s.Refused(); err != nil {
		warn(c.ErrOrStderr(), fmt.Sprintf("an order of the mate was refused: %v", err))
	}
	flown := time.Since(started)
	report, err := writer.Finish()
	if err != nil {
		return err
	}
	if err := folder.Commit(); err != nil {
		return err
	}
	if f.json {
		return summarise(c.OutOrStdout(), s, f.output, folder.Files(), report, flown)
	}
	return tell(c.OutOrStdout(), s, f.output, report, flown)
}

// newBar returns a function that shows how far a session is: a bar on a
// terminal, nothing elsewhere.
func newBar(w io.Writer, title string) func(*sim.Session) {
	file, ok := w.(*os.File)
	if !ok || !term.IsTerminal(int(file.Fd())) {
		return func(*sim.Session) {}
	}
	const steps = 1000
	bar := progressbar.NewOptions(steps,
		progressbar.OptionSetWriter(w), progressbar.OptionSetDescription(title),
		progressbar.OptionSetPredictTime(true), progressbar.OptionClearOnFinish(),
		progressbar.OptionThrottle(100*time.Millisecond), progressbar.OptionSetElapsedTime(false))
	return func(s *sim.Session) { bar.Set(int(s.Progress() * steps)) }
}

// findExercise returns the exercise a command line names: a file if there is
// one of that name, else a built-in one.
func findExercise(args []string) (*sim.Exercise, error) {
	if len(args) == 0 {
		return scenarios.Find(scenarios.Default)
	}
	name := args[0]
	if looksLikeFile(name) {
		return scenarios.Load(name)
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

// summary is the machine-readable account of a flight.
type summary struct {
	Exercise   string   `json:"exercise"`
	Seed       uint64   `json:"seed"`
	Folder     string   `json:"folder"`
	Files      []string `json:"files"`
	Partial    bool     `json:"partial"`
	Ended      string   `json:"ended"`
	SimulatedS float64  `json:"simulated_s"`
	WallS      float64  `json:"wall_s"`
	Lines      int      `json:"lines_logged"`
	Pings      int      `json:"pings_logged"`
	Contacts   int      `json:"contacts"`
	Coverage   float64  `json:"coverage_percent"`
	Targets    int      `json:"targets"`
	Found      int      `json:"targets_found"`
	Score      float64  `json:"score"`
	Passed     bool     `json:"passed"`
}

func summarise(w io.Writer, s *sim.Session, folder string, files []string, r debrief.Report, flown time.Duration) error {
	return printJSON(w, summary{
		Exercise: s.Exercise.Name, Seed: s.Seed, Folder: folder, Files: files,
		Partial: s.Ended() != sim.ReasonFinished, Ended: s.Ended(),
		SimulatedS: s.Now(), WallS: flown.Seconds(),
		Lines: len(s.Desk.Lines), Pings: len(s.Truth.Pings), Contacts: len(s.Desk.Contacts),
		Coverage: r.Coverage.Once, Targets: len(r.Targets), Found: found(r), Score: r.Score.Points, Passed: r.Score.Passed,
	})
}

// found counts the targets that a contact was matched to.
func found(r debrief.Report) int {
	n := 0
	for _, t := range r.Targets {
		if t.Contact != nil {
			n++
		}
	}
	return n
}
