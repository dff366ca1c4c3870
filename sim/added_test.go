package sim_test

import (
	"math"
	"testing"

	"dryline/sim/order"
	"dryline/sim/report"
	"dryline/sim/simtest"
	"dryline/sim/survey/coverage"
	"dryline/vessel"
)

// Lines added in the session are sailed and logged as the exercise's own, and the log
// replays to the same bytes. The lines about a contact are those of IHO C-13, chapter
// 4, 2.3.9.12 and 13: two pairs at right angles, each at the distance asked for on
// either side.
func TestAddedLinesAreSailed(t *testing.T) {
	s := begin(t, simtest.Small(t))
	simtest.Give(t, s,
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
	simtest.Give(t, s, order.Command{Do: order.LogOn, Line: "extra"})
	s.Advance(250)
	simtest.Give(t, s, order.Command{Do: order.LogOff})
	s.Advance(50)
	if l := s.Desk.Lines; len(l) != 1 || l[0].Name != "extra" || len(l[0].Pings) < 100 || math.Abs(l[0].Pings[50].Off) > 2 {
		t.Fatalf("logged %d lines", len(l))
	}
	same(t, "replay", s, replayed(t, s))
}

// Holidays can be filled in the watch: the lines laid cover what was left open. The
// geometry is looked at in package coverage.
func TestHolidaysGetLines(t *testing.T) {
	s := tended(t, 500, map[int64]func(*session){1000: func(s *session) { simtest.Give(t, s, order.Command{Do: order.LogOff}) }})
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

// Infill is sailed: half a line is left out, the desk lays the lines that fill the
// largest holiday, they are run as laid, and what they were to fill is seen.
func TestInfillIsSailed(t *testing.T) {
	ex := simtest.Small(t)
	ex.Plan.TimeLimit = 6000
	s := begin(t, ex)
	simtest.Give(t, s, order.Command{Do: order.Lookout})
	// run logs a line from one share of it to another, as the fish passes.
	run := func(name string, reversed bool, from, to float64) {
		line, _ := s.Exercise.Line(name)
		track := line.Track(reversed)
		on := false
		for range 1500 {
			fix := s.Passage.Fix()
			switch along, _ := track.Offset(fix.X, fix.Y); {
			case !on && along >= from*track.Length() && along < to*track.Length() && s.Passage.Steering().Do == order.SteerLine:
				simtest.Give(t, s, order.Command{Do: order.LogOn, Line: name, Reversed: reversed})
				on = true
			case on && along > to*track.Length():
				simtest.Give(t, s, order.Command{Do: order.LogOff})
				s.Advance(5)
				return
			}
			s.Advance(5)
		}
		t.Fatalf("line %s was not come to", name)
	}
	simtest.Give(t, s, order.Command{Do: order.SteerLine, Line: "L1"})
	run("L1", false, 0, 0.5)
	before, holidays, err := report.Covered(s.Brief, s.Desk)
	if err != nil || len(holidays) == 0 {
		t.Fatal(err, len(holidays))
	}
	simtest.Give(t, s, order.Command{Do: order.FillHolidays, Line: "fill", Number: 1})
	lines := s.Brief.Added
	if len(lines) != len(holidays[0].Fill) {
		t.Fatalf("%d lines were added for %d", len(lines), len(holidays[0].Fill))
	}
	for i, l := range lines {
		reversed := i%2 == 1
		simtest.Give(t, s, order.Command{Do: order.Turn, Line: l.Name, Reversed: reversed, Pattern: vessel.Simple})
		run(l.Name, reversed, 0, 1)
	}
	after, left, err := report.Covered(s.Brief, s.Desk)
	if err != nil {
		t.Fatal(err)
	}
	gap := 0.0
	for _, h := range left {
		gap += h.SquareMetres
	}
	share := func(m *coverage.Map) float64 { return float64(m.Once) / float64(m.Inside) }
	t.Logf("%d lines laid: %.1f %% seen, then %.1f %%; %.0f m2 of holidays, then %.0f", len(lines), 100*share(before), 100*share(after), holidays[0].SquareMetres, gap)
	if share(before) > 0.6 || gap > 0.1*holidays[0].SquareMetres {
		t.Errorf("holidays of %.0f m2 were filled to %.0f, from %.2f seen to %.2f", holidays[0].SquareMetres, gap, share(before), share(after))
	}
}
