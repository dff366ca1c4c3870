package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"github.com/schollz/progressbar/v3"
	"github.com/spf13/cobra"
	"golang.org/x/term"

	"dryline/sim"
	"dryline/sim/product"
	"dryline/sim/product/folder"
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
	c.Flags().BoolVar(&f.force, "force", false, "replace the folder if dryline made it; what others put there is kept")
	c.Flags().BoolVar(&f.json, "json", false, "print a machine-readable summary on standard output")
}

// stride is how many ticks pass between two looks at the clock.
const stride = 50

// fly runs a session with advance and hands over its products. Should advance
// leave it unfinished, it is closed for the reason given. check, if not nil,
// looks at the session once it is over and may refuse it.
func (f *flight) fly(c *cobra.Command, s *sim.Session, advance func(between func() bool) error, reason string, check func() error) error {
	if f.output == "" {
		f.output = filepath.Join("out", fmt.Sprintf("%s-%d", s.Exercise.Name, s.Seed))
	}
	ctx, stop := untilEnded() // before there is anything to leave half made
	defer stop()
	to, err := folder.New(f.output, f.force)
	if err != nil {
		return err
	}
	defer to.Abandon()
	writer := product.Attach(s, to)

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
	if check != nil && !interrupted {
		if err := check(); err != nil {
			return err
		}
	}
	flown := time.Since(started)
	report, err := writer.Finish()
	if err != nil {
		return err
	}
	if err := to.Commit(); err != nil {
		return err
	}
	if f.json {
		return summarise(c.OutOrStdout(), s, f.output, to.Files(), report, flown)
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

// startOfNow is when a session begins by the clock on the wall, or by the
// variable SOURCE_DATE_EPOCH for those who want the same bytes twice
// (reproducible-builds.org, "SOURCE_DATE_EPOCH specification").
func startOfNow() (time.Time, error) {
	text := os.Getenv("SOURCE_DATE_EPOCH")
	if text == "" {
		return time.Now().UTC().Truncate(time.Second), nil
	}
	seconds, err := strconv.ParseInt(text, 10, 64)
	if err != nil || seconds < 0 {
		return time.Time{}, usagef("SOURCE_DATE_EPOCH: %q is no number of seconds since 1970", text)
	}
	return time.Unix(seconds, 0).UTC(), nil
}
