package debrief

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"dryline/sim/mark"
	"dryline/sim/order"
)

// Everything is known to the desk as it is, and on the first line the vessel
// starts and stays on the line: what the desk lays down lies where it should,
// but for the grain of the bottom track.
func TestPerfectLine(t *testing.T) {
	p := report(run(t, oneLine(small(t)))).Position
	for _, row := range []struct {
		name string
		got  *Errors
	}{
		{"fish", p.Fish},
		{"port, half range", p.PortHalf},
		{"starboard, half range", p.StarboardHalf},
		{"port, full range", p.PortFull},
		{"starboard, full range", p.StarboardFull},
		{"ground at half range", p.GroundHalf},
	} {
		const most = 0.1 // metres
		if row.got == nil {
			t.Errorf("%s: got nothing, want errors", row.name)
		} else if row.got.Distance.P95 > most {
			t.Errorf("%s: got 95 %% within %.3f m, want %g", row.name, row.got.Distance.P95, most)
		}
	}
}

func TestWholeSession(t *testing.T) {
	s := run(t, small(t))
	takeUp(s)
	r := report(s)
	if r.Partial {
		t.Errorf("partial: got true (%s), want false", r.PartialReason)
	}
	if len(r.Lines) != 2 || r.Lines[0].Name != "L1" || r.Lines[0].Reversed || !r.Lines[1].Reversed {
		t.Fatalf("lines: got %+v, want L1 and L2 reversed", r.Lines)
	}
	for _, l := range r.Lines {
		if l.Share < 99 || l.Share > 100 {
			t.Errorf("%s: got %.1f %% logged, want all of it", l.Name, l.Share)
		}
		// NOAA, Hydrographic Surveys Specifications and Deliverables 2021,
		// 6.1.2.2, taken as pings per metre: PRF = c/(2R), so at 2.1 m/s it is
		// c/(2 R v).
		want := small(t).Desk.SoundSpeed / (2 * 50 * 2.1)
		if math.Abs(*l.PingsPerMetre-want) > 0.03*want {
			t.Errorf("%s: got %.2f pings per metre, want %.2f", l.Name, *l.PingsPerMetre, want)
		}
		if math.Abs(*l.BottomMean) > 0.3 || *l.BottomLock < 90 {
			t.Errorf("%s: bottom track got error %.2f m, lock %.0f %%, want within 0.3 m, 90 %%", l.Name, *l.BottomMean, *l.BottomLock)
		}
		if n := len(l.Series.Along); n != MaxSeries || len(l.Series.FishOff) != n || len(l.Series.Altitude) != n || len(l.Series.OffLine) != n {
			t.Errorf("%s: got %d points in the series, want %d", l.Name, n, MaxSeries)
		}
		if l.OffLineMax > 4 || math.Abs(l.OffLineRMS-l.FishRMS) > 1 {
			t.Errorf("%s: off line rms got %.2f m and max %.2f m (fish %.2f m), want on the line", l.Name, l.OffLineRMS, l.OffLineMax, l.FishRMS)
		}
	}
	if b := r.Targets[0]; !b.ThreePings || b.Pings < b.BestPings || b.BestLine == "" {
		t.Errorf("block: got %+v, want lit by three pings of one line", b)
	}
	// Spacing 70 m, range 50 m: neighbours overlap, so the strip between is whole.
	if r.Coverage.Once < 99 {
		t.Errorf("coverage: got %.1f %%, want nearly all", r.Coverage.Once)
	}
	if !r.Score.Passed {
		t.Errorf("score: got %+v, want a pass", r.Score)
	}
}

// An antenna said to be 5 m further from the sheave lays everything 5 m too
// far astern, whichever way the line is run.
func TestWrongAntennaOffset(t *testing.T) {
	for _, row := range []struct {
		name    string
		by      float64
		reverse bool
		why     string
	}{
		{"too long", 5, false, "too far astern"},
		{"too short", -5, false, "too far ahead"},
		{"too long, reversed", 5, true, "too far astern"},
	} {
		t.Run(row.name, func(t *testing.T) {
			ex := oneLine(small(t))
			ex.Plan.Order[0].Reversed = row.reverse
			ex.Desk.AntennaToTow += row.by
			r := report(run(t, ex))
			for name, e := range map[string]*Errors{"fish": r.Position.Fish, "ground": r.Position.GroundHalf} {
				if math.Abs(e.Along.Mean+row.by) > 0.15 {
					t.Errorf("%s along: got %.2f m, want %.2f", name, e.Along.Mean, -row.by)
				}
				if math.Abs(e.Across.Mean) > 0.3 {
					t.Errorf("%s across: got %.2f m, want 0", name, e.Across.Mean)
				}
			}
			if why := item(t, r, mark.Position).Why; !strings.Contains(why, row.why) {
				t.Errorf("why: got %q, want %q in it", why, row.why)
			}
		})
	}
}

