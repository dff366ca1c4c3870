package scenarios

import (
	"errors"
	"fmt"
	"strings"

	"dryline/sim/exercise"
	"dryline/sim/order"
)

// FromSeal reads the exercise that an assessment sealed. Nobody mends it: its faults are one.
func FromSeal(name string, source []byte) (*exercise.Exercise, error) {
	ex, err := Parse(name+".yaml", source)
	if err != nil {
		return nil, errors.New(strings.ReplaceAll(err.Error(), "\n", "; "))
	}
	return ex, nil
}

// FromLog reads the exercise that a session log carries. It is refused if it is
// not the one the log's header names. Files that the exercise names are looked for in
// the folders (see [Fetch]); only the very same will do.
func FromLog(l *order.Log, folders ...string) (*exercise.Exercise, error) {
	if err := Fetch(l.Source, folders...); err != nil {
		return nil, err
	}
	ex, err := Parse(l.Exercise+".yaml", l.Source)
	if err != nil { // nobody mends a log: its faults are one
		return nil, fmt.Errorf("the exercise in the log: %s", strings.ReplaceAll(err.Error(), "\n", "; "))
	}
	if ex.Hash != l.Hash {
		return nil, errors.New("the exercise in the log does not have the hash the log says: it was changed")
	}
	if ex.Name != l.Exercise {
		return nil, fmt.Errorf("the log calls its exercise %s, which is no name of one", shorten(l.Exercise))
	}
	ex.Sonar.Step = l.Step
	return ex, nil
}
