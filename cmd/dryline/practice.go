package main

import (
	crand "crypto/rand"
	"encoding/binary"
	"fmt"
	"io"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"dryline/scenarios"
)

func newPracticeCommand() *cobra.Command {
	var (
		difficulty float64
		seed       uint64
		out        string
	)
	c := &cobra.Command{
		Use:   "practice [SKILL]",
		Short: "Set a practice on ground never seen, for a skill and as hard as wanted",
		Long: `Set a practice: an exercise file on ground of its own, made for a skill and as hard
as wanted, from 1 to 5. Without a skill they are listed. The file is printed, or
written to --out, which is not overwritten; it is an exercise like any other:

  dryline practice stream --difficulty 3 --out stream.yaml
  dryline run stream.yaml

Without --seed the ground is new each time. The same skill, difficulty and seed give
the same file.

Training aid with synthetic data. Not for navigation.`,
		Args: atMostOne("skill"),
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return listSkills(c.OutOrStdout())
			}
			if !c.Flags().Changed("seed") {
				var b [8]byte
				if _, err := crand.Read(b[:]); err != nil {
					return err
				}
				seed = binary.LittleEndian.Uint64(b[:]) >> 12 // short enough for any reader of numbers
			}
			_, file, err := scenarios.SetPractice(args[0], difficulty, seed)
			if err != nil {
				return usageError{err}
			}
			if out == "" {
				_, err = c.OutOrStdout().Write(file)
				return err
			}
			return writeNew(out, file)
		},
	}
	c.Flags().Float64Var(&difficulty, "difficulty", 1, "from 1, the easiest, to 5")
	c.Flags().Uint64Var(&seed, "seed", 0, "seed of the ground (default a new one each time)")
	c.Flags().StringVarP(&out, "out", "o", "", "file to write, which must not be there")
	return c
}

func listSkills(w io.Writer) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, s := range scenarios.Skills() {
		fmt.Fprintf(t, "%s\t%s\n", s.Name, s.Says)
	}
	return t.Flush()
}
