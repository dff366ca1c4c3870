package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"dryline/sim/debrief"
	"dryline/sim/record"
)

func newMarkCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "mark SESSION.jsonl",
		Short: "Mark a finished session by today's rubric",
		Long: `Mark a finished session by today's rubric: it is flown again from its log, and
nothing is written. The marks say where each point went, when, and what to do
better.

A session that another engine flew, and that flown again gives another survey
than its log says, gets no verdict. The marking is not validated by a study in
the field: an instructor's judgement stands above it.`,
		Args: exactlyOne("session log"),
		RunE: func(c *cobra.Command, args []string) error {
			f, err := openLog(c.ErrOrStderr(), args[0])
			if err != nil {
				return err
			}
			ctx, stop := untilEnded()
			defer stop()
			if f.Backing, err = record.OnDisk(""); err != nil {
				return fmt.Errorf("no room for the recorder's pings: %w", err)
			}
			f.Progress = newBar(c.ErrOrStderr(), f.Session.Exercise.Title)
			r, err := f.Mark(ctx)
			if err != nil {
				return fmt.Errorf("%s: %w", args[0], err)
			}
			if asJSON {
				return debrief.WriteJSON(c.OutOrStdout(), r)
			}
			return tellMarks(c.OutOrStdout(), &r)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print the whole debrief as JSON")
	return c
}

// tellMarks prints where each point went.
func tellMarks(w io.Writer, r *debrief.Report) error {
	var b strings.Builder
	s := &r.Score
	fmt.Fprintf(&b, "%s (%s, seed %d), rubric %d\n", r.Exercise.Title, r.Exercise.Name, r.Exercise.Seed, s.Rubric)
	if r.Trainee != "" {
		fmt.Fprintf(&b, "Trainee: %s\n", r.Trainee)
	}
	fmt.Fprintf(&b, "%.4g of 100 (%.4g to %.4g), %s (%.0f needed)\n", s.Points, s.Low, s.High, verdictInWords(s), s.Pass)
	for _, g := range s.Gates {
		if !g.Met {
			fmt.Fprintf(&b, "Fails it whatever the points: %s\n", g.Why)
		}
	}
	fmt.Fprintln(&b)
	for _, it := range s.Items {
		fmt.Fprintf(&b, "%5.1f of %-4.3g  %-26s %s\n", it.Points, it.Of, it.What, it.Got)
		for _, c := range it.Causes {
			fmt.Fprintf(&b, "%5.1f           %s\n", -c.Points, c.Says)
		}
	}
	if len(s.Better) > 0 {
		fmt.Fprintln(&b, "\nTo do better:")
		for i, c := range s.Better {
			fmt.Fprintf(&b, "%d. %s\n", i+1, c.Says)
		}
	}
	fmt.Fprintln(&b, "\nThe marking is not validated by a study in the field. Training aid with synthetic data;")
	fmt.Fprintln(&b, "never evidence that an area is clear of hazards.")
	_, err := io.WriteString(w, b.String())
	return err
}
