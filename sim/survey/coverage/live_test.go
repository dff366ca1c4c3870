package coverage

import (
	"math"
	"testing"

	"dryline/sim/survey"
	"dryline/vessel/nav/geodesy"
)

// run gives a live map the pings of a line, up to a northing.
func run(l *Live, line *survey.LineRecord, to float64) {
	for i := range line.Pings {
		if p := &line.Pings[i]; p.Fix.Y <= to {
			l.Ping(line.Name, p.Fix, p.Height, line.RangeScale)
		}
	}
}

// Two lines 60 m apart with 50 m of range, the first of which has a gap of 20 m in its pings: what is due and
// unseen is worked out from the figures alone, at every stage of the survey. sqrt(50^2 - 6^2) = 49.64 m is seen
// on either side.
func TestHolidaysWhileLinesAreRun(t *testing.T) {
	planned := []Planned{{"A", geodesy.Track{AX: 30, AY: 0, BX: 30, BY: 200}}, {"B", geodesy.Track{AX: 90, AY: 200, BX: 90, BY: 0}}}
	l, err := NewLive(square, planned)
	if err != nil {
		t.Fatal(err)
	}
	unseen := func(when string, holidays int, square float64) {
		t.Helper()
		sum := 0.0
		found := l.Holidays()
		for _, h := range found {
			sum += h.SquareMetres
		}
		if len(found) != holidays || math.Abs(sum-square) > 0.06*square {
			t.Errorf("%s: %d holidays of %.0f m2 in all, want %d of %.0f", when, len(found), sum, holidays, square)
		}
	}
	unseen("before the first line", 0, 0)
	a := ran("A", 30, -5, 205, 6, func(y float64) bool { return y > 90 && y < 110 })
	run(l, a, 60)
	unseen("short of the gap", 0, 0)
	run(l, a, 205)
	l.Close()
	unseen("A is run", 1, 60*20) // its own half of the area; the other half is B's
	b := ran("B", 90, -5, 205, 6, nil)
	run(l, b, 50)
	unseen("B has not come to the gap", 1, 60*20)
	run(l, b, 205)
	l.Close()
	unseen("B is run", 1, 40.36*20) // it sees out to 90 - 49.64 m

	// The same as is found from the records of the lines, in cells of its size.
	m, err := Take(square, l.Cell(), []*survey.LineRecord{a, b}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if live, after := l.Holidays(), m.Holidays(); len(live) != len(after) || live[0].SquareMetres != after[0].SquareMetres {
		t.Errorf("live %+v, from the records %+v", live, after)
	}

	// A line that is added where the gap is belongs to what is to be run, and takes the gap over until it is.
	l.Plan(append(planned, Planned{"C", geodesy.Track{AX: 20, AY: 85, BX: 20, BY: 115}}))
	before := l.Holidays()
	run(l, ran("C", 20, 80, 120, 6, nil), 200)
	l.Close()
	if len(before) != 1 || before[0].SquareMetres > 0.6*40.36*20 || len(l.Holidays()) != 0 {
		t.Errorf("with C to come %+v, with C run %+v; want some and none", before, l.Holidays())
	}
}

// A large area is gone through in larger cells, and one without lines has nothing due.
func TestLiveMapsAreBounded(t *testing.T) {
	l, err := NewLive([]Point{{0, 0}, {3000, 0}, {3000, 2000}, {0, 2000}}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(l.belongs); n > mostLive*11/10 || n < mostLive/2 || len(l.Holidays()) != 0 {
		t.Errorf("%d cells of %.2f m and %d holidays, want about %d and none", n, l.Cell(), len(l.Holidays()), mostLive)
	}
}
