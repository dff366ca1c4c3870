package main

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// limits are the values a number on the command line may take: from min to max,
// both included unless above is set, which leaves out min. They keep out
// nonsense; a formula's own validity is narrower and only warned about.
type limits struct {
	min, max float64
	above    bool
}

func from(min, max float64) limits  { return limits{min, max, false} }
func above(min, max float64) limits { return limits{min, max, true} }

func (l limits) allows(v float64) bool {
	return v >= l.min && v <= l.max && !(l.above && v == l.min)
}

func (l limits) String() string {
	if l.above {
		return fmt.Sprintf("above %g up to %g", l.min, l.max)
	}
	return fmt.Sprintf("from %g to %g", l.min, l.max)
}

// number is a flag with a unit and limits.
type number struct {
	value    *float64
	set      bool // or has a default
	required bool
	unit     string
	limits   limits
}

func (n *number) allowed() string { return strings.TrimSpace(n.limits.String() + " " + n.unit) }

// Set implements pflag.Value.
func (n *number) Set(text string) error {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || !n.limits.allows(v) { // NaN is within no limits
		return errors.New("want a number " + n.allowed())
	}
	*n.value, n.set = v, true
	return nil
}

// String implements pflag.Value.
func (n *number) String() string {
	if !n.set {
		return ""
	}
	return strconv.FormatFloat(*n.value, 'g', -1, 64)
}

// Type implements pflag.Value; help shows it in the place of the value, and
// lines up its columns by bytes.
func (n *number) Type() string {
	if n.unit == "" {
		return "number"
	}
	return strings.ReplaceAll(n.unit, "°", "deg")
}

// numberFlag adds a flag that must be given; see [flagsOnly].
func numberFlag(c *cobra.Command, to *float64, name, unit string, allowed limits, help string) {
	n := &number{value: to, required: true, unit: unit, limits: allowed}
	c.Flags().Var(n, name, help+", "+n.allowed())
}

// optionalNumberFlag adds a flag that need not be given.
func optionalNumberFlag(c *cobra.Command, to *float64, name, unit string, allowed limits, byDefault float64, help string) {
	*to = byDefault
	n := &number{value: to, set: true, unit: unit, limits: allowed}
	c.Flags().Var(n, name, help+", "+n.allowed())
}

// flagsOnly is the check of arguments for a command that takes only flags. It
// names every flag of [numberFlag] that is missing.
func flagsOnly(c *cobra.Command, args []string) error {
	if len(args) > 0 {
		return fmt.Errorf("%s takes flags only, not %q", c.Name(), args[0])
	}
	var missing []string
	c.Flags().VisitAll(func(f *pflag.Flag) {
		if n, ok := f.Value.(*number); ok && n.required && !n.set {
			missing = append(missing, "--"+f.Name)
		}
	})
	if len(missing) > 0 {
		return fmt.Errorf("%s needs %s", c.Name(), strings.Join(missing, ", "))
	}
	return nil
}

// choice is a flag that takes one of a few names.
type choice[T ~string] struct {
	value   *T
	allowed []T
}

// choiceFlag adds a flag that takes one of the names, the first by default.
func choiceFlag[T ~string](c *cobra.Command, to *T, name string, allowed []T, help string) {
	*to = allowed[0]
	ch := &choice[T]{to, allowed}
	c.Flags().Var(ch, name, help+": "+ch.list())
}

func (c *choice[T]) list() string {
	names := make([]string, len(c.allowed))
	for i, a := range c.allowed {
		names[i] = string(a)
	}
	return strings.Join(names, ", ")
}

// Set implements pflag.Value.
func (c *choice[T]) Set(text string) error {
	if !slices.Contains(c.allowed, T(text)) {
		return errors.New("want one of " + c.list())
	}
	*c.value = T(text)
	return nil
}

// String implements pflag.Value.
func (c *choice[T]) String() string { return string(*c.value) }

// Type implements pflag.Value.
func (c *choice[T]) Type() string { return "name" }

// exactlyOne is the argument rule of a command that takes one thing.
func exactlyOne(what string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if len(args) != 1 {
			return usagef("want one %s, got %d; see %s --help", what, len(args), c.CommandPath())
		}
		return nil
	}
}

// atMostOne is the argument rule of a command that takes one thing or none.
func atMostOne(what string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if len(args) > 1 {
			return usagef("want at most one %s, got %d; see %s --help", what, len(args), c.CommandPath())
		}
		return nil
	}
}
