package debrief

import (
	"slices"
	"strings"
	"testing"
	"time"

	"dryline/sim/order"
)

// A run tried again from a moment of another never counts, whatever its points, and
// says where it comes from; without a parent nothing speaks of practice.
func TestAPracticeRunNeverCounts(t *testing.T) {
	s := run(t, small(t))
	takeUp(s)
	plain := report(s)
	if plain.Practice != nil || slices.ContainsFunc(plain.Score.Gates, func(g Gate) bool { return g.ID == "practice" }) {
		t.Errorf("a session of its own is called practice: %+v", plain.Score.Gates)
	}
	s.Attempt.Parent = &order.Parent{Started: time.Date(2031, 5, 1, 7, 55, 3, 0, time.UTC), Tick: 7900}
	r := report(s)
	if r.Score.Passed || r.Score.Verdict != VerdictFailed || r.Score.Points != plain.Score.Points {
		t.Errorf("%s with %g points, want failed with the %g it had", r.Score.Verdict, r.Score.Points, plain.Score.Points)
	}
	g := r.Score.Gates[0]
	from := s.Exercise.Start.Add(790 * time.Second).UTC().Format("15:04:05")
	if g.ID != "practice" || g.Met || !strings.Contains(g.Why, from) || !strings.Contains(g.Why, "begun 2031-05-01 07:55:03 UTC") || !strings.Contains(g.Why, "never counts") {
		t.Errorf("the gate says %+v, want that it is practice from %s", g, from)
	}
	if r.Practice == nil || r.Practice.From != 790 {
		t.Errorf("the report has %+v of it", r.Practice)
	}
}
