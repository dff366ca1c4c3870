package scenarios

import (
	"errors"
	"fmt"

	"dryline/sim"
)

// FromLog reads the exercise that a session log carries. It is refused if it is
// not the one the log's header names.
func FromLog(l *sim.Log) (*sim.Exercise, error) {
	ex, err := Parse(l.Exercise+".yaml", l.Source)
	if err != nil {
		return nil, fmt.Errorf("the exercise in the log: %w", err)
	}
	if ex.Hash != l.Hash {
		return nil, errors.New("the exercise in the log does not have the hash the log says: it was changed")
	}
	if ex.Name != l.Exercise {
		return nil, fmt.Errorf("the log calls its exercise %q, which is no name of one", l.Exercise)
	}
	return ex, nil
}
