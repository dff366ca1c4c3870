package app

import (
	"strings"
	"testing"
)

// A machine that draws ten pictures a second is told of before the lesson, one that draws sixty is not; the
// first second, in which shaders are made, does not count. What falls short is never told as what is wanted.
func TestStartCheckTellsASlowMachine(t *testing.T) {
	for _, row := range []struct {
		every float64
		says  string // empty of one that is fast enough
	}{{0.1, "10 pictures a second"}, {1 / 19.4, "19 pictures a second"}, {1.0 / 60, ""}, {1.0 / 24, ""}} {
		var c startCheck
		c.pass(0.9) // the first picture
		for c.rate == 0 {
			if c.says() != "" {
				t.Error("it says so before it knows")
			}
			c.pass(row.every)
		}
		if says := c.says(); (says != "") != (row.says != "") || !strings.Contains(says, row.says) {
			t.Errorf("a picture each %.3f s: %q", row.every, says)
		}
	}
}
