package trial

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/simtest"
)

// The share of ground seen by 0, 1, 2 and 3 lines of a definite range R at spacing S with a
// gap g under the fish (worked out from which lines have g <= |x - iS| <= R).
func TestCoverLooksAsLinesDo(t *testing.T) {
	for _, c := range []struct {
		r, s, g float64
		want    [4]float64
	}{
		{100, 160, 0, [4]float64{0, .75, .25, 0}},
		{100, 160, 10, [4]float64{.125, .625, .25, 0}},
		{100, 160, 20, [4]float64{.25, .5, .25, 0}},
		{100, 80, 10, [4]float64{0, 0, .75, .25}},
		{75, 120, 10, [4]float64{.1667, .5833, .25, 0}},
	} {
		x0, x1 := 0.0, 3*c.s
		m := newCover([]seabed.Point{{X: x0, Y: 0}, {X: x1, Y: 0}, {X: x1, Y: 60}, {X: x0, Y: 60}})
		for line := -3; line <= 6; line++ {
			for y := -10.0; y < 70; y += 0.25 {
				m.sweep(line+4, x0+float64(line)*c.s, y, 0, c.g, c.r)
			}
		}
		var got [4]float64
		for i := range m.looks {
			got[min(m.looks[i], 3)] += 1 / float64(len(m.looks))
		}
		for k := range got {
			if math.Abs(got[k]-c.want[k]) > 2.2/c.s { // a cell at each of the edges
				t.Errorf("R %g, S %g, g %g: %.4f seen %d times, want %.4f", c.r, c.s, c.g, got[k], k, c.want[k])
			}
		}
	}
}

// Koopman's random search and the cookie cutter at coverages C (Search and Screening, as
// tabulated in search theory texts: 1 - exp(-C)).
func TestBrackets(t *testing.T) {
	for c, want := range map[float64]float64{0.25: 0.22120, 0.5: 0.39347, 1: 0.63212, 1.5: 0.77687, 2: 0.86466} {
		if got := RandomSearch(c); math.Abs(got-want) > 5e-6 {
			t.Errorf("random search at %g: %.5f, want %.5f", c, got, want)
		}
		if got := CookieCutter(c); got != min(c, 1) {
			t.Errorf("cookie cutter at %g: %g", c, got)
		}
	}
}

// Johnson's curve in the usual fit: r of 0.5 gives .1077, 1 gives .5, 1.5 gives .8206 and 2
// gives .9449 (worked out from P = r^E/(1+r^E), E = 2.7 + 0.7 r).
func TestObserverFollowsJohnson(t *testing.T) {
	for r, want := range map[float64]float64{0.5: .1077, 0.75: .2834, 1: .5, 1.5: .8206, 2: .9449, 3: .9949} {
		if got := johnson(r); math.Abs(got-want) > 6e-5 {
			t.Errorf("r = %g: %.4f, want %.4f", r, got, want)
		}
	}
	if got := Observed(&Look{Score: 10, Pings: 20, Samples: 20}, 11); got != 0 {
		t.Errorf("what the detector does not raise is seen with %g", got)
	}
}

// Draws are the same for every plan, each thing from its own stream, within the area and
// apart from each other.
func TestDraws(t *testing.T) {
	area := []seabed.Point{{X: 100, Y: 100}, {X: 500, Y: 120}, {X: 480, Y: 500}, {X: 90, Y: 480}}
	wind := &Range{5, 15}
	spec := &Spec{Targets: []Target{{Kind: "block", Length: 1, Width: 1, Height: 1, Count: 5}}, Weather: Weather{Wind: wind, WindFrom: &Range{350, 20}}}
	one, err := Draw(spec, area, 7, 3)
	if err != nil {
		t.Fatal(err)
	}
	spec.Targets = append(spec.Targets, Target{Kind: "cylinder", Length: 0.6, Width: 0.6, Height: 0.6, Count: 4})
	more, err := Draw(spec, area, 7, 3)
	if err != nil {
		t.Fatal(err)
	}
	if *one.Wind < 5 || *one.Wind > 15 || *one.Wind != *more.Wind || one.Seed != more.Seed {
		t.Errorf("wind %g and %g, seeds %d and %d", *one.Wind, *more.Wind, one.Seed, more.Seed)
	}
	if f := *one.WindFrom; f > 20 && f < 350 {
		t.Errorf("the wind blows from %g", f)
	}
	for i, o := range more.Objects {
		if i < 5 && o != one.Objects[i] {
			t.Errorf("target %d is moved by others that follow", i)
		}
		if !within(area, o.At.X, o.At.Y) {
			t.Errorf("target %d lies outside", i)
		}
		for k := range i {
			if b := more.Objects[k]; math.Hypot(o.At.X-b.At.X, o.At.Y-b.At.Y) < apart {
				t.Errorf("targets %d and %d lie together", k, i)
			}
		}
	}
	spec.Targets[0].Count = 40
	spec.Targets[1].Count = 400
	if _, err := Draw(spec, area, 7, 3); err == nil {
		t.Error("440 targets find room")
	}
}

