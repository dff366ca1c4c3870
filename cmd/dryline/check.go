package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"dryline/scenarios"
)

func newCheckCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "check FILE...",
		Short: "Check exercise files",
		Long: `Check exercise files and report every fault, a line each: file, line, key,
the value found and what is allowed. The JSON Schema for editors is
scenarios/exercise.schema.json in the source, and dryline check --schema prints
it.`,
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
			faulty := 0
			for _, name := range args {
				ex, err := scenarios.Load(name)
				if err != nil {
					faulty++
					fmt.Fprintln(c.ErrOrStderr(), err)
					continue
				}
				fmt.Fprintf(c.OutOrStdout(), "%s: good, %d lines, %d objects\n", name, len(ex.Lines), len(ex.Seabed.Objects))
			}
			if faulty > 0 {
				return errors.New(plural(faulty, "file is", "files are") + " faulty")
			}
			return nil
		},
	}
	c.Flags().Bool("schema", false, "print the JSON Schema of exercise files")
	return c
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
