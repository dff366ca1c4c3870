package scenarios

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"dryline/sim"
	"dryline/sim/order"
	"dryline/sonar"
)

// What the browser flies reads the floor in coarse steps. Its log says so, and flown again
// here it hears the same as there; without that it does not.
func TestALogIsFlownAgainInItsOwnSteps(t *testing.T) {
	fly := func(step sonar.GroundStep, log *order.Log) (heard, written string) {
		t.Helper()
		ex, err := Find("first-line")
		if err != nil {
			t.Fatal(err)
		}
		if log != nil {
			if ex, err = FromLog(log); err != nil {
				t.Fatal(err)
			}
		} else {
			ex.Sonar.Step = step
		}
		s, err := sim.New(ex, 3)
		if err != nil {
			t.Fatal(err)
		}
		if log != nil {
			err = s.Replay(log, nil)
		} else {
			err = s.Give(order.Command{Do: order.LogOn, Line: "A"})
			s.Advance(60)
		}
		var b bytes.Buffer
		if err := errors.Join(err, s.WriteLog(&b)); err != nil {
			t.Fatal(err)
		}
		return s.Digest(), b.String()
	}
	read := func(text string) *order.Log {
		t.Helper()
		l, err := order.ReadLog(strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	fine, plain := fly(sonar.FineSteps, nil)
	coarse, said := fly(sonar.CoarseSteps, nil)
	if fine == coarse {
		t.Fatal("the steps make no difference")
	}
	if strings.Contains(plain, "ground_step_m") || !strings.Contains(said, `"ground_step_m":0.08,`) {
		t.Errorf("the logs begin\n%.300s\n%.300s", plain, said)
	}
	if got, again := fly(0, read(said)); got != coarse || again != said {
		t.Error("in coarse steps, flown again it is another")
	}
	if got, _ := fly(0, read(plain)); got != fine {
		t.Error("in fine steps, flown again it is another")
	}
}

// A log that somebody edited names a step that there is not.
func TestALogOfNoSuchStepIsRefused(t *testing.T) {
	_, err := order.ReadLog(strings.NewReader(`{"dryline_session":1,"ground_step_m":0.1,"exercise":"x","sha256":"","seed":1,"source":"title: x\n"}` + "\n"))
	if err == nil || !strings.Contains(err.Error(), "ground_step_m: 0.1 is none (want 0.08") {
		t.Errorf("got %v", err)
	}
}
