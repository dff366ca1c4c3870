package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"dryline/scenarios"
	"dryline/sim/order"
)

// Exit statuses.
const (
	exitOK      = 0
	exitFailure = 1 // the work could not be done
	exitUsage   = 2 // the command line is wrong
)

// Main runs dryline with the arguments after its name and returns the exit
// status.
func Main(args []string, stdout, stderr io.Writer) int {
	root := newRootCommand()
	root.SetArgs(args)
	root.SetOut(stdout)
	root.SetErr(stderr)
	return execute(root)
}

// newRootCommand assembles the commands. Each comes from a function of its own,
// newXxxCommand, in a file of its own.
func newRootCommand() *cobra.Command {
	root := newGroup(&cobra.Command{
		Use:   "dryline",
		Short: "Side-scan survey exercises and calculations on dry land",
	},
		newRunCommand(),
		newReplayCommand(),
		newMarkCommand(),
		newDeskCommand(),
		newStreamCommand(),
		newServeCommand(),
		newExercisesCommand(),
		newCourseCommand(),
		newAssessCommand(),
		newDatasetCommand(),
		newPracticeCommand(),
		newTrialCommand(),
		newTrialRunCommand(),
		newPlanCommand(),
		newCheckCommand(),
		newCalcCommand(),
		newVersionCommand(),
		newManualCommand(),
	)
	root.Version = versionNow().String()
	root.SetVersionTemplate("{{.Version}}\n")
	root.SetHelpCommand(newHelpCommand())
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return fmt.Errorf("%w; see %s --help", err, c.CommandPath())
	})
	return root
}

func newHelpCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "help [command]",
		Short: "Tell about a command",
		RunE: func(c *cobra.Command, args []string) error {
			about, rest, err := c.Root().Find(args)
			if err != nil || len(rest) > 0 {
				return usagef("there is no command %q; see %s --help", strings.Join(args, " "), c.Root().CommandPath())
			}
			about.InitDefaultHelpFlag()
			return about.Help()
		},
	}
}

// newGroup makes c a command that only leads to others. Called by itself, or
// with a name none of them bears, it is a fault of the command line.
func newGroup(c *cobra.Command, commands ...*cobra.Command) *cobra.Command {
	c.AddCommand(commands...)
	c.Args = cobra.ArbitraryArgs
	c.SuggestionsMinimumDistance = 2
	c.RunE = func(c *cobra.Command, args []string) error {
		if len(args) == 0 {
			return usagef("no command given; see %s --help", c.CommandPath())
		}
		hint := "see " + c.CommandPath() + " --help"
		if near := c.SuggestionsFor(args[0]); len(near) > 0 {
			hint = "did you mean " + strings.Join(near, " or ") + "?"
		}
		return usagef("unknown command %q for %s; %s", args[0], c.CommandPath(), hint)
	}
	return c
}

// usageError is a fault of the command line that shows only once a command has
// begun.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

func usagef(format string, args ...any) error {
	return usageError{fmt.Errorf(format, args...)}
}

// execute runs a command tree, reports a fault in one line, and returns the
// exit status. An error before any command has begun, such as an unknown flag,
// is the command line's fault.
func execute(root *cobra.Command) (status int) {
	begun := false
	watch(root, &begun)
	root.SilenceErrors, root.SilenceUsage = true, true
	defer func() {
		if fault := recover(); fault != nil {
			complain(root.ErrOrStderr(), fmt.Sprintf("internal fault: %v", fault))
			status = exitFailure
		}
	}()
	err := root.Execute()
	if err == nil {
		return exitOK
	}
	tellFault(root.ErrOrStderr(), err)
	if _, usage := errors.AsType[usageError](err); usage || !begun {
		return exitUsage
	}
	return exitFailure
}

// watch notes when a command of the tree begins.
func watch(c *cobra.Command, begun *bool) {
	if run := c.RunE; run != nil {
		c.RunE = func(c *cobra.Command, args []string) error {
			*begun = true
			return run(c, args)
		}
	}
	for _, sub := range c.Commands() {
		watch(sub, begun)
	}
}

// tellFault reports an error: the faults of a file that people wrote a line
// each, as editors read them, all else in one line.
func tellFault(stderr io.Writer, err error) {
	if faults, ok := errors.AsType[scenarios.Faults](err); ok {
		fmt.Fprintln(stderr, faults)
		return
	}
	if faults, ok := errors.AsType[order.Faults](err); ok {
		fmt.Fprintln(stderr, faults)
		return
	}
	complain(stderr, err.Error())
}

// complain writes one line to standard error, whatever the text.
func complain(stderr io.Writer, text string) {
	fmt.Fprintln(stderr, "dryline:", strings.Join(strings.FieldsFunc(text, func(r rune) bool { return r == '\n' || r == '\r' }), "; "))
}

// warn writes a warning to standard error, a line for each line of text.
func warn(stderr io.Writer, text string) {
	for line := range strings.Lines(text) {
		complain(stderr, "warning: "+strings.TrimRight(line, "\r\n"))
	}
}
