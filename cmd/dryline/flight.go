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
	"dryline/sim/dataset/pingfile"
	"dryline/sim/flight"
	"dryline/sim/product/folder"
	"dryline/sim/provenance"
	"dryline/sim/record"
)

// flying holds what run and replay share: where the products of a session go, and
// how it is told.
type flying struct {
	output string
	force  bool
	json   bool
	model  bool
	raw    rawFormat
}

// rawFormat is how raw pings are written.
type rawFormat string

const (
	noRaw  rawFormat = "none"
	netCDF rawFormat = "netcdf"
	asZarr rawFormat = "zarr"
)

func (f *flying) flags(c *cobra.Command) {
	c.Flags().StringVarP(&f.output, "output", "o", "", "folder to write (default out/EXERCISE-SEED)")
	c.Flags().BoolVar(&f.force, "force", false, "replace the folder if dryline made it; what others put there is kept")
	c.Flags().BoolVar(&f.model, "beside-mate", false, "draw how the mate runs the same lines beside yours in the debrief")
	choiceFlag(c, &f.raw, "raw", []rawFormat{noRaw, netCDF, asZarr}, "raw pings beside the other products, with what is true of every sample (see docs/data.md)")
	c.Flags().BoolVar(&f.json, "json", false, "print a machine-readable summary on standard output")
}

// fly flies a session and writes its products to the folder.
func (f *flying) fly(c *cobra.Command, what flight.Flight) error {
	s := what.Session
	if f.output == "" {
		f.output = filepath.Join("out", fmt.Sprintf("%s-%d", s.Exercise.Name, s.Seeds.One))
	}
	ctx, stop := untilEnded() // before there is anything to leave half made
	defer stop()
	to, err := folder.New(f.output, f.force)
	if err != nil {
		return err
	}
	defer to.Abandon()
	if what.Backing, err = record.OnDisk(""); err != nil {
		return fmt.Errorf("no room for the recorder's pings: %w", err)
	}
	var raw *pingfile.Writer
	if f.raw != noRaw {
		raw = pingfile.Attach(s, to, pingfile.Formats{NetCDF: f.raw == netCDF, Zarr: f.raw == asZarr}, func() (record.Backing, error) { return record.OnDisk("") })
	}
	what.Model = f.model
	what.Sink, what.Progress = to, newBar(c.ErrOrStderr(), s.Exercise.Title)
	started := time.Now()
	report, err := what.Fly(ctx)
	if err != nil {
		return err
	}
	if raw != nil && raw.Err() != nil {
		return raw.Err()
	}
	flown := time.Since(started)
	if err := s.Refused(); err != nil {
		warn(c.ErrOrStderr(), fmt.Sprintf("an order of the mate was refused: %v", err))
	}
	if s.Another != "" {
		warn(c.ErrOrStderr(), s.Another+": what is handed over is not the same survey")
	} else if what.Log != nil && what.Log.Foreign() != "" {
		warn(c.ErrOrStderr(), fmt.Sprintf("it was %s: what is handed over is engine %d's", what.Log.Foreign(), provenance.Engine))
	}
	if err := to.Commit(); err != nil {
		return err
	}
	if f.json {
		return summarise(c.OutOrStdout(), s, f.output, to.Files(), report, flown)
	}
	return summariseInWords(c.OutOrStdout(), s, f.output, report, flown)
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
		return time.Time{}, usagef("SOURCE_DATE_EPOCH: %q is not a number of seconds since 1970", text)
	}
	return time.Unix(seconds, 0).UTC(), nil
}
