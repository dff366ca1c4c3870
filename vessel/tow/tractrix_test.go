package tow

import (
	"math"
	"testing"
)

// rod is one segment without weight that slides along itself freely and not at
// all across: the kinematic limit of a tow, of length L. It is held under water.
func rod(length float64) *Gear {
	s := Spec{
		Cable: Cable{Diameter: 0.01, Normal: 1e7, Length: length},
		Fish:  Fish{Weight: 1e-3, DragArea: 1e-3},
	}
	g := newGear(s, -50, length, 1, 0, 0, 0, 1)
	g.cable.vel[0] = vec{} // it starts from rest
	return g
}

// Pulled off straight from a beam start, leader at L tau, the fish runs along a
// tractrix: L (tau - tanh tau) along and L sech tau aside (exact, any textbook of
// curves).
func TestTractrix(t *testing.T) {
	const length, speed, dt = 20.0, 2.0, 0.02
	g := rod(length) // astern to the south; she goes off to the east
	for i := range 2000 {
		x := speed * dt * float64(i+1)
		g.Step(dt, x, 0, Uniform{}, -500)
		tau := x / length
		along, aside := length*(tau-math.Tanh(tau)), -length/math.Cosh(tau)
		if math.Hypot(g.X-along, g.Y-aside) > 2e-3*length {
			t.Fatalf("at %.2f L: fish at %.3f, %.3f, want %.3f, %.3f", tau, g.X, g.Y, along, aside)
		}
	}
}

// Round a circle of R > L it settles on one of sqrt(R^2 - L^2), R^2 = r^2 + L^2
// (exact).
func TestTractrixOfACircle(t *testing.T) {
	const length, speed, dt = 20.0, 2.0, 0.02
	for _, radius := range []float64{25, 40, 100} {
		g := rod(length)
		for i := range int(12 * radius / speed / dt) {
			a := speed / radius * dt * float64(i+1)
			g.Step(dt, radius*(1-math.Cos(a)), radius*math.Sin(a), Uniform{}, -500)
		}
		want := math.Sqrt(radius*radius - length*length)
		near(t, "radius of the fish", math.Hypot(g.X-radius, g.Y), want, 2e-3)
	}
}
