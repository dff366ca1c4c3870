package sim

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"
)

// ToTheEnd is the tick to [Session.Follow] orders to when the exercise itself
// says where it ends.
const ToTheEnd = math.MaxInt64

// OrderFaults are all the things wrong with a file of orders.
type OrderFaults []string

// Error returns the faults, one a line.
func (f OrderFaults) Error() string { return strings.Join(f, "\n") }

// maxOrderFaults bounds what a bad file can make us say.
const maxOrderFaults = 100

// ReadOrders reads a file of orders for an exercise: the command records of a
// session log, without a chain, in order of their ticks. Empty lines are
// skipped. The error is [OrderFaults], each with the name of the file and a line
// number, unless the file cannot be read.
func ReadOrders(r io.Reader, name string, ex *Exercise) ([]Command, error) {
	var orders []Command
	var faults OrderFaults
	last := int64(0)
	err := eachLine(r, func(n int, line []byte, whole bool) error {
		line = bytes.TrimSpace(line)
		if len(line) == 0 {
			return nil
		}
		c, err := readCommand(line, last)
		if err == nil {
			last = c.Tick
			err = c.check(ex)
		}
		switch {
		case err != nil && len(faults) == maxOrderFaults:
			faults = append(faults, name+": and more")
		case err != nil && len(faults) < maxOrderFaults:
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
		return nil, OrderFaults{name + ": no order is in it"}
	}
	return orders, nil
}
