package tow

import (
	"math"
	"testing"
)

// Power is force times speed: a hand at the crank hauls slowly against a
// heavy cable, and pays out as fast as the drum turns.
func TestHandCrankHaulsByItsPower(t *testing.T) {
	s := finned()
	s.Winch = Winch{Rate: 0.5, Min: 2, Power: 70}
	g := newNorthward(s, 2, 2, 40, 2, usualNodes)
	g.run(0.1, 60)
	g.Ordered = 20
	before, work := g.CableOut, 0.0
	for range 200 {
		tension := g.Tension
		last := g.CableOut
		g.run(0.1, 0.1)
		work += tension * (last - g.CableOut)
	}
	if want := 70 * 20.0; math.Abs(work-want) > 0.02*want {
		t.Errorf("20 s at 70 W: %.0f J of work over %.2f m, want %.0f J", work, before-g.CableOut, want)
	}
	g.Ordered = 60
	before = g.CableOut
	g.run(0.1, 10)
	if got := g.CableOut - before; math.Abs(got-5) > 1e-6 {
		t.Errorf("paid out %.3f m in 10 s, want 5", got)
	}
}

func TestWinchStallsAndBrakeSlips(t *testing.T) {
	s := finned()
	s.Winch = Winch{Rate: 0.5, Min: 2, Pull: 200}
	g := newNorthward(s, 2, 2, 40, 2, usualNodes) // pulls some 300 N
	g.Ordered = 20
	g.run(0.1, 5)
	if !g.Stalled || g.CableOut != 40 {
		t.Errorf("stalled %t with %.1f m out against %.0f N, want stalled at 40", g.Stalled, g.CableOut, g.Tension)
	}
	s.Winch = Winch{Rate: 0.5, Min: 2, Brake: 450}
	g = newNorthward(s, 2, 2, 40, 2, usualNodes)
	g.run(0.1, 60)
	if g.Slipped != 0 {
		t.Errorf("slipped %.1f m at %.0f N, want the brake to hold 450 N", g.Slipped, g.Tension)
	}
	g.speed = 5
	g.run(0.1, 60)
	if g.Slipped <= 0 || g.CableOut != g.Ordered || math.Abs(g.CableOut-40-g.Slipped) > 1e-9 {
		t.Errorf("at 5 m/s %.1f m slipped, %.1f m out, %.1f m ordered; want cable lost and the order following", g.Slipped, g.CableOut, g.Ordered)
	}
}

func TestMarksAreEveryFiveMetres(t *testing.T) {
	for _, test := range []struct{ out, mark, past float64 }{{20, 20, 0}, {21.5, 20, 1.5}, {23, 25, -2}, {2, 0, 2}} {
		g := Gear{CableOut: test.out}
		if mark, past := g.Mark(); mark != test.mark || past != test.past {
			t.Errorf("%g m out: mark %g, %g past; want %g, %g", test.out, mark, past, test.mark, test.past)
		}
	}
}
