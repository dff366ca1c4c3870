package tow

import (
	"math"
	"testing"
)

// A fish dragged over the floor pulls with its drag in the water and Coulomb's
// friction, the coefficient times its load on the floor, on top, and, dug in as it is
// by then, with so many times its weight; one that lies still is not pushed.
func TestADraggedFishRubs(t *testing.T) {
	s := cases["S"]
	s.Cable.Length = 600
	const speed, depth, dt = 1.0, 6.0, 0.1
	g := New(s, 1, 30, speed, 0, 0, 0)
	y := 0.0
	for range 3000 {
		y += speed * dt
		g.Step(dt, 0, y, Uniform{}, -depth)
	}
	if !g.Grounded {
		t.Fatalf("the fish is %.2f m down in %g m: no test", g.Depth, depth)
	}
	c := &g.cable
	load := 100 * (c.fishWeight + c.fishMass*gravity) * (c.floor + clearance - c.at[0].z)
	if load < 0.02*s.Fish.Weight || load > s.Fish.Weight {
		t.Errorf("the fish lies on the floor with %.0f N, want some of its %.0f N", load, s.Fish.Weight)
	}
	want := c.fishDrag*speed*speed + (floorFriction*load+ploughs*min(s.Fish.Weight, 10*load))/(1+creep/speed)
	if got := math.Hypot(c.hold.x, c.hold.y); math.Abs(got-want) > 0.02*want {
		t.Errorf("it pulls with %.1f N, want %.1f N", got, want)
	}
	for range 600 {
		g.Step(dt, 0, y, Uniform{}, -depth)
	}
	x0, y0 := g.X, g.Y
	for range 600 {
		g.Step(dt, 0, y, Uniform{}, -depth)
	}
	// The cable still pulls, by less than the friction can hold: it creeps, at a
	// part of what the law gives up at.
	if slide := math.Hypot(g.X-x0, g.Y-y0) / 60; slide > creep/3 {
		t.Errorf("with no way on it slides at %.4f m/s, want under a third of %g", slide, creep)
	}
}
