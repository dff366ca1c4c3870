package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"

	"github.com/gofrs/flock"
	"github.com/spf13/cobra"

	"dryline/scenarios"
	"dryline/sim/dataset"
	"dryline/sim/dataset/setspec"
)

func newDatasetCommand() *cobra.Command {
	var (
		output  string
		workers int
		check   bool
		force   bool
		schema  bool
	)
	c := &cobra.Command{
		Use:   "dataset SPEC.yaml -o FOLDER",
		Short: "Make a set of labelled data",
		Long: `Make a set of labelled data: many surveys, each with a seed and values of its own,
as labelled pings, pictures with annotations and their truth, with a manifest and a card.

SPEC.yaml says which exercises, how many scenes of each, what is varied and how, what is
written and how the scenes are split; see docs/data.md. A scene is made whole or not at
all. The same command resumes a run that was stopped or killed: scenes that are there
are left as they are. The same spec and engine give the same bytes, whatever
the number of workers. --check reads the spec and says what it comes to.

Synthetic data: no evidence of anything at sea. Not for navigation.`,
		RunE: func(c *cobra.Command, args []string) error {
			if schema {
				_, err := c.OutOrStdout().Write(scenarios.DatasetSchema())
				return err
			}
			if err := exactlyOne("spec")(c, args); err != nil {
				return err
			}
			if workers < 1 || workers > 256 {
				return usagef("--workers: %d is out of range (want 1 to 256)", workers)
			}
			spec, err := scenarios.LoadDataset(args[0])
			if _, faulty := errors.AsType[scenarios.Faults](err); faulty {
				return usageError{err}
			} else if err != nil {
				return err
			}
			if check {
				_, err := fmt.Fprintf(c.OutOrStdout(), "%s: good, %d scenes\n", args[0], len(spec.Scenes))
				return err
			}
			if output == "" {
				return usagef("want --output, the folder of the set")
			}
			ctx, stop := untilEnded()
			defer stop()
			done, err := beginSet(output, spec)
			if err != nil {
				return err
			}
			defer done()
			m := setMaking{spec: spec, folder: output, workers: workers, force: force, progress: newSetProgress(c.ErrOrStderr(), len(spec.Scenes))}
			made, err := m.scenes(ctx)
			if err != nil {
				return err
			}
			if err := m.finish(); err != nil {
				return err
			}
			_, err = fmt.Fprintf(c.OutOrStdout(), "%s: %d scenes, %d of them made now; begin with %s\nSynthetic data: no evidence of anything at sea. Not for navigation.\n",
				output, len(spec.Scenes), made, filepath.Join(output, "DATACARD.md"))
			return err
		},
	}
	c.Flags().StringVarP(&output, "output", "o", "", "folder of the set")
	c.Flags().IntVar(&workers, "workers", runtime.GOMAXPROCS(0), "scenes made at a time; each takes memory of its own")
	c.Flags().BoolVar(&schema, "schema", false, "print the JSON Schema of a spec, for editors")
	c.Flags().BoolVar(&check, "check", false, "read the spec, say what it comes to, and write nothing")
	c.Flags().BoolVar(&force, "force", false, "make scenes again that another engine made")
	return c
}

// beginSet makes the folder of a set, or sees that the one there is the same set's. No
// other run works on it until done is called.
func beginSet(path string, spec *setspec.Spec) (done func(), err error) {
	if _, err := begun(path, spec); err != nil { // before anything is put there
		return nil, err
	}
	if err := os.MkdirAll(path, 0o755); err != nil {
		return nil, err
	}
	lock := flock.New(filepath.Join(path, setLock))
	switch got, err := lock.TryLock(); {
	case err != nil:
		return nil, err
	case !got:
		return nil, fmt.Errorf("%s: a set is being made there", path)
	}
	done = func() {
		os.Remove(lock.Path())
		lock.Close()
	}
	there, err := begun(path, spec)
	if err == nil {
		err = sweepAside(path, dataset.Names())
	}
	if err == nil && !there {
		err = putFile(filepath.Join(path, dataset.SpecFile), spec.Source)
	}
	if err != nil {
		done()
		return nil, err
	}
	return done, nil
}

// setLock is held while a set is made.
const setLock = ".dryline-set.lock"

// begun reports whether a folder holds this set. One that holds anything else is refused.
func begun(path string, spec *setspec.Spec) (bool, error) {
	switch had, err := os.ReadFile(filepath.Join(path, dataset.SpecFile)); {
	case err == nil && bytes.Equal(had, spec.Source):
		return true, nil
	case err == nil:
		return false, usagef("%s holds a set of another spec, or of this one as it was before: take another folder", path)
	case !errors.Is(err, fs.ErrNotExist):
		return false, err
	}
	entries, err := os.ReadDir(path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return false, err
	}
	for _, e := range entries {
		if e.Name() != setLock && !aside(e, dataset.Names()) {
			return false, usagef("%s is not empty and holds no set: take another folder", path)
		}
	}
	return false, nil
}

// interruptedSet is the error of a set that was stopped.
func interruptedSet(ctx context.Context, done, all int) error {
	return fmt.Errorf("%w: %d of %d scenes are there; the same command resumes it", context.Cause(ctx), done, all)
}
