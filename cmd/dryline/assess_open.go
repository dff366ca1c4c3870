package main

import (
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"dryline/scenarios"
	"dryline/sim/assess"
	"dryline/sim/assess/keep"
	"dryline/sim/product/folder"
	"dryline/sim/record"
)

// errNoEvidence says that an assessment shows nothing.
var errNoEvidence = errors.New("no evidence")

func newAssessOpenCommand() *cobra.Command {
	var (
		key, output string
		force       bool
	)
	c := &cobra.Command{
		Use:   "open FOLDER --key FILE -o OUT",
		Short: "Open an assessment, as its instructor",
		Long: `Open an assessment, as its instructor: every HMAC and the chain are checked, what
is sealed is opened, and the orders are flown again over the same ground. OUT has
what that gives, truth and debrief and the session's log (for dryline replay)
among it, and a statement: whether it is what was handed in, what gaps there were
in time, and what none of this protects against.

An assessment in which anything but a product was changed is refused. One whose orders
do not give what its log says is opened all the same, with status 1. FOLDER may
be one under way (FOLDER.under-way), such as one that was never handed in; it
shows no more than how far it came.

` + notProtected,
		Args: exactlyOne("folder"),
		RunE: func(c *cobra.Command, args []string) error {
			switch {
			case key == "":
				return usagef("--key: give the file of the instructor's private key")
			case output == "":
				return usagef("-o: name the folder to write")
			}
			by, err := keep.Private(key)
			if err != nil {
				return keyFault("--key", err)
			}
			if !isFolder(args[0]) {
				return fmt.Errorf("%s: there is no such folder", args[0])
			}
			root, err := os.OpenRoot(args[0]) // a link in a stranger's folder leads nowhere out of it
			if err != nil {
				return err
			}
			defer root.Close()
			o, err := assess.Open(root.FS(), by)
			if err != nil {
				return fmt.Errorf("%s: %w", args[0], err)
			}
			ctx, stop := untilEnded()
			defer stop()
			to, err := folder.New(output, force)
			if err != nil {
				return err
			}
			defer to.Abandon()
			backing, err := record.OnDisk("")
			if err != nil {
				return fmt.Errorf("no room for the recorder's pings: %w", err)
			}
			st, err := o.FlyAgain(ctx, scenarios.FromSeal, to, backing, newBar(c.ErrOrStderr(), o.Log.Head.Exercise))
			if err != nil {
				return fmt.Errorf("%s: %w", args[0], err)
			}
			if err := to.Commit(); err != nil {
				return err
			}
			if err := st.Write(c.OutOrStdout()); err != nil {
				return err
			}
			if !st.Holds {
				return fmt.Errorf("%s: %w: %s; see %s in %s", args[0], errNoEvidence, st.Why, assess.StatementText, output)
			}
			return nil
		},
	}
	c.Flags().StringVar(&key, "key", "", "file of the instructor's private key")
	c.Flags().StringVarP(&output, "output", "o", "", "folder to write")
	c.Flags().BoolVar(&force, "force", false, "replace the folder if dryline made it; what others put there is kept")
	return c
}
