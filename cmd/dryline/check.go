package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"dryline/scenarios"
	"dryline/sim/exercise"
)

func newCheckCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "check FILE...",
		Short: "Check exercise files",
		Long: `Check exercise files and report every fault, a line each: file, line, key,
the value found and what is allowed. The JSON Schema for editors is
scenarios/exercise.schema.json in the source, and dryline check --schema prints
it. Faulty files end with status 2.`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 && !c.Flags().Changed("schema") {
				return usagef("name the exercise files to check; see %s --help", c.CommandPath())
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			if schema, _ := c.Flags().GetBool("schema"); schema {
				_, err := c.OutOrStdout().Write(scenarios.Schema())
				return err
			}
			results, faulty := checkAll(args)
			if asJSON {
				if err := printJSON(c.OutOrStdout(), results); err != nil {
					return err
				}
			}
			for _, r := range results {
				switch {
				case asJSON:
				case r.err != nil:
					fmt.Fprintln(c.ErrOrStderr(), r.err)
				default:
					fmt.Fprintf(c.OutOrStdout(), "%s: good, %d lines, %d objects\n", r.File, r.Lines, r.Objects)
				}
			}
			if faulty > 0 {
				return usagef("%s faulty", plural(faulty, "file is", "files are"))
			}
			return nil
		},
	}
	c.Flags().Bool("schema", false, "print the JSON Schema of exercise files")
	c.Flags().BoolVar(&asJSON, "json", false, "print what was found as JSON on standard output")
	return c
}

// checked holds the findings about one file.
type checked struct {
	File    string  `json:"file"`
	Good    bool    `json:"good"`
	Lines   int     `json:"lines"`
	Objects int     `json:"objects"`
	Faults  []fault `json:"faults"`

	err error
}

// fault is one thing wrong with a file.
type fault struct {
	Line    int    `json:"line,omitempty"` // from 1
	Key     string `json:"key,omitempty"`
	Value   string `json:"value,omitempty"`
	Problem string `json:"problem"`
	Want    string `json:"want,omitempty"`
}

// checkAll checks exercise files and counts the faulty ones.
func checkAll(names []string) (results []checked, faulty int) {
	for _, name := range names {
		r := checked{File: name, Faults: []fault{}}
		ex, err := scenarios.Load(name)
		if err == nil {
			r.Lines = len(ex.Lines)
			if ex, err = ex.Settle(exercise.SeedsOf(ex.Seed)); err != nil {
				err = fmt.Errorf("%s: %w", name, err)
			}
		}
		if err == nil {
			r.Good, r.Objects = true, len(ex.Seabed.Objects)
			results = append(results, r)
			continue
		}
		faulty++
		r.err = err
		if faults, ok := errors.AsType[scenarios.Faults](err); ok {
			for _, f := range faults {
				r.Faults = append(r.Faults, fault{f.Line, f.Path, f.Value, f.Problem, f.Want})
			}
		} else {
			r.Faults = append(r.Faults, fault{Problem: err.Error()})
		}
		results = append(results, r)
	}
	return results, faulty
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
