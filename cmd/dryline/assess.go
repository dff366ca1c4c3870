package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"dryline/scenarios"
	"dryline/sim/assess"
	"dryline/sim/assess/keep"
)

func newAssessCommand() *cobra.Command {
	return newGroup(&cobra.Command{
		Use:   "assess",
		Short: "Assessments: sealed for an instructor, on ground drawn for each",
		Long: `Assessments: exercises flown without help on ground that is drawn for each one,
sealed for an instructor.

The instructor makes a key pair (key), hands out the public key, and opens what
is handed in (open). The trainee flies (fly) and goes on after a break (resume),
on the same installation.

In an assessment there is no coach, no true scene and no debrief. Time goes as on
the water; where it did not, the instructor is told. The folder handed in has desk
products; exercise, seed, truth and debrief are sealed (age format) to the
instructor's key and that of the installation, and every record of the log has
an HMAC by a key that is sealed to the instructor.

` + notProtected,
	}, newAssessKeyCommand(), newAssessListCommand(), newAssessFlyCommand(), newAssessResumeCommand(), newAssessOpenCommand())
}

const notProtected = `What this does not protect against: a program's memory can be read and the
program changed; the installation's key lies on the trainee's machine, and anyone
who can read it can open the seal; anyone who has the public key can make an assessment
anew, with seeds of their own or of one they opened, or fly several and hand in the best;
the machine's clock can be set. The evidence is the order log flown again by the
instructor. It stands in for no invigilator.`

func newAssessKeyCommand() *cobra.Command {
	var output string
	c := &cobra.Command{
		Use:   "key -o FILE",
		Short: "Make an instructor's key pair",
		Long: `Make an instructor's key pair: the private key goes to a new file for its owner
alone, the public one is printed, for trainees to give to --for. Keep the file:
without it nobody opens what was sealed to it.`,
		Args: noArguments,
		RunE: func(c *cobra.Command, args []string) error {
			if output == "" {
				return usagef("-o: name the file for the private key")
			}
			public, err := keep.NewPrivate(output, "an instructor's key for assessments of dryline")
			if err != nil {
				return err
			}
			fmt.Fprintln(c.OutOrStdout(), public)
			return nil
		},
	}
	c.Flags().StringVarP(&output, "output", "o", "", "file for the private key")
	return c
}

func newAssessListCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "list",
		Short: "List the exercises that can be flown as an assessment",
		Long: `List the built-in exercises that can be flown as an assessment: those that leave
all they hide to the seed. Where a file fixes the places, anyone who has flown it once
knows them.`,
		Args: noArguments,
		RunE: func(c *cobra.Command, args []string) error {
			for _, name := range assessable() {
				fmt.Fprintln(c.OutOrStdout(), name)
			}
			return nil
		},
	}
}

func noArguments(c *cobra.Command, args []string) error {
	if len(args) > 0 {
		return usagef("%s takes no argument, not %q", c.CommandPath(), args[0])
	}
	return nil
}

// assessable are the built-in exercises that can be flown as an assessment.
func assessable() []string {
	var names []string
	for _, i := range scenarios.Embedded() {
		if ex, err := scenarios.Find(i.Name); err == nil && assess.Ready(ex) == nil {
			names = append(names, i.Name)
		}
	}
	return names
}

// notReady says of an exercise that cannot be assessed which can.
func notReady(err error) error {
	if errors.Is(err, assess.ErrNotReady) {
		return usagef("%w; these can: %s", err, strings.Join(assessable(), ", "))
	}
	return err
}

// keyFault makes a file with no key in it a fault of the command line.
func keyFault(flag string, err error) error {
	if errors.Is(err, keep.ErrNoKey) || errors.Is(err, fs.ErrNotExist) {
		return usagef("%s: %w", flag, err)
	}
	return err
}

// waitOnWall lets time pass, or until the context is done.
func waitOnWall(ctx context.Context, d time.Duration) {
	select {
	case <-ctx.Done():
	case <-time.After(d):
	}
}

// isFolder reports whether there is a folder of that name.
func isFolder(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.IsDir()
}
