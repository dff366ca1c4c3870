package coverage

import (
	"math"
	"strings"
	"testing"

	"dryline/sim/survey"
	"dryline/vessel/nav/geodesy"
)

// ran is a line due north at an easting, from one northing to another, with a ping
// every half metre, but for a stretch of them.
func ran(name string, x, from, to, height float64, without func(y float64) bool) *survey.LineRecord {
	l := &survey.LineRecord{Name: name, RangeScale: 50, Track: geodesy.Track{AX: x, AY: from, BX: x, BY: to}}
	for y := from; y <= to; y += 0.5 {
		if without == nil || !without(y) {
			l.Pings = append(l.Pings, survey.PingRecord{Number: uint64(len(l.Pings) + 1), Fix: survey.Fix{X: x, Y: y}, Height: height, Along: y - from})
		}
	}
	return l
}

var square = []Point{{0, 0}, {120, 0}, {120, 200}, {0, 200}}

// Two lines 60 m apart with 50 m of range see a square of 120 by 200 m but for what
// the geometry leaves: a strip that a gap in the pings leaves open right across one
// line's own half, of known size and place.
func TestHolidaysAreWhereTheGeometryLeavesThem(t *testing.T) {
	gap := func(y float64) bool { return y > 90 && y < 110 }
	// sqrt(50^2 - 6^2) = 49.64 m over the ground.
	lines := []*survey.LineRecord{ran("A", 30, -5, 205, 6, gap), ran("B", 90, -5, 205, 6, nil)}
	m, err := Take(square, 0.5, lines, nil)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(m.Square()-24000) > 1 {
		t.Errorf("the area is %.0f m2, want 24000", m.Square())
	}
	holidays := m.Holidays()
	if len(holidays) != 1 {
		t.Fatalf("%d holidays: %+v", len(holidays), holidays)
	}
	h := &holidays[0]
	// From the edge to where B begins to see, 90 - 49.64 = 40.36 m, and 20 m along.
	if want := 40.36 * 20; math.Abs(h.SquareMetres-want) > 0.05*want || math.Abs(h.X-20.2) > 1 || math.Abs(h.Y-100) > 1 || math.Abs(h.Widest-20) > 1 {
		t.Errorf("got %.0f m2 at (%.1f, %.1f), %.1f m wide; want %.0f at (20.2, 100), 20", h.SquareMetres, h.X, h.Y, h.Widest, want)
	}
	h.Explain(lines, nil, nil)
	if !strings.Contains(h.Reason, "pings of line A are missing") {
		t.Errorf("the reason is %q", h.Reason)
	}
}

// The lines laid for a holiday fill it, when they are run: every cell of it is seen.
func TestFillFills(t *testing.T) {
	for _, test := range []struct {
		name  string
		lines []*survey.LineRecord
		most  float64 // metres of line, by hand
	}{
		// 40 by 20 m: one side sees 37 m beyond the nadir with some to spare, so one line the
		// long way, 40 m and 2 m at either end, and not one the short way.
		{"a gap", []*survey.LineRecord{ran("A", 30, -5, 205, 6, func(y float64) bool { return y > 90 && y < 110 }), ran("B", 90, -5, 205, 6, nil)}, 45},
		// 200 m of a strip: as long as it is, or five across it.
		{"a strip", []*survey.LineRecord{ran("A", 20, -5, 205, 6, nil), ran("B", 120, -5, 205, 6, nil)}, 206},
		{"everything", nil, 4 * 206},
	} {
		m, err := Take(square, 0.5, test.lines, nil)
		if err != nil {
			t.Fatal(err)
		}
		all := test.lines
		for _, h := range m.Holidays() {
			reach := survey.GroundReach(50, 6)
			h.Lay(reach)
			sum := 0.0
			for _, l := range h.Fill {
				sum += l.Length()
				all = append(all, along(l))
			}
			if len(h.Fill) == 0 || sum > test.most {
				t.Errorf("%s: %d lines of %.0f m in all, want at most %.0f", test.name, len(h.Fill), sum, test.most)
			}
		}
		again, err := Take(square, 0.5, all, nil)
		if err != nil {
			t.Fatal(err)
		}
		if left := again.Holidays(); len(left) > 0 {
			t.Errorf("%s: %d holidays are left, the largest of %.1f m2", test.name, len(left), left[0].SquareMetres)
		}
	}
}

// along is a line that was run as it was laid.
func along(l Line) *survey.LineRecord {
	track := geodesy.Track{AX: l.A.X, AY: l.A.Y, BX: l.B.X, BY: l.B.Y}
	out := &survey.LineRecord{Name: "fill", RangeScale: 50, Track: track}
	course := track.Bearing()
	for s := 0.0; s <= track.Length(); s += 0.5 {
		out.Pings = append(out.Pings, survey.PingRecord{
			Number: uint64(len(out.Pings) + 1), Height: 6,
			Fix: survey.Fix{X: l.A.X + s*math.Sin(course), Y: l.A.Y + s*math.Cos(course), Heading: course, Course: course},
		})
	}
	return out
}

func TestReasons(t *testing.T) {
	low := ran("A", 30, 0, 200, 2, nil) // 12.5 times 2 m
	faulty := ran("F", 30, 0, 200, 6, nil)
	for i := range faulty.Pings {
		faulty.Pings[i].Fix.Fault = "no fix"
	}
	for _, test := range []struct {
		name   string
		lines  []*survey.LineRecord
		hidden bool
		x      float64
		want   string
	}{
		{"low", []*survey.LineRecord{low}, false, 60, "2.0 m over the floor on line A sees 25 m out, and this lies 30 m off"},
		{"faulty", []*survey.LineRecord{faulty}, false, 40, "could not be trusted: no fix"},
		{"rejected", []*survey.LineRecord{ran("R", 30, 0, 200, 6, nil)}, true, 40, "line R passed 10 m off and does not count"},
		{"not run", nil, false, 40, "line P was planned 30 m off"},
		{"far", []*survey.LineRecord{ran("A", 200, 0, 200, 6, nil)}, false, 40, "line P was planned 30 m off"},
	} {
		h := Holiday{X: test.x, Y: 100}
		h.Explain(test.lines, func(int) bool { return !test.hidden }, []Planned{{"P", geodesy.Track{AX: 70, BX: 70, BY: 200}}})
		if !strings.Contains(h.Reason, test.want) {
			t.Errorf("%s: %q, want %q", test.name, h.Reason, test.want)
		}
	}
}
