package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"

	"dryline/scenarios"
)

// newManualCommand writes the man pages, for those who make packages.
func newManualCommand() *cobra.Command {
	return &cobra.Command{
		Use:    "manual FOLDER",
		Short:  "Write the man pages of all commands",
		Hidden: true,
		Args:   exactlyOne("folder"),
		RunE: func(c *cobra.Command, args []string) error {
			if err := os.MkdirAll(args[0], 0o755); err != nil {
				return err
			}
			header := &doc.GenManHeader{Title: "DRYLINE", Section: "1", Source: "Dryline", Manual: "Dryline"}
			if err := doc.GenManTree(c.Root(), header, args[0]); err != nil {
				return err
			}
			_, err := fmt.Fprintf(c.OutOrStdout(), "Man pages in %s\n", args[0])
			return err
		},
	}
}

// completeExercises offers the built-in exercises to a shell, and files.
func completeExercises(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var names []string
	for _, i := range scenarios.Embedded() {
		names = append(names, cobra.CompletionWithDesc(i.Name, i.Title))
	}
	return names, cobra.ShellCompDirectiveDefault
}
