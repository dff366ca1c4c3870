package sim_test

import (
	"math"
	"testing"

	"dryline/sim/simtest"
)

// Do not log in turns (common practice, no source): while the mate logs, the
// fish holds the line's direction.
func TestMateDoesNotLogInTurns(t *testing.T) {
	s := begin(t, simtest.Small(t))
	s.AttachMate()
	for !s.Done() {
		s.Advance(1000)
	}
	if len(s.Desk.Lines) != 2 || len(s.Truth.Pings) < 500 {
		t.Fatalf("%d lines and %d pings logged, want 2 and hundreds", len(s.Desk.Lines), len(s.Truth.Pings))
	}
	for _, p := range s.Truth.Pings {
		off := math.Mod(p.Heading+2*math.Pi, math.Pi) // the lines run north and south
		if off = min(off, math.Pi-off); off > 10*math.Pi/180 {
			t.Fatalf("ping %d was logged %.1f degrees off the line's direction", p.Number, off*180/math.Pi)
		}
	}
}

// Pings that never reach the recorder are logged as lost and leave no paint: a
// holiday must show.
func TestLostPingsLeaveAHoliday(t *testing.T) {
	ex := simtest.Small(t)
	ex.Sonar.Effects.Drops.Share = 1
	s := begin(t, ex)
	s.AttachMate()
	for !s.Done() {
		s.Advance(1000)
	}
	if len(s.Desk.Lines) != 2 || len(s.Desk.Lines[0].Pings) < 500 || s.Desk.Lines[0].Pings[9].Locked {
		t.Errorf("lost pings are not in the log as they should be")
	}
	if _, _, _, _, painted := s.Desk.Mosaic.Bounds(); painted {
		t.Error("ground nobody heard of was painted")
	}
}

// Too much cable over a shallow floor: what the fish would have heard while it
// drags is lost.
func TestGroundingCostsPings(t *testing.T) {
	ex := simtest.Small(t)
	ex.Plan.CableOut, ex.Plan.Speed = 60, 1.2
	s := begin(t, ex)
	s.AttachMate()
	for !s.Done() {
		s.Advance(1000)
	}
	lost := 0
	for _, l := range s.Desk.Lines {
		for i, p := range l.Pings {
			if len(l.Rows[0][i].Port) == 0 && !p.Locked {
				lost++
			}
		}
	}
	if lost == 0 {
		t.Error("no pings were lost to the grounding")
	}
}
