package vessel

import (
	"math"

	"dryline/vessel/nav/geodesy"
)

// Autopilot steers along a straight line by integral line-of-sight guidance
//
//	psi_d = psi_line - atan((y_e + kappa y_int)/Delta)
//	dy_int/dt = Delta y_e / (Delta^2 + (y_e + kappa y_int)^2)
//
// (Borhaug, Pavlov and Pettersen, CDC 2008, 4984-4991), where y_e is the
// distance off the line, positive to its right, and Delta the lookahead. The
// integral finds the crab angle that wind and current ask for. It knows only
// what the instruments say.
type Autopilot struct {
	Lookahead float64 // Delta, metres
	Integral  float64 // kappa, m/s

	yInt         float64
	throttleTrim float64
}

// NewAutopilot returns a pilot that looks so far ahead, metres. Far off its
// line the integral grows by at most 1/2 a second, so that a crab angle of some
// degrees at a long lookahead would take minutes at the gain that suits a small
// craft: the gain grows with the lookahead from 45 m on (our own choice, for the least overshoot of a 45 m ship).
func NewAutopilot(lookahead float64) Autopilot {
	return Autopilot{Lookahead: lookahead, Integral: max(0.3, lookahead/150)}
}

// Helm holds the readings that the autopilot steers by.
type Helm struct {
	X, Y            float64 // position by the fix, metres
	Heading         float64 // grid bearing, radians
	YawRate         float64 // radians per second
	SpeedOverGround float64 // m/s
}

// Steer returns the rudder for following the track. k and t are the Nomoto
// constants the autopilot was tuned with at this speed.
func (a *Autopilot) Steer(dt float64, track geodesy.Track, h Helm, k, t float64) float64 {
	return a.Hold(a.guide(dt, track, h.X, h.Y), h, k, t)
}

// guide is the guidance alone: the heading to steer at a place, dt seconds after
// it was last asked.
func (a *Autopilot) guide(dt float64, track geodesy.Track, x, y float64) float64 {
	_, ye := track.Offset(x, y)
	e := ye + a.Integral*a.yInt
	a.yInt += dt * a.Lookahead * ye / (a.Lookahead*a.Lookahead + e*e)
	return track.Bearing() - math.Atan(e/a.Lookahead)
}

// Hold returns the rudder for holding a heading: proportional and rate terms
// placed for a critically damped loop of natural frequency wn.
func (a *Autopilot) Hold(want float64, h Helm, k, t float64) float64 {
	return turnWith(want, 0, h, k, t)
}

// turnWith holds a heading that itself turns at a rate, radians per second.
func turnWith(want, rate float64, h Helm, k, t float64) float64 {
	wn := 1.2 / t
	kp := wn * wn * t / k
	kd := (2*wn*t - 1) / k
	return kp*Wrap(want-h.Heading) - kd*(h.YawRate-rate) + rate/k
}

// Round is a path being followed.
type Round struct {
	Path  Path
	Along float64 // abeam of her, metres
}

// Around returns the rudder for following a path round, and whether she has
// reached its end. She aims at a point a quarter of its radius ahead on it and
// turns as it turns there.
func (a *Autopilot) Around(r *Round, h Helm, k, t float64) (rudder float64, done bool) {
	const stride, mostStrides = 0.25, 80 // metres; a fix that jumps does not carry her far round
	miss := func(along float64) float64 {
		p, _ := r.Path.At(along)
		return math.Hypot(p.X-h.X, p.Y-h.Y)
	}
	here := miss(r.Along)
	for range mostStrides {
		next := miss(r.Along + stride)
		if next > here {
			break
		}
		r.Along, here = r.Along+stride, next
	}
	ahead := r.Along + 0.25*r.Path.Radius
	aim, curvature := r.Path.At(ahead)
	rate := curvature * h.SpeedOverGround
	return turnWith(math.Atan2(aim.X-h.X, aim.Y-h.Y)-curvature*0.125*r.Path.Radius, rate, h, k, t), r.Along >= r.Path.Length()
}

// Reset forgets the crab angle found so far.
func (a *Autopilot) Reset() { a.yInt = 0 }

// Engine returns the share of full power that keeps the speed over ground: a
// proportional and integral governor around the still-water curve.
func (a *Autopilot) Engine(dt, want, speedMax float64, h Helm) float64 {
	miss := want - h.SpeedOverGround
	a.throttleTrim = min(max(a.throttleTrim+0.05*miss/speedMax*dt, -0.6), 0.6)
	base := want / speedMax
	return base*math.Abs(base) + 0.8*miss/speedMax + a.throttleTrim
}
