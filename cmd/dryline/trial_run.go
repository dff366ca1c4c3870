package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"dryline/scenarios"
	"dryline/sim/exercise"
	"dryline/sim/trial"
)

func newTrialRunCommand() *cobra.Command {
	var out string
	c := &cobra.Command{
		Use:   "trial-run FOLDER PLAN RUN",
		Short: "Write the exercise of one run of a trial, for the window or a run by itself",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 3 {
				return usagef("want the folder of a trial, the name of a plan and the number of a run")
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			ex, source, err := runOfTrial(args[0], args[1], args[2])
			if err != nil {
				return err
			}
			if out == "" {
				_, err = c.OutOrStdout().Write(source)
				return err
			}
			if err := writeNew(out, source); err != nil {
				return err
			}
			for _, d := range ex.Files { // it is read beside the exercise
				name := filepath.Join(filepath.Dir(out), d.Name)
				if was, err := os.ReadFile(name); err == nil && bytes.Equal(was, d.Data) {
					continue
				}
				if err := writeNew(name, d.Data); err != nil {
					return err
				}
			}
			return nil
		},
	}
	c.Flags().StringVarP(&out, "out", "o", "", "file to write, which must not exist (default to standard output)")
	return c
}

// runOfTrial is the exercise of a run and its file.
func runOfTrial(folder, plan, number string) (*exercise.Exercise, []byte, error) {
	var n int
	if _, err := fmt.Sscanf(number, "%d", &n); err != nil || n < 0 || fmt.Sprint(n) != number {
		return nil, nil, usagef("%q is no number of a run (want 0 or more)", number)
	}
	head, err := readTrialHead(folder)
	if err != nil {
		return nil, nil, err
	}
	spec, _, err := scenarios.LoadTrial(filepath.Join(folder, "targets.yaml"))
	if err != nil {
		return nil, nil, err
	}
	t := &trial.Trial{Spec: spec, Seed: head.Seed}
	var names []string
	for _, p := range head.Plans {
		ex, err := scenarios.Load(filepath.Join(folder, "plans", p[0]+".yaml"))
		if err != nil {
			return nil, nil, err
		}
		t.Plans, names = append(t.Plans, trial.Plan{Name: p[0], Exercise: ex}), append(names, p[0])
	}
	at := slices.Index(names, plan)
	if at < 0 {
		return nil, nil, usagef("%s: no plan is called %q (there are %s)", folder, plan, strings.Join(names, ", "))
	}
	run, err := t.DrawFor(at, n)
	if err != nil {
		return nil, nil, err
	}
	return scenarios.VaryOf(t.Plans[at].Exercise, run)
}
