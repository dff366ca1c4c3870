package plan

import (
	"math"
	"testing"
)

// Plans that are marked as unbeaten are: by brute force over all pairs. The plan as asked stays
// among them, and margins hold the value between them.
func TestImproveMarksWhatNothingBeats(t *testing.T) {
	s := plain(600, 900)
	s.Spacing, s.Overlap, s.Nadir, s.TurnRadius = 0, 0.2, GapLeft, 40
	asked, err := Make(s)
	if err != nil {
		t.Fatal(err)
	}
	all := Improve(asked, Search{Ranges: []float64{50, 100}, Speeds: []float64{s.Speed, 1.3 * s.Speed}, Nadirs: Nadirs()}, ByGeometry{0.8, 0.6, 0.95})
	if len(all) != 1+2*2*3 {
		t.Fatalf("%d plans, want the one as asked and 12", len(all))
	}
	chosen, best := 0, 0
	for _, a := range all {
		if a.Chosen {
			chosen++
		}
		if a.Worth.Low > a.Worth.Value || a.Worth.Value > a.Worth.High {
			t.Errorf("%g is not between %g and %g", a.Worth.Value, a.Worth.Low, a.Worth.High)
		}
		beaten := !a.Works
		for _, b := range all {
			beaten = beaten || b.Works && b.Plan.Time < a.Plan.Time-1 && b.Worth.Value > a.Worth.Value+1e-6
		}
		if a.Best && beaten {
			t.Errorf("a plan of %.0f s and %.3f is called unbeaten", a.Plan.Time, a.Worth.Value)
		}
		if a.Best {
			best++
		}
	}
	if chosen != 1 || best == 0 || best == len(all) {
		t.Errorf("%d as asked, %d unbeaten of %d", chosen, best, len(all))
	}
}

// By geometry, lines without end that all overlap are worth what the shares of looks say.
func TestWorthIsThatOfTheLooks(t *testing.T) {
	s := plain(1600, 1600)
	s.Edges, s.Gap, s.Auto = true, 20, false
	p, err := Make(s)
	if err != nil {
		t.Fatal(err)
	}
	want := Found(Looks(s.reach(), 160, 20), 0.8) // 0.25 unseen, 0.5 once, 0.25 twice: 0.64
	if got := (ByGeometry{0.8, 0.6, 0.95}).Judge(p).Value; math.Abs(got-want) > 0.02 || math.Abs(want-0.64) > 0.01 {
		t.Errorf("worth %.3f, want %.3f", got, want)
	}
}
