package app

import (
	"strings"
	"testing"
)

// A machine that draws ten pictures a second is told of before the lesson, one that draws sixty is not; the
// first second, in which shaders are made, does not count.
func TestStartCheckTellsASlowMachine(t *testing.T) {
	for _, row := range []struct {
		every float64
		slow  bool
	}{{0.1, true}, {1.0 / 60, false}, {1.0 / 24, false}} {
		var c startCheck
		c.pass(0.9) // the first picture
		for c.rate == 0 {
			if c.says() != "" {
				t.Error("it says so before it knows")
			}
			c.pass(row.every)
		}
		if says := c.says(); (says != "") != row.slow || row.slow && !strings.Contains(says, "10 pictures a second") {
			t.Errorf("a picture each %.3f s: %q", row.every, says)
		}
	}
}
