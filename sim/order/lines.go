package order

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/survey"
)

// longestLine is how long a line added may be, metres.
const longestLine = 50e3

// mostFills bounds the holidays that are filled at once, and the lines added by it.
const mostFills = 50

// nameIsFree refuses a name that a file cannot bear (it becomes part of names of
// files) or that a line has, whatever its capitals.
func nameIsFree(b *exercise.Brief, name string) error {
	const most = 40
	if name == "" || len(name) > most || strings.TrimSpace(name) != name {
		return fmt.Errorf("%q is no name for a line (want 1 to %d letters, digits, spaces and _ - . , no space at either end)", name, most)
	}
	for _, r := range name {
		if letter := r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9'; !letter && !strings.ContainsRune(" _-.", r) {
			return fmt.Errorf("%q is no name for a line: %q cannot be in it", name, r)
		}
	}
	for _, l := range b.All() {
		if strings.EqualFold(l.Name, name) {
			return fmt.Errorf("there is a line %q already", l.Name)
		}
	}
	return nil
}

// laid is a row that adds lines which the desk lays.
func laid(do Do, says string, check func(*exercise.Brief, *Command) error, lay func(Ship, *Command) ([]exercise.Line, error)) Row {
	return rowOf(do, says, whole, check,
		func(s Ship, c *Command) error {
			_, err := lay(s, c)
			return err
		},
		func(s Ship, c *Command) error {
			lines, err := lay(s, c)
			for _, l := range lines {
				s.AddLine(l)
			}
			return err
		}).atDesk()
}

func newLine(b *exercise.Brief, c *Command) error {
	if err := nameIsFree(b, c.Line); err != nil {
		return err
	}
	if err := isNear(b, c); err != nil {
		return err
	}
	if long := math.Hypot(c.X2-c.X, c.Y2-c.Y); long < 1 || long > longestLine {
		return fmt.Errorf("a line of %.3g m is out of range (want 1 to %g)", long, float64(longestLine))
	}
	return nil
}

// LongestRunIn is how long a run-in or a run-out of own lines may be, metres.
const LongestRunIn = 2000.0

func ownLines(b *exercise.Brief, c *Command) error {
	if len(b.Added) == 0 {
		return errors.New("no line was added")
	}
	if err := within(c.Value, 0, LongestRunIn); err != nil {
		return fmt.Errorf("run-in: %w", err)
	}
	if err := within(c.Value2, 0, LongestRunIn); err != nil {
		return fmt.Errorf("run-out: %w", err)
	}
	return nil
}

func newLinesAbout(b *exercise.Brief, c *Command) error {
	for i := range 4 {
		if err := nameIsFree(b, numbered(c.Line, i)); err != nil {
			return err
		}
	}
	// C-13, below, has 50 to 100 m for a range scale of 150; shorter ones want less.
	return within(c.Value, 5, 150)
}

func numbered(name string, i int) string { return fmt.Sprintf("%s-%d", name, i+1) }

// about lays lines about a contact: it is relocated by two pairs of passes at right
// angles, each pair either side of it (IHO C-13, chapter 4, 2.3.9.12 and 13: at 50 to
// 100 m, about 3 knots, for a range scale of 150 m). They are four times as long as it
// lies off.
func about(s Ship, c *Command) (lines []exercise.Line, err error) {
	err = s.Contacts(true, func(d *survey.Desk, _ float64) error {
		for i := range d.Contacts {
			if k := &d.Contacts[i]; k.Number == c.Number {
				for n := range 4 {
					lines = append(lines, passing(k.X, k.Y, c.Value2+float64(n/2)*math.Pi/2, c.Value*float64(1-2*(n%2)), numbered(c.Line, n)))
				}
				return nil
			}
		}
		return fmt.Errorf("no contact has the number %d", c.Number)
	})
	return lines, err
}

// passing is a line on a bearing that leaves a point so far to its left.
func passing(x, y, bearing, off float64, name string) exercise.Line {
	sin, cos := math.Sincos(bearing)
	half := 2 * math.Abs(off)
	at := func(along float64) seabed.Point {
		return seabed.Point{X: x + along*sin + off*cos, Y: y + along*cos - off*sin}
	}
	return exercise.Line{Name: name, A: at(-half), B: at(half)}
}

func newFill(b *exercise.Brief, c *Command) error {
	if c.Number < 1 || c.Number > mostFills {
		return fmt.Errorf("%d holidays are out of range (want 1 to %d)", c.Number, mostFills)
	}
	for i := range mostFills {
		if err := nameIsFree(b, numbered(c.Line, i)); err != nil {
			return err
		}
	}
	return nil
}

// fill lays lines that fill the largest holidays there are.
func fill(s Ship, c *Command) (lines []exercise.Line, err error) {
	holidays, err := s.Holidays()
	if err != nil {
		return nil, err
	}
	for _, h := range holidays[:min(len(holidays), c.Number)] {
		for _, l := range h.Fill {
			if len(lines) == mostFills {
				return lines, nil
			}
			lines = append(lines, exercise.Line{Name: numbered(c.Line, len(lines)), A: seabed.Point(l.A), B: seabed.Point(l.B)})
		}
	}
	if len(lines) == 0 {
		return nil, errors.New("there is no holiday that a line would fill")
	}
	return lines, nil
}
