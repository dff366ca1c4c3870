package tow

import (
	"math"
	"testing"
)

// A fish let go on a slack cable gathers way as a slender body of its mass and,
// across its axis, the water it displaces besides (Ca = 1; strip theory, any
// textbook of hydrodynamics): downward by its weight, ahead and abeam by the
// drag of a current.
func TestFishTakesWaterAlong(t *testing.T) {
	const (
		mass, weight, area = 50.0, 150.0, 0.04
		displaced          = mass - weight/9.81
		push               = 0.5 * 1025 * area * 0.8 * 0.8 // in a current of 0.8 m/s, N
	)
	for _, row := range []struct {
		name                      string
		east, north               float64 // current, m/s; the fish heads north
		wantEast, wantNorth, down float64 // m/s^2
	}{
		{"still water", 0, 0, 0, 0, weight / (mass + displaced)},
		{"a current from astern", 0, 0.8, 0, push / mass, weight / (mass + displaced)},
		{"a current from abeam", 0.8, 0, push / (mass + displaced), 0, weight / (mass + displaced)},
	} {
		s := Spec{
			Cable: Cable{Diameter: 1e-4, Length: 20}, // all but nothing
			Fish:  Fish{Weight: weight, DragArea: area, Mass: mass},
		}
		g := newGear(s, -50, 20, 1, 0, 0, 0, 1)
		c := &g.cable
		c.at[0], c.vel[0] = vec{0, -5, -55}, vec{}
		const dt = 1e-3
		g.Step(dt, 0, 0, Uniform{row.east, row.north}, -500)
		a := c.vel[0].times(1 / dt)
		for _, c := range []struct {
			name      string
			got, want float64
		}{{"east", a.x, row.wantEast}, {"north", a.y, row.wantNorth}, {"down", -a.z, row.down}} {
			if math.Abs(c.got-c.want) > 1e-3 {
				t.Errorf("%s: %s %.5f m/s^2, want %.5f", row.name, c.name, c.got, c.want)
			}
		}
	}
}

// Cable paid out on the floor lies on it and not in it: a node gives some
// millimetres under its weight.
func TestCableLiesOnTheFloor(t *testing.T) {
	for _, name := range []string{"S", "A", "P"} {
		s := cases[name]
		s.Winch = Winch{Rate: 0.5, Min: 2}
		g := New(s, 2, 30, 0.5, 0, 0, 0)
		g.Ordered = 120
		y := 0.0
		for range 4000 {
			y += 0.01
			g.Step(0.1, 0, y, Uniform{}, -15)
		}
		down := 0
		for i, p := range g.cable.at[:g.cable.n] {
			if p.z < -15-0.02 {
				t.Errorf("%s: node %d of %d is %.3f m in the floor", name, i, g.cable.n, -15-p.z)
			}
			if p.z < -15+0.01 {
				down++
			}
		}
		if down < 3 {
			t.Errorf("%s: %d nodes lie on the floor: no test of it", name, down)
		}
	}
}
