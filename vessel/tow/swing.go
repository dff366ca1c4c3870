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
	var c, n float64 // cos and sin/w of what remains, or cosh and sinh/w, times the decay
	switch w := math.Sqrt(math.Abs(d)); {
	case w*dt < 1e-6:
		c = math.Exp(-a * dt)
		n = c * dt
	case d > 0:
		sin, cos := math.Sincos(w * dt)
		decay := math.Exp(-a * dt)
		c, n = decay*cos, decay*sin/w
	default: // w is less than a: neither exponential grows
		slow, fast := math.Exp((w-a)*dt), math.Exp(-(w+a)*dt)
		c, n = (slow+fast)/2, (slow-fast)/(2*w)
	}
	x := s.angle - rest
	s.angle = rest + x*c + (s.rate+a*x)*n
	s.rate = s.rate*c - (a*s.rate+stiffness*x)*n
}