// Range and height both come from the same clock, so a sound speed 3 % high
// stretches the ground by 3 %: outward on either side.
func TestWrongSoundSpeed(t *testing.T) {
	ex := oneLine(small(t))
	ex.Desk.SoundSpeed *= 1.03
	r := report(run(t, ex))
	h := r.Lines[0].Altitude.Mean / 100 * 50 * 1.03
	reach := math.Sqrt(50*50 - h*h)
	want := reach * (1 - 1/1.03)
	for _, row := range []struct {
		name      string
		got, want float64
	}{
		{"starboard, full range", r.Position.StarboardFull.Across.Mean, want},
		{"port, full range", r.Position.PortFull.Across.Mean, -want},
		{"starboard, half range", r.Position.StarboardHalf.Across.Mean, want / 2},
		{"port, half range", r.Position.PortHalf.Across.Mean, -want / 2},
	} {
		if math.Abs(row.got-row.want) > 0.25 {
			t.Errorf("%s: got %.2f m across, want %.2f", row.name, row.got, row.want)
		}
	}
}

func TestMissedLine(t *testing.T) {
	both := small(t)
	r := report(run(t, both))
	// The plan still asks for L2, but the exercise is ended after L1.
	ex := small(t)
	s := start(t, ex)
	for len(s.Desk.Lines) < 1 {
		s.Advance(50)
	}
	if err := s.Give(order.Command{Do: order.Finish}); err != nil {
		t.Fatal(err)
	}
	missed := report(s)

	if !missed.Partial || !strings.Contains(missed.PartialReason, "L2") {
		t.Errorf("partial: got %v %q, want it to name L2", missed.Partial, missed.PartialReason)
	}
	if !reflect.DeepEqual(missed.LinesNotRun, []string{"L2"}) {
		t.Errorf("lines not run: got %v, want L2", missed.LinesNotRun)
	}
	// The area is 140 m wide; L1 at its one side sees 35 m outward and some
	// 49.5 m inward, of which 139 m: by plane geometry 0.60 of it.
	c := missed.Coverage
	h := missed.Lines[0].Altitude.Mean / 100 * 50
	want := 100 * (35 + math.Sqrt(50*50-h*h)) / 140
	if math.Abs(c.Once-want) > 1 {
		t.Errorf("coverage: got %.1f %%, want %.1f", c.Once, want)
	}
	if c.Once >= r.Coverage.Once {
		t.Errorf("coverage: got %.1f %% with a line less, want below %.1f", c.Once, r.Coverage.Once)
	}
	if c.HolidayCount == 0 || c.Holidays[0].Near != "L2" || math.Abs(c.Holidays[0].X-177) > 3 || math.Abs(c.Holidays[0].Y-290) > 3 {
		t.Errorf("holidays: got %+v, want one about (177, 290) near L2", c.Holidays)
	}
	if want := c.SquareMetres * (100 - c.Once) / 100; math.Abs(c.HolidayArea-want) > 20 {
		t.Errorf("holiday area: got %.0f m2, want %.0f", c.HolidayArea, want)
	}
	if missed.Score.Points >= r.Score.Points {
		t.Errorf("score: got %.1f with a line less, want below %.1f", missed.Score.Points, r.Score.Points)
	}
	if why := item(t, missed, mark.Coverage).Why; !strings.Contains(why, "L2") {
		t.Errorf("why: got %q, want it to name L2", why)
	}
}

// A report may be drawn up at any time, and again.
func TestDuringASession(t *testing.T) {
	s := start(t, small(t))
	if r := report(s); !r.Partial || len(r.Lines) != 0 || r.Score.Points > mark.Default(true)[mark.Clear]+0.05 || r.Position.Fish != nil {
		t.Errorf("before the first line: got %+v, want nothing logged", r.Score)
	}
	for s.Desk.OpenLine() == nil {
		s.Advance(10)
	}
	s.Advance(300)
	r := report(s)
	if len(r.Lines) != 1 || !r.Lines[0].Open || !r.Partial {
		t.Fatalf("on the line: got %+v, want one open line", r.Lines)
	}
	// Half a minute at 2.1 m/s is 63 m of 140 m.
	if share := r.Lines[0].Share; math.Abs(share-45) > 3 {
		t.Errorf("share logged: got %.1f %%, want 45", share)
	}
	if again := report(s); !reflect.DeepEqual(r, again) {
		t.Error("the second report differs from the first")
	}
}

// The same exercise gives the same report, however many cores made the pings.
func TestWorkersDoNotMatter(t *testing.T) {
	var reports []Report
	for _, workers := range []int{1, 3} {
		s := start(t, oneLine(small(t)))
		s.Workers = workers
		for !s.Done() {
			s.Advance(100 * workers)
		}
		reports = append(reports, report(s))
	}
	if !reflect.DeepEqual(reports[0], reports[1]) {
		t.Error("reports differ between one worker and three")
	}
}

// item is the item of that id in the score.
func item(t *testing.T, r Report, id mark.ID) Item {
	t.Helper()
	for _, it := range r.Score.Items {
		if it.ID == id {
			return it
		}
	}
	t.Fatalf("there is no item %q", id)
	return Item{}
}