// Limits of range beyond what is asked for are not reached for.
func TestReachIsWhatTheHeightCarries(t *testing.T) {
	r := &reach{75, func(float64) float64 { return math.Inf(1) }}
	if got := r.at(4); got != 50 { // 12.5 times the height, NOAA Specifications and Deliverables 2021, 6.1.2
		t.Errorf("a height of 4 m carries %g m", got)
	}
	if got := r.at(8); got != 75 {
		t.Errorf("a height of 8 m carries %g m of 75", got)
	}
}

// A line along the edge of an area, one well within, one that looks in from outside and one
// that looks past it (worked out by hand from a definite range of 50 m).
func TestSweptLiesWithinTheArea(t *testing.T) {
	grid := simtest.Small(t).Place.Grid
	for x, want := range map[float64]float64{100: 100, 200: 50, 230: 20, 300: 0} {
		ex := &exercise.Exercise{Place: exercise.Place{Grid: grid}}
		ex.Lines = []exercise.Line{{A: seabed.Point{X: x, Y: 0}, B: seabed.Point{X: x, Y: 300}}}
		ex.Plan.Order = []exercise.Run{{}}
		tr := &Trial{Spec: &Spec{Area: []seabed.Point{{X: 0, Y: 100}, {X: 200, Y: 100}, {X: 200, Y: 300}, {X: 0, Y: 300}}}, Plans: []Plan{{Exercise: ex}}}
		got := tr.swept(0, []LateralBin{{From: 0, To: 50, Interval: Interval{P: 0.5}}})
		if math.Abs(got-0.5*200*want) > 0.02*0.5*200*100 {
			t.Errorf("a line at %g m sweeps %.0f m2, want %.0f", x, got, 0.5*200*want)
		}
	}
}

// Plans are judged on the runs that all were flown in: where one is ahead, its runs are not
// set against others of the other plan.
func TestStoppedTrialsPairTheSameRuns(t *testing.T) {
	ex := simtest.Small(t)
	tr := &Trial{
		Spec:  &Spec{Targets: []Target{{Kind: "block", Length: 1, Count: 1}}, Area: []seabed.Point{{X: 100, Y: 100}, {X: 200, Y: 100}, {X: 200, Y: 200}}},
		Plans: []Plan{{Name: "a", Exercise: ex}, {Name: "b", Exercise: ex}},
	}
	var all []Outcome
	for run := range 9 {
		for plan := range 2 {
			if plan == 0 && run == 2 || plan == 1 && run >= 7 {
				continue // not flown when it was stopped
			}
			// A run's weather decides what is found and how long it takes; the plans are alike.
			all = append(all, Outcome{Plan: plan, Run: run, Time: 100 * float64(run), Seen: []Sight{{Looks: []Look{{Score: 10 * float64(run%2)}}}}})
		}
	}
	r, err := tr.Judge(all, []*Bare{{Threshold: 5}, {Threshold: 5}}, 9)
	if err != nil {
		t.Fatal(err)
	}
	p := r.Pairs[0]
	if r.Runs != 6 || !r.Partial || r.Plans[0].Runs != 6 || p.Detection != (Mean{}) || p.Time != (Mean{}) {
		t.Errorf("%d runs, pairs %+v", r.Runs, p)
	}
}
