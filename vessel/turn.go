package vessel

import "math"

// Turn names a way round from one line to the next.
type Turn string

// The turns. Which of them fits depends on how far the lines lie apart in
// turning circles.
const (
	Simple    Turn = "simple"    // the shortest way
	Teardrop  Turn = "teardrop"  // swing out, then round in one bight: lines closer than two radii
	Racetrack Turn = "racetrack" // both bends the same way, with a straight between: lines further apart
)

// Turns lists them.
func Turns() []Turn { return []Turn{Simple, Teardrop, Racetrack} }

// Waypoint is a place to pass and the grid bearing to pass it on: metres, radians.
type Waypoint struct{ X, Y, Bearing float64 }

// Path is a way from one waypoint to another in three pieces, arcs of one
// radius and straights (L. E. Dubins, "On curves of minimal length with a
// constraint on average curvature", Am. J. Math. 79, 497-516, 1957).
type Path struct {
	From   Waypoint
	Radius float64 // metres
	bends  [3]bend
	run    [3]float64 // length of each piece, metres
}

// bend is how a piece curves.
type bend float64

const (
	port      bend = -1
	straight  bend = 0
	starboard bend = 1
)

// words are the orders of pieces that a shortest path can have, by turn.
var words = map[Turn][][3]bend{
	Simple: {
		{starboard, straight, starboard}, {port, straight, port}, {starboard, straight, port},
		{port, straight, starboard}, {port, starboard, port}, {starboard, port, starboard},
	},
	Teardrop:  {{port, starboard, port}, {starboard, port, starboard}},
	Racetrack: {{starboard, straight, starboard}, {port, straight, port}},
}

// PlanTurn lays a path from one waypoint to another, the shortest of those the
// turn allows; where it allows none (a teardrop to a far line) the shortest of
// all.
func PlanTurn(turn Turn, from, to Waypoint, radius float64) Path {
	best, found := Path{}, false
	for _, t := range []Turn{turn, Simple} {
		for _, word := range words[t] {
			if p, ok := lay(word, from, to, radius); ok && (!found || p.Length() < best.Length()) {
				best, found = p, true
			}
		}
		if found {
			return best
		}
	}
	return Path{From: from, Radius: radius} // from is to
}

// lay solves one word by the closed forms of A. M. Shkel and V. Lumelsky,
// "Classification of the Dubins set", Robotics and Autonomous Systems 34,
// 179-202 (2001), which are written for angles that grow to the left. Bearings
// grow to the right: their left is our starboard.
func lay(word [3]bend, from, to Waypoint, radius float64) (Path, bool) {
	east, north := to.X-from.X, to.Y-from.Y
	d := math.Hypot(east, north) / radius
	line := math.Atan2(east, north)
	a, b := from.Bearing-line, to.Bearing-line
	sa, ca := math.Sincos(a)
	sb, cb := math.Sincos(b)
	cab := math.Cos(a - b)
	var t, p, q float64
	switch word {
	case [3]bend{starboard, straight, starboard}:
		p = 2 + d*d - 2*cab + 2*d*(sa-sb)
		aim := math.Atan2(cb-ca, d+sa-sb)
		t, q = aim-a, b-aim
	case [3]bend{port, straight, port}:
		p = 2 + d*d - 2*cab + 2*d*(sb-sa)
		aim := math.Atan2(ca-cb, d-sa+sb)
		t, q = a-aim, aim-b
	case [3]bend{starboard, straight, port}:
		p = -2 + d*d + 2*cab + 2*d*(sa+sb)
		aim := math.Atan2(-ca-cb, d+sa+sb) - math.Atan2(-2, math.Sqrt(max(p, 0)))
		t, q = aim-a, aim-b
	case [3]bend{port, straight, starboard}:
		p = -2 + d*d + 2*cab - 2*d*(sa+sb)
		aim := math.Atan2(ca+cb, d-sa-sb) - math.Atan2(2, math.Sqrt(max(p, 0)))
		t, q = a-aim, b-aim
	case [3]bend{port, starboard, port}:
		c := (6 - d*d + 2*cab + 2*d*(sa-sb)) / 8
		if math.Abs(c) > 1 {
			return Path{}, false
		}
		p = 2*math.Pi - math.Acos(c)
		t = a - math.Atan2(ca-cb, d-sa+sb) + p/2
		q = a - b - t + p
	case [3]bend{starboard, port, starboard}:
		c := (6 - d*d + 2*cab + 2*d*(sb-sa)) / 8
		if math.Abs(c) > 1 {
			return Path{}, false
		}
		p = 2*math.Pi - math.Acos(c)
		t = -a + math.Atan2(cb-ca, d+sa-sb) + p/2
		q = b - a - t + p
	}
	if word[1] == straight {
		if p < 0 {
			return Path{}, false
		}
		p = math.Sqrt(p)
	}
	return Path{
		From: from, Radius: radius, bends: word,
		run: [3]float64{positive(t) * radius, p * radius, positive(q) * radius},
	}, true
}

// positive is an angle in 0..2 pi; a full turn that rounding made is none.
func positive(a float64) float64 {
	a = math.Mod(math.Mod(a, 2*math.Pi)+2*math.Pi, 2*math.Pi)
	if a > 2*math.Pi-1e-9 {
		return 0
	}
	return a
}

// Length is how long the path is, metres.
func (p *Path) Length() float64 { return p.run[0] + p.run[1] + p.run[2] }

// At is where she is to be a distance along the path, metres, and the curvature
// there, 1/m, positive to starboard. Beyond its end it runs straight on.
func (p *Path) At(along float64) (Waypoint, float64) {
	w := p.From
	for i, run := range p.run {
		part := min(max(along, 0), run)
		w = w.along(p.bends[i], part, p.Radius)
		if along < run {
			return w, float64(p.bends[i]) / p.Radius
		}
		along -= run
	}
	return w.along(straight, along, p.Radius), 0
}

// along is the waypoint further on.
func (w Waypoint) along(b bend, run, radius float64) Waypoint {
	if b == straight {
		sin, cos := math.Sincos(w.Bearing)
		return Waypoint{w.X + run*sin, w.Y + run*cos, w.Bearing}
	}
	turned := float64(b) * run / radius
	s0, c0 := math.Sincos(w.Bearing)
	s1, c1 := math.Sincos(w.Bearing + turned)
	r := float64(b) * radius
	return Waypoint{w.X + r*(c0-c1), w.Y + r*(s1-s0), w.Bearing + turned}
}
