package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"dryline/seabed/units"

	"github.com/spf13/cobra"
)

const knot = units.Knot

func newCalcCommand() *cobra.Command {
	c := newGroup(&cobra.Command{
		Use:   "calc",
		Short: "Answer a single question of survey planning",
	},
		newSoundSpeedCommand(),
		newAbsorptionCommand(),
		newPingRateCommand(),
		newResolutionCommand(),
		newLineSpacingCommand(),
		newShadowHeightCommand(),
		newLaybackCommand(),
		newTowCommand(),
		newWavesCommand(),
		newBackscatterCommand(),
		newNoiseCommand(),
		newBeamCommand(),
		newRangeLimitCommand(),
	)
	c.PersistentFlags().Bool("json", false, "print one flat JSON object, unit in the key")
	return c
}

// answer holds the findings of a calculator.
type answer struct {
	results []result
	truths  []truth
	notes   []string // what was done that is not plain from the source, a line each
	source  string   // formula and where it comes from, one line
	warning error    // inputs outside the validity of the formula, a line each
}

// result is one number of an answer.
type result struct {
	key   string // of the JSON object: name and unit
	label string // for people
	unit  string
	value float64
	// decimals shown to people; JSON carries all.
	decimals int
}

// truth is one yes or no of an answer.
type truth struct {
	key   string
	label string
	value bool
}

// newCalculator returns the command c, which prints what calculate finds.
func newCalculator(c *cobra.Command, calculate func() (answer, error)) *cobra.Command {
	c.Args = flagsOnly
	c.RunE = func(c *cobra.Command, _ []string) error {
		a, err := calculate()
		if err != nil {
			return usageError{err} // it is all of what the flags say
		}
		for _, r := range a.results {
			if math.IsNaN(r.value) || math.IsInf(r.value, 0) {
				return usagef("%s has no finite value for these inputs", strings.ToLower(r.label))
			}
		}
		if a.warning != nil {
			warn(c.ErrOrStderr(), a.warning.Error())
		}
		asJSON, err := c.Flags().GetBool("json")
		if err != nil {
			return err
		}
		if asJSON {
			return a.writeJSON(c.OutOrStdout())
		}
		return a.writeText(c.OutOrStdout())
	}
	return c
}

// writeJSON writes the object with its keys in the order of the results.
func (a answer) writeJSON(w io.Writer) error {
	var b strings.Builder
	separator := "{"
	for _, r := range a.results {
		value, err := json.Marshal(r.value)
		if err != nil {
			return err
		}
		fmt.Fprintf(&b, "%s%q:%s", separator, r.key, value)
		separator = ","
	}
	for _, t := range a.truths {
		fmt.Fprintf(&b, "%s%q:%t", separator, t.key, t.value)
		separator = ","
	}
	b.WriteString("}\n")
	_, err := io.WriteString(w, b.String())
	return err
}

func (a answer) writeText(w io.Writer) error {
	width := 0
	for _, r := range a.results {
		width = max(width, utf8.RuneCountInString(r.label))
	}
	for _, t := range a.truths {
		width = max(width, utf8.RuneCountInString(t.label))
	}
	var b strings.Builder
	for _, r := range a.results {
		fmt.Fprintf(&b, "%-*s  %.*f %s\n", width, r.label, r.decimals, r.value, r.unit)
	}
	for _, t := range a.truths {
		fmt.Fprintf(&b, "%-*s  %s\n", width, t.label, map[bool]string{true: "yes", false: "no"}[t.value])
	}
	for _, note := range a.notes {
		fmt.Fprintln(&b, note)
	}
	fmt.Fprintln(&b, a.source)
	_, err := io.WriteString(w, b.String())
	return err
}
