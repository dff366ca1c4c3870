package survey

import (
	"math"
	"testing"

	"dryline/vessel/nav/geodesy"
)

// IHO C-13, chapter 4, 2.3.9.11: heights are taken from both sides and averaged. On
// a floor that falls to the east the shadow to the east is too long and the one to
// the west too short: 6 m from 12 to 18 m of range and the fish 6 m up tell
// 2 m, 3 m from 9 to 12 m tell 1.5 m; measured twice on a line the last counts.
func TestHeightIsTheMeanOfThePasses(t *testing.T) {
	d := north(t)
	second := newLineRecord("L2", geodesy.Track{AX: 30, BX: 30, BY: 100}, d.Recorder)
	for i := range 200 {
		second.addPing(Ping{Number: uint64(400 + i), Fix: Fix{X: 30, Y: float64(i) / 2}}, 6, true)
	}
	d.Lines = append(d.Lines, second)
	n, err := d.Mark(12, 30, 160, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range []struct {
		x, x2 float64
		ping  uint64
	}{{12, 20, 160}, {12, 18, 160}, {21, 18, 460}} {
		if err := d.Measure(n, Shadow, m.x, 30, m.x2, 30, m.ping, 0); err != nil {
			t.Fatal(err)
		}
	}
	c := &d.Contacts[0]
	if h := c.Heights(); len(h) != 2 || math.Abs(h[0]-2) > 1e-9 || math.Abs(h[1]-1.5) > 1e-9 || math.Abs(c.Height-1.75) > 1e-9 {
		t.Errorf("heights %v, mean %.3f m; want 2 and 1.5, 1.75", h, c.Height)
	}
	if len(c.Measures) != 3 || c.Measures[2] != (Measure{What: Shadow, X: 21, Y: 30, X2: 18, Y2: 30, Metres: 3, Line: "L2", Run: 2, Ping: 460, Height: 1.5}) {
		t.Errorf("the ends are not kept: %+v", c.Measures)
	}
}

// A contact seen from two lines lies at the mean of both picks (IHO C-13, chapter 4,
// 2.3.9.10), and a mark on the record comes back to where it was picked.
func TestSightOnASecondPass(t *testing.T) {
	d := north(t)
	second := newLineRecord("L1", geodesy.Track{AX: 30, BX: 30, BY: 100}.Reversed(), d.Recorder)
	for i := range 200 {
		second.addPing(Ping{Number: uint64(400 + i), Fix: Fix{X: 30, Y: 100 - float64(i)/2, Heading: math.Pi, Course: math.Pi, Lead: 0.001}}, 5, true)
	}
	d.Lines = append(d.Lines, second)
	n, _ := d.Mark(8, 30, 160, 0)
	if err := d.Sight(n, 10, 33, 534); err != nil {
		t.Fatal(err)
	}
	c := &d.Contacts[0]
	if math.Hypot(c.X-9, c.Y-31.5) > 1e-3 || len(c.Passes) != 2 || c.Passes[1].Run != 2 || !c.Passes[1].Starboard {
		t.Errorf("got %+v", c)
	}
	_, p := d.logged(534)
	if x, y, across := c.Passes[1].Ground(p); math.Hypot(x-10, y-33) > 1e-3 || math.Abs(across-20) > 1e-6 {
		t.Errorf("the mark comes back to (%.4f, %.4f), %.3f m across", x, y, across)
	}
	d.correlate([]Contact{{Lines: []string{"L3"}, X: 9, Y: 31, Passes: []Pass{{Line: "L3", Run: 3}}}})
	if err := d.Undo(); err != nil {
		t.Fatal(err)
	}
	if c := &d.Contacts[0]; c.X != 8 || c.Y != 30 || len(c.Passes) != 2 || c.Passes[1].Run != 3 {
		t.Errorf("undone it is %+v, want the lookout's pass left", c)
	}
}
