package tow

import (
	"math"
	"testing"
)

// towed is a fish towed for some seconds at a speed over a floor at a height, and the
// mean tension of the last half.
func towed(s Spec, speed, out, floor, seconds float64) (g *Gear, mean float64) {
	g = New(s, 2, out, speed, 0, 0, 0)
	n := 0
	for i := range int(seconds * 10) {
		g.Step(0.1, 0, speed*float64(i+1)/10, still{}, floor)
		if float64(i) > seconds*5 {
			mean += g.Tension
			n++
		}
	}
	return g, mean / float64(n)
}

type still struct{}

func (still) Current(float64) (east, north float64) { return 0, 0 }

func snagSpec() Spec {
	return Spec{
		Cable: Cable{Diameter: 0.0105, Weight: 0.6, Normal: 1.3, Tangential: 0.01, Length: 100},
		Fish:  Fish{Weight: 260, DragArea: 0.022}, Winch: Winch{Rate: 0.4, Min: 2},
	}
}

// A fish dragged along the floor at 4.4 knots for a minute strains the cable more than
// the same fish that flies clear of it.
func TestDraggingRaisesTheTension(t *testing.T) {
	const speed, out = 4.4 * 1852 / 3600, 40.0
	free, clear := towed(snagSpec(), speed, out, -100, 60)
	g, dragged := towed(snagSpec(), speed, out, -free.Depth+1.5, 60)
	t.Logf("clear %.0f N at %.1f m, dragged %.0f N at %.1f m", clear, free.Depth, dragged, g.Depth)
	if !(dragged > clear+50) {
		t.Errorf("dragged %.0f N, clear %.0f N", dragged, clear)
	}
}

// A fish held by a line from right under it balances: what the line pulls is EA times
// its strain, and the cable bears it besides what it bears anyway.
func TestHeldFishBalances(t *testing.T) {
	s := snagSpec()
	g := New(s, 2, 20, 0.05, 0, 0, 0)
	for range 600 {
		g.Step(0.1, 0, 0, still{}, -100)
	}
	before, depth := g.Tension, g.Depth
	h := &Hold{At: [3]float64{0, g.Y, -depth - 10}, Length: 9.5, EA: 2e4}
	g.SetHold(h)
	for range 900 {
		g.Step(0.1, 0, 0, still{}, -100)
	}
	want := h.EA * (10 - (g.Depth - depth) - h.Length) / h.Length
	if pull := g.HoldPull(); math.Abs(pull-want) > 0.02*want || math.Abs(g.Tension-before-pull) > 0.03*pull {
		t.Errorf("the line pulls %.1f N, want %.1f; the cable bears %.1f N more", pull, want, g.Tension-before)
	}
	g.SetHold(nil)
	if g.HoldPull() != 0 {
		t.Error("nothing pulls")
	}
}

// How near the tow comes is what its curve says.
func TestNearest(t *testing.T) {
	g, _ := towed(snagSpec(), 2, 40, -100, 5)
	curve := g.Curve(nil)
	fish := curve[0]
	if d, at := g.Nearest(fish[0]+0.3, fish[1]-4); math.Abs(d-math.Hypot(0.3, 4)) > 1e-6 || math.Abs(at+fish[2]) > 1e-6 {
		t.Errorf("astern of the fish: %.3f m at %.2f m", d, at)
	}
	middle := curve[len(curve)/2]
	if d, at := g.Nearest(middle[0]+0.5, middle[1]); math.Abs(d-0.5) > 1e-3 || math.Abs(at+middle[2]) > 0.01 {
		t.Errorf("beside the cable: %.3f m at %.2f m", d, at)
	}
}
