package debrief

import (
	"math"

	"dryline/sim"
	"dryline/sim/survey"
)

// makePosition compares the desk's fish and swath with the true ones, as they were
// worked up last.
//
// A point of the swath is a moment of the echo: the desk takes it for a slant
// range by its own sound speed and lays it on a flat floor at the height of
// its bottom track, square to the bearing that was chosen for it. In truth that moment is a
// slant range by the true sound speed, square to the fish, on the true floor.
// The pitch of the fish throws the plane of its beams ahead or astern, and the ground
// answered for lies abreast of where it has run to half-way through the ping. Left
// out: bending of rays, and layover, where one moment is two places.
func makePosition(s *sim.Session, lines []logged) Position {
	var fish, ground errorSample
	var askew sample        // degrees
	var ends [4]errorSample // port half, starboard half, port full, starboard full
	var out Position
	stretch := s.Engine().SoundSpeed() / s.Exercise.Desk.SoundSpeed
	handed := handedIn(s)
	if w := s.Desk.Worked; w != nil && w.Stretch > 0 {
		stretch /= w.Stretch // worked up with another sound speed
	}
	for i := range lines {
		l := &lines[i]
		sin, cos := math.Sincos(math.Atan2(l.Track.BX-l.Track.AX, l.Track.BY-l.Track.AY))
		resolve := func(dx, dy float64) (along, across float64) { return dx*sin + dy*cos, dx*cos - dy*sin }
		for j := range l.Pings {
			p, t := &l.Pings[j], l.truth[j]
			if h := handed[p.Number]; h != nil {
				p = h
			}
			if t == nil || p.Fix.Fault != "" {
				continue // what is not trusted is not painted
			}
			out.Pings++
			fish.add(resolve(p.Fix.X-t.X, p.Fix.Y-t.Y))
			askew.add(math.Remainder(p.Fix.Heading-t.Heading, 2*math.Pi) * 180 / math.Pi)
			reach := survey.GroundReach(l.RangeScale, p.Height)
			if reach <= 0 {
				continue
			}
			for k := range ends {
				g := reach * float64(1+k/2) / 2
				turn := math.Pi / 2
				if k%2 == 0 {
					turn = -turn
				}
				dx, dy := math.Sincos(p.Fix.Heading + turn)
				tx, ty, ok := trueGround(s, t, turn, stretch*math.Hypot(g, p.Height))
				if !ok {
					continue
				}
				along, across := resolve(p.Fix.X+dx*g-tx, p.Fix.Y+dy*g-ty)
				ends[k].add(along, across)
				if k < 2 {
					ground.add(along, across)
				}
			}
		}
	}
	out.Fish, out.GroundHalf = fish.report(), ground.report()
	out.PortHalf, out.StarboardHalf = ends[0].report(), ends[1].report()
	if n := float64(len(askew.values)); n > 0 {
		out.Askew = &Askew{Mean: round(askew.sum / n), RMS: round(math.Sqrt(askew.sum2 / n))}
	}
	out.PortFull, out.StarboardFull = ends[2].report(), ends[3].report()
	return out
}

// handedIn are the pings as they stand when the survey was worked up again after the
// watch, by number; none if it was not. What is handed in is what is marked.
func handedIn(s *sim.Session) map[uint64]*survey.PingRecord {
	if s.Desk.Worked == nil {
		return nil
	}
	out := map[uint64]*survey.PingRecord{}
	for _, l := range s.Desk.LatestLines() {
		for i := range l.Pings {
			out[l.Pings[i].Number] = &l.Pings[i]
		}
	}
	return out
}

// trueGround is where on the true floor an echo of that slant range comes
// from. It looks for the ground range whose floor lies at the slant range, by
// repeated substitution from a flat floor, halving each step so that it
// settles on any slope short of the beam's own.
func trueGround(s *sim.Session, t *sim.TruePing, turn, slant float64) (x, y float64, ok bool) {
	if !(slant > math.Abs(t.Altitude)) {
		return 0, 0, false
	}
	shift := t.Altitude*math.Tan(t.Pitch) + t.Speed*slant/s.Engine().SoundSpeed()
	fx, fy := math.Sincos(t.Heading)
	ux, uy := math.Sincos(t.Heading + turn)
	x0, y0 := t.X+shift*fx, t.Y+shift*fy
	g := math.Sqrt(slant*slant - t.Altitude*t.Altitude)
	for range 8 {
		drop := t.Z - s.World().HeightAt(x0+ux*g, y0+uy*g)
		g = (g + math.Sqrt(max(slant*slant-drop*drop, 0))) / 2
	}
	return x0 + ux*g, y0 + uy*g, true
}
