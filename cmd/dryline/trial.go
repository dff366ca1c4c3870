package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/schollz/progressbar/v3"
	"github.com/spf13/cobra"
	"golang.org/x/term"

	"dryline/scenarios"
	"dryline/sim/exercise"
	"dryline/sim/trial"
	trialreport "dryline/sim/trial/report"
)

// trying holds what a trial is asked for.
type trying struct {
	targets, output string
	seed            uint64
	workers         int
	resume, json    bool
	asked           trial.Asked
}

func newTrialCommand() *cobra.Command {
	var f trying
	c := &cobra.Command{
		Use:   "trial PLAN [PLAN...]",
		Short: "Fly plans many times and say which finds more, how sure that is and what it costs",
		Long: `Fly each plan many times, on the same seeds, with targets at random places and weather
from stated distributions, and say what came of it with intervals: coverage, looks,
pings on target, detection by kind, size, range and aspect, position error, time, cost
by your own figures, risk to the fish. PLAN is an exercise file, as dryline plan writes
it, or a built-in exercise.

--targets names a YAML file (dryline trial --schema prints what it may hold), or says
what is to be found: KIND:METRES or KIND:METRESxCOUNT, separated by commas, such as

  dryline trial wide.yaml narrow.yaml --targets block:1x4,cylinder:0.6x4 -o trial

The folder gets trial.html, trial.json and trial.csv, and runs.jsonl with every run as
it was flown: Ctrl-C keeps what is done, and --resume goes on to the same answers. Any
run can be looked at: dryline trial-run writes its exercise, which the window opens.

Planning aid with synthetic data, not validated at sea. Never evidence that an area is
clear.`,
		RunE: func(c *cobra.Command, args []string) error {
			if schema, _ := c.Flags().GetBool("schema"); schema {
				_, err := c.OutOrStdout().Write(scenarios.TrialSchema())
				return err
			}
			return f.run(c, args)
		},
	}
	c.Flags().StringVar(&f.targets, "targets", "", "what is to be found, and what else is drawn and reckoned: a YAML file, or KIND:METRES[xCOUNT],...")
	c.Flags().StringVarP(&f.output, "output", "o", "trial", "folder for the answers")
	c.Flags().IntVar(&f.asked.Runs, "runs", 200, "runs of every plan, at most")
	c.Flags().Float64Var(&f.asked.Until, "until", 0, "stop when the 95 % interval of detection is this much either way, such as 0.05, for every plan")
	c.Flags().Uint64Var(&f.seed, "seed", 1, "seed that every run's own comes of")
	c.Flags().IntVar(&f.workers, "workers", runtime.GOMAXPROCS(0), "runs flown at once; it changes no answer")
	c.Flags().BoolVar(&f.resume, "resume", false, "resume the trial that is in the folder")
	c.Flags().BoolVar(&f.json, "json", false, "print the answers as JSON as well")
	c.Flags().Bool("schema", false, "print the JSON Schema of the file of targets")
	return c
}

// check refuses what is out of range.
func (f *trying) check(args []string) error {
	var faults []error
	fault := func(format string, a ...any) { faults = append(faults, fmt.Errorf(format, a...)) }
	if len(args) == 0 {
		fault("want a plan: an exercise file or the name of a built-in exercise")
	}
	if f.targets == "" {
		fault("--targets: want what is to be found, such as block:1x4, or a file")
	}
	if f.asked.Runs < 2 || f.asked.Runs > 100000 {
		fault("--runs: %d is out of range (want 2 to 100000)", f.asked.Runs)
	}
	if !(f.asked.Until >= 0 && f.asked.Until < 0.5) {
		fault("--until: %g is out of range (want 0 for all runs, or less than 0.5)", f.asked.Until)
	}
	if f.workers < 1 || f.workers > 1024 {
		fault("--workers: %d is out of range (want 1 to 1024)", f.workers)
	}
	if len(faults) > 0 {
		return usageError{errors.Join(faults...)}
	}
	return nil
}

// trialHead begins runs.jsonl: what the runs hang on.
type trialHead struct {
	Engine  int         `json:"dryline_engine"`
	Seed    uint64      `json:"seed"`
	Targets string      `json:"targets_sha256"`
	Plans   [][2]string `json:"plans"` // name and SHA-256
}

