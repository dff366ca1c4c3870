package tow

import "math"

// swing is a damped oscillator: an angle and its rate.
type swing struct{ angle, rate float64 }

// step advances
//
//	x'' + damping x' + stiffness (x - rest) = 0
//
// by dt seconds. It is the exact solution for a rest that does not move within
// the step, so that it holds for steps as long as the period.
func (s *swing) step(dt, stiffness, damping, rest float64) {
	a := damping / 2
	d := stiffness - a*a
	var c, n float64 // cos and sin/w of what remains after the decay, or cosh and sinh/w
	switch w := math.Sqrt(math.Abs(d)); {
	case w*dt < 1e-6:
		c, n = 1, dt
	case d > 0:
		sin, cos := math.Sincos(w * dt)
		c, n = cos, sin/w
	default:
		c, n = math.Cosh(w*dt), math.Sinh(w*dt)/w
	}
	decay := math.Exp(-a * dt)
	x := s.angle - rest
	s.angle = rest + decay*(x*c+(s.rate+a*x)*n)
	s.rate = decay * (s.rate*c - (a*s.rate+stiffness*x)*n)
}
