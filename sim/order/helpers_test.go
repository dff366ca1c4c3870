package order_test

import (
	"testing"

	"dryline/sim"
	"dryline/sim/simtest"
)

// begin sets up the small exercise.
func begin(t *testing.T, seed uint64) *sim.Session {
	t.Helper()
	s, err := sim.New(simtest.Small(t), seed)
	if err != nil {
		t.Fatal(err)
	}
	return s
}
