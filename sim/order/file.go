package order

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"

	"dryline/sim/exercise"
)

// ToTheEnd is the tick up to which orders are followed when the exercise itself
// says where it ends.
const ToTheEnd = math.MaxInt64

// Faults are all the things wrong with a file of orders.
type Faults []string

// Error returns the faults, one a line.
func (f Faults) Error() string { return strings.Join(f, "\n") }

// maxFaults bounds what a bad file can make us say.
const maxFaults = 100

// ReadFile reads a file of orders for an exercise: the command records of a
// session log, without a chain, in order of their ticks. Empty lines are
// skipped. The error is [Faults], each with the name of the file and a line
// number, unless the file cannot be read.
func ReadFile(r io.Reader, name string, b *exercise.Brief) ([]Command, error) {
	var orders []Command
	var faults Faults
	last := int64(0)
	err := eachLine(r, func(n int, line []byte, whole bool) error {
		line = bytes.TrimSpace(line)
		if len(line) == 0 {
			return nil
		}
		c, err := readCommand(line, last)
		if err == nil {
			last = c.Tick
			err = c.Check(b)
		}
		switch {
		case err != nil && len(faults) == maxFaults:
			faults = append(faults, name+": and more")
		case err != nil && len(faults) < maxFaults:
			faults = append(faults, fmt.Sprintf("%s:%d: %v", name, n, err))
		case len(orders) == maxLogCommands:
			return fmt.Errorf("more than %d orders", maxLogCommands)
		default:
			orders = append(orders, c)
		}
		return nil
	})
	switch {
	case err != nil:
		return nil, fmt.Errorf("%s: %w", name, err)
	case len(faults) > 0:
		return nil, faults
	case len(orders) == 0:
		return nil, Faults{name + ": no order is in it"}
	}
	return orders, nil
}