func (f *trying) run(c *cobra.Command, args []string) error {
	if err := f.check(args); err != nil {
		return err
	}
	targets, spec, err := readTargets(f.targets)
	if err != nil {
		return err
	}
	t := &trial.Trial{Spec: spec, Seed: f.seed}
	for _, name := range args {
		ex, err := findExercise([]string{name})
		if err != nil {
			return err
		}
		called := planName(name, ex)
		if slices.ContainsFunc(t.Plans, func(p trial.Plan) bool { return p.Name == called }) {
			return usagef("%s: another plan is called %s", name, called)
		}
		t.Plans = append(t.Plans, trial.Plan{Name: called, Hash: ex.Hash, Exercise: ex})
	}
	t.Vary = func(plan int, run *trial.Run) (*exercise.Exercise, error) {
		ex, _, err := scenarios.VaryOf(t.Plans[plan].Exercise, run)
		return ex, err
	}
	if err := t.Check(); err != nil {
		return usageError{err}
	}
	for i := range t.Plans {
		if _, err := t.Each(canceled(), trial.Job{Plan: i}); err != nil && !errors.Is(err, context.Canceled) {
			return usageError{err} // a plan that no run can be made of
		}
	}
	folder, had, err := openTrial(f.output, f.resume, t, targets)
	if err != nil {
		return err
	}
	defer folder.Close()
	ctx, stop := untilEnded()
	defer stop()
	say := c.ErrOrStderr()
	fmt.Fprintf(say, "Searching %g km² of bare ground for the threshold\n", spec.Bare)
	bare, err := folder.bareGround(ctx, t)
	if errors.Is(err, context.Canceled) {
		return fmt.Errorf("%s: stopped before the first run; --resume begins anew", f.output)
	} else if err != nil {
		return err
	}
	all, err := t.Conduct(ctx, trial.Pool{Workers: f.workers, Each: t.Each}, bare, f.asked, had, folder.keep, newTrialBar(say))
	stopped := errors.Is(err, context.Canceled)
	if err != nil && !stopped {
		return err
	}
	r, err := t.Judge(all, bare, f.asked.Runs)
	if errors.Is(err, trial.ErrFew) {
		return fmt.Errorf("%s: %w; what is flown is kept, --resume continues", f.output, err)
	} else if err != nil {
		return err
	}
	r.Partial = stopped
	if err := folder.hand(r, t); err != nil {
		return err
	}
	if f.json {
		if err := printJSON(c.OutOrStdout(), r); err != nil {
			return err
		}
	} else if err := trialreport.Text(c.OutOrStdout(), r); err != nil {
		return err
	}
	if stopped {
		return fmt.Errorf("%s: stopped after %d runs; --resume continues", f.output, r.Runs)
	}
	return nil
}

// planName names a plan: after its file, or, as every folder of dryline plan
// has an exercise of the same name, after its folder.
func planName(arg string, ex *exercise.Exercise) string {
	if ex.Name != "exercise" || !looksLikeFile(arg) {
		return ex.Name
	}
	if full, err := filepath.Abs(arg); err == nil {
		return filepath.Base(filepath.Dir(full))
	}
	return ex.Name
}

// canceled is a context that is over, to try what comes before a flight.
func canceled() context.Context {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	return ctx
}

// readTargets reads a file of targets, or what a flag says of them.
func readTargets(text string) ([]byte, *trial.Spec, error) {
	if looksLikeFile(text) {
		spec, source, err := scenarios.LoadTrial(text)
		if _, faulty := errors.AsType[scenarios.Faults](err); faulty {
			return nil, nil, usageError{err}
		}
		return source, spec, err
	}
	var b strings.Builder
	b.WriteString("targets:\n")
	for _, part := range strings.Split(text, ",") {
		kind, rest, sized := strings.Cut(strings.TrimSpace(part), ":")
		fmt.Fprintf(&b, "  - { kind: %q", kind)
		if sized {
			size, count, many := strings.Cut(rest, "x")
			metres, err := strconv.ParseFloat(size, 64)
			if err != nil {
				return nil, nil, usagef("--targets: %q is no size (want metres, such as %s:1x4)", size, kind)
			}
			fmt.Fprintf(&b, ", size_m: %g", metres)
			if many {
				n, err := strconv.Atoi(count)
				if err != nil {
					return nil, nil, usagef("--targets: %q is no number of targets (want %s:%gx4)", count, kind, metres)
				}
				fmt.Fprintf(&b, ", count: %d", n)
			}
		}
		b.WriteString(" }\n")
	}
	source := b.String()
	spec, err := scenarios.ParseTrial("--targets", []byte(source))
	if err != nil {
		return nil, nil, usageError{err}
	}
	return []byte(source), spec, nil
}

func headOf(t *trial.Trial, targets []byte) trialHead {
	h := trialHead{Engine: engineNumber(), Seed: t.Seed, Targets: hashOf(targets)}
	for _, p := range t.Plans {
		h.Plans = append(h.Plans, [2]string{p.Name, p.Hash})
	}
	return h
}

func hashOf(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

// newTrialBar shows how far a trial is and the time left: a bar on a terminal, a line every
// half minute elsewhere.
func newTrialBar(w io.Writer) func(done, of int, left time.Duration) {
	if file, ok := w.(*os.File); ok && term.IsTerminal(int(file.Fd())) {
		var bar *progressbar.ProgressBar
		return func(done, of int, _ time.Duration) {
			if bar == nil {
				bar = progressbar.NewOptions(of, progressbar.OptionSetWriter(w), progressbar.OptionSetDescription("runs"),
					progressbar.OptionSetPredictTime(true), progressbar.OptionShowCount(), progressbar.OptionClearOnFinish(), progressbar.OptionThrottle(100*time.Millisecond))
			}
			bar.Set(done)
		}
	}
	last := time.Now()
	return func(done, of int, left time.Duration) {
		if time.Since(last) > 30*time.Second {
			last = time.Now()
			fmt.Fprintf(w, "%d of %d runs, %s left\n", done, of, left.Round(time.Second))
		}
	}
}

// encodeLine is a value on a line of its own.
func encodeLine(v any) ([]byte, error) {
	b, err := json.Marshal(v)
	return append(b, '\n'), err
}
