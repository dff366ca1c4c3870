package sim_test

import (
	"math"
	"testing"

	"dryline/sim/order"
	"dryline/sim/report"
	"dryline/sim/simtest"
)

// Lines added in the session are sailed and logged as the exercise's own, and the log
// replays to the same bytes. The lines about a contact are those of IHO C-13, chapter
// 4, 2.3.9.12 and 13: two pairs at right angles, each at the distance asked for on
// either side.
func TestAddedLinesAreSailed(t *testing.T) {
	s := begin(t, simtest.Small(t))
	must(t, s,
		order.Command{Do: order.Mark, X: 130, Y: 300},
		order.Command{Do: order.LinesAbout, Number: 1, Line: "c1", Value: 30},
		order.Command{Do: order.AddLine, Line: "extra", X: 105, Y: 240, X2: 105, Y2: 300},
		order.Command{Do: order.SteerLine, Line: "extra"})
	added := s.Brief.Added
	if len(added) != 5 || len(s.Brief.Lines) != 2 || len(s.Exercise.Added) != 5 {
		t.Fatalf("added %+v", added)
	}
	bearings := map[int]int{}
	for _, l := range added[:4] {
		track := l.Track(false)
		along, across := track.Offset(130, 300)
		if math.Abs(math.Abs(across)-30) > 1e-9 || math.Abs(along-track.Length()/2) > 1e-9 || track.Length() < 60 {
			t.Errorf("line %s passes %.1f m off, %.1f of %.1f m along", l.Name, across, along, track.Length())
		}
		bearings[int(math.Round(track.Bearing()*180/math.Pi))%180]++
	}
	if bearings[0] != 2 || bearings[90] != 2 {
		t.Errorf("bearings %v, want two pairs at right angles", bearings)
	}
	for _, c := range []order.Command{
		{Do: order.AddLine, Line: "EXTRA", X2: 50}, {Do: order.AddLine, Line: "a/b", X2: 50}, {Do: order.AddLine, Line: "short", X2: 0.5},
		{Do: order.LinesAbout, Line: "c1", Number: 1, Value: 30}, {Do: order.LinesAbout, Line: "c9", Number: 9, Value: 30}, {Do: order.FillHolidays, Line: "f", Number: 0},
	} {
		if err := s.Give(c); err == nil {
			t.Errorf("%+v was taken", c)
		}
	}
	s.Advance(700)
	must(t, s, order.Command{Do: order.LogOn, Line: "extra"})
	s.Advance(250)
	must(t, s, order.Command{Do: order.LogOff})
	s.Advance(50)
	if l := s.Desk.Lines; len(l) != 1 || l[0].Name != "extra" || len(l[0].Pings) < 100 || math.Abs(l[0].Pings[50].Off) > 2 {
		t.Fatalf("logged %d lines", len(l))
	}
	same(t, "replay", s, replayed(t, s))
}

// Holidays can be filled in the watch: the lines laid cover what was left open. The
// geometry is looked at in package coverage.
func TestHolidaysGetLines(t *testing.T) {
	s := tended(t, 500, map[int64]func(*session){1000: func(s *session) { must(t, s, order.Command{Do: order.LogOff}) }})
	_, holidays, err := report.Covered(s.Brief, s.Desk)
	if err != nil || len(holidays) == 0 {
		t.Fatal(err, len(holidays))
	}
	for _, h := range holidays {
		if h.Reason == "" || len(h.Fill) == 0 || !(h.SquareMetres >= 1) {
			t.Errorf("%.1f m2 at (%.1f, %.1f): %q, %d lines", h.SquareMetres, h.X, h.Y, h.Reason, len(h.Fill))
		}
	}
	t.Logf("%d holidays, the largest %.0f m2: %s", len(holidays), holidays[0].SquareMetres, holidays[0].Reason)
}
