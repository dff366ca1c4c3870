package exercise

import (
	"fmt"

	"dryline/seabed/placing"
)

// Settle returns the exercise with what it leaves to chance on its sea floor put
// in place by the seeds: its groups of objects stand among its objects. The
// exercise itself is left as it is, and returned if nothing is left to chance.
//
// It fails where a group finds no room; the error, a [*placing.Failure] under the
// seed, names the group.
func (ex *Exercise) Settle(seeds Seeds) (*Exercise, error) {
	if len(ex.Placed) == 0 {
		return ex, nil
	}
	spec, err := placing.Resolve(ex.Seabed, ex.Placed, seeds.Ground, seeds.Placed)
	if err != nil {
		return nil, fmt.Errorf("seed %d: %w", seeds.Placed, err)
	}
	settled := *ex
	settled.Seabed, settled.Placed = spec, nil
	return &settled, nil
}
