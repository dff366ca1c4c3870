package sim

import (
	"math"

	"dryline/vessel"
	"dryline/vessel/nav"
	"dryline/vessel/nav/geodesy"
)

// helm is who steers and what they were told last.
type helm struct {
	pilot vessel.Autopilot
	order Command
	speed float64 // wanted over ground, m/s
	track geodesy.Track
	round vessel.Round
}

// way is the rest of the turn being steered, a point every few metres.
func (h *helm) way() [][2]float64 {
	if h.order.Do != Turn {
		return nil
	}
	const stride = 4.0 // metres
	var points [][2]float64
	for along := h.round.Along; ; along += stride {
		p, _ := h.round.Path.At(min(along, h.round.Path.Length()))
		points = append(points, [2]float64{p.X, p.Y})
		if along >= h.round.Path.Length() {
			return points
		}
	}
}

// take gives the helm a steering order.
func (s *Session) take(c Command) {
	h := &s.helm
	h.order = c
	switch c.Do {
	case SteerLine:
		track := s.trackOf(c)
		if track != h.track {
			h.pilot.Reset()
		}
		h.track = track
	case Turn:
		at := s.seen()
		h.round = vessel.Round{Path: vessel.PlanTurn(c.Pattern,
			vessel.Waypoint{X: at.X, Y: at.Y, Bearing: s.course()}, s.entry(c), s.Exercise.Plan.TurnRadius)}
	}
}

func (s *Session) trackOf(c Command) geodesy.Track {
	return s.Exercise.Lines[s.Exercise.lineIndex(c.Line)].Track(c.Reversed)
}

// entry is where the run-in of a line begins: as far back as the fish trails,
// and the run-in more, so that it is straight when it comes to the line.
func (s *Session) entry(c Command) vessel.Waypoint {
	track := s.trackOf(c)
	sin, cos := math.Sincos(track.Bearing())
	back := s.Exercise.Plan.RunIn + s.Desk.FixAt(s.Now()).Layback
	return vessel.Waypoint{X: track.AX - back*sin, Y: track.AY - back*cos, Bearing: track.Bearing()}
}

// seen is what the helm sees: instruments, and before any were read the berth.
// Without a fix she is carried on by course and speed, without a heading the
// course over ground stands in for it.
func (s *Session) seen() vessel.Helm {
	if s.tick == 0 {
		h := &s.hull
		return vessel.Helm{X: h.X, Y: h.Y, Heading: h.Heading, SpeedOverGround: h.Surge}
	}
	r := &s.reading
	at := vessel.Helm{Heading: float64(r.GridHeading()), YawRate: r.RateOfTurn, SpeedOverGround: r.SpeedOverGround}
	at.X, at.Y = r.CarriedOn()
	if !r.Valid.Has(nav.Heading) {
		at.Heading = float64(r.GridCourse())
	}
	if !r.Valid.Has(nav.RateOfTurn) {
		at.YawRate = 0
	}
	return at
}

// course is the grid bearing she makes good, or her heading with no way on.
func (s *Session) course() float64 {
	at := s.seen()
	if s.tick == 0 || at.SpeedOverGround < 0.3 {
		return at.Heading
	}
	return float64(s.reading.GridCourse())
}

// steer returns the orders to the rudder and the engine for a tick.
func (s *Session) steer(dt float64) vessel.Orders {
	h, at := &s.helm, s.seen()
	k, t := s.hull.Nomoto()
	orders := vessel.Orders{Thrust: h.pilot.Engine(dt, h.speed, s.Exercise.Vessel.SpeedMax, at)}
	if h.order.Do == Turn {
		rudder, done := h.pilot.Around(&h.round, at, k, t)
		orders.Rudder = rudder
		if done { // and along the line
			s.take(Command{Do: SteerLine, Line: h.order.Line, Reversed: h.order.Reversed})
		}
	}
	switch h.order.Do {
	case SteerLine:
		orders.Rudder = h.pilot.Steer(dt, h.track, at, k, t)
	case SteerPoint:
		orders.Rudder = h.pilot.Hold(math.Atan2(h.order.X-at.X, h.order.Y-at.Y), at, k, t)
	case SteerHeading:
		orders.Rudder = h.pilot.Hold(h.order.Value, at, k, t)
	case Rudder:
		orders.Rudder = h.order.Value
	}
	return orders
}
