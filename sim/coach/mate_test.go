package coach_test

import (
	"testing"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/coach"
)

// A plan run as it should be needs no telling off: the coach may look ahead and
// mind the height of the fish, but never speaks of the log or the line, and
// raises no alarm.
func TestAPlanWellRunIsLeftAlone(t *testing.T) {
	ex, err := scenarios.Find("first-line")
	if err != nil {
		t.Fatal(err)
	}
	s, err := sim.New(ex, ex.Seed)
	if err != nil {
		t.Fatal(err)
	}
	s.AttachMate()
	c, notes := coach.New(s.Brief), 0
	for !s.Done() {
		s.Advance(10)
		for _, h := range c.Advise(s.Now(), coach.View{
			Reading: s.Reading(), Fix: s.Passage.Fix(), Settings: s.Desk.Settings, Recorder: s.Desk.Recorder,
			Bridge: s.Bridge(), Contacts: s.Desk.Contacts, Lines: s.Desk.Lines,
		}) {
			switch h.ID {
			case "log_soon", "fish_not_past_end":
				notes++
			case "log_not_started", "log_in_turn", "log_still_on", "off_line", "time_short", "lines_disagree", "gnss_lost":
				t.Fatalf("at %.0f s: %s", s.Now(), h.Text)
			}
			if h.Severity == coach.Alarm {
				t.Fatalf("at %.0f s an alarm: %s", s.Now(), h.Text)
			}
		}
	}
	if notes == 0 {
		t.Error("the coach never spoke: it was not looking")
	}
}
